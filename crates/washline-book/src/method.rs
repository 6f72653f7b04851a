//! What the steps act on: which lines are in the vessel when it is shaken.

use washline_measure::Ounce;
use washline_syntax::{Act, Entry, LineKind, Role, Technique};
use washline_text::Span;

use crate::Read;

mod goes;
mod melt;
mod mention;
mod unlisted;
mod used;

pub use goes::Goes;
pub use melt::Melt;
pub(crate) use mention::Mentions;
pub use unlisted::Unlisted;

use goes::{Entered, entered};

/// The steps of an entry as understood.
#[derive(Clone, Debug, Default)]
pub struct Method {
    /// The acts of all steps, in order.
    pub acts: Vec<ActRead>,
    /// The acts that mix, in order.
    pub mixes: Vec<Mix>,
    /// For each ingredient line, whether an act can have used it.
    pub used: Vec<bool>,
}

/// One act and what it speaks of.
#[derive(Clone, Debug)]
pub struct ActRead {
    /// The entry's line that its step stands on.
    pub line: u32,
    /// The act as read.
    pub act: Act,
    /// The ingredient lines that it names, by their place among the lines read.
    pub mentions: Vec<usize>,
    /// Those that it leaves out (`shake all but the soda`).
    pub but: Vec<usize>,
    /// Whether it speaks of all of them, or of the rest.
    pub everything: bool,
    /// Where it moves the drink, or what it names.
    pub goes: Goes,
}

/// An act that mixes, with the lines that it mixes.
#[derive(Clone, Debug)]
pub struct Mix {
    /// Its place among the acts.
    pub act: usize,
    /// What is done.
    pub technique: Technique,
    /// The lines in the vessel, by their place among the lines read.
    pub lines: Vec<usize>,
    /// How it waters them.
    pub melt: Melt,
}

impl Method {
    /// Reads the steps of `entry` against its lines.
    pub(crate) fn read(
        entry: &Entry,
        reads: &[Read],
        mentions: &Mentions,
        prep: bool,
        ounce: Ounce,
    ) -> Self {
        let mut acts = Vec::with_capacity(entry.steps().map(|step| step.acts.len()).sum());
        for (at, line) in entry.lines.iter().enumerate() {
            let LineKind::Step(step) = &line.what else { continue };
            for act in &step.acts {
                let found = mentions.find(act.object.text(&entry.text));
                let goes = Goes::of(act, &entry.text, !found.named.is_empty());
                acts.push(ActRead {
                    line: u32::try_from(at).unwrap_or(u32::MAX),
                    act: act.clone(),
                    mentions: found.named,
                    but: found.but,
                    everything: found.everything,
                    goes,
                });
            }
        }
        goes::back_into_the_tin(&mut acts);
        let mut method = Self { acts, mixes: Vec::new(), used: vec![false; reads.len()] };
        method.mix(reads, prep, ounce);
        method.mark_used(entry, reads, prep);
        method
    }

    /// Whether any act is of one of `techniques`.
    #[must_use]
    pub fn has(&self, techniques: &[Technique]) -> bool {
        self.position(techniques).is_some()
    }

    /// The first act of one of `techniques`.
    #[must_use]
    pub fn position(&self, techniques: &[Technique]) -> Option<usize> {
        self.acts.iter().position(|act| act.act.technique.is_some_and(|t| techniques.contains(&t)))
    }

    /// Whether an act of one of `techniques` comes after the act `from`.
    #[must_use]
    pub fn has_after(&self, from: usize, techniques: &[Technique]) -> bool {
        self.acts
            .iter()
            .skip(from + 1)
            .any(|act| act.act.technique.is_some_and(|t| techniques.contains(&t)))
    }

    /// The technique and words of the act at `at`.
    #[must_use]
    pub fn act(&self, at: usize) -> Option<&ActRead> {
        self.acts.get(at)
    }

    /// Whether the drink leaves the vessel for the glass after the act `from`.
    #[must_use]
    pub fn leaves_after(&self, from: usize) -> bool {
        self.acts.iter().skip(from + 1).any(ActRead::leaves)
    }

