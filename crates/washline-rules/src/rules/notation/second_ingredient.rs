//! An ingredient behind the comma of another.

use washline_book::Read;
use washline_text::{Edit, FileId, Span, line_end};

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Behind a comma stands what is said of an ingredient: `fresh`, `chilled`, `12 years old`. An
    /// amount with a name of its own is no such thing, but a second ingredient, and a line is one
    /// ingredient. Until it has a line of its own nobody adds it up, and what it carries would hide
    /// behind the comma: the entry gets no figures, and its allergens are unknown.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml gin, 22.5 ml lemon juice
    ///   22.5 ml sugar syrup, 1:1
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
    ///   60 ml gin
    ///   22.5 ml lemon juice
    ///   22.5 ml sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// The notation: after the amount comes the name, then, after commas, what is said of it.
    "second-ingredient", Notation, Error, Fixes::Unsafe, Check::Entry(find),
    why: "what stands behind the comma is in no figure, and its allergens are told by nobody"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    for read in &context.record.reads {
        let Some(first) = read.beside.first() else { continue };
        let said = context.record.text(*first);
        let message = format!("`{said}` stands behind the comma of {}", read.name);
        let mut report = Report::at(context, *first, message)
            .help("write a line for each ingredient: what stands behind a comma is said of the one before it");
        if let Some(edits) = apart(context, read) {
            report = report.fix("write a line for each", false, edits);
        }
        sink.report(report);
    }
}

/// Each ingredient behind a comma on a line of its own.
fn apart(context: &Context<'_>, read: &Read) -> Option<Vec<(FileId, Edit)>> {
    let entry = &context.record.entry;
    let text: &str = &entry.text;
    let line = entry.lines.get(read.line as usize)?;
    let indent = text.get(line.span.start as usize..line.content.start as usize)?;
    let before_comma = |said: &Span| {
        let before = text.get(..said.start as usize)?.trim_end().strip_suffix(',')?.trim_end();
        u32::try_from(before.len()).ok()
    };
    let edit = |said: &Span| {
        let gap = Span::new(before_comma(said)?, said.start);
        Some(context.edit(gap, format!("{}{indent}", line_end(text))))
    };
    read.beside.iter().map(edit).collect()
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message, severity, shown};
    use washline_text::Severity;

    #[test]
    fn the_second_is_told() {
        check(
            &RULE,
            "
drink: A
  1 oz gin, 3/4 lime
            ^^^^^^^^
  1 oz rum, aged, 15 ml almond syrup
                  ^^^^^^^^^^^^^^^^^^
",
        );
        let text = "drink: A\n  1 oz gin, 3/4 lime\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("`3/4 lime` stands behind the comma of gin")
        );
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Error));
    }

    #[test]
    fn each_gets_its_line() {
        let text = "drink: A\n  60 ml gin, dry, 15 ml lime juice, fresh, 15 ml sugar syrup 1:1\n";
        let after =
            "drink: A\n  60 ml gin, dry\n  15 ml lime juice, fresh\n  15 ml sugar syrup 1:1\n";
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some(after));
    }

    /// What hides behind a comma is never shown as safe.
    #[test]
    fn its_allergens_are_not_said_to_be_absent() {
        let text = "drink: A\n  contains: none\n  60 ml gin, 15 ml almond milk\n";
        let found = shown(text, "");
        assert!(found.iter().any(|line| line.contains("second-ingredient")), "{found:?}");
        assert!(!found.iter().any(|line| line.contains("declared-not-present")), "{found:?}");
    }

    #[test]
    fn what_is_said_of_one_is_silent() {
        check(
            &RULE,
            "
drink: A
  60 ml rum, 12 years old
  30 ml lime juice, 1 lime
  15 ml sugar syrup, 2:1
  45 ml gin, 43 % abv
  8 mint leaves, 2 for garnish
  1 cinnamon stick, 5 cm long
",
        );
    }
}
