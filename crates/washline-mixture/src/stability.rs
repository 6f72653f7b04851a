//! How far sugar, alcohol and salt hold back what would spoil a mixture.

use crate::Composition;
use crate::constants::{MOLAR_CITRIC, MOLAR_ETHANOL, MOLAR_SALT, MOLAR_SUCROSE, MOLAR_WATER};
use crate::held::share;

/// Delle units: g of sugar in 100 ml, and 4.5 for each % vol of alcohol. From 78 on yeast stands
/// still.
///
/// Source: M. A. Amerine and R. E. Kunkee, Yeast stability tests on dessert wines, Vitis 5
/// (1965), 187–194; R. E. Kunkee and M. A. Amerine, Sugar and alcohol stabilization of yeast in
/// sweet wine, Applied Microbiology 16 (1968), 1067–1075. Found on wine, where 75 to 85 were needed.
#[must_use]
pub fn delle(c: &Composition) -> f64 {
    c.sugar_g_per_100ml() + DELLE_ALCOHOL * c.abv_percent()
}

/// What a percent of alcohol counts beside a gram of sugar in 100 ml.
const DELLE_ALCOHOL: f64 = 4.5;

/// The Delle units from which yeast stands still.
pub const DELLE_STABLE: f64 = 78.0;

/// Water activity at 20 to 25 °C: 1 of plain water, 0 of none.
///
/// R. S. Norrish, An equation for the activity coefficients and equilibrium relative humidities of
/// water in confectionery syrups, Journal of Food Technology 1 (1966), 25–39, with its constants of
/// sucrose and citric acid as handbooks give them (from memory); ethanol and dissociated salt as
/// ideal, which errs to the wet side. Good to 0.01 below saturation.
#[must_use]
pub fn water_activity(c: &Composition) -> f64 {
    let c = c.physical();
    let water = c.water / MOLAR_WATER;
    let sugar = c.sugar / MOLAR_SUCROSE;
    let acid = c.acid / MOLAR_CITRIC;
    let all = water + sugar + acid + c.ethanol / MOLAR_ETHANOL + 2.0 * c.salt / MOLAR_SALT;
    let k = SUCROSE_K * share(sugar, all).powi(2) + CITRIC_K * share(acid, all).powi(2);
    share(water, all) * (-k).exp()
}

/// Norrish's constant of sucrose. Source: as above, from memory. Spread: ± 0.3.
const SUCROSE_K: f64 = 6.47;
/// Norrish's constant of citric acid. Source: as above, from memory. Spread: ± 0.3.
const CITRIC_K: f64 = 6.17;

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Stated, per_100_ml};

    fn syrup(brix: f64) -> Composition {
        Composition { sugar: brix, water: 100.0 - brix, ..Composition::ZERO }
    }

    fn near(got: f64, want: f64, tolerance: f64) {
        assert!((got - want).abs() <= tolerance, "{got} is not {want} ± {tolerance}");
    }

    /// Robinson and Stokes, Electrolyte Solutions, 1959 (from memory): 1 mol/kg of sucrose 0.9806;
    /// saturated at 20 to 25 °C, 67 Brix, 0.85; 10 % of salt 0.935.
    #[test]
    fn water_activity_of_handbooks() {
        let one_molal = Composition { sugar: 342.3, water: 1000.0, ..Composition::ZERO };
        near(water_activity(&one_molal), 0.9806, 0.001);
        near(water_activity(&syrup(67.0)), 0.85, 0.01);
        let brine = Composition { salt: 10.0, water: 90.0, ..Composition::ZERO };
        near(water_activity(&brine), 0.935, 0.005);
        near(water_activity(&Composition::water(1.0)), 1.0, 1e-12);
        assert_eq!(water_activity(&Composition::ZERO), 0.0);
    }

    /// The two ends of the rule as it is taught: 78 g of sugar in 100 ml, or 17.3 % vol.
    #[test]
    fn sugar_and_alcohol_add_up() {
        let wine = |abv: f64, sugar: f64| per_100_ml(&Stated { abv, sugar, ..Stated::default() });
        near(delle(&wine(17.33, 0.0)), 78.0, 0.1);
        near(delle(&wine(0.0, 78.0)), 78.0, 0.1);
        near(delle(&wine(10.0, 20.0)), 65.0, 0.1);
        assert!(delle(&syrup(65.0)) > DELLE_STABLE && delle(&syrup(50.0)) < DELLE_STABLE);
    }

    #[test]
    fn what_is_no_mixture_stays_a_number() {
        let wrong = Composition { water: f64::NAN, sugar: -1.0, ..Composition::ZERO };
        assert!(water_activity(&wrong).is_finite() && delle(&wrong).is_finite());
    }
}
