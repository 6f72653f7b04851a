//! What a drink's figures would be if one of its lines were poured larger or smaller, and what
//! each thing that is not known exactly does to them.

use crate::{Effects, Figures, Read, Record, Workspace, compose};

impl Workspace {
    /// The figures of the drink `record` with `ml` millilitres of the ingredient line `read`
    /// (by its place among the lines read) in place of what it says; everything else as it
    /// stands, save that a top fills what room is left, and that the cost is not told.
    ///
    /// `None` where the drink has no figures, or the line no volume to change.
    #[must_use]
    pub fn with_amount(&self, record: &Record, read: usize, ml: f64) -> Option<Figures> {
        let now = record.reads.get(read)?.ml?.value;
        if record.unread || !(now > 0.0 && ml > 0.0) {
            return None;
        }
        let mut reads = record.reads.clone();
        reads.get_mut(read)?.scale(ml / now);
        Some(compose::refigured(self, record, reads))
    }

    /// What each uncertain input does to the figures of a drink or prep; nothing where it has
    /// none.
    #[must_use]
    pub fn effects(&self, record: &Record) -> Effects {
        compose::effects(self, record)
    }
}

impl Read {
    /// Makes the line `factor` times as large; how exactly it is poured scales with it.
    fn scale(&mut self, factor: f64) {
        self.ml = self.ml.map(|ml| ml.times(factor));
        self.g = self.g.map(|g| g.times(factor));
        self.composition = self.composition.times(factor);
        for (_, shift) in &mut self.shifts {
            *shift = shift.times(factor);
        }
        self.sulphites *= factor;
        self.quinine *= factor;
        self.caffeine *= factor;
    }
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use crate::{Figure, Settings, Workspace};

    fn book(text: &str) -> Workspace {
        Workspace::new(vec![(Arc::from("a.pour"), Arc::from(text))], Settings::default())
    }

    const SOUR: &str = "drink: A\n  60 ml gin\n  22.5 ml lemon juice\n  LINE\n\
                        \n  - shake with ice, strain\n";
    const LONG: &str = "drink: A\n  glass: highball 350 ml\n  ice: cubed\n  45 ml gin\n  LINE\n  \
                        top tonic water\n\n  - build over ice\n";

    /// The what-if is the figures of the spec so written, to the last digit that outputs show.
    #[test]
    fn it_is_what_the_spec_so_written_would_give() {
        for (spec, now, then) in [
            (SOUR, "15 ml sugar syrup, 1:1", "25 ml sugar syrup, 1:1"),
            (SOUR, "1/2 oz maple syrup", "1 oz maple syrup"),
            (LONG, "15 ml lime juice", "30 ml lime juice"),
        ] {
            let before = book(&spec.replace("LINE", now));
            let after = book(&spec.replace("LINE", then));
            let [old, new] = [&before, &after].map(|workspace| &workspace.records()[0]);
            let line = new.reads.iter().position(|read| then.contains(&read.name)).unwrap();
            let ml = new.reads[line].ml.unwrap().value;
            let figures = before.with_amount(old, line, ml).unwrap();
            for figure in Figure::ALL {
                let [a, b] = [figures.get(*figure), new.figures.get(*figure)];
                let same = match (a, b) {
                    (Some(a), Some(b)) => [(a.value, b.value), (a.low, b.low), (a.high, b.high)]
                        .iter()
                        .all(|(a, b)| (a - b).abs() <= 1e-6 * b.abs().max(1.0)),
                    (a, b) => a == b,
                };
                assert!(same, "{now} to {then}: {figure:?} {a:?} {b:?}");
            }
        }
    }

    /// Added in squares, what the inputs do is the uncertainty that the figures are told with.
    #[test]
    fn effects_are_the_uncertainty_taken_apart() {
        let prep = "prep: B\n  60 ml gin\n  100 g sugar\n  100 g water\n\n  - stir until even\n";
        for spec in [SOUR.replace("LINE", "15 ml sugar syrup, 1:1"), prep.to_owned()] {
            let workspace = book(&spec);
            let record = &workspace.records()[0];
            let effects = workspace.effects(record);
            for figure in [Figure::Final, Figure::Abv, Figure::Sugar] {
                let u = effects.on(figure).map(|(_, by)| by * by).sum::<f64>().sqrt();
                let told = record.figures.get(figure).unwrap();
                let half = (told.high - told.low) / 2.0;
                assert!((2.0 * u - half).abs() < 1e-9 * half, "{figure:?}: {u} {told:?}");
            }
        }
    }

    #[test]
    fn a_line_that_cannot_be_poured_so_gives_nothing() {
        let workspace = book(&SOUR.replace("LINE", "4 mint leaves"));
        let record = &workspace.records()[0];
        assert_eq!(workspace.with_amount(record, 2, 15.0), None);
        assert_eq!(workspace.with_amount(record, 9, 15.0), None);
        assert_eq!(workspace.with_amount(record, 0, 0.0), None);
    }
}
