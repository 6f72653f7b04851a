//! A measure of something above 60 % vol.

use washline_book::Read;

use crate::rule::rule;
use crate::words::{list, ml, number, typed_lines};
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A measure of overproof is a measure and a half of spirit, in the glass where a guest counts
    /// one. It also lights at room temperature. It asks for a jigger, and to be told.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: none
    ///   glass: rocks 350 ml
    ///   ice: large cube
    ///   contains: none
    ///
    ///   30 ml     overproof rum
    ///   20 ml     aged rum
    ///   2 dashes  aromatic bitters
    ///
    ///   - stir with ice for 30 s, strain over one large cube
    ///   garnish: orange twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: none
    ///   glass: rocks 350 ml
    ///   ice: large cube
    ///   contains: none
    ///
    ///   15 ml     overproof rum
    ///   45 ml     aged rum
    ///   2 dashes  aromatic bitters
    ///
    ///   - stir with ice for 30 s, strain over one large cube
    ///   garnish: orange twist
    /// ```
    ///
    /// # Source
    /// 22.5 ml above 60 % vol: common practice, no source.
    "overproof", Alcohol, Information, Fixes::None, Check::Figures(find),
    why: "the guest counts one measure and drinks one and a half"
}

/// Strength above which a spirit is overproof here, % vol. Common practice, no source.
const STRONG: f64 = 60.0;
/// The most of it in a serve, ml. Common practice, no source.
const MOST: f64 = 22.5;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if !context.is_drink() {
        return;
    }
    let record = context.record;
    let strong = || record.reads.iter().filter(|read| is_overproof(read));
    let poured: f64 = strong().map(Read::volume).sum::<f64>() / record.serves;
    if poured > MOST + 0.01 {
        sink.report(report(context, &strong().collect::<Vec<_>>(), poured));
    }
}

fn is_overproof(read: &Read) -> bool {
    read.counted && abv(read) > STRONG
}

fn abv(read: &Read) -> f64 {
    read.unit_makeup.as_ref().map_or(0.0, |makeup| makeup.one.abv_percent())
}

fn report(context: &Context<'_>, lines: &[&Read], poured: f64) -> Report {
    let record = context.record;
    let names: Vec<String> =
        lines.iter().map(|read| format!("{} ({} % vol)", read.name, number(abv(read)))).collect();
    let a_serve = if record.serves > 1.0 { " a serve" } else { "" };
    let spirit: f64 =
        lines.iter().map(|read| read.volume() * abv(read)).sum::<f64>() / 40.0 / record.serves;
    let message = format!(
        "{}{a_serve} of {}: as much ethanol as {} of spirit of 40 % vol",
        ml(poured),
        list(&names),
        ml(spirit)
    );
    let at = lines.first().map_or(record.entry.name, |read| read.name_span);
    let mut report = Report::at(context, at, message)
        .key(typed_lines(record))
        .help("measure it, tell the guest, keep it from flame; a weaker bottle or a smaller measure mends it");
    for read in lines.iter().skip(1) {
        report = report.related(record.place(read.name_span), "this too");
    }
    report
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message};

    #[test]
    fn over_a_measure_of_it() {
        check(
            &RULE,
            "
drink: A
  30 ml overproof rum
        ^^^^^^^^^^^^^
  - stir with ice, strain
drink: B
  30 ml rum, 65 % abv
        ^^^
  - stir with ice, strain
drink: C
  15 ml overproof rum
        ^^^^^^^^^^^^^
  15 ml grain alcohol, 95 %
  - stir with ice, strain
",
        );
        let text = "drink: A\n  30 ml rum, 80 % abv\n  - stir with ice, strain\n";
        assert!(message(&RULE, text, "").unwrap().contains("as much ethanol as 60 ml"));
    }

    /// Navy gin in a blend, a float, a dash of it, a split batch.
    #[test]
    fn silent_where_it_is_measured_small_or_weaker() {
        check(
            &RULE,
            "
drink: A
  30 ml navy strength gin
  30 ml gin
  - stir with ice, strain
drink: B
  45 ml rum
  22.5 ml overproof rum
  - shake with ice, strain
drink: C
  60 ml rye whiskey, 57 %
  - stir with ice, strain
drink: D
  serves: 10
  200 ml overproof rum
  700 ml rum
  - stir with ice, strain
prep: E
  500 ml overproof rum
",
        );
    }
}
