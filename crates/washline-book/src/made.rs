//! What was made of an entry.

use std::sync::Arc;

use rustc_hash::FxHashSet;
use washline_measure::Measure;
use washline_reference::Glass;
use washline_syntax::{Entry, Field, Key, LineKind, Property, Value, property};
use washline_text::{Kind, Span, fold};

use crate::cost::Price;
use crate::{Allergens, EntryId, Families, Figures, Makes, Makeup, Method, Read, Room};

/// What was made of an entry: all that does not hang on where in its file it stands.
#[derive(Clone, Debug)]
pub struct Made {
    /// The entry as read.
    pub entry: Arc<Entry>,
    /// Drink, prep or stock.
    pub kind: Kind,
    /// Its name as written.
    pub name: Arc<str>,
    /// Its name folded.
    pub key: Box<str>,
    /// The book it belongs to, folded; none where its file names none.
    pub book: Option<Arc<str>>,
    /// Whether a line of it lets off a rule.
    pub waives: bool,
    /// `status: draft`.
    pub draft: bool,
    /// `status: retired`.
    pub retired: bool,
    /// How many serves its lines make.
    pub serves: f64,
    /// Its ingredient lines as read, in order.
    pub reads: Vec<Read>,
    /// Its garnishes as read.
    pub garnishes: Vec<Read>,
    /// What its steps do.
    pub method: Method,
    /// Whether a line could not be read, or an ingredient is unknown: no figures then.
    pub unread: bool,
    /// The families whose bands hold.
    pub families: Families,
    /// The glass and its capacity at the brim, ml.
    pub glass: Option<(&'static Glass, f64)>,
    /// What is in the glass against what the glass holds; none where one is not known.
    pub room: Option<Room>,
    /// Its figures.
    pub figures: Figures,
    /// The allergens it carries, and where from.
    pub allergens: Allergens,
    /// What one unit of it is made of, for what pours it; none for drinks.
    pub makeup: Option<Arc<Makeup>>,
    /// Of a prep, all that it makes as computed from its lines, before what was measured overrules.
    pub makes: Option<Makes>,
    /// Preps and stock that it uses, each once.
    pub uses: Vec<EntryId>,
    /// Every reference ingredient that it reaches, through preps too, each with the place of
    /// the line (garnishes follow the lines) through which.
    pub reaches: Vec<(u16, usize)>,
    /// The reference ingredient that a stock entry is of.
    pub(crate) sort: Option<u16>,
    /// Millilitres of one dash and of one pack of a stock entry.
    pub(crate) sizes: (Option<f64>, Option<f64>),
    /// What a unit of a prep or stock entry costs.
    pub(crate) price: Option<Price>,
    /// The names that its lines looked up, by their hashes, sorted.
    pub(crate) asked: Box<[u64]>,
}

impl Made {
    /// An entry not yet composed.
    pub(crate) fn head(entry: Arc<Entry>, kind: Kind, book: Option<Arc<str>>) -> Self {
        let name = entry.name.text(&entry.text);
        let mut made = Self {
            kind,
            name: Arc::from(name),
            key: fold(name).into_boxed_str(),
            book,
            waives: false,
            draft: false,
            retired: false,
            serves: 1.0,
            reads: Vec::new(),
            garnishes: Vec::new(),
            method: Method::default(),
            unread: false,
            families: Families::default(),
            glass: None,
            room: None,
            figures: Figures::default(),
            allergens: Allergens::default(),
            makeup: None,
            makes: None,
            uses: Vec::new(),
            reaches: Vec::new(),
            sort: None,
            sizes: (None, None),
            price: None,
            asked: Box::default(),
            entry,
        };
        let says = |made: &Self, word: &str| {
            made.terms(Key::Status).any(|(status, _)| fold(status) == word)
        };
        made.waives = made.field(Key::Waive).is_some();
        made.draft = says(&made, "draft");
        made.retired = says(&made, "retired");
        if let Some(Value::Count(serves)) = made.field(Key::Serves).map(|field| &field.value) {
            made.serves = serves.middle().to_f64().max(1.0);
        }
        made
    }