    fn mix(&mut self, reads: &[Read], prep: bool, ounce: Ounce) {
        let entered: Vec<Entered> =
            (0..reads.len()).map(|line| entered(&self.acts, line)).collect();
        let mixes: Vec<usize> =
            (0..self.acts.len()).filter(|at| self.technique(*at).is_some_and(is_mix)).collect();
        let named: Vec<usize> = mixes
            .iter()
            .filter_map(|at| self.acts.get(*at))
            .flat_map(|act| act.mentions.iter().copied())
            .collect();
        for at in mixes {
            let (Some(act), Some(technique)) = (self.acts.get(at), self.technique(at)) else {
                continue;
            };
            let in_the_glass = self.in_the_glass(at, technique);
            let lines = (0..reads.len())
                .filter(|line| {
                    let here = reads.get(*line).is_some_and(|read| !outside(read));
                    let met = match entered.get(*line) {
                        Some(Entered::Vessel(n)) => *n <= at,
                        Some(Entered::Glass(n)) => in_the_glass && *n <= at,
                        _ => false,
                    };
                    let meant = act.mentions.is_empty()
                        || act.everything
                        || act.mentions.contains(line)
                        || !named.contains(line);
                    here && met && meant && !act.but.contains(line)
                })
                .collect();
            let melt = if prep { Melt::None } else { self.melt(at, technique, act, reads, ounce) };
            self.mixes.push(Mix { act: at, technique, lines, melt });
        }
    }

    /// Whether a mix is done in the glass that is served: what went there before it counts.
    fn in_the_glass(&self, at: usize, technique: Technique) -> bool {
        match technique {
            Technique::Build | Technique::Swizzle | Technique::Churn => true,
            Technique::Stir => self.stirs_in_the_glass(at),
            _ => false,
        }
    }

    fn technique(&self, at: usize) -> Option<Technique> {
        self.acts.get(at)?.act.technique
    }
}

/// Whether a technique shakes a closed vessel.
#[must_use]
pub const fn is_shaken(technique: Technique) -> bool {
    matches!(
        technique,
        Technique::Shake
            | Technique::HardShake
            | Technique::DryShake
            | Technique::WetShake
            | Technique::WhipShake
            | Technique::ReverseDryShake
    )
}

/// Whether a technique mixes what is in the vessel.
#[must_use]
pub const fn is_mix(technique: Technique) -> bool {
    matches!(
        technique,
        Technique::Shake
            | Technique::HardShake
            | Technique::DryShake
            | Technique::WetShake
            | Technique::WhipShake
            | Technique::ReverseDryShake
            | Technique::Stir
            | Technique::Swizzle
            | Technique::Throw
            | Technique::Roll
            | Technique::Blend
            | Technique::FlashBlend
            | Technique::Churn
            | Technique::Steam
            | Technique::Build
    )
}

/// Whether a technique puts what it names into the vessel.
#[must_use]
pub(crate) const fn is_adding(technique: Technique) -> bool {
    matches!(
        technique,
        Technique::Add
            | Technique::Combine
            | Technique::Muddle
            | Technique::Pour
            | Technique::Fill
            | Technique::Top
            | Technique::Float
            | Technique::Layer
            | Technique::Rinse
            | Technique::Rim
            | Technique::Mist
            | Technique::Dust
            | Technique::AddBack
    )
}

/// Lines that are never in the vessel by themselves.
pub(crate) const fn outside(read: &Read) -> bool {
    matches!(
        read.role,
        Role::Top | Role::Float | Role::Rinse | Role::Mist | Role::Rim | Role::Garnish | Role::Side
    )
}

impl ActRead {
    /// Whether one of the folded `words` stands among the words of the act, which is of `entry`.
    #[must_use]
    pub fn says(&self, entry: &Entry, words: &[&str]) -> bool {
        let folded = washline_text::fold(self.act.span.text(&entry.text));
        folded
            .split(|c: char| !c.is_alphanumeric())
            .any(|word| words.iter().any(|known| word == *known || is_plural(word, known)))
    }

    /// The words of the act.
    #[must_use]
    pub const fn span(&self) -> Span {
        self.act.span
    }

    /// Whether the drink leaves with it the vessel that it was mixed in.
    #[must_use]
    pub fn leaves(&self) -> bool {
        self.goes == Goes::Out
    }

    /// Whether it is of one of `techniques`.
    #[must_use]
    pub fn is(&self, techniques: &[Technique]) -> bool {
        self.act.technique.is_some_and(|technique| techniques.contains(&technique))
    }
}

fn is_plural(word: &str, one: &str) -> bool {
    word.strip_suffix('s').is_some_and(|stem| stem == one || stem.strip_suffix('e') == Some(one))
}

#[cfg(test)]
mod tests;
