//! Steps before and after.

use crate::StepChange;
use crate::meaning::Said;

pub(crate) fn compare(before: &[Said], after: &[Said]) -> Vec<StepChange> {
    let kept = common(before, after);
    let mut out = Vec::new();
    let (mut b, mut a) = (0, 0);
    let ends = kept.iter().copied().chain([(before.len(), after.len())]);
    for (next_b, next_a) in ends {
        let gone = before.get(b..next_b).unwrap_or_default();
        let come = after.get(a..next_a).unwrap_or_default();
        for at in 0..gone.len().max(come.len()) {
            let text = |side: &[Said]| side.get(at).map(|said| said.text.clone());
            out.push(StepChange { before: text(gone), after: text(come), moved: false });
        }
        (b, a) = (next_b + 1, next_a + 1);
    }
    moved(out)
}

/// A step that is gone in one place and new in another has only moved.
fn moved(changes: Vec<StepChange>) -> Vec<StepChange> {
    let mut out: Vec<StepChange> = Vec::new();
    for change in changes {
        let twin = out.iter_mut().find(|other| {
            !other.moved
                && (other.before.is_some() && other.before == change.after && other.after.is_none()
                    || other.after.is_some()
                        && other.after == change.before
                        && other.before.is_none())
                && (change.before.is_none() || change.after.is_none())
        });
        match twin {
            Some(twin) => {
                let text = change.before.or(change.after);
                *twin = StepChange { before: text.clone(), after: text, moved: true };
            }
            None => out.push(change),
        }
    }
    out
}

/// The longest run of steps that both have in order, as pairs of places.
fn common(before: &[Said], after: &[Said]) -> Vec<(usize, usize)> {
    let (n, m) = (before.len(), after.len());
    // A card has a dozen steps; what has thousands is compared from its two ends alone.
    if n.saturating_mul(m) > 250_000 {
        let same = before.iter().zip(after).take_while(|(b, a)| b.meaning == a.meaning).count();
        return (0..same).map(|at| (at, at)).collect();
    }
    let width = m + 1;
    let mut longest = vec![0_u32; (n + 1) * width];
    let get = |table: &[u32], b: usize, a: usize| table.get(b * width + a).copied().unwrap_or(0);
    for (b, one) in before.iter().enumerate().rev() {
        for (a, other) in after.iter().enumerate().rev() {
            let best = match one.meaning == other.meaning {
                true => get(&longest, b + 1, a + 1) + 1,
                false => get(&longest, b + 1, a).max(get(&longest, b, a + 1)),
            };
            if let Some(slot) = longest.get_mut(b * width + a) {
                *slot = best;
            }
        }
    }
    let mut out = Vec::new();
    let (mut b, mut a) = (0, 0);
    while let (Some(one), Some(other)) = (before.get(b), after.get(a)) {
        if one.meaning == other.meaning {
            out.push((b, a));
            (b, a) = (b + 1, a + 1);
        } else if get(&longest, b + 1, a) >= get(&longest, b, a + 1) {
            b += 1;
        } else {
            a += 1;
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(before: &[&str], after: &[&str], expected: &[&str]) {
        let said = |steps: &[&str]| -> Vec<Said> {
            let of = |text: &&str| Said { meaning: (*text).to_owned(), text: (*text).to_owned() };
            steps.iter().map(of).collect()
        };
        let changes = compare(&said(before), &said(after));
        let side = |side: &Option<String>| side.clone().unwrap_or_default();
        let show = |change: &StepChange| match change.moved {
            true => format!("{} moved", side(&change.after)),
            false => format!("{}>{}", side(&change.before), side(&change.after)),
        };
        assert_eq!(changes.iter().map(show).collect::<Vec<_>>(), expected);
    }

    #[test]
    fn steps_keep_their_places() {
        check(&["a", "b", "c"], &["a", "x", "c"], &["b>x"]);
        check(&["a", "c"], &["a", "b", "c"], &[">b"]);
        check(&["a", "b"], &["b"], &["a>"]);
        check(&["a", "b"], &["a", "b"], &[]);
        check(&["a", "b", "c"], &["b", "c", "a"], &["a moved"]);
    }
}
