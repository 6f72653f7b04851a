//! What a rule sees, and how it says what it found.

use washline_book::{Figure, Record, Settings, Workspace};
use washline_text::{
    Edit, Entry, FileId, Finding, Fix, Kind, Place, Related, Severity, Span, line_end,
};

use crate::draft::{Draft, Identity};
use crate::{Check, Rule};

/// One entry in its workspace.
#[derive(Clone, Copy, Debug)]
pub struct Context<'a> {
    /// All files.
    pub workspace: &'a Workspace,
    /// The entry.
    pub record: &'a Record,
    /// The standards that hold for it.
    pub settings: &'a Settings,
}

impl<'a> Context<'a> {
    /// Whether it is a drink.
    #[must_use]
    pub fn is_drink(&self) -> bool {
        self.record.kind == Kind::Drink
    }

    /// Whether it is a prep.
    #[must_use]
    pub fn is_prep(&self) -> bool {
        self.record.kind == Kind::Prep
    }

    /// The value of a figure.
    #[must_use]
    pub fn figure(&self, figure: Figure) -> Option<f64> {
        self.record.figures.value(figure)
    }

    /// An edit of a span of the entry, as a fix of its file wants it.
    #[must_use]
    pub fn edit(&self, span: Span, text: impl Into<String>) -> (FileId, Edit) {
        (self.record.file, Edit::new(span.shift(self.record.start), text))
    }

    /// An edit that puts a new line of text in right below the entry's line `at`, indented as it is.
    #[must_use]
    pub fn line_below(&self, at: usize, text: &str) -> Option<(FileId, Edit)> {
        let entry = &self.record.entry;
        let line = entry.lines.get(at)?;
        let indent = Span::new(line.span.start, line.content.start).text(&entry.text);
        let indent = if at == 0 { "  " } else { indent };
        let end = line_end(&entry.text);
        Some(self.edit(Span::at(line.span.end), format!("{end}{indent}{text}")))
    }

    /// The place of an ingredient line or garnish, by its place among the lines read.
    #[must_use]
    pub fn read_place(&self, at: usize) -> Place {
        let record = self.record;
        let reads = record.reads.iter().chain(&record.garnishes);
        let span = reads.into_iter().nth(at).map_or(record.entry.name, |read| read.name_span);
        record.place(span)
    }
}

/// A finding in the making.
#[derive(Clone, Debug)]
#[must_use]
pub struct Report {
    place: Place,
    severity: Option<Severity>,
    message: String,
    help: String,
    why: Option<String>,
    related: Vec<Related>,
    fixes: Vec<Fix>,
    owner: Option<Owner>,
    key: Option<String>,
}

#[derive(Clone, Debug)]
struct Owner {
    entry: Entry,
    book: String,
    line: String,
}

impl Report {
    /// Something about the words at `span` of the entry: what is wrong, with the numbers.
    pub fn at(context: &Context<'_>, span: Span, message: impl Into<String>) -> Self {
        let record = context.record;
        Self::on(record, record.place(span), message)
    }

    /// Something about the whole entry: it points at its name.
    pub fn entry(context: &Context<'_>, message: impl Into<String>) -> Self {
        Self::on(context.record, context.record.name_place(), message)
    }

    /// Something about a place of `record`.
    pub fn on(record: &Record, place: Place, message: impl Into<String>) -> Self {
        let span = Span::new(
            place.span.start.saturating_sub(record.start),
            place.span.end.saturating_sub(record.start),
        );
        let owner = Owner {
            entry: Entry { kind: record.kind, name: record.name.clone() },
            book: record.book.as_deref().unwrap_or_default().to_owned(),
            line: crate::words::typed_line(record, span),
        };
        Self { owner: Some(owner), ..Self::bare(place, message) }
    }

    /// Something about a file as a whole, or a place that belongs to no entry.
    pub fn file(place: Place, message: impl Into<String>) -> Self {
        Self::bare(place, message)
    }

    /// What is flagged.
    pub(crate) const fn place(&self) -> Place {
        self.place
    }

