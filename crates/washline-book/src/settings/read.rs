//! `washline.toml`, read.
//!
//! Words are read in any case; a number stands for the unit of its key, and words in
//! quotes may say another (`"3/4 oz"`, `"45 %"`, `"0 F"`).

use toml::de::DeTable;

use super::keys::{Dimension, Holds, Key, Names, is_fixed};
use super::reader::{Entry, Reader};
use super::value::Read;
use super::{
    Settings, SettingsError, bands, bar, cards, expect, folders, house, jiggers, layout, limits,
    paths, severities, syntax, techniques, temperatures, units,
};

/// The names that a caller knows and a file may speak of.
#[derive(Clone, Copy, Debug)]
pub struct Known<'a> {
    /// The rules.
    pub rules: &'a [&'a str],
    /// The families of drinks.
    pub families: &'a [&'a str],
    /// The techniques that have a dilution.
    pub techniques: &'a [&'a str],
}

/// Reads the text of a `washline.toml`.
///
/// # Errors
///
/// All that is wrong, in file order, each pointing at the words concerned. Where the text
/// is no TOML, only that is told.
pub fn read(text: &str, known: &Known) -> Result<Settings, Vec<SettingsError>> {
    read_over(Settings::default(), text, known)
}

/// Reads the text of a `washline.toml` that [extends](Settings::extends) another, whose
/// settings `parent` holds: a key replaces the parent's, a table adds to it. Only
/// [`Settings::said`] and [`Settings::extends`] are this text's alone.
///
/// # Errors
///
/// As [`read`].
pub fn read_over(
    parent: Settings,
    text: &str,
    known: &Known,
) -> Result<Settings, Vec<SettingsError>> {
    let table = syntax::parse(text)?;
    let mut reader = Reader::new(known, Settings { extends: None, said: [].into(), ..parent });
    top(&mut reader, table.get_ref());
    reader.finish()
}

/// Reads the value of one key.
type ReadKey = fn(&mut Reader, Entry) -> Read<()>;

