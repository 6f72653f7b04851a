//! What some makers' bottles carry, and others' do not.

use std::collections::BTreeMap;

use washline_book::{Carried, Record, Workspace};
use washline_reference::Allergen;
use washline_syntax::Key;
use washline_text::{Kind, fold};

use super::{Named, is_asked, is_listed, named, said, with_way, word};
use crate::rule::rule;
use crate::run::within;
use crate::words::some;
use crate::{Check, Circle, Context, Fixes, Part, Report, Sink, Together};

rule! {
    /// # Why
    /// One maker's amaretto is made on almonds, the next one's on apricot stones; one jar of
    /// cherries is sulphited, the next is not. Nobody but the label can say, so the card says
    /// it as contained or as a trace, or the bottle gets a `stock:` entry with its own
    /// `contains:`. Told once for each such thing, with the drinks that it is in.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: rocks glass
    ///   ice: large cube
    ///   contains: none
    ///
    ///   45 ml    amaretto
    ///   15 ml    bourbon
    ///   22.5 ml  lemon juice
    ///
    ///   - shake with ice for 12 s, strain over a large cube
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: rocks glass
    ///   ice: large cube
    ///   contains: none
    ///   may-contain: almond
    ///
    ///   45 ml    amaretto
    ///   15 ml    bourbon
    ///   22.5 ml  lemon juice
    ///
    ///   - shake with ice for 12 s, strain over a large cube
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Each ingredient's entry in the reference: some from labels, most from memory. An
    /// allergen from memory is told all the same.
    "read-the-label", Allergens, Information, Fixes::None, Check::Book(Together { circles, find }),
    why: "nobody but the label can say whether a guest may drink it"
}

/// Something that only some makers' bottles carry, with the drinks that pour it.
struct Label<'a> {
    first: (&'a Record, &'a Carried),
    drinks: Vec<&'a str>,
}

/// The bottle, folded, and what some makers' carry.
type Bottled = (String, Allergen);

fn circles(context: &Context<'_>) -> Vec<Part> {
    let record = context.record;
    // A drink that declares nothing is told as that.
    let declares = record.kind == Kind::Drink && record.field(Key::Contains).is_some();
    if !declares || record.retired {
        return Vec::new();
    }
    open(context).into_iter().map(|(key, _)| Circle::of(&key).whole()).collect()
}

fn find(workspace: &Workspace, circle: Circle, records: &[&Record], sink: &mut Sink<'_>) {
    let mut labels: BTreeMap<Bottled, Label<'_>> = BTreeMap::new();
    for &record in records {
        let open = open(&within(workspace, record)).into_iter();
        for (key, carried) in open.filter(|(key, _)| Circle::of(key) == circle) {
            let new = || Label { first: (record, carried), drinks: Vec::new() };
            let label = labels.entry(key).or_insert_with(new);
            if label.drinks.last() != Some(&&*record.name) {
                label.drinks.push(&record.name);
            }
        }
    }
    for label in labels.values() {
        sink.report(report(workspace, label));
    }
}

/// What a drink may carry, as some makers' bottles do, of which it says nothing.
fn open<'a>(context: &Context<'a>) -> Vec<(Bottled, &'a Carried)> {
    let record = context.record;
    let mut open = Vec::new();
    let mut listed: Option<Vec<Named>> = None;
    for carried in record.allergens.carried.iter().filter(|c| !c.certain && c.is_poured()) {
        if !is_asked(context, carried) {
            continue;
        }
        let listed = listed.get_or_insert_with(|| {
            let keys = [Key::Contains, Key::MayContain, Key::FreeFrom];
            keys.into_iter().flat_map(|key| named(record, key)).collect()
        });
        let mut sure = record.allergens.of(carried.allergen).filter(|c| c.certain);
        if is_listed(listed, carried.allergen, &carried.detail) || sure.any(Carried::is_poured) {
            continue;
        }
        let bottle = carried.path.last().map(|step| fold(&step.name)).unwrap_or_default();
        open.push(((bottle, carried.allergen), carried));
    }
    open
}

fn report(workspace: &Workspace, label: &Label<'_>) -> Report {
    let (record, carried) = label.first;
    let context = within(workspace, record);
    let at = carried.path.first().and_then(|step| step.read).unwrap_or(usize::MAX);
    let bottle = carried.path.last().map_or("", |step| step.name.as_str());
    let what = said(context.settings, carried);
    let message = match label.drinks.as_slice() {
        [_] => format!("some makers' {bottle} carries {what}: read the label"),
        many => {
            format!("some makers' {bottle} carries {what}: read the label; it is in {}", some(many))
        }
    };
    let words = word(context.settings, carried);
    let help = format!(
        "write `{words}` in `contains:` or `may-contain:`, or give the bottle a `stock:` entry with its own `contains:`"
    );
    let report = Report::on(record, context.read_place(at), message).help(help).key(format!(
        "{} {}",
        fold(bottle),
        carried.allergen
    ));
    match carried.path.as_slice() {
        [_] => report,
        way => with_way(report, &context, way),
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, message};

    #[test]
    fn told_once_with_the_drinks_it_is_in() {
        check(
            &RULE,
            "
drink: A
  contains: none
  30 ml amaretto
        ^^^^^^^^

drink: B
  contains: none
  30 ml amaretto
",
        );
        let text = "drink: A\n  contains: none\n  9 ml amaretto\n\ndrink: B\n  contains: none\n  9 ml amaretto\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("some makers' amaretto carries nuts (almond): read the label; it is in A and B")
        );
    }

    #[test]
    fn what_the_card_says_either_way_is_silent() {
        check(
            &RULE,
            "
drink: A
  contains: nuts
  30 ml amaretto

drink: B
  contains: none
  may-contain: almonds
  30 ml amaretto

drink: C
  contains: almond
  30 ml amaretto
  30 ml orgeat
",
        );
    }

    #[test]
    fn a_bottle_with_its_own_label_is_known() {
        check(
            &RULE,
            "
drink: A
  contains: none
  30 ml Quay Amaretto

stock: Quay Amaretto
  kind: amaretto
  contains: none
",
        );
    }

    #[test]
    fn garnishes_count_and_preps_are_seen_through() {
        check(
            &RULE,
            "
drink: A
  contains: none
  60 ml gin
  garnish: cocktail cherry
           ^^^^^^^^^^^^^^^

drink: B
  contains: none
  30 ml Almond Wash
        ^^^^^^^^^^^

prep: Almond Wash
  100 ml amaretto
  100 ml water
",
        );
    }

    #[test]
    fn a_market_that_does_not_ask_is_not_told() {
        let text = "drink: A\n  contains: none\n  5 ml celery bitters\n";
        check_under(&RULE, "market = \"us\"\n", text);
    }
}
