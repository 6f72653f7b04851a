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
    /// Of sulphites, whether the figures know how much of them comes this way; what they do
    /// not know may be above any limit.
    pub measured: bool,
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

impl Carried {
    /// Whether `market` asks to declare it: the kind is on its list, its law exempts no such
    /// thing, and sulphites reach its quantity in the finished drink, mg/l. What is not known
    /// counts.
    #[must_use]
    pub fn counts_in(&self, market: Market, sulphites_mg_per_l: Option<f64>) -> bool {
        let known = sulphites_mg_per_l.filter(|_| self.measured);
        let enough = self.allergen != Allergen::Sulphites
            || known.is_none_or(|mg| market.sulphite_threshold().is_reached(mg));
        enough
            && market.declares_kind(self.allergen, &self.detail)
            && !self.exempt.contains(&market)
    }

    /// Whether it comes through a line or a garnish; else the entry only declares it.
    #[must_use]
    pub fn is_poured(&self) -> bool {
        self.path.first().is_some_and(|step| step.read.is_some())
    }
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
        self.carried.iter().filter(move |carried| carried.counts_in(market, sulphites_mg_per_l))
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
    declared(record, false, &mut out);
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
                    measured: in_the_figures(read) && ingredient.sulphites.is_some(),
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
                let measured = carried.measured && in_the_figures(read);
                out.carried.push(Carried { path, measured, ..carried.clone() });
            }
            for unknown in &theirs.unknown {
                out.unknown.push(Unvouched { name: unknown.name.clone(), read: Some(at) });
            }
        }
    }
}

/// Whether the figures count what the line holds: a garnish or what is served beside they do not.
const fn in_the_figures(read: &Read) -> bool {
    read.counted && !read.vague
}

/// `contains gluten` on the line itself.
fn stated_on_line(read: &Read, record: &Record, at: usize, out: &mut Allergens) {
    for (_, property) in &read.properties {
        let Property::Contains(words) = property else { continue };
        for word in words_of(record.text(*words)) {
            push_word(&word, Some(at), &read.name, false, out);
        }
    }
}

/// What the entry itself declares; `measured` says that its sulphites are known by quantity.
fn declared(record: &Record, measured: bool, out: &mut Allergens) {
    for line in &record.entry.lines {
        let LineKind::Field(field) = &line.what else { continue };
        if field.key != Some(Key::Contains) {
            continue;
        }
        if let Value::Terms(terms) = &field.value {
            for term in terms {
                push_word(&fold(record.text(*term)), None, &record.name, measured, out);
            }
        }
    }
}

/// Adds what a word declares, unless the same is there already in every market and always.
fn push_word(word: &str, at: Option<usize>, name: &str, measured: bool, out: &mut Allergens) {
    for (allergen, detail) in named_by(word) {
        push(allergen, detail, at, name, measured, out);
    }
}

fn push(
    allergen: Allergen,
    detail: &str,
    at: Option<usize>,
    name: &str,
    measured: bool,
    out: &mut Allergens,
) {
    let known = |c: &Carried| {
        let kind = c.detail.is_empty() || c.detail == detail;
        c.allergen == allergen && kind && c.certain && c.exempt.is_empty()
    };
    let quantity = |c: &Carried| allergen != Allergen::Sulphites || measured || !c.measured;
    if out.carried.iter().any(|c| known(c) && (at.is_none() || quantity(c))) {
        return;
    }
    out.carried.push(Carried {
        allergen,
        detail: detail.to_owned(),
        exempt: Vec::new(),
        certain: true,
        measured,
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
        (Some(Value::None | Value::Terms(_)), known) => {
            let measured = known.is_some_and(|ingredient| ingredient.sulphites.is_some());
            declared(record, measured, &mut out);
            // A word that names no allergen may stand for one: then nothing is vouched for.
            out.vouched = listed(record, Key::Contains).iter().all(|(known, _)| known.is_some());
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
                    measured: ingredient.sulphites.is_some(),
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
    let mut out = Vec::new();
    for (words, span) in record.terms(key) {
        let named = named_by(&fold(words));
        if named.is_empty() {
            out.push((None, span));
        }
        out.extend(named.into_iter().map(|one| (Some(one), span)));
    }
    out
}

/// The allergens that folded words name, each with its kind, as labels write them too:
/// `gluten (barley, rye)`. Empty where they name none.
#[must_use]
pub fn named_by(folded: &str) -> Vec<(Allergen, &'static str)> {
    let of = |word: &str| reference::allergen_from_word(word.trim());
    if let Some(one) = of(folded) {
        return vec![one];
    }
    let Some((general, kinds)) = folded.split_once('(') else { return Vec::new() };
    let kinds: Option<Vec<_>> = kinds.trim_end_matches([')', ' ']).split(',').map(of).collect();
    kinds.unwrap_or_else(|| of(general).into_iter().collect())
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use washline_reference::{Allergen, Market};

    use crate::{Settings, Workspace};

    /// What the first entry of `text` must declare in `market`: allergen and kind.
    fn must(text: &str, market: Market) -> Vec<(Allergen, String)> {
        let files = vec![(Arc::from("book.pour"), Arc::from(text))];
        let workspace = Workspace::new(files, Settings::default());
        let record = workspace.records().first().unwrap();
        let mg = record.figures.sulphites_mg_per_l;
        let counts = record.allergens.in_market(market, mg);
        counts.map(|c| (c.allergen, c.detail.clone())).collect()
    }

    #[test]
    fn one_kind_does_not_hide_another() {
        let text = "drink: A\n  30 ml Ox\n\nstock: Ox\n  contains: coconut, almond\n";
        assert_eq!(must(text, Market::Us), [(Allergen::Nuts, "almond".to_owned())]);
    }

    #[test]
    fn kinds_may_stand_in_brackets() {
        let text = "stock: Ox\n  contains: nuts (almond, hazelnut), gluten (barley)\n";
        let kinds: Vec<String> = must(text, Market::Eu).into_iter().map(|(_, kind)| kind).collect();
        assert_eq!(kinds, ["almond", "hazelnut", "barley"]);
    }

    #[test]
    fn a_dash_of_wine_stays_below_the_quantity() {
        let text = "drink: A\n  60 ml gin\n  1 ml dry vermouth\n  - stir with ice for 20 s\n";
        assert_eq!(must(text, Market::Eu), []);
    }

    #[test]
    fn sulphites_of_unknown_quantity_count() {
        let text = "drink: A\n  60 ml gin\n  1 ml Ox\n  - stir with ice for 20 s\n\n\
            stock: Ox\n  kind: gin\n  contains: sulphites\n";
        assert_eq!(must(text, Market::Eu), [(Allergen::Sulphites, String::new())]);
        let side = "drink: A\n  60 ml gin\n  5 ml white wine, on the side\n  - stir with ice\n";
        assert_eq!(must(side, Market::Eu), [(Allergen::Sulphites, String::new())]);
    }
}
