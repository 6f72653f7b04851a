//! What can be opened: addresses in `source:`, the file that a `washline.toml` extends.

use washline_book::{Settings, Workspace};
use washline_syntax::{Key, LineKind};
use washline_text::{FileId, Span};

use crate::Switches;

/// Words that open something.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Link {
    /// The words.
    pub span: Span,
    /// What they open.
    pub target: LinkTarget,
}

/// What a link opens.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum LinkTarget {
    /// An address of the web.
    Url(String),
    /// A file, by its path from the folder of the file that names it.
    Path(String),
}

/// The links of `file`: addresses in `source:`, `credit:` and `note:`.
#[must_use]
pub fn links(workspace: &Workspace, file: FileId, switches: &Switches) -> Vec<Link> {
    let Some(source) = workspace.file(file).filter(|_| switches.links) else { return Vec::new() };
    let mut out = Vec::new();
    for located in source.document.entries() {
        for line in &located.entry.lines {
            let LineKind::Field(field) = &line.what else { continue };
            if !matches!(field.key, Some(Key::Source | Key::Credit | Key::Note)) {
                continue;
            }
            for span in addresses(located.entry.text_of(field.value_span)) {
                let span = span.shift(field.value_span.start + located.start);
                let target = LinkTarget::Url(span.text(source.document.text()).to_owned());
                out.push(Link { span, target });
            }
        }
    }
    out
}

/// The link of a `washline.toml` that was read as `settings`: the file it extends.
#[must_use]
pub fn settings_links(settings: &Settings, switches: &Switches) -> Vec<Link> {
    let link = || {
        let path = settings.extends.clone()?;
        let span = *settings.said.get("extends")?;
        Some(Link { span, target: LinkTarget::Path(path) })
    };
    link().filter(|_| switches.links).into_iter().collect()
}

/// The addresses in `text`, punctuation that closes the sentence left out.
fn addresses(text: &str) -> Vec<Span> {
    let address = |word: &str| {
        let word = word.trim_start_matches(['(', '<', '"']);
        let word = word.trim_end_matches([')', '>', '"', '.', ',', ';', '!', '?']);
        let rest = word.strip_prefix("https://").or_else(|| word.strip_prefix("http://"))?;
        (!rest.is_empty()).then(|| Span::of(word, text))
    };
    text.split_whitespace().filter_map(address).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::harness::House;

    #[test]
    fn an_address_of_a_source_opens() {
        let (house, at) = House::at(
            "prep: A\n  source: see (https://example.org/a), page 3; https://example.org/b.\n  source: a book\n",
        );
        let links = links(&house.workspace, at.file, &Switches::default());
        let said: Vec<&str> = links.iter().map(|link| house.words(link.span)).collect();
        assert_eq!(said, ["https://example.org/a", "https://example.org/b"]);
    }

    #[test]
    fn settings_open_the_file_that_they_extend() {
        let settings = crate::harness::read("extends = \"../washline.toml\"\n");
        let links = settings_links(&settings, &Switches::default());
        assert_eq!(links[0].target, LinkTarget::Path("../washline.toml".to_owned()));
    }
}
