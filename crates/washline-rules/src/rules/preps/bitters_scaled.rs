//! Bitters, salt and chilli multiplied with the rest of a batch.

use washline_book::{Read, Record};
use washline_reference::Sort;
use washline_syntax::Key;
use washline_text::{Kind, fold};

use crate::rule::rule;
use crate::words::number;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Bitter, salt and heat do not grow in step with the pour: dashes fall heavier from a full
    /// bottle than from a measure, and a batch steeps in them. A batch is usually begun with half
    /// to two thirds of what the sum says, tasted, and brought up.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: punch
    ///   vessel: punch bowl
    ///   glass: punch cup 220 ml
    ///   ice: block
    ///   serve: bowl
    ///   serves: 12
    ///   contains: none
    ///
    ///   720 ml     aged rum
    ///   270 ml     lime juice
    ///   270 ml     sugar syrup, 1:1
    ///   360 ml     water
    ///   24 dashes  aromatic bitters
    ///
    ///   - combine in the bowl, add the block, stir
    ///   garnish: lime wheel
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: punch
    ///   vessel: punch bowl
    ///   glass: punch cup 220 ml
    ///   ice: block
    ///   serve: bowl
    ///   serves: 12
    ///   contains: none
    ///
    ///   720 ml     aged rum
    ///   270 ml     lime juice
    ///   270 ml     sugar syrup, 1:1
    ///   360 ml     water
    ///   14 dashes  aromatic bitters
    ///
    ///   - combine in the bowl, add the block, stir
    ///   garnish: lime wheel
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "bitters-scaled", Preps, Information, Fixes::None, Check::Entry(find),
    why: "bitter, salt and heat come through stronger in a batch than in the glass"
}

/// The least serves that make a batch. Common practice, no source.
const A_BATCH: f64 = 8.0;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if record.kind == Kind::Stock || record.retired {
        return;
    }
    if record.serves >= A_BATCH {
        for read in record.reads.iter().filter(|read| is_strong(read)) {
            if let Some(each) = as_in_the_glass(read, record.serves) {
                sink.report(of_serves(context, read, each));
            }
        }
        return;
    }
    if let Some((model, factor)) = scaled_from(context) {
        for read in record.reads.iter().filter(|read| is_strong(read)) {
            let Some(one) = model.reads.iter().find(|one| is_same(one, read)) else { continue };
            if is_near(size(read), factor * size(one)) {
                sink.report(of_model(context, read, one, model, factor));
            }
        }
    }
}

/// Bitters, salt, chilli and savoury sauces: what is strong by the dash.
fn is_strong(read: &Read) -> bool {
    let by_name = || {
        let name = fold(&read.name);
        ["chilli", "cayenne", "hot sauce", "saline"].iter().any(|word| name.contains(word))
    };
    // What is poured as a base is no dash.
    let small = read.volume() < 200.0;
    read.counted && small && (read.sort_is(&[Sort::Bitters, Sort::Salt]) || by_name())
}

/// The dashes, drops or pinches of one serve, where the line is just that many times more.
fn as_in_the_glass(read: &Read, serves: f64) -> Option<f64> {
    let count = read.amount.parse::<f64>().ok()?;
    read.unit.filter(|unit| !matches!(unit.kind(), washline_measure::UnitKind::Mass))?;
    let dashes = matches!(
        read.unit.map(washline_measure::Unit::kind),
        Some(washline_measure::UnitKind::Bar | washline_measure::UnitKind::Count)
    );
    let each = count / serves;
    let whole = each >= 1.0 && (each - each.round()).abs() < 1e-9;
    (dashes && whole).then_some(each)
}

