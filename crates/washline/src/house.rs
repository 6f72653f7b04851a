//! The standards of a house: its `washline.toml`, and what that one starts from.

use std::fs;
use std::path::{Path, PathBuf};

use washline_book::{Known, Settings, read_settings, read_settings_over};
use washline_files::{SETTINGS, absolute, shown};
use washline_reference as reference;
use washline_report::standards::SettingsFile;

use crate::failure::{self, Failure, Failures};

/// The standards of a house.
#[derive(Debug, Default)]
pub(crate) struct House {
    /// What holds.
    pub settings: Settings,
    /// The files that said so, each before the one that it starts from.
    pub files: Vec<SettingsFile>,
}

/// The standards of the house whose root is `folder`; none where they can't be read, which is
/// told. `here` is the folder from which outputs name files.
pub(crate) fn standards(folder: &Path, here: &Path, failures: &mut Failures) -> Option<House> {
    let rules: Vec<&str> = washline_rules::all().map(|rule| rule.name).collect();
    let families: Vec<&str> = reference::families().iter().map(|family| family.name).collect();
    let techniques: Vec<&str> = reference::techniques().iter().map(|one| one.name).collect();
    let known = Known { rules: &rules, families: &families, techniques: &techniques };
    let within = confines(folder);
    let (open, files) = (Vec::new(), Vec::new());
    let mut reader = Reader { known, here, within, open, files, failures };
    let settings = reader.read(&folder.join(SETTINGS))?;
    Some(House { settings, files: reader.files })
}

/// The folder that `extends` may not leave: the repository, else the outermost house above.
fn confines(folder: &Path) -> &Path {
    let repository = folder.ancestors().find(|above| above.join(".git").exists());
    let house = || folder.ancestors().filter(|above| above.join(SETTINGS).is_file()).last();
    repository.or_else(house).unwrap_or(folder)
}

struct Reader<'a> {
    known: Known<'a>,
    here: &'a Path,
    within: &'a Path,
    /// The files that are being read, each for the sake of the one before.
    open: Vec<PathBuf>,
    /// The files that were read, in that order.
    files: Vec<SettingsFile>,
    failures: &'a mut Failures,
}

impl Reader<'_> {
    fn read(&mut self, path: &Path) -> Option<Settings> {
        let name = shown(path, self.here);
        let text = match fs::read(path) {
            Ok(bytes) => match String::from_utf8(bytes) {
                Ok(text) => text,
                Err(_) => {
                    self.failures.tell(&Failure::about(&name, "it is no UTF-8"));
                    return None;
                }
            },
            Err(error) => {
                self.failures.tell(&failure::path(Path::new(&name), &error));
                return None;
            }
        };
        let settings = self.told(&name, &text, read_settings(&text, &self.known))?;
        let (said, file) = (settings.said.clone(), name.clone());
        self.files.push(SettingsFile { name: file, text: text.clone(), said });
        let Some(extends) = settings.extends.clone() else { return Some(settings) };
        let span = settings.said.get("extends").copied().unwrap_or_default();
        let span = (span.start as usize, span.len() as usize);
        self.open.push(path.to_path_buf());
        let parent = match self.target(path, &extends) {
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
    fn target(&self, path: &Path, extends: &str) -> Result<PathBuf, String> {
        let folder = path.parent().unwrap_or(path);
        let parent = absolute(Path::new(extends), folder).map_err(|error| error.to_string())?;
        if !parent.is_file() {
            return Err(format!("there is no file `{extends}` to start from"));
        }
        let real = |path: &Path| path.canonicalize().unwrap_or_else(|_| path.to_path_buf());
        if !real(&parent).starts_with(real(self.within)) {
            return Err(format!("`{extends}` lies outside of {}", shown(self.within, self.here)));
        }
        if self.open.iter().any(|open| real(open) == real(&parent)) {
            return Err(format!("`{extends}` starts from this file itself"));
        }
        Ok(parent)
    }

    fn told(
        &mut self,
        name: &str,
        text: &str,
        read: Result<Settings, Vec<washline_book::SettingsError>>,
    ) -> Option<Settings> {
        let errors = match read {
            Ok(settings) => return Some(settings),
            Err(errors) => errors,
        };
        for error in errors {
            self.failures.tell(&Failure::settings(name, text, &error));
        }
        None
    }
}
