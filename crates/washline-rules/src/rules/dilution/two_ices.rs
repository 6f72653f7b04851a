//! The card and its steps disagree about the ice or the glass.

use washline_book::{Goes, glass_called};
use washline_reference::Glass;
use washline_syntax::{Ice, Key, ice_of};
use washline_text::{Span, fold};

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// `ice:`, `serve:`, `glass:` and the steps say the same thing in several places. Where they differ,
    /// the drink is a different one by who reads what.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: double old fashioned
    ///   ice: crushed
    ///   contains: none
    ///
    ///   60 ml gin
    ///   22.5 ml lemon juice
    ///   22.5 ml sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, strain over a large cube
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: double old fashioned
    ///   ice: large cube
    ///   contains: none
    ///
    ///   60 ml gin
    ///   22.5 ml lemon juice
    ///   22.5 ml sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, strain over a large cube
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "two-ices", Dilution, Information, Fixes::Unsafe, Check::Entry(find),
    why: "one shift serves it over cubes and the next over crushed ice"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_drink() || record.retired {
        return;
    }
    let found = glasses(context).or_else(|| ices(context));
    if let Some(report) = found {
        sink.report(report);
    }
}

/// The ice of the card against that of its steps, and both against how it is served.
fn ices(context: &Context<'_>) -> Option<Report> {
    let record = context.record;
    let field = record.field(Key::Ice);
    let said = record.terms(Key::Ice).next();
    let none = field.is_some() && said.is_none_or(|(word, _)| fold(word) == "none");
    let stated = said.and_then(|(word, _)| ice_of(word));
    let serve = record.terms(Key::Serve).map(|(word, span)| (fold(word), span)).next();
    let served = record.method.served_over(&record.entry.text);
    let over = || format!("the steps serve it over {} ice", name(served));
    if let Some((_, span)) = serve.as_ref().filter(|(word, _)| word == "up") {
        let message = match (stated, served) {
            (Some(_), _) => "`serve: up` beside an ice to serve it on".to_owned(),
            (None, Some(_)) => format!("`serve: up`, and {}", over()),
            (None, None) => return None,
        };
        let report = ice(context, *span, message);
        return Some(if served.is_some() {
            written(context, *span, "rocks", report)
        } else {
            report
        });
    }
    let field = field?;
    if let Some((_, span)) = serve.as_ref().filter(|(word, _)| none && word == "rocks") {
        let report = ice(context, *span, "`serve: rocks` beside `ice: none`".to_owned());
        return Some(match served {
            Some(ice) => written(context, field.value_span, word(ice), report),
            None => written(context, *span, "up", report),
        });
    }
    if none && let Some(served) = served {
        let report = ice(context, field.value_span, format!("`ice: none`, and {}", over()));
        return Some(written(context, field.value_span, word(served), report));
    }
    let (stated, served) = (stated?, served?);
    let differ = stated != served && served != Ice::Plain && stated != Ice::Plain;
    differ.then(|| {
        let said = record.text(field.value_span);
        let message = format!("`ice: {said}`, and {}", over());
        let report = ice(context, field.value_span, message);
        written(context, field.value_span, word(served), report)
    })
}

/// The same with a mend: the card says at `span` what the steps do.
fn written(context: &Context<'_>, span: Span, text: &str, report: Report) -> Report {
    let edit = context.edit(span, text);
    report.fix(format!("write `{text}` on the card, as the steps have it"), false, vec![edit])
}