    /// What its fingerprint hangs on: book and kind, name, line or key.
    pub(crate) fn identity(&self, workspace: &Workspace) -> (String, String, String) {
        match &self.owner {
            Some(owner) => (
                format!("{}/{}", owner.book, owner.entry.kind.name()),
                washline_text::fold(&owner.entry.name),
                self.key.clone().unwrap_or_else(|| owner.line.clone()),
            ),
            None => {
                let words = || washline_text::fold(workspace.text(self.place));
                ("/".to_owned(), String::new(), self.key.clone().unwrap_or_else(words))
            }
        }
    }

    fn bare(place: Place, message: impl Into<String>) -> Self {
        Self {
            place,
            severity: None,
            message: message.into(),
            help: String::new(),
            why: None,
            related: Vec::new(),
            fixes: Vec::new(),
            owner: None,
            key: None,
        }
    }

    /// Other words in place of the first.
    pub fn saying(mut self, message: impl Into<String>) -> Self {
        self.message = message.into();
        self
    }

    /// What to do.
    pub fn help(mut self, help: impl Into<String>) -> Self {
        self.help = help.into();
        self
    }

    /// Why it matters here, where the rule's own reason is too general.
    pub fn why(mut self, why: impl Into<String>) -> Self {
        self.why = Some(why.into());
        self
    }

    /// A severity other than the rule's own. A house's setting still wins.
    pub const fn severity(mut self, severity: Severity) -> Self {
        self.severity = Some(severity);
        self
    }

    /// A second place.
    pub fn related(mut self, place: Place, message: impl Into<String>) -> Self {
        self.related.push(Related { place, message: message.into() });
        self
    }

    /// A way to mend it; alternatives, best first.
    pub fn fix(mut self, title: impl Into<String>, safe: bool, edits: Vec<(FileId, Edit)>) -> Self {
        if !edits.is_empty() {
            self.fixes.push(Fix { title: title.into(), safe, edits });
        }
        self
    }

    /// What the fingerprint hangs on in place of the line: of a finding about figures, the lines they come from.
    pub fn key(mut self, key: impl Into<String>) -> Self {
        self.key = Some(key.into());
        self
    }
}

/// Collects what the rules find.
#[derive(Debug)]
pub struct Sink<'a> {
    pub(crate) workspace: &'a Workspace,
    rule: &'static Rule,
    pub(crate) drafts: Vec<Draft>,
}

impl<'a> Sink<'a> {
    pub(crate) const fn new(workspace: &'a Workspace, rule: &'static Rule) -> Self {
        Self { workspace, rule, drafts: Vec::new() }
    }

    pub(crate) const fn turn_to(&mut self, rule: &'static Rule) {
        self.rule = rule;
    }

    /// Takes a finding of the rule at hand.
    pub fn report(&mut self, report: Report) {
        let rule = self.rule;
        let path = self.workspace.file_name(report.place.file);
        let own = report.severity.or(rule.severity);
        let Some(severity) = (match self.workspace.settings().severity(rule.name, path) {
            Some(house) => house.map(|house| calm(house, rule, own)),
            None => own,
        }) else {
            return;
        };
        let identity = Identity::of(rule, &report, self.workspace);
        let finding = Finding {
            rule: rule.name,
            severity,
            place: report.place,
            entry: report.owner.map(|owner| owner.entry),
            message: report.message,
            why: report.why.unwrap_or_else(|| rule.why.to_owned()),
            help: report.help,
            related: report.related,
            fixes: report.fixes,
            fingerprint: String::new(),
            waived: false,
            baselined: false,
        };
        self.drafts.push(Draft { finding, identity });
    }
}

/// A house sets a rule's severity; a leaning finding, said more softly than the rule, is not made
/// graver than it is.
fn calm(house: Severity, rule: &Rule, own: Option<Severity>) -> Severity {
    match (own, rule.severity) {
        (Some(own), Some(rule)) if own > rule => own.max(house),
        _ => house,
    }
}

impl Rule {
    /// Whether it looks at figures, and so needs every line to be read.
    #[must_use]
    pub const fn needs_figures(&self) -> bool {
        matches!(self.check, Check::Figures(_))
    }
}
