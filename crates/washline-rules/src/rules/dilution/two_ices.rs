//! The card and its steps disagree about ice.

use washline_syntax::{Ice, Key, ice_of};
use washline_text::fold;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// `ice:`, `serve:` and the steps say the same thing in three places. Where they differ, the drink is
    /// a different one by who reads what.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   serve: up
    ///   contains: none
    ///
    ///   60 ml gin
    ///   22.5 ml lemon juice
    ///   22.5 ml sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, strain over fresh ice
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   serve: up
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
    /// Common practice, no source.
    "two-ices", Dilution, Information, Fixes::None, Check::Entry(find),
    why: "one shift serves it up and the next over cubes"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_drink() || record.retired {
        return;
    }
    let said = record.terms(Key::Ice).next();
    let none = record.field(Key::Ice).is_some() && said.is_none()
        || said.is_some_and(|(word, _)| fold(word) == "none");
    let stated = said.and_then(|(word, _)| ice_of(word));
    let served = record.method.served_over(&record.entry.text);
    let serve = record.terms(Key::Serve).map(|(word, span)| (fold(word), span)).next();
    let up = serve.as_ref().filter(|(word, _)| word == "up");
    let rocks = serve.as_ref().filter(|(word, _)| word == "rocks");
    let over = || format!("the steps serve it over {} ice", name(served));
    if let Some((_, span)) = up {
        if stated.is_some() {
            sink.report(report(
                context,
                *span,
                "`serve: up` beside an ice to serve it on".to_owned(),
            ));
        } else if served.is_some() {
            sink.report(report(context, *span, format!("`serve: up`, and {}", over())));
        }
        return;
    }
    let Some(field) = record.field(Key::Ice) else { return };
    if let Some((_, span)) = rocks.filter(|_| none) {
        sink.report(report(context, *span, "`serve: rocks` beside `ice: none`".to_owned()));
        return;
    }
    if none && served.is_some() {
        sink.report(report(context, field.value_span, format!("`ice: none`, and {}", over())));
        return;
    }
    let (Some(stated), Some(served_on)) = (stated, served) else { return };
    if stated != served_on && served_on != Ice::Plain && stated != Ice::Plain {
        let message = format!("`ice: {}`, and {}", record.text(field.value_span), over());
        sink.report(report(context, field.value_span, message));
    }
}

fn report(context: &Context<'_>, span: washline_text::Span, message: String) -> Report {
    Report::at(context, span, message).help("say one ice, in the field and in the steps")
}

const fn name(ice: Option<Ice>) -> &'static str {
    match ice {
        Some(Ice::Cubed) => "cubed",
        Some(Ice::LargeCube) => "a large cube of",
        Some(Ice::Sphere) => "a sphere of",
        Some(Ice::Spear) => "a spear of",
        Some(Ice::Block) => "a block of",
        Some(Ice::Cracked) => "cracked",
        Some(Ice::Crushed) => "crushed",
        Some(Ice::Pebble) => "pebble",
        Some(Ice::Shaved) => "shaved",
        Some(Ice::Dry) => "dry",
        Some(Ice::Plain) | None => "fresh",
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::check;

    #[test]
    fn up_and_over_ice_disagree() {
        check(
            &RULE,
            "
drink: A
  serve: up
         ^^
  60 ml gin
  - stir with ice, strain over fresh ice
",
        );
        check(
            &RULE,
            "
drink: A
  serve: rocks
         ^^^^^
  ice: none
  60 ml gin
  - stir with ice, strain
",
        );
    }

    #[test]
    fn another_ice_in_the_steps_is_told() {
        check(
            &RULE,
            "
drink: A
  ice: crushed
       ^^^^^^^
  60 ml gin
  - shake with ice, strain over cubed ice
",
        );
    }

    #[test]
    fn what_agrees_is_silent() {
        for (head, steps) in [
            ("ice: crushed", "- shake with ice, strain over crushed ice"),
            ("ice: large cube", "- stir with ice, strain over ice"),
            ("ice: cubed", "- shake with ice, strain"),
            ("serve: up", "- shake with cubed ice, strain"),
            ("ice: none", "- shake with cubed ice, strain"),
            ("serve: rocks", "- shake with crushed ice, strain over fresh ice"),
        ] {
            check(&RULE, &format!("\ndrink: A\n  {head}\n  60 ml gin\n  {steps}\n"));
        }
    }
}
