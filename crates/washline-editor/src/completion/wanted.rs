//! What an amount is usually of: bubbles on top, bitters by the dash.

use washline_book::{Record, Referent, Workspace};
use washline_reference as reference;
use washline_reference::{Sort, Trait};
use washline_syntax::Key;
use washline_text::fold;

use super::site::Place;

/// What a stock entry is a kind of.
fn kind_of(record: &Record) -> Option<&'static reference::Ingredient> {
    let kind = record.field(Key::Kind)?;
    reference::exactly(&fold(record.text(kind.value_span)))
}

/// What an amount is usually of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Wanted {
    /// Anything.
    Any,
    /// What fills a glass up: something with bubbles.
    Bubbles,
    /// What comes by the dash.
    Bitters,
}

impl Wanted {
    /// What the amount at `place` is usually of.
    pub(super) fn at(place: &Place<'_>) -> Self {
        let words = fold(place.before);
        let mut words = words.split(' ');
        match words.next().unwrap_or_default() {
            "top" | "fill" => Self::Bubbles,
            "dash" | "dashes" => Self::Bitters,
            _ => match words.next().unwrap_or_default() {
                "dash" | "dashes" => Self::Bitters,
                _ => Self::Any,
            },
        }
    }

    /// Whether it is that.
    pub(super) fn is(self, workspace: &Workspace, means: Referent) -> bool {
        let known = match means {
            Referent::Reference(id) => reference::ingredient(id),
            Referent::Entry(id) => workspace.record(id).and_then(kind_of),
        };
        known.is_some_and(|known| self.of(known))
    }

    /// The same of an ingredient.
    pub(super) fn of(self, ingredient: &reference::Ingredient) -> bool {
        match self {
            Self::Any => true,
            Self::Bubbles => ingredient.is(Trait::Carbonated),
            Self::Bitters => ingredient.sort == Sort::Bitters,
        }
    }

    /// The less, the likelier: what any bar has at hand first; what the law restricts and what
    /// poisons last.
    pub(super) fn rank(self, ingredient: &reference::Ingredient) -> usize {
        let usual = match self {
            Self::Any => &[][..],
            Self::Bubbles => BUBBLES,
            Self::Bitters => BITTERS,
        };
        let place = usual.iter().position(|name| *name == ingredient.name);
        place.unwrap_or(usual.len() + usize::from(caution(ingredient).is_some()))
    }
}

/// Why a plant does not go into a drink as it is.
pub(super) fn caution(ingredient: &reference::Ingredient) -> Option<&'static str> {
    if ingredient.is(Trait::ToxicPlant) || ingredient.is(Trait::Poisonous) {
        return Some("poisonous");
    }
    ingredient.is(Trait::Restricted).then_some("restricted by law")
}

/// Common practice, no source.
const BUBBLES: &[&str] =
    &["soda water", "tonic water", "ginger beer", "ginger ale", "sparkling wine", "cola"];

/// Common practice, no source.
const BITTERS: &[&str] = &["aromatic bitters", "orange bitters"];
