//! An entry that is not as the house does such things.

use washline_book::{Expectation, Wanted};
use washline_syntax::{Field, Key, Technique};
use washline_text::{Kind, fold};

use crate::rule::rule;
use crate::words::either;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A house has habits that no rule of the trade knows: all highballs on one spear, every egg
    /// drink double strained, each batch with a place in the cellar. `[[expect]]` says them once, for
    /// entries of a kind, a family or a tag, and this rule holds the cards to them.
    ///
    /// # Settings
    /// ```toml
    /// [[expect]]
    /// family = "sour"
    /// field = "glass"
    /// is = "coupe"
    /// because = "the house has no other stemmed glass"
    /// ```
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: small tulip, chilled
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
    /// The house's `washline.toml`.
    "expected-by-house", House, Warning, Fixes::None, Check::Entry(find),
    why: "the house does all such drinks one way, and the guest expects the same twice"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let expected = &context.settings.expect;
    if expected.is_empty() || context.record.retired {
        return;
    }
    for one in expected.iter().filter(|one| speaks_of(one, context)) {
        let Some(report) = missed(context, &one.wants) else { continue };
        sink.report(match &one.because {
            Some(because) => report.why(because),
            None => report,
        });
    }
}

/// Whether the expectation is about the entry. A family that the card does not state is none.
fn speaks_of(one: &Expectation, context: &Context<'_>) -> bool {
    let record = context.record;
    let family = |name: &String| !record.families.inferred && record.families.is(name);
    let tagged = |tag: &String| record.terms(Key::Tags).any(|(word, _)| fold(word) == *tag);
    one.of == record.kind
        && one.family.as_ref().is_none_or(family)
        && one.tag.as_ref().is_none_or(tagged)
}

fn missed(context: &Context<'_>, wants: &Wanted) -> Option<Report> {
    match wants {
        Wanted::Field(key) => no_field(context, *key, &[]),
        Wanted::Word(key, words) => match context.record.field(*key) {
            None => no_field(context, *key, words),
            Some(field) => other_word(context, *key, field, words),
        },
        Wanted::Step(technique) => no_step(context, *technique),
    }
}

fn no_field(context: &Context<'_>, key: Key, words: &[String]) -> Option<Report> {
    let cards = &context.settings.cards;
    let asked_of_all = match context.record.kind {
        Kind::Drink => &cards.drink_needs,
        Kind::Prep => &cards.prep_needs,
        Kind::Stock => &cards.stock_needs,
    };
    if context.record.field(key).is_some() || asked_of_all.contains(&key) {
        return None;
    }
    let word = key.word();
    let (message, help) = match words {
        [] => (format!("no `{word}:`; this house expects it here"), format!("write `{word}:`")),
        words => (
            format!("no `{word}:`; this house expects {} here", either(words)),
            format!("write `{word}:` with {}", either(words)),
        ),
    };
    Some(Report::entry(context, message).help(help).key(word))
}

fn other_word(context: &Context<'_>, key: Key, field: &Field, words: &[String]) -> Option<Report> {
    let written = context.record.text(field.value_span);
    if words.iter().any(|word| says(written, word)) {
        return None;
    }
    let message = format!("`{}: {written}`; this house expects {} here", key.word(), either(words));
    Some(
        Report::at(context, field.value_span, message)
            .help(format!("write {}, or waive the rule with the reason", either(words)))
            .key(key.word()),
    )
}

/// Whether the words of `wanted` stand in `written`, side by side.
fn says(written: &str, wanted: &str) -> bool {
    let words = |text: &str| -> Vec<String> {
        let folded = fold(text);
        let words = folded.split(|c: char| !c.is_alphanumeric() && c != '\'');
        words.filter(|word| !word.is_empty()).map(str::to_owned).collect()
    };
    let wanted = words(wanted);
    !wanted.is_empty() && words(written).windows(wanted.len()).any(|run| run == wanted)
}

