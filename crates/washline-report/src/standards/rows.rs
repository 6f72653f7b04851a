//! The standards as rows: key, value, and where it was said.

use washline_book::{Held, Standard};
use washline_rules::Rule;
use washline_text::Severity;

use super::{Origin, Standards};

/// One standard with its origin; none where it is built in.
pub(super) struct Row {
    pub key: String,
    pub value: Held,
    pub origin: Option<Origin>,
    /// Whether it has a name that a house may or may not speak of: a rule, a family, a glass.
    pub named: bool,
}

/// All of them: the keys in order, then every rule.
pub(super) fn rows(standards: &Standards<'_>) -> Vec<Row> {
    let mut rows: Vec<Row> =
        standards.settings.held().into_iter().map(|held| standards.row(held)).collect();
    rows.extend(washline_rules::all().map(|rule| standards.rule(rule)));
    rows
}

impl Standards<'_> {
    fn row(&self, Standard { key, value }: Standard) -> Row {
        let folder = match key.as_str() {
            "market" => self.settings.folder_market(self.path),
            _ => None,
        };
        let house = match folder {
            Some((folder, _)) => self.said(&format!("folder.{folder}.market")),
            None => self.said(&key),
        };
        let origin = house.or_else(|| self.book.get(&key).cloned());
        let named = ["glasses.", "families.", "techniques."].iter().any(|top| key.starts_with(top));
        Row { key, value, origin, named }
    }

    fn rule(&self, rule: &Rule) -> Row {
        let holds = self.settings.severity(rule.name, self.path).unwrap_or(rule.severity);
        let mut folders = self.settings.folders.iter().rev();
        let own = |folder: &&washline_book::Folder| {
            folder.holds(self.path) && folder.rules.contains_key(rule.name)
        };
        let origin = match folders.find(own) {
            Some(folder) => self.said(&format!("folder.{}.rules.{}", folder.path, rule.name)),
            None => self.said(&format!("rules.{}", rule.name)),
        };
        let word = holds.map_or("off", Severity::name).to_owned();
        Row { key: format!("rules.{}", rule.name), value: Held::Word(word), origin, named: true }
    }

    /// The first of the house's files that says `key`.
    fn said(&self, key: &str) -> Option<Origin> {
        self.files.iter().find_map(|file| file.origin(key))
    }
}

/// What holds where nobody has said `key`, in words.
pub(super) fn unset(key: &str) -> &'static str {
    washline_book::settings_key(key).map_or("", |key| key.unset)
}
