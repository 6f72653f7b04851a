//! Raw egg in a prep that is kept.

use washline_book::Shelf;
use washline_reference::Trait;

use super::{CODES, on, with};
use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// One egg in a shaker is one guest's; a litre of flip mix in the fridge is everyone's, and what one shell
    /// brought in has days to grow. Below 20 % vol raw egg is used within two days, cold, or it is pasteurised.
    ///
    /// # Flagged
    /// ```pour
    /// prep: Flip Mix
    ///   contains: egg
    ///   yields: 500 ml
    ///   keeps: 5 days chilled
    ///
    ///   6 pieces  whole egg
    ///   250 ml    sugar syrup, 1:1
    ///
    ///   - blend, fine strain
    ///   - bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: flip
    ///   glass: coupe, chilled
    ///   contains: egg
    ///   note: made with raw egg; tell the guest
    ///
    ///   45 ml  aged rum
    ///   60 ml  flip mix
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: grated nutmeg
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// prep: Flip Mix
    ///   contains: egg
    ///   yields: 500 ml
    ///   keeps: 2 days chilled
    ///
    ///   6 pieces  whole egg
    ///   250 ml    sugar syrup, 1:1
    ///
    ///   - blend, fine strain
    ///   - bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: flip
    ///   glass: coupe, chilled
    ///   contains: egg
    ///   note: made with raw egg; tell the guest
    ///
    ///   45 ml  aged rum
    ///   60 ml  flip mix
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: grated nutmeg
    /// ```
    ///
    /// # Source
    /// Common practice, no source; FDA Food Code 3-202.13 and 3-302.13 ask for pasteurised egg in place of raw where
    /// eggs are pooled (from memory).
    "raw-egg-kept", Safety, Warning, Fixes::None, Check::Entry(find),
    why: "what one shell brought in has days to grow, in everyone's drink"
}

/// How long raw egg is kept in the fridge, hours. Common practice, no source.
const TWO_DAYS: f64 = 48.0;
/// How long at room temperature, hours. From memory.
const WARM: f64 = 2.0;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_prep() || record.retired || record.is_treated() {
        return;
    }
    let Some(keeps) = record.keeps() else { return };
    let shelf = record.shelf();
    let most = if shelf == Some(Shelf::Room) { WARM } else { TWO_DAYS };
    if keeps.hours <= most || shelf == Some(Shelf::Freezer) {
        return;
    }
    if record.guard().is_some_and(|guard| guard.is_strong() || !guard.liquid) {
        return;
    }
    let raw = with(context, Trait::RawEgg)
        .find(|(at, read, _)| !read.pasteurised && *at < record.reads.len() && !record.cooks(*at));
    let Some((_, read, _)) = raw else { return };
    let message = format!("{} raw, kept {}, {}", read.name, record.text(keeps.span), on(shelf));
    sink.report(
        Report::at(context, keeps.span, message)
            .help(format!(
                "make it for the shift, `keeps: 2 days chilled` at the most, or use pasteurised egg and say `pasteurised`; {CODES}"
            ))
            .related(record.place(read.span), "the raw egg"),
    );
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message};

    #[test]
    fn kept_for_days_or_warm() {
        check(
            &RULE,
            "
prep: A
  keeps: 5 days chilled
         ^^^^^^^^^^^^^^
  4 egg whites
  100 ml sugar syrup
prep: B
  keeps: 1 day ambient
         ^^^^^^^^^^^^^
  4 egg yolks
  100 g sugar
  200 ml water
",
        );
        let text = "prep: A\n  keeps: 5 days chilled\n  4 egg whites\n  100 ml sugar syrup\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("egg whites raw, kept 5 days chilled, in the fridge")
        );
    }

    /// For the shift, pasteurised, cooked, powder, in strong spirit, frozen.
    #[test]
    fn what_is_safe_is_silent() {
        check(
            &RULE,
            "
prep: A
  keeps: 2 days chilled
  4 egg whites
  100 ml sugar syrup
prep: B
  keeps: 5 days chilled
  200 ml egg white, pasteurised
  100 ml sugar syrup
prep: C
  keeps: 4 days chilled
  4 egg yolks
  500 ml milk
  100 g sugar
  - cook to 82 C, cool
prep: D
  keeps: 1 month chilled
  6 whole eggs
  900 ml overproof rum
  200 g sugar
prep: E
  keeps: 1 month frozen
  4 egg whites
  100 ml sugar syrup
",
        );
    }

    #[test]
    fn a_drink_and_a_foam_without_egg() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  1 egg white
prep: B
  keeps: 4 days chilled
  200 ml aquafaba
  100 ml sugar syrup
",
        );
    }
}
