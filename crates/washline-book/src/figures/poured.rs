//! The figures of one entry, computed from what is poured and how it is watered.

use washline_measure::{Estimate, Interval};
use washline_mixture::{Composition, freezing, propagate};
use washline_reference::Market;

use super::{Cause, EVALUATED, Effects, Figure, Figures};
use crate::Input;
use crate::mix::Watering;

/// Everything that the figures of one entry are computed from.
#[derive(Clone, Debug, Default)]
pub(crate) struct Poured {
    /// What is in the vessel when it is mixed, still water left out.
    pub inside: Composition,
    /// What is not, still water left out.
    pub outside: Composition,
    /// Still water in the lines, g.
    pub water_lines: f64,
    /// What of it is in the vessel when it is mixed: the drink meets the ice weaker for it, g.
    pub water_inside: f64,
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
const M: usize = EVALUATED.len();

impl Poured {
    /// The composition of the finished drink of all serves.
    pub(crate) fn finished(&self) -> Option<Composition> {
        let melt = self.watering.as_ref()?.melt_ml(&self.in_the_vessel(&self.inside), 0.0);
        let water = self.water_lines + melt * WATER_G_PER_ML;
        Some(self.inside.plus(&self.outside).plus(&of_water(water)))
    }

    /// What meets the ice: `inside` with the water that was measured in.
    pub(crate) fn in_the_vessel(&self, inside: &Composition) -> Composition {
        inside.plus(&of_water(self.water_inside))
    }

