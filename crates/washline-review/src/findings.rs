//! Findings, new, gone and still there.

use std::collections::BTreeMap;

use rustc_hash::FxHashMap;
use washline_rules::Group;
use washline_text::Finding;

use crate::pair::Pairs;
use crate::state::{Items, Room};
use crate::{Findings, State, Told};

/// A finding with where it was found.
struct Found<'a> {
    room: &'a Room<'a>,
    /// The place of its entry among all of them.
    item: Option<usize>,
    finding: &'a Finding,
}

/// By fingerprint first. What is left is still the same finding where the two say the same of one
/// entry: in one that was renamed, and where a figure that was out of its band is out of it by
/// another number.
pub(crate) fn compare(
    before: &State<'_>,
    after: &State<'_>,
    items: (&Items<'_>, &Items<'_>),
    pairs: &Pairs,
) -> Findings {
    let (old, new) = (found(before, items.0), found(after, items.1));
    let mut out = Findings::default();
    let mut waiting: FxHashMap<&str, Vec<usize>> = FxHashMap::default();
    for (at, one) in old.iter().enumerate().rev() {
        waiting.entry(&one.finding.fingerprint).or_default().push(at);
    }
    let mut let_off = vec![false; old.len()];
    let mut open = vec![true; old.len()];
    let mut fresh = Vec::new();
    for one in &new {
        let twin = waiting.get_mut(one.finding.fingerprint.as_str()).and_then(Vec::pop);
        let stood = twin.and_then(|at| old.get(at)).is_some_and(|old| !old.finding.waived);
        match (twin, one.finding.waived) {
            (Some(at), true) => {
                if let Some(slot) = let_off.get_mut(at) {
                    *slot = true;
                }
            }
            (Some(at), false) if stood => {
                close(&mut open, at);
                out.still.push(told(one));
            }
            (_, true) => {}
            (_, false) => fresh.push(one),
        }
    }
    let mut reworded: BTreeMap<(&str, usize, String), Vec<usize>> = BTreeMap::new();
    for (at, one) in old.iter().enumerate().rev() {
        let standing = open.get(at) == Some(&true) && !one.finding.waived;
        let became = one.item.and_then(|item| pairs.to.get(item).copied().flatten());
        if let Some(item) = became.filter(|_| standing) {
            let renamed = is_renamed(item, items, pairs);
            if let Some(words) = words(one, renamed) {
                reworded.entry((one.finding.rule, item, words)).or_default().push(at);
            }
        }
    }
    for one in fresh {
        let twin = one.item.and_then(|item| {
            let words = words(one, is_renamed(item, items, pairs))?;
            reworded.get_mut(&(one.finding.rule, item, words))?.pop()
        });
        match twin {
            Some(at) => {
                close(&mut open, at);
                out.still.push(told(one));
            }
            None => out.new.push(told(one)),
        }
    }
    for ((one, open), let_off) in old.iter().zip(open).zip(let_off) {
        if open && !one.finding.waived {
            out.gone.push(Told { waived: let_off, ..told(one) });
        }
    }
    for list in [&mut out.new, &mut out.gone, &mut out.still] {
        list.sort_by(|a, b| {
            let key = |told: &Told| (told.severity, told.file.clone(), told.line);
            key(a).cmp(&key(b)).then(a.rule.cmp(b.rule)).then(a.message.cmp(&b.message))
        });
    }
    out
}

fn close(open: &mut [bool], at: usize) {
    if let Some(slot) = open.get_mut(at) {
        *slot = false;
    }
}

/// The findings in the files that are asked for.
fn found<'a>(state: &'a State<'a>, items: &Items<'_>) -> Vec<Found<'a>> {
    let mut out = Vec::new();
    for (at, room) in state.rooms.iter().enumerate() {
        // The entries of a workspace stand in the order of its files and of their text.
        let records = room.workspace.records();
        for finding in room.findings.iter().filter(|finding| room.asks(finding.place.file)) {
            let place = (finding.place.file, finding.place.span.start);
            let last = records.partition_point(|record| (record.file, record.start) <= place);
            let record = last.checked_sub(1).and_then(|at| records.get(at));
            let record = record.filter(|record| record.file == place.0 && finding.entry.is_some());
            out.push(Found { room, item: record.map(|record| items.at(at, record.id)), finding });
        }
    }
    out
}

fn is_renamed(item: usize, (before, after): (&Items<'_>, &Items<'_>), pairs: &Pairs) -> bool {
    let was = pairs.from.get(item).copied().flatten().and_then(|b| before.get(b));
    let is = after.get(item);
    matches!((was, is), (Some(was), Some(is)) if was.record.key != is.record.key)
}

/// What a finding says without its numbers and its entry's name: the same words again are the
/// same finding. None where other numbers may well be another mistake.
fn words(one: &Found<'_>, renamed: bool) -> Option<String> {
    let group = washline_rules::find(one.finding.rule)?.group;
    let of_figures = matches!(group, Group::Balance | Group::Dilution | Group::Alcohol);
    if !of_figures && !renamed {
        return None;
    }
    let name = one.finding.entry.as_ref().map_or("", |entry| &entry.name);
    let message = match name.is_empty() {
        true => one.finding.message.clone(),
        false => one.finding.message.replace(name, ""),
    };
    // Of a rename alone the numbers stay.
    Some(match of_figures {
        true => message.chars().filter(|c| !c.is_ascii_digit() && *c != '.').collect(),
        false => message,
    })
}

fn told(one: &Found<'_>) -> Told {
    let finding = one.finding;
    let place = finding.place;
    let file = one.room.workspace.file(place.file);
    Told {
        rule: finding.rule,
        severity: finding.severity,
        message: finding.message.clone(),
        entry: finding.entry.clone(),
        file: one.room.name(place.file).to_owned(),
        line: file.map_or(0, |file| file.index.line_of(place.span.start)) + 1,
        fingerprint: finding.fingerprint.clone(),
        waived: false,
    }
}
