//! A variant that no longer shares what made it one.

use std::collections::BTreeSet;

use washline_book::{Record, Referent, Workspace};
use washline_reference::{Sort, ingredient};
use washline_syntax::Key;
use washline_text::fold;

use crate::rule::rule;
use crate::words::list;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// `variant-of` lets the floor explain a drink by another ("like the Lantern Row, but longer").
    /// After a few changes of one of the two that may no longer be so. A variant shares its family
    /// with the drink it varies, or at least a third of what is in it, through a batch too; one that
    /// does neither has drifted.
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
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    ///
    /// drink: Quarry Lane
    ///   variant-of: Lantern Row
    ///   family: highball
    ///   glass: highball 350 ml
    ///   ice: cubed
    ///   contains: none
    ///
    ///   50 ml         blanco tequila
    ///   top (120 ml)  tonic water, chilled
    ///
    ///   - build over cubed ice, top with tonic water
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
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    ///
    /// drink: Quarry Lane
    ///   family: highball
    ///   glass: highball 350 ml
    ///   ice: cubed
    ///   contains: none
    ///
    ///   50 ml         blanco tequila
    ///   top (120 ml)  tonic water, chilled
    ///
    ///   - build over cubed ice, top with tonic water
    ///   garnish: lime wheel
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "variant-drift", Book, Information, Fixes::None, Check::Entry(find),
    why: "the floor explains it by a drink that it no longer is like"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    let Some(field) = record.field(Key::VariantOf) else { return };
    if !context.is_drink() || record.retired || record.unread {
        return;
    }
    let workspace = context.workspace;
    let called = fold(record.text(field.value_span));
    // Where several drinks have the name, nobody knows which is meant.
    let [parent] = workspace.drinks_called(&called, record)[..] else { return };
    let Some(parent) = workspace.record(parent) else { return };
    if parent.id == record.id || parent.unread || parent.reads.is_empty() {
        return;
    }
    let mut families = record.families.list.iter();
    if families.any(|family| parent.families.is(&family.name)) {
        return;
    }
    let (ours, theirs) = (things(workspace, record), things(workspace, parent));
    let shared: Vec<&str> = theirs.intersection(&ours).copied().collect();
    if 3 * shared.len() >= theirs.len() {
        return;
    }
    let has = if shared.is_empty() { "nothing".to_owned() } else { list(&shared) };
    let message = format!("it shares no family with {}, and of what is in it {has}", parent.name);
    sink.report(
        Report::at(context, field.value_span, message)
            .help("take `variant-of` out, or name the drink that it varies today")
            .related(parent.name_place(), format!("{}, which it is to vary", parent.name)),
    );
}

/// The names of all that is in a drink, what is in its preps in place of them.
fn things<'a>(workspace: &'a Workspace, record: &'a Record) -> BTreeSet<&'a str> {
    let known = record.reaches.iter().filter(|(_, at)| *at < record.reads.len());
    let known = known.filter_map(|(id, _)| ingredient(*id));
    let known = known.filter(|known| !matches!(known.sort, Sort::Ice | Sort::Water));
    let mut things: BTreeSet<&str> = known.map(|known| known.name).collect();
    // A bottle of no known kind goes by its own name.
    let nameless = record.reads.iter().filter(|read| read.ingredient.is_none());
    let bottles =
        nameless.filter_map(|read| read.referent()).filter_map(|referent| match referent {
            Referent::Entry(id) => workspace.record(id),
            Referent::Reference(_) => None,
        });
    things.extend(bottles.filter(|entry| entry.reaches.is_empty()).map(|entry| &*entry.name));
    things
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message};

    const PARENT: &str = "drink: Lantern Row\n  family: sour\n  60 ml gin\n  20 ml lemon juice\n  \
                          20 ml sugar syrup, 1:1\n";

    #[test]
    fn what_is_left_in_common_is_said() {
        let text = format!(
            "{PARENT}drink: A\n  variant-of: Lantern Row\n  family: tiki\n  50 ml aged rum\n  \
             20 ml pineapple juice\n"
        );
        let said = "it shares no family with Lantern Row, and of what is in it nothing";
        assert_eq!(message(&RULE, &text, "").as_deref(), Some(said));
    }

    #[test]
    fn it_points_at_the_drink_it_varies() {
        check(
            &RULE,
            &format!(
                "{PARENT}drink: A
  variant-of: Lantern Row
              ^^^^^^^^^^^
  family: highball
  50 ml tequila
  top (100 ml) soda water
"
            ),
        );
    }

    #[test]
    fn another_spirit_in_the_same_family_is_a_variant() {
        check(
            &RULE,
            &format!(
                "{PARENT}drink: A\n  variant-of: Lantern Row\n  family: sour\n  60 ml pisco\n"
            ),
        );
    }

    #[test]
    fn another_family_of_the_same_things_is_a_variant() {
        check(
            &RULE,
            &format!(
                "{PARENT}drink: A\n  variant-of: Lantern Row\n  family: collins\n  40 ml gin\n  \
                 top (90 ml) soda water\n"
            ),
        );
    }

    #[test]
    fn a_batch_of_it_is_a_variant() {
        check(
            &RULE,
            &format!(
                "{PARENT}drink: A\n  variant-of: Lantern Row\n  family: carbonated\n  90 ml Batch\n\
                 prep: Batch\n  600 ml gin\n  200 ml lemon juice\n  - combine, bottle\n"
            ),
        );
    }

    #[test]
    fn a_card_with_an_unknown_line_is_no_ground() {
        check(
            &RULE,
            &format!(
                "{PARENT}drink: A\n  variant-of: Lantern Row\n  family: shot\n  20 ml xyzzq\n"
            ),
        );
    }

    #[test]
    fn last_years_variant_is_left_alone() {
        check(
            &RULE,
            &format!(
                "{PARENT}drink: A\n  status: retired\n  variant-of: Lantern Row\n  family: shot\n  \
                 20 ml tequila\n"
            ),
        );
    }
}