    /// The figures, per serve.
    pub(crate) fn figures(&self, freezer_c: f64) -> Figures {
        let (at, shifts) = self.variables();
        let computed = propagate::figures(&at, &shifts, |x| self.evaluate(x));
        let mut figures = Figures::default();
        for (figure, estimate) in EVALUATED.iter().zip(computed) {
            // What does not apply is no number, and no range may make one of it.
            let known = estimate.value.is_finite();
            figures.set(*figure, known.then(|| interval(*figure, estimate)));
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

    /// What each input does to the figures, one standard uncertainty each.
    pub(crate) fn effects(&self) -> Effects {
        let (at, shifts) = self.variables();
        let rows = propagate::effects(&at, &shifts, |x| self.evaluate(x));
        let inputs = self.shifts.iter().map(|(input, ..)| Cause::Input(*input));
        let melt = self.watering.as_ref().map(|watering| Cause::Melt(watering.model_name()));
        Effects { rows: inputs.chain(melt).zip(rows).collect() }
    }

    /// Where the figures are computed, and a row for each input.
    fn variables(&self) -> ([f64; N], Vec<[f64; N]>) {
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
        (at, shifts)
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
        let melt = watering.melt_ml(&self.in_the_vessel(&inside), residual);
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

fn of_water(grams: f64) -> Composition {
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

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::makeup::Part;
    use washline_mixture::{Stated, per_100_ml};

    /// Marsaglia's xorshift, and twelve uniforms for one normal: enough for a check, and the
    /// same on every machine.
    struct Dice(u64);

    impl Dice {
        fn uniform(&mut self) -> f64 {
            self.0 ^= self.0 << 13;
            self.0 ^= self.0 >> 7;
            self.0 ^= self.0 << 17;
            (self.0 >> 11) as f64 / (1_u64 << 53) as f64
        }

        fn normal(&mut self) -> f64 {
            (0..12).map(|_| self.uniform()).sum::<f64>() - 6.0
        }
    }

    fn liquid(abv: f64, sugar: f64, acid: f64) -> Composition {
        per_100_ml(&Stated { abv, sugar, acid, ..Stated::default() }).times(0.01)
    }

    /// A shaken sour: 60 ml at 40 % vol (u 0.6), 22.5 ml of acid juice (u 0.25 g/100 ml),
    /// 22.5 ml of syrup, each pour with 2.5 %.
    fn sour() -> Poured {
        let (spirit, juice, syrup) =
            (liquid(40.0, 0.0, 0.0), liquid(0.0, 2.0, 6.0), liquid(0.0, 61.48, 0.0));
        let stronger = liquid(40.6, 0.0, 0.0).minus(&spirit).times(60.0);
        let sharper = liquid(0.0, 2.0, 6.25).minus(&juice).times(22.5);
        let none = Composition::ZERO;
        let line =
            |n: u32, of: &Composition, ml: f64| (Input::Line(0, n), of.times(ml * 0.025), none);
        Poured {
            inside: spirit.times(60.0).plus(&juice.times(22.5)).plus(&syrup.times(22.5)),
            watering: Some(Watering::shaken()),
            shifts: vec![
                line(1, &spirit, 60.0),
                line(2, &juice, 22.5),
                line(3, &syrup, 22.5),
                (Input::Property(0, Part::Abv), stronger, none),
                (Input::Property(1, Part::Acid), sharper, none),
            ],
            serves: 1.0,
            ..Poured::default()
        }
    }

    /// The law of propagation (JCGM 100) against a simulation of the same inputs (JCGM 101).
    #[test]
    fn uncertainty_agrees_with_monte_carlo() {
        let drink = sour();
        let figures = drink.figures(-18.0);
        let mut dice = Dice(0x9e37_79b9_7f4a_7c15);
        let runs = 20_000;
        let mut sums = [(0.0, 0.0); M];
        for _ in 0..runs {
            let mut inside = drink.inside;
            for (_, shift, _) in &drink.shifts {
                inside = inside.plus(&shift.times(dice.normal()));
            }
            let mut at = [0.0; N];
            put(&mut at, &inside, &drink.outside);
            at[N - 1] = Watering::shaken().residual() * dice.normal();
            for (sum, value) in sums.iter_mut().zip(drink.evaluate(&at)) {
                sum.0 += value;
                sum.1 += value * value;
            }
        }
        for (figure, (sum, squares)) in EVALUATED.iter().zip(sums) {
            if *figure == Figure::Salt {
                continue;
            }
            let mean = sum / f64::from(runs);
            let u = (squares / f64::from(runs) - mean * mean).max(0.0).sqrt();
            let said = figures.get(*figure).unwrap();
            let (value, half) = match figure {
                Figure::Ratio => (said.value.ln(), (said.high / said.value).ln() / 2.0),
                _ => (said.value, (said.high - said.low) / 4.0),
            };
            assert!((value - mean).abs() < 0.15 * u.max(1e-9), "{}: {value} {mean}", figure.id());
            assert!((half - u).abs() < 0.04 * u, "{}: u {half} against {u}", figure.id());
        }
    }

    #[test]
    fn one_thing_poured_twice_adds_before_it_is_squared() {
        let drink = sour();
        let mut twice = sour();
        for (_, inside, _) in &mut twice.shifts {
            *inside = inside.times(2.0);
        }
        let u = |p: &Poured| {
            let abv = p.figures(-18.0).get(Figure::AbvBefore).unwrap();
            abv.high - abv.value
        };
        assert!((u(&twice) / u(&drink) - 2.0).abs() < 0.02);
    }

    #[test]
    fn nothing_poured_gives_numbers_or_nothing() {
        let figures = Poured { watering: Some(Watering::DRY), serves: 1.0, ..Poured::default() }
            .figures(-18.0);
        for figure in Figure::ALL {
            assert!(figures.get(*figure).is_none_or(|i| i.value.is_finite()));
        }
    }

    /// Nobody says how it is made: what hangs on the water it gains is not known.
    #[test]
    fn unknown_water_leaves_no_figure_of_the_finished_drink() {
        let text = "drink: A\n  60 ml gin\n  10 ml dry vermouth\n";
        let files = vec![(Arc::from("a.pour"), Arc::from(text))];
        let workspace = crate::Workspace::new(files, crate::Settings::default());
        let figures = &workspace.records()[0].figures;
        for figure in [Figure::Final, Figure::Abv, Figure::Sugar, Figure::Dilution] {
            assert_eq!(figures.get(figure), None, "{figure:?}");
        }
        assert!(figures.get(Figure::AbvBefore).is_some() && figures.get(Figure::Ethanol).is_some());
    }
}
