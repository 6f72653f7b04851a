//! A prep kept longer than what is in it.

use washline_book::{Life, Read, Record, Referent, Shelf};
use washline_syntax::Technique;
use washline_text::Kind;

use super::time;
use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A mix is as old as the oldest thing in it. Tea that keeps three days does not keep three
    /// weeks because honey syrup was stirred in. Where the prep holds more sugar, spirit or acid than what goes
    /// in, or is cooked, washed or frozen, it may keep longer.
    ///
    /// # Flagged
    /// ```pour
    /// prep: Ginger Water
    ///   yields: 500 ml
    ///   keeps: 3 days chilled
    ///
    ///   200 ml  ginger juice
    ///   300 ml  water
    ///
    ///   - combine, bottle, label, refrigerate
    ///
    /// prep: Ginger and Apple
    ///   yields: 700 ml
    ///   keeps: 7 days chilled
    ///
    ///   500 ml  ginger water
    ///   200 ml  apple juice
    ///
    ///   - combine, bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: none
    ///   glass: highball
    ///   ice: cubed
    ///   contains: none
    ///
    ///   45 ml   whisky
    ///   120 ml  ginger and apple
    ///
    ///   - build over ice, stir
    ///   garnish: lemon wheel
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// prep: Ginger Water
    ///   yields: 500 ml
    ///   keeps: 3 days chilled
    ///
    ///   200 ml  ginger juice
    ///   300 ml  water
    ///
    ///   - combine, bottle, label, refrigerate
    ///
    /// prep: Ginger and Apple
    ///   yields: 700 ml
    ///   keeps: 3 days chilled
    ///
    ///   500 ml  ginger water
    ///   200 ml  apple juice
    ///
    ///   - combine, bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: none
    ///   glass: highball
    ///   ice: cubed
    ///   contains: none
    ///
    ///   45 ml   whisky
    ///   120 ml  ginger and apple
    ///
    ///   - build over ice, stir
    ///   garnish: lemon wheel
    /// ```
    ///
    /// # Source
    /// Common practice, no source; local codes date a mix by the oldest thing in it.
    "short-life-chain", Preps, Warning, Fixes::None, Check::Figures(find),
    why: "a mix is as old as the oldest thing in it"
}

/// Less of the prep than this gives it no age. Common practice, no source.
const A_PART: f64 = 0.05;
/// How much longer the whole must hold than a part, by its guard alone, to have outgrown its age.
const BETTER: f64 = 1.25;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_prep() || record.retired || is_renewed(record) {
        return;
    }
    let Some(keeps) = record.keeps() else { return };
    let Some(guard) = record.guard() else { return };
    let whole: f64 = record.reads.iter().filter(|r| r.counted).map(|r| r.composition.mass()).sum();
    let own = Life::usual_of(&guard, Shelf::Fridge);
    let older = record.reads.iter().filter_map(|read| {
        let (part, hours) = dated(context, read)?;
        let counts = read.composition.mass() >= A_PART * whole && hours < keeps.hours;
        let held = part_life(part, read).is_some_and(|life| own > BETTER * life);
        (counts && !held).then_some((read, part, hours))
    });
    let Some((read, part, hours)) = older.min_by(|a, b| a.2.total_cmp(&b.2)) else { return };
    let message =
        format!("kept {}, and the {} in it keeps {}", time(keeps.hours), read.name, time(hours));
    let place = part.keeps().map_or(part.name_place(), |keeps| part.place(keeps.span));
    sink.report(
        Report::at(context, keeps.span, message)
            .help(format!(
                "write `keeps: {}` at the most, counted from the day that {} was made",
                time(hours),
                read.name
            ))
            .related(record.place(read.span), "goes in here")
            .related(place, "how long it keeps by itself"),
    );
}

/// Whether heat, a wash, the freezer or a ferment starts the clock anew.
fn is_renewed(record: &Record) -> bool {
    record.shelf() == Some(Shelf::Freezer)
        || record.is_treated()
        || record.is_cooked()
        || record.method.has(&[Technique::MilkWash, Technique::FatWash, Technique::Ferment])
}

/// The prep or stock entry that a line pours, and how long it says that it keeps.
fn dated<'a>(context: &Context<'a>, read: &Read) -> Option<(&'a Record, f64)> {
    if !read.counted {
        return None;
    }
    let Some(Referent::Entry(id)) = read.referent() else { return None };
    let part = context.workspace.record(id)?;
    let liquid = read.unit_makeup.as_ref().is_some_and(|makeup| makeup.liquid);
    Some((part, part.keeps()?.hours)).filter(|_| liquid && part.kind != Kind::Drink)
}

/// What the part is usually given by its own guard, hours.
fn part_life(part: &Record, read: &Read) -> Option<f64> {
    let guard = if part.kind == Kind::Prep { part.guard() } else { read.guard() };
    guard.map(|guard| Life::usual_of(&guard, Shelf::Fridge))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message};

    #[test]
    fn older_than_its_part() {
        check(
            &RULE,
            "
prep: Tea
  keeps: 2 days chilled
  20 g black tea leaves
  1 kg water
  - steep for 4 min, strain
prep: Mix
  keeps: 6 days chilled
         ^^^^^^^^^^^^^^
  500 ml Tea
  100 ml apple juice
",
        );
        check(
            &RULE,
            "
stock: Purée
  kind: mango purée
  keeps: 3 days chilled
prep: Mix
  keeps: 1 week chilled
         ^^^^^^^^^^^^^^
  500 ml Purée
  100 ml water
",
        );
        let text = "prep: Tea\n  keeps: 2 days chilled\n  1 kg water\n  20 g black tea leaves\n  - strain\nprep: Mix\n  keeps: 6 days chilled\n  500 ml Tea\n  100 ml water\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("kept 6 days, and the Tea in it keeps 2 days")
        );
    }

    /// Sugar, spirit, a wash, heat or the freezer outgrow the age of a part.
    #[test]
    fn what_holds_the_part_is_heard() {
        check(
            &RULE,
            "
stock: Pressed Pomegranate
  kind: pomegranate juice
  keeps: 3 days chilled
prep: Grenadine
  keeps: 3 weeks chilled
  500 ml Pressed Pomegranate
  500 g sugar
prep: Dram
  keeps: 1 month chilled
  500 ml overproof rum
  300 ml Pressed Pomegranate
prep: Boiled
  keeps: 6 days chilled
  500 ml Pressed Pomegranate
  - simmer for 10 min, cool
prep: Ice
  keeps: 1 month frozen
  500 ml Pressed Pomegranate
",
        );
    }

    /// A dash of it, a shorter term, a part that does not say.
    #[test]
    fn silent_where_no_age_is_handed_on() {
        check(
            &RULE,
            "
stock: Hot Sauce
  kind: hot sauce
  keeps: 2 days chilled
prep: Mix
  keeps: 3 days chilled
  1 l tomato juice
  5 ml Hot Sauce
prep: Tea
  keeps: 3 days chilled
  20 g black tea leaves
  1 kg water
  - steep, strain
prep: Fresh
  keeps: 1 day chilled
  500 ml Tea
prep: Unsaid
  20 g black tea leaves
  1 kg water
  - steep, strain
prep: Later
  keeps: 5 days chilled
  500 ml Unsaid
",
        );
    }
}
