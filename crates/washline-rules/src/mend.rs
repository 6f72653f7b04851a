//! Mending: fixes applied round after round, until none is left to apply.

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use washline_book::Workspace;
use washline_text::{Edit, Entry, FileId, Finding, Fix, Severity, Span, apply, line_end};

use crate::check;
use crate::rules::names::duplicate_entry;
use crate::rules::notation::{duplicate_field, merge_conflict};
use held::{Held, key};

/// Rules of which a fix that is not safe chooses between two versions of a card: only a person can,
/// and what is not chosen would be lost in a batch.
const CHOSEN: &[&str] =
    &[duplicate_field::RULE.name, merge_conflict::RULE.name, duplicate_entry::RULE.name];

/// After so many rounds the rest waits for another run.
pub const ROUNDS: usize = 10;

/// Which fixes are applied.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reach {
    /// Of each finding the first that changes nothing of what is poured, meant or declared.
    Safe,
    /// Of each finding the first, safe or not; of two versions of a card none is chosen.
    First,
}

/// What mending came to.
#[derive(Debug)]
pub struct Mended {
    /// The workspace after it.
    pub workspace: Workspace,
    /// What was applied, in the order of application.
    pub done: Vec<Mend>,
    /// What was held back, since it would have brought an error of another rule.
    pub refused: Vec<Refused>,
    /// Whether fixes were left when the rounds ran out.
    pub stopped: bool,
    /// How many findings wait for a person to choose between two versions of a card.
    pub choices: usize,
}

/// One fix, as it is reported.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Mend {
    /// The file that the finding stands in.
    pub file: FileId,
    /// The entry that the finding belongs to.
    pub entry: Option<Entry>,
    /// The rule whose finding it mends.
    pub rule: &'static str,
    /// What it does.
    pub title: String,
    /// Whether it is safe.
    pub safe: bool,
}

/// A fix that was held back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Refused {
    /// The fix.
    pub mend: Mend,
    /// The rule that would then find an error.
    pub brings: &'static str,
}

/// Applies fixes of the findings that `open` lets through, until none is left or [`ROUNDS`] are
/// over. Waived findings are never mended. Fixes that touch the same words wait for the next
/// round; one that would bring an error of another rule, unreadable lines among them, is held back.
#[must_use]
pub fn mend(workspace: Workspace, reach: Reach, open: &dyn Fn(&Finding) -> bool) -> Mended {
    let mut mended =
        Mended { workspace, done: Vec::new(), refused: Vec::new(), stopped: false, choices: 0 };
    let mut findings = check(&mended.workspace);
    let mut held = Held::default();
    for _ in 0..ROUNDS {
        let mut round = Round::new(&mended.workspace, &findings);
        let mut wanted = round.wanted(reach, open, &held);
        if wanted.is_empty() && held.again() {
            mended.refused.clear();
            wanted = round.wanted(reach, open, &held);
        }
        if wanted.is_empty() {
            mended.choices = choices(&findings, open);
            return mended;
        }
        round.grow(&wanted);
        for (finding, fix, brings) in std::mem::take(&mut round.refused) {
            held.refused.insert(key(finding, fix));
            mended.refused.push(Refused { mend: told(finding, fix), brings });
        }
        let taken = std::mem::take(&mut round.taken);
        mended.done.extend(taken.iter().map(|(finding, fix)| told(finding, fix)));
        let Some((workspace, after)) = round.result else { continue };
        held.learn(&taken, &findings, &after);
        mended.workspace = workspace;
        findings = after;
    }
    let round = Round::new(&mended.workspace, &findings);
    mended.stopped = !round.wanted(reach, open, &held).is_empty();
    mended.choices = choices(&findings, open);
    mended
}

fn choices(findings: &[Finding], open: &dyn Fn(&Finding) -> bool) -> usize {
    let chosen = |finding: &&Finding| {
        let safe = finding.fixes.iter().any(|fix| fix.safe);
        CHOSEN.contains(&finding.rule) && !finding.fixes.is_empty() && !safe && !finding.waived
    };
    findings.iter().filter(chosen).filter(|finding| open(finding)).count()
}

type Wanted<'a> = (&'a Finding, &'a Fix);

/// What is mended at once, on one state of the texts.
struct Round<'a> {
    workspace: &'a Workspace,
    findings: &'a [Finding],
    errors: Errors,
    /// Fixes that go well together.
    taken: Vec<Wanted<'a>>,
    refused: Vec<(&'a Finding, &'a Fix, &'static str)>,
    /// The workspace with all that is taken, and what is found in it.
    result: Option<(Workspace, Vec<Finding>)>,
}

impl<'a> Round<'a> {
    fn new(workspace: &'a Workspace, findings: &'a [Finding]) -> Self {
        let errors = Errors::of(workspace, findings);
        Self { workspace, findings, errors, taken: Vec::new(), refused: Vec::new(), result: None }
    }

