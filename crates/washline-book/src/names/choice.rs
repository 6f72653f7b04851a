//! A choice of names: `bourbon or rye whiskey`.

/// The sides of a choice (`bourbon or rye whiskey`); a side that is unknown alone
/// takes the last words of another.
pub(crate) fn choice(name: &str) -> Option<Vec<&str>> {
    let lower = name.to_ascii_lowercase();
    let mut parts = Vec::new();
    let mut from = 0;
    let mut depth = 0_i32;
    let mut at = 0;
    while at < lower.len() {
        let rest = lower.get(at..)?;
        if rest.starts_with('(') {
            depth += 1;
        } else if rest.starts_with(')') {
            depth -= 1;
        }
        let joint = [" and/or ", " or "].into_iter().find(|joint| rest.starts_with(joint));
        if let Some(joint) = joint.filter(|_| depth == 0) {
            parts.push(name.get(from..at)?.trim());
            at += joint.len();
            from = at;
            continue;
        }
        at += rest.chars().next().map_or(1, char::len_utf8);
    }
    if parts.is_empty() {
        return None;
    }
    parts.push(name.get(from..)?.trim());
    parts.iter().all(|part| !part.is_empty()).then_some(parts)
}

#[cfg(test)]
mod tests {
    use super::choice;

    #[test]
    fn a_choice_has_sides() {
        assert_eq!(choice("bourbon or rye whiskey"), Some(vec!["bourbon", "rye whiskey"]));
        assert_eq!(choice("light or dark or gold rum"), Some(vec!["light", "dark", "gold rum"]));
        assert_eq!(choice("orange juice"), None);
        assert_eq!(choice("gin (or vodka)"), None);
    }
}
