//! The page of the keys, Markdown.

use std::fmt::Write;

use washline_book::{Dimension, Holds, SettingsKey, settings_keys};

/// Every key: what it sets, why, what it holds, what holds where it is unset.
#[must_use]
pub fn page() -> String {
    let mut out = format!(
        "# washline.toml\n\n\
         The standards of a house, in a file called `washline.toml` at the root of its books. \
         `washline settings` shows what they come to and which line said so.\n\n\
         A number stands for the unit of its key; words in quotes may say another: `\"3/4 oz\"`, \
         `\"45 %\"`, `\"0 F\"`. Words are read in any case. A key or a rule that nobody knows is \
         an error, with the nearest that is known.\n\n\
         TOML editors complete and check the file where its first line names the schema:\n\n\
         ```toml\n#:schema {}\n```\n",
        super::schema_url()
    );
    for key in settings_keys() {
        let _ = write!(out, "\n## `{}`\n\n{}: {}.\n", key.name, sentence(key.what), key.why);
        match keys_of(&key.holds) {
            None => alone(key, &mut out),
            Some(keys) => {
                let _ = write!(
                    out,
                    "\nUnset: {}.\n\n```toml\n{} = {}\n```\n",
                    key.unset,
                    key.name,
                    key.examples.join("\n")
                );
                table(keys, &mut out);
            }
        }
    }
    out
}

fn alone(key: &SettingsKey, out: &mut String) {
    let _ = write!(out, "\nHolds {}. Unset: {}.\n\n```toml\n", shape(&key.holds), key.unset);
    for example in key.examples {
        let _ = writeln!(out, "{} = {example}", key.name);
    }
    out.push_str("```\n");
}

fn table(keys: &[SettingsKey], out: &mut String) {
    out.push_str(
        "\n| key | sets | why | holds | unset | written |\n| --- | --- | --- | --- | --- | --- |\n",
    );
    for key in keys {
        let examples: Vec<String> = key.examples.iter().map(|value| format!("`{value}`")).collect();
        let cells = [key.what, key.why, &shape(&key.holds), key.unset, &examples.join(", ")]
            .map(|cell| cell.replace('|', "\\|"));
        let _ = writeln!(out, "| `{}` | {} |", key.name, cells.join(" | "));
    }
}

/// The keys of the tables that a key holds.
const fn keys_of(holds: &'static Holds) -> Option<&'static [SettingsKey]> {
    match holds {
        Holds::Table(keys) | Holds::Tables(keys) | Holds::Named(_, Holds::Table(keys)) => {
            Some(keys)
        }
        _ => None,
    }
}

/// What a value may be, in words.
fn shape(holds: &Holds) -> String {
    let quoted = |words: &[&str]| {
        let words: Vec<String> = words.iter().map(|word| format!("`\"{word}\"`")).collect();
        words.join(", ")
    };
    match holds {
        Holds::Word(words) => format!("one of {}", quoted(words)),
        Holds::Words(words) => format!("one or more of {}", quoted(words)),
        Holds::Ounce => format!("one of {}", quoted(&["us", "imperial", "30 ml"])),
        Holds::Unit(_) => "a unit".to_owned(),
        Holds::Text => "words".to_owned(),
        Holds::Texts => "words, one or more".to_owned(),
        Holds::Flag => "`true` or `false`".to_owned(),
        Holds::Path => "a path with `/`".to_owned(),
        Holds::Paths => "a path with `/`, or several".to_owned(),
        Holds::Number(least, most) => format!("a number from {least} to {most}"),
        Holds::Whole(least, most) => format!("a whole number from {least} to {most}"),
        Holds::Amount(dimension, least, most) => {
            let what = match dimension {
                Dimension::Volume => "a volume",
                Dimension::Mass => "a mass",
                Dimension::Temperature => "a temperature",
                Dimension::Share => "a share",
            };
            format!("{what} from {least} to {most} {}", dimension.unit())
        }
        Holds::Measure(least, most) => {
            format!("a volume from {least} to {most} ml, or `value`, `low` and `high`")
        }
        Holds::Proportion(least, most) => {
            format!("a proportion such as `\"2:1\"`, or a number from {least} to {most}")
        }
        Holds::Jiggers(least, most) => format!(
            "a list of volumes from {least} to {most} ml, each alone or as `size` with its `marks`"
        ),
        Holds::Pairs => "a list of pairs, each a volume in ml and one in oz".to_owned(),
        Holds::Band(_, least, most) => {
            format!("a band: two ends from {least} to {most}, `low` and `high`, or `\"none\"`")
        }
        Holds::Family => "the name of a family".to_owned(),
        Holds::Severity => {
            format!("one of {}", quoted(&["off", "error", "warning", "information", "hint"]))
        }
        Holds::Table(_) => "a table".to_owned(),
        Holds::Tables(_) => "a list of tables".to_owned(),
        Holds::Named(names, of) => format!("a table of {}, each {}", names.word(), shape(of)),
    }
}

/// With a capital.
fn sentence(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
