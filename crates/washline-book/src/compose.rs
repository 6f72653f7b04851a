//! Composes every entry: stock first, preps before what pours them, then drinks.

use std::sync::Arc;

use rustc_hash::FxHashSet;
use washline_measure::{Estimate, UnitKind};
use washline_reference as reference;
use washline_syntax::{Amount, Key, LineKind, Role, Value};
use washline_text::{Kind, fold};

use crate::cost::Price;
use crate::figures::Figure;
use crate::line::{Portions, Reader, Source};
use crate::makeup::Overrides;
use crate::method::Mentions;
use crate::mix::sum;
use crate::names::{Asked, From, Names};
use crate::says::Standards;
use crate::workspace::{Held, from, place};
use crate::{
    EntryId, Figures, Makeup, Method, Read, Record, Referent, Settings, allergens, cost, family,
    glass, prep,
};

mod again;
mod drink;
mod finished;
mod order;
mod parts;

pub(crate) use again::{effects, refigured};
use drink::Drink;
use finished::prep_figures;
use parts::{Parts, has_no_size};

/// Composes the records of one workspace: those that are heads, and what hangs on them.
pub(crate) struct Composer<'a> {
    names: &'a Names,
    standards: &'a Standards,
    places: &'a [u32],
    records: Vec<Record>,
}

impl Source for Composer<'_> {
    fn makeup(&self, id: EntryId) -> Option<Arc<Makeup>> {
        self.record(id)?.makeup.clone()
    }

    fn kind(&self, id: EntryId) -> Option<u16> {
        self.record(id)?.sort
    }

    fn sizes(&self, id: EntryId) -> (Option<f64>, Option<f64>) {
        self.record(id).map(|record| record.sizes).unwrap_or_default()
    }
}

impl<'a> Composer<'a> {
    pub(crate) const fn new(
        names: &'a Names,
        standards: &'a Standards,
        places: &'a [u32],
        records: Vec<Record>,
    ) -> Self {
        Self { names, standards, places, records }
    }

    /// The records, composed.
    pub(crate) fn into_records(self) -> Vec<Record> {
        self.records
    }

    /// Composes every record that `renewed` names, by its place, all of them heads, and every user of what came
    /// out other than in `before`, which `renewed` names then too. `unsettled` says that preps
    /// went, or stand in another order.
    ///
    /// Gives the preps that need themselves, each as the ring of entries, where they were
    /// looked for again.
    pub(crate) fn run(
        &mut self,
        before: &Held,
        renewed: &mut [bool],
        unsettled: bool,
    ) -> Option<Vec<Vec<EntryId>>> {
        for at in self.of_kind(Kind::Stock, renewed) {
            self.stock(at);
            self.pass_on(at, before, renewed);
        }
        let preps = self.of_kind(Kind::Prep, renewed);
        let rings = (unsettled || !preps.is_empty()).then(|| {
            let all: Vec<usize> = self.all_of_kind(Kind::Prep).collect();
            let (order, rings) = self.prep_order(&all, renewed);
            let ringed: FxHashSet<EntryId> = rings.iter().flatten().copied().collect();
            let once = before.cycles.iter().flatten().copied();
            for id in once.chain(ringed.iter().copied()) {
                self.renew(id, renewed);
            }
            for at in order {
                if renewed.get(at).is_some_and(|new| *new) {
                    self.prep(at, &ringed);
                    self.pass_on(at, before, renewed);
                }
            }
            rings
        });
        for at in self.of_kind(Kind::Drink, renewed) {
            self.drink(at);
        }
        rings
    }

    fn all_of_kind(&self, kind: Kind) -> impl Iterator<Item = usize> {
        let all = self.records.iter().enumerate();
        all.filter(move |(_, record)| record.kind == kind).map(|(at, _)| at)
    }

    fn of_kind(&self, kind: Kind, renewed: &[bool]) -> Vec<usize> {
        let new = renewed.iter().zip(&self.records).enumerate();
        new.filter(|(_, (new, record))| **new && record.kind == kind).map(|(at, _)| at).collect()
    }

    /// Where what the entry at `at` is made of came out otherwise than before, its users are
    /// made anew too.
    fn pass_on(&mut self, at: usize, before: &Held, renewed: &mut [bool]) {
        let Some(record) = self.records.get(at) else { return };
        let old = before.record(record.id);
        let Some(old) = old.filter(|old| !old.serves_alike(record)) else { return };
        for user in before.users_of(old.id) {
            self.renew(*user, renewed);
        }
    }

    fn renew(&mut self, id: EntryId, renewed: &mut [bool]) {
        let at = place(self.places, id) as usize;
        let (Some(record), Some(new)) = (self.records.get_mut(at), renewed.get_mut(at)) else {
            return;
        };
        if !*new {
            *new = true;
            *record = record.head();
        }
    }

    fn record(&self, id: EntryId) -> Option<&Record> {
        self.records.get(place(self.places, id) as usize)
    }

