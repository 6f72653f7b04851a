//! More than a tin takes with its ice.

use washline_book::is_shaken;

use crate::words::ml;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Two tins hold some 800 ml; with ice, and room for it to move, 350 ml of liquid is the most that
    /// shakes well. More is two shakes, or a batch.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   serves: 4
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   240 ml gin
    ///   90 ml lemon juice
    ///   90 ml sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   serves: 2
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   120 ml gin
    ///   45 ml lemon juice
    ///   45 ml sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// 350 ml: common practice, no source; the house sets its own as `tin` below `[limits]`.
    "over-the-tin", Dilution, Warning, Fixes::None, Check::Figures(find),
    why: "a full tin neither chills nor stays shut"
}

/// How a card says that its serves are shaken one by one.
const ONE_BY_ONE: &[&str] =
    &["each", "portion", "serve", "single", "time", "turn", "batch", "ml", "oz"];

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_drink() || record.retired {
        return;
    }
    let most = context.settings.limits.tin_ml;
    for mix in record.method.mixes.iter().filter(|mix| is_shaken(mix.technique)) {
        let reads = mix.lines.iter().filter_map(|line| record.reads.get(*line));
        let volume: f64 = reads
            .filter(|read| read.counted && !read.sort_is(&[washline_reference::Sort::Ice]))
            .map(washline_book::Read::volume)
            .sum();
        let Some(act) = record.method.act(mix.act).filter(|_| volume > most * 1.05) else {
            continue;
        };
        if act.says(&record.entry, ONE_BY_ONE) {
            continue;
        }
        let message = format!("{} in one shake, and a tin takes {}", ml(volume), ml(most));
        sink.report(
            Report::at(context, act.span(), message)
                .help("shake it in two, or batch it with its water and pour it cold"),
        );
        return;
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under};

    const FOUR: &str = "
drink: A
  serves: 4
  240 ml gin
  90 ml lemon juice
  90 ml sugar syrup, 1:1
  - shake with ice, strain
";

    #[test]
    fn four_in_one_tin_are_told() {
        check(
            &RULE,
            "
drink: A
  serves: 4
  240 ml gin
  90 ml lemon juice
  90 ml sugar syrup, 1:1
  - shake with ice, strain
    ^^^^^^^^^^^^^^
",
        );
    }

    #[test]
    fn the_house_may_have_larger_tins() {
        check_under(&RULE, "[limits]\ntin = \"500 ml\"\n", FOUR);
    }

    #[test]
    fn what_fits_and_what_is_stirred_is_silent() {
        check(&RULE, "\ndrink: A\n  60 ml gin\n  300 ml soda water\n  - build over ice\n");
        check(&RULE, "\ndrink: A\n  120 ml gin\n  45 ml lemon juice\n  - shake with ice, strain\n");
        check(&RULE, "\ndrink: A\n  serves: 10\n  600 ml gin\n  - stir with ice, strain\n");
    }

    #[test]
    fn serves_shaken_one_by_one_are_silent() {
        for steps in ["- shake each serve with ice, strain", "- shake 110 ml with ice, strain"] {
            check(
                &RULE,
                &format!(
                    "\ndrink: A\n  serves: 10\n  600 ml gin\n  250 ml lemon juice\n  250 ml sugar syrup, 1:1\n  {steps}\n"
                ),
            );
        }
    }
}
