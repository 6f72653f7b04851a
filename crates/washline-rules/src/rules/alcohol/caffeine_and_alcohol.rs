//! Caffeine beside alcohol.

use washline_book::{Figure, Read};
use washline_syntax::Key;
use washline_text::fold;

use crate::rule::rule;
use crate::words::{list, number, typed_lines};
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Caffeine keeps a guest awake, not sober: it hides how drunk they are from them and from the
    /// bar. Whoever is sensitive to it, or pregnant, wants to be told. The card that says so in
    /// `menu:` or `note:` has done its part.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: coffee
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   45 ml    vodka
    ///   30 ml    espresso
    ///   15 ml    coffee liqueur
    ///   10 ml    sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: coffee beans
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: coffee
    ///   glass: coupe, chilled
    ///   contains: none
    ///   menu: vodka, espresso, coffee liqueur; holds caffeine
    ///
    ///   45 ml    vodka
    ///   30 ml    espresso
    ///   15 ml    coffee liqueur
    ///   10 ml    sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: coffee beans
    /// ```
    ///
    /// # Source
    /// Common practice, no source; caffeine of each ingredient as its data name it.
    "caffeine-and-alcohol", Alcohol, Information, Fixes::Unsafe, Check::Figures(find),
    why: "caffeine keeps a guest awake, not sober, and hides how drunk they are"
}

/// Caffeine in a serve that a guest notices, mg: half a cup of tea. Common practice, no source.
const NOTICED: f64 = 25.0;
/// Ethanol in a serve that a guest notices, g: half a small standard drink. Common practice, no source.
const STRONG: f64 = 4.0;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if !context.is_drink() {
        return;
    }
    let figures = &context.record.figures;
    let Some(caffeine) = figures.caffeine_mg.filter(|mg| *mg >= NOTICED) else { return };
    let Some(ethanol) = figures.value(Figure::Ethanol).filter(|g| *g >= STRONG) else { return };
    if !is_told(context) {
        sink.report(report(context, caffeine, ethanol));
    }
}

/// Whether the card's words for the guest or the bar name it.
fn is_told(context: &Context<'_>) -> bool {
    let record = context.record;
    let mut fields = record.fields(Key::Menu).chain(record.fields(Key::Note));
    fields.any(|field| fold(record.text(field.value_span)).contains("caffein"))
}

fn report(context: &Context<'_>, caffeine: f64, ethanol: f64) -> Report {
    let record = context.record;
    let brings = |read: &&Read| read.counted && read.caffeine / record.serves >= 1.0;
    let lines: Vec<&Read> = record.reads.iter().filter(brings).collect();
    let names: Vec<&str> = lines.iter().map(|read| read.name.as_str()).collect();
    let message = format!(
        "about {} mg of caffeine from {} beside {} g of ethanol a serve",
        number(caffeine),
        list(&names),
        number(ethanol)
    );
    let at = lines.first().map_or(record.entry.name, |read| read.name_span);
    let report = Report::at(context, at, message)
        .key(typed_lines(record))
        .help("tell the guest on the menu, and count the drinks, not how awake they look; local codes may ask for more");
    match context.line_below(0, "note: holds caffeine") {
        Some(edit) => report.fix("note that it holds caffeine", false, vec![edit]),
        None => report,
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message};

    #[test]
    fn espresso_beside_vodka() {
        check(
            &RULE,
            "
drink: A
  45 ml vodka
  30 ml espresso
        ^^^^^^^^
  15 ml coffee liqueur
  - shake with ice, strain
",
        );
        let text = "drink: A\n  45 ml vodka\n  30 ml espresso\n  - shake with ice, strain\n";
        assert!(
            message(&RULE, text, "")
                .unwrap()
                .starts_with("about 63.6 mg of caffeine from espresso")
        );
        assert!(fixed(&RULE, text, "").unwrap().starts_with("drink: A\n  note: holds caffeine\n"));
    }

    /// Decaffeinated, a splash of cola, tea smoked for its smoke, chocolate; and coffee by itself.
    #[test]
    fn silent_where_there_is_hardly_any() {
        check(
            &RULE,
            "
drink: A
  45 ml vodka
  30 ml decaffeinated coffee
  - shake with ice, strain
drink: B
  45 ml rum
  top (100 ml) cola
  - build over ice
drink: C
  45 ml blended scotch whisky
  45 ml lapsang tea
  - stir with ice, strain
drink: D
  60 ml espresso
  60 ml milk
  - shake with ice, strain
",
        );
    }

    #[test]
    fn a_card_that_says_so_has_done_its_part() {
        check(
            &RULE,
            "
drink: A
  note: caffeinated; say so
  45 ml vodka
  30 ml espresso
  - shake with ice, strain
drink: B
  menu: vodka and espresso, contains caffeine
  45 ml vodka
  30 ml espresso
  - shake with ice, strain
",
        );
    }

    /// Per serve.
    #[test]
    fn a_serve_is_what_counts() {
        check(
            &RULE,
            "
drink: A
  serves: 6
  300 ml vodka
  30 ml espresso
  - shake with ice, strain
",
        );
    }
}
