//! Where an act moves things, and when each line comes into the vessel.

use washline_syntax::{Act, Technique};
use washline_text::fold;

use super::{ActRead, is_adding, is_mix, is_shaken};

/// Where an act moves the drink, or what it names.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Goes {
    /// Nowhere: what is in the vessel stays in it.
    #[default]
    Nowhere,
    /// Into the vessel that the drink is mixed in.
    Vessel,
    /// What it names goes into the glass that is served.
    Glass,
    /// The drink leaves the vessel for the glass or the bottle.
    Out,
}

impl Goes {
    /// Where `act` moves things, misspelt or not; `names` says whether it names a line.
    pub(super) fn of(act: &Act, text: &str, names: bool) -> Self {
        let Some(technique) = act.technique.or(act.meant) else { return Self::Nowhere };
        match technique {
            Technique::Strain | Technique::DoubleStrain | Technique::FineStrain => {
                if names_a_vessel(act.object.text(text)) { Self::Vessel } else { Self::Out }
            }
            Technique::OpenPour | Technique::Dump | Technique::Bottle | Technique::Filter => {
                Self::Out
            }
            Technique::Pour if names_a_vessel(act.object.text(text)) => Self::Vessel,
            Technique::Pour if !names => Self::Out,
            Technique::Fill if names_a_vessel(act.object.text(text)) => Self::Vessel,
            Technique::Top
            | Technique::Fill
            | Technique::Float
            | Technique::Layer
            | Technique::Rinse
            | Technique::Rim
            | Technique::Mist
            | Technique::Dust => Self::Glass,
            _ if is_adding(technique) => {
                if names_a_glass(act.object.text(text)) {
                    Self::Glass
                } else {
                    Self::Vessel
                }
            }
            _ => Self::Nowhere,
        }
    }
}

/// A strain before a shake without ice goes back into the tin, said or not.
pub(super) fn back_into_the_tin(acts: &mut [ActRead]) {
    let mut dry_follows = false;
    for act in acts.iter_mut().rev() {
        let strains = [Technique::Strain, Technique::DoubleStrain, Technique::FineStrain];
        if dry_follows && act.goes == Goes::Out && act.is(&strains) {
            act.goes = Goes::Vessel;
        }
        dry_follows |= act.is(&[Technique::DryShake, Technique::ReverseDryShake])
            || act.act.no_ice && act.act.technique.is_some_and(is_shaken);
    }
}

/// When a line comes into the vessel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Entered {
    /// With the act of this place; 0 from the start.
    Vessel(usize),
    /// With the act of this place, and into the glass that is served.
    Glass(usize),
    /// Never: it lies on top, coats the glass, or is left out to the end.
    Never,
}

/// When `line` comes in: with the first act that adds it, else from the start.
pub(super) fn entered(acts: &[ActRead], line: usize) -> Entered {
    let mut named = false;
    for (at, act) in acts.iter().enumerate() {
        let adds = act.act.technique.is_some_and(is_adding);
        let mentioned = act.mentions.contains(&line);
        let rest = act.everything && !named && !act.but.contains(&line);
        if adds && (mentioned || rest) {
            return match act.goes {
                Goes::Glass if lies_on_top(act) => Entered::Never,
                Goes::Glass => Entered::Glass(at),
                _ => Entered::Vessel(at),
            };
        }
        named |= mentioned;
    }
    let spared =
        acts.iter().any(|act| act.act.technique.is_some_and(is_mix) && act.but.contains(&line));
    if spared { Entered::Never } else { Entered::Vessel(0) }
}

fn lies_on_top(act: &ActRead) -> bool {
    act.is(&[
        Technique::Top,
        Technique::Fill,
        Technique::Float,
        Technique::Layer,
        Technique::Rinse,
        Technique::Rim,
        Technique::Mist,
        Technique::Dust,
    ])
}

/// Words for what a drink is mixed in.
const VESSELS: &[&str] =
    &["tin", "tins", "shaker", "mixing glass", "mixing beaker", "blender", "back"];

/// Words for what it is served in.
const GLASSES: &[&str] = &[
    "glass", "flute", "coupe", "mug", "cup", "goblet", "highball", "collins", "tumbler", "copita",
    "copa",
];

/// Whether the words speak of a vessel that a drink is mixed in.
fn names_a_vessel(words: &str) -> bool {
    let words = fold(words);
    VESSELS.iter().any(|vessel| has_words(&words, vessel))
}

/// Whether the words speak of a glass that a drink is served in.
fn names_a_glass(words: &str) -> bool {
    let words = fold(words);
    let vessel = VESSELS.iter().any(|vessel| has_words(&words, vessel));
    !vessel && GLASSES.iter().any(|glass| has_words(&words, glass))
}

fn has_words(text: &str, words: &str) -> bool {
    text.match_indices(words).any(|(at, _)| {
        let letter = |c: Option<char>| c.is_some_and(char::is_alphanumeric);
        let before = text.get(..at).and_then(|text| text.chars().next_back());
        let after = text.get(at + words.len()..).and_then(|text| text.chars().next());
        !letter(before) && !letter(after)
    })
}
