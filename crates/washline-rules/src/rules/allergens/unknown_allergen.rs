//! A word of `contains:` that names no allergen.

use washline_reference::allergen_words;
use washline_reference::nearest::closest;
use washline_syntax::Key;
use washline_text::{Span, fold};

use crate::rule::rule;
use crate::words::either;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A word that names no allergen declares nothing: it is not held against what is poured,
    /// is missing from the list of allergens, and a bottle that says it is vouched for by
    /// nobody. The market's terms are known, and the short words that stand for them.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: allmond
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  orgeat
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
    ///   contains: almond
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  orgeat
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// The lists of the markets, as the reference cites them.
    "unknown-allergen", Allergens, Warning, Fixes::Unsafe, Check::Entry(find),
    why: "it declares nothing, and is held against nothing that is poured"
}

/// What `free-from:` may name beside allergens.
const CLAIMS: &[&str] = &["alcohol", "animal", "meat and fish"];

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    for key in [Key::Contains, Key::MayContain, Key::FreeFrom] {
        for (named, span) in washline_book::allergens_listed(context.record, key) {
            let word = || fold(context.record.text(span));
            let known = named.is_some() || key == Key::FreeFrom && CLAIMS.contains(&&*word());
            if !known {
                sink.report(report(context, key, span, &word()));
            }
        }
    }
}

fn report(context: &Context<'_>, key: Key, span: Span, word: &str) -> Report {
    let allergens = allergen_words().map(|(word, _)| (word, ()));
    let claims = CLAIMS.iter().filter(|_| key == Key::FreeFrom).map(|claim| (*claim, ()));
    let near: Vec<&str> =
        closest(word, claims.chain(allergens), 2).into_iter().map(|(word, ())| word).collect();
    let written = context.record.text(span);
    let help = match near.as_slice() {
        [] if key == Key::FreeFrom => {
            "write an allergen, `alcohol`, `animal` or `meat-and-fish`".to_owned()
        }
        [] => "write the allergen by its market's term; what is no allergen belongs in `note:`"
            .to_owned(),
        near => format!("did you mean {}?", either(near)),
    };
    let mut report = Report::at(context, span, format!("`{written}` names no allergen")).help(help);
    for word in near {
        let edit = context.edit(span, word);
        report = report.fix(format!("write `{word}`"), false, vec![edit]);
    }
    report
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, findings, fixed};

    #[test]
    fn the_word_is_pointed_at() {
        check(
            &RULE,
            "
drink: A
  contains: egg, gluton
                 ^^^^^^
  may-contain: dust
               ^^^^
  1 egg white
",
        );
    }

    #[test]
    fn terms_short_words_and_claims_are_known() {
        check(
            &RULE,
            "
drink: A
  contains: Cereals containing gluten, tree nuts, soya, nuts (almond), SO2
  free-from: alcohol, animal, meat-and-fish, lactose
  60 ml water

stock: Pier Gin
  kind: gin
  contains: none
",
        );
    }

    #[test]
    fn a_slip_is_one_finding() {
        let text = "drink: A\n  contains: eggg\n  1 egg white, pasteurised\n";
        let found = findings(text, "");
        let allergens = found.iter().filter(|f| f.rule.contains("allergen")).count();
        assert_eq!(allergens, 1);
        assert!(fixed(&RULE, text, "").unwrap().contains("contains: egg\n"));
    }

    #[test]
    fn a_claim_is_offered_where_one_was_meant() {
        let text = "drink: A\n  free-from: alchohol\n  60 ml water\n";
        assert!(fixed(&RULE, text, "").unwrap().contains("free-from: alcohol\n"));
    }

    #[test]
    fn a_bottle_with_a_word_nobody_knows_vouches_for_nothing() {
        check(
            &RULE,
            "
stock: Pier Cup
  kind: gin
  contains: glutten
            ^^^^^^^
",
        );
    }
}
