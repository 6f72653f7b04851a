//! The figures of an entry: what is in the glass, with its uncertainty.

use washline_measure::{Estimate, Interval};
use washline_mixture::{Composition, freezing, propagate};
use washline_reference::Market;

use crate::Input;
use crate::mix::Watering;

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

/// Everything that the figures of one entry are computed from.
#[derive(Clone, Debug, Default)]
pub(crate) struct Poured {
    /// What is in the vessel when it is mixed, still water left out.
    pub inside: Composition,
    /// What is not, still water left out.
    pub outside: Composition,
    /// Still water in the lines, g.
    pub water_lines: f64,
    /// How the mix waters what is inside; none where nobody says how it is made.
    pub watering: Option<Watering>,
    /// The effect of each input on what is inside and outside, one standard uncertainty each.
    pub shifts: Vec<(Input, Composition, Composition)>,
    /// How many serves it makes.
    pub serves: f64,
}

/// The variables: eight parts inside, eight outside, the model's residual.
const N: usize = 17;
/// The figures that one evaluation gives.
const M: usize = 15;

impl Poured {
    /// The composition of the finished drink of all serves.
    pub(crate) fn finished(&self) -> Option<Composition> {
        let melt = self.watering.as_ref()?.melt_ml(&self.inside, 0.0);
        let water = self.water_lines + melt * WATER_G_PER_ML;
        Some(self.inside.plus(&self.outside).plus(&of_water(water)))
    }

    /// The figures, per serve.
    pub(crate) fn figures(&self, freezer_c: f64) -> Figures {
        let mut at = [0.0; N];
        put(&mut at, &self.inside, &self.outside);
        let mut shifts: Vec<[f64; N]> = Vec::with_capacity(self.shifts.len() + 1);
        for (_, inside, outside) in &self.shifts {
            let mut row = [0.0; N];
            put(&mut row, inside, outside);
            shifts.push(row);
        }
        if let Some(watering) = &self.watering {
            let mut row = [0.0; N];
            if let Some(last) = row.last_mut() {
                *last = watering.residual();
            }
            shifts.push(row);
        }
        let computed = propagate::figures(&at, &shifts, |x| self.evaluate(x));
        let mut figures = Figures::default();
        for (figure, estimate) in EVALUATED.iter().zip(computed) {
            figures.set(*figure, Some(interval(*figure, estimate)));
        }
        if let Some(ethanol) = figures.get(Figure::Ethanol) {
            for (slot, market) in figures.standard_drinks.iter_mut().zip(Market::ALL) {
                let drink = market.standard_drink_g().value;
                *slot = Some(Interval {
                    value: ethanol.value / drink,
                    low: ethanol.low / drink,
                    high: ethanol.high / drink,
                });
            }
        }
        if let Some(finished) = self.finished() {
            freeze(&mut figures, &finished, freezer_c);
        }
        figures
    }

    fn evaluate(&self, x: &[f64; N]) -> [f64; M] {
        let (inside, outside, residual) = take(x);
        let poured = inside.plus(&outside);
        let poured_ml = poured.volume_ml();
        let serves = self.serves.max(1e-9);
        let before = poured.plus(&of_water(0.0));
        let none = f64::NAN;
        let log_ratio = |c: &Composition| {
            if c.acid > 1e-3 && c.sugar > 1e-3 { (c.sugar / c.acid).ln() } else { none }
        };
        let mut out = [none; M];
        let abv_before = before.abv_percent();
        let Some(watering) = &self.watering else {
            let known = [
                poured_ml / serves,
                none,
                none,
                none,
                abv_before,
                none,
                none,
                none,
                log_ratio(&poured),
                none,
                poured.ethanol / serves,
                poured.energy_kcal() / serves,
                poured.energy_kj() / serves,
                none,
                none,
            ];
            out.copy_from_slice(&known);
            return out;
        };
        let melt = watering.melt_ml(&inside, residual);
        let gained = self.water_lines / WATER_G_PER_ML + melt;
        let drink = poured.plus(&of_water(gained * WATER_G_PER_ML));
        let drink_ml = drink.volume_ml();
        let share = |of: f64| if of > 0.0 { 100.0 * gained / of } else { none };
        let known = [
            poured_ml / serves,
            drink_ml / serves,
            share(poured_ml),
            share(drink_ml),
            if poured_ml > 0.0 { abv_before } else { none },
            drink.abv_percent(),
            drink.sugar_g_per_100ml(),
            drink.acid_g_per_100ml(),
            log_ratio(&drink),
            drink.salt_g_per_100ml(),
            drink.ethanol / serves,
            drink.energy_kcal() / serves,
            drink.energy_kj() / serves,
            drink.density(),
            drink.brix(),
        ];
        out.copy_from_slice(&known);
        out
    }
}

