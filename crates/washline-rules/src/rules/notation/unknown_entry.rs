//! A variant of a drink that the books do not have.

use washline_syntax::Key;
use washline_text::fold;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// `variant-of:` ties a drink to the one it varies, so that a change of one is held against the
    /// other. A name that no drink of the workspace has ties it to nothing, and so does its own.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml (2 oz) gin
    ///   22.5 ml (3/4 oz) lemon juice
    ///   22.5 ml (3/4 oz) sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    ///
    /// drink: Lantern Row No. 2
    ///   variant-of: Lantern Roe
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml aged rum
    ///   25 ml lime juice
    ///   20 ml sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lime wheel
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml (2 oz) gin
    ///   22.5 ml (3/4 oz) lemon juice
    ///   22.5 ml (3/4 oz) sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    ///
    /// drink: Lantern Row No. 2
    ///   variant-of: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml aged rum
    ///   25 ml lime juice
    ///   20 ml sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lime wheel
    /// ```
    ///
    /// # Source
    /// The notation: `variant-of` names a drink.
    "unknown-entry", Notation, Error, Fixes::Unsafe, Check::Entry(find),
    why: "when the drink it varies changes, nobody will look at this one"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    let Some(field) = record.field(Key::VariantOf) else { return };
    let written = record.text(field.value_span);
    let key = fold(written);
    if key.is_empty() || !context.workspace.drinks_called(&key, record).is_empty() {
        return;
    }
    if key == *record.key {
        let message = format!("{} can't be a variant of itself", record.name);
        let report = Report::at(context, field.value_span, message);
        sink.report(report.help("name the drink that it varies, or take the line out"));
        return;
    }
    let message = format!("no drink is called `{written}`");
    let mut report = Report::at(context, field.value_span, message);
    let near = context.workspace.nearest_drinks(written, 3);
    let near: Vec<&String> = near.iter().filter(|name| fold(name) != *record.key).collect();
    report = match near.first() {
        Some(name) => report.help(format!("did you mean {name}?")),
        None => report.help("name a drink of these books; for another, say so in `credit:`"),
    };
    for name in near {
        let edit = context.edit(field.value_span, name.as_str());
        report = report.fix(format!("write `{name}`"), false, vec![edit]);
    }
    sink.report(report);
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message, severity};
    use washline_text::Severity;

    #[test]
    fn the_name_is_told() {
        check(
            &RULE,
            "
drink: Slate Ferry
  60 ml gin
drink: B
  variant-of: Slate Fery
              ^^^^^^^^^^
  60 ml gin
",
        );
        let text = "drink: Slate Ferry\n  60 ml gin\ndrink: B\n  variant-of: slate fery\n";
        assert_eq!(message(&RULE, text, "").as_deref(), Some("no drink is called `slate fery`"));
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Error));
        let after = "drink: Slate Ferry\n  60 ml gin\ndrink: B\n  variant-of: Slate Ferry\n";
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some(after));
    }

    #[test]
    fn a_drink_varies_another_than_itself() {
        let text = "drink: Slate Ferry\n  variant-of: Slate Ferry\n  60 ml gin\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("Slate Ferry can't be a variant of itself")
        );
        assert_eq!(fixed(&RULE, text, ""), None);
    }

    #[test]
    fn a_prep_is_no_drink() {
        check(
            &RULE,
            "
prep: House Gin
  700 ml gin
drink: B
  variant-of: House Gin
              ^^^^^^^^^
  60 ml gin
",
        );
    }

    #[test]
    fn a_name_is_found_however_it_is_spelt() {
        check(
            &RULE,
            "
drink: Crème & Slate
  60 ml gin
drink: B
  variant-of: creme and slate
  60 ml gin
drink: C
  note: a variant-of: nothing
  60 ml gin
",
        );
    }
}
