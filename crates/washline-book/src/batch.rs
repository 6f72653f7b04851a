//! The water that a batch had measured in, and what a drink that pours it comes to.

use washline_measure::Interval;
use washline_mixture::dilution;
use washline_reference::Sort;
use washline_text::{Kind, Place};

use crate::{Figure, Read, Record, Referent, Workspace};

/// All the water of a drink that had some measured in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Watered {
    /// Measured and melted together, % of what was poured without it.
    pub percent: Interval,
    /// The line by which most of it is measured in: the drink's own, or its batch's.
    pub measured: Place,
}

/// Weaker than this it is no drink that waits for its water, % vol. Common practice, no source.
const BATCH_ABV: f64 = 10.0;

impl Workspace {
    /// The water measured into the lines of a drink and into the batches that it pours, with
    /// what its ice melts; `None` where none is measured in, or the drink has no figures.
    #[must_use]
    pub fn watered(&self, record: &Record) -> Option<Watered> {
        let (mut batches, mut most, mut measured) = (0.0, 0.0, None);
        for read in record.reads.iter().filter(|read| read.counted) {
            let (ml, place) = if is_water(read) {
                (read.volume(), record.place(read.name_span))
            } else {
                let Some((share, place)) = self.batch_share(read) else { continue };
                batches += share * read.volume();
                (share * read.volume(), place)
            };
            if ml > most {
                (most, measured) = (ml, Some(place));
            }
        }
        let measured = measured?;
        let poured = record.figures.value(Figure::Poured)? * record.serves;
        let gained = record.figures.get(Figure::Dilution)?;
        let dry = poured - batches;
        if dry <= 0.0 {
            return None;
        }
        let percent = |share: f64| 100.0 * (share / 100.0 * poured + batches) / dry;
        let percent = Interval {
            value: percent(gained.value),
            low: percent(gained.low),
            high: percent(gained.high),
        };
        Some(Watered { percent, measured })
    }

    /// The share of water that was measured into the batch behind a line, and where.
    fn batch_share(&self, read: &Read) -> Option<(f64, Place)> {
        let Referent::Entry(id) = read.referent()? else { return None };
        let prep = self.record(id).filter(|entry| is_batch(entry))?;
        let water = || prep.reads.iter().filter(|read| read.counted && is_water(read));
        let made = prep.figures.value(Figure::Final)? * prep.serves;
        let share = water().map(Read::volume).sum::<f64>() / made;
        let place = prep.place(water().next()?.name_span);
        (share.is_finite() && share > 0.0).then_some((share.min(1.0), place))
    }
}

impl Record {
    /// The water that a stir in the mixing glass would bring to all that is poured, ml.
    #[must_use]
    pub fn water_of_a_stir(&self) -> Option<f64> {
        let strength = self.figures.value(Figure::AbvBefore)? / 100.0;
        let poured = self.figures.value(Figure::Poured)? * self.serves;
        Some(dilution::stirred(strength) * poured)
    }
}

/// A prep that mixes several drinks strong enough to wait for their water. A liqueur of the
/// house, one spirit brought down with water, is an ingredient like a bought one.
fn is_batch(record: &Record) -> bool {
    let strong = |read: &&Read| read.counted && read.composition.abv_percent() > BATCH_ABV;
    record.kind == Kind::Prep
        && record.figures.value(Figure::Abv).is_some_and(|abv| abv > BATCH_ABV)
        && record.reads.iter().filter(strong).count() > 1
}

fn is_water(read: &Read) -> bool {
    read.water && read.sort_is(&[Sort::Water])
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use super::*;
    use crate::Settings;

    /// The water in per cent, and the words it is measured in by.
    fn watered(text: &str) -> Option<(f64, String)> {
        let files = vec![(Arc::from("book.pour"), Arc::from(text))];
        let workspace = Workspace::new(files, Settings::default());
        let drink = workspace.records().iter().find(|record| record.kind == Kind::Drink).unwrap();
        let watered = workspace.watered(drink)?;
        Some((watered.percent.value, workspace.text(watered.measured).to_owned()))
    }

    const BATCH: &str = "
prep: House Batch
  500 ml rye whiskey
  250 ml sweet vermouth
  250 ml water
  - combine, bottle
";

    #[test]
    fn water_of_the_batch_and_of_the_ice_add() {
        let poured = format!("drink: A\n  100 ml House Batch\n  - pour into the coupe\n{BATCH}");
        let (straight, words) = watered(&poured).unwrap();
        // 250 ml on 750 ml.
        assert!((straight - 33.3).abs() < 1.0, "{straight}");
        assert_eq!(words, "water");
        let stirred = poured.replace("pour into the coupe", "stir with ice, strain");
        assert!(watered(&stirred).unwrap().0 > straight + 35.0);
    }

    #[test]
    fn a_liqueur_of_the_house_is_no_batch() {
        let text = "
drink: A
  60 ml gin
  30 ml Peel Liqueur
  - stir with ice, strain

prep: Peel Liqueur
  500 ml vodka
  300 g sugar
  300 ml water
  - combine, bottle
";
        assert_eq!(watered(text), None);
    }

    #[test]
    fn water_of_a_line_is_measured_in() {
        let text = "drink: A\n  75 ml rye whiskey\n  25 ml water\n  - combine, bottle\n";
        let (percent, words) = watered(text).unwrap();
        assert!((percent - 33.3).abs() < 0.5, "{percent}");
        assert_eq!(words, "water");
    }
}