fn no_step(context: &Context<'_>, technique: Technique) -> Option<Report> {
    let method = &context.record.method;
    // A card with no steps at all is told that.
    if method.acts.is_empty() || method.has(same_or_more(&technique)) {
        return None;
    }
    let word = technique.word();
    let message = format!("no step says `{word}`; this house expects it here");
    Some(Report::entry(context, message).help(format!("write `- {word} …`")).key(word))
}

/// The techniques that do what is asked for, and more.
const fn same_or_more(technique: &Technique) -> &[Technique] {
    match technique {
        Technique::Shake => &[Technique::Shake, Technique::HardShake, Technique::WetShake],
        Technique::Strain => &[Technique::Strain, Technique::DoubleStrain, Technique::FineStrain],
        Technique::DoubleStrain | Technique::FineStrain => {
            &[Technique::DoubleStrain, Technique::FineStrain]
        }
        one => std::slice::from_ref(one),
    }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check_under, findings, message};

    const SPEAR: &str = "[[expect]]\nfamily = 'highball'\nfield = 'ice'\n\
                         is = ['spear', 'large cube']\nbecause = 'one spear lasts the drink'\n";

    #[test]
    fn another_word_is_pointed_at() {
        check_under(
            &RULE,
            SPEAR,
            "
drink: A
  family: highball
  ice: crushed
       ^^^^^^^
drink: B
  family: highball
  ice: large cube
drink: C
  family: buck
  ice: crushed
",
        );
    }

    #[test]
    fn the_houses_reason_is_told() {
        let found = findings("drink: A\n  family: highball\n  ice: crushed\n", SPEAR);
        let one = found.iter().find(|finding| finding.rule == RULE.name).unwrap();
        assert_eq!(one.why, "one spear lasts the drink");
        assert_eq!(one.message, "`ice: crushed`; this house expects `spear` or `large cube` here");
    }

    #[test]
    fn a_missing_field_is_told_at_the_name() {
        check_under(
            &RULE,
            SPEAR,
            "
drink: A
       ^
  family: highball
",
        );
    }

    #[test]
    fn a_family_that_is_only_inferred_is_no_ground() {
        check_under(
            &RULE,
            SPEAR,
            "
drink: A
  glass: highball
  50 ml gin
  top (120 ml) tonic water
  - build over crushed ice
",
        );
    }

    #[test]
    fn a_step_may_be_expected_and_a_finer_one_will_do() {
        let strain = "[[expect]]\nfamily = 'sour'\nstep = 'strain'\n[[expect]]\ntag = 'egg'\n\
                      step = 'dry shake'\n";
        check_under(
            &RULE,
            strain,
            "
drink: A
  family: sour
  - shake with ice, double strain
drink: B
       ^
  family: sour
  - shake with ice, open pour
drink: C
       ^
  tags: frothy, Egg
  - shake with ice, strain
drink: D
  family: sour
",
        );
    }

    #[test]
    fn preps_and_stock_have_habits_too() {
        let store = "[[expect]]\nof = 'prep'\ntag = 'batch'\nfield = 'store'\n";
        check_under(
            &RULE,
            store,
            "
prep: A
      ^
  tags: batch
prep: B
  tags: syrup
prep: C
  tags: batch
  store: cellar
drink: D
  tags: batch
",
        );
    }

    #[test]
    fn words_stand_side_by_side() {
        let glass = "[[expect]]\nfield = 'glass'\nis = 'small tulip'\n";
        check_under(&RULE, glass, "drink: A\n  glass: small tulip 150 ml, chilled\n");
        let said = message(&RULE, "drink: A\n  glass: tulip, small\n", glass);
        assert!(said.is_some());
    }

    #[test]
    fn last_years_list_keeps_its_habits() {
        check_under(
            &RULE,
            SPEAR,
            "drink: A\n  status: retired\n  family: highball\n  ice: crushed\n",
        );
    }
}
