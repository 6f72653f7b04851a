//! The heat balance of a drink and its ice, from first principles.
//!
//! The warmth of the liquid and of its vessel, with the heat of diluting spirit, melts ice,
//! until the liquid is as cold as it freezes. The colder the ice, the less of it melts.

use crate::composition::Composition;
use crate::constants::ICE_KJ_PER_G_K;
use crate::enthalpy::{self, DATUM_C};
use crate::freezing;
use crate::held::held;

/// A liquid, its ice and the vessel they meet in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chill {
    /// What was poured.
    pub liquid: Composition,
    /// Its temperature, °C.
    pub start_c: f64,
    /// The ice's temperature, °C: 0 or colder.
    pub ice_c: f64,
    /// The ice, with the water on it, g.
    pub ice_g: f64,
    /// The vessel's heat capacity, kJ/K.
    pub vessel_kj_per_k: f64,
    /// The vessel's temperature, °C.
    pub vessel_c: f64,
    /// The share of the ice's mass that is water on its faces, which joins the drink. Ice
    /// below 0 °C has none.
    pub clinging_share: f64,
    /// The share of the way to equilibrium: 1 all of it, less for a short time.
    pub approach: f64,
}

/// What came of it.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Chilled {
    /// Water the liquid gained, melted and clinging, g.
    pub water_gained_g: f64,
    /// Ice that melted, g.
    pub melted_g: f64,
    /// The liquid's temperature at the end, °C.
    pub end_c: f64,
}

/// The heat balance: the ice melts until the diluted liquid stands at its own freezing
/// point, or is gone. With less than the whole way to go, that share of the ice melts, and
/// the temperature is what the heat then makes it.
#[must_use]
pub fn equilibrium(chill: &Chill) -> Chilled {
    let meeting = Meeting::of(chill);
    let melted = meeting.melted() * held(chill.approach, 0.0, 1.0);
    Chilled {
        water_gained_g: melted + meeting.clinging,
        melted_g: melted,
        end_c: meeting.temperature(melted),
    }
}

/// A [`Chill`] with every number in its range, and the heat in it.
struct Meeting {
    /// The liquid with the water that clung to the ice.
    liquid: Composition,
    clinging: f64,
    ice: f64,
    vessel_kj_per_k: f64,
    /// All there is, counted as [`enthalpy`] counts, kJ.
    heat: f64,
}

impl Meeting {
    fn of(chill: &Chill) -> Self {
        const MOST_G: f64 = 1e7;
        let ice_c = held(chill.ice_c.min(0.0), -80.0, 0.0);
        let ice_g = held(chill.ice_g, 0.0, MOST_G);
        let clinging_share = if ice_c < 0.0 { 0.0 } else { held(chill.clinging_share, 0.0, 1.0) };
        let clinging = Composition::water(ice_g * clinging_share);
        let ice = ice_g - clinging.water;
        let liquid = chill.liquid.physical();
        let start_c = held(chill.start_c, -80.0, 100.0);
        let vessel_kj_per_k = held(chill.vessel_kj_per_k, 0.0, MOST_G);
        let heat = enthalpy::of_liquid(&liquid, start_c)
            + enthalpy::of_liquid(&clinging, 0.0)
            + enthalpy::of_ice(ice, ice_c)
            + vessel_kj_per_k * (held(chill.vessel_c, -80.0, 100.0) - DATUM_C);
        let (liquid, clinging) = (liquid.plus(&clinging), clinging.water);
        Self { liquid, clinging, ice, vessel_kj_per_k, heat }
    }

    /// Grams of ice melted at equilibrium: where the heat left over at the freezing point
    /// is none. It falls as ice melts, so the root is bracketed (regula falsi, Illinois).
    fn melted(&self) -> f64 {
        let (mut low, mut high) = (0.0, self.ice);
        let (mut left_low, mut left_high) = (self.left_over(low), self.left_over(high));
        if left_low <= 0.0 {
            return 0.0;
        }
        if left_high >= 0.0 {
            return self.ice;
        }
        let mut last_side = 0;
        for _ in 0..40 {
            let melted = (low * left_high - high * left_low) / (left_high - left_low);
            let left = self.left_over(melted);
            if left.abs() <= 1e-9 * (1.0 + self.heat.abs()) {
                return melted;
            }
            if left > 0.0 {
                (low, left_low) = (melted, left);
                left_high *= if last_side == 1 { 0.5 } else { 1.0 };
                last_side = 1;
            } else {
                (high, left_high) = (melted, left);
                left_low *= if last_side == -1 { 0.5 } else { 1.0 };
                last_side = -1;
            }
        }
        f64::midpoint(low, high)
    }

    fn left_over(&self, melted: f64) -> f64 {
        let freezing = freezing::point_c(&self.diluted(melted));
        self.heat - self.heat_at(melted, freezing)
    }

    /// The temperature at which all the heat is accounted for: Newton, on what is all but
    /// a straight line, from where most drinks end.
    fn temperature(&self, melted: f64) -> f64 {
        let diluted = self.diluted(melted);
        let mut t = freezing::point_c(&diluted);
        for _ in 0..8 {
            let ice = if t < 0.0 { ICE_KJ_PER_G_K * (self.ice - melted) } else { 0.0 };
            let slope = enthalpy::heat_capacity(&diluted, t) + self.vessel_kj_per_k + ice;
            if slope < 1e-12 {
                break;
            }
            let step = (self.heat - self.heat_at(melted, t)) / slope;
            t = held(t + step, -80.0, 100.0);
            if step.abs() < 1e-6 {
                break;
            }
        }
        t
    }

