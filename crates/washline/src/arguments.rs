//! What can be said on the command line.

use std::path::PathBuf;
use std::str::FromStr;

use clap::{ArgGroup, Args, Parser, Subcommand, ValueEnum};
use washline_rules::Reach;
use washline_text::{Columns, Severity};

use crate::pick::Lines;

/// Reads a bar's spec books, computes what is in the glass and flags what is wrong.
#[derive(Debug, Parser)]
#[command(version, about, max_term_width = 100)]
pub(crate) struct Arguments {
    #[command(subcommand)]
    pub command: Command,

    /// Whether output has colour
    #[arg(long, value_enum, default_value_t, global = true, value_name = "WHEN")]
    pub color: Color,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Check the books below the paths
    Check(Check),
    /// Lay the books out: blocks, columns, one spelling of numbers and units
    Format(Format),
    /// Compute strength, sugar, acid, water and the rest of every drink and prep
    Figures(Figures),
    /// Show what the house standards come to for a file, and which line said so
    Settings(Settings),
    /// Compare two revisions by meaning: what changed in the glass, not in the text
    Review(Review),
    /// Say why a rule exists, or what the reference knows of an ingredient
    Explain(Explain),
    /// Serve an editor over standard input and output
    Lsp,
}

#[derive(Args, Debug)]
pub(crate) struct Paths {
    /// Books, and folders of books; `-` reads standard input
    #[arg(value_name = "PATH", default_value = ".")]
    pub paths: Vec<PathBuf>,

    /// The file that standard input stands in for
    #[arg(long, value_name = "FILE")]
    pub name: Option<PathBuf>,
}

#[derive(Args, Debug)]
#[command(group = ArgGroup::new("mending").args(["fix", "diff"]).multiple(true))]
pub(crate) struct Check {
    #[command(flatten)]
    pub paths: Paths,

    /// How findings are written, and to which file; may be given several times
    #[arg(long, value_name = "FORMAT[=FILE]", default_value = "text")]
    pub output: Vec<Output<CheckFormat>>,

    /// What a column counts: Unicode characters, UTF-16 code units or bytes
    #[arg(long, value_enum, default_value_t, value_name = "UNIT")]
    pub columns: Unit,

    /// The least severity that makes the exit status 1
    #[arg(long, value_enum, default_value_t, value_name = "SEVERITY")]
    pub fail_on: FailOn,

    /// Show findings that are waived or in the baseline too
    #[arg(long)]
    pub waived: bool,

    /// A file of known findings, which do not count
    #[arg(long, value_name = "FILE")]
    pub baseline: Option<PathBuf>,

    /// Only what touches entries that differ from this revision, or what they carry into
    #[arg(long, value_name = "REVISION", conflicts_with_all = ["mending", "write_baseline"])]
    pub changed_since: Option<String>,

    /// Write all findings to the baseline file (washline-baseline.json unless --baseline says)
    #[arg(long)]
    pub write_baseline: bool,

    /// Take the findings that are gone out of the baseline file; new ones are not let in
    #[arg(long, conflicts_with_all = ["write_baseline", "changed_since"])]
    pub shrink_baseline: bool,

    /// Apply the safe fixes: those that change nothing of what is poured, meant or declared
    #[arg(long)]
    pub fix: bool,

    /// With --fix or --diff: the first fix of each finding, safe or not; read what it did
    #[arg(long = "unsafe", requires = "mending")]
    pub first: bool,

    /// Write nothing; show what --fix would change
    #[arg(long)]
    pub diff: bool,
}

impl Check {
    /// Which fixes are asked for.
    pub(crate) const fn reach(&self) -> Option<Reach> {
        match (self.fix || self.diff, self.first) {
            (false, _) => None,
            (true, false) => Some(Reach::Safe),
            (true, true) => Some(Reach::First),
        }
    }
}

#[derive(Args, Debug)]
pub(crate) struct Format {
    #[command(flatten)]
    pub paths: Paths,

    /// Write nothing; the exit status is 1 where a file would change
    #[arg(long)]
    pub check: bool,

    /// Write nothing; show what would change
    #[arg(long)]
    pub diff: bool,

    /// Lay out only the entry of this name
    #[arg(long, value_name = "NAME")]
    pub entry: Option<String>,

    /// Lay out only the entries that stand on these lines of the file
    #[arg(long, value_name = "FIRST-LAST")]
    pub lines: Option<Lines>,
}

#[derive(Args, Debug)]
pub(crate) struct Figures {
    #[command(flatten)]
    pub paths: Paths,

    /// Only the drink or prep of this name
    #[arg(long, value_name = "NAME", conflicts_with = "bands")]
    pub entry: Option<String>,

    /// The bands that the families of these books come to, for washline.toml, and who is far
    /// from them
    #[arg(long)]
    pub bands: bool,

    /// How figures are written, and to which file; may be given several times
    #[arg(long, value_name = "FORMAT[=FILE]", default_value = "table")]
    pub output: Vec<Output<FiguresFormat>>,
}

#[derive(Args, Debug)]
pub(crate) struct Settings {
    /// A book or a folder
    #[arg(value_name = "PATH", default_value = ".")]
    pub path: PathBuf,

    /// List every rule, family, glass and technique, those that no file speaks of too
    #[arg(long)]
    pub all: bool,

