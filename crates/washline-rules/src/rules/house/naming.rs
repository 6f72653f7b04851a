//! A name that is not written as the house writes names.

use washline_book::Naming;
use washline_text::fold;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A list that goes to print, to the till and to the label printer should look like one house. A
    /// house that has said how it writes names (`naming` under `[cards]`) is told of those that are
    /// written otherwise. Small words (`of`, `the`, `from`) keep their small letter in title case, and
    /// capitals inside a name are the name's own.
    ///
    /// # Settings
    /// ```toml
    /// [cards]
    /// naming = "title"
    /// ```
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// The house's `washline.toml`.
    "naming", House, Hint, Fixes::Safe, Check::Entry(find),
    why: "one list should look like one house, on the menu, the till and the label"
}

/// Words that keep their small letter within a name in title case.
const SMALL: &[&str] = &[
    "a", "an", "and", "at", "by", "de", "del", "di", "du", "for", "from", "in", "la", "le", "of",
    "on", "or", "the", "to", "with", "y",
];

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let Some(naming) = context.settings.cards.naming else { return };
    let record = context.record;
    let written = record.text(record.entry.name);
    if record.retired || written.is_empty() {
        return;
    }
    let wanted = renamed(written, naming);
    // What the name refers to must stay the same.
    if wanted == written || fold(&wanted) != fold(written) {
        return;
    }
    let message = format!("the name is written `{written}`; this house writes `{wanted}`");
    sink.report(
        Report::entry(context, message).help("write the name as the house writes names").fix(
            format!("write `{wanted}`"),
            true,
            vec![context.edit(record.entry.name, wanted)],
        ),
    );
}

/// The name as the house would write it.
fn renamed(name: &str, naming: Naming) -> String {
    match naming {
        Naming::Upper => name.to_uppercase(),
        Naming::Sentence if is_shouted(name) => capital(&name.to_lowercase()),
        Naming::Sentence => capital(name),
        Naming::Title if is_shouted(name) => title(&name.to_lowercase()),
        Naming::Title => title(name),
    }
}

/// Whether a name of several letters has capitals alone; a short one may be initials.
fn is_shouted(name: &str) -> bool {
    let letters = || name.chars().filter(|c| c.is_alphabetic());
    letters().count() > 4 && letters().all(char::is_uppercase)
}

fn title(name: &str) -> String {
    let mut out = String::with_capacity(name.len());
    for (at, word) in name.split_inclusive(' ').enumerate() {
        if at > 0 && SMALL.contains(&word.trim_end()) {
            out.push_str(word);
        } else {
            out.push_str(&capital(word));
        }
    }
    out
}

/// With a capital first; a word that begins with a figure or a sign stays as it is.
fn capital(word: &str) -> String {
    let mut letters = word.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, fixed};

    const TITLE: &str = "[cards]\nnaming = 'title'\n";

    #[test]
    fn a_small_letter_is_told_in_any_entry() {
        check_under(
            &RULE,
            TITLE,
            "
drink: Lantern row
       ^^^^^^^^^^^
prep: honey Syrup
      ^^^^^^^^^^^
stock: Orchard Row Pear Brandy
",
        );
    }

    #[test]
    fn a_house_that_has_not_said_is_told_nothing() {
        check(&RULE, "drink: lantern row\nprep: HONEY SYRUP\n");
    }

    #[test]
    fn small_words_numbers_and_capitals_inside_are_the_names_own() {
        check_under(
            &RULE,
            TITLE,
            "
drink: Slate Ferry, from the Freezer
drink: Lantern Row #2
drink: 43 North
drink: The McQuarry
drink: Half-and-half
drink: KLX
",
        );
    }

    #[test]
    fn a_shouted_name_is_calmed() {
        let text = "drink: ROW OF LANTERNS\n";
        assert_eq!(fixed(&RULE, text, TITLE).as_deref(), Some("drink: Row of Lanterns\n"));
        let sentence = "[cards]\nnaming = 'sentence'\n";
        assert_eq!(fixed(&RULE, text, sentence).as_deref(), Some("drink: Row of lanterns\n"));
    }

    #[test]
    fn sentence_case_leaves_capitals_that_may_be_proper_names() {
        check_under(
            &RULE,
            "[cards]\nnaming = 'sentence'\n",
            "
drink: Lantern Row
drink: Lantern row
drink: lantern Row
       ^^^^^^^^^^^
",
        );
    }

    #[test]
    fn capitals_throughout() {
        let upper = "[cards]\nnaming = 'upper'\n";
        let text = "drink: Lantern Row\n";
        assert_eq!(fixed(&RULE, text, upper).as_deref(), Some("drink: LANTERN ROW\n"));
        check_under(&RULE, upper, "drink: LANTERN ROW #2\n");
    }

    #[test]
    fn the_lines_that_pour_it_still_do() {
        let text = "drink: A\n  20 ml honey syrup\n\nprep: honey syrup\n  600 g honey\n  \
                    300 g water\n  - stir\n";
        let mended = text.replace("prep: honey syrup", "prep: Honey Syrup");
        assert_eq!(fixed(&RULE, text, TITLE).as_deref(), Some(mended.as_str()));
        check_under(&crate::rules::names::unknown_ingredient::RULE, TITLE, &mended);
    }
}
