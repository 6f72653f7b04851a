//! Sharp citrus juice kept past its day.

use washline_book::{Read, Record};
use washline_reference::{Sort, Trait};
use washline_syntax::Technique;
use washline_text::Kind;

use super::time;
use crate::rule::rule;
use crate::words::number;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Lime and lemon juice turn bitter and flat within a day of the press: a sour made with
    /// yesterday's juice needs another balance each hour. Acid or sugar in it, heat, a wash or the
    /// freezer hold it longer; by itself it is pressed for the day.
    ///
    /// # Flagged
    /// ```pour
    /// prep: Pressed Lime
    ///   yields: 500 ml
    ///   keeps: 4 days chilled
    ///
    ///   500 ml  lime juice
    ///
    ///   - fine strain, bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    white rum
    ///   22.5 ml  pressed lime
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lime wheel
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// prep: Pressed Lime
    ///   yields: 500 ml
    ///   keeps: 1 day chilled
    ///
    ///   500 ml  lime juice
    ///
    ///   - fine strain, bottle, label, refrigerate
    ///
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    white rum
    ///   22.5 ml  pressed lime
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lime wheel
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "stale-citrus", Preps, Warning, Fixes::None, Check::Figures(find),
    why: "it turns bitter and flat, and each sour poured from it tastes of yesterday"
}

/// The day that sharp juice is good for, hours; a label may say a day and a half.
const A_DAY: f64 = 24.0;
/// Less of the prep than this is no juice to speak of.
const MOSTLY: f64 = 0.5;
/// Sugar and alcohol from which juice is held, Delle units. Common practice, no source.
const HELD: f64 = 20.0;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if record.retired {
        return;
    }
    let Some(keeps) = record.keeps().filter(|keeps| keeps.hours > A_DAY + 0.5) else { return };
    if record.shelf() == Some(washline_book::Shelf::Freezer) || record.is_treated() {
        return;
    }
    let report = match record.kind {
        Kind::Prep => of_prep(context, keeps.hours),
        Kind::Stock => of_stock(context, keeps.hours),
        Kind::Drink => None,
    };
    if let Some((message, line)) = report {
        let report = Report::at(context, keeps.span, message).help(
            "press it for the day, freeze what is left; or adjust it with sugar or acid and say so in its lines",
        );
        sink.report(match line {
            Some(line) => report.related(record.place(line.span), "the fresh juice"),
            None => report,
        });
    }
}

fn of_prep<'a>(context: &Context<'a>, hours: f64) -> Option<(String, Option<&'a Read>)> {
    let record = context.record;
    let lines = || record.reads.iter().enumerate().filter(|(_, read)| read.counted);
    let whole: f64 = lines().map(|(_, read)| read.composition.mass()).sum();
    let sharp = |(at, read): &(usize, &Read)| is_sharp(read) && !record.cooks(*at);
    let juice: f64 = lines().filter(sharp).map(|(_, read)| read.composition.mass()).sum();
    if whole <= 0.0 || juice < MOSTLY * whole || is_adjusted(record) {
        return None;
    }
    let (_, line) = lines().find(sharp)?;
    let share = number((100.0 * juice / whole).round());
    let message = format!(
        "{share} % of it is fresh {} with nothing that holds it, kept {}",
        line.name,
        time(hours)
    );
    Some((message, Some(line)))
}

/// Juice that the house presses: no pack, no source.
fn of_stock<'a>(context: &Context<'a>, hours: f64) -> Option<(String, Option<&'a Read>)> {
    use washline_syntax::Key;
    let record = context.record;
    if record.field(Key::Pack).is_some() || record.field(Key::Source).is_some() {
        return None;
    }
    let known = record.reaches.first().and_then(|(id, _)| washline_reference::ingredient(*id))?;
    let sharp = known.sort == Sort::Juice
        && known.is(Trait::Citrus)
        && known.is(Trait::RawPerishable)
        && known.acid.is_some_and(|acid| acid.value >= SHARP);
    sharp.then(|| (format!("{} is fresh, kept {}", known.name, time(hours)), None))
}

/// Acid of lemon and lime, g/100 ml; orange and grapefruit keep their taste for days.
/// Common practice, no source.
const SHARP: f64 = 4.0;

fn is_sharp(read: &Read) -> bool {
    let fresh =
        read.is(Trait::Citrus) && (read.is(Trait::RawPerishable) || read.sort_is(&[Sort::Fruit]));
    fresh && !read.pasteurised && read.composition.acid > SHARP / 100.0 * read.composition.mass()
}

/// What is done to juice or fruit that keeps it by itself.
const DONE_TO: &[Technique] =
    &[Technique::MilkWash, Technique::Clarify, Technique::Ferment, Technique::Dry];

/// Whether sugar, spirit, dry acid, a wash, a clarifying or drying holds it.
fn is_adjusted(record: &Record) -> bool {
    let dry_acid = record.reads.iter().any(|read| read.counted && read.sort_is(&[Sort::Acid]));
    let held = record.guard().is_none_or(|guard| guard.delle >= HELD);
    dry_acid || held || record.is_cooked() || record.method.has(DONE_TO)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message};

    #[test]
    fn yesterdays_juice() {
        check(
            &RULE,
            "
prep: A
  keeps: 3 days chilled
         ^^^^^^^^^^^^^^
  1 l lemon juice
prep: B
  keeps: 1 week chilled
         ^^^^^^^^^^^^^^
  300 ml lime juice
  100 ml water
  5 g salt
stock: C
  kind: lime juice
  keeps: 3 days chilled
         ^^^^^^^^^^^^^^
",
        );
        let text = "prep: A\n  keeps: 3 days chilled\n  1 l lemon juice\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("100 % of it is fresh lemon juice with nothing that holds it, kept 3 days")
        );
    }

    /// Adjusted with acid, sweetened, in spirit, cooked, frozen, pasteurised, for the day.
    #[test]
    fn what_holds_it_is_heard() {
        check(
            &RULE,
            "
prep: A
  keeps: 3 days chilled
  500 ml lime juice
  20 g citric acid
prep: B
  keeps: 10 days chilled
  400 ml lemon juice
  400 g sugar
prep: C
  keeps: 1 month chilled
  400 ml lemon juice
  300 ml vodka
prep: D
  keeps: 2 weeks frozen
  400 ml lemon juice
prep: E
  keeps: 2 weeks chilled
  400 ml lemon juice, pasteurised
prep: F
  keeps: 24 hours chilled
  400 ml lemon juice
prep: G
  keeps: 2 weeks chilled
  400 ml lemon juice
  - heat to 75 C, cool
",
        );
    }

    /// Orange and grapefruit keep for days; a bought bottle has its own date.
    #[test]
    fn milder_and_bought_juice_is_left_alone() {
        check(
            &RULE,
            "
prep: A
  keeps: 2 days chilled
  400 ml orange juice
prep: B
  keeps: 2 days chilled
  400 ml grapefruit juice
  200 ml cinnamon syrup
stock: C
  kind: lemon juice
  pack: 1 l
  keeps: 1 week chilled
stock: D
  kind: bottled lemon juice
  keeps: 3 weeks chilled
",
        );
    }
}
