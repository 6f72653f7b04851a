//! A finding whose fingerprint still wants a number.

use std::collections::HashMap;

use washline_book::{Workspace, fingerprint};
use washline_text::{FileId, Finding, Fix, Place};

use crate::context::Report;
use crate::{Rule, Sink};

/// A finding, and what its fingerprint hangs on.
#[derive(Clone, Debug)]
pub(crate) struct Draft {
    pub finding: Finding,
    pub identity: Identity,
}

/// What findings share that only their number tells apart.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub(crate) struct Identity {
    rule: &'static str,
    owner: String,
    name: String,
    line: String,
    /// The file, where the finding belongs to no entry with a name.
    file: Option<FileId>,
}

impl Identity {
    pub(crate) fn of(rule: &Rule, report: &Report, workspace: &Workspace) -> Self {
        let (owner, name, line) = report.identity(workspace);
        let file = name.is_empty().then_some(report.place().file);
        Self { rule: rule.name, owner, name, line, file }
    }

    /// The same of a finding that now stands in `file`.
    pub(crate) fn moved(&mut self, file: FileId) {
        self.file = self.file.map(|_| file);
    }
}

impl Sink<'_> {
    /// What was found, numbered in the order in which it was.
    pub(crate) fn numbered(self) -> Vec<Finding> {
        number(self.workspace, self.drafts)
    }
}

/// Gives each draft its fingerprint: those of one identity are numbered in their order. Fixes that
/// would put in what is there already are left out.
pub(crate) fn number(workspace: &Workspace, drafts: Vec<Draft>) -> Vec<Finding> {
    let mut seen: HashMap<Identity, u32> = HashMap::new();
    let mut out = Vec::with_capacity(drafts.len());
    for Draft { mut finding, identity } in drafts {
        let Identity { rule, owner, name, line, .. } = &identity;
        let nth = seen.get(&identity).copied().unwrap_or(0);
        finding.fingerprint = fingerprint(&[*rule, owner, name, line], nth);
        seen.insert(identity, nth + 1);
        finding.fixes.retain(|fix| changes(workspace, fix));
        out.push(finding);
    }
    out
}

fn changes(workspace: &Workspace, fix: &Fix) -> bool {
    fix.edits.iter().any(|(file, edit)| {
        let place = Place { file: *file, span: edit.span };
        workspace.text(place) != edit.text
    })
}
