//! The nearest of some words, for "did you mean".

/// The nearest of `words` to `written`, if any is near: one slip in a short word,
/// two in a longer one. Case, hyphens and blanks do not count.
pub(crate) fn nearest<'w>(
    written: &str,
    words: impl IntoIterator<Item = &'w str>,
) -> Option<&'w str> {
    let written = plain(written);
    let slips = match written.len() {
        0..=2 => return None,
        3..=4 => 1,
        _ => 2,
    };
    let near = |word: &'w str| Some((distance(&written, &plain(word), slips)?, word));
    words.into_iter().filter_map(near).min_by_key(|(slips, _)| *slips).map(|(_, word)| word)
}

fn plain(word: &str) -> Vec<char> {
    let letters = word.chars().filter(|c| c.is_alphanumeric());
    letters.take(40).flat_map(char::to_lowercase).collect()
}

/// Letters added, lost, changed or swapped between two words, at most `most`.
pub(crate) fn distance(a: &[char], b: &[char], most: usize) -> Option<usize> {
    if a.len().abs_diff(b.len()) > most {
        return None;
    }
    let mut before: Vec<usize> = Vec::new();
    let mut above: Vec<usize> = (0..=b.len()).collect();
    for (i, x) in a.iter().enumerate() {
        let mut row = vec![i + 1];
        for (j, y) in b.iter().enumerate() {
            let at = |row: &[usize], j: usize| row.get(j).copied().unwrap_or(usize::MAX / 2);
            let changed = at(&above, j) + usize::from(x != y);
            let mut least = changed.min(at(&above, j + 1) + 1).min(at(&row, j) + 1);
            let twisted = i > 0 && j > 0 && a.get(i - 1) == Some(y) && b.get(j - 1) == Some(x);
            if twisted {
                least = least.min(at(&before, j - 1) + 1);
            }
            row.push(least);
        }
        before = std::mem::replace(&mut above, row);
    }
    above.last().copied().filter(|slips| *slips <= most)
}

#[cfg(test)]
mod tests {
    use super::nearest;

    const WORDS: &[&str] = &["glass", "garnish", "free-from", "abv", "ph"];

    #[test]
    fn a_slip_is_near() {
        let check =
            |written, word| assert_eq!(nearest(written, WORDS.iter().copied()), word, "{written}");
        check("glas", Some("glass"));
        check("galss", Some("glass"));
        check("Garnsh", Some("garnish"));
        check("freefrom", Some("free-from"));
        check("avb", Some("abv"));
        check("method", None);
        check("p", None);
    }
}
