//! What is carried along while a file is read: the settings so far and what is wrong so far.

use toml::de::DeTable;
use washline_text::Span;

use super::read::{self, Known};
use super::value::{Item, Read, bytes, error, mistyped, span};
use super::words::{self, did_you_mean};
use super::{Settings, SettingsError};

/// The reading of one file.
pub(super) struct Reader<'k> {
    /// The names that the caller knows.
    pub known: &'k Known<'k>,
    /// What the file and its parent said so far.
    pub settings: Settings,
    errors: Vec<SettingsError>,
}

/// One `key = value`.
#[derive(Clone, Copy)]
pub(super) struct Entry<'t> {
    /// The key as written.
    pub name: &'t str,
    /// Where the key stands.
    pub key: Span,
    /// The value.
    pub value: &'t Item<'t>,
}

/// The entries of a table whose keys are fixed.
pub(super) struct Fields<'t>(Vec<Entry<'t>>);

impl<'t> Fields<'t> {
    /// The value of the key `name`.
    pub fn get(&self, name: &str) -> Option<&'t Item<'t>> {
        self.entry(name).map(|entry| entry.value)
    }

    /// The key `name` with its value.
    pub fn entry(&self, name: &str) -> Option<Entry<'t>> {
        self.0.iter().copied().find(|entry| entry.name == name)
    }
}

impl<'k> Reader<'k> {
    /// Nothing read yet, over what `settings` hold.
    pub const fn new(known: &'k Known<'k>, settings: Settings) -> Self {
        Self { known, settings, errors: Vec::new() }
    }

    /// The settings, or all that is wrong, in file order.
    pub fn finish(mut self) -> Result<Settings, Vec<SettingsError>> {
        if self.errors.is_empty() {
            return Ok(self.settings);
        }
        self.errors.sort_by_key(|error| (error.span.start, error.span.end));
        Err(self.errors)
    }

    /// What was read; what is wrong is kept for the end.
    pub fn take<T>(&mut self, read: Read<T>) -> Option<T> {
        read.map_err(|error| self.errors.push(error)).ok()
    }

    /// Notes that `item` is what sets `path`.
    pub fn say(&mut self, path: String, item: &Item) {
        self.settings.said.insert(path, span(item));
    }

    /// The entries of the file's top table; a key that is none of `names` is an error.
    pub fn top<'t>(&mut self, table: &'t DeTable<'t>, names: &[&str]) -> Fields<'t> {
        self.sift(listed(table), "washline.toml", names)
    }

    /// The entries of a table whose keys are `names`; any other key is an error. `place`
    /// is what the table is called in messages.
    pub fn fields<'t>(
        &mut self,
        table: &'t Item<'t>,
        place: &str,
        names: &[&str],
        help: &str,
    ) -> Read<Fields<'t>> {
        Ok(self.sift(entries(table, help)?, place, names))
    }

    /// The entries of a table whose keys the house makes up, in file order; one that
    /// belongs at the top of the file is an error.
    pub fn entries<'t>(
        &mut self,
        table: &'t Item<'t>,
        place: &str,
        help: &str,
    ) -> Read<Vec<Entry<'t>>> {
        let (strays, own): (Vec<_>, Vec<_>) =
            entries(table, help)?.into_iter().partition(|entry| read::home(entry.name) == Some(""));
        self.errors.extend(strays.iter().map(|entry| unknown_key(entry, place, &[])));
        Ok(own)
    }

    fn sift<'t>(&mut self, all: Vec<Entry<'t>>, place: &str, names: &[&str]) -> Fields<'t> {
        let (known, unknown): (Vec<_>, Vec<_>) =
            all.into_iter().partition(|entry| names.contains(&entry.name));
        self.errors.extend(unknown.iter().map(|entry| unknown_key(entry, place, names)));
        Fields(known)
    }
}

fn entries<'t>(table: &'t Item<'t>, help: &str) -> Read<Vec<Entry<'t>>> {
    match table.get_ref().as_table() {
        Some(table) => Ok(listed(table)),
        None => mistyped(table, "a table", help),
    }
}

fn listed<'t>(table: &'t DeTable<'t>) -> Vec<Entry<'t>> {
    let mut entries: Vec<_> = table
        .iter()
        .map(|(key, value)| Entry { name: key.get_ref(), key: bytes(key.span()), value })
        .collect();
    entries.sort_by_key(|entry| entry.key.start);
    entries
}

fn unknown_key(entry: &Entry, place: &str, names: &[&str]) -> SettingsError {
    let name = entry.name;
    let help = match read::home(name) {
        Some("") => format!("`{name}` goes at the top of the file, above the first [table]"),
        Some(table) => format!("`{name}` goes under [{table}]"),
        None => {
            let all = format!("the keys are {}", words::listed(names.iter().copied()));
            did_you_mean(name, names.iter().copied(), &all)
        }
    };
    error(entry.key, format!("`{name}` is no key of {place}"), help)
}