/// The glass of the card against the glass that a step pours into, and against how it is served.
fn glasses(context: &Context<'_>) -> Option<Report> {
    let record = context.record;
    let (glass, _) = record.glass?;
    let field = record.field(Key::Glass)?;
    let card = kind(glass)?;
    let other = record.method.acts.iter().rev().find_map(|act| {
        let into = act.act.into.filter(|_| act.goes == Goes::Out)?;
        let named = glass_called(&fold(record.text(into)))?;
        kind(named).is_some_and(|kind| kind != card).then_some((act, named))
    });
    if let Some((act, named)) = other {
        let message = format!("the card says {}, and the steps {}", glass.name, named.name);
        let report = Report::at(context, act.span(), message)
            .help("say one glass, in the field and in the steps")
            .related(record.place(field.value_span), "the glass of the card");
        let said = record.text(field.value_span);
        let (first, _) = said.split_once(',').unwrap_or((said, ""));
        let end = field.value_span.start + u32::try_from(first.trim_end().len()).ok()?;
        let card = Span::new(field.value_span.start, end);
        return Some(written(context, card, named.name, report));
    }
    let (word, span) = record.terms(Key::Serve).next()?;
    let word = fold(word);
    if card != Shape::Stem || !matches!(word.as_str(), "rocks" | "long") {
        return None;
    }
    let message = format!("`serve: {word}` in a {}, which has no room for ice", glass.name);
    Some(
        Report::at(context, span, message)
            .help("take a tumbler, or serve it up")
            .related(record.place(field.value_span), "the glass of the card"),
    )
}

/// Glasses that stand in for each other: nobody mistakes one kind for another.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Shape {
    Stem,
    Short,
    Tall,
    Flute,
}

/// The kind of a glass; none of one that could be several.
fn kind(glass: &Glass) -> Option<Shape> {
    match glass.name {
        "coupe" | "cocktail glass" | "small tulip" => Some(Shape::Stem),
        "old fashioned glass" | "double old fashioned glass" => Some(Shape::Short),
        "highball" | "collins" | "sling glass" => Some(Shape::Tall),
        "flute" | "sparkling tulip" => Some(Shape::Flute),
        _ => None,
    }
}

fn ice(context: &Context<'_>, span: Span, message: String) -> Report {
    Report::at(context, span, message).help("say one ice, in the field and in the steps")
}

/// The word of an ice in `ice:`.
const fn word(ice: Ice) -> &'static str {
    match ice {
        Ice::LargeCube => "large cube",
        Ice::Sphere => "sphere",
        Ice::Spear => "spear",
        Ice::Block => "block",
        Ice::Plain => "cubed",
        other => name(Some(other)),
    }
}

/// An ice as the words before `ice`.
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
    use crate::harness::{check, fixed};

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
    fn the_card_takes_what_the_steps_do() {
        let card =
            |head, steps| format!("drink: A\n  {head}\n  60 ml gin\n  - stir with ice, {steps}\n");
        for (head, steps, mended) in [
            ("ice: none", "strain over crushed ice", "ice: crushed"),
            ("serve: up", "strain over a sphere", "serve: rocks"),
            ("glass: coupe, chilled", "strain into a highball", "glass: highball, chilled"),
        ] {
            let fixed = fixed(&RULE, &card(head, steps), "");
            assert_eq!(fixed, Some(card(mended, steps)), "{head}");
        }
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

    #[test]
    fn another_glass_in_the_steps_is_told() {
        check(
            &RULE,
            "
drink: A
  glass: coupe, chilled
  60 ml gin
  - shake with ice, strain into a chilled highball
                    ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^
",
        );
        check(
            &RULE,
            "
drink: A
  glass: coupe
  serve: rocks
         ^^^^^
  60 ml gin
  - shake with ice, strain
",
        );
    }

    #[test]
    fn glasses_that_stand_in_for_each_other_are_silent() {
        for (glass, steps) in [
            ("double old fashioned", "- stir with ice, strain into a rocks glass over ice"),
            ("coupe", "- stir with ice, strain into the cold cocktail glass"),
            ("coupe", "- stir with ice, strain into the glass"),
            ("coupe", "- shake with ice, strain into the tin, dry shake, strain into the coupe"),
            ("tiki mug", "- shake with ice, strain into the mug"),
        ] {
            check(&RULE, &format!("\ndrink: A\n  glass: {glass}\n  60 ml gin\n  {steps}\n"));
        }
    }
}
