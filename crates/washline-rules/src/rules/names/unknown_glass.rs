//! A glass that nothing knows.

use washline_reference::nearest::closest;
use washline_reference::{glass_names, glasses};
use washline_syntax::{Key, Value};
use washline_text::{Span, fold};

use crate::rule::rule;
use crate::words::either;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Of a glass that nobody knows nobody can say what it holds, so no one can tell whether
    /// the drink fills it or runs over. A house glass is listed with its capacity in
    /// `washline.toml`, or says it here: `glass: ram horn 350 ml`.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coup, chilled
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
    /// The glasses of the reference: common practice, no source; and those that the house lists.
    "unknown-glass", Names, Warning, Fixes::Unsafe, Check::Entry(find),
    why: "nobody can say whether the drink fills it or runs over"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if context.record.glass.is_some() {
        return;
    }
    let Some(field) = context.record.field(Key::Glass) else { return };
    let Value::Vessel { name, capacity, .. } = &field.value else { return };
    let key = fold(context.record.text(*name));
    if key.is_empty() || context.settings.glasses.contains_key(&key) {
        return;
    }
    let near = near(context, &key);
    // A house glass that says what it holds is known well enough; a slip of the pen is not.
    if capacity.is_none() || !near.is_empty() {
        sink.report(report(context, *name, &near));
    }
}

/// The house's own glasses and the reference's that are spelt nearly so, nearest first.
fn near(context: &Context<'_>, key: &str) -> Vec<String> {
    let own = context.settings.glasses.keys().map(|name| (name.as_str(), None));
    let known = glass_names().map(|(name, place)| (name, Some(place)));
    let mut out: Vec<String> = Vec::new();
    for (name, place) in closest(key, own.chain(known), 6) {
        let glass = place.and_then(|place| glasses().get(usize::from(place)));
        let name = glass.map_or(name, |glass| glass.name);
        if out.iter().all(|other| other != name) {
            out.push(name.to_owned());
        }
    }
    out.truncate(3);
    out
}

fn report(context: &Context<'_>, name: Span, near: &[String]) -> Report {
    let own = "give a glass of the house its capacity: `[glasses]` in `washline.toml`, or `glass: NAME 160 ml`";
    let help = match near {
        [] => own.to_owned(),
        near => format!("did you mean {}? Else {own}", either(near)),
    };
    let written = context.record.text(name);
    let mut report =
        Report::at(context, name, format!("no glass is called `{written}`")).help(help);
    for name_of in near {
        let edit = context.edit(name, name_of.clone());
        report = report.fix(format!("write `{name_of}`"), false, vec![edit]);
    }
    report
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, fixed};

    #[test]
    fn the_name_alone_is_pointed_at() {
        check(
            &RULE,
            "
drink: A
  glass: chilled cuope, salted
                 ^^^^^
  60 ml gin
",
        );
        let text = "drink: A\n  glass: higball\n  60 ml gin\n";
        assert_eq!(fixed(&RULE, text, "").unwrap(), "drink: A\n  glass: highball\n  60 ml gin\n");
    }

    #[test]
    fn words_about_a_glass_are_no_name() {
        check(
            &RULE,
            "
drink: A
  glass: small coupe, chilled

drink: B
  glass: double rocks glass

drink: C
  glass: none

drink: D
  60 ml gin
",
        );
    }

    #[test]
    fn a_glass_of_the_house_is_known() {
        let text = "
drink: A
  glass: ram horn
         ^^^^^^^^
  60 ml gin
";
        check(&RULE, text);
        let listed = "[glasses]\n\"ram horn\" = \"350 ml\"\n";
        check_under(&RULE, listed, "drink: A\n  glass: ram horn\n  60 ml gin\n");
    }

    #[test]
    fn one_that_says_what_it_holds_is_known_well_enough() {
        check(&RULE, "drink: A\n  glass: ram horn 350 ml\n  60 ml gin\n");
        check(
            &RULE,
            "
drink: A
  glass: copue 160 ml
         ^^^^^
  60 ml gin
",
        );
    }
}
