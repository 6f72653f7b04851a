//! Uncertainty carried from inputs to figures, to first order (JCGM 100:2008, "GUM").
//!
//! An input is known by what it does: it shifts the variables by one of its standard
//! uncertainties. Inputs are independent; a thing poured twice is one input, its shifts
//! added by the caller before they come here. A ratio is passed as its logarithm, where
//! first order holds much further, and shown by [`of_log`].

use washline_measure::{Estimate, Interval};

/// How much of a variable's combined shift a slope is taken over: so little that a step up
/// alone gives the tangent, and no part of a mixture steps below nothing.
const STEP: f64 = 1e-3;
/// The least step, to the variable's own size: well above the rounding of figures.
const LEAST_STEP: f64 = 1e-7;

/// The figures `f` at the variables `at`, each with the uncertainty that `shifts` give it.
///
/// Every row of `shifts` is one input. A figure that is not a number at `at` stays so, its
/// uncertainty with it; one that is not a number just above `at` takes its slope from just
/// below.
pub fn figures<const N: usize, const M: usize>(
    at: &[f64; N],
    shifts: &[[f64; N]],
    f: impl Fn(&[f64; N]) -> [f64; M],
) -> [Estimate; M] {
    let centre = f(at);
    let slopes = slopes(at, &combined(shifts), &centre, f);
    let mut variances = [0.0; M];
    for shift in shifts {
        for (variance, moved) in variances.iter_mut().zip(moved(&slopes, shift)) {
            *variance += moved * moved;
        }
    }
    let mut estimates = [Estimate::default(); M];
    for ((estimate, value), variance) in estimates.iter_mut().zip(centre).zip(variances) {
        let u = if value.is_nan() { f64::NAN } else { variance.sqrt() };
        *estimate = Estimate { value, u };
    }
    estimates
}

/// How the figures `f` at `at` move when each input grows by one standard uncertainty: a row
/// for each row of `shifts`.
pub fn effects<const N: usize, const M: usize>(
    at: &[f64; N],
    shifts: &[[f64; N]],
    f: impl Fn(&[f64; N]) -> [f64; M],
) -> Vec<[f64; M]> {
    let slopes = slopes(at, &combined(shifts), &f(at), f);
    shifts.iter().map(|shift| moved(&slopes, shift)).collect()
}

/// How the figures move when the variables move by `shift`.
fn moved<const N: usize, const M: usize>(slopes: &[[f64; M]; N], shift: &[f64; N]) -> [f64; M] {
    let mut moved = [0.0; M];
    for (slope, by) in slopes.iter().zip(shift).filter(|(_, by)| **by != 0.0) {
        for (moved, slope) in moved.iter_mut().zip(slope) {
            *moved += slope * by;
        }
    }
    moved
}

/// The value and 95 % range of a quantity whose natural logarithm is `log`.
#[must_use]
pub fn of_log(log: Estimate) -> Interval {
    Interval {
        value: log.value.exp(),
        low: (log.value - 2.0 * log.u).exp(),
        high: (log.value + 2.0 * log.u).exp(),
    }
}

/// Each variable's combined shift: what all inputs do to it, added in squares.
fn combined<const N: usize>(shifts: &[[f64; N]]) -> [f64; N] {
    let mut squares = [0.0; N];
    for shift in shifts {
        for (square, by) in squares.iter_mut().zip(shift) {
            *square += by * by;
        }
    }
    squares.map(f64::sqrt)
}