/// The keys, in the order in which they are read: what is an ounce before what is
/// measured in ounces.
pub(super) static KEYS: [(Key, ReadKey); 20] = [
    (
        Key {
            name: "market",
            what: "the markets whose law holds",
            why: "allergens, claims and limits are those of the law where the drink is sold",
            holds: Holds::Words(&house::MARKETS),
            unset: "the allergens of all markets, and no rule of one market alone; a book may say \
                    its own under `market:`",
            examples: &["\"eu\"", "[\"uk\", \"eu\"]"],
        },
        house::market,
    ),
    (
        Key {
            name: "ounce",
            what: "what an ounce is; spoons, cup and pint go with it",
            why: "29.6, 28.4 and 30 ml are three drinks",
            holds: Holds::Ounce,
            unset: "\"us\", 29.5735 ml",
            examples: &["\"30 ml\"", "\"us\"", "\"imperial\""],
        },
        house::ounce,
    ),
    (
        Key {
            name: "second-unit",
            what: "the unit of the second measure, in brackets",
            why: "a card for two markets says both, and each is checked against the other",
            holds: Holds::Unit(is_fixed),
            unset: "none is asked for",
            examples: &["\"oz\""],
        },
        house::second_unit,
    ),
    (
        Key {
            name: "default-syrup",
            what: "what a bare \"sugar syrup\" is: parts of sugar to one of water, by weight",
            why: "a rich syrup in place of a simple one is half as much sugar again",
            holds: Holds::Proportion(house::SYRUPS.0, house::SYRUPS.1),
            unset: "1:1, with its high bound at 2:1",
            examples: &["\"2:1\"", "1.5"],
        },
        house::default_syrup,
    ),
    (
        Key {
            name: "jiggers",
            what: "the jiggers on the mat, and the marks inside them",
            why: "`no-jigger` then finds what nobody can pour, and mends are amounts that can be",
            holds: Holds::Jiggers(jiggers::SIZES.0, jiggers::SIZES.1),
            unset: "any amount can be poured",
            examples: &["[25, 50, { size = \"2 oz\", marks = [\"1/2 oz\"] }]"],
        },
        jiggers::jiggers,
    ),
    (
        Key {
            name: "pairs",
            what: "millilitres and ounces that the house holds equal, at most 25 % apart",
            why: "`25 ml (3/4 oz)` is then no disagreement",
            holds: Holds::Pairs,
            unset: "the pairs that bars hold equal: 25 ml for 3/4 oz, 20 ml for 2/3 and 3/4, \
                    40 ml for 1 1/2, 50 ml for 1 3/4 and 1 2/3",
            examples: &["[[\"25 ml\", \"3/4 oz\"]]"],
        },
        jiggers::pairs,
    ),
    (
        Key {
            name: "exclude",
            what: "paths that are left out, from the file's folder",
            why: "drafts and archives are not the house's books",
            holds: Holds::Paths,
            unset: "nothing is left out but what ignore files name",
            examples: &["[\"archive/\", \"*.draft.pour\"]", "\"archive/\""],
        },
        paths::exclude,
    ),
    (
        Key {
            name: "extends",
            what: "the file whose settings this one starts from; what this one says replaces them",
            why: "a group's bars share one standard, and a venue says only what differs",
            holds: Holds::Path,
            unset: "the file stands alone",
            examples: &["\"../washline.toml\""],
        },
        paths::extends,
    ),
    (
        Key {
            name: "units",
            what: "the house's unit by kind",
            why: "one unit a kind keeps a line from being misread at speed",
            holds: Holds::Table(&units::KEYS),
            unset: "any unit will do; a book may say its own under `units:`",
            examples: &["{ liquid = \"ml\" }"],
        },
        units::units,
    ),
    (
        Key {
            name: "bar",
            what: "what the bar's own measures hold, ml, with the 95 % range where it was measured",
            why: "a dash is what this bar's bottles give",
            holds: Holds::Table(&bar::KEYS),
            unset: "as the reference has them",
            examples: &["{ bar-spoon = 5 }"],
        },
        bar::bar,
    ),
    (
        Key {
            name: "layout",
            what: "how books are laid out by `washline format`",
            why: "two people's edits differ only where the drinks do",
            holds: Holds::Table(&layout::KEYS),
            unset: "each line keeps its fractions; two blanks, names in one column",
            examples: &["{ indent = 2 }"],
        },
        layout::layout,
    ),
    (
        Key {
            name: "glasses",
            what: "the capacity of each glass at the brim",
            why: "how full a drink stands hangs on the glasses that the house bought",
            holds: Holds::Named(
                Names::Glasses,
                &Holds::Amount(Dimension::Volume, bar::GLASS.0, bar::GLASS.1),
            ),
            unset: "the usual size of each glass, with its range",
            examples: &["{ coupe = \"160 ml\" }"],
        },
        bar::glasses,
    ),
    (
        Key {
            name: "temperatures",
            what: "how cold the freezer and the fridge are, how warm the back bar; each warmer \
                   than the one before",
            why: "water from ice, and what freezes, are reckoned from them",
            holds: Holds::Table(&temperatures::KEYS),
            unset: "-18, 4 and 20 °C",
            examples: &["{ freezer = -20 }"],
        },
        temperatures::temperatures,
    ),
    (
        Key {
            name: "cards",
            what: "how cards are written, and what each must say",
            why: "a card that always reads in the same order is read faster, and nothing is left out",
            holds: Holds::Table(&cards::KEYS),
            unset: "nothing is asked of a card",
            examples: &["{ naming = \"title\" }"],
        },
        cards::cards,
    ),
    (
        Key {
            name: "families",
            what: "bands of a family, and families that the house adds",
            why: "the balance rules then hold drinks to the house's own taste",
            holds: Holds::Named(Names::Families, &Holds::Table(&bands::KEYS)),
            unset: "the bands of the reference",
            examples: &["{ sour = { acid = [0.6, 1.1] } }"],
        },
        bands::families,
    ),
    (
        Key {
            name: "techniques",
            what: "the water that a technique gains, as the house measured it",
            why: "strength, sugar and acid of every drink follow from it",
            holds: Holds::Named(Names::Techniques, &Holds::Table(&techniques::KEYS)),
            unset: "the published model of each technique",
            examples: &["{ shake = { dilution = \"45 %\" } }"],
        },
        techniques::techniques,
    ),
    (
        Key {
            name: "expect",
            what: "what some entries are to have: a field, one of some words in it, or a step",
            why: "the house's own habits are held like any rule",
            holds: Holds::Tables(&expect::KEYS),
            unset: "nothing is expected",
            examples: &[
                "[{ family = \"highball\", field = \"ice\", is = [\"cubed\", \"spear\"] }]",
            ],
        },
        expect::expect,
    ),
    (
        Key {
            name: "rules",
            what: "how grave each rule is: `off`, `error`, `warning`, `information` or `hint`",
            why: "a house decides what stops a list from going out",
            holds: Holds::Named(Names::Rules, &Holds::Severity),
            unset: "each rule's own severity",
            examples: &["{ no-jigger = \"off\" }"],
        },
        severities::rules,
    ),
    (
        Key {
            name: "limits",
            what: "the most that a serve may be",
            why: "one number for all lists",
            holds: Holds::Table(&limits::KEYS),
            unset: "30 g of ethanol, a tin of 350 ml",
            examples: &["{ touches = 6 }"],
        },
        limits::limits,
    ),
    (
        Key {
            name: "folder",
            what: "what holds below one folder only",
            why: "an archive, or a list for another market, is not held to the same",
            holds: Holds::Tables(&folders::KEYS),
            unset: "the house's standards hold everywhere",
            examples: &["[{ path = \"menus/spring\", market = \"uk\" }]"],
        },
        folders::folders,
    ),
];

