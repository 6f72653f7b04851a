//! A word that its field does not know.

use washline_book::{Record, allergens_named_by};
use washline_reference as reference;
use washline_reference::nearest::closest;
use washline_reference::{Allergen, allergen_from_word, allergen_words};
use washline_syntax::{Field, Key, LineKind, Value};
use washline_text::{Edit, Kind, Place, fold};

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

mod markets;

rule! {
    /// # Why
    /// Some fields have a vocabulary: families of drinks, allergens, markets, ways to serve, kinds
    /// of ice, the ingredients that a `kind:` can be. A word outside it is kept on the card and
    /// compared with nothing, so an allergen with a slip in it is as good as not declared.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sours
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml (2 oz) gin
    ///   22.5 ml (3/4 oz) lemon juice
    ///   22.5 ml (3/4 oz) sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// ```pour
    /// book: The Copper Heron
    ///   market: uk, eeu
    ///
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml (2 oz) gin
    ///   22.5 ml (3/4 oz) lemon juice
    ///   22.5 ml (3/4 oz) sugar syrup, 1:1
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
    ///   60 ml (2 oz) gin
    ///   22.5 ml (3/4 oz) lemon juice
    ///   22.5 ml (3/4 oz) sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// ```pour
    /// book: The Copper Heron
    ///   market: uk, eu
    ///
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml (2 oz) gin
    ///   22.5 ml (3/4 oz) lemon juice
    ///   22.5 ml (3/4 oz) sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// The notation: the words of `family`, `serve`, `ice`, `status`, `contains` and the others. The
    /// allergens' words: the laws of the five markets.
    "unknown-value", Notation, Warning, Fixes::Unsafe, Check::EntryAndFrame(find, markets::find),
    why: "a family, an allergen or a market that nobody knows is held against nothing"
}

/// The words of the notation's own fields are found as they are read; these need the reference.
fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    families(context, sink);
    for line in &record.entry.lines {
        let LineKind::Field(field) = &line.what else { continue };
        match field.key {
            Some(Key::Contains | Key::MayContain) => allergens(record, field, &[], sink),
            Some(Key::FreeFrom) => allergens(record, field, CLAIMS, sink),
            Some(Key::Kind) if record.kind == Kind::Stock => kind(record, field, sink),
            _ => {}
        }
    }
}

/// What else a drink may be free from.
const CLAIMS: &[&str] = washline_syntax::vocabulary::values(Key::FreeFrom);

/// Other words for what is claimed or declared.
const OTHER_WORDS: &[(&str, &str)] = &[
    ("vegan", "animal"),
    ("animal products", "animal"),
    ("vegetarian", "meat-and-fish"),
    ("meat", "meat-and-fish"),
    ("booze", "alcohol"),
];

fn families(context: &Context<'_>, sink: &mut Sink<'_>) {
    let (record, settings) = (context.record, context.settings);
    for span in &record.families.unknown {
        let own = settings.families.keys().map(String::as_str);
        let words: Vec<&str> = reference::families().iter().map(|f| f.name).chain(own).collect();
        let word = fold(record.text(*span)).replace(' ', "-");
        let near = closest(&word, words.iter().map(|name| (*name, ())), 1);
        let meant = near.first().map(|(name, ())| (*name).to_owned());
        let place = record.place(*span);
        let report = Report::on(record, place, no_word(record.text(*span), Key::Family));
        sink.report(with_help(report, place, meant, &words));
    }
}

