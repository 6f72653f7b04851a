//! One drink or prep whose figures are asked for.

use std::collections::BTreeSet;

use washline_book::{Carried, Read, Record, Workspace};
use washline_measure::{Estimate, Interval};
use washline_syntax::{LineKind, Role};

/// An entry in its workspace, with the name its file has in outputs.
#[derive(Clone, Copy, Debug)]
pub struct Card<'a> {
    /// Its workspace.
    pub workspace: &'a Workspace,
    /// The entry.
    pub record: &'a Record,
    /// Its file.
    pub file: &'a str,
}

/// An allergen with the lines through which it comes.
pub(super) struct Allergen<'a> {
    pub name: &'static str,
    pub detail: Option<&'a str>,
    pub from: Vec<&'a str>,
}

impl<'a> Card<'a> {
    /// The line of its heading, from 1.
    pub(super) fn line(&self) -> u32 {
        self.line_at(0)
    }

    /// The line of the file, from 1, on which an ingredient line stands.
    pub(super) fn line_of(&self, read: &Read) -> u32 {
        let line = self.record.entry.lines.get(read.line as usize);
        self.line_at(line.map_or(0, |line| line.span.start))
    }

    fn line_at(&self, offset: u32) -> u32 {
        let file = self.workspace.file(self.record.file);
        file.map_or(0, |file| file.index.line_of(self.record.start + offset)) + 1
    }

    pub(super) fn families(&self) -> Vec<&'a str> {
        self.record.families.list.iter().map(|family| family.name.as_str()).collect()
    }

    /// What a line means, in the words of the entry or the reference; none where nobody knows.
    pub(super) fn resolved(&self, read: &Read) -> Option<&'a str> {
        read.referent().map(|referent| self.workspace.name_of(referent))
    }

    /// The other names of a choice.
    pub(super) fn others(&self, read: &'a Read) -> Vec<&'a str> {
        read.or.iter().map(|(name, _)| name.as_str()).collect()
    }

    pub(super) fn qualifiers(&self, read: &Read) -> Vec<&'a str> {
        read.qualifiers.iter().map(|span| self.record.text(*span)).collect()
    }

    /// The bracketed second measure as written.
    pub(super) fn second(&self, read: &'a Read) -> Option<&'a str> {
        let line = self.record.entry.lines.get(read.line as usize)?;
        let LineKind::Ingredient(ingredient) = &line.what else { return None };
        let second = ingredient.second.filter(|_| read.second.is_some())?;
        Some(self.record.text(second.inner))
    }

    /// The allergens that one of the house's markets counts, with the lines they come through.
    pub(super) fn allergens(&self) -> Vec<Allergen<'a>> {
        let mut out: Vec<Allergen<'a>> = Vec::new();
        for carried in self.counted().filter(|carried| carried.certain) {
            let name = carried.allergen.id();
            let detail = Some(carried.detail.as_str()).filter(|detail| !detail.is_empty());
            let from = source(carried);
            match out.iter_mut().find(|known| known.name == name && known.detail == detail) {
                Some(known) if known.from.contains(&from) => {}
                Some(known) => known.from.push(from),
                None => out.push(Allergen { name, detail, from: vec![from] }),
            }
        }
        let order = |name: &str| washline_reference::Allergen::from_id(name);
        out.sort_by_key(|allergen| (order(allergen.name), allergen.detail));
        out
    }

    /// What nobody vouches for, and what only some makers' have.
    pub(super) fn unknown(&self) -> BTreeSet<String> {
        let unvouched = self.record.allergens.unknown.iter().map(|unknown| unknown.name.clone());
        let perhaps = self.counted().filter(|carried| !carried.certain);
        let perhaps = perhaps.map(|carried| format!("{} in {}", carried.allergen, source(carried)));
        unvouched.chain(perhaps).collect()
    }

    fn counted(&self) -> impl Iterator<Item = &'a Carried> {
        let record = self.record;
        let markets = self.workspace.settings_of(record).declared_markets();
        let sulphites = record.figures.sulphites_mg_per_l;
        record.allergens.carried.iter().filter(move |carried| {
            let here = |carried: &&Carried, market| {
                let mut counted = record.allergens.in_market(market, sulphites);
                counted.any(|other| std::ptr::eq(*carried, other))
            };
            markets.iter().any(|market| here(carried, *market))
        })
    }

    /// The lines that no figure counts.
    pub(super) fn not_counted(&self) -> Vec<&'a str> {
        let left_out = |read: &&Read| !read.counted && !read.water;
        self.record.reads.iter().filter(left_out).map(|read| read.name.as_str()).collect()
    }
}

fn source(carried: &Carried) -> &str {
    carried.path.first().map_or("", |step| step.name.as_str())
}

/// A line's volume or mass with its range.
pub(super) fn range(estimate: Estimate) -> Interval {
    estimate.interval(0.0, f64::MAX)
}

/// The word for what a line is for.
pub(super) const fn role(role: Role) -> &'static str {
    match role {
        Role::Poured => "poured",
        Role::Top => "top",
        Role::Float => "float",
        Role::Rinse => "rinse",
        Role::Rim => "rim",
        Role::Mist => "mist",
        Role::Garnish => "garnish",
        Role::Taste => "taste",
        Role::Optional => "optional",
        Role::Side => "side",
    }
}
