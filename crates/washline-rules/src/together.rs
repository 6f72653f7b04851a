//! How a rule looks at entries together.

use std::hash::{Hash, Hasher};

use rustc_hash::{FxHashMap, FxHasher};
use washline_book::{Record, Workspace};

use crate::draft::Draft;
use crate::run::within;
use crate::{Context, Rule, Sink, rules};

/// How a rule looks at entries together: at those of one circle at once, at each circle by itself.
///
/// What is found in a circle hangs on its entries and on what the workspace answers, so that an
/// edit makes a rule look again only at the circles that it touched.
#[derive(Clone, Copy)]
pub struct Together {
    /// The circles that an entry has part in; none where the rule does not look at it. Asked of
    /// every entry, so it is quick; it hangs on what the context gives alone.
    pub circles: fn(&Context<'_>) -> Vec<Part>,
    /// Looks at the entries of a circle, in the order of the workspace.
    pub find: fn(&Workspace, Circle, &[&Record], &mut Sink<'_>),
}

/// What entries share that are looked at together, as a number.
///
/// Two things may come to one number, if hardly ever: a rule whose entries are in several
/// circles keeps them apart by what they share.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Circle(u64);

impl Circle {
    /// The one circle of a rule that has no more.
    pub(crate) const ONE: Self = Self(0);

    /// The circle of all that share `what`.
    pub(crate) fn of(what: &(impl Hash + ?Sized)) -> Self {
        let mut hasher = FxHasher::default();
        what.hash(&mut hasher);
        Self(hasher.finish())
    }

    /// The part of an entry of which all counts.
    pub(crate) const fn whole(self) -> Part {
        Part { circle: self, says: None }
    }

    /// The part of an entry of which nothing counts but what it `says`.
    pub(crate) fn saying(self, says: &(impl Hash + ?Sized)) -> Part {
        Part { circle: self, says: Some(Self::of(says).0) }
    }
}

/// An entry's part in a circle.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Part {
    /// The circle.
    pub circle: Circle,
    /// All that counts there of the entry, as a number: an edit of the entry that leaves it equal
    /// changes nothing in the circle. Its name, its file, its book and its standards always count;
    /// places count by their lines ([`in_line`](crate::lines::in_line)). `None` where any edit may.
    pub says: Option<u64>,
}

/// The rules that look at entries together.
pub(crate) fn together() -> impl Iterator<Item = (&'static Rule, Together)> {
    rules::all().filter_map(|rule| Some((rule, rule.check.together()?)))
}

/// The parts of an entry, one in each circle.
pub(crate) fn parts(together: Together, context: &Context<'_>) -> Vec<Part> {
    let mut parts = (together.circles)(context);
    parts.sort_unstable();
    parts.dedup_by(|next, part| {
        let same = next.circle == part.circle;
        // Who has two parts in one circle is looked at wholly.
        if same && next.says != part.says {
            part.says = None;
        }
        same
    });
    parts
}

/// What all the rules find that look at entries together.
pub(crate) fn find_all<'a>(workspace: &'a Workspace, sink: &mut Sink<'a>) {
    for (rule, together) in together() {
        let mut members: FxHashMap<Circle, Vec<&Record>> = FxHashMap::default();
        for record in workspace.records() {
            for part in parts(together, &within(workspace, record)) {
                members.entry(part.circle).or_default().push(record);
            }
        }
        let mut own = Sink::new(workspace, rule);
        for (circle, records) in members {
            (together.find)(workspace, circle, &records, &mut own);
        }
        in_order(&mut own.drafts);
        sink.drafts.append(&mut own.drafts);
    }
}

/// Puts what one rule found in circles, which come in any order, in the order of the workspace.
pub(crate) fn in_order(drafts: &mut [Draft]) {
    drafts.sort_by(|a, b| {
        let key = |draft: &Draft| {
            let place = draft.finding.place;
            (place.file, place.span.start, place.span.end)
        };
        key(a).cmp(&key(b)).then_with(|| a.finding.message.cmp(&b.finding.message))
    });
}
