//! A bottle for whose allergens nobody vouches.

use std::collections::BTreeSet;

use washline_book::Record;
use washline_syntax::Key;
use washline_text::Kind;

use crate::rule::rule;
use crate::words::some;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A bottle that says neither what kind of thing it is nor what its label declares may
    /// carry anything. Every drink that pours it is unknown with it, which is not the same as
    /// free: nobody may tell a guest that it is. It is told once, at the bottle, with the
    /// drinks that it touches.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  Quarry Cup
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    ///
    /// stock: Quarry Cup
    ///   abv: 0 %
    ///   sugar: 60 g/100 ml
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  Quarry Cup
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    ///
    /// stock: Quarry Cup
    ///   abv: 0 %
    ///   sugar: 60 g/100 ml
    ///   contains: none
    /// ```
    ///
    /// # Source
    /// Common practice, no source: what nobody vouches for is unknown, never absent.
    "allergen-unknown", Allergens, Warning, Fixes::None, Check::Entry(find),
    why: "it may carry anything, and so may every drink that pours it"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if record.kind != Kind::Stock || record.allergens.unknown.is_empty() || record.retired {
        return;
    }
    // A kind that nothing knows, or a field that says nothing, is told as such.
    if record.field(Key::Kind).is_some() || record.field(Key::Contains).is_some() {
        return;
    }
    let drinks = drinks(context);
    if !drinks.is_empty() {
        sink.report(report(context, &drinks));
    }
}

/// The drinks on the list that pour it, through preps too.
fn drinks<'a>(context: &Context<'a>) -> Vec<&'a Record> {
    let workspace = context.workspace;
    let mut seen = BTreeSet::new();
    let mut open = vec![context.record.id];
    while let Some(id) = open.pop() {
        let more = workspace.users(id).iter().copied();
        open.extend(more.filter(|user| seen.insert(*user)));
    }
    let records = seen.into_iter().filter_map(|id| workspace.record(id));
    let mut drinks: Vec<&Record> =
        records.filter(|user| user.kind == Kind::Drink && !user.retired).collect();
    drinks.sort_by_key(|drink| (drink.file, drink.start));
    drinks
}

fn report(context: &Context<'_>, drinks: &[&Record]) -> Report {
    let names: Vec<&str> = drinks.iter().map(|drink| &*drink.name).collect();
    let message = format!(
        "nobody vouches for the allergens of {}; it is poured in {}",
        context.record.name,
        some(&names)
    );
    let mut report = Report::entry(context, message)
        .help("read the label and write its `contains:` (`contains: none` where it lists none), or write its `kind:`");
    for drink in drinks.iter().take(4) {
        report = report.related(drink.name_place(), format!("{} pours it", drink.name));
    }
    report
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, findings};

    #[test]
    fn told_once_at_the_bottle() {
        check(
            &RULE,
            "
drink: A
  contains: none
  20 ml Quarry Cup

drink: B
  contains: none
  20 ml Cup Mix

prep: Cup Mix
  100 ml Quarry Cup
  100 ml water

stock: Quarry Cup
       ^^^^^^^^^^
  abv: 20 %
  sugar: 10 g/100 ml
",
        );
    }

    #[test]
    fn a_kind_or_a_label_vouches() {
        check(
            &RULE,
            "
drink: A
  contains: none
  20 ml Quarry Cup
  20 ml Pier Cup

stock: Quarry Cup
  kind: gin

stock: Pier Cup
  abv: 20 %
  sugar: 10 g/100 ml
  contains: none
",
        );
    }

    #[test]
    fn an_unknown_name_or_kind_is_told_as_that() {
        let text = "drink: A\n  contains: none\n  9 ml xanthous elixir\n  9 ml Ox\n\nstock: Ox\n  kind: xanthous elixir\n";
        let found = findings(text, "");
        assert!(found.iter().all(|finding| finding.rule != RULE.name));
        assert!(found.iter().any(|finding| finding.rule == "unknown-ingredient"));
    }

    #[test]
    fn a_bottle_that_nothing_pours_can_wait() {
        check(
            &RULE,
            "
drink: A
  status: retired
  20 ml Quarry Cup

stock: Quarry Cup
  abv: 20 %

stock: Pier Cup
  abv: 20 %
",
        );
    }
}
