//! Which entry of one state is which of the other.

use rustc_hash::FxHashMap;

use crate::meaning;
use crate::state::{Item, Items};

/// The pairs of entries, by their places in the two states.
#[derive(Debug, Default)]
pub(crate) struct Pairs {
    /// For each entry of the earlier state, the one that it became.
    pub to: Vec<Option<usize>>,
    /// For each entry of the later state, the one that it was.
    pub from: Vec<Option<usize>>,
}

/// From what share of lines in common on two entries of different names are the same one.
const ALIKE: f64 = 0.6;
/// A line that more entries have than this says nothing of which one it is.
const COMMON: usize = 40;

impl Pairs {
    /// By place and name first, then by name in another file, then by lines.
    pub(crate) fn of(before: &Items<'_>, after: &Items<'_>) -> Self {
        let mut pairs =
            Self { to: vec![None; before.list.len()], from: vec![None; after.list.len()] };
        let here =
            |item: &Item<'_>| (item.file.to_owned(), item.record.kind, item.record.key.to_string());
        pairs.by(before, after, here);
        let anywhere = |item: &Item<'_>| (item.record.kind, item.record.key.to_string());
        pairs.by(before, after, anywhere);
        pairs.by_lines(before, after);
        pairs
    }

    /// Pairs what is still alone and has the same key, in order.
    fn by<K: Eq + std::hash::Hash>(
        &mut self,
        before: &Items<'_>,
        after: &Items<'_>,
        key: impl Fn(&Item<'_>) -> K,
    ) {
        let mut waiting: FxHashMap<K, Vec<usize>> = FxHashMap::default();
        for (a, item) in after.list.iter().enumerate().rev() {
            if self.from.get(a).is_some_and(Option::is_none) {
                waiting.entry(key(item)).or_default().push(a);
            }
        }
        for (b, item) in before.list.iter().enumerate() {
            if self.to.get(b).is_some_and(Option::is_none)
                && let Some(a) = waiting.get_mut(&key(item)).and_then(Vec::pop)
            {
                self.join(b, a);
            }
        }
    }

    /// Pairs entries with other names that share most of what they say, the likest first.
    fn by_lines(&mut self, before: &Items<'_>, after: &Items<'_>) {
        let alone = |side: &[Option<usize>], items: &Items<'_>| -> Vec<(usize, Vec<String>)> {
            let free = side.iter().enumerate().filter(|(_, other)| other.is_none());
            let said = free.filter_map(|(at, _)| Some((at, all_said(items.get(at)?))));
            said.filter(|(_, said)| !said.is_empty()).collect()
        };
        let (olds, news) = (alone(&self.to, before), alone(&self.from, after));
        let mut owners: FxHashMap<&str, Vec<usize>> = FxHashMap::default();
        for (n, (_, said)) in news.iter().enumerate() {
            for line in said {
                owners.entry(line).or_default().push(n);
            }
        }
        let mut likest: Vec<(f64, usize, usize)> = Vec::new();
        for (b, said) in &olds {
            let telling = said.iter().filter_map(|line| owners.get(line.as_str()));
            let mut candidates: Vec<usize> =
                telling.filter(|of| of.len() <= COMMON).flatten().copied().collect();
            candidates.sort_unstable();
            candidates.dedup();
            for (a, other) in candidates.into_iter().filter_map(|n| news.get(n)) {
                let kinds = (before.get(*b), after.get(*a));
                let same_kind =
                    matches!(kinds, (Some(b), Some(a)) if b.record.kind == a.record.kind);
                let alike = shared(said, other);
                if same_kind && alike >= ALIKE {
                    likest.push((alike, *b, *a));
                }
            }
        }
        likest.sort_by(|x, y| y.0.total_cmp(&x.0).then((x.1, x.2).cmp(&(y.1, y.2))));
        for (_, b, a) in likest {
            if self.to.get(b).is_some_and(Option::is_none)
                && self.from.get(a).is_some_and(Option::is_none)
            {
                self.join(b, a);
            }
        }
    }

    fn join(&mut self, b: usize, a: usize) {
        if let (Some(to), Some(from)) = (self.to.get_mut(b), self.from.get_mut(a)) {
            (*to, *from) = (Some(a), Some(b));
        }
    }
}

/// Everything that an entry says but its name, sorted.
fn all_said(item: &Item<'_>) -> Vec<String> {
    let entry = &item.record.entry;
    let poured = meaning::poured(entry);
    let mut out: Vec<String> = poured
        .into_iter()
        .map(|line| format!("{} {} {}", line.amount, line.name, line.said))
        .collect();
    out.extend(meaning::steps(entry).into_iter().map(|step| step.meaning));
    let fields = meaning::fields(entry).into_iter();
    out.extend(fields.map(|(key, said)| format!("{key}: {}", said.meaning)));
    out.sort_unstable();
    out
}

/// The share of lines that two sorted lists have in common.
fn shared(one: &[String], other: &[String]) -> f64 {
    let (mut a, mut b, mut both) = (0, 0, 0_usize);
    while let (Some(x), Some(y)) = (one.get(a), other.get(b)) {
        match x.cmp(y) {
            std::cmp::Ordering::Less => a += 1,
            std::cmp::Ordering::Greater => b += 1,
            std::cmp::Ordering::Equal => (a, b, both) = (a + 1, b + 1, both + 1),
        }
    }
    let all = one.len() + other.len() - both;
    #[expect(clippy::cast_precision_loss, reason = "lines of one entry")]
    let share = both as f64 / all.max(1) as f64;
    share
}