    fn heat_at(&self, melted: f64, t: f64) -> f64 {
        enthalpy::of_liquid(&self.diluted(melted), t)
            + enthalpy::of_ice(self.ice - melted, t)
            + self.vessel_kj_per_k * (t - DATUM_C)
    }

    fn diluted(&self, melted: f64) -> Composition {
        self.liquid.plus(&Composition::water(melted))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn close(got: f64, expected: f64, tolerance: f64) {
        assert!((got - expected).abs() <= tolerance, "{got} is not {expected} ± {tolerance}");
    }

    fn water_and_ice(start_c: f64, ice_g: f64) -> Chill {
        Chill {
            liquid: Composition::water(100.0),
            start_c,
            ice_c: 0.0,
            ice_g,
            vessel_kj_per_k: 0.0,
            vessel_c: start_c,
            clinging_share: 0.0,
            approach: 1.0,
        }
    }

    /// 100 g of water from 20 to 0 °C gives up 8.39 kJ and melts 25.2 g of ice (IAPWS-95,
    /// IAPWS-06: 83.9 J/g over 333.43 J/g).
    #[test]
    fn water_melts_a_quarter_of_its_mass() {
        let chilled = equilibrium(&water_and_ice(20.0, 200.0));
        close(chilled.melted_g, 25.2, 0.1);
        close(chilled.end_c, 0.0, 1e-6);
    }

    /// All the ice gone, the rest is a mean: 100 g at 40 °C with 10 g of ice keep
    /// (100·40·4.18 − 10·333.43) / (110·4.18) = 29.1 °C.
    #[test]
    fn too_little_ice_melts_whole() {
        let chilled = equilibrium(&water_and_ice(40.0, 10.0));
        close(chilled.melted_g, 10.0, 1e-9);
        close(chilled.end_c, 29.1, 0.15);
    }

    /// Ice at -18 °C takes 36.5 kJ/kg before it melts (IAPWS-06), so less of it melts.
    #[test]
    fn colder_ice_melts_less() {
        let cold = Chill { ice_c: -18.0, ..water_and_ice(20.0, 200.0) };
        close(equilibrium(&cold).melted_g, 25.2 - 200.0 * 36.5 / 333.43, 0.5);
    }

    #[test]
    fn clinging_water_joins_and_a_vessel_warms() {
        let bare = water_and_ice(20.0, 200.0);
        let wet = equilibrium(&Chill { clinging_share: 0.05, ..bare });
        close(wet.water_gained_g, equilibrium(&bare).water_gained_g + 10.0, 0.05);
        let tin = equilibrium(&Chill { vessel_kj_per_k: 0.2, ..bare });
        close(tin.melted_g - equilibrium(&bare).melted_g, 0.2 * 20.0 / 0.333_43, 0.05);
    }

    #[test]
    fn spirit_ends_where_its_dilution_freezes() {
        let liquid = Composition { water: 64.0, ethanol: 32.0, ..Composition::ZERO };
        let chill = Chill { liquid, ..water_and_ice(20.0, 300.0) };
        let chilled = equilibrium(&chill);
        let diluted = liquid.plus(&Composition::water(chilled.water_gained_g));
        close(chilled.end_c, freezing::point_c(&diluted), 1e-4);
        assert!(chilled.end_c < -6.0, "{chilled:?}");
        let short = equilibrium(&Chill { approach: 0.5, ..chill });
        close(short.melted_g, 0.5 * chilled.melted_g, 1e-6);
        assert!(short.end_c > chilled.end_c + 5.0, "{short:?}");
    }

    #[test]
    fn a_liquid_colder_than_its_ice_gains_nothing() {
        let liquid = Composition { water: 60.0, ethanol: 35.0, ..Composition::ZERO };
        let chill = Chill { liquid, ice_c: -5.0, ..water_and_ice(-40.0, 100.0) };
        let chilled = equilibrium(&chill);
        assert_eq!(chilled.water_gained_g, 0.0);
        assert!((-40.0..-5.0).contains(&chilled.end_c), "{chilled:?}");
    }

    #[test]
    fn anything_can_be_balanced() {
        for x in [0.0, -7.0, 1e300, f64::INFINITY, f64::NEG_INFINITY, f64::NAN, 25.0] {
            for y in [0.0, 0.5, 1e300, f64::NAN, -90.0] {
                let chill = Chill {
                    liquid: Composition { water: x, ethanol: y, sugar: y, ..Composition::ZERO },
                    start_c: x,
                    ice_c: y,
                    ice_g: x,
                    vessel_kj_per_k: y,
                    vessel_c: x,
                    clinging_share: y,
                    approach: x,
                };
                let chilled = equilibrium(&chill);
                assert!(chilled.water_gained_g.is_finite() && chilled.end_c.is_finite());
                assert!(chilled.water_gained_g >= 0.0, "{chilled:?} of {chill:?}");
            }
        }
    }
}
