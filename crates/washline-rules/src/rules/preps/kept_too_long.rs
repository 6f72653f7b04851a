//! A prep kept longer than its sugar, strength and acid allow.

use washline_book::{Life, Shelf};

use super::{on, time};
use crate::rule::rule;
use crate::words::{number, typed_lines};
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Sugar, alcohol and acid hold back what spoils, and they do it together: 1:1 syrup ferments
    /// where 2:1 stands, and a splash of spirit or a pinch of citric acid buys weeks, not months.
    /// Milk and fresh juice set their own term. The times are what bars write on their labels, a
    /// rule of thumb and no proof of safety.
    ///
    /// # Flagged
    /// ```pour
    /// prep: Sugar Syrup 1:1
    ///   yields: 810 ml
    ///   keeps: 6 months chilled
    ///
    ///   500 g   sugar
    ///   500 g   water
    ///
    ///   - stir until clear
    ///   - bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// prep: Sugar Syrup 1:1
    ///   yields: 810 ml
    ///   keeps: 4 weeks chilled
    ///
    ///   500 g   sugar
    ///   500 g   water
    ///
    ///   - stir until clear
    ///   - bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Sugar and alcohol together by Delle units (Amerine and Kunkee, Vitis 5, 1965, 187–194); the times
    /// that go with them are common practice, no source. Local codes decide.
    "kept-too-long", Preps, Warning, Fixes::Unsafe, Check::Figures(find),
    why: "it ferments, moulds or turns while its label says that it is good"
}

/// How far past the longest term a label may be before it is told: months are round.
const ROUND: f64 = 1.03;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_prep() || record.retired {
        return;
    }
    let Some(keeps) = record.keeps() else { return };
    // With no place said the fridge is taken, which is kind.
    let shelf = record.shelf().unwrap_or(Shelf::Fridge);
    let Some(life) = record.life(shelf) else { return };
    if keeps.hours <= ROUND * life.most {
        return;
    }
    let message = format!(
        "kept {} {}, and {} gives it {} at the most",
        time(keeps.hours),
        on(shelf),
        reason(context, &life),
        time(life.most)
    );
    let usual = time(life.usual);
    let report = Report::at(context, keeps.span, message)
        .key(typed_lines(record))
        .help(format!(
            "keep it about {usual} and make less of it; or give it more sugar, spirit or acid, or \
             freeze it"
        ))
        .fix(format!("write `{usual}`"), false, vec![context.edit(keeps.span, usual.clone())]);
    sink.report(match life.weakest.and_then(|at| record.reads.get(at)) {
        Some(read) => report.related(record.place(read.span), "what turns first"),
        None => report,
    });
}

fn reason(context: &Context<'_>, life: &Life) -> String {
    if let Some(read) = life.weakest.and_then(|at| context.record.reads.get(at)) {
        return format!("the {} in it", read.name);
    }
    let guard = &life.guard;
    let mut parts = vec![format!("{} Brix", number(guard.brix.round()))];
    if guard.abv >= 0.5 {
        parts.push(format!("{} % vol", number(guard.abv)));
    }
    if guard.acid >= 0.1 {
        parts.push(format!("{} % acid", number(guard.acid)));
    }
    crate::words::list(&parts)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message};

    #[test]
    fn longer_than_sugar_strength_and_acid_allow() {
        check(
            &RULE,
            "
prep: A
  keeps: 3 months chilled
         ^^^^^^^^^^^^^^^^
  500 g sugar
  500 g water
prep: B
  keeps: 2 weeks chilled
         ^^^^^^^^^^^^^^^
  20 g black tea leaves
  1 kg water
  - steep for 4 min, strain
prep: C
  keeps: 1 month ambient
         ^^^^^^^^^^^^^^^
  500 g sugar
  500 g water
",
        );
        let text = "prep: A\n  keeps: 3 months chilled\n  500 g sugar\n  500 g water\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("kept 3 months in the fridge, and 50 Brix gives it 6 weeks at the most")
        );
    }

    #[test]
    fn milk_and_juice_set_their_own_term() {
        check(
            &RULE,
            "
prep: A
  keeps: 3 weeks chilled
         ^^^^^^^^^^^^^^^
  500 ml milk
  100 g sugar
prep: B
  keeps: 3 weeks chilled
         ^^^^^^^^^^^^^^^
  900 ml pineapple juice
  20 g sugar
",
        );
        let text = "prep: A\n  keeps: 3 weeks chilled\n  500 ml milk\n  100 g sugar\n";
        let said = message(&RULE, text, "").unwrap();
        assert_eq!(
            said,
            "kept 3 weeks in the fridge, and the milk in it gives it 7 days at the most"
        );
    }

    /// A thick syrup at two months, spirit, a shrub, brine, what is washed of its milk, frozen.
    #[test]
    fn what_holds_is_left_alone() {
        check(
            &RULE,
            "
prep: A
  keeps: 2 months chilled
  1000 g sugar
  515 g water
prep: B
  keeps: 1 year dark
  700 ml vodka
  100 g raspberries
  - infuse for 3 days, strain
prep: C
  keeps: 1 month chilled
  400 g sugar
  300 ml cider vinegar
  300 g raspberries
prep: D
  keeps: 3 months ambient
  20 g salt
  80 g water
prep: E
  keeps: 3 months chilled
  500 ml rum
  250 ml lemon juice
  220 g sugar
  300 ml milk
  - milk-wash, strain
prep: F
  keeps: 4 months frozen
  900 ml pineapple juice
",
        );
    }

    /// What ferments, what is pasteurised, what is weighed, what is oil: no rule of thumb holds.
    #[test]
    fn silent_where_no_rule_of_thumb_holds() {
        check(
            &RULE,
            "
prep: A
  keeps: 3 months chilled
  1 l water
  100 g sugar
  - ferment for 4 days
prep: B
  keeps: 6 months ambient
  note: pasteurised in the bottle
  1 l apple juice
prep: C
  keeps: 1 year dry
  500 g sugar
  20 g lemon peel
prep: D
  keeps: 3 months dark
  500 ml olive oil
  5 g black pepper
",
        );
    }
}