/// The figures of one evaluation, in its order.
const EVALUATED: [Figure; M] = [
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

/// Grams of water in a millilitre at 20 °C. Source: OIML R 22.
pub(crate) const WATER_G_PER_ML: f64 = 0.998_201_23;

fn interval(figure: Figure, estimate: Estimate) -> Interval {
    match figure {
        Figure::Ratio => propagate::of_log(estimate),
        Figure::WaterShare | Figure::AbvBefore | Figure::Abv | Figure::Brix => {
            estimate.interval(0.0, 100.0)
        }
        _ => estimate.interval(0.0, f64::MAX),
    }
}

/// The freezing point and the ice at the freezer's temperature, with what the spread of
/// strength and sugar does to them.
fn freeze(figures: &mut Figures, drink: &Composition, freezer_c: f64) {
    let spread = |figure: Figure| {
        figures
            .get(figure)
            .filter(|i| i.value > 0.0)
            .map_or(0.0, |i| (i.high - i.low) / 4.0 / i.value)
    };
    let (abv, sugar) = (spread(Figure::Abv), spread(Figure::Sugar));
    let point = freezing::point_c(drink);
    let ice = 100.0 * freezing::ice_share(drink, freezer_c);
    let mut squares = (0.0, 0.0);
    for moved in [
        Composition { ethanol: drink.ethanol * (1.0 + abv), ..*drink },
        Composition { sugar: drink.sugar * (1.0 + sugar), ..*drink },
    ] {
        let by = freezing::point_c(&moved) - point;
        squares.0 += by * by;
        let by = 100.0 * freezing::ice_share(&moved, freezer_c) - ice;
        squares.1 += by * by;
    }
    // The curves themselves: sources differ by 0.4 K.
    squares.0 += 0.2 * 0.2;
    figures.set(
        Figure::Freezing,
        Some(Estimate { value: point, u: squares.0.sqrt() }.interval(-120.0, 0.0)),
    );
    figures.set(
        Figure::IceShare,
        Some(Estimate { value: ice, u: squares.1.sqrt() }.interval(0.0, 100.0)),
    );
}

pub(crate) fn of_water(grams: f64) -> Composition {
    Composition { water: grams, ..Composition::ZERO }
}

fn parts(c: &Composition) -> [f64; 8] {
    [c.water, c.ethanol, c.sugar, c.acid, c.fat, c.protein, c.salt, c.other]
}

fn of_parts(x: &[f64]) -> Composition {
    let at = |n: usize| x.get(n).copied().unwrap_or(0.0);
    Composition {
        water: at(0),
        ethanol: at(1),
        sugar: at(2),
        acid: at(3),
        fat: at(4),
        protein: at(5),
        salt: at(6),
        other: at(7),
    }
}

fn put(row: &mut [f64; N], inside: &Composition, outside: &Composition) {
    for (slot, x) in row.iter_mut().zip(parts(inside).into_iter().chain(parts(outside))) {
        *slot = x;
    }
}

fn take(x: &[f64; N]) -> (Composition, Composition, f64) {
    let (inside, rest) = x.split_at(8);
    let (outside, residual) = rest.split_at(8);
    (of_parts(inside), of_parts(outside), residual.first().copied().unwrap_or(0.0))
}
