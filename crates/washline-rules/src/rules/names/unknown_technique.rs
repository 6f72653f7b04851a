//! A verb that is no technique.

use washline_reference::nearest::closest;
use washline_syntax::{Act, Technique};
use washline_text::{Severity, fold};

use crate::rule::rule;
use crate::words::either;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A step that opens with no known technique says nothing of ice, water or order: a
    /// misspelt `shake` is a drink with no dilution. So does a misspelt one behind a comma, `and`
    /// or `then`. The nearest technique is offered, never written unasked, since the verb decides
    /// how much water the drink gains. In a prep, where kitchens have more verbs than bars, it is
    /// only worth knowing.
    ///
    /// # Flagged
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
    ///   - garnisch with the twist
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
    ///   - garnish with the twist
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// The notation's vocabulary of techniques: words of the trade, common practice, no source.
    "unknown-technique", Names, Warning, Fixes::Unsafe, Check::Entry(find),
    why: "nobody can say how much water the step adds, or what it does"
}

/// Words that open a step and are no verbs: what follows says what is done.
const LEADS: &[&str] = &[
    "a",
    "after",
    "all",
    "alongside",
    "an",
    "as",
    "at",
    "before",
    "by",
    "do",
    "for",
    "from",
    "if",
    "in",
    "into",
    "meanwhile",
    "no",
    "note",
    "on",
    "once",
    "optional",
    "optionally",
    "over",
    "per",
    "the",
    "to",
    "until",
    "using",
    "via",
    "when",
    "while",
    "with",
    "without",
];

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    for act in &context.record.method.acts {
        let act = &act.act;
        if act.technique.is_some() || act.verb.is_empty() {
            continue;
        }
        let verb = fold(context.record.text(act.verb));
        if verb.is_empty() || LEADS.contains(&verb.as_str()) {
            continue;
        }
        sink.report(report(context, act, &verb));
    }
}

/// The techniques spelt nearly so, each by its one spelling, nearest first.
fn near(verb: &str) -> Vec<&'static str> {
    let spelt = Technique::ALL.iter().flat_map(|technique| {
        let others = technique.others().iter().copied();
        others.chain([technique.word()]).map(|word| (word, technique.word()))
    });
    let mut out: Vec<&'static str> = Vec::new();
    for (_, word) in closest(verb, spelt, 6) {
        if !out.contains(&word) {
            out.push(word);
        }
    }
    out.truncate(3);
    out
}

fn report(context: &Context<'_>, act: &Act, verb: &str) -> Report {
    let near = act.meant.map_or_else(|| near(verb), |technique| vec![technique.word()]);
    let help = match near.as_slice() {
        [] => "open the step with a technique: shake, stir, build, strain, add, heat, infuse …"
            .to_owned(),
        near => format!("did you mean {}?", either(near)),
    };
    let message = format!("`{}` is no technique", context.record.text(act.verb));
    let mut report = Report::at(context, act.verb, message).help(help);
    if context.is_prep() {
        report = report.severity(Severity::Information);
    }
    for word in near {
        let edit = context.edit(act.verb, word);
        report = report.fix(format!("write `{word}`"), false, vec![edit]);
    }
    report
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed, message, names, severity};
    use washline_text::Severity;

    #[test]
    fn the_verb_is_pointed_at() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  - shaek with ice, strain
    ^^^^^
  - then swirl
         ^^^^^
",
        );
    }

    #[test]
    fn the_nearest_is_offered() {
        let text = "drink: A\n  60 ml gin\n  - strian into the glass\n";
        let mended = "drink: A\n  60 ml gin\n  - strain into the glass\n";
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some(mended));
    }

    #[test]
    fn a_slip_behind_a_joint_is_told_once() {
        for steps in [
            "shake with ice for 12 s and strian into the glass",
            "shake with ice for 12 s, dubble strain",
            "shk with ice for 12 s, strain",
            "shake with ice for 12 s, then fien strain",
        ] {
            let text = format!(
                "drink: A\n  glass: coupe, chilled\n  contains: none\n  garnish: none\n  60 ml gin\n  \
                 22.5 ml lime juice\n  22.5 ml sugar syrup, 1:1\n  - {steps}\n"
            );
            assert_eq!(names(&text, ""), [RULE.name], "{steps}");
        }
    }

    /// What a bar pours stands behind `and` in many a step, and is no slip of a verb.
    #[test]
    fn no_ingredient_is_a_misspelt_technique() {
        let names = washline_reference::ingredients().iter().map(|ingredient| ingredient.name);
        for name in names {
            let text = format!("drink: A\n  60 ml gin\n  - add gin, {name} and {name}\n");
            assert_eq!(message(&RULE, &text, ""), None, "{name}");
        }
    }

    #[test]
    fn in_a_prep_it_is_information() {
        let prep = "prep: A\n  60 g sugar\n  - emulsify\n";
        assert_eq!(severity(&RULE, prep, ""), Some(Severity::Information));
        let drink = "drink: A\n  60 ml gin\n  - emulsify\n";
        assert_eq!(severity(&RULE, drink, ""), Some(Severity::Warning));
    }

    #[test]
    fn leading_words_are_no_verbs() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  - in a mixing glass, stir with ice for 30 s
  - over fresh ice, strain
  - Finally, top with soda
  - 12 s with ice
",
        );
    }

    #[test]
    fn every_way_to_write_a_technique_is_known() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  - Shaken hard, fine-strained
  - dirty dump
  - reverse dry shake, then double-strain
  - vac pac
    ^^^
  - whip shake, open pour
",
        );
    }
}
