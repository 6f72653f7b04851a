//! The bands of a house's families, as its own drinks have them.

use std::collections::BTreeMap;

use washline_measure::Interval;
use washline_measure::robust::{Cloud, quantile};
use washline_reference as reference;
use washline_text::Kind;

use crate::{Band, Figure, Record};

/// What a house's drinks say of its families.
#[derive(Clone, Debug, Default)]
pub struct Fit<'a> {
    /// Families of [`ENOUGH`] drinks and more, by name.
    pub families: Vec<Fitted<'a>>,
    /// Families of fewer, and of how many.
    pub few: Vec<(&'a str, usize)>,
    /// Drinks that are left out, since they state no family or are not computed.
    pub left_out: usize,
}

/// One family.
#[derive(Clone, Debug)]
pub struct Fitted<'a> {
    /// Its word.
    pub family: &'a str,
    /// How many drinks state it.
    pub drinks: usize,
    /// Its bands, in the order of `washline.toml`.
    pub bands: Vec<FittedBand>,
    /// Drinks far from the others, the farthest first.
    pub far: Vec<Far<'a>>,
}

/// A band and what it stands on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FittedBand {
    /// Of what.
    pub figure: Figure,
    /// From the 5th to the 95th percentile, rounded outwards; open where the reference's is.
    pub band: Band,
    /// The median.
    pub middle: f64,
    /// How many drinks it stands on; those far from the others are not among them.
    pub count: usize,
}

/// A drink far from the others of its family.
#[derive(Clone, Copy, Debug)]
pub struct Far<'a> {
    /// The drink.
    pub record: &'a Record,
    /// In what.
    pub figure: Figure,
    /// How much it has.
    pub value: Interval,
    /// What the middle of the family has.
    pub middle: f64,
    /// How many robust standard deviations it is off; below, less than nought.
    pub score: f64,
}

/// So many drinks make a family's band. Common practice, no source: of fewer, each is a fifth and
/// more of what is said.
pub const ENOUGH: usize = 5;
/// The shares of the drinks below and above the band.
const ENDS: [f64; 2] = [0.05, 0.95];

/// The figures that have bands, each with the step that an end is rounded to.
const FIGURES: [(Figure, f64); 4] =
    [(Figure::Abv, 0.5), (Figure::Sugar, 0.5), (Figure::Acid, 0.05), (Figure::Ratio, 0.5)];

/// Fits the bands of every family that drinks among `records` state. What is retired, a draft or
/// not read counts for nothing; what is far from its family is named, and does not stretch it.
#[must_use]
pub fn fit<'a>(records: impl Iterator<Item = &'a Record>) -> Fit<'a> {
    let mut fit = Fit::default();
    let mut families: BTreeMap<&str, Vec<&Record>> = BTreeMap::new();
    for record in records.filter(|r| r.kind == Kind::Drink && !r.retired && !r.draft) {
        if record.families.inferred || record.unread || record.figures.value(Figure::Abv).is_none()
        {
            fit.left_out += 1;
            continue;
        }
        for family in &record.families.list {
            families.entry(&family.name).or_default().push(record);
        }
    }
    for (family, drinks) in families {
        match drinks.len() {
            count if count < ENOUGH => fit.few.push((family, count)),
            _ => fit.families.push(Fitted::of(family, &drinks)),
        }
    }
    fit
}

impl<'a> Fitted<'a> {
    fn of(family: &'a str, drinks: &[&'a Record]) -> Self {
        let own = |record: &&Record| {
            record.families.list.iter().find(|one| one.name == family).and_then(|one| one.known)
        };
        let known = drinks.first().and_then(own);
        let mut fitted = Self { family, drinks: drinks.len(), bands: Vec::new(), far: Vec::new() };
        for (figure, step) in FIGURES {
            if let Some(open) = known.and_then(|known| band_of(known, figure)) {
                fitted.add(figure, step, open, drinks);
            }
        }
        fitted.far.sort_by(|a, b| b.score.abs().total_cmp(&a.score.abs()));
        fitted
    }

    /// Adds the band of one figure. `open` is the reference's: an end that it leaves open means
    /// nothing in this family.
    fn add(&mut self, figure: Figure, step: f64, open: reference::Band, drinks: &[&'a Record]) {
        let known: Vec<(&Record, Interval)> = drinks
            .iter()
            .filter_map(|record| Some((*record, record.figures.get(figure)?)))
            .collect();
        let Some(cloud) = Cloud::of(&values(&known)) else { return };
        let is_far = |value: Interval| {
            let above =
                open.high.is_some() && cloud.is_strange(value.low) && value.low > cloud.middle;
            let below =
                open.low.is_some() && cloud.is_strange(value.high) && value.high < cloud.middle;
            above || below
        };
        let (far, near): (Vec<_>, Vec<_>) =
            known.into_iter().partition(|(_, value)| is_far(*value));
        if near.len() < ENOUGH {
            return;
        }
        self.far.extend(far.into_iter().map(|(record, value)| Far {
            record,
            figure,
            value,
            middle: cloud.middle,
            score: cloud.score(value.value),
        }));
        let near = values(&near);
        let [low, high] = ENDS.map(|p| quantile(&near, p).unwrap_or(cloud.middle) / step);
        // A hair more than a whole step is that step.
        let low = ((low + 1e-9).floor() * step).clamp(0.0, 100.0);
        let high = ((high - 1e-9).ceil() * step).clamp(0.0, 100.0);
        let high = if high > low { high } else { low + step };
        self.bands.push(FittedBand {
            figure,
            band: Band { low: open.low.map(|_| low), high: open.high.map(|_| high) },
            middle: cloud.middle,
            count: near.len(),
        });
    }
}

