//! What is done: techniques, the ingredients they are done to, the ice they are done with.

use std::collections::BTreeSet;

use washline_book::is_mix;
use washline_reference as reference;
use washline_syntax::{Technique, technique_at_start};
use washline_text::{Kind, fold};

use super::ItemKind;
use super::offers::{Offers, Word};
use super::site::Place;
use crate::Topic;

/// The techniques: of service first, in a prep those of preparation.
pub(super) fn acts(place: &Place<'_>, offers: &mut Offers) {
    let first = Technique::ALL.iter().position(|technique| *technique == Technique::Heat);
    let (service, preparation) = Technique::ALL.split_at(first.unwrap_or_default());
    let is_prep = place.record().is_some_and(|record| record.kind == Kind::Prep);
    let (first, last) = if is_prep { (preparation, service) } else { (service, preparation) };
    for technique in first.iter().chain(last) {
        let others = technique.others().join(", ");
        offers.word(Word {
            label: technique.word(),
            detail: if others.is_empty() { "a technique".to_owned() } else { others },
            kind: ItemKind::Technique,
            topic: Some(Topic::Technique(*technique)),
        });
    }
}

/// The ingredients on the entry's own lines, and the groups of them.
pub(super) fn objects(place: &Place<'_>, offers: &mut Offers) {
    lines(place, offers);
    for (word, detail) in GROUPS {
        offers.word(Word::plain(word, detail));
    }
    onward(offers);
}

/// What an act is done with: what fills up, washes and coats is on a line, else it is ice first.
pub(super) fn with(place: &Place<'_>, offers: &mut Offers) {
    let verb = place.before.rsplit([',', ';']).next().unwrap_or_default();
    let verb = fold(verb.trim_start_matches('-').trim_start());
    let iced = technique_at_start(&verb).is_some_and(|(technique, _)| is_iced(technique));
    if iced {
        ices(offers);
        lines(place, offers);
    } else {
        lines(place, offers);
        ices(offers);
    }
}

/// Whether a technique is done with ice: what mixes is, save what is said to be dry, or warms.
const fn is_iced(technique: Technique) -> bool {
    let warm_or_dry =
        matches!(technique, Technique::DryShake | Technique::ReverseDryShake | Technique::Steam);
    is_mix(technique) && !warm_or_dry
}

/// The small words that an act goes on with.
pub(super) fn onward(offers: &mut Offers) {
    for (word, detail) in SMALL {
        offers.word(Word::plain(word, detail));
    }
}

/// What stands on the entry's own lines.
fn lines(place: &Place<'_>, offers: &mut Offers) {
    let Some(record) = place.record() else { return };
    let mut named = BTreeSet::new();
    for read in &record.reads {
        if read.name.is_empty() || !named.insert(read.name.as_str()) {
            continue;
        }
        let topic = match read.referent() {
            Some(washline_book::Referent::Entry(id)) => place.workspace.record(id).map(Topic::of),
            Some(washline_book::Referent::Reference(id)) => Some(Topic::Ingredient(id)),
            None => None,
        };
        let detail = "on a line above".to_owned();
        offers.word(Word { label: &read.name, detail, kind: ItemKind::Ingredient, topic });
    }
}

const GROUPS: &[(&str, &str)] = &[
    ("everything", "every line above"),
    ("all but", "every line above save those that follow"),
    ("the rest", "the lines above that no step has named"),
];

const SMALL: &[(&str, &str)] = &[
    ("with", "ice or a tool follows"),
    ("for", "a time follows"),
    ("into", "a glass follows"),
    ("over", "ice follows"),
    ("to", "a temperature follows"),
    ("at", "a temperature follows"),
    ("until", "how it is then follows"),
];

/// The kinds of ice.
pub(super) fn ices(offers: &mut Offers) {
    for ice in reference::ices().iter().filter(|ice| ice.name != "none") {
        let one_piece = PIECES.contains(&ice.name) || ice.name.ends_with(" ice");
        let label = if one_piece { ice.name.to_owned() } else { format!("{} ice", ice.name) };
        let topic = Some(Topic::Ice(ice.name));
        let detail = "a kind of ice".to_owned();
        offers.word(Word { label: &label, detail, kind: ItemKind::Word, topic });
    }
}

/// Ice that is named by its piece: with a sphere, but with crushed ice.
const PIECES: &[&str] = &["large cube", "sphere", "spear", "block"];

#[cfg(test)]
mod tests {
    use crate::completion::tests::{labels, taken};

    const CARD: &str = "  60 ml gin\n  90 ml soda water\n  20 ml cider vinegar\n";

    fn offered(step: &str) -> Vec<String> {
        labels(&format!("drink: A\n{CARD}  - {step}|\n"))
    }

    fn written(step: &str, label: &str) -> String {
        let text = taken(&format!("drink: A\n{CARD}  - {step}|\n"), label);
        text.lines().last().unwrap().trim_start_matches("  - ").to_owned()
    }

    #[test]
    fn steps_take_techniques_what_is_listed_and_ice() {
        assert_eq!(labels("drink: A\n  30 ml gin\n  - sha|\n")[0], "shake");
        assert_eq!(labels("drink: A\n  30 ml gin\n  - stir, double s|\n")[0], "double strain");
        assert_eq!(
            labels("drink: A\n  30 ml gin\n  30 ml soda water\n  - add so|\n")[0],
            "soda water"
        );
        assert!(labels("drink: A\n  - shake with |\n").iter().any(|label| label == "crushed ice"));
    }

    #[test]
    fn a_number_of_a_step_is_a_time_or_a_temperature() {
        assert_eq!(offered("shake with cubed ice for 12 ")[0], "s");
        assert_eq!(offered("shake for 12s")[0], "s");
        assert_eq!(written("rest for 2 d", "days"), "rest for 2 days");
        assert_eq!(written("rest for 1 w", "week"), "rest for 1 week");
        assert_eq!(offered("warm to 60 "), ["C", "F"]);
        assert_eq!(offered("steep for 10 days at 20 "), ["C", "F"]);
        assert!(offered("stir until cl").is_empty());
    }

    #[test]
    fn a_small_word_tells_what_follows() {
        assert_eq!(offered("top with so")[0], "soda water");
        assert_eq!(offered("shake with c")[0], "cubed ice");
        assert_eq!(offered("strain into co")[0], "coupe");
        assert_eq!(written("strain over a large c", "large cube"), "strain over a large cube");
        assert_eq!(offered("shake with cubed ice f"), ["for"]);
    }

    #[test]
    fn a_name_of_several_words_is_replaced_whole() {
        assert_eq!(written("add cider v", "cider vinegar"), "add cider vinegar");
        assert_eq!(written("top with soda w", "soda water"), "top with soda water");
        assert_eq!(written("muddle gin wi", "with"), "muddle gin with");
    }

    #[test]
    fn a_prep_is_prepared_first() {
        assert_eq!(labels("prep: A\n  - dis|\n")[0], "dissolve");
        assert_eq!(labels("drink: A\n  - dis|\n")[0], "discard");
    }
}
