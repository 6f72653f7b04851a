//! How well a few typed letters fit a name.

/// How far `name` is from what was typed, both folded: 0 is the name itself. The start of the
/// name is nearer than the start of a later word, that nearer than the middle of one, and
/// letters strewn over the name in their order, from the start of a word on, are the farthest.
/// None where they do not fit.
pub(crate) fn distance(typed: &str, name: &str) -> Option<u32> {
    if typed.is_empty() {
        return Some(0);
    }
    let longer = u32::try_from(name.len().saturating_sub(typed.len())).unwrap_or(u32::MAX);
    let more = longer.min(99);
    if name.starts_with(typed) {
        return Some(more);
    }
    if let Some(at) = name.find(typed) {
        return Some(if starts_word(name, at) { 100 + more } else { 200 + more });
    }
    let starts = name.char_indices().filter(|(at, _)| starts_word(name, *at));
    let gaps = starts.filter_map(|(at, _)| gaps(typed, name.get(at..)?)).min()?;
    Some(300 + gaps.saturating_mul(10).min(600) + more)
}

fn starts_word(name: &str, at: usize) -> bool {
    let before = name.get(..at).and_then(|before| before.chars().next_back());
    before.is_none_or(|c| !c.is_alphanumeric())
}

/// How often the letters of `typed` leave off and go on in `name`; none where they are not
/// all there in their order, the first of them at its start.
fn gaps(typed: &str, name: &str) -> Option<u32> {
    let mut letters = name.chars();
    let mut gaps = 0;
    if !typed.chars().find(|c| !c.is_whitespace()).is_some_and(|first| name.starts_with(first)) {
        return None;
    }
    for letter in typed.chars().filter(|c| !c.is_whitespace()) {
        let mut passed = false;
        loop {
            if letters.next()? == letter {
                break;
            }
            passed = true;
        }
        gaps += u32::from(passed);
    }
    Some(gaps)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearer_the_start_the_better() {
        let mut names = ["old harbour", "shore", "harbour light", "anchor bay our", "harbour"];
        names.sort_by_key(|name| distance("harbour", name).unwrap_or(u32::MAX));
        assert_eq!(names[..3], ["harbour", "harbour light", "old harbour"]);
    }

    #[test]
    fn letters_in_their_order_are_enough() {
        assert!(distance("hbl", "harbour light").is_some());
        assert!(distance("lbh", "harbour light").is_none());
        assert!(distance("lght", "harbour light").is_some());
        assert!(distance("eg", "strength").is_none());
        assert_eq!(distance("", "anything"), Some(0));
    }
}