    /// How standards are written, and to which file; may be given several times
    #[arg(long, value_name = "FORMAT[=FILE]", default_value = "text")]
    pub output: Vec<Output<SettingsFormat>>,
}

#[derive(Args, Debug)]
pub(crate) struct Review {
    /// The earlier revision: a commit, a branch, a tag (with --staged, HEAD unless said)
    #[arg(value_name = "BASE", required_unless_present = "staged")]
    pub base: Option<String>,

    /// The later revision; the working tree unless said
    #[arg(value_name = "HEAD", conflicts_with = "staged")]
    pub head: Option<String>,

    /// Only what lies below these paths, and what changes elsewhere carry into it
    #[arg(value_name = "PATH", last = true)]
    pub paths: Vec<PathBuf>,

    /// Compare with what is staged for the next commit
    #[arg(long)]
    pub staged: bool,

    /// Compare with the commit at which the two parted, as for a pull request
    #[arg(long)]
    pub merge_base: bool,

    /// How the review is written, and to which file; may be given several times
    #[arg(long, value_name = "FORMAT[=FILE]", default_value = "text")]
    pub output: Vec<Output<ReviewFormat>>,

    /// What makes the exit status 1; without it a review that could be made is 0
    #[arg(long, value_enum, value_name = "WHAT")]
    pub fail_on: Option<ReviewFailOn>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum ReviewFormat {
    Text,
    Markdown,
    Json,
    Html,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum ReviewFailOn {
    /// A warning or an error that the earlier revision does not have
    NewFindings,
    /// An entry of both revisions that gains or loses an allergen, or an unknown one
    Allergens,
    /// Anything but layout
    Any,
}

#[derive(Args, Debug)]
pub(crate) struct Explain {
    /// A rule or an ingredient; without one, all rules
    #[arg(value_name = "RULE | INGREDIENT")]
    pub words: Vec<String>,
}

/// When output has colour.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, ValueEnum)]
pub(crate) enum Color {
    /// On a terminal, unless NO_COLOR is set
    #[default]
    Auto,
    /// Always
    Always,
    /// Never
    Never,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum CheckFormat {
    Text,
    Short,
    Json,
    Sarif,
    Junit,
    Annotations,
    Narrated,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum FiguresFormat {
    Table,
    Json,
    Csv,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
pub(crate) enum SettingsFormat {
    Text,
    Json,
}

#[derive(Clone, Copy, Debug, Default, ValueEnum)]
pub(crate) enum Unit {
    #[default]
    Scalar,
    Utf16,
    Bytes,
}

impl Unit {
    pub(crate) const fn columns(self) -> Columns {
        match self {
            Self::Scalar => Columns::Scalars,
            Self::Utf16 => Columns::Utf16,
            Self::Bytes => Columns::Bytes,
        }
    }
}

#[derive(Clone, Copy, Debug, Default, ValueEnum)]
pub(crate) enum FailOn {
    Error,
    #[default]
    Warning,
    Information,
    Hint,
    Never,
}

impl FailOn {
    pub(crate) const fn severity(self) -> Option<Severity> {
        match self {
            Self::Error => Some(Severity::Error),
            Self::Warning => Some(Severity::Warning),
            Self::Information => Some(Severity::Information),
            Self::Hint => Some(Severity::Hint),
            Self::Never => None,
        }
    }
}

/// `FORMAT`, or `FORMAT=FILE`.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Output<F> {
    pub format: F,
    pub file: Option<PathBuf>,
}

impl<F: ValueEnum> FromStr for Output<F> {
    type Err = String;

    fn from_str(text: &str) -> Result<Self, String> {
        let (word, file) = match text.split_once('=') {
            Some((_, "")) => return Err("a file's name should follow the =".to_owned()),
            Some((word, file)) => (word, Some(PathBuf::from(file))),
            None => (text, None),
        };
        let format = F::from_str(word, false).map_err(|_| {
            let known = F::value_variants().iter().filter_map(ValueEnum::to_possible_value);
            let known: Vec<String> = known.map(|value| value.get_name().to_owned()).collect();
            format!("`{word}` is none of {}", known.join(", "))
        })?;
        Ok(Self { format, file })
    }
}

impl Arguments {
    /// Whether the reader asked to be told rather than shown.
    pub(crate) fn is_narrated(&self) -> bool {
        let Command::Check(check) = &self.command else { return false };
        check.output.iter().any(|output| output.format == CheckFormat::Narrated)
    }
}

#[cfg(test)]
mod tests {
    use clap::CommandFactory;

    use super::*;

    #[test]
    fn the_command_line_is_sound() {
        Arguments::command().debug_assert();
    }

    #[test]
    fn an_output_may_name_its_file() {
        let json = Output { format: CheckFormat::Json, file: Some(PathBuf::from("a=b.json")) };
        assert_eq!("json=a=b.json".parse(), Ok(json));
        assert_eq!("text".parse(), Ok(Output { format: CheckFormat::Text, file: None }));
        let refused = "jso".parse::<Output<CheckFormat>>();
        assert_eq!(
            refused,
            Err("`jso` is none of text, short, json, sarif, junit, annotations, narrated"
                .to_owned())
        );
        assert!("json=".parse::<Output<CheckFormat>>().is_err());
    }
}
