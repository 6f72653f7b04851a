//! What an act says behind its verb: ice, time, temperature, vessel, until.

use washline_measure::{Unit, UnitKind};

use super::{ice, temperature, time};
use crate::amount::{measure, number};
use crate::slice::{self, gap, one_of, phrase, taken};
use crate::{Ice, StatedDilution, Technique};

/// The clauses of an act; the first of each kind counts.
#[derive(Debug, Default, PartialEq)]
pub(super) struct Said<'t> {
    pub ice: Option<(Ice, &'t str)>,
    pub no_ice: bool,
    pub seconds: Option<(f64, f64)>,
    pub celsius: Option<f64>,
    pub into: Option<&'t str>,
    pub until: Option<&'t str>,
    pub stated: Option<StatedDilution>,
}

/// Words that open a clause.
#[derive(Clone, Copy)]
enum Opens {
    Ice,
    NoIce,
    For,
    Temperature,
    Into,
    Until,
    By,
}

const OPENERS: &[(&str, Opens)] = &[
    ("with", Opens::Ice),
    ("over", Opens::Ice),
    ("on", Opens::Ice),
    ("without", Opens::NoIce),
    ("no", Opens::NoIce),
    ("for", Opens::For),
    ("down to", Opens::Temperature),
    ("to", Opens::Temperature),
    ("at", Opens::Temperature),
    ("below", Opens::Temperature),
    ("into", Opens::Into),
    ("until", Opens::Until),
    ("till", Opens::Until),
    ("down by", Opens::By),
    ("down", Opens::By),
    ("by", Opens::By),
];

/// Reads what an act says behind its verb; a verb of several words may say some of it
/// itself (`shake without ice`, `chill overnight`).
pub(super) fn read<'t>(verb: &'t str, object: &'t str, technique: Option<Technique>) -> Said<'t> {
    let mut clauses = Clauses { said: Said::default(), technique, into: None };
    clauses.all(gap(slice::skip(verb, slice::word(verb).len())));
    if matches!(technique, Some(Technique::Add | Technique::Fill | Technique::Combine)) {
        clauses.ice(object);
    }
    if technique == Some(Technique::Stir) {
        // `stir down 40 %`: the verb has taken `down`.
        clauses.by(object);
    }
    clauses.all(object);
    clauses.close_into(slice::end(object));
    clauses.said
}

struct Clauses<'t> {
    said: Said<'t>,
    technique: Option<Technique>,
    /// Where the words behind `into` start, while they go on.
    into: Option<&'t str>,
}

impl<'t> Clauses<'t> {
    /// Reads the clauses of `words`, one behind the other.
    fn all(&mut self, words: &'t str) {
        let mut rest = words;
        while !rest.is_empty() {
            let after = self.at(rest).unwrap_or_else(|| over_word(rest));
            rest = gap(after);
        }
    }

    /// Reads the clause at `rest`, and gives what follows it.
    fn at(&mut self, rest: &'t str) -> Option<&'t str> {
        let after = match one_of(rest, OPENERS) {
            Some((opens, behind)) => self.opened(opens, gap(behind)),
            None => self.bare(rest),
        };
        if after.is_some() {
            let opened_here = self.into.is_some_and(|into| into.len() < rest.len());
            if !opened_here {
                self.close_into(rest);
            }
        }
        after
    }

    fn opened(&mut self, opens: Opens, behind: &'t str) -> Option<&'t str> {
        match opens {
            Opens::Ice => self.ice(behind),
            Opens::NoIce => {
                let after = phrase(behind, "ice")?;
                self.said.no_ice = true;
                Some(after)
            }
            Opens::For => self.time(behind),
            Opens::Temperature => self.temperature(behind).or_else(|| self.volume(behind)),
            Opens::Into => {
                if self.said.into.is_none() && self.into.is_none() {
                    self.into = Some(behind);
                }
                Some(behind)
            }
            Opens::Until => {
                self.said.until.get_or_insert(behind.trim_end());
                Some(slice::end(behind))
            }
            Opens::By => self.by(behind),
        }
    }

    /// Clauses that need no word before them: a time, a temperature with its sign, dry ice.
    fn bare(&mut self, rest: &'t str) -> Option<&'t str> {
        let numeric =
            rest.starts_with(|c: char| c.is_numeric() || matches!(c, '~' | '-' | '\u{2212}'));
        let worded = matches!(rest.as_bytes().first(), Some(b'a'..=b'z' | b'A'..=b'Z'));
        if phrase(rest, "dry ice").is_some() {
            return self.ice(rest);
        }
        if numeric || worded && self.said.seconds.is_none() {
            return self.time(rest).or_else(|| numeric.then(|| self.temperature(rest)).flatten());
        }
        None
    }

    fn ice(&mut self, words: &'t str) -> Option<&'t str> {
        let (ice, after) = ice::phrase_at(words)?;
        let cryogen = ice == Ice::Dry;
        if cryogen || self.said.ice.is_none() {
            self.said.ice = Some((ice, taken(words, after)));
        }
        Some(after)
    }

    fn time(&mut self, words: &'t str) -> Option<&'t str> {
        let (duration, after) = time::duration(words)?;
        self.said.seconds.get_or_insert(duration.seconds());
        Some(after)
    }

    fn temperature(&mut self, words: &'t str) -> Option<&'t str> {
        let (value, after) = temperature::celsius(words)?;
        self.said.celsius.get_or_insert(value);
        Some(after)
    }

    /// `stir to 35 ml`: a volume that the drink is brought to.
    fn volume(&mut self, words: &'t str) -> Option<&'t str> {
        if !self.technique.is_some_and(waters) {
            return None;
        }
        let (after, read) = measure(words).ok()?;
        let kind = read.measure.unit.map(Unit::kind)?;
        if !matches!(kind, UnitKind::Metric | UnitKind::Customary) {
            return None;
        }
        self.said.stated.get_or_insert(StatedDilution::To(read.measure));
        Some(after)
    }

    /// `stir down 40 %`: a share of what was poured.
    fn by(&mut self, words: &'t str) -> Option<&'t str> {
        if !self.technique.is_some_and(waters) {
            return None;
        }
        let words = phrase(words, "by").map_or(words, gap);
        let (rest, read) = number(words).ok()?;
        let after = gap(rest).strip_prefix('%')?;
        self.said.stated.get_or_insert(StatedDilution::By(read.value));
        Some(after)
    }

    /// The words behind `into` end where another clause starts.
    fn close_into(&mut self, rest: &'t str) {
        if let Some(into) = self.into.take() {
            let words = taken(into, rest).trim_end_matches([' ', '\t', ',', '.']);
            if !words.is_empty() {
                self.said.into = Some(words);
            }
        }
    }
}

/// Whether a technique brings the drink and its ice's water together.
const fn waters(technique: Technique) -> bool {
    matches!(
        technique,
        Technique::Stir
            | Technique::Shake
            | Technique::HardShake
            | Technique::WetShake
            | Technique::WhipShake
            | Technique::Throw
            | Technique::Roll
            | Technique::Swizzle
            | Technique::Churn
            | Technique::Build
            | Technique::Blend
            | Technique::FlashBlend
            | Technique::Mix
    )
}

fn over_word(rest: &str) -> &str {
    let stop = rest.find(|c: char| c.is_whitespace()).unwrap_or(rest.len());
    slice::skip(rest, stop)
}
