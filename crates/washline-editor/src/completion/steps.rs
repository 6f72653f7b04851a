//! What is done: techniques, the ingredients they are done to, the ice they are done with.

use std::collections::BTreeSet;

use washline_reference as reference;
use washline_syntax::Technique;

use super::ItemKind;
use super::offers::{Offers, Word};
use super::site::Place;
use crate::Topic;

/// The techniques; what the vocabulary lists first, of service, stands first.
pub(super) fn acts(offers: &mut Offers) {
    for technique in Technique::ALL {
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
    for (word, detail) in GROUPS.iter().chain(SMALL) {
        offers.word(Word::plain(word, detail));
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