fn top(reader: &mut Reader, table: &DeTable) {
    let fields = reader.top(table, &KEYS.each_ref().map(|(key, _)| key.name));
    for (key, read) in &KEYS {
        if let Some(entry) = fields.entry(key.name) {
            let done = read(reader, entry);
            reader.take(done);
        }
    }
}

/// Where a key of fixed name belongs: a table's name, the empty name for the top of the
/// file, `None` for a name that is no such key.
pub(super) fn home(name: &str) -> Option<&'static str> {
    let tables: [(&str, &[Key]); 7] = [
        ("units", &units::KEYS),
        ("layout", &layout::KEYS),
        ("temperatures", &temperatures::KEYS),
        ("limits", &limits::KEYS),
        ("cards", &cards::KEYS),
        ("bar", &bar::KEYS),
        ("families.NAME", &bands::KEYS),
    ];
    if KEYS.iter().any(|(key, _)| key.name == name) {
        return Some("");
    }
    let holds = |keys: &[Key]| keys.iter().any(|key| key.name == name);
    tables.into_iter().find(|(_, keys)| holds(keys)).map(|(table, _)| table)
}

#[cfg(test)]
mod tests {
    use super::super::checks::{KNOWN, right, wrong};
    use super::*;

    /// Each example of each key, as a whole file.
    fn examples() -> Vec<String> {
        let mut out = Vec::new();
        for (key, _) in &KEYS {
            out.extend(key.examples.iter().map(|value| format!("{} = {value}\n", key.name)));
            let (table, keys): (&str, &[Key]) = match &key.holds {
                Holds::Table(keys) => (key.name, keys),
                Holds::Named(Names::Techniques, Holds::Table(keys)) => ("techniques.shake", keys),
                Holds::Named(Names::Families, Holds::Table(keys)) => ("families.sour", keys),
                _ => continue,
            };
            for key in keys {
                let table = if key.name == "like" { "families.garden-sour" } else { table };
                // A technique's range stands beside its dilution, with both its ends.
                let beside = match (table, key.name) {
                    ("techniques.shake", "low") => "dilution = 45\nhigh = 50\n",
                    ("techniques.shake", "high") => "dilution = 45\nlow = 40\n",
                    _ => "",
                };
                let line = |value: &&str| format!("[{table}]\n{beside}{} = {value}\n", key.name);
                out.extend(key.examples.iter().map(line));
            }
        }
        out
    }

    #[test]
    fn every_example_is_read_and_sets_something() {
        for text in examples() {
            let settings = right(&text);
            assert!(!settings.said.is_empty() || settings != Settings::default(), "{text}");
        }
    }

    #[test]
    fn every_key_is_documented() {
        let mut open: Vec<&Key> = KEYS.iter().map(|(key, _)| key).collect();
        while let Some(key) = open.pop() {
            let texts = [key.what, key.why, key.unset];
            assert!(texts.iter().all(|text| !text.is_empty()), "{}", key.name);
            assert!(!key.examples.is_empty(), "{} has no example", key.name);
            match &key.holds {
                Holds::Table(keys) | Holds::Tables(keys) | Holds::Named(_, Holds::Table(keys)) => {
                    open.extend(keys.iter());
                }
                _ => {}
            }
        }
    }