fn allergens(record: &Record, field: &Field, claims: &[&'static str], sink: &mut Sink<'_>) {
    let (Value::Terms(terms), Some(key)) = (&field.value, field.key) else { return };
    for span in terms {
        let word = fold(record.text(*span));
        let claim = claims.iter().any(|claim| fold(claim) == word);
        if word == "none" || claim || !allergens_named_by(&word).is_empty() {
            continue;
        }
        let words: Vec<&str> =
            Allergen::ALL.iter().map(|a| a.id()).chain(claims.iter().copied()).collect();
        let place = record.place(*span);
        let report = Report::on(record, place, no_word(record.text(*span), key));
        if key != Key::FreeFrom && terms.len() == 1 && NOTHING.contains(&word.as_str()) {
            sink.report(nothing(report, place));
            continue;
        }
        sink.report(with_help(report, place, meant(&word, claims), &words));
    }
}

/// Other words for `none`, folded.
const NOTHING: &[&str] =
    &["no", "nothing", "nil", "no allergens", "no allergen", "nothing known", "n/a", "na", "0"];

/// That nothing is in it is for the house to state, in the one word that says so.
fn nothing(report: Report, place: Place) -> Report {
    let help = "if every label was read and nothing has to be declared, write `none`; else leave \
                the line out until somebody knows";
    with_fix(report.help(help), place, Some("none".to_owned()))
}

/// The allergen or claim that a folded word nearly is, or those that its words are.
fn meant(word: &str, claims: &[&'static str]) -> Option<String> {
    let other = OTHER_WORDS.iter().find(|(other, to)| *other == word && claims.contains(to));
    if let Some((_, claim)) = other {
        return Some((*claim).to_owned());
    }
    let known = allergen_words().map(|(name, _)| name).chain(claims.iter().copied());
    if let Some((name, ())) = closest(word, known.map(|name| (name, ())), 1).first() {
        return Some((*name).to_owned());
    }
    // Words of several may name it: `cow's milk`, `eggs and nuts`. None of them may get lost.
    let mut named: Vec<(Allergen, &str)> = Vec::new();
    for part in word.split([' ', '(', ')', '/', '+']).filter(|part| !part.is_empty()) {
        let Some((allergen, _)) = allergen_from_word(part) else { continue };
        match named.iter_mut().find(|(known, _)| *known == allergen) {
            Some((_, last)) => *last = part,
            None => named.push((allergen, part)),
        }
    }
    let words: Vec<&str> = named.into_iter().map(|(_, part)| part).collect();
    (!words.is_empty()).then(|| words.join(", "))
}

fn kind(record: &Record, field: &Field, sink: &mut Sink<'_>) {
    let written = record.text(field.value_span);
    let word = fold(written);
    if word.is_empty() || reference::lookup(&word).is_some() {
        return;
    }
    let place = record.place(field.value_span);
    let message = format!("`{written}` is no kind that the reference knows");
    let report = Report::on(record, place, message);
    let near = reference::nearest(&word, 1).first().map(|known| known.name.to_owned());
    let report = match &near {
        Some(name) => report.help(format!("did you mean `{name}`?")),
        None => report.help("write a plain word for it: gin, dry vermouth, orange liqueur"),
    };
    sink.report(with_fix(report, place, near));
}

fn no_word(written: &str, key: Key) -> String {
    format!("`{written}` is no word of `{}`", key.word())
}

fn with_help(report: Report, place: Place, meant: Option<String>, words: &[&str]) -> Report {
    let all = words.join(", ");
    let help = match &meant {
        Some(word) => format!("did you mean `{word}`? The words are: {all}"),
        None => format!("the words are: {all}"),
    };
    with_fix(report.help(help), place, meant)
}

fn with_fix(report: Report, place: Place, meant: Option<String>) -> Report {
    let Some(word) = meant else { return report };
    let edit = Edit::new(place.span, word.clone());
    report.fix(format!("write `{word}`"), false, vec![(place.file, edit)])
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, findings, fixed, message, severity};
    use washline_text::Severity;

    #[test]
    fn that_nothing_is_in_it_is_for_the_house_to_state() {
        for said in ["no", "Nothing", "no allergens"] {
            let text = format!("drink: A\n  contains: {said}\n  60 ml gin\n");
            let after = "drink: A\n  contains: none\n  60 ml gin\n";
            assert_eq!(fixed(&RULE, &text, "").as_deref(), Some(after), "{said}");
            let found = findings(&text, "");
            let fixes = found.iter().filter(|f| f.rule == RULE.name).flat_map(|f| &f.fixes);
            assert!(fixes.clone().count() == 1 && fixes.clone().all(|fix| !fix.safe), "{said}");
        }
        let claim = "drink: A\n  free-from: nothing\n  60 ml gin\n";
        assert_eq!(fixed(&RULE, claim, ""), None);
    }

    /// Of two allergens in one term none gets lost.
    #[test]
    fn a_term_of_several_allergens_is_taken_apart() {
        for said in ["eggs and nuts", "eggs/nuts", "eggs + nuts"] {
            let text = format!("drink: A\n  contains: {said}\n  60 ml gin\n");
            let after = "drink: A\n  contains: eggs, nuts\n  60 ml gin\n";
            assert_eq!(fixed(&RULE, &text, "").as_deref(), Some(after), "{said}");
        }
    }

    #[test]
    fn families_are_known() {
        check(
            &RULE,
            "
drink: A
  family: sours, fizz
          ^^^^^
  60 ml gin
drink: B
  family: Egg Sour
  60 ml gin
drink: C
  family: none
  60 ml gin
",
        );
        let text = "drink: A\n  family: sours\n";
        assert_eq!(message(&RULE, text, "").as_deref(), Some("`sours` is no word of `family`"));
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Warning));
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some("drink: A\n  family: sour\n"));
    }

    #[test]
    fn a_house_may_add_families() {
        check_under(
            &RULE,
            "[families.clarified]\nlike = \"sour\"\n",
            "
drink: A
  family: clarified
  60 ml gin
",
        );
    }

    #[test]
    fn allergens_are_known() {
        check(
            &RULE,
            "
drink: A
  contains: mlik, sulfites, hazelnut, tree nuts (almond, pecan), gluten (barley)
            ^^^^
  may-contain: gluten, crumbs
                       ^^^^^^
  free-from: alcohol, animal, meat-and-fish, egg, vegan
                                                  ^^^^^
  60 ml gin
",
        );
        let check = |written: &str, meant: &str| {
            let text = format!("drink: A\n  contains: {written}\n");
            let expected = format!("drink: A\n  contains: {meant}\n");
            assert_eq!(fixed(&RULE, &text, "").as_deref(), Some(expected.as_str()), "{written}");
        };
        check("mlik", "milk");
        check("cow's milk", "milk");
        let text = "drink: A\n  free-from: vegan\n";
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some("drink: A\n  free-from: animal\n"));
    }

    #[test]
    fn markets_are_known() {
        check(
            &RULE,
            "
book: The Copper Heron
  market: uk, mars, AU-NZ
              ^^^^
drink: A
  60 ml gin
",
        );
        let text = "book: The Copper Heron
  market: Great Britain
";
        let after = "book: The Copper Heron
  market: uk
";
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some(after));
    }

    #[test]
    fn kinds_are_known() {
        check(
            &RULE,
            "
stock: Orchard Row
  kind: per brandy
        ^^^^^^^^^^
stock: Copper Hill
  kind: London dry gin
",
        );
    }

    #[test]
    fn the_notations_own_words_are_known() {
        check(
            &RULE,
            "
drink: A
  serve: rokcs
         ^^^^^
  ice: large cube
  60 ml gin
drink: B
  serve: rokcs
         ^^^^^
  tags: whatever the house likes
  60 ml gin
",
        );
    }

    #[test]
    fn none_beside_a_word_is_another_mistake() {
        check(
            &RULE,
            "
drink: A
  contains: none, milk
  60 ml gin
",
        );
    }
}
