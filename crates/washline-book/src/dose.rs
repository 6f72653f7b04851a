//! How much of one thing a serve holds, through preps too.

use washline_measure::Interval;
use washline_reference::{Trait, ingredient};
use washline_text::Kind;

use crate::{EntryId, Figure, Read, Record, Referent, Workspace, Yield};

/// The least share of its bark's quinine that an infusion draws. Common practice, no source.
const DRAWN: f64 = 0.5;

impl Workspace {
    /// Grams of the reference ingredient `id` in one serve of `record`, if all of it went into the
    /// liquor: an upper bound of what an infusion draws. `None` where an amount is not known.
    #[must_use]
    pub fn grams_a_serve(&self, record: &Record, id: u16) -> Option<f64> {
        if record.unread {
            return None;
        }
        let grams = self.grams_in(record, id, &mut Vec::new())?;
        Some(grams / record.serves.max(1.0))
    }

    /// Quinine that cinchona bark of the house's own brings into the finished drink, mg/l: at the
    /// least half of what the weakest bark holds, at the most all of the strongest. `None` where
    /// there is no bark, or an amount is not known.
    #[must_use]
    pub fn own_quinine(&self, record: &Record) -> Option<Interval> {
        let litres =
            record.figures.value(Figure::Final).or(record.figures.value(Figure::Poured))?;
        let litres = litres / 1000.0;
        let mut sum: Option<Interval> = None;
        for (id, _) in &record.reaches {
            let Some(known) = ingredient(*id).filter(|known| !known.liquid) else { continue };
            let Some(datum) = known.quinine.filter(|_| known.is(Trait::Cinchona)) else { continue };
            let ppm = self.grams_a_serve(record, *id)? / litres;
            let before = sum.unwrap_or(Interval { value: 0.0, low: 0.0, high: 0.0 });
            sum = Some(Interval {
                value: before.value + ppm * datum.value,
                low: before.low + ppm * datum.low * DRAWN,
                high: before.high + ppm * datum.high,
            });
        }
        sum.filter(|sum| sum.value.is_finite())
    }

    /// Grams in all of an entry.
    fn grams_in(&self, record: &Record, id: u16, way: &mut Vec<EntryId>) -> Option<f64> {
        if way.contains(&record.id) {
            return None;
        }
        way.push(record.id);
        let mut sum = Some(0.0);
        for read in record.reads.iter().filter(|read| read.counted || read.vague) {
            let here = self.grams_of(read, id, way);
            sum = sum.zip(here).map(|(sum, here)| sum + here);
        }
        way.pop();
        sum
    }

    /// Grams in one line; of a choice, in the side that holds most.
    fn grams_of(&self, read: &Read, id: u16, way: &mut Vec<EntryId>) -> Option<f64> {
        let mut most = Some(0.0_f64);
        for referent in read.referents() {
            let here = match referent {
                Referent::Reference(known) if known == id => mass(read),
                Referent::Reference(_) => Some(0.0),
                Referent::Entry(entry) => match self.record(entry) {
                    Some(entry) if reaches(entry, id) => self.grams_through(read, entry, id, way),
                    _ => Some(0.0),
                },
            };
            most = most.zip(here).map(|(most, here)| most.max(here));
        }
        most
    }

    /// Grams in what a line pours of a prep or a stock entry.
    fn grams_through(
        &self,
        read: &Read,
        entry: &Record,
        id: u16,
        way: &mut Vec<EntryId>,
    ) -> Option<f64> {
        if entry.kind == Kind::Stock {
            return mass(read);
        }
        let whole = self.grams_in(entry, id, way)?;
        let share = match Yield::stated(entry, self.settings_of(entry)) {
            Some(Yield::Grams(g)) => read.g?.value / g,
            Some(Yield::Ml(ml)) => read.ml?.value / ml,
            None => read.composition.mass() / entry.makes.as_ref()?.g.value,
        };
        share.is_finite().then_some(whole * share)
    }
}

fn mass(read: &Read) -> Option<f64> {
    read.g.map(|g| g.value).or_else(|| {
        let mass = read.composition.mass();
        (mass > 0.0).then_some(mass)
    })
}

fn reaches(record: &Record, id: u16) -> bool {
    record.reaches.iter().any(|(known, _)| *known == id)
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use crate::{Settings, Workspace};

    fn nutmeg(text: &str) -> Option<f64> {
        let workspace =
            Workspace::new(vec![(Arc::from("a.pour"), Arc::from(text))], Settings::default());
        let id = washline_reference::lookup("nutmeg").unwrap().id;
        let record = workspace.records().first().unwrap();
        workspace.grams_a_serve(record, id)
    }

    #[test]
    fn lines_and_preps_add_up() {
        let grams = nutmeg("drink: A\n  serves: 2\n  3 g nutmeg\n  60 ml rum\n").unwrap();
        assert!((grams - 1.5).abs() < 1e-9);
        let text = "drink: A\n  30 ml Spice Tincture\n\nprep: Spice Tincture\n  yields: 300 ml\n  20 g nutmeg\n  310 ml vodka\n";
        assert!((nutmeg(text).unwrap() - 2.0).abs() < 1e-9);
    }

    #[test]
    fn what_nobody_can_say() {
        assert_eq!(nutmeg("drink: A\n  2 g nutmeg\n  30 g moondust\n"), None);
    }

    #[test]
    fn a_ring_ends() {
        let text = "prep: A\n  10 g nutmeg\n  100 ml B\n\nprep: B\n  100 ml A\n  100 ml water\n";
        assert!(nutmeg(text).is_none_or(f64::is_finite));
    }
}
