//! One entry of the workspace with everything that was made of it.

use std::sync::Arc;

use washline_measure::Measure;
use washline_reference::Glass;
use washline_syntax::{Entry, Field, Key, LineKind, Property, Value, property};
use washline_text::{FileId, Kind, Place, Span};

use crate::{Allergens, Families, Figures, Makes, Makeup, Method, Read, Room};

/// A drink, prep or stock entry, by its place in the workspace's list.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct EntryId(pub u32);

/// An entry as the workspace knows it.
#[derive(Clone, Debug)]
pub struct Record {
    /// Its place in the list.
    pub id: EntryId,
    /// Its file.
    pub file: FileId,
    /// The byte of the file at which it starts.
    pub start: u32,
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
}

impl Record {
    /// Bytes of its entry as a place in its file.
    #[must_use]
    pub const fn place(&self, span: Span) -> Place {
        Place { file: self.file, span: span.shift(self.start) }
    }

    /// The place of its name; of its heading where the name is empty.
    #[must_use]
    pub fn name_place(&self) -> Place {
        if self.entry.name.is_empty() {
            let line = self.entry.lines.first().map_or(Span::at(0), |line| line.content);
            return self.place(line);
        }
        self.place(self.entry.name)
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
