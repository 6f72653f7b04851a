//! The nearest word that would have been right.

use washline_reference::nearest::closest;

/// `did you mean …?` with the nearest of `candidates`, else the first that `word` begins,
/// then `help`; `help` alone where there is none.
pub(super) fn did_you_mean<'c>(
    word: &str,
    candidates: impl IntoIterator<Item = &'c str>,
    help: &str,
) -> String {
    let word = word.to_lowercase();
    let candidates: Vec<&str> = candidates.into_iter().collect();
    let near = closest(&word, candidates.iter().map(|candidate| (*candidate, ())), 1);
    let near = near.first().map(|(near, ())| *near);
    let begun = || candidates.iter().copied().find(|candidate| begins(&word, candidate));
    match near.or_else(begun) {
        Some(near) => format!("did you mean `{near}`? {help}"),
        None => help.to_owned(),
    }
}

/// Whether `word` is long enough to mean something, and `candidate` goes on from it.
fn begins(word: &str, candidate: &str) -> bool {
    word.len() >= 3 && candidate.starts_with(word)
}

/// `a, b, c and d`.
pub(super) fn listed<'w>(words: impl IntoIterator<Item = &'w str>) -> String {
    let words: Vec<&str> = words.into_iter().collect();
    match words.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
        Some((last, _)) => (*last).to_owned(),
        None => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_comes_before_the_longer() {
        let offered = |word| did_you_mean(word, ["hint", "warning", "information"], "write");
        assert_eq!(offered("Hnit"), "did you mean `hint`? write");
        assert_eq!(offered("warn"), "did you mean `warning`? write");
        assert_eq!(offered("in"), "write");
        assert_eq!(offered("grave"), "write");
    }
}
