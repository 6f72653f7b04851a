//! Raw egg that the guest is not told of.

use washline_reference::Trait;
use washline_syntax::{EntryKind, Field, Key, LineKind};
use washline_text::{Kind, fold};

use super::{Raw, raw};
use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Raw egg can carry salmonella; acid and spirit in a shaker do not make it safe. A guest
    /// who is pregnant, old, young or ill must be able to choose, so the menu or the note says
    /// it, or the egg is pasteurised. An egg that is cooked in its prep is not raw. Local food
    /// codes decide what must be said, and whether raw egg may be served at all.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: egg-sour
    ///   glass: coupe, chilled
    ///   contains: egg
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
    ///   1        egg white
    ///
    ///   - dry shake for 15 s, shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: egg-sour
    ///   glass: coupe, chilled
    ///   contains: egg
    ///   note: made with raw egg; tell the guest
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
    ///   1        egg white
    ///
    ///   - dry shake for 15 s, shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// FDA Food Code 2022, 3-603.11, consumer advisory for raw animal foods (from memory);
    /// local codes decide.
    "raw-egg", Allergens, Warning, Fixes::Unsafe, Check::Entry(find),
    why: "a guest at risk cannot choose, and many codes ask for the advisory"
}

/// Words by which a note or a menu tells the guest.
const ADVISORIES: &[&str] = &[
    "raw egg",
    "raw or undercooked",
    "undercooked",
    "uncooked",
    "consumer advisory",
    "unpasteuri",
    "pregnan",
    "foodborne",
    "salmonella",
    "pasteurised egg",
    "pasteurized egg",
    "raw white",
];

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if context.record.kind != Kind::Drink {
        return;
    }
    let Some(raw) = raw(context, Trait::RawEgg) else { return };
    if !is_told(context) {
        sink.report(report(context, &raw));
    }
}

/// Whether the drink, its section or its book tells the guest.
fn is_told(context: &Context<'_>) -> bool {
    let record = context.record;
    let own = record.fields(Key::Note).chain(record.fields(Key::Menu));
    own.into_iter().any(|field| advises(field, &record.entry.text)) || is_told_above(context)
}

fn is_told_above(context: &Context<'_>) -> bool {
    let above = context.workspace.frame(context.record.file);
    above.iter().filter(|entry| matches!(entry.kind, EntryKind::Book | EntryKind::Section)).any(
        |entry| {
            entry.lines.iter().any(|line| match &line.what {
                LineKind::Field(field) => {
                    field.key == Some(Key::Note) && advises(field, &entry.text)
                }
                _ => false,
            })
        },
    )
}

fn advises(field: &Field, text: &str) -> bool {
    let words = fold(field.value_span.text(text));
    ADVISORIES.iter().any(|advisory| words.contains(advisory))
}

fn report(context: &Context<'_>, raw: &Raw) -> Report {
    let message = format!("{} is raw egg, and neither `note:` nor `menu:` says so", raw.way);
    let report = Report::on(context.record, raw.place, message).help(
        "tell the guest in `menu:` or `note:`, or pour pasteurised egg and write `pasteurised`",
    );
    let lines = &context.record.entry.lines;
    let field = |kind: &LineKind| matches!(kind, LineKind::Field(_) | LineKind::Heading(_));
    let body = |kind: &LineKind| matches!(kind, LineKind::Ingredient(_) | LineKind::Step(_));
    let end = lines.iter().position(|line| body(&line.what)).unwrap_or(lines.len());
    let last = lines.iter().take(end).rposition(|line| field(&line.what)).unwrap_or(0);
    match context.line_below(last, "note: made with raw egg; tell the guest") {
        Some(edit) => report.fix("write the advisory in `note:`", false, vec![edit]),
        None => report,
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message};

    #[test]
    fn the_egg_is_pointed_at() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  1 egg white
    ^^^^^^^^^

drink: B
  60 ml rum
  1 whole egg
    ^^^^^^^^^
",
        );
        let text = "drink: A\n  family: flip\n  1 egg yolk\n";
        let mended = fixed(&RULE, text, "").unwrap();
        assert!(mended.contains("  family: flip\n  note: made with raw egg; tell the guest\n"));
    }

    #[test]
    fn an_advisory_is_enough() {
        check(
            &RULE,
            "
drink: A
  menu: gin, lemon, raw egg white
  1 egg white

drink: B
  note: Consumer advisory on the menu
  1 egg white
",
        );
        check(
            &RULE,
            "
book: The Copper Heron
  note: the menu carries the advisory on raw or undercooked foods

drink: A
  1 egg white
",
        );
    }

    #[test]
    fn pasteurised_egg_is_not_raw() {
        check(
            &RULE,
            "
drink: A
  1 egg white, pasteurised
  30 ml pasteurised egg white
  5 g egg white powder
  30 ml Carton White

stock: Carton White Pasteurised
  also: carton white
  kind: egg white
",
        );
    }

    #[test]
    fn a_prep_hands_raw_egg_down_unless_it_is_cooked() {
        check(
            &RULE,
            "
drink: A
  30 ml Flip Mix
        ^^^^^^^^

prep: Flip Mix
  4 whole eggs
  100 g sugar
  - whisk until even

drink: B
  30 ml Custard Mix

prep: Custard Mix
  4 egg yolks
  100 g sugar
  - cook sous vide to 75 C for 1 h
",
        );
        let text = "drink: A\n  30 ml Nog\n\nprep: Nog\n  100 g sugar\n  2 egg whites\n  - boil the sugar\n  - add the egg whites\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("Nog → egg whites is raw egg, and neither `note:` nor `menu:` says so")
        );
    }

    #[test]
    fn a_foam_without_egg_is_silent() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  30 ml aquafaba
",
        );
    }
}
