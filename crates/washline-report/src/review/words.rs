//! What a review says, in words that every output shares.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use washline_book::{Side, Standing};
use washline_measure::Interval;
use washline_review::{
    AllergenChange, Allergens, Carried, Change, LineChange, LineKind, Move, Named, Review,
    StandardChange, StillUsed, Turn, What, turns,
};
use washline_text::Kind;

use super::Sides;
use crate::number::number;

/// `main to the working tree: 3 entries changed, 5 carried along, 2 new findings`
#[must_use]
pub fn headline(review: &Review, sides: &Sides) -> String {
    let mut parts = Vec::new();
    for (what, word) in [
        (What::Added, "added"),
        (What::Removed, "removed"),
        (What::Renamed, "renamed"),
        (What::Moved, "moved"),
        (What::Changed, "changed"),
    ] {
        let many = review.changes.iter().filter(|change| change.what == what).count();
        if many > 0 {
            let entries = if parts.is_empty() { entries(many) } else { many.to_string() };
            parts.push(format!("{entries} {word}"));
        }
    }
    let carried = review.carried.len();
    if carried > 0 {
        parts.push(format!("{carried} more not touched and no longer the same"));
    }
    let (gained, lost) = allergen_counts(review);
    if gained > 0 {
        parts.push(format!("{gained} {} an allergen", if gained == 1 { "gains" } else { "gain" }));
    }
    if lost > 0 {
        parts.push(format!("{lost} {} one", if lost == 1 { "loses" } else { "lose" }));
    }
    if !review.conflicts.is_empty() {
        parts.push(many(review.conflicts.len(), "merge conflict", "merge conflicts"));
    }
    let new = review.findings.new.len();
    if new > 0 {
        parts.push(many(new, "new finding", "new findings"));
    }
    if parts.is_empty() {
        parts.push("nothing changed in the glass".to_owned());
    }
    format!("{} to {}: {}", sides.base, sides.head, parts.join(", "))
}

/// How many entries that stayed gain an allergen, and how many lose one.
fn allergen_counts(review: &Review) -> (usize, usize) {
    let changed = review.changes.iter().filter(|change| change.before.is_some());
    let all = changed.map(|c| &c.allergens).chain(review.carried.iter().map(|c| &c.allergens));
    let all: Vec<&Allergens> = all.collect();
    let gained = all.iter().filter(|a| !a.gained.is_empty()).count();
    (gained, all.iter().filter(|a| !a.lost.is_empty()).count())
}

pub(super) fn many(count: usize, one: &str, more: &str) -> String {
    format!("{count} {}", if count == 1 { one } else { more })
}

pub(super) fn entries(count: usize) -> String {
    many(count, "entry", "entries")
}

/// `Quarry Lane (drink)`
pub(super) fn name(named: &Named) -> String {
    format!("{} ({})", shown(named), named.kind.name())
}

/// The name; of an entry that has none, so much.
pub(super) fn shown(named: &Named) -> &str {
    if named.name.is_empty() { "without a name" } else { &named.name }
}

/// What became of the entry beyond its words: `was Quarry Lane`, `was in old.pour`.
pub(super) fn became(change: &Change) -> Option<String> {
    match (change.what, &change.before) {
        (What::Added, _) => Some("new".to_owned()),
        (What::Removed, _) => Some("taken out".to_owned()),
        (_, Some(before)) => {
            let mut words = Vec::new();
            if before.name != change.entry.name {
                words.push(format!("was {}", shown(before)));
            }
            if before.file != change.entry.file {
                words.push(format!("was in {}", before.file));
            }
            Some(words.join(", ")).filter(|words| !words.is_empty())
        }
        (_, None) => None,
    }
}

/// `60 ml gin → 60 ml vodka`, with what became of the line before it.
pub(super) fn line(change: &LineChange) -> (&'static str, String) {
    let word = match change.kind {
        LineKind::Added => "added",
        LineKind::Dropped => "dropped",
        LineKind::Amount => "amount",
        LineKind::Swapped => "swapped",
        LineKind::Said => "line",
    };
    (word, arrow(change.before.as_deref(), change.after.as_deref()))
}

