//! Where a drink's figures stand against the bands of its families.

use washline_measure::Interval;

use crate::{Families, Figure, Record, Settings};

/// A band; an open end is none.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Band {
    /// The low end.
    pub low: Option<f64>,
    /// The high end.
    pub high: Option<f64>,
}

/// Which end of a band a figure lies beyond.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Below the low end.
    Below,
    /// Above the high end.
    Above,
}

/// Where a figure stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// Inside.
    Inside,
    /// The value lies beyond an end, its range does not.
    Leaning(Side),
    /// The whole range lies beyond an end.
    Outside(Side),
}

/// The bands that hold for a drink: of several families, where all hold.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Bands {
    /// Strength, % vol.
    pub strength: Option<Band>,
    /// Sugar, g/100 ml.
    pub sugar: Option<Band>,
    /// Acid, g/100 ml.
    pub acid: Option<Band>,
    /// Sugar over acid.
    pub ratio: Option<Band>,
}

impl Band {
    /// Where `figure` stands against it.
    #[must_use]
    pub fn standing(&self, figure: Interval) -> Standing {
        if let Some(low) = self.low {
            if figure.high < low {
                return Standing::Outside(Side::Below);
            }
            if figure.value < low {
                return Standing::Leaning(Side::Below);
            }
        }
        if let Some(high) = self.high {
            if figure.low > high {
                return Standing::Outside(Side::Above);
            }
            if figure.value > high {
                return Standing::Leaning(Side::Above);
            }
        }
        Standing::Inside
    }

    /// Whether the whole range of `figure` lies beyond an end by more than half the band's width
    /// (of an open band, half of its one end).
    #[must_use]
    pub fn far(&self, figure: Interval) -> bool {
        let width = match (self.low, self.high) {
            (Some(low), Some(high)) => high - low,
            (low, high) => low.or(high).unwrap_or(f64::INFINITY),
        };
        let below = self.low.is_some_and(|low| figure.high < low - width / 2.0);
        let above = self.high.is_some_and(|high| figure.low > high + width / 2.0);
        below || above
    }

    /// Whether `value` lies in it.
    #[must_use]
    pub fn holds(&self, value: f64) -> bool {
        self.low.is_none_or(|low| value >= low) && self.high.is_none_or(|high| value <= high)
    }

    /// As a bartender reads it: `5 to 9`, `at most 9`, `at least 5`.
    #[must_use]
    pub fn words(&self) -> String {
        let show = |x: f64| {
            let text = format!("{x:.2}");
            text.trim_end_matches('0').trim_end_matches('.').to_owned()
        };
        match (self.low, self.high) {
            (Some(low), Some(high)) => format!("{} to {}", show(low), show(high)),
            (Some(low), None) => format!("at least {}", show(low)),
            (None, Some(high)) => format!("at most {}", show(high)),
            (None, None) => "any".to_owned(),
        }
    }

    /// What both bands hold; where they do not meet, either.
    fn meet(self, other: Self) -> Self {
        let low = match (self.low, other.low) {
            (Some(a), Some(b)) => Some(a.max(b)),
            (a, b) => a.or(b),
        };
        let high = match (self.high, other.high) {
            (Some(a), Some(b)) => Some(a.min(b)),
            (a, b) => a.or(b),
        };
        match (low, high) {
            (Some(l), Some(h)) if l > h => Self {
                low: Some(self.low.unwrap_or(l).min(other.low.unwrap_or(l))),
                high: Some(self.high.unwrap_or(h).max(other.high.unwrap_or(h))),
            },
            _ => Self { low, high },
        }
    }
}

impl Bands {
    /// The bands of `families` in the house.
    #[must_use]
    pub fn of(families: &Families, settings: &Settings) -> Self {
        let mut bands = Self::default();
        for family in &families.list {
            let house = settings.families.get(&family.name).copied().unwrap_or_default();
            let pick = |own: Option<(Option<f64>, Option<f64>)>,
                        known: Option<washline_reference::Band>| {
                own.map(|(low, high)| Band { low, high })
                    .or_else(|| known.map(|band| Band { low: band.low, high: band.high }))
            };
            let known = family.known;
            join(&mut bands.strength, pick(house.strength, known.and_then(|f| f.strength)));
            join(&mut bands.sugar, pick(house.sugar, known.and_then(|f| f.sugar)));
            join(&mut bands.acid, pick(house.acid, known.and_then(|f| f.acid)));
            join(&mut bands.ratio, pick(house.ratio, known.and_then(|f| f.ratio)));
        }
        bands
    }

    /// The band that `figure` is held against.
    #[must_use]
    pub const fn get(&self, figure: Figure) -> Option<Band> {
        match figure {
            Figure::Abv => self.strength,
            Figure::Sugar => self.sugar,
            Figure::Acid => self.acid,
            Figure::Ratio => self.ratio,
            _ => None,
        }
    }
}

impl Record {
    /// Where `figure` stands against the bands of the drink's families.
    #[must_use]
    pub fn standing(
        &self,
        figure: Figure,
        settings: &Settings,
    ) -> Option<(Band, Interval, Standing)> {
        let band = Bands::of(&self.families, settings).get(figure)?;
        let value = self.figures.get(figure)?;
        Some((band, value, band.standing(value)))
    }
}

fn join(slot: &mut Option<Band>, band: Option<Band>) {
    *slot = match (*slot, band) {
        (Some(a), Some(b)) => Some(a.meet(b)),
        (a, b) => a.or(b),
    };
}

#[cfg(test)]
mod tests {
    use super::*;

    fn band(low: impl Into<Option<f64>>, high: impl Into<Option<f64>>) -> Band {
        Band { low: low.into(), high: high.into() }
    }

    fn around(value: f64, by: f64) -> Interval {
        Interval { value, low: value - by, high: value + by }
    }

    #[test]
    fn outside_is_the_whole_range_and_leaning_the_value() {
        let five_to_nine = band(5.0, 9.0);
        assert_eq!(five_to_nine.standing(around(7.0, 5.0)), Standing::Inside);
        assert_eq!(five_to_nine.standing(around(4.5, 1.0)), Standing::Leaning(Side::Below));
        assert_eq!(five_to_nine.standing(around(3.0, 1.0)), Standing::Outside(Side::Below));
        assert_eq!(five_to_nine.standing(around(9.5, 1.0)), Standing::Leaning(Side::Above));
        assert_eq!(five_to_nine.standing(around(11.0, 1.0)), Standing::Outside(Side::Above));
        assert_eq!(band(None, 9.0).standing(around(0.0, 0.0)), Standing::Inside);
    }

    #[test]
    fn far_is_half_a_width_beyond() {
        let five_to_nine = band(5.0, 9.0);
        assert!(!five_to_nine.far(around(12.0, 1.5)));
        assert!(five_to_nine.far(around(12.0, 0.5)));
        assert!(five_to_nine.far(around(2.0, 0.5)));
        assert!(!five_to_nine.far(around(2.0, 1.5)));
        assert!(!band(None, 10.0).far(around(14.0, 0.5)));
        assert!(band(None, 10.0).far(around(16.0, 0.5)));
    }

    #[test]
    fn two_families_hold_together_where_they_meet() {
        assert_eq!(band(5.0, 9.0).meet(band(7.0, 12.0)), band(7.0, 9.0));
        assert_eq!(band(5.0, None).meet(band(None, 12.0)), band(5.0, 12.0));
        assert_eq!(band(1.0, 2.0).meet(band(7.0, 12.0)), band(1.0, 12.0));
    }
}
