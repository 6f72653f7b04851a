//! A name as it is written, with what stands around it, to what it means.

use washline_measure::Unit;
use washline_text::fold;

use super::around::{count_noun_off, front_words_off, is_preparation, part_of_phrase};
use super::{From, Level, Names, Referent, Resolution};

impl Names {
    /// What `name` with its prose qualifiers means. `counted` says that the amount has no unit, so that a count
    /// noun at either end of the name is it.
    pub(crate) fn resolve(
        &self,
        name: &str,
        qualifiers: &[&str],
        counted: bool,
        from: From<'_>,
    ) -> Resolution {
        let key = fold(name);
        for (at, qualifier) in qualifiers.iter().enumerate() {
            let word = fold(qualifier);
            if word.is_empty() || is_preparation(&word) {
                continue;
            }
            if let Some((hits, level)) = self.look(&format!("{word} {key}"), from) {
                return Resolution { hits, level: Some(level), unit: None, qualifier: Some(at) };
            }
        }
        let found = |(hits, level): (Vec<Referent>, Level), unit: Option<Unit>| Resolution {
            hits,
            level: Some(level),
            unit,
            qualifier: None,
        };
        let nouns = count_noun_off(&key);
        let whole = self.look(&key, from);
        if counted && let Some((rest, unit)) = nouns.first() {
            // `8 mint leaves`, `1 sugar cube`: the noun is the unit, whether or not it is part of the name.
            // Of two meanings the nearer stands: the house's mint before the reference's mint leaf.
            let bare = self.look(rest, from);
            let nearer = |whole: &(Vec<Referent>, Level)| {
                bare.as_ref().is_none_or(|bare| bare.0 != whole.0 && whole.1 <= bare.1)
            };
            if let Some(hit) = whole.clone().filter(nearer) {
                return found(hit, Some(*unit));
            }
            if let Some(hit) = bare {
                return found(hit, Some(*unit));
            }
        }
        if let Some(hit) = whole {
            return found(hit, None);
        }
        for (rest, unit) in &nouns {
            if let Some(hit) = self.look(rest, from) {
                return found(hit, counted.then_some(*unit));
            }
        }
        let bare = front_words_off(&key);
        if bare != key {
            if let Some(hit) = self.look(&bare, from) {
                return found(hit, None);
            }
            if let Some((hit, unit)) = count_noun_off(&bare)
                .into_iter()
                .find_map(|(rest, unit)| Some((self.look(&rest, from)?, unit)))
            {
                return found(hit, counted.then_some(unit));
            }
        }
        if let Some(hit) = part_of_phrase(&bare).and_then(|phrase| self.look(&phrase, from)) {
            return found(hit, None);
        }
        Resolution::default()
    }
}
