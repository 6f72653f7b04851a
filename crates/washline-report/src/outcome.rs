//! What a check came to, over all workspaces of a run.

use washline_book::Workspace;
use washline_text::{Columns, FileId, Finding, LineIndex, Position, Severity};

/// A file as outputs show it.
#[derive(Clone, Debug)]
pub struct File<'a> {
    /// Its name.
    pub name: String,
    /// Its text.
    pub text: &'a str,
    /// Where its lines start.
    pub index: &'a LineIndex,
}

/// The findings of a run with the files that they speak of.
#[derive(Debug, Default)]
pub struct Outcome<'a> {
    files: Vec<File<'a>>,
    findings: Vec<Finding>,
    /// How many books were asked for.
    pub books: usize,
    /// How many drinks, preps and stock entries they hold.
    pub entries: usize,
}

/// How many findings there are of each kind. Those let off and those known count as such alone.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    counts: [usize; 4],
    /// Let off by a waiver.
    pub waived: usize,
    /// Known from the baseline.
    pub baselined: usize,
}

impl<'a> Outcome<'a> {
    /// Takes `findings` of `workspace`, whose files outputs call `names`, in their order.
    pub fn add(&mut self, workspace: &'a Workspace, names: Vec<String>, findings: Vec<Finding>) {
        let first = u32::try_from(self.files.len()).unwrap_or(u32::MAX);
        let files = names.into_iter().zip(workspace.files());
        self.files.extend(files.map(|(name, file)| File {
            name,
            text: file.document.text(),
            index: &file.index,
        }));
        self.findings.extend(findings.into_iter().map(|mut finding| {
            let moved = |file: &mut FileId| file.0 = file.0.saturating_add(first);
            moved(&mut finding.place.file);
            finding.related.iter_mut().for_each(|related| moved(&mut related.place.file));
            let edits = finding.fixes.iter_mut().flat_map(|fix| &mut fix.edits);
            edits.for_each(|(file, _)| moved(file));
            finding
        }));
    }

    /// Puts the findings in the order of outputs: file, start, end, rule, message.
    pub fn sort(&mut self) {
        let files = &self.files;
        let name = |finding: &Finding| {
            files.get(finding.place.file.0 as usize).map_or("", |file| file.name.as_str())
        };
        self.findings.sort_by(|a, b| {
            let span = |finding: &Finding| (finding.place.span.start, finding.place.span.end);
            (name(a), span(a), a.rule, &a.message).cmp(&(name(b), span(b), b.rule, &b.message))
        });
    }

    /// The findings.
    #[must_use]
    pub fn findings(&self) -> &[Finding] {
        &self.findings
    }

    /// The findings, to be marked.
    pub fn findings_mut(&mut self) -> &mut [Finding] {
        &mut self.findings
    }

    /// The findings that outputs for people show: with `waived` also those let off or known.
    pub(crate) fn shown(&self, waived: bool) -> impl Iterator<Item = &Finding> {
        let all = self.findings.iter();
        all.filter(move |finding| waived || !(finding.waived || finding.baselined))
    }

    /// One file.
    #[must_use]
    pub fn file(&self, id: FileId) -> Option<&File<'a>> {
        self.files.get(id.0 as usize)
    }

    /// Every file that is known, with its name.
    pub(crate) fn named_files(&self) -> impl Iterator<Item = (FileId, &str)> {
        let ids = (0..).map(FileId);
        ids.zip(&self.files).map(|(id, file)| (id, file.name.as_str()))
    }

    /// The findings, counted.
    #[must_use]
    pub fn tally(&self) -> Tally {
        let mut tally = Tally::default();
        for finding in &self.findings {
            tally.waived += usize::from(finding.waived);
            tally.baselined += usize::from(finding.baselined);
            if !finding.waived
                && !finding.baselined
                && let Some(count) = tally.counts.get_mut(finding.severity as usize)
            {
                *count += 1;
            }
        }
        tally
    }
}

impl File<'_> {
    /// Where `offset` stands, from 0.
    #[must_use]
    pub fn position(&self, offset: u32, columns: Columns) -> Position {
        self.index.position(self.text, offset, columns)
    }
}

impl Tally {
    /// How many of `severity` stand.
    #[must_use]
    pub fn of(&self, severity: Severity) -> usize {
        self.counts.get(severity as usize).copied().unwrap_or(0)
    }

    /// Whether any stands that is at least as grave as `least`.
    #[must_use]
    pub fn reaches(&self, least: Severity) -> bool {
        Severity::ALL.into_iter().any(|severity| severity <= least && self.of(severity) > 0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::{finding, outcome};

    #[test]
    fn known_findings_count_as_known_alone() {
        let text = "drink: A\n";
        let mut findings = vec![finding(0, 0..5), finding(0, 0..5), finding(0, 7..8)];
        findings[0].waived = true;
        findings[1].baselined = true;
        outcome(&[("a.pour", text)], findings, |outcome| {
            let tally = outcome.tally();
            assert_eq!((tally.of(Severity::Warning), tally.waived, tally.baselined), (1, 1, 1));
            assert!(tally.reaches(Severity::Warning) && tally.reaches(Severity::Hint));
            assert!(!tally.reaches(Severity::Error));
            assert_eq!(outcome.shown(false).count(), 1);
            assert_eq!(outcome.shown(true).count(), 3);
        });
    }

    #[test]
    fn files_of_several_workspaces_stand_side_by_side() {
        let one = crate::checks::workspace(&[("b.pour", "drink: B\n")]);
        let two = crate::checks::workspace(&[("a.pour", "drink: A\n")]);
        let mut outcome = Outcome::default();
        outcome.add(&one, vec!["b.pour".to_owned()], vec![finding(0, 0..5)]);
        outcome.add(&two, vec!["a.pour".to_owned()], vec![finding(0, 0..5)]);
        outcome.sort();
        let names: Vec<&str> = outcome
            .findings()
            .iter()
            .filter_map(|finding| outcome.file(finding.place.file))
            .map(|file| file.name.as_str())
            .collect();
        assert_eq!(names, ["a.pour", "b.pour"]);
    }
}
