//! The water that a batch had measured in, and what a drink that pours it comes to.

use washline_measure::Interval;
use washline_mixture::dilution;
use washline_reference::Sort;
use washline_text::Kind;

use crate::{Figure, Read, Record, Referent, Workspace};

/// All the water of a drink that had some measured in.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Watered {
    /// Measured and melted together, % of what was poured without it.
    pub percent: Interval,
    /// The line through which most of the measured water comes, by its place among the lines read.
    pub line: usize,
}

/// Weaker than this it is no drink that waits for its water, % vol. Common practice, no source.
const BATCH_ABV: f64 = 10.0;

impl Workspace {
    /// The water measured into the lines of a drink and into the batches that it pours, with
    /// what its ice melts; `None` where none is measured in, or the drink has no figures.
    #[must_use]
    pub fn watered(&self, record: &Record) -> Option<Watered> {
        let (mut batches, mut most, mut line) = (0.0, 0.0, None);
        for (at, read) in record.reads.iter().enumerate().filter(|(_, read)| read.counted) {
            let own = is_water(read);
            let ml = if own { read.volume() } else { self.batch_share(read) * read.volume() };
            if ml > most {
                (most, line) = (ml, Some(at));
            }
            batches += if own { 0.0 } else { ml };
        }
        let line = line?;
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
        Some(Watered { percent, line })
    }

    /// The share of water that was measured into the batch behind a line; 0 where it is none.
    fn batch_share(&self, read: &Read) -> f64 {
        let Some(Referent::Entry(id)) = read.referent() else { return 0.0 };
        let Some(prep) = self.record(id).filter(|entry| is_batch(entry)) else { return 0.0 };
        let water: f64 =
            prep.reads.iter().filter(|read| read.counted && is_water(read)).map(Read::volume).sum();
        let made = prep.figures.value(Figure::Final).map_or(0.0, |ml| ml * prep.serves);
        if made > 0.0 { (water / made).min(1.0) } else { 0.0 }
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

    fn watered(text: &str) -> Option<(f64, usize)> {
        let files = vec![(Arc::from("book.pour"), Arc::from(text))];
        let workspace = Workspace::new(files, Settings::default());
        let drink = workspace.records().iter().find(|record| record.kind == Kind::Drink).unwrap();
        workspace.watered(drink).map(|watered| (watered.percent.value, watered.line))
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
        let (straight, line) = watered(&poured).unwrap();
        // 250 ml on 750 ml.
        assert!((straight - 33.3).abs() < 1.0, "{straight}");
        assert_eq!(line, 0);
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
        let (percent, line) = watered(text).unwrap();
        assert!((percent - 33.3).abs() < 0.5, "{percent}");
        assert_eq!(line, 1);
    }
}
