//! The nearest names to a word that nothing knows.

/// The `limit` nearest of `candidates` to `word`, nearest first, each with what
/// came beside it.
///
/// Near is an edit distance (a letter put in, left out, changed, or two swapped)
/// of at most a third of `word`'s letters, and at least one. Candidates at the
/// same distance come in the order of their spelling.
pub fn closest<'a, T: Copy>(
    word: &str,
    candidates: impl IntoIterator<Item = (&'a str, T)>,
    limit: usize,
) -> Vec<(&'a str, T)> {
    let letters: Vec<char> = word.chars().collect();
    let most = (letters.len() / 3).max(1);
    let bag = Bag::of(word);
    let mut room = Room::default();
    let mut near: Vec<(usize, &str, T)> = Vec::new();
    for (candidate, beside) in candidates {
        let length = candidate.chars().count();
        if length.abs_diff(letters.len()) > most || bag.least_distance(candidate) > most {
            continue;
        }
        if let Some(distance) = room.distance(&letters, candidate, most) {
            near.push((distance, candidate, beside));
        }
    }
    near.sort_by(|a, b| (a.0, a.1).cmp(&(b.0, b.1)));
    near.into_iter().take(limit).map(|(_, candidate, beside)| (candidate, beside)).collect()
}

/// How often a word has each letter, whatever their order; letters that share a place count as
/// one.
#[derive(Clone, Copy)]
struct Bag([i16; PLACES]);

const PLACES: usize = 32;

impl Bag {
    fn of(word: &str) -> Self {
        let mut bag = Self([0; PLACES]);
        bag.count(word, 1);
        bag
    }

    fn count(&mut self, word: &str, by: i16) {
        for letter in word.chars() {
            if let Some(place) = self.0.get_mut(letter as usize % PLACES) {
                *place = place.saturating_add(by);
            }
        }
    }

    /// What the distance to `candidate` can't be below: each edit gives one letter at most, and
    /// takes one at most.
    fn least_distance(mut self, candidate: &str) -> usize {
        self.count(candidate, -1);
        let sum = |sign: i16| -> i32 {
            self.0.iter().map(|count| i32::from((count * sign).max(0))).sum()
        };
        usize::try_from(sum(1).max(sum(-1))).unwrap_or(usize::MAX)
    }
}

/// Rows of the distance table, kept between candidates.
#[derive(Default)]
struct Room {
    letters: Vec<char>,
    before_last: Vec<usize>,
    last: Vec<usize>,
    row: Vec<usize>,
}

impl Room {
    /// The distance from `word` to `candidate` (optimal string alignment), where
    /// it is at most `most`.
    fn distance(&mut self, word: &[char], candidate: &str, most: usize) -> Option<usize> {
        self.letters.clear();
        self.letters.extend(candidate.chars());
        self.last.clear();
        self.last.extend(0..=self.letters.len());
        let mut previous = None;
        for (n, &letter) in word.iter().enumerate() {
            self.next_row(n, letter, previous);
            if self.row.iter().min().is_none_or(|least| *least > most) {
                return None;
            }
            std::mem::swap(&mut self.before_last, &mut self.last);
            std::mem::swap(&mut self.last, &mut self.row);
            previous = Some(letter);
        }
        self.last.last().copied().filter(|distance| *distance <= most)
    }

    /// The row of the word's letter `n`, whose letter before was `previous`.
    fn next_row(&mut self, n: usize, letter: char, previous: Option<char>) {
        self.row.clear();
        self.row.push(n + 1);
        let mut left = n + 1;
        let mut other_before = None;
        let above = self.last.windows(2);
        for (column, (pair, &other)) in above.zip(&self.letters).enumerate() {
            let [diagonal, up] = *pair else { continue };
            let changed = diagonal + usize::from(letter != other);
            let mut cost = changed.min(up + 1).min(left + 1);
            if previous == Some(other) && other_before == Some(letter) {
                let swapped = column.checked_sub(1).and_then(|c| self.before_last.get(c));
                cost = swapped.map_or(cost, |swapped| cost.min(swapped + 1));
            }
            self.row.push(cost);
            left = cost;
            other_before = Some(other);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::closest;

    const NAMES: [&str; 5] = ["lime juice", "lemon juice", "gin", "gentian", "crème"];

    fn near(word: &str) -> Vec<&'static str> {
        closest(word, NAMES.map(|name| (name, ())), 3).into_iter().map(|(name, ())| name).collect()
    }

    #[test]
    fn a_slip_of_the_hand_finds_its_name() {
        assert_eq!(near("lmie juice"), ["lime juice", "lemon juice"]);
        assert_eq!(near("lemonn juice"), ["lemon juice", "lime juice"]);
        assert_eq!(near("jin"), ["gin"]);
        assert_eq!(near("cràme"), ["crème"]);
    }

    #[test]
    fn what_is_far_is_left_out() {
        assert!(near("buttermilk").is_empty());
        assert!(near("").is_empty());
        assert!(near("gi").contains(&"gin"));
    }

    #[test]
    fn no_more_than_asked_for() {
        assert_eq!(closest("lime juice", NAMES.map(|name| (name, ())), 1).len(), 1);
    }
}
