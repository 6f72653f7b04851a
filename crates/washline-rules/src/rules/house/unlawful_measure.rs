//! A measure in which the United Kingdom does not let a spirit or a wine be sold.

use washline_book::{Read, Referent};
use washline_measure::{Unit, UnitKind};
use washline_reference::{Market, Sort};
use washline_syntax::{Amount, Key, LineKind, Role};
use washline_text::{Kind, Span, fold};

use super::is_poured;
use crate::rule::rule;
use crate::words::{ml, number};
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// In the United Kingdom gin, rum, vodka and whisky are sold in 25 ml or 35 ml and their multiples,
    /// one of the two throughout the premises; a mixture of three liquids or more is free. Still wine
    /// by itself goes in 125 or 175 ml and their multiples (or in less than 75 ml), fortified wine in
    /// 50 or 70 ml. Told only to a house that has said `market = "uk"`. Local codes and the trading
    /// standards officer decide.
    ///
    /// # Settings
    /// ```toml
    /// market = "uk"
    /// ```
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: highball
    ///   glass: highball 350 ml
    ///   ice: cubed
    ///   contains: none
    ///
    ///   40 ml         gin
    ///   top (120 ml)  tonic water, chilled
    ///
    ///   - build over cubed ice, top with tonic water
    ///   garnish: lime wheel
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: highball
    ///   glass: highball 350 ml
    ///   ice: cubed
    ///   contains: none
    ///
    ///   50 ml         gin
    ///   top (120 ml)  tonic water, chilled
    ///
    ///   - build over cubed ice, top with tonic water
    ///   garnish: lime wheel
    /// ```
    ///
    /// # Source
    /// The quantities: gov.uk, Weights and measures: the law, Specified quantities. The Weights and
    /// Measures (Intoxicating Liquor) Order 1988 (SI 1988/2039); that a mixture of three or more liquids
    /// is free, and wine below 75 ml, from memory.
    "unlawful-measure", House, Warning, Fixes::Unsafe, Check::Entry(find),
    why: "it may not be sold so, and the officer brings a measuring cylinder"
}

/// What is sold in fixed quantities: in whose multiples, and below what it is free.
struct Fixed {
    what: &'static str,
    of: [f64; 2],
    free_below: f64,
}

const SPIRIT: Fixed = Fixed { what: "spirit", of: [25.0, 35.0], free_below: 0.0 };
const WINE: Fixed = Fixed { what: "still wine", of: [125.0, 175.0], free_below: 75.0 };
const FORTIFIED: Fixed = Fixed { what: "fortified wine", of: [50.0, 70.0], free_below: 0.0 };

/// Half a millilitre is within any measure's own error. Common practice, no source.
const NEAR_ML: f64 = 0.5;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if !context.settings.follows(Market::Uk) || !is_poured(context) || is_sealed(context) {
        return;
    }
    let Some(liquids) = liquids(context) else { return };
    if liquids.len() > 2 {
        return;
    }
    for read in &liquids {
        let Some(fixed) = fixed(read, liquids.len()) else { continue };
        let Some(poured) = measured(context, read) else { continue };
        let each = poured / context.record.serves;
        if !is_lawful(poured, &fixed) && !is_lawful(each, &fixed) {
            sink.report(report(context, read, each, &fixed));
        }
    }
}

/// What is sold in a closed bottle has quantities of its own.
fn is_sealed(context: &Context<'_>) -> bool {
    context.record.terms(Key::Serve).any(|(word, _)| fold(word) == "bottled")
}

/// The liquids that are mixed; `None` where a prep is poured, which is a mixture itself, or where
/// nobody knows what a line is.
fn liquids<'a>(context: &Context<'a>) -> Option<Vec<&'a Read>> {
    let record = context.record;
    if record.unread {
        return None;
    }
    let is_prep = |referent| match referent {
        Referent::Entry(id) => {
            context.workspace.record(id).is_none_or(|entry| entry.kind == Kind::Prep)
        }
        Referent::Reference(_) => false,
    };
    if record.reads.iter().any(|read| read.referents().any(is_prep)) {
        return None;
    }
    let liquid = |read: &&Read| {
        read.unit_makeup.as_ref().is_some_and(|makeup| makeup.liquid)
            && !read.sort_is(&[Sort::Ice])
            && !matches!(read.role, Role::Garnish | Role::Side | Role::Rim)
    };
    Some(record.reads.iter().filter(liquid).collect())
}

fn fixed(read: &Read, liquids: usize) -> Option<Fixed> {
    let known = read.ingredient()?;
    match known.sort {
        Sort::Spirit if is_one_of_four(known.name) => Some(SPIRIT),
        Sort::Wine if liquids == 1 && !known.name.contains("sake") => Some(WINE),
        Sort::FortifiedWine if liquids == 1 => Some(FORTIFIED),
        _ => None,
    }
}

/// Gin, rum, vodka or whisky; one that is flavoured may be another thing in law.
fn is_one_of_four(name: &str) -> bool {
    const FOUR: &[&str] = &["gin", "rum", "rhum", "vodka", "whisky", "whiskey", "bourbon"];
    const FLAVOURED: &[&str] = &["vanilla", "citrus", "pepper", "spiced", "alcohol-free"];
    let mut words = name.split(' ');
    words.clone().any(|word| FOUR.contains(&word)) && !words.any(|word| FLAVOURED.contains(&word))
}

