//! Statistics that a few strange values do not sway.

/// The value below which a share `p` of the population lies, from values in rising order: the
/// median-unbiased estimator, definition 8 of Hyndman and Fan, "Sample quantiles in statistical
/// packages", The American Statistician 50 (1996), 361–365. None of no value.
#[must_use]
pub fn quantile(sorted: &[f64], p: f64) -> Option<f64> {
    let count = sorted.len() as f64;
    let last = sorted.len().checked_sub(1)?;
    let place = (count + 1.0 / 3.0) * p + 1.0 / 3.0;
    // Counted from nought, and within the values.
    let place = (place - 1.0).clamp(0.0, last as f64);
    let below = place.floor();
    let low = *sorted.get(below as usize)?;
    let high = *sorted.get((below as usize + 1).min(last))?;
    Some(low + (place - below) * (high - low))
}

/// The middle of values in rising order.
#[must_use]
pub fn median(sorted: &[f64]) -> Option<f64> {
    quantile(sorted, 0.5)
}

/// The middle of some values, and how far from it is strange.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cloud {
    /// The median.
    pub middle: f64,
    /// A standard deviation, as a few strange values do not sway it.
    pub spread: f64,
}

/// A modified z-score beyond which a value is an outlier: Iglewicz and Hoaglin, "How to Detect and
/// Handle Outliers" (ASQC, 1993), from memory.
const STRANGE: f64 = 3.5;
/// The third quartile of the normal distribution: the median absolute deviation in standard
/// deviations.
const QUARTILE: f64 = 0.674_489_750_196_081_7;
/// The mean absolute deviation of the normal distribution, in standard deviations: the square root
/// of two over pi.
const MEAN_DEVIATION: f64 = 0.797_884_560_802_865_4;

impl Cloud {
    /// Of values in rising order; none of no value.
    #[must_use]
    pub fn of(sorted: &[f64]) -> Option<Self> {
        let middle = median(sorted)?;
        let mut off: Vec<f64> = sorted.iter().map(|value| (value - middle).abs()).collect();
        off.sort_by(f64::total_cmp);
        let by_median = median(&off)? / QUARTILE;
        // Where more than half are the same, the mean of the deviations speaks.
        let by_mean = off.iter().sum::<f64>() / off.len() as f64 / MEAN_DEVIATION;
        Some(Self { middle, spread: if by_median > 0.0 { by_median } else { by_mean } })
    }

    /// How many standard deviations a value is from the middle; below it, less than nought. Nought
    /// where all values are the same.
    #[must_use]
    pub fn score(&self, value: f64) -> f64 {
        if self.spread > 0.0 { (value - self.middle) / self.spread } else { 0.0 }
    }

    /// Whether a value is so far from the middle that it belongs to another cloud.
    #[must_use]
    pub fn is_strange(&self, value: f64) -> bool {
        self.score(value).abs() > STRANGE
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(a: Option<f64>, b: f64) {
        assert!(a.is_some_and(|a| (a - b).abs() < 1e-9), "{a:?} {b}");
    }

    /// Expected: numpy 2.4.6, `quantile(…, method="median_unbiased")`.
    #[test]
    fn quantiles_are_median_unbiased() {
        let mut values = [
            15.3, 16.1, 14.9, 17.2, 15.8, 16.6, 18.0, 15.1, 16.9, 15.5, 16.2, 14.4, 17.7, 16.0,
            15.0, 16.4, 17.0, 15.9, 16.8, 15.6,
        ];
        let mut few: Vec<f64> = values[..7].to_vec();
        values.sort_by(f64::total_cmp);
        few.sort_by(f64::total_cmp);
        near(quantile(&values, 0.05), 14.575);
        near(quantile(&values, 0.25), 15.383_333_333_333_333);
        near(quantile(&values, 0.5), 16.05);
        near(quantile(&values, 0.95), 17.895);
        near(quantile(&few, 0.05), 14.9);
        near(quantile(&few, 0.3), 15.566_666_666_666_666);
        near(quantile(&few, 0.95), 18.0);
        assert_eq!(quantile(&[], 0.5), None);
        assert_eq!(quantile(&[2.0], 0.99), Some(2.0));
    }

    /// Expected: scipy 1.17.1, `median_abs_deviation`: 0.15 about 2.45, modified z-scores 25.86 and
    /// 26.31 of the last two, 1.574 at most of the others.
    #[test]
    fn strange_values_do_not_sway_the_cloud() {
        let values = [2.1, 2.1, 2.3, 2.3, 2.4, 2.5, 2.6, 2.6, 8.2, 8.3];
        let cloud = Cloud::of(&values).unwrap();
        near(Some(cloud.middle), 2.45);
        assert!((cloud.score(8.2) - 25.8558).abs() < 1e-3, "{}", cloud.score(8.2));
        assert!((cloud.score(2.1) + 1.5738).abs() < 1e-3);
        let strange: Vec<f64> = values.into_iter().filter(|v| cloud.is_strange(*v)).collect();
        assert_eq!(strange, [8.2, 8.3]);
    }

    #[test]
    fn most_of_one_kind_leave_room_for_the_others() {
        let cloud = Cloud::of(&[1.0, 1.0, 1.0, 1.0, 1.2, 9.0]).unwrap();
        assert!(!cloud.is_strange(1.2) && cloud.is_strange(9.0));
        let same = Cloud::of(&[1.0, 1.0, 1.0]).unwrap();
        assert!(!same.is_strange(50.0), "nothing is known of how they scatter");
    }
}
