//! Sweetened twice over: by a liqueur and by a syrup, beyond the band.

use washline_book::{Figure, Read, Side};
use washline_reference::Sort;
use washline_text::Severity;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

use super::{at_line, beyond};

rule! {
    /// # Why
    /// A liqueur is half a syrup. A spec that was built with one and then sweetened with the other
    /// carries more sugar than its family does, and taking either down mends it. Several sweets within
    /// the band are nobody's fault.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: daisy
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   45 ml  tequila
    ///   45 ml  lime juice
    ///   30 ml  triple sec
    ///   30 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lime wheel
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: daisy
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   45 ml  tequila
    ///   25 ml  lime juice
    ///   25 ml  triple sec
    ///   5 ml   sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lime wheel
    /// ```
    ///
    /// # Settings
    /// ```toml
    /// [families.daisy]
    /// sugar = [4, 12]
    /// acid = [0.3, 2]
    /// ratio = [3, 20]
    /// strength = [8, 30]
    /// ```
    ///
    /// # Source
    /// Common practice, no source; the band as the families' data name it.
    "two-sweets", Balance, Hint, Fixes::None, Check::Figures(find),
    why: "the sugar came in twice, and taking one of the two down is the mend"
}

/// A source that gives less than this share of the sugar only rounds it off. Common practice, no
/// source.
const SHARE: f64 = 0.2;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if let Some((liqueur, syrup)) = sweets(context) {
        sink.report(report(context, liqueur, syrup));
    }
}

/// Whether this rule tells of the drink's sugar.
pub(super) fn tells(context: &Context<'_>) -> bool {
    sweets(context).is_some()
}

/// The liqueur and the syrup that bring most, where the sugar lies above its band and both
/// bring a good share of it.
fn sweets<'a>(context: &Context<'a>) -> Option<(&'a Read, &'a Read)> {
    beyond(context, Figure::Sugar).filter(|beyond| beyond.side == Side::Above)?;
    let counted = || context.record.reads.iter().filter(|read| read.counted);
    let all: f64 = counted().map(super::sugar).sum();
    let of = |sorts: &[Sort]| {
        let lines = || counted().filter(|read| read.sort_is(sorts));
        let share = lines().map(super::sugar).sum::<f64>() / all;
        let most = lines().max_by(|a, b| super::sugar(a).total_cmp(&super::sugar(b)))?;
        (share >= SHARE).then_some(most)
    };
    Some((of(&[Sort::Liqueur])?, of(&[Sort::Syrup, Sort::Sugar])?))
}

fn report(context: &Context<'_>, liqueur: &Read, syrup: &Read) -> Report {
    let words = beyond(context, Figure::Sugar)
        .map_or_else(String::new, |beyond| beyond.words(context, " g/100 ml"));
    let message = format!("{} and {} both sweeten: sugar is {words}", liqueur.name, syrup.name);
    at_line(context, Some(syrup), message)
        .help(format!("take {} or {} down", syrup.name, liqueur.name))
        .related(context.record.place(liqueur.span), "sweetens too")
        .severity(Severity::Hint)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, names};

    const BAND: &str = "[families.daisy]\nsugar = [4, 9]\nratio = [1, 40]\n";

    const TWICE: &str = "drink: A\n  family: daisy\n  45 ml tequila\n  30 ml lime juice\n  \
                         30 ml triple sec\n  30 ml agave syrup\n  - shake with ice, strain\n";

    #[test]
    fn it_points_at_the_syrup() {
        check_under(
            &RULE,
            BAND,
            "
drink: A
  family: daisy
  45 ml tequila
  30 ml lime juice
  30 ml triple sec
  30 ml agave syrup
  ^^^^^^^^^^^^^^^^^
  - shake with ice, strain
",
        );
    }

    /// Sugar beyond its band is told once: here by where it comes from.
    #[test]
    fn it_tells_of_the_sugar_alone() {
        let found = names(TWICE, BAND);
        assert!(found.contains(&RULE.name) && !found.contains(&"sugar-out-of-band"), "{found:?}");
    }

    #[test]
    fn dry_sugar_is_a_sweet_too() {
        let text = TWICE.replace("30 ml agave syrup", "20 g sugar");
        assert!(names(&text, BAND).contains(&RULE.name));
    }

    /// Two sweets that stay within the band, a spoon that rounds off, a syrup alone.
    #[test]
    fn within_the_band_or_from_one_source_is_no_fault() {
        for (from, to) in [
            ("30 ml agave syrup", "5 ml agave syrup"),
            ("30 ml triple sec", "5 ml triple sec"),
            ("30 ml triple sec", "15 ml mezcal"),
        ] {
            check_under(&RULE, BAND, &TWICE.replace(from, to));
        }
        check_under(&RULE, "[families.daisy]\nsugar = [4, 40]\n", TWICE);
    }

    #[test]
    fn no_band_is_nothing_to_be_beyond() {
        check(
            &RULE,
            "
drink: A
  family: none
  45 ml tequila
  30 ml triple sec
  60 ml agave syrup
  - shake with ice, strain
",
        );
    }

    /// A preparation pours nothing to a guest.
    #[test]
    fn preps_are_not_drinks() {
        check(
            &RULE,
            "
prep: Base
  300 ml triple sec
  300 ml agave syrup
  - stir until even
",
        );
    }
}
