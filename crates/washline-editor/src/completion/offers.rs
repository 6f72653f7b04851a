//! The words on offer, matched against what was typed and put in order.

use washline_text::{Span, fold};

use super::site::Place;
use super::{Item, ItemKind};
use crate::Topic;
use crate::fuzzy::distance;

/// Items of one nearness to what was typed are put in the order they are offered in, up to so many.
const ORDER: u32 = 100_000;

/// A word that may be written.
pub(super) struct Word<'w> {
    /// The word, as it is written.
    pub label: &'w str,
    /// A few words beside it; some clients show their frame though they are empty.
    pub detail: String,
    /// What it is.
    pub kind: ItemKind,
    /// What can be told about it.
    pub topic: Option<Topic>,
}

impl<'w> Word<'w> {
    /// A word of which there is no more to tell than `detail`.
    pub(super) fn plain(label: &'w str, detail: &str) -> Self {
        Self { label, detail: detail.to_owned(), kind: ItemKind::Word, topic: None }
    }
}

/// The amounts that names open a line with.
#[derive(Clone, Copy, Debug)]
pub(super) struct Lead {
    /// Of what is poured.
    pub poured: &'static str,
    /// Of what is weighed.
    pub weighed: &'static str,
}

/// How a bar takes an ingredient.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Comes {
    /// By the piece.
    Whole,
    /// By volume.
    Poured,
    /// By mass.
    Weighed,
}

/// What is on offer at a place.
pub(super) struct Offers {
    typed: String,
    span: Span,
    plural: bool,
    /// What a name opens a line with.
    lead: Option<Lead>,
    /// Whether a blank is missing before what is offered: `glass:`.
    close: bool,
    /// Whether what was typed to the letter comes before what it is the start of.
    exact_first: bool,
    items: Vec<Item>,
}

impl Offers {
    /// Nothing yet; `typed` are the letters before the cursor that an item replaces.
    pub(super) fn new(place: &Place<'_>, typed: &str) -> Self {
        let start = place.offset.saturating_sub(length(typed));
        let span = Span::new(start, place.offset + length(place.rest_of_word()));
        let plural = place.above_one(typed);
        let before = place.before.strip_suffix(typed).unwrap_or_default();
        let close = before.ends_with([':', ',', ';']);
        Self {
            typed: fold(typed),
            span,
            plural,
            lead: None,
            close,
            exact_first: true,
            items: Vec::new(),
        }
    }

    /// The same, for a place where a line opens: a name comes with its amount.
    pub(super) fn open_with(&mut self, lead: Lead) {
        self.lead = Some(lead);
    }

    /// Offers the name of an ingredient; where a line opens, behind an amount to write over.
    pub(super) fn name(&mut self, word: Word<'_>, comes: Comes) {
        let Some(lead) = self.lead else { return self.word(word) };
        // A snippet has no way to say these that all clients read.
        if word.label.contains(['$', '}', '\\']) {
            return;
        }
        let amount = match comes {
            Comes::Whole => "1",
            Comes::Poured => lead.poured,
            Comes::Weighed => lead.weighed,
        };
        let text = format!("${{1:{amount}}} {}", word.label);
        self.push(word, text, true);
    }

    /// From now on what was typed to the letter comes behind what was offered: `22.5 ml lime` is
    /// lime juice.
    pub(super) fn prefer_no_exact(&mut self) {
        self.exact_first = false;
    }

    /// Whether the number before the cursor is above one.
    pub(super) const fn plural(&self) -> bool {
        self.plural
    }

    /// Offers a word that is written as it is shown.
    pub(super) fn word(&mut self, word: Word<'_>) {
        let text = word.label.to_owned();
        self.push(word, text, false);
    }

    /// Offers a word that stands for `text`.
    pub(super) fn text(&mut self, word: Word<'_>, text: String) {
        self.push(word, text, false);
    }

    /// Offers a word that stands for `text` with tab stops.
    pub(super) fn snippet(&mut self, word: Word<'_>, text: &str) {
        self.push(word, text.to_owned(), true);
    }

    /// How well a word fits what was typed; none where it does not. Less is better.
    pub(super) fn fit(&self, word: &str) -> Option<u32> {
        self.fit_folded(&fold(word))
    }

    /// The same of a word that is folded.
    pub(super) fn fit_folded(&self, key: &str) -> Option<u32> {
        distance(&self.typed, key)
    }

    /// All items, the likeliest first.
    pub(super) fn ranked(mut self) -> Vec<Item> {
        self.items.sort_by_key(|item| item.rank);
        self.items
    }

    fn push(&mut self, word: Word<'_>, text: String, snippet: bool) {
        let Some(distance) = self.fit(word.label) else { return };
        let order = u32::try_from(self.items.len()).unwrap_or(ORDER).min(ORDER - 1);
        let exact = u32::from(distance != 0 || !self.exact_first);
        let text = if self.close { format!(" {text}") } else { text };
        self.items.push(Item {
            label: word.label.to_owned(),
            detail: word.detail,
            kind: word.kind,
            span: self.span,
            text,
            snippet,
            rank: (distance / 100 + exact).saturating_mul(ORDER) + order,
            topic: word.topic,
        });
    }
}

fn length(text: &str) -> u32 {
    u32::try_from(text.len()).unwrap_or(u32::MAX)
}