    /// The fixes to apply, none of which touches words of another.
    fn wanted(
        &self,
        reach: Reach,
        open: &dyn Fn(&Finding) -> bool,
        held: &Held,
    ) -> Vec<Wanted<'a>> {
        let mut wanted: Vec<Wanted<'a>> = Vec::new();
        let mut claims = Claims::default();
        for finding in self.findings.iter().filter(|finding| !finding.waived && open(finding)) {
            let fix = match reach {
                Reach::First if !CHOSEN.contains(&finding.rule) => finding.fixes.first(),
                _ => finding.fixes.iter().find(|fix| fix.safe),
            };
            let Some(fix) = fix else { continue };
            if !held.holds(&key(finding, fix)) && claims.take(&fix.edits) {
                wanted.push((finding, fix));
            }
        }
        wanted
    }

    /// Takes of `wanted` what brings no new error beside what is taken already.
    fn grow(&mut self, wanted: &[Wanted<'a>]) {
        let mut trial = self.taken.clone();
        trial.extend_from_slice(wanted);
        let tried = edited(self.workspace, &trial).map(|workspace| {
            let findings = check(&workspace);
            let brings = self.errors.new_in(&Errors::of(&workspace, &findings));
            (workspace, findings, brings)
        });
        match (tried, wanted) {
            (Some((workspace, findings, None)), _) => {
                self.taken = trial;
                self.result = Some((workspace, findings));
            }
            (Some((_, _, Some(brings))), [(finding, fix)]) => {
                self.refused.push((finding, fix, brings));
            }
            // Edits that do not fit their text are a fix that can't be applied.
            (None, [(finding, fix)]) => self.refused.push((finding, fix, finding.rule)),
            _ => {
                let (first, second) = wanted.split_at(wanted.len() / 2);
                self.grow(first);
                self.grow(second);
            }
        }
    }
}

fn told(finding: &Finding, fix: &Fix) -> Mend {
    Mend {
        file: finding.place.file,
        entry: finding.entry.clone(),
        rule: finding.rule,
        title: fix.title.clone(),
        safe: fix.safe,
    }
}

/// The words that fixes of a round are going to change.
#[derive(Default)]
struct Claims(BTreeSet<(FileId, u32, u32)>);

impl Claims {
    /// Claims the words of all `edits`, unless some are claimed already.
    fn take(&mut self, edits: &[(FileId, Edit)]) -> bool {
        let free = edits.iter().all(|(file, edit)| self.is_free(*file, edit.span));
        if free {
            self.0.extend(edits.iter().map(|(file, edit)| (*file, edit.span.start, edit.span.end)));
        }
        free
    }

    fn is_free(&self, file: FileId, span: Span) -> bool {
        let key = (file, span.start, span.end);
        let before = self.0.range(..key).next_back();
        let after = self.0.range(key..).next();
        let ends = before.is_none_or(|(other, _, end)| *other != file || *end <= span.start);
        let starts = after.is_none_or(|(other, start, _)| *other != file || span.end <= *start);
        ends && starts && after != Some(&key)
    }
}

/// The workspace with `fixes` applied; none where an edit does not fit its text.
fn edited(workspace: &Workspace, fixes: &[Wanted<'_>]) -> Option<Workspace> {
    let mut by_file: BTreeMap<FileId, Vec<Edit>> = BTreeMap::new();
    for (file, edit) in fixes.iter().flat_map(|(_, fix)| &fix.edits) {
        by_file.entry(*file).or_default().push(edit.clone());
    }
    let mut workspace = workspace.clone();
    for (file, mut edits) in by_file {
        edits.sort_by_key(|edit| (edit.span.start, edit.span.end));
        let document = &workspace.file(file)?.document;
        let end = line_end(document.text());
        for edit in &mut edits {
            edit.text = in_ends(&edit.text, end);
        }
        let text = apply(document.text(), &edits).ok()?;
        workspace = workspace.edit(file, Arc::from(text));
    }
    Some(workspace)
}

/// `text` with the line ends of its file.
fn in_ends(text: &str, end: &str) -> String {
    text.replace("\r\n", "\n").replace(['\r', '\n'], end)
}

/// How many errors of each rule stand in each entry.
struct Errors {
    counts: BTreeMap<(&'static str, FileId, Option<Entry>), usize>,
    by_file: BTreeMap<(&'static str, FileId), usize>,
    entries: BTreeSet<(FileId, Option<Entry>)>,
}

impl Errors {
    fn of(workspace: &Workspace, findings: &[Finding]) -> Self {
        let entries = workspace.records().iter().map(|record| {
            let entry = Entry { kind: record.kind, name: record.name.clone() };
            (record.file, Some(entry))
        });
        let mut errors =
            Self { counts: BTreeMap::new(), by_file: BTreeMap::new(), entries: entries.collect() };
        let grave = |finding: &&Finding| finding.severity == Severity::Error && !finding.waived;
        for finding in findings.iter().filter(grave) {
            let (rule, file) = (finding.rule, finding.place.file);
            *errors.counts.entry((rule, file, finding.entry.clone())).or_default() += 1;
            *errors.by_file.entry((rule, file)).or_default() += 1;
        }
        errors
    }

    /// A rule of which `then` has an error that is not here. An entry that goes by a new name
    /// is held against the whole of its file.
    fn new_in(&self, then: &Self) -> Option<&'static str> {
        let more = then.counts.iter().find(|((rule, file, entry), count)| {
            let known = entry.is_none() || self.entries.contains(&(*file, entry.clone()));
            if known {
                let before = self.counts.get(&(*rule, *file, entry.clone()));
                return **count > before.copied().unwrap_or(0);
            }
            let total = |errors: &Self| errors.by_file.get(&(*rule, *file)).copied().unwrap_or(0);
            total(then) > total(self)
        });
        more.map(|((rule, ..), _)| *rule)
    }
}

mod held;
#[cfg(test)]
mod tests;
