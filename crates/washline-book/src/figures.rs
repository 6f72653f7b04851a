//! The figures of an entry: what is in the glass, with its uncertainty.

use washline_measure::Interval;
use washline_reference::Market;
use washline_text::Kind;

use crate::Input;

mod poured;

pub(crate) use poured::{Poured, WATER_G_PER_ML};

macro_rules! figures {
    ($($name:ident $id:literal $label:literal $unit:literal;)*) => {
        /// A figure of an entry.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Figure { $(#[doc = $label] $name,)* }

        impl Figure {
            /// All figures, in the order of the outputs.
            pub const ALL: &'static [Self] = &[$(Self::$name,)*];

            /// Its name in the outputs.
            #[must_use]
            pub const fn id(self) -> &'static str {
                match self { $(Self::$name => $id,)* }
            }

            /// Its name for people.
            #[must_use]
            pub const fn label(self) -> &'static str {
                match self { $(Self::$name => $label,)* }
            }

            /// Its name for people, said of an entry of that kind.
            #[must_use]
            pub const fn label_of(self, kind: Kind) -> &'static str {
                match (self, kind) {
                    (Self::Final, Kind::Prep) => "yield",
                    _ => self.label(),
                }
            }

            /// Its unit for people.
            #[must_use]
            pub const fn unit(self) -> &'static str {
                match self { $(Self::$name => $unit,)* }
            }
        }
    };
}

figures! {
    Poured "poured_ml" "poured" "ml";
    Final "final_ml" "finished drink" "ml";
    Dilution "dilution_percent" "dilution, of the pour" "%";
    WaterShare "water_share_percent" "water gained, of the drink" "%";
    AbvBefore "abv_before_percent" "strength as poured" "% vol";
    Abv "abv_percent" "strength" "% vol";
    Sugar "sugar_g_per_100ml" "sugar" "g/100 ml";
    Acid "acid_g_per_100ml" "acid, as citric" "g/100 ml";
    Ratio "sugar_acid_ratio" "sugar to acid, by mass" "";
    Salt "salt_g_per_100ml" "salt" "g/100 ml";
    Ethanol "ethanol_g" "ethanol" "g";
    Kcal "energy_kcal" "energy" "kcal";
    Kj "energy_kj" "energy" "kJ";
    Density "density_g_per_ml" "density" "g/ml";
    Brix "brix" "dissolved sugar" "Brix";
    Freezing "freezing_point_c" "starts to freeze" "°C";
    IceShare "ice_share_at_freezer_percent" "ice in the freezer" "%";
    ServeTemperature "serve_temperature_c" "served at" "°C";
    GlassFill "glass_fill_percent" "glass filled, to the wash line" "%";
    Cost "cost" "cost" "";
}

/// How many figures there are.
const COUNT: usize = Figure::ALL.len();

/// The figures of an entry; what does not apply is `None`.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Figures {
    values: [Option<Interval>; COUNT],
    /// Standard drinks by market.
    pub standard_drinks: [Option<Interval>; Market::ALL.len()],
    /// The currency of the cost; none where there is none, or where several mix.
    pub currency: Option<String>,
    /// Sulphur dioxide of the finished drink, mg/l.
    pub sulphites_mg_per_l: Option<f64>,
    /// Quinine of the finished drink, mg/l.
    pub quinine_mg_per_l: Option<f64>,
    /// Caffeine a serve, mg.
    pub caffeine_mg: Option<f64>,
}

impl Figures {
    /// The figure with its 95 % range.
    #[must_use]
    pub fn get(&self, figure: Figure) -> Option<Interval> {
        self.values.get(figure as usize).copied().flatten()
    }

    /// The figure's value.
    #[must_use]
    pub fn value(&self, figure: Figure) -> Option<f64> {
        self.get(figure).map(|interval| interval.value)
    }

    pub(crate) fn set(&mut self, figure: Figure, value: Option<Interval>) {
        let finite = |i: &Interval| i.value.is_finite() && i.low.is_finite() && i.high.is_finite();
        if let Some(slot) = self.values.get_mut(figure as usize) {
            *slot = value.filter(finite);
        }
    }
}

/// The figures that are reckoned from inputs in one evaluation, in its order.
const EVALUATED: [Figure; 15] = [
    Figure::Poured,
    Figure::Final,
    Figure::Dilution,
    Figure::WaterShare,
    Figure::AbvBefore,
    Figure::Abv,
    Figure::Sugar,
    Figure::Acid,
    Figure::Ratio,
    Figure::Salt,
    Figure::Ethanol,
    Figure::Kcal,
    Figure::Kj,
    Figure::Density,
    Figure::Brix,
];

/// What makes a figure uncertain.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Cause {
    /// One input.
    Input(Input),
    /// How well the model of the melt knows it, by the model's name.
    Melt(String),
}

/// How the figures of an entry move when each input grows by one standard uncertainty.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Effects {
    rows: Vec<(Cause, [f64; EVALUATED.len()])>,
}

impl Effects {
    /// What each cause does to `figure`, of [`Figure::Ratio`] to its natural logarithm; empty
    /// for figures that are not reckoned from inputs.
    pub fn on(&self, figure: Figure) -> impl Iterator<Item = (&Cause, f64)> {
        let at = EVALUATED.iter().position(|known| *known == figure);
        let rows = self.rows.iter();
        rows.filter_map(move |(cause, row)| Some((cause, row.get(at?).copied()?)))
    }
}
