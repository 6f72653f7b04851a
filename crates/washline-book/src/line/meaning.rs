//! What a line means beyond its words: the juice of a fruit, the white of an egg, the word that
//! a list of names shares.

use washline_measure::{Unit, UnitKind};
use washline_reference::{Ingredient as Known, ingredient};
use washline_syntax::{Amount, Ingredient, Part};
use washline_text::fold;

use super::Read;
use super::reader::{Reader, Source};

impl<S: Source> Reader<'_, S> {
    /// `lemon and lime juice`: a name that shares its amount takes the last words of the last
    /// one, where that is something known.
    pub(super) fn share_last_words(&self, read: &mut Read, line: &Ingredient, text: &str) {
        let last = line.shared.last().map_or("", |span| span.text(text));
        let Some((_, words)) = last.split_once(' ') else { return };
        if read.name == last || read.name.ends_with(words) {
            return;
        }
        let longer = format!("{} {words}", read.name);
        // `coffee and coffee liqueur` are two things.
        if fold(&longer) == fold(last) {
            return;
        }
        let resolution = self.names.resolve(&longer, &[], false, self.from);
        if !resolution.hits.is_empty() {
            read.name = longer;
            read.resolution = resolution;
            read.ingredient = self.behind(&read.resolution);
            (read.lacks, read.vague) = (None, false);
            read.shifts.clear();
            self.fill(read, line, None);
        }
    }

    /// A fruit poured by the measure is its juice: `15 ml lemon`.
    pub(super) fn mean_juice(&self, read: &mut Read, amount: &Amount) {
        let Amount::Measures(sum) = amount else { return };
        let poured = sum.iter().all(|m| {
            let kind = m.measure.unit.map(Unit::kind);
            matches!(kind, Some(UnitKind::Metric | UnitKind::Customary | UnitKind::Part))
        });
        if !poured {
            return;
        }
        let fruit = self.behind(&read.resolution).and_then(ingredient);
        let juice = fruit.map_or("", |fruit| fruit.juice_of);
        if juice.is_empty() {
            return;
        }
        if let Some((hits, level)) = self.names.look(&fold(juice), self.from) {
            read.resolution.hits = hits;
            read.resolution.level = Some(level);
        }
    }

    /// `juice of 1/2 lime` means lime juice, `white of 1 egg` the egg's white.
    /// Gives the whole fruit or egg.
    pub(super) fn mean_part(&self, read: &mut Read, amount: &Amount) -> Option<&'static Known> {
        let Amount::PartOf(part, _) = amount else { return None };
        let part = match part {
            Part::Juice => "juice",
            Part::Zest => "zest",
            Part::Peel => "peel",
            Part::White => "white",
            Part::Yolk => "yolk",
        };
        let whole = self.behind(&read.resolution).and_then(ingredient)?;
        let base = whole.name.strip_prefix("whole ").unwrap_or(whole.name);
        let named = match (part, whole.juice_of) {
            ("juice", juice) if !juice.is_empty() => vec![fold(juice)],
            ("zest", _) => vec![fold(&format!("{base} zest")), fold(&format!("{base} peel"))],
            _ => vec![fold(&format!("{base} {part}"))],
        };
        // The house's own juice, peel or white before the reference's.
        if let Some((hits, level)) = named.iter().find_map(|name| self.names.look(name, self.from))
        {
            read.resolution.hits = hits;
            read.resolution.level = Some(level);
        }
        Some(whole)
    }
}