    /// Whether a line of it looked up one of `names`, given by their hashes.
    pub(crate) fn asks_any(&self, names: &FxHashSet<u64>) -> bool {
        self.asked.iter().any(|name| names.contains(name))
    }

    /// Whether all that an entry which uses it sees of it is as in `other`.
    pub(crate) fn serves_alike(&self, other: &Self) -> bool {
        self.kind == other.kind
            && self.name == other.name
            && self.makeup == other.makeup
            && self.sort == other.sort
            && self.sizes == other.sizes
            && self.price == other.price
            && self.allergens == other.allergens
            && self.reaches == other.reaches
            && self.terms(Key::Also).map(|(also, _)| also).eq(other.terms(Key::Also).map(|t| t.0))
    }

    /// A drink on the list that says what it contains, be it nothing.
    pub(crate) fn declares(&self) -> bool {
        let says =
            self.fields(Key::Contains).any(|f| matches!(f.value, Value::None | Value::Terms(_)));
        self.kind == Kind::Drink && !self.retired && says
    }

    /// The text of a span of its entry.
    #[must_use]
    pub fn text(&self, span: Span) -> &str {
        span.text(&self.entry.text)
    }

    /// The first field with `key`.
    #[must_use]
    pub fn field(&self, key: Key) -> Option<&Field> {
        self.fields(key).next()
    }

    /// All fields with `key`.
    pub fn fields(&self, key: Key) -> impl Iterator<Item = &Field> {
        self.entry.lines.iter().filter_map(move |line| match &line.what {
            LineKind::Field(field) if field.key == Some(key) => Some(field.as_ref()),
            _ => None,
        })
    }

    /// The number that the field `key` states.
    #[must_use]
    pub fn number(&self, key: Key) -> Option<f64> {
        match &self.field(key)?.value {
            Value::Number(number) => Some(number.to_f64()),
            _ => None,
        }
    }

    /// The amount that the field `key` states.
    #[must_use]
    pub fn amount(&self, key: Key) -> Option<Measure> {
        match &self.field(key)?.value {
            Value::Amount(measure, _) => Some(*measure),
            _ => None,
        }
    }

    /// The sugar to water that its name states: `2:1`, or 2 for `rich`; and whether by volume.
    #[must_use]
    pub fn ratio_in_name(&self) -> Option<(f64, bool)> {
        let stated = property::scan(&self.name).into_iter().find_map(|(_, property)| {
            let Property::Ratio { sugar, water, by_volume } = property else { return None };
            Some((sugar.to_f64() / water.to_f64(), by_volume))
        });
        let rich = || self.key.split(' ').any(|word| word == "rich").then_some((2.0, false));
        stated.filter(|(ratio, _)| ratio.is_finite()).or_else(rich)
    }

    /// Whether the card says which glass: in its field, or where a step goes into one.
    #[must_use]
    pub fn says_glass(&self) -> bool {
        self.field(Key::Glass).is_some()
            || self.method.acts.iter().any(|act| self.pours_into_a_glass(act))
    }

    /// `strain into a chilled coupe`, `build in a highball glass`
    fn pours_into_a_glass(&self, act: &crate::ActRead) -> bool {
        let words = washline_text::fold(self.text(act.span()));
        let vessel = [" into ", " in "].iter().find_map(|into| words.rsplit_once(into));
        vessel.is_some_and(|(_, vessel)| crate::glass::find(vessel).is_some())
    }

    /// The words that the field `key` lists, as written.
    pub fn terms(&self, key: Key) -> impl Iterator<Item = (&str, Span)> {
        let fields = self.fields(key).filter_map(|field| match &field.value {
            Value::Terms(terms) => Some(terms),
            _ => None,
        });
        fields.flatten().map(|span| (self.text(*span), *span))
    }
}
