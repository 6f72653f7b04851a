//! `[cards]`: how the house writes its cards, and what a card must say.

use washline_syntax::{EntryKind, Key as Field};

use super::keys::{Holds, Key, names, words};
use super::reader::{Entry, Fields, Reader};
use super::value::{self, Item, Read, choice, refuse};
use super::words::did_you_mean;

/// The table's keys.
pub(super) static KEYS: [Key; 6] = [
    Key {
        name: "field-order",
        what: "the order of an entry's fields; those that it leaves out may stand anywhere",
        why: "the eye finds the glass where it always is",
        holds: Holds::Words(&FIELDS),
        unset: "any order will do",
        examples: &["[\"family\", \"glass\", \"ice\", \"contains\"]"],
    },
    Key {
        name: "line-order",
        what: "the order of a drink's lines: `largest` first, `smallest` first, or a list of what \
               lines are for",
        why: "hands learn one order, and a forgotten line shows",
        holds: Holds::Words(&ORDERS),
        unset: "any order will do",
        examples: &["\"largest\"", "[\"bitters\", \"sour\", \"sweet\", \"rest\", \"spirit\"]"],
    },
    Key {
        name: "naming",
        what: "how the names of entries are written: `Title Case`, `Sentence case`, `UPPER CASE`",
        why: "one list looks like one house",
        holds: Holds::Word(&["title", "sentence", "upper"]),
        unset: "as each is written",
        examples: &["\"title\""],
    },
    Key {
        name: "drink-needs",
        what: "the fields that every drink needs",
        why: "what a new hire must be able to read off any card",
        holds: Holds::Words(&DRINK_FIELDS),
        unset: "none",
        examples: &["[\"glass\", \"contains\", \"price\"]"],
    },
    Key {
        name: "prep-needs",
        what: "the fields that every prep needs",
        why: "a prep with no yield or date can't be planned or thrown out in time",
        holds: Holds::Words(&PREP_FIELDS),
        unset: "none",
        examples: &["[\"yields\", \"keeps\"]"],
    },
    Key {
        name: "stock-needs",
        what: "the fields that every stock entry needs",
        why: "strength, pack and cost are what figures and prices rest on",
        holds: Holds::Words(&STOCK_FIELDS),
        unset: "none",
        examples: &["[\"abv\", \"pack\", \"cost\"]"],
    },
];

/// The words of every field.
pub(super) const FIELDS: [&str; Field::ALL.len()] = words(Field::ALL);
const DRINK_FIELDS: [&str; Field::of(EntryKind::Drink).len()] = words(Field::of(EntryKind::Drink));
const PREP_FIELDS: [&str; Field::of(EntryKind::Prep).len()] = words(Field::of(EntryKind::Prep));
const STOCK_FIELDS: [&str; Field::of(EntryKind::Stock).len()] = words(Field::of(EntryKind::Stock));
const ORDERS: [&str; 9] =
    ["largest", "smallest", "spirit", "liqueur", "wine", "sour", "sweet", "bitters", "rest"];

/// How the house writes its cards; what is empty or `None` it has not said.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Cards {
    /// The order of an entry's fields; those that it does not name may stand anywhere.
    pub field_order: Vec<Field>,
    /// The order of a drink's ingredient lines.
    pub line_order: Option<LineOrder>,
    /// How the names of entries are written.
    pub naming: Option<Naming>,
    /// The fields that every drink needs.
    pub drink_needs: Vec<Field>,
    /// The fields that every prep needs.
    pub prep_needs: Vec<Field>,
    /// The fields that every stock entry needs.
    pub stock_needs: Vec<Field>,
}

/// The order of a drink's ingredient lines.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LineOrder {
    /// The most of it first.
    Largest,
    /// The least of it first.
    Smallest,
    /// By what a line is for.
    Parts(Vec<DrinkPart>),
}

/// What a line is for in a drink.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum DrinkPart {
    /// Unsweetened spirit.
    Spirit,
    /// Liqueur, amaro, bitter aperitif.
    Liqueur,
    /// Wine of any kind, vermouth, sherry, beer, cider.
    Wine,
    /// What sours: lemon, lime, acids.
    Sour,
    /// What sweetens: sugar, syrup, honey, cordial.
    Sweet,
    /// Dashing bitters.
    Bitters,
    /// All else.
    Rest,
}

/// How names are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Naming {
    /// `Slate Ferry, from the Freezer`: a capital on every word but the small ones.
    Title,
    /// `Slate ferry`: a capital on the first word at least.
    Sentence,
    /// `SLATE FERRY`.
    Upper,
}

