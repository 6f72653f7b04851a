//! What a rule is.

use std::fmt;

use washline_text::{FileId, Severity};

use crate::{Context, Sink, Together};

/// A rule: its name, how grave it is, what it is for, and how it finds.
#[derive(Debug)]
pub struct Rule {
    /// Its name in plain words.
    pub name: &'static str,
    /// The group it belongs to.
    pub group: Group,
    /// Its severity where the house says nothing; `None` where it is off until a house asks for it.
    pub severity: Option<Severity>,
    /// Why it matters at the bar, in one clause.
    pub why: &'static str,
    /// Which fixes it offers.
    pub fixes: Fixes,
    /// How it finds.
    pub check: Check,
    /// Its prose: why, a spec that is flagged, the spec mended, the source. Markdown.
    pub prose: &'static str,
}

/// How a rule finds.
#[derive(Clone, Copy)]
pub enum Check {
    /// The reader of the notation finds it.
    Reading,
    /// Whoever loads the file finds it: its bytes are no text, so that nothing can be read.
    Bytes,
    /// Looks at one entry; runs on every drink, prep and stock entry.
    Entry(fn(&Context<'_>, &mut Sink<'_>)),
    /// Looks at one entry's figures: never runs on an entry with an unread line or an unknown ingredient.
    Figures(fn(&Context<'_>, &mut Sink<'_>)),
    /// Looks at what one file says beside its entries.
    File(fn(&washline_book::Workspace, FileId, &mut Sink<'_>)),
    /// Looks at the entries of the workspace together, once.
    Book(Together),
    /// Both: at each entry, and once over the whole workspace for what has one cause in many entries.
    EntryAndBook(fn(&Context<'_>, &mut Sink<'_>), Together),
    /// Both: at each entry, and at what each file says beside its entries.
    EntryAndFrame(
        fn(&Context<'_>, &mut Sink<'_>),
        fn(&washline_book::Workspace, FileId, &mut Sink<'_>),
    ),
    /// Looks at waivers, after all other rules have run.
    Waivers,
}

impl Check {
    /// How it looks at entries together, where it does.
    pub(crate) const fn together(&self) -> Option<Together> {
        match self {
            Self::Book(together) | Self::EntryAndBook(_, together) => Some(*together),
            _ => None,
        }
    }
}

impl fmt::Debug for Check {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(match self {
            Self::Reading => "Reading",
            Self::Bytes => "Bytes",
            Self::Entry(_) => "Entry",
            Self::Figures(_) => "Figures",
            Self::File(_) => "File",
            Self::Book(_) => "Book",
            Self::EntryAndBook(..) => "EntryAndBook",
            Self::EntryAndFrame(..) => "EntryAndFrame",
            Self::Waivers => "Waivers",
        })
    }
}

/// The fixes a rule offers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fixes {
    /// None.
    None,
    /// Some that change nothing of what is poured, meant or declared.
    Safe,
    /// Some that a person must confirm.
    Unsafe,
    /// Of both kinds.
    Both,
}

/// The group of a rule.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Group {
    /// The line can't be read, or only with a doubt.
    Notation,
    /// A name leads nowhere, to two things, or to itself.
    Names,
    /// Amounts and units.
    Measures,
    /// Sugar, acid, strength.
    Balance,
    /// Water, ice, technique, glass.
    Dilution,
    /// What the card leaves unsaid.
    Method,
    /// What must be declared.
    Allergens,
    /// Strength and the law of it.
    Alcohol,
    /// What can hurt.
    Safety,
    /// House preparations.
    Preps,
    /// What the house asks.
    House,
    /// The book as a whole.
    Book,
    /// Rules let off.
    Waivers,
}

impl Group {
    /// Its name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Notation => "notation",
            Self::Names => "names",
            Self::Measures => "measures",
            Self::Balance => "balance",
            Self::Dilution => "dilution",
            Self::Method => "method",
            Self::Allergens => "allergens",
            Self::Alcohol => "alcohol",
            Self::Safety => "safety",
            Self::Preps => "preps",
            Self::House => "house",
            Self::Book => "book",
            Self::Waivers => "waivers",
        }
    }
}

/// The parts of a rule's prose.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Prose {
    /// The paragraphs under `Why`.
    pub why: String,
    /// Specs that are flagged.
    pub flagged: Vec<String>,
    /// The same specs mended.
    pub mended: Vec<String>,
    /// The source.
    pub source: String,
    /// A `washline.toml` under which the examples stand; empty for none.
    pub settings: String,
}

impl Rule {
    /// The address of its page.
    #[must_use]
    pub fn page(&self) -> String {
        let (repository, name) = (env!("CARGO_PKG_REPOSITORY"), self.name);
        format!("{repository}/blob/main/crates/washline-rules/docs/{name}.md")
    }

    /// Its prose, taken apart at its headings.
    #[must_use]
    pub fn parts(&self) -> Prose {
        let mut prose = Prose::default();
        let mut heading = "Why";
        let mut block: Option<String> = None;
        for line in self.prose.lines() {
            let line = line.strip_prefix(' ').unwrap_or(line);
            if line.trim_start().starts_with("```") {
                match block.take() {
                    None => block = Some(String::new()),
                    Some(text) => match heading {
                        "Flagged" => prose.flagged.push(text),
                        "Mended" => prose.mended.push(text),
                        "Settings" => prose.settings.push_str(&text),
                        _ => {}
                    },
                }
                continue;
            }
            if let Some(text) = &mut block {
                text.push_str(line);
                text.push('\n');
                continue;
            }
            if let Some(name) = line.strip_prefix("# ") {
                heading = name.trim();
                continue;
            }
            let part = match heading {
                "Why" => &mut prose.why,
                "Source" => &mut prose.source,
                _ => continue,
            };
            part.push_str(line);
            part.push('\n');
        }
        prose.why = prose.why.trim().to_owned();
        prose.source = prose.source.trim().to_owned();
        prose
    }
}

/// Declares a rule with its prose.
///
/// ```text
/// rule! {
///     /// # Why
///     /// …
///     /// # Flagged
///     /// ```pour
///     /// …
///     /// ```
///     /// # Mended
///     /// ```pour
///     /// …
///     /// ```
///     /// # Source
///     /// …
///     "too-tart", Balance, Warning, Fixes::Unsafe, Check::Figures(find),
///     why: "…"
/// }
/// ```
macro_rules! rule {
    ($(#[doc = $line:literal])* $name:literal, $group:ident, $severity:ident, $fixes:expr, $check:expr, why: $why:literal $(,)?) => {
        /// The rule.
        pub(crate) static RULE: $crate::Rule = $crate::Rule {
            name: $name,
            group: $crate::Group::$group,
            severity: $crate::rule::severity!($severity),
            why: $why,
            fixes: $fixes,
            check: $check,
            prose: concat!($($line, "\n"),*),
        };
    };
}

macro_rules! severity {
    (Off) => {
        None
    };
    ($severity:ident) => {
        Some(washline_text::Severity::$severity)
    };
}

pub(crate) use {rule, severity};
