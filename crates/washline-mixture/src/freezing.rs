//! When a mixture starts to freeze, and how much of it is ice.
//!
//! Each solute lowers the freezing point of the mixture's water as if it were there alone,
//! and the lowerings add. Sugar counts as sucrose; invert sugar lowers it nearly twice as
//! far, protein and other solids are left out: a batch of either freezes a little later
//! than is said here.

use crate::coefficients::{ETHANOL_FREEZING, ETHANOL_FREEZING_END, SUCROSE_FREEZING, polynomial};
use crate::composition::Composition;
use crate::constants::{
    ACID_K_KG_PER_MOL, CRYOSCOPIC_K_KG_PER_MOL, MOLAR_CITRIC, MOLAR_SALT, MOLAR_SUCROSE,
    SALT_K_KG_PER_MOL,
};
use crate::held::share;

/// The temperature at which the first ice forms, °C, never above 0. Ethanol counts to 66 %
/// by mass (-48.6 °C), past the reach of any bar's freezer.
#[must_use]
pub fn point_c(mixture: &Composition) -> f64 {
    -lowering(&mixture.physical())
}

/// The share of the mixture's mass that is ice at `t_c` °C: as much water as must leave for
/// what stays liquid to freeze just there. 0 where it is clear, and where there is no water.
#[must_use]
pub fn ice_share(mixture: &Composition, t_c: f64) -> f64 {
    let whole = mixture.physical();
    if t_c.is_nan() || t_c >= point_c(&whole) {
        return 0.0;
    }
    let frozen = |ice: f64| lowering(&Composition { water: whole.water - ice, ..whole }) >= -t_c;
    let (mut too_little, mut enough) = (0.0, whole.water);
    for _ in 0..40 {
        let ice = f64::midpoint(too_little, enough);
        if frozen(ice) {
            enough = ice;
        } else {
            too_little = ice;
        }
    }
    share(enough, whole.mass())
}

/// How far below 0 °C freezing starts, K.
fn lowering(c: &Composition) -> f64 {
    by_ethanol(share(c.ethanol, c.ethanol + c.water))
        + by_sugar(molality(c.sugar, MOLAR_SUCROSE, c.water))
        + ACID_K_KG_PER_MOL * molality(c.acid, MOLAR_CITRIC, c.water)
        + by_salt(molality(c.salt, MOLAR_SALT, c.water))
}

fn by_ethanol(p: f64) -> f64 {
    let p = p.min(ETHANOL_FREEZING_END);
    p * polynomial(&ETHANOL_FREEZING, p)
}

fn by_sugar(m: f64) -> f64 {
    CRYOSCOPIC_K_KG_PER_MOL * m * (1.0 + m * polynomial(&SUCROSE_FREEZING, m))
}

fn by_salt(m: f64) -> f64 {
    SALT_K_KG_PER_MOL.0 * m * (1.0 + SALT_K_KG_PER_MOL.1 * m * m)
}

/// Moles in a kilogram of water, to the 8 that a solute is followed to (sucrose is past
/// saturation at 6, salt at 6.2).
fn molality(grams: f64, molar_mass: f64, water: f64) -> f64 {
    const MOST: f64 = 8.0;
    let moles = 1000.0 * grams / molar_mass;
    if moles < MOST * water {
        share(moles, water)
    } else if moles > 0.0 {
        MOST
    } else {
        0.0
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::stated::{Stated, per_100_ml};
    use crate::sucrose::syrup;

    fn close(got: f64, expected: f64, tolerance: f64) {
        assert!((got - expected).abs() <= tolerance, "{got} is not {expected} ± {tolerance}");
    }

    fn spirit(abv: f64) -> Composition {
        per_100_ml(&Stated { abv, ..Stated::default() })
    }

    fn by_mass(percent: f64) -> Composition {
        Composition { ethanol: percent, water: 100.0 - percent, ..Composition::ZERO }
    }

    /// A few points of the CRC Handbook, 102nd ed. (2021); CoolProp differs from it by as
    /// much as 0.4 K.
    #[test]
    fn ethanol_by_mass() {
        for (percent, expected) in [
            (1.0, -0.40),
            (5.0, -2.09),
            (10.0, -4.47),
            (15.0, -7.36),
            (20.0, -10.92),
            (30.0, -20.47),
            (40.0, -29.26),
            (50.0, -37.67),
            (60.0, -44.93),
        ] {
            close(point_c(&by_mass(percent)), expected, 0.4);
        }
    }

    /// A few points of CoolProp 8.0.0, `INCOMP::MEA`.
    #[test]
    fn ethanol_by_a_library() {
        for (percent, expected) in [(8.0, -3.37), (18.0, -9.55), (32.0, -22.06), (52.0, -39.05)] {
            close(point_c(&by_mass(percent)), expected, 0.4);
        }
    }

    /// A few points of the CRC Handbook, 102nd ed. (2021).
    #[test]
    fn sugar_by_brix() {
        for (brix, expected) in
            [(1.0, -0.06), (5.0, -0.29), (10.0, -0.63), (20.0, -1.47), (30.0, -2.64), (42.0, -4.93)]
        {
            close(point_c(&syrup(brix)), expected, 0.1);
        }
    }

    /// CRC Handbook by public copies: citric acid 10 %, salt 1, 5, 10, 20 %.
    #[test]
    fn acid_and_salt() {
        let citric = Composition { acid: 10.0, water: 90.0, ..Composition::ZERO };
        close(point_c(&citric), -1.12, 0.02);
        for (percent, expected) in [(1.0, -0.6), (5.0, -3.0), (10.0, -6.6), (20.0, -16.5)] {
            let brine = Composition { salt: percent, water: 100.0 - percent, ..Composition::ZERO };
            close(point_c(&brine), expected, 0.15);
        }
    }

    /// Clear at -18 °C from about 33.5 % vol; some 10 % ice at 30, 35 % at 22. By the lever
    /// rule on the CRC Handbook's curve, where 27.6 % by mass freezes at -18 °C.
    #[test]
    fn a_freezer_at_minus_18() {
        assert_eq!(ice_share(&spirit(34.0), -18.0), 0.0);
        assert!(ice_share(&spirit(33.0), -18.0) > 0.0);
        close(ice_share(&spirit(30.0), -18.0), 0.105, 0.015);
        close(ice_share(&spirit(22.0), -18.0), 0.35, 0.015);
    }

    #[test]
    fn what_stays_liquid_freezes_just_there() {
        let batch = per_100_ml(&Stated { abv: 22.0, sugar: 8.0, acid: 0.8, ..Stated::default() });
        for t in [-12.0, -14.0, -18.0, -25.0] {
            let ice = ice_share(&batch, t) * batch.mass();
            close(point_c(&batch.minus(&Composition::water(ice))), t, 1e-6);
        }
    }

    #[test]
    fn anything_has_a_freezing_point() {
        for x in [0.0, -3.0, 1e300, f64::INFINITY, f64::NAN, 1e-300] {
            for y in [0.0, 1e300, f64::NAN, 40.0] {
                let c =
                    Composition { water: x, ethanol: y, sugar: y, salt: x, ..Composition::ZERO };
                assert!((-200.0..=0.0).contains(&point_c(&c)), "{c:?}");
                for t in [-18.0, f64::NAN, f64::NEG_INFINITY, 30.0] {
                    assert!((0.0..=1.0).contains(&ice_share(&c, t)), "{c:?} at {t}");
                }
            }
        }
    }
}
