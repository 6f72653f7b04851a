//! A review as JSON: every key always there, numbers at six significant digits.
//!
//! - `format` 1, `base` and `head` as they were named, `entries` (how many the later state holds)
//! - `changes`: each touched entry with `entry`, `kind`, `file`, `line`; `change` (`added`,
//!   `removed`, `renamed`, `moved`, `changed`); `was` (the same four keys, or null); `lines`
//!   (`change`: `added`, `dropped`, `amount`, `swapped`, `said`; `before`, `after`); `reordered`;
//!   `steps` (`before`, `after`, `moved`); `fields` (`key`, `before`, `after`); `figures`; `turns`;
//!   `unread` (`before`, `after`: nothing could be computed); `allergens`; `still_used` (who still
//!   asks for what is gone: its four keys, the `name` on its line, what that means `now`)
//! - `carried`: each entry that nobody touched and that is not what it was, with its four keys;
//!   `because` (what changed, nearest first; empty for the house's standards); `through` (the way
//!   there); `figures`, `turns`, `unread`, `allergens`
//! - `layout` (entries whose layout or comments alone differ), `line_ends` (files)
//! - `standards`: `file`, `key`, `before`, `after` of every key of `washline.toml` that differs
//! - `conflicts`: `file`, `line`, and `sides`: changes, ours before and theirs after
//! - `findings`: `new`, `gone`, `still`; each `rule`, `severity`, `message`, `entry`, `kind`,
//!   `file`, `line`, `fingerprint`, `waived` (of one that is gone: a waiver lets it off)
//!
//! `figures` holds those that differ, by the names of `washline figures`: `unit`, `before` and
//! `after` (`value`, `low`, `high`, or null), `difference`, `doubt` (half the 95 % range of the
//! difference, of what differs alone; null for costs and for next to nothing), `within` (too little to tell from no change), `band`
//! (`words`, and where it stands `before` and `after`), or null. `allergens` holds `gained` and
//! `lost` (`allergen`, `detail`, `through`, `perhaps`), and `unknown` and `known` (names that
//! nobody vouches for now, or no longer).

use serde_json::{Map, Value, json};
use washline_book::{Side, Standing};
use washline_measure::{Interval, six_digits};
use washline_review::{
    AllergenChange, Allergens, Carried, Change, Conflict, LineKind, Move, Named, Review,
    StandardChange, StillUsed, Told, What, turns,
};

use super::Sides;

/// The review as one JSON object, with a line end.
#[must_use]
pub fn json(review: &Review, sides: &Sides) -> String {
    let all = |told: &[Told]| -> Value { told.iter().map(finding).collect() };
    let whole = json!({
        "format": 1,
        "base": sides.base,
        "head": sides.head,
        "entries": review.entries,
        "changes": review.changes.iter().map(change).collect::<Value>(),
        "carried": review.carried.iter().map(carried).collect::<Value>(),
        "layout": review.layout.iter().map(named).collect::<Value>(),
        "line_ends": review.line_ends,
        "standards": review.standards.iter().map(standard).collect::<Value>(),
        "conflicts": review.conflicts.iter().map(conflict).collect::<Value>(),
        "findings": {
            "new": all(&review.findings.new),
            "gone": all(&review.findings.gone),
            "still": all(&review.findings.still),
        },
    });
    format!("{whole}\n")
}

fn named(named: &Named) -> Value {
    json!({ "entry": *named.name, "kind": named.kind.name(), "file": named.file, "line": named.line })
}

/// Adds `more` to what names the entry.
fn with(entry: &Named, more: Value) -> Value {
    let mut out = named(entry);
    if let (Value::Object(out), Value::Object(more)) = (&mut out, more) {
        out.extend(more);
    }
    out
}