/// The drink that the batch is made from, and how many times over: told by `variant-of:` of what
/// pours it, and by its strongest line.
fn scaled_from<'a>(context: &Context<'a>) -> Option<(&'a Record, f64)> {
    let record = context.record;
    if record.kind != Kind::Prep || !record.reads.iter().any(is_strong) {
        return None;
    }
    let users = context.workspace.users(record.id).iter();
    let models = users.filter_map(|user| {
        let user = context.workspace.record(*user)?;
        let field = user.field(Key::VariantOf)?;
        let called = fold(user.text(field.value_span));
        let found = context.workspace.drinks_called(&called, user);
        found.first().and_then(|id| context.workspace.record(*id))
    });
    let base = record
        .reads
        .iter()
        .filter(|read| read.counted)
        .max_by(|a, b| a.composition.ethanol.total_cmp(&b.composition.ethanol))?;
    models.into_iter().find_map(|model| {
        let one = model.reads.iter().find(|one| is_same(one, base))?;
        let factor = size(base) / size(one) * model.serves;
        (factor.is_finite() && factor >= A_BATCH).then_some((model, factor))
    })
}

fn is_same(one: &Read, other: &Read) -> bool {
    one.counted && one.referent().is_some() && one.referent() == other.referent()
}

fn size(read: &Read) -> f64 {
    read.ml.or(read.g).map_or(0.0, |size| size.value)
}

fn is_near(one: f64, other: f64) -> bool {
    other > 0.0 && (one - other).abs() <= 0.05 * other
}

const HELP: &str =
    "begin with half to two thirds of it, taste, and bring it up; then write what it took";

fn of_serves(context: &Context<'_>, read: &Read, each: f64) -> Report {
    let message = format!(
        "{} for {} serves is {} a serve, as in the glass: {} is not multiplied as it stands",
        context.record.text(read.span),
        number(context.record.serves),
        number(each),
        read.name
    );
    Report::at(context, read.span, squeezed(&message)).help(HELP)
}

fn of_model(context: &Context<'_>, read: &Read, one: &Read, model: &Record, factor: f64) -> Report {
    let message = format!(
        "{} is the glass's {} {} times over: {} is not multiplied as it stands",
        context.record.text(read.span),
        model.text(one.span),
        number(factor),
        read.name
    );
    Report::at(context, read.span, squeezed(&message))
        .help(HELP)
        .related(model.place(one.span), "in the glass")
}

/// The gaps of a card's columns closed.
fn squeezed(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message};

    #[test]
    fn dashes_times_serves() {
        check(
            &RULE,
            "
drink: A
  serves: 10
  600 ml rum
  20 dashes aromatic bitters
  ^^^^^^^^^^^^^^^^^^^^^^^^^^
  10 pinches salt
  ^^^^^^^^^^^^^^^
",
        );
        let text = "drink: A\n  serves: 10\n  600 ml rum\n  20 dashes   aromatic bitters\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some(
                "20 dashes aromatic bitters for 10 serves is 2 a serve, as in the glass: \
                 aromatic bitters is not multiplied as it stands"
            )
        );
    }

    #[test]
    fn a_batch_against_its_drink() {
        check(
            &RULE,
            "
drink: Quarry
  60 ml rye whiskey
  30 ml sweet vermouth
  2 dashes aromatic bitters
prep: Quarry Batch
  600 ml rye whiskey
  300 ml sweet vermouth
  20 dashes aromatic bitters
  ^^^^^^^^^^^^^^^^^^^^^^^^^^
drink: Quarry, Cold
  variant-of: Quarry
  90 ml Quarry Batch
",
        );
    }

    /// Brought down, for a few, a base of bitters, in the glass itself, or of another drink.
    #[test]
    fn silent_where_nothing_is_multiplied() {
        check(
            &RULE,
            "
drink: A
  serves: 10
  600 ml rum
  14 dashes aromatic bitters
drink: B
  serves: 2
  120 ml rum
  4 dashes aromatic bitters
drink: C
  serves: 10
  450 ml aromatic bitters
drink: D
  60 ml rye whiskey
  2 dashes aromatic bitters
prep: D Batch
  600 ml rye whiskey
  13 dashes aromatic bitters
drink: D, Cold
  variant-of: D
  90 ml D Batch
drink: E
  serves: 10
  600 ml rum
  10 lime wheels
",
        );
    }
}
