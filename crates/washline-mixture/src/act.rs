//! The two acts that are measured and modelled: a stir in the mixing glass, a shake in tins.

use crate::composition::Composition;
use crate::constants::{
    ICE_TO_DRINK, MIXING_GLASS_KJ_PER_K, SHAKE_SECONDS, STIR_APPROACH, STIR_SECONDS, Spread,
    TIN_KJ_PER_K, WATER_ON_CUBES,
};
use crate::heat::{Chill, equilibrium};
use crate::held::share;

/// How a drink is chilled over cubes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Act {
    /// Stirred in a mixing glass.
    Stirred,
    /// Shaken in tins.
    Shaken,
}

impl Act {
    /// The heat balance as it usually is: vessel and `liquid` at `start_c`, cubes at 0 °C.
    #[must_use]
    pub fn chill(self, liquid: &Composition, start_c: f64) -> Chill {
        self.chill_at(liquid, start_c, |spread| spread.likely)
    }

    /// The least and the most water the heat balance allows, as shares of the poured
    /// volume: a vessel as cold as its ice, dry cubes and little of them, against the
    /// heaviest vessel and much wet ice.
    #[must_use]
    pub fn bounds(self, liquid: &Composition, start_c: f64) -> (f64, f64) {
        let least = Chill { vessel_kj_per_k: 0.0, ..self.chill_at(liquid, start_c, |s| s.low) };
        let most = self.chill_at(liquid, start_c, |s| s.high);
        (gained(&least), gained(&most))
    }

    /// The seconds in which the act goes two thirds of its way.
    pub(crate) fn seconds(self) -> f64 {
        match self {
            Self::Stirred => STIR_SECONDS,
            Self::Shaken => SHAKE_SECONDS,
        }
    }

    fn chill_at(self, liquid: &Composition, start_c: f64, of: impl Fn(Spread) -> f64) -> Chill {
        let (vessel, approach) = match self {
            Self::Stirred => (MIXING_GLASS_KJ_PER_K, of(STIR_APPROACH)),
            Self::Shaken => (TIN_KJ_PER_K, 1.0),
        };
        Chill {
            liquid: *liquid,
            start_c,
            ice_c: 0.0,
            ice_g: of(ICE_TO_DRINK) * liquid.mass(),
            vessel_kj_per_k: of(vessel),
            vessel_c: start_c,
            clinging_share: of(WATER_ON_CUBES),
            approach,
        }
    }
}

/// The water `chill` gains, as a share of the poured volume.
pub(crate) fn gained(chill: &Chill) -> f64 {
    let water = Composition::water(equilibrium(chill).water_gained_g);
    share(water.volume_ml(), chill.liquid.volume_ml())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::dilution;
    use crate::stated::{Stated, per_100_ml};

    fn pour(abv: f64) -> Composition {
        per_100_ml(&Stated { abv, ..Stated::default() })
    }

    /// Where the formulas were measured, physics allows them: between the driest and the
    /// wettest balance. Without vessel and clinging water a shake would gain too little.
    #[test]
    fn the_published_formulas_lie_within_the_balance() {
        for percent in 12..=43 {
            let liquid = pour(f64::from(percent));
            let a = f64::from(percent) / 100.0;
            for (act, formula) in
                [(Act::Shaken, dilution::shaken(a)), (Act::Stirred, dilution::stirred(a))]
            {
                let (least, most) = act.bounds(&liquid, 20.0);
                assert!(least < formula && formula < most, "{act:?} at {percent} % vol");
            }
        }
        let bare = Chill {
            vessel_kj_per_k: 0.0,
            clinging_share: 0.0,
            ..Act::Shaken.chill(&pour(30.0), 20.0)
        };
        assert!(gained(&bare) < dilution::shaken(0.30) - 0.05);
    }

    /// At 22 % vol 59 % from 20 °C, 41 from 10, 30 from 4: common practice, no source.
    #[test]
    fn a_cold_pour_gains_less() {
        for (start_c, expected) in [(20.0, 0.59), (10.0, 0.41), (4.0, 0.30)] {
            let share = gained(&Act::Shaken.chill(&pour(22.0), start_c));
            assert!((share - expected).abs() < 0.04, "{start_c} °C: {share}");
        }
    }

    /// A shaken drink is served some degrees below 0 °C, a stirred one about there or
    /// below: common practice, no source.
    #[test]
    fn drinks_are_served_below_freezing_water() {
        let end = |act: Act| equilibrium(&act.chill(&pour(27.0), 20.0)).end_c;
        assert!((-8.0..-4.0).contains(&end(Act::Shaken)), "{}", end(Act::Shaken));
        assert!((-6.0..1.0).contains(&end(Act::Stirred)), "{}", end(Act::Stirred));
    }
}
