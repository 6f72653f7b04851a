//! The standards of a house at one point: its `washline.toml`, and what that one starts from.

use washline_book::{Known, Settings, read_settings, read_settings_over};
use washline_files::{Contents, SETTINGS};
use washline_reference as reference;
use washline_review::Standard;

use super::snapshot::{Snapshot, folder_of};
use crate::failure::{Failure, Failures};

/// Reads the standards of the house in `folder`, with the files that they come from, the house's
/// own first. None where they can't be read, which is told with `side` as the state's name.
pub(super) fn read(
    snapshot: &Snapshot,
    folder: &str,
    side: &str,
    failures: &mut Failures,
) -> Option<(Settings, Vec<Standard>)> {
    let rules: Vec<&str> = washline_rules::all().map(|rule| rule.name).collect();
    let families: Vec<&str> = reference::families().iter().map(|family| family.name).collect();
    let techniques: Vec<&str> = reference::techniques().iter().map(|one| one.name).collect();
    let known = Known { rules: &rules, families: &families, techniques: &techniques };
    let mut reader = Reader { snapshot, known, side, files: Vec::new(), failures };
    let settings = reader.read(&joined(folder, SETTINGS)?)?;
    Some((settings, reader.files))
}

struct Reader<'a> {
    snapshot: &'a Snapshot,
    known: Known<'a>,
    side: &'a str,
    files: Vec<Standard>,
    failures: &'a mut Failures,
}

impl Reader<'_> {
    fn read(&mut self, path: &str) -> Option<Settings> {
        let name = format!("{path}, at {}", self.side);
        let text = match self.snapshot.toml(path).as_deref() {
            Some(Contents::Text(text)) => text.clone(),
            Some(Contents::NotUtf8(not)) => {
                self.failures.tell(&Failure::about(&name, not.message()));
                return None;
            }
            None => {
                self.failures.tell(&Failure::about(&name, "there is no such file"));
                return None;
            }
        };
        let settings = self.told(&name, &text, read_settings(&text, &self.known))?;
        let said = settings.said.clone();
        self.files.push(Standard { name: path.to_owned(), text: text.clone(), said });
        let Some(extends) = &settings.extends else { return Some(settings) };
        let span = settings.said.get("extends").copied().unwrap_or_default();
        let span = (span.start as usize, span.len() as usize);
        let parent = match self.target(path, extends) {
            Ok(parent) => parent,
            Err(why) => {
                self.failures.tell(&Failure::about(&name, why).at(&name, &text, span));
                return None;
            }
        };
        let parent = self.read(&parent)?;
        self.told(&name, &text, read_settings_over(parent, &text, &self.known))
    }

    /// The file that `path` starts from.
    fn target(&self, path: &str, extends: &str) -> Result<String, String> {
        let Some(parent) = joined(folder_of(path), extends) else {
            return Err(format!("`{extends}` lies outside of the repository"));
        };
        if self.files.iter().any(|open| open.name == parent) {
            return Err(format!("`{extends}` starts from this file itself"));
        }
        match self.snapshot.toml(&parent) {
            Some(_) => Ok(parent),
            None => Err(format!("there is no file `{extends}` to start from")),
        }
    }

    fn told(
        &mut self,
        name: &str,
        text: &str,
        read: Result<Settings, Vec<washline_book::SettingsError>>,
    ) -> Option<Settings> {
        match read {
            Ok(settings) => Some(settings),
            Err(errors) => {
                for error in errors {
                    self.failures.tell(&Failure::settings(name, text, &error));
                }
                None
            }
        }
    }
}

/// `path` from `folder` on, without dots; none where it leaves the repository.
fn joined(folder: &str, path: &str) -> Option<String> {
    if path.starts_with('/') {
        return None;
    }
    let mut parts: Vec<&str> = folder.split('/').filter(|part| !part.is_empty()).collect();
    for part in path.split('/') {
        match part {
            "" | "." => {}
            ".." => {
                parts.pop()?;
            }
            part => parts.push(part),
        }
    }
    Some(parts.join("/"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_path_stays_in_the_repository() {
        assert_eq!(joined("bar/list", "../house.toml").as_deref(), Some("bar/house.toml"));
        assert_eq!(joined("", "./washline.toml").as_deref(), Some("washline.toml"));
        assert_eq!(joined("bar", "../../house.toml"), None);
        assert_eq!(joined("bar", "/house.toml"), None);
    }
}
