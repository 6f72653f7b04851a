//! Ingredient lines before and after: which one became which.

use std::collections::BTreeMap;

use crate::meaning::Poured;
use crate::{LineChange, LineKind};

/// What became of the lines of an entry.
#[derive(Clone, Debug, Default)]
pub(crate) struct Lines {
    pub changes: Vec<LineChange>,
    /// Whether the lines that stayed stand in another order.
    pub reordered: bool,
    /// The lines that say the same on both sides, by their places in the entries.
    pub same: BTreeMap<u32, u32>,
}

pub(crate) fn compare(before: &[Poured], after: &[Poured]) -> Lines {
    let pairs = pairs(before, after);
    let mut lines = Lines::default();
    let mut last = None;
    for (b, a) in &pairs {
        let (Some(b), Some(a)) = (b, a) else { continue };
        // The pairs come in the order of the later state.
        lines.reordered |= last.is_some_and(|last| *b < last);
        last = Some(*b);
        if let (Some(one), Some(other)) = (before.get(*b), after.get(*a))
            && one.is(other)
        {
            lines.same.insert(one.line, other.line);
        }
    }
    lines.changes = pairs.into_iter().filter_map(|(b, a)| change(b, a, before, after)).collect();
    lines
}

fn change(
    b: Option<usize>,
    a: Option<usize>,
    before: &[Poured],
    after: &[Poured],
) -> Option<LineChange> {
    let (one, other) = (b.and_then(|b| before.get(b)), a.and_then(|a| after.get(a)));
    let kind = match (one, other) {
        (Some(one), Some(other)) if one.is(other) => return None,
        (Some(one), Some(other)) if one.name != other.name => LineKind::Swapped,
        (Some(one), Some(other)) if one.amount != other.amount => LineKind::Amount,
        (Some(_), Some(_)) => LineKind::Said,
        (None, Some(_)) => LineKind::Added,
        (Some(_), None) => LineKind::Dropped,
        (None, None) => return None,
    };
    let text = |line: Option<&Poured>| line.map(|line| line.text.clone());
    Some(LineChange { kind, before: text(one), after: text(other) })
}

/// Every line once, by its place on each side, in the order of the later state; lines that are
/// gone stand where they stood.
fn pairs(before: &[Poured], after: &[Poured]) -> Vec<(Option<usize>, Option<usize>)> {
    let mut to: Vec<Option<usize>> = vec![None; before.len()];
    let mut from: Vec<Option<usize>> = vec![None; after.len()];
    let same_name = |b: &Poured, a: &Poured| b.name == a.name;
    let same_amount = |b: &Poured, a: &Poured| b.amount == a.amount && !b.amount.is_empty();
    for alike in [Poured::is, same_name, same_amount] {
        for (b, line) in before.iter().enumerate() {
            if to.get(b).is_none_or(Option::is_some) {
                continue;
            }
            let free = |a: &usize| from.get(*a).is_some_and(Option::is_none);
            let mut candidates = (0..after.len()).filter(free);
            if let Some(a) = candidates.find(|a| after.get(*a).is_some_and(|a| alike(line, a))) {
                join(&mut to, &mut from, b, a);
            }
        }
    }
    // One line for one line between the same neighbours: something else goes in.
    for b in 0..before.len() {
        let Some(a) = gap(b, &to, &from) else { continue };
        join(&mut to, &mut from, b, a);
    }
    let mut out: Vec<(Option<usize>, Option<usize>)> =
        from.iter().enumerate().map(|(a, b)| (*b, Some(a))).collect();
    for (b, _) in to.iter().enumerate().filter(|(_, a)| a.is_none()) {
        let previous = b.checked_sub(1);
        let at = previous.and_then(|p| out.iter().position(|(b, _)| *b == Some(p)));
        out.insert(at.map_or(0, |at| at + 1), (Some(b), None));
    }
    out
}

fn join(to: &mut [Option<usize>], from: &mut [Option<usize>], b: usize, a: usize) {
    if let (Some(to), Some(from)) = (to.get_mut(b), from.get_mut(a)) {
        (*to, *from) = (Some(a), Some(b));
    }
}

/// The one free line of the later state between the neighbours of the free line `b`.
fn gap(b: usize, to: &[Option<usize>], from: &[Option<usize>]) -> Option<usize> {
    if to.get(b)?.is_some() {
        return None;
    }
    let start = match b.checked_sub(1) {
        Some(previous) => (*to.get(previous)?)? + 1,
        None => 0,
    };
    let end = match to.get(b + 1) {
        Some(next) => (*next)?,
        None => from.len(),
    };
    (end == start + 1 && from.get(start)?.is_none()).then_some(start)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lines(text: &str) -> Vec<Poured> {
        let text = format!("drink: A\n{text}");
        let document = washline_syntax::Document::parse(text.as_str());
        crate::meaning::poured(&document.entries()[0].entry)
    }

    /// Each change as `kind before > after`.
    fn check(before: &str, after: &str, expected: &[&str]) {
        let lines = compare(&lines(before), &lines(after));
        let shown = lines.changes.iter().map(|change| {
            let side = |side: &Option<String>| side.clone().unwrap_or_default();
            format!("{:?} {} > {}", change.kind, side(&change.before), side(&change.after))
        });
        assert_eq!(shown.collect::<Vec<_>>(), expected);
    }

    #[test]
    fn an_amount_keeps_its_line() {
        check(
            "60 ml gin\n22.5 ml lemon juice",
            "60 ml gin\n20 ml lemon juice",
            &["Amount 22.5 ml lemon juice > 20 ml lemon juice"],
        );
    }

    #[test]
    fn another_bottle_takes_the_place() {
        check(
            "60 ml gin\n15 ml lime juice",
            "60 ml vodka\n15 ml lime juice",
            &["Swapped 60 ml gin > 60 ml vodka"],
        );
        check(
            "60 ml gin\n15 ml lime juice",
            "50 ml vodka\n15 ml lime juice",
            &["Swapped 60 ml gin > 50 ml vodka"],
        );
    }

    #[test]
    fn lines_come_and_go() {
        check(
            "60 ml gin\n15 ml lime juice",
            "60 ml gin\n15 ml lime juice\n2 dashes bitters",
            &["Added  > 2 dashes bitters"],
        );
        check(
            "60 ml gin\n2 dashes bitters\n15 ml lime juice",
            "60 ml gin\n15 ml lime juice",
            &["Dropped 2 dashes bitters > "],
        );
    }

    #[test]
    fn layout_is_nothing() {
        check("60ml  Gin\n3/4 oz lime juice", "60 ml gin\n.75 oz   lime juice", &[]);
    }

    #[test]
    fn another_order_is_told() {
        let of = |before: &str, after: &str| compare(&lines(before), &lines(after)).reordered;
        assert!(of("60 ml gin\n15 ml lime juice", "15 ml lime juice\n60 ml gin"));
        assert!(!of("60 ml gin\n15 ml lime juice", "60 ml gin\n5 ml water\n15 ml lime juice"));
    }
}