fn change(change: &Change) -> Value {
    let what = match change.what {
        What::Added => "added",
        What::Removed => "removed",
        What::Renamed => "renamed",
        What::Moved => "moved",
        What::Changed => "changed",
    };
    let lines = change.lines.iter().map(|line| {
        let kind = match line.kind {
            LineKind::Added => "added",
            LineKind::Dropped => "dropped",
            LineKind::Amount => "amount",
            LineKind::Swapped => "swapped",
            LineKind::Said => "said",
        };
        json!({ "change": kind, "before": line.before, "after": line.after })
    });
    let steps = change
        .steps
        .iter()
        .map(|step| json!({ "before": step.before, "after": step.after, "moved": step.moved }));
    let fields = change
        .fields
        .iter()
        .map(|field| json!({ "key": field.key, "before": field.before, "after": field.after }));
    with(
        &change.entry,
        json!({
            "change": what,
            "was": change.before.as_ref().map_or(Value::Null, named),
            "lines": lines.collect::<Value>(),
            "reordered": change.reordered,
            "steps": steps.collect::<Value>(),
            "fields": fields.collect::<Value>(),
            "figures": figures(&change.moves),
            "turns": words(&change.moves),
            "unread": unread(change.unread),
            "allergens": allergens(&change.allergens),
            "still_used": change.still_used.iter().map(still).collect::<Value>(),
        }),
    )
}

fn carried(carried: &Carried) -> Value {
    with(
        &carried.entry,
        json!({
            "because": carried.because.iter().map(named).collect::<Value>(),
            "through": carried.through.iter().map(|name| Value::from(&**name)).collect::<Value>(),
            "figures": figures(&carried.moves),
            "turns": words(&carried.moves),
            "unread": unread(carried.unread),
            "allergens": allergens(&carried.allergens),
        }),
    )
}

fn words(moves: &[Move]) -> Vec<&'static str> {
    turns(moves).into_iter().map(washline_review::Turn::word).collect()
}

fn unread((before, after): (bool, bool)) -> Value {
    json!({ "before": before, "after": after })
}

/// The figures that differ, by name.
fn figures(moves: &[Move]) -> Value {
    let of = |one: &Move| {
        let stood = one.stood.as_ref();
        json!({
            "unit": one.unit,
            "before": interval(one.before),
            "after": interval(one.after),
            "difference": one.difference().map(six_digits),
            "doubt": one.doubt.map(six_digits),
            "within": one.within,
            "band": stood.map(|stood| json!({
                "words": stood.band,
                "before": stood.before.map(standing),
                "after": stood.after.map(standing),
            })),
        })
    };
    let all: Map<String, Value> = moves.iter().map(|one| (one.id.clone(), of(one))).collect();
    Value::Object(all)
}

fn interval(interval: Option<Interval>) -> Value {
    interval.map_or(Value::Null, |interval| {
        let Interval { value, low, high } = interval;
        json!({ "value": six_digits(value), "low": six_digits(low), "high": six_digits(high) })
    })
}

const fn standing(standing: Standing) -> &'static str {
    match standing {
        Standing::Inside => "inside",
        Standing::Leaning(Side::Below) => "leaning below",
        Standing::Leaning(Side::Above) => "leaning above",
        Standing::Outside(Side::Below) => "below",
        Standing::Outside(Side::Above) => "above",
    }
}

fn allergens(allergens: &Allergens) -> Value {
    let all = |list: &[AllergenChange]| -> Value {
        let one = |one: &AllergenChange| {
            let detail = Some(one.detail.as_str()).filter(|detail| !detail.is_empty());
            json!({
                "allergen": one.allergen, "detail": detail, "through": one.through,
                "perhaps": one.perhaps,
            })
        };
        list.iter().map(one).collect()
    };
    json!({
        "gained": all(&allergens.gained),
        "lost": all(&allergens.lost),
        "unknown": allergens.unknown,
        "known": allergens.known,
    })
}

fn still(used: &StillUsed) -> Value {
    with(&used.by, json!({ "name": used.line, "now": used.now }))
}

fn standard(change: &StandardChange) -> Value {
    let StandardChange { file, key, before, after } = change;
    json!({ "file": file, "key": key, "before": before, "after": after })
}

fn conflict(conflict: &Conflict) -> Value {
    json!({
        "file": conflict.file,
        "line": conflict.line,
        "sides": conflict.sides.iter().map(change).collect::<Value>(),
    })
}

fn finding(told: &Told) -> Value {
    let entry = told.entry.as_ref();
    json!({
        "rule": told.rule,
        "severity": told.severity.name(),
        "message": told.message,
        "entry": entry.map(|entry| &*entry.name),
        "kind": entry.map(|entry| entry.kind.name()),
        "file": told.file,
        "line": told.line,
        "fingerprint": told.fingerprint,
        "waived": told.waived,
    })
}