    fn settings_of(&self, record: &Record) -> &'a Settings {
        self.standards.of(record.file)
    }

    fn stock(&mut self, at: usize) {
        let Some(record) = self.records.get(at) else { return };
        let settings = self.settings_of(record);
        let kind = record
            .field(Key::Kind)
            .and_then(|field| reference::lookup(&fold(record.text(field.value_span))));
        let stated = overrides(record);
        let makeup = match kind {
            Some(known) => Some(Makeup::with(known, &stated, record.id.0)),
            None => Makeup::stated(&stated),
        };
        let ml = |key: Key| {
            let measure = record.amount(key)?;
            glass::millilitres(&measure, settings.ounce)
        };
        let pack = match record.field(Key::Pack).map(|field| &field.value) {
            Some(Value::Pack { each, .. }) => glass::millilitres(each, settings.ounce),
            _ => None,
        };
        let sizes = (ml(Key::Dash), pack);
        let price = cost::of_stock(record, settings);
        let allergens = allergens::of_stock(record, kind.map(|known| known.id));
        let makeup = makeup.map(Arc::new);
        if let Some(record) = self.records.get_mut(at) {
            let made = record.made_mut();
            made.allergens = allergens;
            made.makeup = makeup;
            made.reaches = kind.map(|known| (known.id, 0)).into_iter().collect();
            made.sort = kind.map(|known| known.id);
            made.sizes = sizes;
            made.price = price;
        }
    }

    fn reader<'b>(
        &'b self,
        record: &'b Record,
        part: Option<f64>,
        asked: Option<&'b Asked>,
    ) -> Reader<'b, Self> {
        Reader {
            names: self.names,
            from: From { asked, ..from(record) },
            portions: Portions { settings: self.settings_of(record), part },
            source: self,
            entry: record.id.0,
        }
    }

    /// What every entry with lines has: reads, garnishes, method, uses, allergens.
    fn read(&self, record: &Record) -> Parts {
        let settings = self.settings_of(record);
        let asked = Asked::default();
        let reader = self.reader(record, part_ml(record, settings), Some(&asked));
        let reads = reader.lines(&record.entry);
        let garnishes = reader.garnishes(&record.entry);
        let mentions = Mentions::new(&self.spellings(&reads));
        let prep = record.kind == Kind::Prep;
        let method = Method::read(&record.entry, &reads, &mentions, prep, settings.ounce);
        let allergens = allergens::of(record, &reads, &garnishes, |id| {
            self.record(id).map(|record| &record.allergens)
        });
        let mut uses: Vec<EntryId> = reads
            .iter()
            .chain(&garnishes)
            .flat_map(|read| read.referents().collect::<Vec<_>>())
            .filter_map(|referent| match referent {
                Referent::Entry(id) => Some(id),
                Referent::Reference(_) => None,
            })
            .collect();
        uses.sort_unstable();
        uses.dedup();
        let reaches = self.reaches(&reads, &garnishes);
        let unread = record.entry.lines.iter().any(|line| line.what == LineKind::Unread)
            || reads.iter().any(|read| {
                let beside = matches!(read.role, Role::Garnish | Role::Side) || read.optional;
                let more = !read.beside.is_empty();
                more || !beside && (!read.known() || read.referents().any(|r| self.is_opaque(r)))
            });
        let asked = asked.into_hashes();
        Parts { reads, garnishes, method, allergens, uses, reaches, unread, asked }
    }

    /// An entry that nobody can compute: a stock with no kind, a prep with an unread line.
    fn is_opaque(&self, referent: Referent) -> bool {
        matches!(referent, Referent::Entry(id) if self.makeup(id).is_none())
    }

    /// Every reference ingredient that the lines reach, with the line through which.
    fn reaches(&self, reads: &[Read], garnishes: &[Read]) -> Vec<(u16, usize)> {
        let mut out = Vec::new();
        for (at, read) in reads.iter().chain(garnishes).enumerate() {
            for referent in read.referents() {
                match referent {
                    Referent::Reference(id) => out.push((id, at)),
                    Referent::Entry(id) => {
                        let theirs = self.record(id).map(|r| &r.reaches);
                        out.extend(theirs.into_iter().flatten().map(|(id, _)| (*id, at)));
                    }
                }
            }
        }
        out.sort_unstable();
        out.dedup();
        out
    }

    /// The ways in which the steps may name each line.
    fn spellings(&self, reads: &[Read]) -> Vec<Vec<String>> {
        reads
            .iter()
            .map(|read| {
                let mut names = vec![fold(&read.name)];
                for referent in read.referents() {
                    names.push(fold(self.name_of(referent)));
                    if let Referent::Entry(id) = referent
                        && let Some(record) = self.record(id)
                    {
                        names.extend(record.terms(Key::Also).map(|(also, _)| fold(also)));
                    }
                }
                names.extend(read.ingredient().map(|known| fold(known.name)));
                names.sort_unstable();
                names.dedup();
                names.retain(|name| !name.is_empty());
                names
            })
            .collect()
    }

    fn name_of(&self, referent: Referent) -> &str {
        match referent {
            Referent::Entry(id) => self.record(id).map_or("", |record| &record.name),
            Referent::Reference(id) => reference::ingredient(id).map_or("", |known| known.name),
        }
    }

    fn prep(&mut self, at: usize, ringed: &FxHashSet<EntryId>) {
        let Some(record) = self.records.get(at) else { return };
        let settings = self.settings_of(record);
        let in_ring = ringed.contains(&record.id);
        let parts = self.read(record);
        let unread = parts.unread || in_ring || has_no_size(&parts.reads);
        let mut figures = Figures::default();
        let mut makeup = None;
        let mut price = None;
        let mut makes = None;
        if !unread && parts.reads.iter().any(|read| read.counted) {
            let composed = prep::compose(record, &parts.reads, &parts.method, settings);
            figures = prep_figures(record, &composed, settings);
            let volume = composed.finished.volume_ml();
            let mass = composed.finished.mass();
            let units = if composed.makeup.liquid { volume } else { mass };
            if let Some((cost, currency)) = self.cost(&parts.reads) {
                set_cost(&mut figures, cost.times(1.0 / record.serves), &currency);
                let a_unit = if units > 0.0 { cost.value / units } else { 0.0 };
                price = Some(Price { a_unit, grams: !composed.makeup.liquid, currency });
            }
            makes = Some(composed.makes);
            makeup = Some(Arc::new(composed.makeup));
        }
        if let Some(record) = self.records.get_mut(at) {
            let made = record.made_mut();
            parts.put(made);
            made.unread = unread;
            made.figures = figures;
            made.makeup = makeup;
            made.makes = makes;
            made.price = price;
        }
    }

    fn cost(&self, reads: &[Read]) -> Option<(Estimate, String)> {
        cost::of_lines(reads, |read| match read.referent()? {
            Referent::Entry(id) => self.record(id)?.price.clone(),
            Referent::Reference(_) => None,
        })
    }

    fn drink(&mut self, at: usize) {
        let Some(record) = self.records.get(at) else { return };
        let settings = self.settings_of(record);
        let mut parts = self.read(record);
        let serves = portions(record, &parts.reads, settings);
        if let Some(record) = self.records.get_mut(at) {
            let made = record.made_mut();
            made.serves = serves.unwrap_or(made.serves);
        }
        let Some(record) = self.records.get(at) else { return };
        let families = family::of(&record.entry, &parts.reads, &parts.method, settings);
        let glass = glass::of(&record.entry, settings);
        let mut figures = Figures::default();
        let mut room = None;
        if !parts.unread {
            let drink = Drink { record, settings, families: &families, glass };
            (figures, room) = drink.figures(&mut parts);
            if let Some((cost, currency)) = self.cost(&parts.reads) {
                set_cost(&mut figures, cost.times(1.0 / record.serves), &currency);
            }
        }
        if let Some(record) = self.records.get_mut(at) {
            let made = record.made_mut();
            parts.put(made);
            made.families = families;
            made.glass = glass.map(|glass| (glass.known, glass.brim.value));
            made.room = room;
            made.figures = figures;
        }
    }
}