/// The slope of every figure by each variable; a variable that nothing shifts has none.
fn slopes<const N: usize, const M: usize>(
    at: &[f64; N],
    combined: &[f64; N],
    centre: &[f64; M],
    f: impl Fn(&[f64; N]) -> [f64; M],
) -> [[f64; M]; N] {
    let mut slopes = [[0.0; M]; N];
    for (j, ((slopes, width), x)) in slopes.iter_mut().zip(combined).zip(at).enumerate() {
        if *width == 0.0 || !width.is_finite() {
            continue;
        }
        let step = (STEP * width).max(LEAST_STEP * x.abs());
        let slopes_over = |step: f64| {
            let mut there = *at;
            if let Some(x) = there.get_mut(j) {
                *x += step;
            }
            let mut over = f(&there);
            for (over, centre) in over.iter_mut().zip(centre) {
                *over = (*over - centre) / step;
            }
            over
        };
        *slopes = slopes_over(step);
        if slopes.iter().any(|slope| !slope.is_finite()) {
            let other_side = slopes_over(-step);
            for (slope, other) in slopes.iter_mut().zip(other_side) {
                *slope = if slope.is_finite() { *slope } else { other };
            }
        }
    }
    slopes
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::composition::Composition;

    fn close(got: f64, expected: f64, tolerance: f64) {
        assert!((got - expected).abs() <= tolerance, "{got} is not {expected} ± {tolerance}");
    }

    /// Normal deviates: a linear congruential generator (Knuth, MMIX) and the sum of twelve.
    struct Dice(u64);

    impl Dice {
        fn uniform(&mut self) -> f64 {
            self.0 = self
                .0
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            (self.0 >> 11) as f64 / (1u64 << 53) as f64
        }

        fn normal(&mut self) -> f64 {
            (0..12).map(|_| self.uniform()).sum::<f64>() - 6.0
        }
    }

    /// `(mean, standard deviation)` of each figure over 10,000 throws of the inputs.
    fn monte_carlo<const N: usize, const M: usize>(
        at: &[f64; N],
        shifts: &[[f64; N]],
        f: impl Fn(&[f64; N]) -> [f64; M],
    ) -> Vec<Vec<f64>> {
        let mut dice = Dice(20_240_601);
        let mut thrown = vec![Vec::new(); M];
        for _ in 0..10_000 {
            let mut x = *at;
            for shift in shifts {
                let by = dice.normal();
                for (x, s) in x.iter_mut().zip(shift) {
                    *x += by * s;
                }
            }
            for (all, one) in thrown.iter_mut().zip(f(&x)) {
                all.push(one);
            }
        }
        thrown
    }

    fn deviation(values: &[f64]) -> f64 {
        let n = values.len() as f64;
        let mean = values.iter().sum::<f64>() / n;
        (values.iter().map(|v| (v - mean).powi(2)).sum::<f64>() / n).sqrt()
    }

    fn range95(mut values: Vec<f64>) -> (f64, f64) {
        values.sort_by(f64::total_cmp);
        (values[values.len() / 40], values[values.len() - values.len() / 40])
    }

    /// Water, ethanol, sugar and acid of a drink, and the water it gained.
    fn drink(x: &[f64; 5]) -> [f64; 4] {
        let [water, ethanol, sugar, acid, gained] = *x;
        let c = Composition { water, ethanol, sugar, acid, ..Composition::ZERO };
        let c = c.plus(&Composition::water(gained));
        [c.volume_ml(), c.abv_percent(), c.sugar_g_per_100ml(), c.acid_g_per_100ml()]
    }

    /// JCGM 101:2008's check on JCGM 100: the same inputs by Monte Carlo. The inputs are a
    /// spirit, a syrup and a juice, each poured 3 to 6 % out, the juice's acid, the ice.
    #[test]
    fn agrees_with_monte_carlo() {
        let at = [74.0, 19.0, 15.0, 1.4, 45.0];
        let shifts = [
            [0.9, 0.5, 0.0, 0.0, 0.0],
            [0.6, 0.0, 0.6, 0.0, 0.0],
            [1.5, 0.0, 0.1, 0.09, 0.0],
            [0.0, 0.0, 0.0, 0.1, 0.0],
            [0.0, 0.0, 0.0, 0.0, 3.0],
        ];
        let thrown = monte_carlo(&at, &shifts, drink);
        for (figure, thrown) in figures(&at, &shifts, drink).iter().zip(thrown) {
            let u = deviation(&thrown);
            close(figure.u, u, 0.03 * u);
        }
    }

    /// Sugar 8 (u 0.5) over acid 0.8 (u 0.15): the logarithm's range is far nearer Monte
    /// Carlo's than the plain ratio's.
    #[test]
    fn a_ratio_is_carried_as_its_logarithm() {
        let (at, shifts) = ([8.0, 0.8], [[0.5, 0.0], [0.0, 0.15]]);
        let [log] = figures(&at, &shifts, |[s, a]| [(s / a).ln()]);
        let shown = of_log(log);
        close(shown.value, 10.0, 1e-9);
        close(shown.low, 6.7, 0.1);
        close(shown.high, 14.9, 0.1);
        let thrown = monte_carlo(&at, &shifts, |[s, a]| [s / a]);
        let (low, high) = range95(thrown[0].clone());
        close(low, 7.1, 0.25);
        close(high, 16.2, 0.6);
        let [plain] = figures(&at, &shifts, |[s, a]| [s / a]);
        assert!((shown.high - high).abs() < (plain.interval(0.0, 99.0).high - high).abs());
    }

    /// One bottle poured twice shifts both at once: 2 u, not √2 u.
    #[test]
    fn what_is_poured_twice_adds() {
        let sum = |x: &[f64; 2]| [x[0] + x[1]];
        assert_eq!(figures(&[30.0, 30.0], &[[1.0, 1.0]], sum)[0].u.round(), 2.0);
        close(figures(&[30.0, 30.0], &[[1.0, 0.0], [0.0, 1.0]], sum)[0].u, 2f64.sqrt(), 1e-9);
    }

    #[test]
    fn nothing_shifted_is_exact() {
        assert_eq!(figures(&[3.0], &[], |x| [x[0] * 2.0]), [Estimate::exact(6.0)]);
        assert_eq!(figures(&[3.0], &[[0.0]], |x| [x[0] * 2.0]), [Estimate::exact(6.0)]);
    }

    #[test]
    fn what_is_no_number_stays_none_and_spoils_nothing() {
        let [log, plain] = figures(&[0.0, 2.0], &[[0.1, 0.0], [0.0, 0.1]], |x| {
            [if x[0] <= 0.0 { f64::NAN } else { x[0].ln() }, x[1]]
        });
        assert!(log.value.is_nan() && log.u.is_nan());
        close(plain.u, 0.1, 1e-6);
        let [one_sided] =
            figures(&[0.0], &[[0.1]], |x| [if x[0] > 0.0 { f64::NAN } else { 3.0 * x[0] }]);
        close(one_sided.u, 0.3, 1e-9);
        let [at_nothing] = figures(&[0.0], &[[0.1]], |x| [3.0 * x[0].max(0.0)]);
        close(at_nothing.u, 0.3, 1e-9);
    }
}
