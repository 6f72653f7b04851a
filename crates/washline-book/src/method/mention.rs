//! Finds the ingredient lines that the words of a step speak of.

use rustc_hash::{FxHashMap, FxHashSet};
use washline_text::fold;

/// The word runs by which each line can be named.
#[derive(Clone, Debug, Default)]
pub(crate) struct Mentions {
    runs: FxHashMap<Box<str>, Vec<usize>>,
    longest: usize,
    /// The first letters of the runs: a plural turned keeps them, so that most words are
    /// passed over at once.
    starts: FxHashSet<[u8; 3]>,
}

/// What was found in the words of an act.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(crate) struct Found {
    pub named: Vec<usize>,
    pub but: Vec<usize>,
    pub everything: bool,
}

/// Words that name nothing by themselves.
const SMALL: &[&str] = &[
    "a", "an", "and", "or", "of", "the", "with", "in", "to", "ice", "glass", "cold", "hot",
    "fresh", "chilled", "house", "for", "into", "over", "on", "no", "dry", "large", "small",
    "half", "white", "black", "red", "sweet", "long", "frozen", "warm", "clear", "new", "old",
];

impl Mentions {
    /// Learns the names of the lines: for each, the ways it is written.
    pub(crate) fn new(names: &[Vec<String>]) -> Self {
        let mut whole: FxHashMap<Box<str>, Vec<usize>> = FxHashMap::default();
        let mut parts: FxHashMap<Box<str>, Vec<usize>> = FxHashMap::default();
        let mut longest = 1;
        for (line, spellings) in names.iter().enumerate() {
            for spelling in spellings {
                let words: Vec<&str> = spelling.split(' ').filter(|w| !w.is_empty()).collect();
                longest = longest.max(words.len());
                note(&mut whole, words.join(" "), line);
                for length in 1..words.len() {
                    for run in words.windows(length) {
                        if run.iter().all(|word| SMALL.contains(word)) {
                            continue;
                        }
                        note(&mut parts, run.join(" "), line);
                    }
                }
            }
        }
        // A run names a line only where no other line has it.
        for (run, lines) in parts {
            if lines.len() == 1 {
                whole.entry(run).or_insert(lines);
            }
        }
        let starts = whole.keys().map(|run| start(run)).collect();
        Self { runs: whole, longest, starts }
    }

    /// The lines that `text` speaks of, longest run first at each word.
    pub(crate) fn find(&self, text: &str) -> Found {
        let folded = fold(text);
        let words: Vec<&str> = folded
            .split(' ')
            .map(|word| word.trim_matches(|c: char| !c.is_alphanumeric()))
            .filter(|word| !word.is_empty())
            .collect();
        let mut found = Found::default();
        let mut sparing = false;
        let mut at = 0;
        while at < words.len() {
            let word = words.get(at).copied().unwrap_or_default();
            match word {
                "all" | "everything" | "rest" | "remaining" | "ingredients" | "others" => {
                    found.everything = true;
                }
                "but" | "except" | "without" | "save" | "excluding" if found.everything => {
                    sparing = true;
                }
                _ => {}
            }
            let most = self.longest.min(words.len() - at);
            let hit = (1..=most).rev().find_map(|length| {
                let run = words.get(at..at + length)?.join(" ");
                Some((self.lookup(&run)?, length))
            });
            let Some((lines, length)) = hit else {
                at += 1;
                continue;
            };
            let into = if sparing { &mut found.but } else { &mut found.named };
            for line in lines {
                if !into.contains(line) {
                    into.push(*line);
                }
            }
            at += length;
        }
        found
    }

    fn lookup(&self, run: &str) -> Option<&Vec<usize>> {
        if !self.starts.contains(&start(run)) {
            return None;
        }
        self.runs.get(run).or_else(|| {
            washline_reference::plural::turned(run).find_map(|turned| self.runs.get(&*turned))
        })
    }
}

/// The first three bytes of a run; a shorter one is filled up.
fn start(run: &str) -> [u8; 3] {
    let mut bytes = run.bytes();
    std::array::from_fn(|_| bytes.next().unwrap_or(b' '))
}

fn note(runs: &mut FxHashMap<Box<str>, Vec<usize>>, run: String, line: usize) {
    if run.is_empty() {
        return;
    }
    let lines = runs.entry(run.into_boxed_str()).or_default();
    if !lines.contains(&line) {
        lines.push(line);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn find(text: &str) -> Found {
        let names = [vec!["gin"], vec!["lemon juice"], vec!["lime juice"], vec!["soda water"]];
        let names: Vec<Vec<String>> =
            names.iter().map(|n| n.iter().map(|s| (*s).to_owned()).collect()).collect();
        Mentions::new(&names).find(text)
    }

    #[test]
    fn whole_names_and_own_words_name_a_line() {
        assert_eq!(find("the gin and soda").named, [0, 3]);
        assert_eq!(find("lemon").named, [1]);
        assert!(find("the juice").named.is_empty());
    }

    #[test]
    fn all_but_leaves_out() {
        let found = find("everything but the soda water");
        assert!(found.everything && found.named.is_empty());
        assert_eq!(found.but, [3]);
    }
}
