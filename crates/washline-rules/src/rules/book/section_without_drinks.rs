//! A section that lists nothing.

use washline_book::Workspace;
use washline_syntax::EntryKind;
use washline_text::{FileId, Place};

use crate::rule::rule;
use crate::{Check, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A section with nothing under it is printed as an empty heading, or the drinks that belong
    /// there stand above it. A section of preps or bottles is full, and so is one of retired cards.
    ///
    /// # Flagged
    /// ```pour
    /// book: The Slate Ferry
    ///
    /// section: Stirred
    ///
    /// section: Shaken
    ///
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
    /// # Mended
    /// ```pour
    /// book: The Slate Ferry
    ///
    /// section: Shaken
    ///
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
    /// Common practice, no source.
    "section-without-drinks", Book, Information, Fixes::None, Check::File(find),
    why: "it goes to print as a heading with nothing under it"
}

fn find(workspace: &Workspace, file: FileId, sink: &mut Sink<'_>) {
    let Some(source) = workspace.file(file) else { return };
    let entries = source.document.entries();
    for (at, located) in entries.iter().enumerate() {
        let entry = &located.entry;
        let next = entries.get(at + 1).map(|next| next.entry.kind);
        let lists = !matches!(next, None | Some(EntryKind::Section | EntryKind::Book));
        if entry.kind != EntryKind::Section || lists || entry.name.is_empty() {
            continue;
        }
        let place = Place { file, span: entry.name.shift(located.start) };
        let message = format!("nothing stands under the section {}", entry.name_text());
        sink.report(
            Report::file(place, message).help("take the section out, or move its drinks below it"),
        );
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message};

    #[test]
    fn an_empty_section_is_told_wherever_it_stands() {
        check(
            &RULE,
            "
section: Stirred
         ^^^^^^^
  note: cold ones
section: Shaken
drink: A
  60 ml gin
section: Long
         ^^^^
",
        );
    }

    #[test]
    fn its_name_is_said() {
        let said = message(&RULE, "drink: A\n  60 ml gin\nsection: Long\n", "");
        assert_eq!(said.as_deref(), Some("nothing stands under the section Long"));
    }

    #[test]
    fn preps_and_bottles_fill_a_section() {
        check(&RULE, "section: Syrups\nprep: A\n  100 g sugar\nsection: Bottles\nstock: B\n");
    }

    #[test]
    fn last_years_list_fills_a_section() {
        check(&RULE, "section: Last year\ndrink: A\n  status: retired\n  60 ml gin\n");
    }

    #[test]
    fn drafts_fill_a_section() {
        check(&RULE, "section: Next\ndrink: A\n  status: draft\n");
    }

    #[test]
    fn a_section_that_has_no_name_yet_is_another_matter() {
        check(&RULE, "drink: A\n  60 ml gin\nsection:\n");
    }

    #[test]
    fn comments_fill_nothing() {
        check(&RULE, "section: Stirred\n         ^^^^^^^\n  # three to come\n");
    }
}