/// How many portions a batch pours, where it states what one is and not how many serve.
fn portions(record: &Record, reads: &[Read], settings: &Settings) -> Option<f64> {
    if record.field(Key::Serves).is_some() {
        return None;
    }
    let one = glass::millilitres(&record.amount(Key::Portion)?, settings.ounce)?;
    let all: Vec<usize> = (0..reads.len()).collect();
    (one > 0.0).then(|| (sum(reads, &all).volume_ml() / one).max(1.0))
}

/// What a stock or prep entry states of itself.
fn overrides(record: &Record) -> Overrides {
    Overrides {
        abv: record.number(Key::Abv),
        sugar: record.number(Key::Sugar),
        brix: record.number(Key::Brix),
        acid: record.number(Key::Acid),
        fat: record.number(Key::Fat),
        salt: record.number(Key::Salt),
        density: record.number(Key::Density),
    }
}

/// What one part is, ml: as `part:` says, or the share of `total:`.
fn part_ml(record: &Record, settings: &Settings) -> Option<f64> {
    if let Some(part) = record.amount(Key::Part) {
        return glass::millilitres(&part, settings.ounce);
    }
    let total = glass::millilitres(&record.amount(Key::Total)?, settings.ounce)?;
    let mut parts = 0.0;
    for line in &record.entry.lines {
        let LineKind::Ingredient(line) = &line.what else { continue };
        let Amount::Measures(sum) = &line.amount else { continue };
        let names = line.shared.len().max(1);
        for placed in sum {
            if placed.measure.unit.is_some_and(|unit| unit.kind() == UnitKind::Part) {
                #[expect(clippy::cast_precision_loss, reason = "a handful of names")]
                let names = names as f64;
                parts += placed.measure.quantity.middle().to_f64() * names;
            }
        }
    }
    (parts > 0.0).then(|| total / parts)
}

fn set_cost(figures: &mut Figures, cost: Estimate, currency: &str) {
    figures.set(Figure::Cost, Some(cost.interval(0.0, f64::MAX)));
    figures.currency = Some(currency.to_owned());
}
