//! Why a rule exists, and what the reference knows of an ingredient.

mod ingredient;
mod rule;

use washline_reference as reference;
use washline_reference::Trust;
use washline_text::fold;

/// What `word` means: a rule, an ingredient, or both, the rule first.
///
/// # Errors
/// The nearest names, for a word that is neither.
pub fn explain(word: &str) -> Result<String, Vec<String>> {
    let folded = fold(word);
    let rule = washline_rules::find(&folded.replace(' ', "-"));
    let ingredient = reference::lookup(&folded);
    let mut out = String::new();
    if let Some(rule) = rule {
        rule::write(rule, &mut out);
    }
    if let Some(ingredient) = ingredient {
        if rule.is_some() {
            out.push('\n');
        }
        ingredient::write(ingredient, &mut out);
    }
    if out.is_empty() { Err(nearest(&folded)) } else { Ok(out) }
}

/// Every rule, group by group, with its severity and why it matters.
#[must_use]
pub fn rules() -> String {
    format!("{}\n{}\n", rule::list().trim_end(), trust())
}

/// How many ingredients the reference has, and how well their values are known.
fn trust() -> String {
    let shares = reference::trust_shares().map(|(trust, share)| {
        let word = match trust {
            Trust::Published => "published",
            Trust::CommonPractice => "common practice",
            Trust::Memory => "from memory",
        };
        format!("{:.0} % {word}", 100.0 * share)
    });
    format!(
        "\nThe reference knows {} ingredients; of their values {}.\n\
         `washline explain INGREDIENT` says which, value by value.",
        reference::ingredients().len(),
        shares.join(", ")
    )
}

fn nearest(folded: &str) -> Vec<String> {
    let word = folded.replace(' ', "-");
    let rules = washline_rules::all().map(|rule| (rule.name, ()));
    let rules = reference::nearest::closest(&word, rules, 3).into_iter().map(|(name, ())| name);
    let known = reference::nearest(folded, 3).into_iter().map(|known| known.name);
    rules.chain(known).take(4).map(str::to_owned).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_rule_shows_the_spec_before_and_after() {
        let told = explain("Measures disagree").unwrap();
        for part in ["measures-disagree", "Why\n", "Flagged\n", "Mended\n", "Source\n"] {
            assert!(told.contains(part), "{part} in {told}");
        }
    }

    #[test]
    fn the_list_says_how_well_the_values_are_known() {
        let told = rules();
        for part in ["too-tart", "ingredients; of their values", "% published", "% from memory"] {
            assert!(told.contains(part), "{part} in {told}");
        }
    }

    #[test]
    fn a_word_that_is_neither_is_answered_with_the_nearest() {
        let near = explain("lime jiuce").unwrap_err();
        assert_eq!(near.first().map(String::as_str), Some("lime juice"));
        let near = explain("measures-disagre").unwrap_err();
        assert_eq!(near.first().map(String::as_str), Some("measures-disagree"));
        assert_eq!(explain("zzzzzzzzzzzzzz"), Err(Vec::new()));
    }
}
