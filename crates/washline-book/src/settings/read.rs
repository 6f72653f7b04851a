//! `washline.toml`, read.
//!
//! Words are read in any case; a number stands for the unit given here, and words in
//! quotes may say another (`"3/4 oz"`, `"45 %"`, `"0 F"`).
//!
//! | key | what it sets | written |
//! | --- | --- | --- |
//! | `market` | the markets whose law holds: `eu`, `uk`, `us`, `ca`, `au-nz` | `market = ["uk", "eu"]` |
//! | `ounce` | what an ounce is, its spoons, cup and pint with it: `us`, `imperial`, `30 ml` | `ounce = "30 ml"` |
//! | `second-unit` | the unit of the bracketed second measure | `second-unit = "oz"` |
//! | `default-syrup` | what a bare "sugar syrup" is: parts of sugar to one of water, by weight, 0.25 to 3 | `default-syrup = "2:1"` |
//! | `jiggers` | the jiggers, 2.5 to 1000 ml, and the marks inside them | `jiggers = [25, 50, { size = "2 oz", marks = ["1/2 oz"] }]` |
//! | `pairs` | millilitres and ounces that the house holds equal, at most 25 % apart | `pairs = [["25 ml", "3/4 oz"]]` |
//! | `exclude` | paths that are left out, from the file's folder, with `/` | `exclude = ["archive/", "*.draft.pour"]` |
//! | `extends` | the file whose settings this one starts from | `extends = "../washline.toml"` |
//! | `[units]` `liquid` `solid` `small` | the house's unit for liquids, for solids, for a dash or spoon of something | `liquid = "ml"` |
//! | `[bar]` `dash` `drop` `dropper` `spray` `bar-spoon` (`bsp`) `splash` `shot` `jigger` `pony` `wineglass` `capful` `tsp` `tbsp` `cup` `pint` `gill` | what the bar's own measures hold, ml, with the 95 % range where it was measured | `dash = { value = 0.9, low = 0.7, high = 1.1 }` |
//! | `[layout]` `fraction-style` `indent` `align` | how books are laid out: `decimal` or `fraction`; 2 to 8 blanks; names in one column | `fraction-style = "fraction"` |
//! | `[glasses]` NAME | the capacity of a glass at the brim, up to 20 l | `coupe = "160 ml"` |
//! | `[temperatures]` `freezer` `fridge` `room` | °C, each warmer than the one before | `freezer = -20` |
//! | `[families.NAME]` `strength` `sugar` `acid` `ratio` | bands of a family, 0 to 100: % vol, g/100 ml, g/100 ml, sugar over acid | `strength = [15, 22]`, `sugar = [8, "none"]`, `acid = { high = 1.2 }`, `ratio = "none"` |
//! | `[families.NAME]` `like` | the family that one of the house's own is like, where it sets no band | `like = "sour"` |
//! | `[techniques.NAME]` `dilution` `low` `high` | water gained, % of the pour, up to 200; ± 5 points without a range | `dilution = "45 %"` |
//! | `[rules]` RULE | `off`, `error`, `warning`, `information`, `hint` | `no-jigger = "off"` |
//! | `[limits]` `ethanol` (`ethanol-g`) `cost` `touches` `tin` | most a serve: g of ethanol, money, ingredient lines; what a tin holds with its ice, ml | `ethanol = "30 g"` |
//! | `[[folder]]` `path` `market` `rules` | what holds below one folder only | `path = "menus/spring"` |

use toml::de::DeTable;

