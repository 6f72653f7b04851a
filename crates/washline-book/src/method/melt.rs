//! How each mix waters what it mixes.

use washline_measure::{Exact, Ounce};
use washline_reference::Sort;
use washline_syntax::{Ice, Role, StatedDilution, Technique};

use super::{ActRead, Method, is_shaken};
use crate::Read;

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
    /// How the mix at `at` waters what it mixes. What is stated beats the model.
    pub(super) fn melt(
        &self,
        at: usize,
        technique: Technique,
        act: &ActRead,
        reads: &[Read],
        ounce: Ounce,
    ) -> Melt {
        match act.act.stated {
            Some(StatedDilution::To(measure)) => {
                let one = measure.unit.and_then(|unit| unit.ml(ounce)).map_or(1.0, Exact::to_f64);
                return Melt::To(measure.quantity.middle().to_f64() * one);
            }
            Some(StatedDilution::By(percent)) => return Melt::By(percent.to_f64() / 100.0),
            None => {}
        }
        if act.act.no_ice || act.act.ice.is_some_and(|(ice, _)| ice == Ice::Dry) {
            return Melt::None;
        }
        match technique {
            Technique::Shake | Technique::HardShake | Technique::WetShake => Melt::Shake,
            // Alone it stands for both shakes; beside a wet one it is the dry one.
            Technique::ReverseDryShake if self.shaken_wet() => Melt::None,
            Technique::ReverseDryShake => Melt::Shake,
            Technique::WhipShake => match ice_grams(reads) {
                grams if grams > 0.0 => Melt::Ice(grams, 1.0),
                _ => Melt::IceOf("whip shake"),
            },
            Technique::Stir if self.stirs_to_dissolve(at) => Melt::None,
            Technique::Stir if self.stirs_in_the_glass(at) => self.built(reads),
            Technique::Stir => Melt::Stir,
            Technique::Build if self.mixed_later(at) => Melt::None,
            Technique::Build => self.built(reads),
            Technique::Swizzle => Melt::Share("swizzle"),
            Technique::Churn => Melt::Share("churn"),
            Technique::Throw => Melt::Share("throw"),
            Technique::Roll => Melt::Share("roll"),
            Technique::Steam => Melt::Share("steam"),
            Technique::Blend | Technique::FlashBlend => blended(technique, reads),
            _ => Melt::None,
        }
    }

    /// A stir after a build, or with no later strain, is in the serving glass.
    pub(super) fn stirs_in_the_glass(&self, at: usize) -> bool {
        let built = self.acts.iter().take(at).any(|act| act.is(&[Technique::Build]));
        if built { !self.strained_after(at) } else { !self.leaves_after(at) }
    }

    /// A build in the tin or the mixing glass: the mix that follows waters it.
    fn mixed_later(&self, at: usize) -> bool {
        let later = self.acts.iter().skip(at + 1);
        let mixed = later.into_iter().any(|act| act.act.technique.is_some_and(is_shaken));
        mixed || self.strained_after(at)
    }

    /// A stir without a word of ice, that only dissolves what a later act pours on.
    fn stirs_to_dissolve(&self, at: usize) -> bool {
        let Some(act) = self.acts.get(at) else { return false };
        let iced = |act: &ActRead| act.act.ice.is_some();
        let before = self.acts.iter().take(at).any(iced);
        let mut after = self.acts.iter().skip(at + 1).take_while(|act| !act.leaves());
        !iced(act) && !before && after.any(|act| iced(act) || act.is(MIXES_WITH_ICE))
    }

    fn strained_after(&self, at: usize) -> bool {
        let strains = [Technique::Strain, Technique::DoubleStrain, Technique::FineStrain];
        self.acts.iter().skip(at + 1).any(|act| act.leaves() && act.is(&strains))
    }

    fn shaken_wet(&self) -> bool {
        self.acts.iter().any(|act| {
            let wet = [Technique::Shake, Technique::HardShake, Technique::WetShake];
            act.is(&wet) && !act.act.no_ice
        })
    }

    /// Over cubes with a cold lengthener, or stirred over one large cube.
    fn built(&self, reads: &[Read]) -> Melt {
        let long = reads.iter().any(|read| read.role == Role::Top)
            || self.has(&[Technique::Top])
            || self.acts.iter().any(|act| act.is(&[Technique::Fill]) && !act.mentions.is_empty())
            || lengthened(reads);
        Melt::Share(if long { "long build" } else { "build" })
    }
}

/// Mixes that need ice, said or not.
const MIXES_WITH_ICE: &[Technique] = &[
    Technique::Shake,
    Technique::HardShake,
    Technique::WetShake,
    Technique::WhipShake,
    Technique::Stir,
    Technique::Build,
    Technique::Swizzle,
    Technique::Churn,
    Technique::Throw,
    Technique::Roll,
];

/// Sixty millilitres or more of something long: soda, juice, wine, beer, tea.
/// Common practice, no source.
fn lengthened(reads: &[Read]) -> bool {
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

/// The ice in the line, a third of it still ice at hand-over.
fn blended(technique: Technique, reads: &[Read]) -> Melt {
    match ice_grams(reads) {
        grams if grams > 0.0 => Melt::Ice(grams, 2.0 / 3.0),
        _ if technique == Technique::FlashBlend => Melt::Share("flash blend"),
        _ => Melt::Share("blend"),
    }
}

/// The ice that is weighed in the lines, g.
fn ice_grams(reads: &[Read]) -> f64 {
    let ice = reads.iter().filter(|read| read.sort_is(&[Sort::Ice]));
    ice.filter_map(|read| read.g).map(|g| g.value).sum()
}
