//! What a line may begin with: entries, the keys that the entry lacks, amount words, and names,
//! which get an amount before them.

use washline_measure::{Unit, UnitKind};
use washline_syntax::{EntryKind, Key, LineKind};

use super::ItemKind;
use super::goods;
use super::offers::{Lead, Offers, Word};
use super::site::Place;
use crate::Topic;

/// A heading, and the entry that it opens.
pub(super) struct HeadingWord {
    /// The word before the colon.
    pub word: &'static str,
    /// What it opens.
    pub kind: EntryKind,
    /// What it is, in a few words.
    pub detail: &'static str,
    /// The entry with tab stops: as it stands it passes the check.
    pub snippet: &'static str,
}

/// The headings, the commonest first.
pub(super) const HEADINGS: &[HeadingWord] = &[
    HeadingWord {
        word: "drink",
        kind: EntryKind::Drink,
        detail: "a drink with its lines and steps",
        snippet: "drink: ${1:Name}
  family: ${2:sour}
  glass: ${3:coupe, chilled}
  serve: ${4:up}
  contains: ${5:none}

  ${6:60 ml}    ${7:gin}
  ${8:22.5 ml}  ${9:lemon juice}
  ${10:15 ml}    ${11:sugar syrup, 1:1}

  - ${12:shake with cubed ice for 12 s, double strain}
  garnish: ${13:none}
$0",
    },
    HeadingWord {
        word: "prep",
        kind: EntryKind::Prep,
        detail: "something made ahead",
        snippet: "prep: ${1:Name}
  yields: ${2:300 ml}
  keeps: ${3:1 week chilled}

  ${4:200 g}  ${5:caster sugar}
  ${6:200 g}  ${7:water}

  - ${8:stir until clear}
  - bottle, label, refrigerate
$0",
    },
    HeadingWord {
        word: "stock",
        kind: EntryKind::Stock,
        detail: "a bottle or a pack that is bought",
        snippet: "stock: ${1:Name}
  kind: ${2:gin}
  abv: ${3:40} %
  pack: ${4:700 ml}
  cost: ${5:20 EUR}
$0",
    },
    HeadingWord {
        word: "book",
        kind: EntryKind::Book,
        detail: "the book that the entries below belong to",
        snippet: "book: ${1:name}\n$0",
    },
    HeadingWord {
        word: "section",
        kind: EntryKind::Section,
        detail: "a part of the book",
        snippet: "section: ${1:name}\n$0",
    },
];

const AMOUNTS: &[(&str, &str)] = &[
    ("top", "fills the glass to its wash line"),
    ("float", "poured on top, not mixed in"),
    ("rinse", "coats the glass, the rest is discarded"),
    ("rim", "on the rim of the glass"),
    ("mist", "sprayed over the glass"),
];

/// Amounts that open with a word; where a bar says the unit alone, one is meant.
const COUNTS: &[(&str, &str, &str)] = &[
    ("dash", "1 dash ", "one dash"),
    ("drop", "1 drop ", "one drop"),
    ("pinch", "1 pinch ", "one pinch"),
    ("splash", "1 splash ", "one splash"),
    ("barspoon", "1 bsp ", "one bar spoon"),
    ("bar spoon", "1 bsp ", "one bar spoon"),
    ("handful", "1 handful ", "one handful"),
    ("juice of", "juice of ", "how many fruits follows"),
    ("zest of", "zest of ", "how many fruits follows"),
    ("equal parts", "equal parts ", "names follow, by commas"),
];

/// Offers the keys first: whoever opens a line has an entry under way, save at the margin.
pub(super) fn offer(place: &Place<'_>, offers: &mut Offers) {
    let located = place.cursor.as_ref().map(|cursor| cursor.located);
    let kind = located.map_or(EntryKind::Lead, |located| located.entry.kind);
    let colon = place.after.trim_start_matches(|c: char| c.is_alphanumeric() || c == '-');
    let colon = colon.starts_with(':');
    let at_margin = at_margin(place) && !colon;
    if at_margin {
        headings(offers);
    }
    for key in Key::of(kind).iter().filter(|key| key.repeats() || !says(place, **key)) {
        let topic = Some(Topic::Key(*key));
        let word =
            Word { label: key.word(), detail: key.doc().to_owned(), kind: ItemKind::Key, topic };
        let text = if colon { key.word().to_owned() } else { format!("{}: ", key.word()) };
        offers.text(word, text);
    }
    if colon {
        return;
    }
    if !at_margin {
        headings(offers);
    }
    if matches!(kind, EntryKind::Drink | EntryKind::Prep) {
        for (amount, detail) in AMOUNTS {
            offers.text(Word::plain(amount, detail), format!("{amount} "));
        }
        for (word, text, detail) in COUNTS {
            offers.text(Word::plain(word, detail), (*text).to_owned());
        }
        offers.open_with(lead(place, kind));
        goods::names(place, offers);
    }
}

fn headings(offers: &mut Offers) {
    for heading in HEADINGS {
        let detail = heading.detail.to_owned();
        let word = Word { label: heading.word, detail, kind: ItemKind::Entry, topic: None };
        offers.snippet(word, heading.snippet);
    }
}

/// Whether the line is not set in where the other lines of its entry are: another entry begins.
fn at_margin(place: &Place<'_>) -> bool {
    let Some(located) = place.cursor.as_ref().map(|cursor| cursor.located) else { return false };
    let entry = &located.entry.text;
    let start =
        (place.offset.saturating_sub(located.start) as usize).checked_sub(place.before.len());
    let before = start.and_then(|start| entry.get(..start)).unwrap_or_default();
    let is_set_in = |line: &str| line.starts_with([' ', '\t']);
    before.ends_with(['\n', '\r']) && before.lines().skip(1).any(is_set_in)
}

/// The amounts to begin with: of a drink in the unit that its lines are poured in. Common
/// practice, no source; a person writes over them.
fn lead(place: &Place<'_>, kind: EntryKind) -> Lead {
    if kind == EntryKind::Prep {
        return Lead { poured: "300 ml", weighed: "300 g" };
    }
    let volume = |unit: &Unit| matches!(unit.kind(), UnitKind::Metric | UnitKind::Customary);
    let reads = place.record().map_or(&[][..], |record| &record.reads);
    let ounces = reads.iter().filter_map(|read| read.unit).find(volume) == Some(Unit::Oz);
    Lead { poured: if ounces { "1 oz" } else { "30 ml" }, weighed: "10 g" }
}

/// Whether another line than the cursor's has the key.
fn says(place: &Place<'_>, key: Key) -> bool {
    let Some(cursor) = place.cursor.as_ref() else { return false };
    let own = cursor.line.map(|(at, _)| at);
    let lines = cursor.located.entry.lines.iter().enumerate();
    lines.filter(|(at, _)| Some(*at) != own).any(|(_, line)| match &line.what {
        LineKind::Field(field) => field.key == Some(key),
        _ => false,
    })
}

#[cfg(test)]
mod tests {
    use crate::completion::tests::labels;

    #[test]
    fn at_the_margin_another_entry_begins() {
        assert_eq!(labels("prep: A\n  keeps: 1 day\n\nst|\n")[0], "stock");
        assert_eq!(labels("prep: A\n  keeps: 1 day\n\n  st|\n")[0], "store");
        assert_eq!(labels("prep: A\nkeeps: 1 day\nst|\n")[0], "store");
        assert_eq!(labels("drink: A\n  serve: up\nse|: b\n")[0], "serves");
    }
}