    #[test]
    fn a_file_that_says_nothing_is_the_default() {
        assert_eq!(right(""), Settings::default());
        assert_eq!(right("\u{feff}# nothing\r\n"), Settings::default());
    }

    #[test]
    fn unknown_keys_are_sent_where_they_belong() {
        wrong(
            "ounces = 'us'\nsecond_unit = 'ml'\ndash = 0.9\nglas = 1\nglass = 1\n\
             [units]\nmarket = 'eu'\nfreezer = -18\n",
            &[
                ("ounces", "`ounces` is no key of washline.toml", "did you mean `ounce`?"),
                ("second_unit", "`second_unit` is no key of washline.toml", "`second-unit`?"),
                ("dash", "`dash` is no key of washline.toml", "`dash` goes under [bar]"),
                ("glas", "`glas` is no key of washline.toml", "did you mean `glasses`?"),
                ("glass", "`glass` is no key of washline.toml", "did you mean `glasses`?"),
                ("market", "`market` is no key of [units]", "at the top of the file"),
                ("freezer", "`freezer` is no key of [units]", "goes under [temperatures]"),
            ],
        );
    }

    #[test]
    fn keys_that_slid_below_a_table_are_sent_to_the_top() {
        for table in ["bar", "glasses", "families", "techniques", "rules"] {
            let message = format!("`market` is no key of [{table}]");
            let text = format!("[{table}]\nmarket = 'eu'\n");
            wrong(&text, &[("market", &message, "at the top of the file, above the first")]);
        }
    }

    #[test]
    fn all_mistakes_come_in_file_order() {
        wrong(
            "[glasses]\nflute = 0\n[rules]\nx = 'off'\n[bar]\ndash = -1\n",
            &[
                ("0", "0 ml is not between 10 and 20000 ml", "to the brim"),
                ("x", "no rule is called `x`", "write the name of a rule"),
                ("-1", "-1 ml is not between 0.05 and 10 ml", "millilitres"),
            ],
        );
    }

    #[test]
    fn each_value_is_found_again_in_the_file() {
        let text = "ounce = 30\n[bar]\nbar-spoon = 5\n[families.sour]\nacid = [1, 2]\n\
                    [[folder]]\npath = 'menus'\nrules.no-jigger = 'off'\n";
        let said = right(text).said;
        let found: Vec<_> = said.iter().map(|(key, at)| (key.as_str(), at.text(text))).collect();
        let expected = [
            ("bar.bsp", "5"),
            ("families.sour.acid", "[1, 2]"),
            ("folder.menus.rules.no-jigger", "'off'"),
            ("ounce", "30"),
        ];
        assert_eq!(found, expected);
    }

    #[test]
    fn a_child_replaces_what_it_says_and_keeps_the_rest() {
        let parent = right("ounce = 30\nmarket = 'uk'\n[bar]\ndash = 0.9\ndrop = 0.04\n");
        let child = "extends = 'house.toml'\njiggers = ['1 oz']\nmarket = 'eu'\n[bar]\ndash = 1\n";
        let both = read_over(parent, child, &KNOWN).unwrap();
        assert_eq!(both.jiggers, [30.0], "the parent's ounce");
        assert_eq!(both.markets, [washline_reference::Market::Eu]);
        assert_eq!(both.bar.len(), 2);
        assert_eq!(both.extends.as_deref(), Some("house.toml"));
        assert!(!both.said.contains_key("ounce") && both.said.contains_key("bar.dash"));
        assert_eq!(read_over(both, "", &KNOWN).unwrap().extends, None);
    }

    #[test]
    fn no_piece_of_a_file_stops_the_reader() {
        for whole in examples() {
            let ends = whole.char_indices().map(|(at, _)| at).chain([whole.len()]);
            for end in ends {
                let piece = &whole[..end];
                for error in read(piece, &KNOWN).err().unwrap_or_default() {
                    assert!(error.span.end as usize <= piece.len(), "{piece}");
                    assert!(piece.get(error.span.range()).is_some() && !error.help.is_empty());
                }
            }
        }
    }
}
