//! What an entry carries: the union over its lines, their preps, and the garnish.

use washline_reference as reference;
use washline_reference::{Allergen, Market};
use washline_syntax::{Key, LineKind, Property, Value};
use washline_text::{Span, fold};

use crate::{EntryId, Read, Record, Referent};

/// An allergen that an entry carries, and the way it came.
#[derive(Clone, Debug, PartialEq)]
pub struct Carried {
    /// The allergen.
    pub allergen: Allergen,
    /// Which kind of it (`almond`); empty where there is only one or nobody says.
    pub detail: String,
    /// Markets whose law exempts it in this.
    pub exempt: Vec<Market>,
    /// Always there; false where only some makers' have it.
    pub certain: bool,
    /// The way it came, from the entry's own line down to what carries it.
    pub path: Vec<Step>,
}

/// One step on the way of an allergen.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Step {
    /// The line of the entry, by its place among its lines read; garnishes follow the lines.
    pub read: Option<usize>,
    /// The entry whose line it is; none for what the reference knows.
    pub entry: Option<EntryId>,
    /// What the line names.
    pub name: String,
}

/// Something that nobody vouches for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Unvouched {
    /// Its name.
    pub name: String,
    /// The line through which it came.
    pub read: Option<usize>,
}

/// The allergens of an entry.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Allergens {
    /// What it carries; one for each way it comes.
    pub carried: Vec<Carried>,
    /// What nobody vouches for: unknown, never absent.
    pub unknown: Vec<Unvouched>,
    /// Whether every line is vouched for, so that what is not listed is absent.
    pub vouched: bool,
}

impl Allergens {
    /// The ways in which `allergen` comes.
    pub fn of(&self, allergen: Allergen) -> impl Iterator<Item = &Carried> {
        self.carried.iter().filter(move |carried| carried.allergen == allergen)
    }

    /// What it carries that counts in `market`, sulphites by their quantity in mg/l.
    pub fn in_market(
        &self,
        market: Market,
        sulphites_mg_per_l: Option<f64>,
    ) -> impl Iterator<Item = &Carried> {
        self.carried.iter().filter(move |carried| {
            let asked = market.declares_kind(carried.allergen, &carried.detail);
            asked
                && !carried.exempt.contains(&market)
                && (carried.allergen != Allergen::Sulphites
                    || sulphites_mg_per_l
                        .is_none_or(|mg| market.sulphite_threshold().is_reached(mg)))
        })
    }
}

/// What the entry's lines and garnishes carry; `known` gives the allergens of other entries.
pub(crate) fn of<'a>(
    record: &Record,
    reads: &[Read],
    garnishes: &[Read],
    known: impl Fn(EntryId) -> Option<&'a Allergens>,
) -> Allergens {
    let mut out = Allergens { vouched: true, ..Allergens::default() };
    for (at, read) in reads.iter().chain(garnishes).enumerate() {
        let garnish = at >= reads.len();
        if !read.known() {
            // A garnish that the reference does not know is prose until it is an ingredient.
            out.unknown.push(Unvouched { name: read.name.clone(), read: Some(at) });
            out.vouched = false;
            continue;
        }
        stated_on_line(read, record, at, &mut out);
        for referent in read.referents() {
            one(referent, read, at, garnish, &known, &mut out);
        }
    }
    declared(record, &mut out);
    out
}

fn one<'a>(
    referent: Referent,
    read: &Read,
    at: usize,
    garnish: bool,
    known: &impl Fn(EntryId) -> Option<&'a Allergens>,
    out: &mut Allergens,
) {
    match referent {
        Referent::Reference(id) => {
            let Some(ingredient) = reference::ingredient(id) else { return };
            out.vouched &= ingredient.vouches || garnish;
            for carries in ingredient.carries {
                out.carried.push(Carried {
                    allergen: carries.allergen,
                    detail: carries.detail.to_owned(),
                    exempt: carries.exempt.to_vec(),
                    certain: carries.certain,
                    path: vec![Step { read: Some(at), entry: None, name: read.name.clone() }],
                });
            }
        }
        Referent::Entry(id) => {
            let Some(theirs) = known(id) else {
                out.unknown.push(Unvouched { name: read.name.clone(), read: Some(at) });
                out.vouched = false;
                return;
            };
            out.vouched &= theirs.vouched;
            for carried in &theirs.carried {
                let step = Step { read: Some(at), entry: Some(id), name: read.name.clone() };
                let mut path = vec![step];
                path.extend(carried.path.iter().cloned());
                out.carried.push(Carried { path, ..carried.clone() });
            }
            for unknown in &theirs.unknown {
                out.unknown.push(Unvouched { name: unknown.name.clone(), read: Some(at) });
            }
        }
    }
}

/// `contains gluten` on the line itself.
fn stated_on_line(read: &Read, record: &Record, at: usize, out: &mut Allergens) {
    for (_, property) in &read.properties {
        let Property::Contains(words) = property else { continue };
        for word in words_of(record.text(*words)) {
            push_word(&word, Some(at), &read.name, out);
        }
    }
}

/// What the entry itself declares: a stock's own statement vouches for it.
fn declared(record: &Record, out: &mut Allergens) {
    for line in &record.entry.lines {
        let LineKind::Field(field) = &line.what else { continue };
        if field.key != Some(Key::Contains) {
            continue;
        }
        if let Value::Terms(terms) = &field.value {
            for term in terms {
                push_word(&fold(record.text(*term)), None, &record.name, out);
            }
        }
    }
}

fn push_word(word: &str, at: Option<usize>, name: &str, out: &mut Allergens) {
    let Some((allergen, detail)) = reference::allergen_from_word(word) else { return };
    if out.carried.iter().any(|c| c.allergen == allergen && c.certain) {
        return;
    }
    out.carried.push(Carried {
        allergen,
        detail: detail.to_owned(),
        exempt: Vec::new(),
        certain: true,
        path: vec![Step { read: at, entry: None, name: name.to_owned() }],
    });
}

fn words_of(text: &str) -> Vec<String> {
    text.split([',', ';'])
        .flat_map(|part| part.split(" and "))
        .map(fold)
        .filter(|word| !word.is_empty())
        .collect()
}

/// A stock's allergens: its own `contains:` vouches and replaces its kind's; with
/// neither it is unknown.
pub(crate) fn of_stock(record: &Record, kind: Option<u16>) -> Allergens {
    let mut out = Allergens::default();
    let stated = record.field(Key::Contains).map(|field| &field.value);
    match (stated, kind.and_then(reference::ingredient)) {
        (Some(Value::None | Value::Terms(_)), _) => {
            declared(record, &mut out);
            out.vouched = true;
        }
        (_, Some(ingredient)) => {
            out.vouched = ingredient.vouches;
            for carries in ingredient.carries {
                let name = ingredient.name.to_owned();
                out.carried.push(Carried {
                    allergen: carries.allergen,
                    detail: carries.detail.to_owned(),
                    exempt: carries.exempt.to_vec(),
                    certain: carries.certain,
                    path: vec![Step { read: None, entry: None, name }],
                });
            }
        }
        _ => out.unknown.push(Unvouched { name: record.name.to_string(), read: None }),
    }
    out
}

/// The allergens that a field of an entry lists, each with its words; words that name none too.
#[must_use]
pub fn listed(record: &Record, key: Key) -> Vec<(Option<(Allergen, &'static str)>, Span)> {
    record
        .terms(key)
        .map(|(word, span)| (reference::allergen_from_word(&fold(word)), span))
        .collect()
}
