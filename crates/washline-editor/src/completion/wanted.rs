//! What an amount is usually of: bubbles on top, bitters by the dash, what flows by volume.

use washline_book::{Record, Referent, Workspace};
use washline_measure::{Unit, UnitKind};
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
    /// What comes by volume.
    Poured,
    /// What comes by mass.
    Weighed,
    /// What is juiced, peeled or zested: a fruit.
    Fruit,
}

impl Wanted {
    /// What the amount at `place` is usually of.
    pub(super) fn at(place: &Place<'_>) -> Self {
        let words = fold(place.before);
        let words = words.split([' ', '(', ')']);
        // `30ml` has its unit behind its digits.
        let mut words = words.map(|word| word.trim_start_matches(|c: char| !c.is_alphabetic()));
        match words.find(|word| !word.is_empty()).unwrap_or_default() {
            "top" | "fill" => Self::Bubbles,
            "dash" | "dashes" => Self::Bitters,
            "rinse" | "float" | "mist" | "drop" | "drops" => Self::Poured,
            "rim" | "pinch" => Self::Weighed,
            "juice" | "zest" | "peel" => Self::Fruit,
            word => match Unit::from_words(word).map(Unit::kind) {
                Some(UnitKind::Metric | UnitKind::Customary) => Self::Poured,
                Some(UnitKind::Mass) => Self::Weighed,
                _ => Self::Any,
            },
        }
    }

    /// Whether it is that.
    pub(super) fn is(self, workspace: &Workspace, means: Referent) -> bool {
        let record = match means {
            Referent::Reference(id) => {
                return reference::ingredient(id).is_some_and(|known| self.of(known));
            }
            Referent::Entry(id) => workspace.record(id),
        };
        let Some(record) = record else { return false };
        let makeup = record.makeup.as_ref();
        match self {
            Self::Poured => makeup.is_none_or(|makeup| makeup.liquid),
            Self::Weighed => makeup.is_some_and(|makeup| !makeup.liquid),
            _ => kind_of(record).is_some_and(|known| self.of(known)),
        }
    }

    /// The same of an ingredient.
    pub(super) fn of(self, ingredient: &reference::Ingredient) -> bool {
        match self {
            Self::Any => true,
            Self::Bubbles => ingredient.is(Trait::Carbonated),
            Self::Bitters => ingredient.sort == Sort::Bitters,
            Self::Poured => ingredient.liquid,
            Self::Weighed => !ingredient.liquid || WEIGHED.contains(&ingredient.name),
            Self::Fruit => FRUITS.contains(&ingredient.name),
        }
    }

    /// The less, the likelier: what any bar has at hand first; what the law restricts and what
    /// poisons last.
    pub(super) fn rank(self, ingredient: &reference::Ingredient) -> usize {
        let usual = match self {
            Self::Any => &[][..],
            Self::Bubbles => BUBBLES,
            Self::Bitters => BITTERS,
            Self::Poured => POURED,
            Self::Weighed => WEIGHED,
            Self::Fruit => FRUITS,
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

/// Common practice, no source.
const FRUITS: &[&str] =
    &["lime", "lemon", "orange", "grapefruit", "pineapple", "blood orange", "yuzu"];

/// Common practice, no source.
const WEIGHED: &[&str] = &[
    "caster sugar",
    "water",
    "demerara sugar",
    "salt",
    "citric acid",
    "malic acid",
    "tartaric acid",
    "honey",
    "butter",
    "fresh ginger",
    "cinnamon stick",
    "coffee beans",
    "strawberry",
    "raspberry",
    "pear",
    "pineapple",
];

/// Common practice, no source.
const POURED: &[&str] = &[
    "gin",
    "vodka",
    "white rum",
    "aged rum",
    "bourbon",
    "rye whiskey",
    "blanco tequila",
    "mezcal",
    "cognac",
    "dry vermouth",
    "sweet vermouth",
    "triple sec",
    "red bitter aperitif",
    "coffee liqueur",
    "maraschino liqueur",
    "absinthe",
    "lime juice",
    "lemon juice",
    "orange juice",
    "grapefruit juice",
    "pineapple juice",
    "apple juice",
    "cranberry juice",
    "sugar syrup",
    "honey syrup",
    "demerara syrup",
    "agave syrup",
    "ginger syrup",
    "raspberry syrup",
    "almond syrup",
    "grenadine",
    "egg white",
    "cream",
    "milk",
    "soda water",
    "water",
    "espresso",
    "tea",
    "cider vinegar",
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::completion::tests::labels;

    #[test]
    fn what_any_bar_has_at_hand_is_known_by_that_name() {
        let all = [POURED, WEIGHED, FRUITS, BUBBLES, BITTERS].concat();
        let unknown: Vec<_> = all
            .into_iter()
            .filter(|name| !reference::ingredients().iter().any(|known| known.name == *name))
            .collect();
        assert_eq!(unknown, [""; 0]);
        let fits = |wanted: Wanted, names: &[&str]| {
            let known = names.iter().filter_map(|name| reference::exactly(name));
            known.filter(|known| !wanted.of(known)).map(|known| known.name).collect::<Vec<_>>()
        };
        assert_eq!(fits(Wanted::Poured, POURED), [""; 0]);
        assert_eq!(fits(Wanted::Weighed, WEIGHED), [""; 0]);
    }

    #[test]
    fn what_flows_comes_by_volume_and_what_does_not_by_mass() {
        let first = |line: &str| labels(&format!("drink: A\n  {line}|\n")).swap_remove(0);
        assert_eq!(first("30 ml lem"), "lemon juice");
        assert_eq!(first("30ml gi"), "gin");
        assert_eq!(first("3/4 oz pin"), "pineapple juice");
        assert_eq!(first("30 ml (1 oz) al"), "almond syrup");
        assert_eq!(first("200 g cas"), "caster sugar");
        assert_eq!(first("10 g mal"), "malic acid");
        assert_eq!(first("rim (half) sa"), "salt");
        assert_eq!(first("juice of 1 le"), "lemon");
        assert_eq!(first("100 g wa"), "water");
        assert_eq!(first("22.5 ml lime"), "lime juice");
        assert_eq!(first("1 lime"), "lime");
    }

    #[test]
    fn the_houses_own_liquids_come_before_a_fruit_of_that_name() {
        let prep = "prep: Basil Cordial\n  300 ml water\n\n";
        assert_eq!(labels(&format!("{prep}drink: A\n  15 ml bas|\n"))[0], "Basil Cordial");
        assert_eq!(labels(&format!("{prep}prep: B\n  15 g bas|\n"))[0], "basil");
    }
}