use super::reader::{Entry, Reader};
use super::value::Read;
use super::{
    Settings, SettingsError, bands, bar, folders, house, jiggers, layout, limits, paths,
    severities, syntax, techniques, temperatures, units,
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
const KEYS: [(&str, ReadKey); 18] = [
    ("market", house::market),
    ("ounce", house::ounce),
    ("second-unit", house::second_unit),
    ("default-syrup", house::default_syrup),
    ("jiggers", jiggers::jiggers),
    ("pairs", jiggers::pairs),
    ("exclude", paths::exclude),
    ("extends", paths::extends),
    ("units", units::units),
    ("bar", bar::bar),
    ("layout", layout::layout),
    ("glasses", bar::glasses),
    ("temperatures", temperatures::temperatures),
    ("families", bands::families),
    ("techniques", techniques::techniques),
    ("rules", severities::rules),
    ("limits", limits::limits),
    ("folder", folders::folders),
];

fn top(reader: &mut Reader, table: &DeTable) {
    let fields = reader.top(table, &KEYS.map(|(name, _)| name));
    for (name, read) in KEYS {
        if let Some(entry) = fields.entry(name) {
            let done = read(reader, entry);
            reader.take(done);
        }
    }
}

/// Where a key of fixed name belongs: a table's name, the empty name for the top of the
/// file, `None` for a name that is no such key.
pub(super) fn home(name: &str) -> Option<&'static str> {
    let tables: [(&str, &[&str]); 6] = [
        ("units", &units::KEYS),
        ("layout", &layout::KEYS),
        ("temperatures", &temperatures::KEYS),
        ("limits", &limits::KEYS),
        ("bar", &bar::KEYS),
        ("families.NAME", &bands::KEYS),
    ];
    if KEYS.iter().any(|(key, _)| *key == name) {
        return Some("");
    }
    tables.into_iter().find(|(_, keys)| keys.contains(&name)).map(|(table, _)| table)
}

#[cfg(test)]
mod tests {
    use super::super::checks::{KNOWN, right, wrong};
    use super::*;

    /// The keys and the examples of this file's own table: `(header, keys, examples)`.
    fn documented() -> Vec<(String, Vec<String>, Vec<String>)> {
        let rows = include_str!("read.rs").lines().filter_map(|l| l.strip_prefix("//! | `"));
        rows.map(|row| {
            let cells: Vec<&str> = row.trim_end_matches(" |").split(" | ").collect();
            let code = |cell: &str| cell.split('`').skip(1).step_by(2).map(str::to_owned).collect();
            let keys: Vec<String> = code(&format!("`{}", cells[0]));
            let examples = code(cells[2]);
            match keys[0].strip_prefix('[') {
                Some(_) => (keys[0].clone(), keys[1..].to_vec(), examples),
                None => (String::new(), keys, examples),
            }
        })
        .collect()
    }

    #[test]
    fn every_documented_example_is_read() {
        for (header, _, examples) in documented() {
            let family = if examples[0].starts_with("like") { "garden-sour" } else { "sour" };
            let name = if header.starts_with("[techniques") { "shake" } else { family };
            let text = format!("{}\n{}\n", header.replace("NAME", name), examples.join("\n"));
            let settings = right(&text);
            assert!(!settings.said.is_empty() || settings != Settings::default(), "{text}");
        }
    }

    #[test]
    fn every_key_is_documented() {
        let rows = documented();
        for (key, _) in KEYS {
            let here = |(header, keys, _): &(String, Vec<String>, Vec<String>)| {
                let table = header.trim_matches(['[', ']']).split('.').next() == Some(key);
                table || (header.is_empty() && keys.iter().any(|found| found == key))
            };
            assert!(rows.iter().any(here), "{key}");
        }
        let keys: Vec<&String> = rows.iter().flat_map(|(_, keys, _)| keys).collect();
        for key in [&units::KEYS[..], &bar::KEYS, &layout::KEYS, &limits::KEYS, &bands::KEYS] {
            assert!(key.iter().all(|key| keys.iter().any(|found| found == key)), "{key:?}");
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
        let examples = documented().into_iter().map(|(header, _, examples)| {
            format!("{}\n{}\n", header.replace("NAME", "sour"), examples.join("\n"))
        });
        let whole: String = examples.collect();
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
