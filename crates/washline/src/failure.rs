//! What kept the run from doing what was asked, told on standard error.

use std::error::Error;
use std::fmt;
use std::io::{self, Write};
use std::path::Path;

use miette::{
    Diagnostic, GraphicalReportHandler, GraphicalTheme, LabeledSpan, NarratableReportHandler,
    Severity, SourceCode,
};
use washline_book::SettingsError;
use washline_report::{Source, escape};

use crate::arguments::Color;
use crate::colour;

/// Tells failures as they come, and remembers whether there was one.
#[derive(Debug)]
pub(crate) struct Failures {
    teller: Teller,
    any: bool,
}

#[derive(Debug)]
enum Teller {
    Drawn(Box<GraphicalReportHandler>),
    Narrated(NarratableReportHandler),
}

/// Something that went wrong, and what to do.
#[derive(Debug)]
pub(crate) struct Failure {
    message: String,
    help: Option<String>,
    source: Option<Source>,
    span: Option<(usize, usize)>,
    warning: bool,
}

impl Failures {
    pub(crate) fn new(color: Color, narrated: bool) -> Self {
        let teller = if narrated {
            Teller::Narrated(NarratableReportHandler::new())
        } else {
            let theme = match colour::on(color, &io::stderr()) {
                true => GraphicalTheme::unicode(),
                false => GraphicalTheme::unicode_nocolor(),
            };
            let drawn = GraphicalReportHandler::new_themed(theme).with_links(false).with_width(100);
            Teller::Drawn(Box::new(drawn))
        };
        Self { teller, any: false }
    }

    /// Tells a failure: the run's status is 2 from now on, unless it is but a warning.
    pub(crate) fn tell(&mut self, failure: &Failure) {
        self.any |= !failure.warning;
        let mut text = String::new();
        // Writing into memory can't fail; a closed standard error is nobody's fault.
        let _ = match &self.teller {
            Teller::Drawn(drawn) => drawn.render_report(&mut text, failure),
            Teller::Narrated(narrated) => narrated.render_report(&mut text, failure),
        };
        let _ = io::stderr().write_all(text.as_bytes());
    }

    /// Whether anything failed.
    pub(crate) const fn any(&self) -> bool {
        self.any
    }
}

impl Failure {
    pub(crate) fn new(message: impl AsRef<str>) -> Self {
        let message = escape::on_one_line(message.as_ref()).into_owned();
        Self { message, help: None, source: None, span: None, warning: false }
    }

    /// Something worth telling that is no failure.
    pub(crate) fn warning(message: impl AsRef<str>) -> Self {
        Self { warning: true, ..Self::new(message) }
    }

    /// The same, as a warning.
    pub(crate) fn softened(self) -> Self {
        Self { warning: true, ..self }
    }

    /// About a file, by the name it has in outputs.
    pub(crate) fn about(name: &str, what: impl fmt::Display) -> Self {
        Self::new(format!("{name}: {what}"))
    }

    /// What is wrong in a `washline.toml`, with its words.
    pub(crate) fn settings(name: &str, text: &str, error: &SettingsError) -> Self {
        let span = (error.span.start as usize, error.span.len() as usize);
        Self::about(name, &error.message).help(&error.help).at(name, text, span)
    }

    pub(crate) fn help(mut self, help: impl Into<String>) -> Self {
        self.help = Some(help.into()).filter(|help| !help.is_empty());
        self
    }

    /// Where in the text of a file it is, in bytes: the start and how many.
    pub(crate) fn at(mut self, name: &str, text: &str, span: (usize, usize)) -> Self {
        self.source = Some(Source::new(escape::on_one_line(name), text));
        self.span = Some(span);
        self
    }
}

/// What a path that could not be used is called, and why.
pub(crate) fn path(path: &Path, error: &io::Error) -> Failure {
    let what = match error.kind() {
        io::ErrorKind::NotFound => "there is no such file or folder".to_owned(),
        io::ErrorKind::PermissionDenied => "it may not be read".to_owned(),
        _ => error.to_string(),
    };
    Failure::about(&path.to_string_lossy(), what)
}

impl fmt::Display for Failure {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.message)
    }
}

impl Error for Failure {}

impl Diagnostic for Failure {
    fn severity(&self) -> Option<Severity> {
        Some(if self.warning { Severity::Warning } else { Severity::Error })
    }

    fn help<'a>(&'a self) -> Option<Box<dyn fmt::Display + 'a>> {
        self.help.as_ref().map(|help| Box::new(help) as Box<dyn fmt::Display>)
    }

    fn source_code(&self) -> Option<&dyn SourceCode> {
        self.source.as_ref().map(|source| source as &dyn SourceCode)
    }

    fn labels(&self) -> Option<Box<dyn Iterator<Item = LabeledSpan> + '_>> {
        let (start, len) = self.span?;
        Some(Box::new(std::iter::once(LabeledSpan::new(None, start, len))))
    }
}
