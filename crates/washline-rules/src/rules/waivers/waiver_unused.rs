//! A waiver that no longer lets anything off.

use washline_book::{Record, Workspace};
use washline_syntax::{LineKind, Value};
use washline_text::{Edit, FileId, Span};

use crate::lines;
use crate::rule::rule;
use crate::{Check, Fixes, Report, Rule};

rule! {
    /// # Why
    /// A waiver that outlives its cause hides the next mistake of the same kind.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///   waive: measures-disagree because our card counts the squeeze
    ///
    ///   60 ml   (2 oz)  gin
    ///   22.5 ml (3/4 oz) lemon juice
    ///   22.5 ml (3/4 oz) sugar syrup, 1:1
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
    ///   60 ml   (2 oz)  gin
    ///   22.5 ml (3/4 oz) lemon juice
    ///   22.5 ml (3/4 oz) sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Common practice of checked text, no source.
    "waiver-unused", Waivers, Information, Fixes::Unsafe, Check::Waivers,
    why: "it would hide the next mistake of its kind"
}

/// The finding at the rule's name.
pub(super) fn report(workspace: &Workspace, record: &Record, rule: &Rule, span: Span) -> Report {
    let place = record.place(span);
    let file = workspace.file_name(record.file);
    let off = workspace.settings().severity(rule.name, file) == Some(None);
    let message = if off {
        format!("`{}` is off in this house, so there is nothing to waive", rule.name)
    } else {
        format!("nothing in {} breaks `{}` any more", record.name, rule.name)
    };
    let report = Report::on(record, place, message).help("take the waiver out");
    match without(record, span) {
        // A line that can't be read may be what it lets off.
        Some(edit) if !record.unread => report.fix("take the waiver out", false, vec![edit]),
        _ => report,
    }
}

/// Takes the rule at `span` out of its waiver; the whole line where it is the only one.
fn without(record: &Record, span: Span) -> Option<(FileId, Edit)> {
    let lines = &record.entry.lines;
    let (at, rules) = lines.iter().enumerate().find_map(|(at, line)| match &line.what {
        LineKind::Field(field) => match &field.value {
            Value::Waive { rules, .. } if rules.contains(&span) => Some((at, rules)),
            _ => None,
        },
        _ => None,
    })?;
    if rules.len() == 1 {
        return lines::gone(record, at);
    }
    let place = rules.iter().position(|rule| *rule == span)?;
    let out = match rules.get(place + 1) {
        Some(next) => Span::new(span.start, next.start),
        None => Span::new(rules.get(place.checked_sub(1)?)?.end, span.end),
    };
    Some((record.file, Edit::new(out.shift(record.start), "")))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under};

    #[test]
    fn a_waiver_that_acts_is_silent() {
        check(
            &RULE,
            "
drink: A
  waive: measures-disagree because the old jigger
  1 oz (20 ml) gin
",
        );
    }

    #[test]
    fn a_waiver_of_nothing_is_told() {
        check(
            &RULE,
            "
drink: A
  waive: measures-disagree because the old jigger
         ^^^^^^^^^^^^^^^^^
  1 oz (30 ml) gin
",
        );
    }

    #[test]
    fn a_rule_that_is_off_has_nothing_to_waive() {
        check_under(
            &RULE,
            "[rules]\nmeasures-disagree = \"off\"\n",
            "
drink: A
  waive: measures-disagree because the old jigger
         ^^^^^^^^^^^^^^^^^
  1 oz (20 ml) gin
",
        );
    }
}
