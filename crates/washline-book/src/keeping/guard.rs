//! What holds back what would spoil something.

use washline_mixture::{ph, stability};

use crate::Makeup;

/// What holds back what would spoil something: its strength, sugar, salt and acid.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Guard {
    /// Strength, % vol.
    pub abv: f64,
    /// Sugar, % of mass.
    pub brix: f64,
    /// Sugar and alcohol together, Delle units.
    pub delle: f64,
    /// Salt, % of mass.
    pub salt: f64,
    /// Acid as citric, g/100 ml.
    pub acid: f64,
    /// Fat, % of mass.
    pub fat: f64,
    /// pH: measured, or reckoned from the acid; good to half a unit at best.
    pub ph: f64,
    /// Whether the pH was measured.
    pub ph_measured: bool,
    /// Water activity, 0 to 1.
    pub water_activity: f64,
    /// Whether it is poured; else weighed.
    pub liquid: bool,
}

/// What a kilogram of leaf or vegetable takes of acid before its pH falls, mol. Common practice,
/// no source: some 30 mmol between pH 6 and 4.6.
const TISSUE_BUFFERS: f64 = 0.03;
/// Equivalents in a gram of citric acid.
const EQUIVALENTS: f64 = 3.0 / 192.124;
/// The strength from which what is made keeps as spirit does, % vol. Common practice, no source.
const STRONG: f64 = 20.0;
/// Salt from which brine keeps, % of mass. Common practice, no source.
const BRINE: f64 = 10.0;

impl Guard {
    /// Of a makeup, with `tissue` kg of plant in a litre of it, and the pH if it was measured.
    pub(super) fn of(makeup: &Makeup, tissue: f64, measured: Option<f64>) -> Self {
        let one = &makeup.one;
        let acid = one.acid_g_per_100ml();
        let equivalents = acid * 10.0 * EQUIVALENTS;
        let minerals = 0.04 * equivalents + tissue * TISSUE_BUFFERS;
        let reckoned =
            if equivalents > 1e-6 { ph::buffered(acid, minerals / equivalents) } else { 7.0 };
        let mass = one.mass();
        let percent = |part: f64| if mass > 0.0 { 100.0 * part / mass } else { 0.0 };
        Self {
            abv: one.abv_percent(),
            brix: one.brix(),
            delle: stability::delle(one),
            salt: percent(one.salt),
            acid,
            fat: percent(one.fat),
            ph: measured.unwrap_or(reckoned),
            ph_measured: measured.is_some(),
            water_activity: stability::water_activity(one),
            liquid: makeup.liquid,
        }
    }

    /// Whether it keeps as spirit, thick syrup or brine does.
    #[must_use]
    pub fn is_stable(&self) -> bool {
        self.is_strong() || self.delle >= stability::DELLE_STABLE || self.salt >= BRINE
    }

    /// Whether it keeps as spirit does.
    #[must_use]
    pub fn is_strong(&self) -> bool {
        self.abv >= STRONG
    }

    /// Whether it is oil or fat.
    #[must_use]
    pub fn is_oil(&self) -> bool {
        self.fat > 50.0
    }
}