/// `a → b`, or the one that there is.
pub(super) fn arrow(before: Option<&str>, after: Option<&str>) -> String {
    match (before, after) {
        (Some(before), Some(after)) => format!("{before} → {after}"),
        (one, other) => one.or(other).unwrap_or_default().to_owned(),
    }
}

/// Everything that is written differently, each as a word for what it is and the words.
pub(super) fn written(change: &Change) -> Vec<(String, String)> {
    let mut out: Vec<(String, String)> = Vec::new();
    for one in &change.lines {
        let (word, text) = line(one);
        out.push((word.to_owned(), text));
    }
    if change.reordered {
        let order = if change.layered { "another order: it is layered" } else { "another order" };
        out.push(("lines".to_owned(), order.to_owned()));
    }
    for step in &change.steps {
        let (before, after) = (step.before.as_deref(), step.after.as_deref());
        let (word, text) = match (before, after) {
            _ if step.moved => ("step moved", after.unwrap_or_default().to_owned()),
            (None, _) => ("step added", arrow(None, after)),
            (_, None) => ("step dropped", arrow(before, None)),
            _ => ("step", arrow(before, after)),
        };
        out.push((word.to_owned(), text));
    }
    for field in &change.fields {
        let said = |side: &Option<String>| side.clone().unwrap_or_else(|| "not said".to_owned());
        out.push((field.key.clone(), format!("{} → {}", said(&field.before), said(&field.after))));
    }
    out
}

/// The figures that are worth a row: those that differ by more than nobody pours or tastes.
pub(super) fn rows(moves: &[Move]) -> impl Iterator<Item = &Move> {
    moves.iter().filter(|one| !one.is_small())
}

/// A figure in words.
pub(super) struct Told {
    pub label: String,
    /// The earlier value with its uncertainty; a dash where there is none.
    pub before: String,
    pub after: String,
    /// `0.6 less, ± 0.2`
    pub difference: String,
    /// What it means: a band left, or that it can't be told from no change.
    pub note: String,
}

pub(super) fn told(one: &Move) -> Told {
    let side = |interval: Option<Interval>| interval.map_or_else(|| "–".to_owned(), with_doubt);
    let unit = match one.unit.is_empty() {
        true => String::new(),
        false => format!(" {}", one.unit),
    };
    let difference = one.difference().map_or_else(String::new, |by| {
        let way = if by > 0.0 { "more" } else { "less" };
        let doubt =
            one.doubt.map_or_else(String::new, |doubt| format!(", ± {}", two_digits(doubt)));
        format!("{} {way}{doubt}", number(by.abs()))
    });
    let note = match () {
        () if one.within => "within what the figures can tell".to_owned(),
        () => band(one).unwrap_or_default(),
    };
    let (mut before, mut after) = (side(one.before), side(one.after));
    // The unit stands behind the last value there is.
    if one.after.is_some() { &mut after } else { &mut before }.push_str(&unit);
    Told { label: one.label.clone(), before, after, difference, note }
}

impl Told {
    /// The value of what has only one side: new, or taken out.
    pub(super) fn alone(&self, one: &Move) -> &str {
        if one.after.is_some() { &self.after } else { &self.before }
    }
}

/// `harbour.pour, book, market` and `eu → uk`: a standard, and what it said and says.
pub(super) fn standard(change: &StandardChange) -> (String, String) {
    let said = |side: &Option<String>| side.clone().unwrap_or_else(|| "not said".to_owned());
    let key = match change.key.as_str() {
        "" => change.file.clone(),
        key => format!("{}, {key}", change.file),
    };
    (key, format!("{} → {}", said(&change.before), said(&change.after)))
}

