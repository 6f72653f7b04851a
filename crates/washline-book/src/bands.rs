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
