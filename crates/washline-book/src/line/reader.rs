//! Reads the ingredient lines and garnishes of an entry.

use std::sync::Arc;

use washline_measure::Unit;
use washline_mixture::Composition;
use washline_reference::{Ingredient as Known, Sort};
use washline_syntax::{
    Amount, AmountWord, Entry, Garnish, Ingredient, LineKind, Property, Role, Value,
};
use washline_text::{Span, fold};

use crate::makeup::Overrides;
use crate::names::{From, Names};
use crate::{Input, Makeup, Referent, Resolution};

use super::amount::{Portions, Sized, Thing, syrup_brix};
use super::{Read, Temperature, tail};

/// What a reader asks of the entries it refers to.
pub(crate) trait Source {
    /// The makeup of a prep or stock entry, where it has one.
    fn makeup(&self, id: crate::EntryId) -> Option<Arc<Makeup>>;
    /// The reference ingredient that a stock entry is of.
    fn kind(&self, id: crate::EntryId) -> Option<u16>;
    /// Millilitres of one dash and of one pack of a stock entry.
    fn sizes(&self, id: crate::EntryId) -> (Option<f64>, Option<f64>);
}

/// Reads lines of one entry.
pub(crate) struct Reader<'a, S> {
    pub names: &'a Names,
    pub from: From<'a>,
    pub portions: Portions<'a>,
    pub source: &'a S,
    pub entry: u32,
}

