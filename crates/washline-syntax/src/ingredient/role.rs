//! What a line is for, where it says so behind its name.

use washline_text::Span;

use crate::Role;
use crate::slice::{gap, one_of};

/// Role words, longest first; `to`, `for` or `as a` may stand before them.
pub(crate) const ROLES: &[(&str, Role)] = &[
    ("top up", Role::Top),
    ("top", Role::Top),
    ("fill up", Role::Top),
    ("fill", Role::Top),
    ("float", Role::Float),
    ("rinse", Role::Rinse),
    ("mist", Role::Mist),
    ("rim", Role::Rim),
    ("garnish", Role::Garnish),
    ("taste", Role::Taste),
];

pub(crate) const BEFORE: &[(&str, ())] =
    &[("to", ()), ("for the", ()), ("for a", ()), ("for", ()), ("as a", ()), ("as", ())];

/// What a qualifier makes of its line: `to top`, `for garnish`, `on the side`, `optional`.
#[must_use]
pub fn of(qualifier: &str) -> Option<Role> {
    let text = qualifier.trim();
    let whole = |(role, rest): (Role, &str)| rest.is_empty().then_some(role);
    let alone = [("on the side", Role::Side), ("optional", Role::Optional)];
    if let Some(role) = one_of(text, &alone).and_then(whole) {
        return Some(role);
    }
    let start = one_of(text, BEFORE).map_or(text, |((), rest)| gap(rest));
    one_of(start, ROLES).and_then(whole).filter(|role| *role != Role::Taste || start != text)
}

/// The role of a line: its own, unless a qualifier says another. What may be left
/// out is optional first; what is served beside is beside.
pub(super) fn of_line(text: &str, own: Role, qualifiers: &[Span]) -> Role {
    let mut role = own;
    for said in qualifiers.iter().filter_map(|span| of(span.text(text))) {
        role = match (role, said) {
            (Role::Side, _) | (_, Role::Side) => Role::Side,
            (Role::Optional, _) | (_, Role::Optional) => Role::Optional,
            (Role::Poured, said) => said,
            (kept, _) => kept,
        };
    }
    role
}

/// Takes a role off the end of a name: `absinthe rinse`, `salt rim`, `soda to top`.
pub(super) fn in_name(name: &mut &str) -> Option<Role> {
    let (role, left) = behind(name)?;
    *name = left;
    Some(role)
}

/// The role that ends `name`, and the name before it; none where nothing would be left.
pub(super) fn behind(name: &str) -> Option<(Role, &str)> {
    // Most names end in no role, and their last letter tells.
    let last = name.as_bytes().last()? | 0x20;
    if !matches!(last, b'e' | b't' | b'm' | b'p' | b'l' | b'h') {
        return None;
    }
    let ends = |word: &str| {
        let start = name.len().checked_sub(word.len()).filter(|start| *start > 0);
        start.and_then(|start| name.get(start..)).is_some_and(|end| end.eq_ignore_ascii_case(word))
    };
    LAST.iter().find(|word| ends(word))?;
    let (left, last) = cut(name)?;
    let joined = cut(left).filter(|(_, word)| word.eq_ignore_ascii_case("to"));
    if let Some((left, _)) = joined {
        let words = name.get(left.len()..)?.trim_start();
        return of(words).map(|role| (role, left));
    }
    let alone = ["rinse", "float", "mist", "rim"].iter().any(|w| w.eq_ignore_ascii_case(last));
    alone.then(|| of(last)).flatten().map(|role| (role, left))
}

/// The last words of roles.
const LAST: &[&str] = &["rinse", "float", "mist", "rim", "top", "up", "fill", "taste", "garnish"];

/// A name without its last word, and that word.
pub(super) fn cut(name: &str) -> Option<(&str, &str)> {
    let name = name.trim_end();
    let at = name.rfind(char::is_whitespace)?;
    let (left, last) = name.split_at_checked(at)?;
    let left = left.trim_end();
    (!left.is_empty()).then(|| (left, last.trim_start()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn qualifiers_say_what_a_line_is_for() {
        let all = [
            ("to top", Role::Top),
            ("top", Role::Top),
            ("to top up", Role::Top),
            ("To Fill", Role::Top),
            ("float", Role::Float),
            ("as a float", Role::Float),
            ("for the rim", Role::Rim),
            ("to rinse", Role::Rinse),
            ("for garnish", Role::Garnish),
            ("to taste", Role::Taste),
            ("on the side", Role::Side),
            ("optional", Role::Optional),
        ];
        for (text, role) in all {
            assert_eq!(of(text), Some(role), "{text}");
        }
        for prose in ["fresh", "top shelf", "taste", "to top shelf", "rimmed"] {
            assert_eq!(of(prose), None, "{prose}");
        }
    }

    #[test]
    fn a_role_may_end_a_name() {
        assert_eq!(behind("absinthe rinse"), Some((Role::Rinse, "absinthe")));
        assert_eq!(behind("soda water to top"), Some((Role::Top, "soda water")));
        assert_eq!(behind("salt to taste"), Some((Role::Taste, "salt")));
        assert_eq!(behind("rinse"), None);
        assert_eq!(behind("big top"), None);
    }
}
