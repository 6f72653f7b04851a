//! A batch that freezes hard where it is kept.

use washline_book::Figure;
use washline_syntax::{Key, Technique, Value};
use washline_text::{Span, fold};

use crate::words::number;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// What is kept in the freezer stays pourable above some 33 % vol; at 22 a third of it is ice, and
    /// still pours as slush. Much weaker, or sweet and weak, it sets, swells and can burst its bottle.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: aperitif
    ///   glass: coupe, chilled
    ///   serve: bottled
    ///   serves: 8
    ///   contains: sulphites
    ///
    ///   300 ml sweet vermouth
    ///   50 ml gin
    ///   300 ml water
    ///
    ///   - stir, bottle, freeze overnight
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: spirit-forward
    ///   glass: coupe, chilled
    ///   serve: bottled
    ///   serves: 8
    ///   contains: sulphites
    ///
    ///   200 ml sweet vermouth
    ///   400 ml gin
    ///   100 ml water
    ///
    ///   - stir, bottle, freeze overnight
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Freezing points of ethanol and sucrose solutions: CRC Handbook of Chemistry and Physics, 102nd ed.
    /// Half ice: common practice, no source.
    "freezes", Dilution, Warning, Fixes::None, Check::Figures(find),
    why: "a bottle that freezes through can burst, and pours nothing till it thaws"
}

/// A bottle more than half ice sets hard. Common practice, no source.
const HARD: f64 = 50.0;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if record.retired || context.figure(Figure::Abv).is_none_or(|abv| abv < 0.5) {
        return;
    }
    let Some(span) = in_the_freezer(context) else { return };
    let Some(ice) = record.figures.get(Figure::IceShare).filter(|ice| ice.low > HARD) else {
        return;
    };
    let message = format!(
        "{} % of it is ice at {} °C ({} to {})",
        number(ice.value),
        number(context.settings.temperatures.freezer),
        number(ice.low),
        number(ice.high)
    );
    sink.report(
        Report::at(context, span, message).help(
            "keep it in the fridge, add less water, or leave the bottle a fifth empty and open",
        ),
    );
}

/// The words that put a bottled drink or a prep into the freezer.
fn in_the_freezer(context: &Context<'_>) -> Option<Span> {
    let record = context.record;
    let keeps = record.field(Key::Keeps).filter(|field| match &field.value {
        Value::Keeps { places, .. } => {
            places.iter().any(|place| fold(record.text(*place)) == "frozen")
        }
        _ => false,
    });
    let store =
        || record.field(Key::Store).filter(|f| fold(record.text(f.value_span)).contains("freezer"));
    if let Some(field) = keeps.or_else(store) {
        return Some(field.value_span);
    }
    let freeze = record.method.acts.iter().find(|act| act.is(&[Technique::Freeze]));
    let bottled = record.method.has(&[Technique::Bottle]);
    freeze.filter(|_| bottled).map(washline_book::ActRead::span)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::check;

    #[test]
    fn a_weak_bottle_sets_hard() {
        check(
            &RULE,
            "
drink: A
  serve: bottled
  300 ml sweet vermouth
  50 ml gin
  300 ml water
  - stir, bottle, freeze
                  ^^^^^^
",
        );
    }

    #[test]
    fn slush_strong_and_juice_are_silent() {
        check(
            &RULE,
            "
drink: A
  serve: bottled
  400 ml gin
  200 ml sweet vermouth
  150 ml water
  - stir, bottle, freeze
",
        );
        check(
            &RULE,
            "
prep: Cubes
  keeps: 4 weeks frozen
  500 ml lime juice
  - freeze
",
        );
        check(
            &RULE,
            "
drink: A
  serve: bottled
  300 ml sweet vermouth
  200 ml water
  - stir, bottle, refrigerate
",
        );
    }
}
