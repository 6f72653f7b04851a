//! Ingredient lines that stand in another order than the house's.

use washline_book::{DrinkPart, LineOrder, Read};
use washline_measure::UnitKind;
use washline_reference::Sort;
use washline_syntax::{Role, Technique};

use super::is_poured;
use super::mend::reorder;
use crate::rule::rule;
use crate::words::ml;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A bar builds every drink in one order, so that a hand that is called away knows what is in
    /// the tin, and a mistake is made with the cheap bottles. A house that has said its order of
    /// lines (`line-order` under `[cards]`) is told of drinks that are written in another. What
    /// tops, floats, rinses or is counted out keeps its place.
    ///
    /// # Settings
    /// ```toml
    /// [cards]
    /// line-order = "largest"
    /// ```
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   22.5 ml  lemon juice
    ///   60 ml    gin
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
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
    /// ```
    ///
    /// # Source
    /// The house's `washline.toml`.
    "line-order", House, Hint, Fixes::Safe, Check::Entry(find),
    why: "a hand that is called away must know what is in the tin already"
}

/// Amounts nearer than this share are one size. Common practice, no source.
const SAME: f64 = 0.05;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let Some(order) = &context.settings.cards.line_order else { return };
    if !is_poured(context) || context.record.unread || order_means_something(context) {
        return;
    }
    let Some(lines) = lines(context, order) else { return };
    let late = lines.windows(2).find_map(|pair| match pair {
        [above, below] if above.stands_before(below) => None,
        [above, below] => Some((above, below)),
        _ => None,
    });
    if let Some((above, below)) = late {
        sink.report(report(context, order, above, below, &lines));
    }
}

/// Whether the steps go by the order of the lines.
fn order_means_something(context: &Context<'_>) -> bool {
    let record = context.record;
    let ordered = |act: &washline_book::ActRead| act.says(&record.entry, &["order"]);
    record.method.has(&[Technique::Layer, Technique::Float])
        || record.method.acts.iter().any(ordered)
}

/// A line that the order speaks of; the lower its rank, the further up it belongs.
struct Placed<'a> {
    rank: f64,
    /// Whether ranks are amounts, of which near ones are one.
    amounts: bool,
    read: &'a Read,
}

impl Placed<'_> {
    fn stands_before(&self, other: &Self) -> bool {
        let near = if self.amounts { SAME * self.rank.abs().max(other.rank.abs()) } else { 0.0 };
        self.rank <= other.rank + near
    }
}

/// The lines that the order speaks of; `None` where two share one line of the card.
fn lines<'a>(context: &Context<'a>, order: &LineOrder) -> Option<Vec<Placed<'a>>> {
    let reads = &context.record.reads;
    if reads.windows(2).any(|pair| matches!(pair, [a, b] if a.line == b.line)) {
        return None;
    }
    let poured = reads.iter().filter(|read| read.role == Role::Poured);
    let placed = poured.filter_map(|read| {
        let (rank, amounts) = match order {
            LineOrder::Largest => (-measured(read)?, true),
            LineOrder::Smallest => (measured(read)?, true),
            LineOrder::Parts(parts) => (rank(parts, part(read)) as f64, false),
        };
        Some(Placed { rank, amounts, read })
    });
    Some(placed.collect())
}

/// Millilitres of what is measured out; counted and weighed things are none of it.
fn measured(read: &Read) -> Option<f64> {
    let kind = read.unit?.kind();
    if matches!(kind, UnitKind::Count | UnitKind::Mass) || read.vague {
        return None;
    }
    read.ml.map(|ml| ml.value)
}

fn rank(parts: &[DrinkPart], part: DrinkPart) -> usize {
    let place = |part| parts.iter().position(|listed| *listed == part);
    place(part).or_else(|| place(DrinkPart::Rest)).unwrap_or(parts.len())
}

/// What a line is for.
fn part(read: &Read) -> DrinkPart {
    if read.sours() {
        return DrinkPart::Sour;
    }
    let Some(known) = read.ingredient() else { return part_of_prep(read) };
    match known.sort {
        Sort::Spirit => DrinkPart::Spirit,
        Sort::Liqueur => DrinkPart::Liqueur,
        Sort::AromatisedWine
        | Sort::FortifiedWine
        | Sort::Wine
        | Sort::SparklingWine
        | Sort::Beer
        | Sort::Cider => DrinkPart::Wine,
        Sort::Syrup | Sort::Sugar => DrinkPart::Sweet,
        Sort::Bitters => DrinkPart::Bitters,
        _ => DrinkPart::Rest,
    }
}

