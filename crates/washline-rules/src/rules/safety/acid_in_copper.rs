//! A sour drink in bare copper.

use washline_book::Figure;
use washline_reference::Market;
use washline_syntax::Key;
use washline_text::fold;

use super::{CODES, notes};
use crate::rule::rule;
use crate::words::number;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Lime takes copper off an unlined mug, the more the longer it stands, and copper upsets the stomach. In the
    /// United States the food code keeps bare copper away from anything below pH 6; a mug lined with steel or tin is
    /// all right.
    ///
    /// # Settings
    /// ```toml
    /// market = "us"
    /// ```
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: buck
    ///   glass: copper mug 420 ml
    ///   ice: cubed
    ///   contains: none
    ///
    ///   50 ml   vodka
    ///   15 ml   lime juice
    ///   100 ml  ginger beer
    ///
    ///   - build over ice, top with ginger beer
    ///   garnish: lime wedge
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: buck
    ///   glass: copper mug 420 ml
    ///   ice: cubed
    ///   contains: none
    ///   note: the mugs are lined with steel.
    ///
    ///   50 ml   vodka
    ///   15 ml   lime juice
    ///   100 ml  ginger beer
    ///
    ///   - build over ice, top with ginger beer
    ///   garnish: lime wedge
    /// ```
    ///
    /// # Source
    /// FDA Food Code 4-101.14 (from memory), as states adopt it.
    "acid-in-copper", Safety, Information, Fixes::None, Check::Figures(find),
    why: "acid takes copper off a bare mug, and copper upsets the stomach"
}

/// Acid from which a drink is surely below pH 6, g/100 ml.
const SOUR: f64 = 0.05;
/// Words for a mug that no acid reaches.
const LINED: &[&str] = &["lined", "steel", "tinned", "nickel", "lacquered", "plated"];

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_drink() || record.retired || !context.settings.follows(Market::Us) {
        return;
    }
    let field = [Key::Glass, Key::Vessel].iter().find_map(|key| {
        let field = record.field(*key)?;
        let words = fold(record.text(field.value_span));
        (words.contains("copper") && !LINED.iter().any(|word| words.contains(word)))
            .then_some(field)
    });
    let Some(field) = field else { return };
    let Some(acid) = context.figure(Figure::Acid).filter(|acid| *acid >= SOUR) else { return };
    if notes(record, LINED) {
        return;
    }
    let message = format!("{} % acid in copper, and nobody says that it is lined", number(acid));
    sink.report(
        Report::at(context, field.value_span, message)
            .help(format!("serve it in a mug that is lined, and say `lined` in `note:`; {CODES}")),
    );
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, message};

    const SOUR: &str = "drink: A\n  glass: copper mug\n  50 ml vodka\n  15 ml lime juice\n  100 ml ginger beer\n  - build over ice\n";

    #[test]
    fn lime_in_bare_copper() {
        check_under(
            &RULE,
            "market = \"us\"\n",
            "
drink: A
  glass: copper mug
         ^^^^^^^^^^
  50 ml vodka
  15 ml lime juice
  100 ml ginger beer
  - build over ice
",
        );
        let said = message(&RULE, SOUR, "market = \"us\"\n").unwrap();
        assert!(said.ends_with("% acid in copper, and nobody says that it is lined"), "{said}");
    }

    /// The code of one market alone.
    #[test]
    fn silent_in_other_markets() {
        check(&RULE, SOUR);
        check_under(&RULE, "market = \"eu\"\n", SOUR);
    }

    /// Lined, of steel, of glass, or with nothing sour in it.
    #[test]
    fn silent_where_no_acid_meets_copper() {
        check_under(
            &RULE,
            "market = \"us\"\n",
            "
drink: A
  glass: copper mug
  note: steel-lined mugs
  50 ml vodka
  15 ml lime juice
  - build over ice
drink: B
  glass: highball
  50 ml vodka
  15 ml lime juice
  - build over ice
drink: C
  glass: copper mug
  50 ml vodka
  100 ml soda water
  - build over ice
",
        );
    }
}