/// What is measured out, ml; a dash, a rinse and what nobody can measure are none of it.
fn measured(context: &Context<'_>, read: &Read) -> Option<f64> {
    let unit = read.unit?;
    let exact = match unit.kind() {
        UnitKind::Metric | UnitKind::Customary | UnitKind::Part => true,
        _ => context.settings.bar.contains_key(&unit),
    };
    let poured = matches!(read.role, Role::Poured | Role::Top | Role::Float);
    read.ml.filter(|_| exact && poured && !read.vague).map(|ml| ml.value)
}

fn is_lawful(poured: f64, fixed: &Fixed) -> bool {
    let times = |of: f64| (poured / of).round().max(1.0);
    poured < fixed.free_below
        || fixed.of.iter().any(|of| (poured - times(*of) * of).abs() <= NEAR_ML)
}

fn report(context: &Context<'_>, read: &Read, poured: f64, fixed: &Fixed) -> Report {
    let [small, large] = fixed.of.map(number);
    let message = format!(
        "{} of {}; in the United Kingdom {} is sold in {small} or {large} ml and multiples of one \
         of them",
        ml(poured),
        read.name,
        fixed.what,
    );
    let report = Report::at(context, read.span, message).help(format!(
        "pour {small} or {large} ml or a multiple, or mix it with two liquids more; local codes \
         and trading standards decide"
    ));
    let Some(span) = plain_ml(context, read) else { return report };
    nearest(poured, fixed).into_iter().fold(report, |report, lawful| {
        let text = ml(lawful);
        report.fix(format!("write `{text}`"), false, vec![context.edit(span, text)])
    })
}

/// The multiple of each of the two quantities that is next to `poured`, the nearer first.
fn nearest(poured: f64, fixed: &Fixed) -> Vec<f64> {
    let mut lawful: Vec<f64> =
        fixed.of.iter().map(|of| (poured / of).round().max(1.0) * of).collect();
    lawful.sort_by(|a, b| (a - poured).abs().total_cmp(&(b - poured).abs()));
    lawful.dedup();
    lawful
}

/// The words of the amount, where the line is one serve's in millilitres alone.
fn plain_ml(context: &Context<'_>, read: &Read) -> Option<Span> {
    let line = context.record.entry.lines.get(read.line as usize)?;
    let LineKind::Ingredient(line) = &line.what else { return None };
    let Amount::Measures(sum) = &line.amount else { return None };
    let ([placed], true) = (sum.as_slice(), line.shared.is_empty()) else { return None };
    let alone = line.second.is_none() && context.record.serves <= 1.0;
    (alone && placed.measure.unit == Some(Unit::Ml)).then_some(placed.span)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, message};

    const UK: &str = "market = 'uk'\n";

    #[test]
    fn each_of_the_four_beside_one_mixer() {
        check_under(
            &RULE,
            UK,
            "
drink: A
  30 ml vodka
  ^^^^^^^^^^^
  top (120 ml) soda water
drink: B
  60 ml aged rum
  ^^^^^^^^^^^^^^
drink: C
  1 1/2 oz bourbon
  ^^^^^^^^^^^^^^^^
  2 dashes aromatic bitters
",
        );
    }

    #[test]
    fn multiples_of_either_are_lawful() {
        check_under(
            &RULE,
            UK,
            "
drink: A
  35 ml gin
  top tonic water
drink: B
  70 ml scotch whisky
drink: C
  75 ml gin
  1 dash orange bitters
drink: D
  2.5 cl white rum
  200 ml cola
",
        );
    }

    #[test]
    fn three_liquids_are_free() {
        check_under(
            &RULE,
            UK,
            "
drink: A
  60 ml gin
  22.5 ml lemon juice
  22.5 ml sugar syrup, 1:1
drink: B
  40 ml bourbon
  1 bsp sugar syrup, 1:1
  2 dashes aromatic bitters
",
        );
    }

    #[test]
    fn other_spirits_and_other_markets_are_free() {
        check_under(&RULE, UK, "drink: A\n  40 ml tequila\ndrink: B\n  30 ml cognac\n");
        check(&RULE, "drink: A\n  40 ml gin\n");
        check_under(&RULE, "market = 'eu'\n", "drink: A\n  40 ml gin\n");
    }

    #[test]
    fn a_prep_is_a_mixture_of_its_own() {
        check_under(
            &RULE,
            UK,
            "
drink: A
  90 ml House Batch
prep: House Batch
  500 ml gin
  100 ml dry vermouth
  - combine
",
        );
    }

    #[test]
    fn two_serves_are_measured_each() {
        check_under(&RULE, UK, "drink: A\n  serves: 2\n  50 ml gin\n  top tonic water\n");
        let text = "drink: A\n  serves: 2\n  60 ml gin\n  200 ml tonic water\n";
        let said = "30 ml of gin; in the United Kingdom spirit is sold in 25 or 35 ml and \
                    multiples of one of them";
        assert_eq!(message(&RULE, text, UK).as_deref(), Some(said));
    }

    /// gov.uk, Specified quantities: still wine 125 and 175 ml, fortified wine 50 and 70 ml.
    #[test]
    fn wine_by_the_glass_has_its_own() {
        check_under(
            &RULE,
            UK,
            "
drink: A
  150 ml white wine
  ^^^^^^^^^^^^^^^^^
drink: B
  60 ml fino sherry
  ^^^^^^^^^^^^^^^^^
drink: C
  125 ml white wine
drink: D
  50 ml red wine
drink: E
  150 ml sparkling wine
drink: F
  750 ml red wine
  serves: 5
",
        );
    }
}