/// Whether any of the figures means something of its own.
pub(super) fn any_note(moves: &[Move]) -> bool {
    rows(moves).any(|one| !told(one).note.is_empty())
}

/// `text` taken apart at its backticks: pieces, and whether each is code. Where a backtick has no
/// other, nothing is code.
pub(super) fn pieces(text: &str) -> Vec<(bool, &str)> {
    if !text.matches('`').count().is_multiple_of(2) {
        return vec![(false, text)];
    }
    let pieces = text.split('`').enumerate().map(|(at, piece)| (at % 2 == 1, piece));
    pieces.filter(|(_, piece)| !piece.is_empty()).collect()
}

/// `Passion Honey → Honey Syrup`; a name behind itself is said once.
pub(super) fn way<S: AsRef<str>>(through: &[S]) -> String {
    let mut names: Vec<&str> = through.iter().map(AsRef::as_ref).collect();
    names.dedup_by_key(|name| washline_text::fold(name));
    names.join(" → ")
}

/// `17.2 ± 1.1`
fn with_doubt(interval: Interval) -> String {
    let half = (interval.high - interval.value).max(interval.value - interval.low);
    let value = number(interval.value);
    let half = two_digits(half);
    if half == "0" { value } else { format!("{value} ± {half}") }
}

/// An uncertainty: two digits of it are more than enough.
fn two_digits(doubt: f64) -> String {
    if doubt <= 0.0 || !doubt.is_finite() {
        return "0".to_owned();
    }
    let size = 10_f64.powi(1 - doubt.log10().floor() as i32);
    number((doubt * size).round() / size)
}

/// Where the figure stands against its family's band, if that is news.
fn band(one: &Move) -> Option<String> {
    let stood = one.stood.as_ref()?;
    let words = &stood.band;
    if one.leaves_band() {
        return Some(format!("leaves its family's band, {words}"));
    }
    if one.enters_band() {
        return Some(format!("back in its family's band, {words}"));
    }
    let beyond = |side: Side| match side {
        Side::Below => "below",
        Side::Above => "above",
    };
    match stood.after? {
        Standing::Outside(side) => Some(format!("{} its family's band, {words}", beyond(side))),
        Standing::Leaning(side) => Some(format!("leans {} its band, {words}", beyond(side))),
        Standing::Inside => None,
    }
}

/// `turns tarter and weaker`; none where nothing can be told.
pub(super) fn turned(moves: &[Move]) -> Option<String> {
    let words: Vec<&str> = turns(moves).into_iter().map(Turn::word).collect();
    (!words.is_empty()).then(|| format!("turns {}", listed(&words)))
}

/// `a`, `a and b`, `a, b and c`
pub(super) fn listed(words: &[&str]) -> String {
    match words {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}

/// What keeps an entry from being computed, or no longer does.
pub(super) const fn reading(unread: (bool, bool)) -> Option<&'static str> {
    match unread {
        (false, true) => Some("no figures any more: a line can't be read, or leads nowhere"),
        (true, false) => Some("has figures now: every line can be read"),
        _ => None,
    }
}

/// `milk, through Cream Wash → Brown Butter`
pub(super) fn allergen(one: &AllergenChange) -> String {
    let detail = match one.detail.as_str() {
        "" => String::new(),
        detail => format!(" ({detail})"),
    };
    let perhaps = if one.perhaps { "perhaps " } else { "" };
    let from = match one.through.as_slice() {
        [] => "as it says itself".to_owned(),
        through => format!("through {}", way(through)),
    };
    format!("{perhaps}{}{detail}, {from}", one.allergen)
}

/// Every allergen line of an entry, each with the word that opens it.
pub(super) fn allergens(allergens: &Allergens) -> Vec<(&'static str, String)> {
    let gained = allergens.gained.iter().map(|one| ("gains", allergen(one)));
    let lost = allergens.lost.iter().map(|one| ("loses", allergen(one)));
    let unknown =
        allergens.unknown.iter().map(|name| ("unknown", format!("nobody vouches for {name}")));
    let known =
        allergens.known.iter().map(|name| ("known", format!("{name} is no longer unknown")));
    gained.chain(lost).chain(unknown).chain(known).collect()
}