/// The values alone, in rising order.
fn values(known: &[(&Record, Interval)]) -> Vec<f64> {
    let mut values: Vec<f64> = known.iter().map(|(_, value)| value.value).collect();
    values.sort_by(f64::total_cmp);
    values
}

const fn band_of(family: &reference::Family, figure: Figure) -> Option<reference::Band> {
    match figure {
        Figure::Abv => family.strength,
        Figure::Sugar => family.sugar,
        Figure::Acid => family.acid,
        Figure::Ratio => family.ratio,
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use std::fmt::Write as _;
    use std::sync::Arc;

    use super::*;
    use crate::{Settings, Workspace};

    fn workspace(text: &str) -> Workspace {
        Workspace::new(vec![(Arc::from("a.pour"), Arc::from(text))], Settings::default())
    }

    fn sour(text: &mut String, name: &str, syrup: f64) {
        let _ = write!(
            text,
            "drink: {name}\n  family: sour\n  60 ml gin\n  22.5 ml lemon juice\n  {syrup} ml sugar syrup, 1:1\n  - shake with ice for 12 s, double strain\n\n"
        );
    }

    fn sours(syrups: &[f64]) -> String {
        let mut text = String::new();
        for (n, syrup) in syrups.iter().enumerate() {
            sour(&mut text, &format!("Sour {n}"), *syrup);
        }
        text
    }

    #[test]
    fn a_band_holds_the_drinks_it_stands_on() {
        let workspace = workspace(&sours(&[18.0, 19.0, 20.0, 20.0, 21.0, 22.5, 24.0]));
        let fit = fit(workspace.records().iter());
        let [sour] = fit.families.as_slice() else { panic!("{fit:?}") };
        assert_eq!((sour.family, sour.drinks, sour.far.len()), ("sour", 7, 0));
        let sugar = sour.bands.iter().find(|band| band.figure == Figure::Sugar).unwrap();
        assert_eq!(sugar.count, 7);
        for record in workspace.records() {
            for band in &sour.bands {
                assert!(band.band.holds(record.figures.value(band.figure).unwrap()));
            }
        }
        let (low, high) = (sugar.band.low.unwrap(), sugar.band.high.unwrap());
        assert!(low < sugar.middle && sugar.middle < high && high - low < 4.0, "{sugar:?}");
    }

    #[test]
    fn what_is_far_is_named_and_stretches_nothing() {
        let mut text = sours(&[18.0, 19.0, 20.0, 20.0, 21.0, 22.5, 24.0]);
        let before = workspace(&text);
        sour(&mut text, "Treacle Row", 90.0);
        let after = workspace(&text);
        let (before, after) = (fit(before.records().iter()), fit(after.records().iter()));
        let high = |fit: &Fit<'_>| {
            let bands = &fit.families[0].bands;
            bands.iter().find(|band| band.figure == Figure::Sugar).unwrap().band.high
        };
        assert_eq!(high(&before), high(&after));
        let far = &after.families[0].far;
        assert!(far.iter().any(|far| far.figure == Figure::Sugar && far.score > 3.5));
        assert!(far.iter().all(|far| &*far.record.name == "Treacle Row"), "{far:?}");
    }

    #[test]
    fn few_and_unsaid_drinks_make_no_band() {
        let mut text = sours(&[18.0, 20.0, 21.0, 22.0]);
        text.push_str("drink: A\n  60 ml gin\n  20 ml lemon juice\n  20 ml sugar syrup, 1:1\n  - shake with ice, strain\n");
        text.push_str("drink: B\n  status: retired\n  family: sour\n  60 ml gin\n  20 ml lemon juice\n  20 ml sugar syrup, 1:1\n  - shake with ice, strain\n");
        let workspace = workspace(&text);
        let fit = fit(workspace.records().iter());
        assert!(fit.families.is_empty());
        assert_eq!((fit.few, fit.left_out), (vec![("sour", 4)], 1));
    }

    #[test]
    fn an_end_that_means_nothing_stays_open() {
        let mut text = String::new();
        for n in 0..6 {
            let _ = write!(
                text,
                "drink: S {n}\n  family: spirit-forward\n  {} ml gin\n  15 ml dry vermouth\n  - stir with ice for 20 s, strain\n\n",
                60 + n
            );
        }
        let workspace = workspace(&text);
        let fit = fit(workspace.records().iter());
        let known = reference::family("spirit-forward").unwrap();
        for band in &fit.families[0].bands {
            let open = band_of(known, band.figure).unwrap();
            assert_eq!(band.band.low.is_none(), open.low.is_none(), "{band:?}");
            assert_eq!(band.band.high.is_none(), open.high.is_none(), "{band:?}");
        }
    }
}