impl DrinkPart {
    /// Its word.
    #[must_use]
    pub fn word(self) -> &'static str {
        PARTS.iter().find(|(_, part)| *part == self).map_or("", |(word, _)| word)
    }
}

impl Naming {
    /// Its word.
    #[must_use]
    pub fn word(self) -> &'static str {
        NAMINGS.iter().find(|(_, naming)| *naming == self).map_or("", |(word, _)| word)
    }
}

const HELP: &str = "write `field-order = [\"family\", \"glass\"]`, `line-order = \"largest\"`, \
                    `naming = \"title\"`, `drink-needs = [\"glass\", \"contains\"]`";
const LINES: &str = "write `line-order = \"largest\"`, `\"smallest\"` or a list of \"spirit\", \
                     \"liqueur\", \"wine\", \"sour\", \"sweet\", \"bitters\", \"rest\"";
const NAMING: &str = "write `naming = \"title\"`, `\"sentence\"` or `\"upper\"`";
const FIELD: &str = "write the key of a field, such as \"glass\"";

const NAMINGS: [(&str, Naming); 3] =
    [("title", Naming::Title), ("sentence", Naming::Sentence), ("upper", Naming::Upper)];

const PARTS: [(&str, DrinkPart); 7] = [
    ("spirit", DrinkPart::Spirit),
    ("liqueur", DrinkPart::Liqueur),
    ("wine", DrinkPart::Wine),
    ("sour", DrinkPart::Sour),
    ("sweet", DrinkPart::Sweet),
    ("bitters", DrinkPart::Bitters),
    ("rest", DrinkPart::Rest),
];

/// `[cards]`
pub(super) fn cards(reader: &mut Reader, entry: Entry) -> Read<()> {
    let fields = reader.fields(entry.value, "[cards]", &names(&KEYS), HELP)?;
    let any = [EntryKind::Drink, EntryKind::Prep, EntryKind::Stock];
    let mut cards = std::mem::take(&mut reader.settings.cards);
    set_fields(reader, &fields, "field-order", &any, &mut cards.field_order);
    set_fields(reader, &fields, "drink-needs", &[EntryKind::Drink], &mut cards.drink_needs);
    set_fields(reader, &fields, "prep-needs", &[EntryKind::Prep], &mut cards.prep_needs);
    set_fields(reader, &fields, "stock-needs", &[EntryKind::Stock], &mut cards.stock_needs);
    if let Some(item) = fields.get("line-order") {
        let read = line_order(reader, item);
        cards.line_order = reader.take(read).or(cards.line_order);
        reader.say("cards.line-order".to_owned(), item);
    }
    if let Some(item) = fields.get("naming") {
        let read = choice(item, "way of naming", &NAMINGS, NAMING);
        cards.naming = reader.take(read).or(cards.naming);
        reader.say("cards.naming".to_owned(), item);
    }
    reader.settings.cards = cards;
    Ok(())
}

/// Reads the list of keys that `name` holds into `into`.
fn set_fields(
    reader: &mut Reader,
    fields: &Fields,
    name: &str,
    of: &[EntryKind],
    into: &mut Vec<Field>,
) {
    let Some(item) = fields.get(name) else { return };
    let Some(items) = reader.take(value::list(item, HELP)) else { return };
    let mut keys = Vec::new();
    for item in items {
        let read = field(item, of).and_then(|key| once(item, key, &keys));
        keys.extend(reader.take(read));
    }
    *into = keys;
    reader.say(format!("cards.{name}"), item);
}

/// The key of a field that an entry of one of the kinds has.
pub(super) fn field(item: &Item, of: &[EntryKind]) -> Read<Field> {
    let written = value::text(item, FIELD)?;
    let has = |key: Field| of.iter().any(|kind| Field::of(*kind).contains(&key));
    let Some(key) = Field::from_word(written) else {
        let words = Field::ALL.iter().filter(|key| has(**key)).map(|key| key.word());
        let help = did_you_mean(written, words, FIELD);
        return refuse(item, format!("no field is called `{written}`"), help);
    };
    if !has(key) {
        let kinds: Vec<&str> = of.iter().map(|kind| kind_name(*kind)).collect();
        let message = format!("a {} has no `{}:`", kinds.join(" or "), key.word());
        return refuse(item, message, FIELD);
    }
    Ok(key)
}

const fn kind_name(kind: EntryKind) -> &'static str {
    match kind {
        EntryKind::Drink => "drink",
        EntryKind::Prep => "prep",
        _ => "stock entry",
    }
}