/// `Quarry Lane still pours honey syrup: it now means the reference's honey syrup`
pub(super) fn still(used: &StillUsed, gone: &Named) -> String {
    let by = shown(&used.by);
    let name = &used.line;
    match &used.now {
        Some(now) => format!(
            "{by} still asks for {name}: now that means {now}, which is not {}",
            shown(gone)
        ),
        None => format!("{by} still asks for {name}: nothing goes by that name now"),
    }
}

/// The carried entries with one cause in common.
pub(super) struct Group<'a> {
    /// What changed; none where it is the house's standards.
    pub cause: Option<&'a Named>,
    pub entries: Vec<&'a Carried>,
}

/// The carried entries by what changed nearest to them.
pub(super) fn groups(review: &Review) -> Vec<Group<'_>> {
    let mut by_cause: BTreeMap<Option<&Named>, Vec<&Carried>> = BTreeMap::new();
    for one in &review.carried {
        by_cause.entry(one.because.first()).or_default().push(one);
    }
    by_cause.into_iter().map(|(cause, entries)| Group { cause, entries }).collect()
}

/// `5 drinks turn tarter, 2 leave their band`
pub(super) fn group(group: &Group<'_>) -> String {
    let mut by_turn: BTreeMap<Turn, usize> = BTreeMap::new();
    let (mut leave, mut enter, mut gain, mut lose, mut blind) = (0, 0, 0, 0, 0);
    for one in &group.entries {
        for turn in turns(&one.moves) {
            *by_turn.entry(turn).or_default() += 1;
        }
        leave += usize::from(one.moves.iter().any(Move::leaves_band));
        enter += usize::from(one.moves.iter().any(Move::enters_band));
        gain += usize::from(!one.allergens.gained.is_empty());
        lose += usize::from(!one.allergens.lost.is_empty());
        blind += usize::from(one.unread == (false, true));
    }
    let mut parts = Vec::new();
    let drinks = group.entries.iter().all(|one| one.entry.kind == Kind::Drink);
    let mut say = |count: usize, one: &str, more: &str| {
        if count == 0 {
            return;
        }
        let verb = if count == 1 { one } else { more };
        let who = match (parts.is_empty(), drinks) {
            (true, true) => many(count, "drink", "drinks"),
            (true, false) => entries(count),
            (false, _) => count.to_string(),
        };
        parts.push(format!("{who} {verb}"));
    };
    say(gain, "gains an allergen", "gain an allergen");
    say(lose, "loses an allergen", "lose an allergen");
    say(blind, "can't be computed any more", "can't be computed any more");
    let mut turns: Vec<(Turn, usize)> = by_turn.into_iter().collect();
    let money = |turn: &Turn| matches!(turn, Turn::Dearer | Turn::Cheaper);
    turns.sort_by_key(|(turn, count)| (money(turn), Reverse(*count), *turn));
    let all = group.entries.len();
    let whole: Vec<&str> =
        turns.iter().filter(|(_, count)| *count == all).map(|(turn, _)| turn.word()).collect();
    if !whole.is_empty() {
        let words = listed(&whole);
        say(all, &format!("turns {words}"), &format!("turn {words}"));
    }
    for (turn, count) in turns.into_iter().filter(|(_, count)| *count != all) {
        let word = turn.word();
        say(count, &format!("turns {word}"), &format!("turn {word}"));
    }
    say(leave, "leaves its band", "leave their band");
    say(enter, "is back in its band", "are back in their band");
    if parts.is_empty() {
        let who = if drinks { many(all, "drink", "drinks") } else { entries(all) };
        let verb = if all == 1 { "moves" } else { "move" };
        return format!("{who} {verb} within what the figures can tell");
    }
    parts.join(", ")
}
