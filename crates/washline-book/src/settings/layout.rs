//! `[layout]`: how the house's books are laid out.

use super::keys::{Holds, Key, names};
use super::reader::{Entry, Reader};
use super::value::{Read, choice, flag, whole};

/// The table's keys.
pub(super) static KEYS: [Key; 3] = [
    Key {
        name: "fraction-style",
        what: "how parts of an ounce are written: `0.75 oz` or `3/4 oz`",
        why: "one way of writing is read faster than two",
        holds: Holds::Word(&["decimal", "fraction"]),
        unset: "each line keeps its own",
        examples: &["\"fraction\""],
    },
    Key {
        name: "indent",
        what: "how many blanks stand before a line of an entry",
        why: "headings stand out at the house's own distance",
        holds: Holds::Whole(WIDTHS.0, WIDTHS.1),
        unset: "2",
        examples: &["2"],
    },
    Key {
        name: "align",
        what: "whether the names of an entry's lines stand in one column",
        why: "amounts are read down the column while building",
        holds: Holds::Flag,
        unset: "true",
        examples: &["true"],
    },
];

/// The widths of an indent.
const WIDTHS: (u32, u32) = (2, 8);

/// How the house's books are laid out; `None` where it has not said.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Layout {
    /// How parts of an ounce are written.
    pub fractions: Option<FractionStyle>,
    /// How many blanks stand before a line of an entry, 2 to 8.
    pub indent: Option<u32>,
    /// Whether the names of an entry's lines stand in one column.
    pub align: Option<bool>,
}

/// How parts of an ounce are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FractionStyle {
    /// `0.75 oz`
    Decimal,
    /// `3/4 oz`
    Fraction,
}

impl FractionStyle {
    /// Its word.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Decimal => "decimal",
            Self::Fraction => "fraction",
        }
    }
}

const STYLE: &str = "write `fraction-style = \"decimal\"` or `\"fraction\"`";
const INDENT: &str = "write `indent = 2`, up to 8";
const ALIGN: &str = "write `align = true` or `false`";

/// `[layout]`
pub(super) fn layout(reader: &mut Reader, entry: Entry) -> Read<()> {
    let help = "write `[layout]`, and under it `indent = 2`";
    let fields = reader.fields(entry.value, "[layout]", &names(&KEYS), help)?;
    if let Some(item) = fields.get("fraction-style") {
        let styles = [("decimal", FractionStyle::Decimal), ("fraction", FractionStyle::Fraction)];
        let read = choice(item, "style of fractions", &styles, STYLE);
        reader.settings.layout.fractions = reader.take(read);
        reader.say("layout.fraction-style".to_owned(), item);
    }
    if let Some(item) = fields.get("indent") {
        reader.settings.layout.indent = reader.take(whole(item, WIDTHS.0..=WIDTHS.1, INDENT));
        reader.say("layout.indent".to_owned(), item);
    }
    if let Some(item) = fields.get("align") {
        reader.settings.layout.align = reader.take(flag(item, ALIGN));
        reader.say("layout.align".to_owned(), item);
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::super::checks::{right, wrong};
    use super::*;

    #[test]
    fn layout_is_typed() {
        let layout =
            right("[layout]\nfraction-style = 'Fraction'\nindent = 4\nalign = false").layout;
        let expected = Layout {
            fractions: Some(FractionStyle::Fraction),
            indent: Some(4),
            align: Some(false),
        };
        assert_eq!(layout, expected);
        assert_eq!(right("").layout, Layout::default());
    }

    #[test]
    fn wrong_layout_points_at_itself() {
        wrong(
            "[layout]\nfraction-style = 'fractions'\nindent = 9\nalign = 'yes'\nalin = true",
            &[
                ("'fractions'", "`fractions` is no style of fractions", "did you mean `fraction`?"),
                ("9", "9 is not between 2 and 8", "up to 8"),
                ("'yes'", "words in quotes stand where true or false should", "align = true"),
                ("alin", "`alin` is no key of [layout]", "did you mean `align`?"),
            ],
        );
        wrong("[layout]\nindent = 2.5", &[("2.5", "2.5 is no whole number", "up to 8")]);
        wrong("layout = 2", &[("2", "a number stands where a table should", "[layout]")]);
    }
}
