//! An amount that nobody can reckon with, where a figure hangs on it.

use washline_book::{Lack, Read};
use washline_measure::Unit;
use washline_syntax::{Amount, LineKind, Role};

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Strength, sugar and allergen limits are worked out from what is poured. Where a line says
    /// `top` and there is no glass to fill, or a can whose size nobody states, there are no
    /// figures for the drink, and no check that needs them has run. A pinch of spice or a leaf
    /// moves nothing and is left alone.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Slate Ferry
    ///   family: highball
    ///   glass: highball 350 ml
    ///   ice: cubed
    ///   contains: none
    ///
    ///   45 ml    gin
    ///   1 can    cola
    ///
    ///   - build over cubed ice, stir
    ///   garnish: lime wedge
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Slate Ferry
    ///   family: highball
    ///   glass: highball 350 ml
    ///   ice: cubed
    ///   contains: none
    ///
    ///   45 ml    gin
    ///   top (105 ml) cola
    ///
    ///   - build over cubed ice, stir
    ///   garnish: lime wedge
    /// ```
    ///
    /// # Source
    /// How figures are worked out from lines: the project's own; no outside source.
    "vague-amount", Measures, Information, Fixes::None, Check::Entry(find),
    why: "no figure, and no check that needs one, can be had of this spec"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    let all_known = record.reads.iter().all(Read::known);
    let open = || record.reads.iter().filter(|read| is_open(read));
    if !all_known || open().next().is_none() {
        return;
    }
    let tops = open().filter(|read| read.role == Role::Top).count();
    for read in open() {
        sink.report(report(context, read, tops));
    }
}

/// Nobody can say how much it is, and it is no mere seasoning.
fn is_open(read: &Read) -> bool {
    // What lacks a unit or a density is another rule's.
    let other = matches!(read.lacks, Some(Lack::Unit | Lack::Proportion | Lack::Density));
    let liquid = read.unit_makeup.as_ref().is_some_and(|makeup| makeup.liquid);
    let matters = liquid
        || read.ingredient().is_some_and(|known| known.sugar.is_some_and(|s| s.value > 50.0));
    let counted = read.counted || (read.role == Role::Taste && sways(read));
    read.vague && counted && matters && !other && !read.water
}

/// What to taste sways a figure: what sweetens, sours or is strong.
fn sways(read: &Read) -> bool {
    let Some(makeup) = &read.unit_makeup else { return false };
    let whole = makeup.grams_a_unit();
    whole > 0.0 && makeup.one.sugar + makeup.one.ethanol + makeup.one.acid > 0.2 * whole
}

fn report(context: &Context<'_>, read: &Read, tops: usize) -> Report {
    let record = context.record;
    let name = &read.name;
    let top = read.role == Role::Top;
    let (message, help) = if top && tops > 1 {
        (
            format!("{name} tops up, and so does another line: nobody can say how much of each"),
            "write the size of all but one: `top (60 ml) …`",
        )
    } else if top && record.glass.is_none() {
        (
            format!("{name} tops up a glass that is not said"),
            "name the glass, or write the size: `top (90 ml) …`",
        )
    } else if top {
        (
            format!("{name} tops up, and the steps do not say over what"),
            "say how the drink is made, or write the size: `top (90 ml) …`",
        )
    } else if matches!(read.unit, Some(Unit::Can | Unit::Bottle)) {
        (
            format!(
                "nobody says how large the {} of {name} is",
                read.unit.map_or("can", Unit::name)
            ),
            "write its size in brackets, `1 can (330 ml)`, or the `pack:` of its stock entry",
        )
    } else if read.role == Role::Taste {
        (
            format!("{name} to taste: sugar, acid and strength hang on it"),
            "write what it usually comes to, and let the hand correct it",
        )
    } else {
        (
            format!("nobody can say how much {name} that is"),
            "write millilitres or grams, in brackets if the card has its own words",
        )
    };
    Report::at(context, span(context, read), message).help(help)
}

/// The amount's words, or the line's where it has none.
fn span(context: &Context<'_>, read: &Read) -> washline_text::Span {
    let line = context.record.entry.lines.get(read.line as usize);
    match line.map(|line| &line.what) {
        Some(LineKind::Ingredient(line)) if !matches!(line.amount, Amount::PartOf(..)) => {
            line.amount_span
        }
        _ => read.span,
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, message};

    #[test]
    fn a_top_needs_a_glass() {
        check(
            &RULE,
            "
drink: A
  45 ml gin
  top soda water
  ^^^
  - build over ice
",
        );
        check(
            &RULE,
            "
drink: A
  glass: highball
  45 ml gin
  top soda water
  - build over ice
",
        );
    }

    #[test]
    fn two_tops_share_nobody_knows_what() {
        check(
            &RULE,
            "
drink: A
  glass: highball
  45 ml gin
  top soda water
  ^^^
  top ginger ale
  ^^^
  - build over ice
",
        );
        let text =
            "drink: A\n  glass: highball\n  top soda water\n  top ginger ale\n  - build over ice\n";
        assert!(message(&RULE, text, "").unwrap().contains("so does another line"));
    }

    #[test]
    fn a_can_needs_its_size() {
        check(
            &RULE,
            "
drink: A
  45 ml gin
  1 can cola
  ^^^^^
drink: B
  1 can (330 ml) cola
stock: C
  kind: tonic water
  pack: 200 ml
drink: D
  1 bottle C
",
        );
    }

    /// What seasons moves no figure; `a few dashes` are three to six.
    #[test]
    fn what_moves_nothing_is_silent() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  a few dashes orange bitters
  a few mint leaves
  a handful basil
  to taste salt
  rinse absinthe
  rim salt
  a pinch nutmeg
",
        );
    }

    #[test]
    fn sugar_to_taste_moves_the_figures() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  to taste sugar syrup
  ^^^^^^^^
",
        );
    }

    /// An unknown name is told by its own rule.
    #[test]
    fn an_unread_spec_is_left_alone() {
        check_under(&RULE, "", "\ndrink: A\n  45 ml moonwater\n  top soda water\n");
    }
}
