//! A glass that looks half empty.

use washline_book::Figure;
use washline_syntax::{Ice, Key};
use washline_text::fold;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Under half of its wash line, even at its fullest, a drink looks like a mistake. A drink served down
    /// or neat is meant so.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: spirit-forward
    ///   glass: coupe 400 ml, chilled
    ///   contains: sulphites
    ///
    ///   50 ml rye whiskey
    ///   25 ml sweet vermouth
    ///   2 dashes aromatic bitters
    ///
    ///   - stir with ice for 20 s, strain into the coupe
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: spirit-forward
    ///   glass: coupe, chilled
    ///   contains: sulphites
    ///
    ///   50 ml rye whiskey
    ///   25 ml sweet vermouth
    ///   2 dashes aromatic bitters
    ///
    ///   - stir with ice for 20 s, strain into the coupe
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Half of the wash line: common practice, no source.
    "low-wash-line", Dilution, Information, Fixes::None, Check::Figures(find),
    why: "a guest sees a short pour before tasting a good one"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    let meant = record
        .terms(Key::Serve)
        .any(|(word, _)| matches!(fold(word).as_str(), "down" | "neat" | "bowl" | "bottled"));
    if !context.is_drink() || record.retired || meant || record.families.any(&["neat", "shot"]) {
        return;
    }
    // A short drink round one large piece stands low, and is meant so.
    let large = [Ice::LargeCube, Ice::Sphere, Ice::Block];
    if record.room.and_then(|room| room.ice).is_some_and(|ice| large.contains(&ice)) {
        return;
    }
    let Some(field) = record.field(Key::Glass) else { return };
    let Some(fill) = record.figures.get(Figure::GlassFill).filter(|fill| fill.high < 50.0) else {
        return;
    };
    let message = format!(
        "the glass is filled to {} % of its wash line, {} % at most",
        crate::words::number(fill.value),
        crate::words::number(fill.high)
    );
    sink.report(
        Report::at(context, field.value_span, message)
            .help("take a smaller glass, or say `serve: down`"),
    );
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::check;

    #[test]
    fn a_large_glass_is_told() {
        check(
            &RULE,
            "
drink: A
  glass: coupe 400 ml
         ^^^^^^^^^^^^
  60 ml gin
  10 ml dry vermouth
  - stir with ice, strain
",
        );
    }

    #[test]
    fn down_neat_and_full_are_silent() {
        for (head, steps) in [
            ("glass: coupe 400 ml\n  serve: down", "- stir with ice, strain"),
            ("glass: snifter\n  serve: neat", "- pour"),
            ("glass: coupe 150 ml", "- stir with ice, strain"),
            ("glass: rocks 350 ml", "- stir with ice, strain over one large cube"),
        ] {
            check(
                &RULE,
                &format!("\ndrink: A\n  {head}\n  60 ml gin\n  10 ml dry vermouth\n  {steps}\n"),
            );
        }
    }
}