/// A prep goes by its strength and sugar: an infused spirit is a spirit, a syrup sweetens.
fn part_of_prep(read: &Read) -> DrinkPart {
    let Some(makeup) = &read.unit_makeup else { return DrinkPart::Rest };
    let (abv, sugar) = (makeup.one.abv_percent(), makeup.one.sugar_g_per_100ml());
    match (abv, sugar) {
        (30.0.., ..5.0) => DrinkPart::Spirit,
        (15.0.., 5.0..) => DrinkPart::Liqueur,
        (..1.0, 20.0..) => DrinkPart::Sweet,
        _ => DrinkPart::Rest,
    }
}

fn report(
    context: &Context<'_>,
    order: &LineOrder,
    above: &Placed<'_>,
    below: &Placed<'_>,
    lines: &[Placed<'_>],
) -> Report {
    let rule = match order {
        LineOrder::Largest => "the most first",
        LineOrder::Smallest => "the least first",
        LineOrder::Parts(_) => "it above",
    };
    let said = |placed: &Placed<'_>| match measured(placed.read).filter(|_| placed.amounts) {
        Some(amount) => format!("{}, {},", placed.read.name, ml(amount)),
        None => placed.read.name.clone(),
    };
    let message = format!(
        "{} stands below {} this house writes {rule}",
        said(below),
        said(above).trim_end_matches(',').to_owned() + ";"
    );
    let here: Vec<usize> = lines.iter().map(|placed| placed.read.line as usize).collect();
    let mut sorted: Vec<&Placed<'_>> = lines.iter().collect();
    sorted.sort_by(|a, b| a.rank.total_cmp(&b.rank));
    let wanted: Vec<usize> = sorted.into_iter().map(|placed| placed.read.line as usize).collect();
    Report::at(context, below.read.name_span, message)
        .help("put the lines in the house's order; what is poured stays the same")
        .related(context.record.place(above.read.name_span), "it belongs above this")
        .fix("put the lines in the house's order", true, reorder(context, &here, &wanted))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, fixed, message};

    const LARGEST: &str = "[cards]\nline-order = 'largest'\n";
    const PARTS: &str = "[cards]\nline-order = ['bitters', 'sour', 'sweet', 'rest', 'spirit']\n";

    #[test]
    fn the_first_line_that_stands_too_low_is_pointed_at() {
        let text = "
drink: A
  22.5 ml lemon juice
  60 ml gin
        ^^^
  22.5 ml sugar syrup, 1:1
  - shake with ice, strain
";
        check_under(&RULE, LARGEST, text);
        let text = "drink: A\n  22.5 ml lemon juice\n  60 ml gin\n  - shake with ice, strain\n";
        let said =
            "gin, 60 ml, stands below lemon juice, 22.5 ml; this house writes the most first";
        assert_eq!(message(&RULE, text, LARGEST).as_deref(), Some(said));
    }

    #[test]
    fn a_house_that_has_no_order_is_told_nothing() {
        check(&RULE, "drink: A\n  22.5 ml lemon juice\n  60 ml gin\n  - shake with ice, strain\n");
    }

    #[test]
    fn tops_counted_things_and_near_sizes_keep_their_place() {
        check_under(
            &RULE,
            LARGEST,
            "
drink: A
  8 mint leaves
  22 ml lemon juice
  22.5 ml sugar syrup, 1:1
  1 bsp maraschino liqueur
  top (90 ml) soda water
  - shake all but the soda water with ice, strain, top with soda water
",
        );
    }

    #[test]
    fn layers_and_steps_that_go_by_the_order_are_left_alone() {
        for step in ["layer in the glass", "build in order over cubed ice"] {
            let text = format!("drink: A\n  15 ml coffee liqueur\n  30 ml vodka\n  - {step}\n");
            check_under(&RULE, LARGEST, &text);
        }
    }

    #[test]
    fn lines_may_go_by_what_they_are_for() {
        check_under(
            &RULE,
            PARTS,
            "
drink: A
  2 dashes aromatic bitters
  20 ml lemon juice
  60 ml gin
  20 ml House Honey
        ^^^^^^^^^^^
  - shake with ice, strain

prep: House Honey
  200 g honey
  100 g water
  - stir
",
        );
    }

    #[test]
    fn an_infused_spirit_is_a_spirit() {
        check_under(
            &RULE,
            PARTS,
            "
drink: A
  20 ml lemon juice
  20 ml sugar syrup, 1:1
  15 ml apple juice
  60 ml Tea Gin
  - shake with ice, strain

prep: Tea Gin
  700 ml gin
  15 g black tea leaves
  - infuse for 2 hours, strain
",
        );
    }

    #[test]
    fn comments_travel_and_amounts_stay() {
        let text = "drink: A\n  # squeezed at six\n  20 ml lemon juice\n  8 mint leaves\n  \
                    60 ml gin  # ours\n  - shake with ice, double strain\n";
        let mended = "drink: A\n  60 ml gin  # ours\n  8 mint leaves\n  # squeezed at six\n  \
                      20 ml lemon juice\n  - shake with ice, double strain\n";
        assert_eq!(fixed(&RULE, text, LARGEST).as_deref(), Some(mended));
    }
}
