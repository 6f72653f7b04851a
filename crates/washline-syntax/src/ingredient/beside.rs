//! A second ingredient behind a comma: `1 oz gin, 3/4 oz lime juice`.

use washline_text::Span;

use super::{skip_of, tail::parts};
use crate::amount::sum;
use crate::slice::{gap, trim};

/// Where the name stands in `said`, what is said of an ingredient, if it starts with an amount of
/// its own. Whether the name is one, and not prose (`12 years old`), is for who knows names to say.
#[must_use]
pub fn name_beside(said: &str) -> Option<Span> {
    let (rest, _) = sum(said).ok()?;
    let name = trim(parts(skip_of(gap(rest))).next()?);
    let parted = said.ends_with(name) && gap(rest).starts_with(char::is_alphabetic);
    (parted && !name.is_empty()).then(|| Span::of(name, said))
}

#[cfg(test)]
mod tests {
    use super::name_beside;

    #[test]
    fn a_name_stands_behind_an_amount() {
        let name = |said: &'static str| name_beside(said).map(|span| span.text(said));
        assert_eq!(name("3/4 oz lime juice"), Some("lime juice"));
        assert_eq!(name("3/4 lime"), Some("lime"));
        assert_eq!(name("15ml of gin"), Some("gin"));
        assert_eq!(name("43 % abv"), None);
        assert_eq!(name("2:1"), None);
        assert_eq!(name("30 ml"), None);
        assert_eq!(name("fresh"), None);
    }
}