fn line_order(reader: &mut Reader, item: &Item) -> Read<LineOrder> {
    let Some(items) = item.get_ref().as_array() else {
        return match value::text(item, LINES)? {
            word if word.eq_ignore_ascii_case("largest") => Ok(LineOrder::Largest),
            word if word.eq_ignore_ascii_case("smallest") => Ok(LineOrder::Smallest),
            word => {
                let help = did_you_mean(word, ["largest", "smallest"], LINES);
                refuse(item, format!("`{word}` is no order of lines"), help)
            }
        };
    };
    let mut parts = Vec::new();
    for item in items.iter() {
        let read = choice(item, "part of a drink", &PARTS, LINES)
            .and_then(|part| once(item, part, &parts));
        parts.extend(reader.take(read));
    }
    Ok(LineOrder::Parts(parts))
}

/// Refuses what the list has already.
fn once<T: PartialEq>(item: &Item, value: T, before: &[T]) -> Read<T> {
    if before.contains(&value) {
        let written = item.get_ref().as_str().unwrap_or_default();
        return refuse(
            item,
            format!("`{written}` stands in the list twice"),
            "keep one of the two",
        );
    }
    Ok(value)
}

#[cfg(test)]
mod tests {
    use super::super::checks::{KNOWN, right, wrong};
    use super::super::read_over;
    use super::*;

    #[test]
    fn cards_are_lists_and_words() {
        let cards = right(
            "[cards]\nfield-order = ['Family', 'glass', 'free from']\nline-order = 'Largest'\n\
             naming = 'title'\ndrink-needs = ['glass']\nprep-needs = ['yields', 'keeps']\n\
             stock-needs = ['abv']",
        )
        .cards;
        assert_eq!(cards.field_order, [Field::Family, Field::Glass, Field::FreeFrom]);
        assert_eq!(cards.line_order, Some(LineOrder::Largest));
        assert_eq!(cards.naming, Some(Naming::Title));
        assert_eq!(cards.drink_needs, [Field::Glass]);
        assert_eq!(cards.prep_needs, [Field::Yields, Field::Keeps]);
        assert_eq!(cards.stock_needs, [Field::Abv]);
        assert_eq!(right("").cards, Cards::default());
    }

    #[test]
    fn lines_stand_by_their_part_too() {
        let cards = right("[cards]\nline-order = ['bitters', 'sour', 'rest', 'spirit']").cards;
        let parts = [DrinkPart::Bitters, DrinkPart::Sour, DrinkPart::Rest, DrinkPart::Spirit];
        assert_eq!(cards.line_order, Some(LineOrder::Parts(parts.to_vec())));
    }

    #[test]
    fn a_venue_changes_one_key_and_keeps_the_groups() {
        let group = right("[cards]\nnaming = 'title'\ndrink-needs = ['glass', 'contains']");
        let both =
            read_over(group, "[cards]\ndrink-needs = ['glass', 'price']", &KNOWN).unwrap().cards;
        assert_eq!(both.naming, Some(Naming::Title));
        assert_eq!(both.drink_needs, [Field::Glass, Field::Price]);
    }

    #[test]
    fn wrong_cards_point_at_themselves() {
        wrong(
            "[cards]\nfield-order = ['glas', 'ice', 'Ice']\nline-order = 'largst'\n\
             naming = 'tittle'\ndrink-needs = ['yields']\nprep-needs = 'keeps'\n\
             stock-needs = [1]\nneeds = []",
            &[
                ("'glas'", "no field is called `glas`", "did you mean `glass`?"),
                ("'Ice'", "`Ice` stands in the list twice", "keep one"),
                ("'largst'", "`largst` is no order of lines", "did you mean `largest`?"),
                ("'tittle'", "`tittle` is no way of naming", "did you mean `title`?"),
                ("'yields'", "a drink has no `yields:`", "such as \"glass\""),
                ("'keeps'", "words in quotes stand where a list in [ ] should", "drink-needs"),
                ("1", "a number stands where words in quotes should", "key of a field"),
                ("needs", "`needs` is no key of [cards]", "the keys are field-order"),
            ],
        );
        wrong(
            "[cards]\nline-order = ['spirits']\n[[folder]]\npath = 'a'\nnaming = 'title'",
            &[
                ("'spirits'", "`spirits` is no part of a drink", "did you mean `spirit`?"),
                ("naming", "`naming` is no key of [[folder]]", "`naming` goes under [cards]"),
            ],
        );
    }
}
