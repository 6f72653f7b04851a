//! The comparison of two states.

use rustc_hash::FxHashSet;
use washline_syntax::Technique;

use crate::carried::{Source, Web};
use crate::lines::{self, Lines};
use crate::meaning;
use crate::pair::Pairs;
use crate::state::{Item, Items};
use crate::uncertainty::Doubts;
use crate::{
    Carried, Change, FieldChange, Move, Review, State, What, allergens, fields, findings, moves,
    standards, steps, users,
};

/// Everything that differs between `before` and `after` in the files that are asked for, and what
/// changes elsewhere carry into them.
#[must_use]
pub fn compare(before: &State<'_>, after: &State<'_>) -> Review {
    let (old, new) = (Items::of(before), Items::of(after));
    let pairs = Pairs::of(&old, &new);
    let doubts = Doubts::new(&old, &new, &pairs);
    let comparer = Comparer { before: &old, after: &new, pairs: &pairs, doubts: &doubts };
    let mut review = Review {
        standards: standards::compare(before, after),
        findings: findings::compare(before, after, (&old, &new), &pairs),
        entries: new.list.iter().filter(|item| item.asked).count(),
        ..Review::default()
    };
    let mut touched: FxHashSet<Source> = FxHashSet::default();
    let mut untouched = Vec::new();
    for (b, item) in old.list.iter().enumerate() {
        if pairs.to.get(b).is_some_and(Option::is_none) {
            touched.insert(Source::Gone(b));
            if item.asked {
                review.changes.push(comparer.removed(b, item));
            }
        }
    }
    for (a, item) in new.list.iter().enumerate() {
        let was = pairs.from.get(a).copied().flatten();
        let change = match was.and_then(|b| Some((b, old.get(b)?))) {
            None => Some(comparer.added(item)),
            Some((b, was)) => comparer.changed((b, was), (a, item), &mut review),
        };
        match (change, was) {
            (Some(change), _) => {
                touched.insert(Source::Now(a));
                let asked = item.asked || was.and_then(|b| old.get(b)).is_some_and(|was| was.asked);
                review.changes.extend(Some(change).filter(|_| asked));
            }
            (None, Some(b)) if item.asked => untouched.push((b, a)),
            (None, _) => {}
        }
    }
    let web = Web { before: &old, after: &new, pairs: &pairs, touched: &touched };
    for (b, a) in untouched {
        review.carried.extend(comparer.carried(b, a, &web));
    }
    review.changes.sort_by(|x, y| (x.what, &x.entry).cmp(&(y.what, &y.entry)));
    review.carried.sort_by(|x, y| (&x.because, &x.entry).cmp(&(&y.because, &y.entry)));
    review.layout.sort();
    review
}

struct Comparer<'a> {
    before: &'a Items<'a>,
    after: &'a Items<'a>,
    pairs: &'a Pairs,
    doubts: &'a Doubts<'a>,
}

impl Comparer<'_> {
    fn added(&self, item: &Item<'_>) -> Change {
        Change {
            moves: moves::compare(None, Some(item), || None),
            allergens: allergens::compare(None, Some(item)),
            unread: (false, item.record.unread),
            ..plain(What::Added, item)
        }
    }

    fn removed(&self, b: usize, item: &Item<'_>) -> Change {
        Change {
            moves: moves::compare(Some(item), None, || None),
            allergens: allergens::compare(Some(item), None),
            unread: (item.record.unread, false),
            still_used: users::of(b, None, self.before, self.after, self.pairs),
            ..plain(What::Removed, item)
        }
    }

    /// What was written differently; none where that is nothing, or layout alone.
    fn changed(
        &self,
        (b, was): (usize, &Item<'_>),
        (a, is): (usize, &Item<'_>),
        review: &mut Review,
    ) -> Option<Change> {
        let (old, new) = (&was.record.entry, &is.record.entry);
        let what = match () {
            () if was.record.key != is.record.key => What::Renamed,
            () if was.file != is.file => What::Moved,
            () => What::Changed,
        };
        let section = section(was, is);
        if what == What::Changed && old.text == new.text && section.is_none() {
            return None;
        }
        let lines = lines::compare(&meaning::poured(old), &meaning::poured(new));
        let Lines { changes: line_changes, reordered, .. } = lines;
        let mut field_changes = fields::compare(&meaning::fields(old), &meaning::fields(new));
        field_changes.extend(section);
        let step_changes = steps::compare(&meaning::steps(old), &meaning::steps(new));
        let says = !(line_changes.is_empty()
            && field_changes.is_empty()
            && step_changes.is_empty()
            && !reordered);
        if what == What::Changed && !says {
            if is.asked {
                review.layout.push(is.named());
            }
            return None;
        }
        let renamed = what == What::Renamed;
        Some(Change {
            before: Some(was.named()),
            lines: line_changes,
            reordered,
            layered: is
                .record
                .method
                .acts
                .iter()
                .any(|act| act.is(&[Technique::Layer, Technique::Float])),
            fields: field_changes,
            steps: step_changes,
            moves: self.moves(b, a),
            unread: (was.record.unread, is.record.unread),
            allergens: allergens::compare(Some(was), Some(is)),
            still_used: match renamed {
                true => users::of(b, Some(a), self.before, self.after, self.pairs),
                false => Vec::new(),
            },
            ..plain(what, is)
        })
    }

    fn carried(&self, b: usize, a: usize, web: &Web<'_>) -> Option<Carried> {
        let (was, is) = (self.before.get(b)?, self.after.get(a)?);
        let moves = self.moves(b, a);
        let allergens = allergens::compare(Some(was), Some(is));
        let unread = (was.record.unread, is.record.unread);
        if moves.is_empty() && allergens.is_empty() && unread.0 == unread.1 {
            return None;
        }
        let why = web.why(a);
        Some(Carried {
            entry: is.named(),
            because: why.because,
            through: why.through,
            moves,
            unread,
            allergens,
        })
    }

    fn moves(&self, b: usize, a: usize) -> Vec<Move> {
        moves::compare(self.before.get(b), self.after.get(a), || self.doubts.of(b, a))
    }
}

fn plain(what: What, item: &Item<'_>) -> Change {
    Change {
        what,
        entry: item.named(),
        before: None,
        lines: Vec::new(),
        reordered: false,
        layered: false,
        fields: Vec::new(),
        steps: Vec::new(),
        moves: Vec::new(),
        unread: (false, false),
        allergens: crate::Allergens::default(),
        still_used: Vec::new(),
    }
}

/// The section that the entry stands under, where it is another.
fn section(was: &Item<'_>, is: &Item<'_>) -> Option<FieldChange> {
    let folded = |item: &Item<'_>| item.section.map(washline_text::fold);
    let text = |item: &Item<'_>| item.section.map(meaning::spaced);
    let differs = folded(was) != folded(is);
    let key = "section".to_owned();
    differs.then(|| FieldChange { key, before: text(was), after: text(is) })
}
