//! What the steps act on: which lines are in the vessel when it is shaken.

use washline_syntax::{Act, Entry, Ice, LineKind, Role, Technique};
use washline_text::Span;

use crate::Read;

mod mention;

pub(crate) use mention::Mentions;

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

/// How a mix waters what it mixes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Melt {
    /// No ice: no water.
    None,
    /// The stirred formula.
    Stir,
    /// The shaken formula.
    Shake,
    /// A share of what was poured, by the technique's name in the reference.
    Share(&'static str),
    /// Grams of ice, and the share of them that melts.
    Ice(f64, f64),
    /// All the ice put in, as the technique's entry says.
    IceOf(&'static str),
    /// Down to so many millilitres.
    To(f64),
    /// By a share of what was poured.
    By(f64),
}

impl Method {
    /// Reads the steps of `entry` against its lines.
    pub(crate) fn read(entry: &Entry, reads: &[Read], mentions: &Mentions, prep: bool) -> Self {
        let mut acts = Vec::new();
        for (at, line) in entry.lines.iter().enumerate() {
            let LineKind::Step(step) = &line.what else { continue };
            for act in &step.acts {
                let found = mentions.find(act.object.text(&entry.text));
                acts.push(ActRead {
                    line: u32::try_from(at).unwrap_or(u32::MAX),
                    act: act.clone(),
                    mentions: found.named,
                    but: found.but,
                    everything: found.everything,
                });
            }
        }
        let mut method = Self { acts, mixes: Vec::new(), used: vec![false; reads.len()] };
        method.mix(reads, prep);
        method.mark_used(reads);
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

    fn mix(&mut self, reads: &[Read], prep: bool) {
        let in_at = self.entering(reads);
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
            let lines = (0..reads.len())
                .filter(|line| {
                    let here = reads.get(*line).is_some_and(|read| !outside(read));
                    let entered = in_at.get(*line).copied().flatten().is_some_and(|n| n <= at);
                    let meant = act.mentions.is_empty()
                        || act.everything
                        || act.mentions.contains(line)
                        || !named.contains(line);
                    here && entered && meant && !act.but.contains(line)
                })
                .collect();
            let melt = if prep { Melt::None } else { self.melt(at, technique, act, reads) };
            self.mixes.push(Mix { act: at, technique, lines, melt });
        }
    }

    /// For each line, the act at which it enters the vessel; `None` for never.
    fn entering(&self, reads: &[Read]) -> Vec<Option<usize>> {
        (0..reads.len())
            .map(|line| {
                let added = self.acts.iter().position(|act| {
                    act.act.technique.is_some_and(is_adding) && act.mentions.contains(&line)
                });
                let spared = || {
                    self.acts
                        .iter()
                        .any(|act| act.act.technique.is_some_and(is_mix) && act.but.contains(&line))
                };
                match added {
                    Some(at) => Some(at),
                    None if spared() => None,
                    None => Some(0),
                }
            })
            .collect()
    }

    fn mark_used(&mut self, reads: &[Read]) {
        for (line, used) in self.used.iter_mut().enumerate() {
            let mixed = self.mixes.iter().any(|mix| mix.lines.contains(&line));
            let named = self.acts.iter().any(|act| act.mentions.contains(&line));
            let apart = reads.get(line).is_some_and(|read| read.role != Role::Poured);
            let gathered = self.acts.iter().any(|act| {
                act.everything
                    || act.act.technique.is_some_and(is_adding) && act.mentions.is_empty()
            });
            *used = mixed || named || apart || gathered;
        }
    }

    fn technique(&self, at: usize) -> Option<Technique> {
        self.acts.get(at)?.act.technique
    }

    fn melt(&self, at: usize, technique: Technique, act: &ActRead, reads: &[Read]) -> Melt {
        if let Some(stated) = act.act.stated {
            return match stated {
                washline_syntax::StatedDilution::To(measure) => {
                    let ml = measure.unit.and_then(|unit| unit.ml(washline_measure::Ounce::Us));
                    let one = ml.map_or(1.0, washline_measure::Exact::to_f64);
                    Melt::To(measure.quantity.middle().to_f64() * one)
                }
                washline_syntax::StatedDilution::By(percent) => Melt::By(percent.to_f64() / 100.0),
            };
        }
        if act.act.no_ice || act.act.ice.is_some_and(|(ice, _)| ice == Ice::Dry) {
            return Melt::None;
        }
        match technique {
            Technique::Shake
            | Technique::HardShake
            | Technique::WetShake
            | Technique::ReverseDryShake => Melt::Shake,
            Technique::WhipShake => Melt::IceOf("whip shake"),
            Technique::Stir if self.stirs_in_the_glass(at) => self.built(reads),
            Technique::Stir => Melt::Stir,
            Technique::Build => self.built(reads),
            Technique::Swizzle => Melt::Share("swizzle"),
            Technique::Churn => Melt::Share("churn"),
            Technique::Throw => Melt::Share("throw"),
            Technique::Roll => Melt::Share("roll"),
            Technique::Steam => Melt::Share("steam"),
            Technique::Blend | Technique::FlashBlend => blended(reads),
            _ => Melt::None,
        }
    }

    /// A stir after a build, or with no later strain, is in the serving glass.
    fn stirs_in_the_glass(&self, at: usize) -> bool {
        let built =
            self.acts.iter().take(at).any(|act| act.act.technique == Some(Technique::Build));
        built || !self.has_after(at, LEAVES_THE_VESSEL)
    }

    /// Over cubes with a cold lengthener, or stirred over one large cube.
    fn built(&self, reads: &[Read]) -> Melt {
        let long = reads.iter().any(|read| read.role == Role::Top)
            || self.has(&[Technique::Top, Technique::Fill])
            || lengthened(reads);
        Melt::Share(if long { "long build" } else { "build" })
    }
}

/// The acts by which a drink leaves the vessel it was mixed in.
pub(crate) const LEAVES_THE_VESSEL: &[Technique] = &[
    Technique::Strain,
    Technique::DoubleStrain,
    Technique::FineStrain,
    Technique::OpenPour,
    Technique::Dump,
    Technique::Pour,
    Technique::Bottle,
    Technique::Filter,
];

/// Whether a technique mixes what is in the vessel.
#[must_use]
pub(crate) const fn is_mix(technique: Technique) -> bool {
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

/// Sixty millilitres or more of something long: soda, juice, wine, beer, tea.
/// Common practice, no source.
fn lengthened(reads: &[Read]) -> bool {
    use washline_reference::Sort;
    let long = [
        Sort::Soda,
        Sort::Juice,
        Sort::Beer,
        Sort::Cider,
        Sort::SparklingWine,
        Sort::Wine,
        Sort::Tea,
        Sort::Coffee,
    ];
    let volume: f64 =
        reads.iter().filter(|r| r.counted && r.sort_is(&long)).map(Read::volume).sum();
    volume >= 60.0
}

fn blended(reads: &[Read]) -> Melt {
    let ice: f64 = reads
        .iter()
        .filter(|read| read.sort_is(&[washline_reference::Sort::Ice]))
        .filter_map(|read| read.g)
        .map(|g| g.value)
        .sum();
    if ice > 0.0 { Melt::Ice(ice, 2.0 / 3.0) } else { Melt::Share("blend") }
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
}

fn is_plural(word: &str, one: &str) -> bool {
    word.strip_suffix('s').is_some_and(|stem| stem == one || stem.strip_suffix('e') == Some(one))
}