impl<S: Source> Reader<'_, S> {
    /// All ingredient lines of `entry`, in order; a line that shares its amount among
    /// several names gives one for each.
    pub(crate) fn lines(&self, entry: &Entry) -> Vec<Read> {
        let names = entry.ingredients().map(|ingredient| ingredient.shared.len().max(1));
        let mut out = Vec::with_capacity(names.sum());
        for (at, line) in entry.lines.iter().enumerate() {
            let LineKind::Ingredient(ingredient) = &line.what else { continue };
            let at = u32::try_from(at).unwrap_or(u32::MAX);
            if ingredient.shared.is_empty() {
                out.push(self.line(ingredient, ingredient.name, at, line.content, &entry.text));
                continue;
            }
            for name in &ingredient.shared {
                let mut read = self.line(ingredient, *name, at, line.content, &entry.text);
                self.share_last_words(&mut read, ingredient, &entry.text);
                out.push(read);
            }
        }
        out
    }

    /// The garnishes of the entry's `garnish:` fields, in order.
    pub(crate) fn garnishes(&self, entry: &Entry) -> Vec<Read> {
        let listed = || {
            entry.lines.iter().enumerate().filter_map(|(at, line)| match &line.what {
                LineKind::Field(field) => match &field.value {
                    Value::Garnishes(list) => Some((u32::try_from(at).unwrap_or(u32::MAX), list)),
                    _ => None,
                },
                _ => None,
            })
        };
        let mut out = Vec::with_capacity(listed().map(|(_, list)| list.len()).sum());
        for (at, list) in listed() {
            out.extend(list.iter().map(|garnish| self.garnish(garnish, at, &entry.text)));
        }
        out
    }

    fn garnish(&self, garnish: &Garnish, at: u32, text: &str) -> Read {
        let words: Vec<&str> = garnish.qualifiers.iter().map(|span| span.text(text)).collect();
        let written = garnish.name.text(text);
        let mut resolution = self.names.resolve(written, &words, true, self.from);
        let mut or = Vec::new();
        if resolution.hits.is_empty()
            && let Some(sides) = crate::names::choice(written)
        {
            let mut read = sides.iter().map(|side| {
                ((*side).to_owned(), self.names.resolve(side, &words, true, self.from))
            });
            if let Some((_, first)) = read.next() {
                resolution = first;
            }
            or = read.map(|(name, found)| (name, found.hits)).collect();
        }
        let mut read = Read {
            line: at,
            span: garnish.span,
            name: written.to_owned(),
            name_span: garnish.name,
            qualifiers: garnish.qualifiers.clone(),
            role: Role::Garnish,
            unit: garnish.amount.and_then(|m| m.unit).or(resolution.unit),
            amount: garnish.amount.map_or_else(|| "1".to_owned(), |m| m.quantity.to_string()),
            resolution,
            or,
            ..Read::default()
        };
        read.ingredient = self.behind(&read.resolution);
        read
    }

    fn line(&self, line: &Ingredient, name: Span, at: u32, span: Span, text: &str) -> Read {
        let counted = match &line.amount {
            Amount::Measures(sum) => sum.first().is_some_and(|m| m.measure.unit.is_none()),
            Amount::Vague(unit) => unit.is_none(),
            _ => false,
        };
        let tail = tail::read(line, name, text, counted, self.names, self.from);
        let mut read = Read {
            line: at,
            span,
            name: tail.name,
            name_span: tail.name_span,
            qualifiers: tail.qualifiers,
            beside: tail.beside,
            properties: tail.properties,
            role: line.role,
            resolution: tail.resolution,
            or: tail.or,
            second: line.second.map(|second| second.measure.to_string()),
            optional: tail.optional,
            ..Read::default()
        };
        self.states(&mut read, text);
        let whole = self.mean_part(&mut read, &line.amount);
        self.mean_juice(&mut read, &line.amount);
        read.ingredient = self.behind(&read.resolution);
        self.amount_text(&mut read, line);
        self.fill(&mut read, line, whole);
        read
    }

    /// What the qualifiers and properties say of how the line is used.
    fn states(&self, read: &mut Read, text: &str) {
        for (_, property) in &read.properties {
            match property {
                Property::Hot => read.temperature = Some(Temperature::Hot),
                Property::Chilled => read.temperature = Some(Temperature::Chilled),
                Property::Frozen => read.temperature = Some(Temperature::Frozen),
                Property::Clarified => read.clarified = true,
                Property::Pasteurised => read.pasteurised = true,
                _ => {}
            }
        }
        for span in &read.qualifiers {
            match fold(span.text(text)).as_str() {
                "optional" => read.optional = true,
                "cold" | "ice cold" => read.temperature = Some(Temperature::Chilled),
                _ => {}
            }
        }
        if read.role == Role::Optional {
            read.optional = true;
        }
        if read.optional && read.role == Role::Poured {
            read.role = Role::Optional;
        }
    }

    /// The reference ingredient behind a resolution.
    pub(super) fn behind(&self, resolution: &Resolution) -> Option<u16> {
        match resolution.hits.first()? {
            Referent::Reference(id) => Some(*id),
            Referent::Entry(id) => self.source.kind(*id),
        }
    }

    fn amount_text(&self, read: &mut Read, line: &Ingredient) {
        match &line.amount {
            Amount::Measures(sum) => match sum.as_slice() {
                [one] => {
                    read.amount = one.measure.quantity.to_string();
                    read.unit = one.measure.unit.or(read.resolution.unit);
                }
                _ => read.unit = Some(Unit::Ml),
            },
            Amount::Word(word) => read.amount = word_name(*word).to_owned(),
            Amount::PartOf(_, count) => {
                read.amount = count.measure.quantity.to_string();
                read.unit = count.measure.unit;
            }
            Amount::Vague(unit) => {
                "few".clone_into(&mut read.amount);
                read.unit = (*unit).or(read.resolution.unit);
            }
            Amount::Proportion(number) => read.amount = number.to_string(),
        }
    }

    /// Volume, mass and composition of the line.
    pub(super) fn fill(&self, read: &mut Read, line: &Ingredient, whole: Option<&'static Known>) {
        let Some(makeup) = self.makeup(read) else { return };
        read.unit_makeup = Some(makeup.clone());
        read.water = is_water(read);
        let thing = self.thing(read, &makeup);
        read.counted =
            matches!(read.role, Role::Poured | Role::Top | Role::Float | Role::Rinse | Role::Mist)
                && !read.optional;
        let size = match self.sized(read, line, &thing, whole) {
            Ok(Some(size)) => size,
            Ok(None) => {
                read.vague = true;
                return;
            }
            Err(lack) => {
                read.lacks = Some(lack);
                read.vague = true;
                return;
            }
        };
        if let Amount::Measures(sum) = &line.amount
            && sum.len() > 1
        {
            read.amount = decimal(size.value);
            read.unit = Some(if size.grams { Unit::G } else { Unit::Ml });
        }
        self.pour(read, &makeup, &size, thing.ingredient);
        read.second_size = line.second.and_then(|second| {
            let size = self.portions.size(&second.measure, &thing).ok()?;
            Some(size.estimate().times(factor(&makeup, &size, thing.ingredient)))
        });
    }

    /// Makes `size` of `makeup` the line's content.
    fn pour(&self, read: &mut Read, makeup: &Makeup, size: &Sized, known: Option<&Known>) {
        let grams_a_unit = makeup.grams_a_unit();
        let factor = factor(makeup, size, known);
        let units = size.value * factor;
        read.composition = makeup.times(units);
        read.shifts.reserve_exact(makeup.shifts.len() + size.doubts.len());
        for (input, shift) in &makeup.shifts {
            read.shifts.push((*input, shift.times(units)));
        }
        for (input, u) in &size.doubts {
            let input = match input {
                Input::Line(..) => Input::Line(self.entry, read.line),
                other => *other,
            };
            read.shifts.push((input, makeup.times(u * factor)));
        }
        self.widen(read, makeup, units);
        let estimate = size.estimate();
        if makeup.liquid {
            let ml = estimate.times(factor);
            read.ml = Some(ml);
            read.g = Some(ml.times(grams_a_unit));
        } else {
            read.g = Some(estimate.times(factor));
            read.ml = (!size.grams).then_some(estimate);
        }
        read.sulphites = makeup.sulphites * units;
        read.quinine = makeup.quinine * units;
        read.caffeine = makeup.caffeine * units;
    }

    /// A choice spans its sides: each side's own difference widens the line.
    fn widen(&self, read: &mut Read, first: &Makeup, units: f64) {
        let here = read.resolution.hits.iter().skip(1).copied();
        let others: Vec<Referent> =
            here.chain(read.or.iter().filter_map(|(_, hits)| hits.first().copied())).collect();
        let mut widest = Composition::ZERO;
        let mut most = 0.0;
        for other in others {
            let Some(makeup) = self.makeup_of(other) else { continue };
            if makeup.liquid != first.liquid {
                continue;
            }
            let away = makeup.one.minus(&first.one).times(units / 2.0);
            let size = away.ethanol.abs() + away.sugar.abs() + away.acid.abs();
            if size > most {
                (widest, most) = (away, size);
            }
            read.sulphites = read.sulphites.max(makeup.sulphites * units);
        }
        if most > 0.0 {
            read.shifts.push((Input::Choice(self.entry, read.line), widest));
        }
    }

    fn makeup_of(&self, referent: Referent) -> Option<Arc<Makeup>> {
        match referent {
            Referent::Entry(id) => self.source.makeup(id),
            Referent::Reference(id) => Some(Makeup::of_reference(id)),
        }
    }

    /// What the line is made of, with the properties that it states itself.
    fn makeup(&self, read: &Read) -> Option<Arc<Makeup>> {
        let plain = self.makeup_of(read.referent()?)?;
        let known = read.ingredient();
        let stated = self.overrides(read, known);
        if stated.is_empty() {
            return Some(plain);
        }
        match (read.referent()?, known) {
            (_, Some(known)) => Some(Arc::new(Makeup::with(known, &stated, self.entry))),
            _ => Some(plain),
        }
    }

    fn overrides(&self, read: &Read, known: Option<&'static Known>) -> Overrides {
        let mut stated = Overrides::default();
        let sort = known.map(|known| known.sort);
        for (_, property) in &read.properties {
            match property {
                Property::Abv(x) => stated.abv = Some(x.to_f64()),
                Property::Brix(x) => stated.brix = Some(x.to_f64()),
                Property::Acid(x) => stated.acid = Some(x.to_f64()),
                Property::Sugar(x) => stated.sugar = Some(x.to_f64()),
                Property::Fat(x) => stated.fat = Some(x.to_f64()),
                Property::Salt(x) => stated.salt = Some(x.to_f64()),
                Property::Percent(x) => match sort {
                    Some(Sort::Dairy | Sort::PlantMilk) => stated.fat = Some(x.to_f64()),
                    Some(Sort::Salt) => stated.salt = Some(x.to_f64()),
                    Some(Sort::Acid) => stated.acid = Some(x.to_f64()),
                    Some(Sort::Syrup) => stated.brix = Some(x.to_f64()),
                    Some(Sort::Chocolate | Sort::Sugar) | None => {}
                    _ => stated.abv = Some(x.to_f64()),
                },
                Property::Ratio { .. } => stated.brix = syrup_brix(property, known),
                _ => {}
            }
        }
        if stated.brix.is_none()
            && stated.sugar.is_none()
            && matches!(read.referent(), Some(Referent::Reference(_)))
            && known.is_some_and(|known| known.name == "sugar syrup")
            && let Some(ratio) = self.portions.settings.default_syrup
        {
            stated.brix = Some(100.0 * ratio / (ratio + 1.0));
        }
        stated
    }

    fn thing(&self, read: &Read, makeup: &Makeup) -> Thing {
        let (dash, pack) = match read.referent() {
            Some(Referent::Entry(id)) => self.source.sizes(id),
            _ => (None, None),
        };
        Thing { ingredient: read.ingredient(), liquid: makeup.liquid, dash, pack }
    }
}

/// Units of the makeup in one unit of the size.
fn factor(makeup: &Makeup, size: &Sized, known: Option<&Known>) -> f64 {
    let grams_a_unit = makeup.grams_a_unit();
    match (makeup.liquid, size.grams) {
        (true, false) | (false, true) => 1.0,
        (true, true) if grams_a_unit > 0.0 => 1.0 / grams_a_unit,
        (true, true) => 0.0,
        (false, false) => known.and_then(|known| known.density).map_or(1.0, |d| d.value),
    }
}

/// Still water and ice are dilution.
fn is_water(read: &Read) -> bool {
    read.sort_is(&[Sort::Water, Sort::Ice])
}

const fn word_name(word: AmountWord) -> &'static str {
    match word {
        AmountWord::Top => "top",
        AmountWord::Fill => "fill",
        AmountWord::Rinse => "rinse",
        AmountWord::Float => "float",
        AmountWord::Mist => "mist",
        AmountWord::Rim => "rim",
        AmountWord::ToTaste => "to taste",
    }
}

fn decimal(value: f64) -> String {
    let text = format!("{value:.6}");
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}
