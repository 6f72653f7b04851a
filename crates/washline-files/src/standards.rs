//! The standards of a house: its `washline.toml`, and what that one starts from.

use std::collections::BTreeMap;
use std::io;
use std::path::{Path, PathBuf};
use std::sync::Arc;

use washline_book::{Known, Settings, SettingsError, read_settings, read_settings_over};
use washline_text::Span;

use crate::{Contents, ReadError, SETTINGS, absolute, read, shown};

/// The text that stands in for a file, such as what an editor holds unsaved.
pub type StandIn<'a> = &'a dyn Fn(&Path) -> Option<Arc<str>>;

/// What reading the standards of a house came to.
#[derive(Debug)]
pub struct Standards {
    /// The standards; none where they can't be read.
    pub settings: Option<Settings>,
    /// The files they hang on, each before the one that it starts from.
    pub files: Vec<StandardsFile>,
    /// Why they can't be read.
    pub troubles: Vec<Trouble>,
}

/// A file of standards.
#[derive(Debug)]
pub struct StandardsFile {
    /// Where it lies.
    pub path: PathBuf,
    /// Its text.
    pub text: Arc<str>,
    /// What it says, by key, and where; empty where it can't be read.
    pub said: BTreeMap<String, Span>,
}

/// What is wrong with a file of standards.
#[derive(Debug)]
pub struct Trouble {
    /// The file.
    pub path: PathBuf,
    /// Its text, as far as it could be read.
    pub text: Arc<str>,
    /// What is wrong.
    pub what: Wrong,
}

/// What can be wrong with a file of standards.
#[derive(Debug)]
pub enum Wrong {
    /// It can't be read.
    Unread(ReadError),
    /// Its bytes are no text.
    NotUtf8,
    /// It says something that is none of the standards.
    Said(SettingsError),
    /// The file it starts from is not to be had: which one, why, and where it is named.
    Extends(String, NoParent, Span),
}

/// Why a file can't start from another.
#[derive(Debug)]
pub enum NoParent {
    /// The path can't be followed.
    Io(io::Error),
    /// There is no such file.
    Missing,
    /// It lies outside of this folder, which it may not.
    Outside(PathBuf),
    /// It starts, in the end, from the file itself.
    Ring,
}

impl Wrong {
    /// What is wrong, for people; folders are named as seen from `here`.
    #[must_use]
    pub fn message(&self, here: &Path) -> String {
        match self {
            Self::Unread(error) => error.to_string(),
            Self::NotUtf8 => "it is no UTF-8".to_owned(),
            Self::Said(error) => error.message.clone(),
            Self::Extends(name, why, _) => match why {
                NoParent::Io(error) => error.to_string(),
                NoParent::Missing => format!("there is no file `{name}` to start from"),
                NoParent::Outside(of) => format!("`{name}` lies outside of {}", shown(of, here)),
                NoParent::Ring => format!("`{name}` starts from this file itself"),
            },
        }
    }

    /// The words concerned, where there are any.
    #[must_use]
    pub fn span(&self) -> Option<Span> {
        match self {
            Self::Unread(_) | Self::NotUtf8 => None,
            Self::Said(error) => Some(error.span),
            Self::Extends(_, _, span) => Some(*span),
        }
    }
}

/// Reads the standards of the house whose root is `folder`.
#[must_use]
pub fn standards(folder: &Path, known: &Known<'_>, stand_in: StandIn<'_>) -> Standards {
    let mut reader = Reader {
        known,
        stand_in,
        within: confines(folder, stand_in),
        files: Vec::new(),
        troubles: Vec::new(),
    };
    let settings = reader.read(&folder.join(SETTINGS));
    Standards { settings, files: reader.files, troubles: reader.troubles }
}

/// The folder that `extends` may not leave: the repository, else the outermost house above.
fn confines<'a>(folder: &'a Path, stand_in: StandIn<'_>) -> &'a Path {
    let repository = folder.ancestors().find(|above| above.join(".git").exists());
    let has = |above: &&Path| is_there(&above.join(SETTINGS), stand_in);
    repository.or_else(|| folder.ancestors().filter(has).last()).unwrap_or(folder)
}

fn is_there(path: &Path, stand_in: StandIn<'_>) -> bool {
    stand_in(path).is_some() || path.is_file()
}

struct Reader<'a> {
    known: &'a Known<'a>,
    stand_in: StandIn<'a>,
    within: &'a Path,
    /// The files that are being read, each for the sake of the one before.
    files: Vec<StandardsFile>,
    troubles: Vec<Trouble>,
}

impl Reader<'_> {
    fn read(&mut self, path: &Path) -> Option<Settings> {
        let file =
            StandardsFile { path: path.to_path_buf(), text: "".into(), said: BTreeMap::new() };
        self.files.push(file);
        let text = self.text(path)?;
        let settings = self.settings(path, &text, read_settings(&text, self.known))?;
        if let Some(file) = self.files.last_mut() {
            (file.text, file.said) = (text.clone(), settings.said.clone());
        }
        let Some(extends) = settings.extends.clone() else { return Some(settings) };
        let span = settings.said.get("extends").copied().unwrap_or_default();
        let parent = match self.parent(path, &extends) {
            Ok(parent) => parent,
            Err(why) => {
                self.trouble(path, &text, Wrong::Extends(extends, why, span));
                return None;
            }
        };
        let parent = self.read(&parent)?;
        self.settings(path, &text, read_settings_over(parent, &text, self.known))
    }

    fn text(&mut self, path: &Path) -> Option<Arc<str>> {
        if let Some(text) = (self.stand_in)(path) {
            return Some(text);
        }
        match read(path) {
            Ok(Contents::Text(text)) => return Some(text.into()),
            Ok(Contents::NotUtf8(_)) => self.trouble(path, &Arc::from(""), Wrong::NotUtf8),
            Err(error) => self.trouble(path, &Arc::from(""), Wrong::Unread(error)),
        }
        None
    }

    /// The file that `path` starts from.
    fn parent(&self, path: &Path, extends: &str) -> Result<PathBuf, NoParent> {
        let folder = path.parent().unwrap_or(path);
        let parent = absolute(Path::new(extends), folder).map_err(NoParent::Io)?;
        if !is_there(&parent, self.stand_in) {
            return Err(NoParent::Missing);
        }
        let real = |path: &Path| path.canonicalize().unwrap_or_else(|_| path.to_path_buf());
        if !real(&parent).starts_with(real(self.within)) {
            return Err(NoParent::Outside(self.within.to_path_buf()));
        }
        if self.files.iter().any(|open| real(&open.path) == real(&parent)) {
            return Err(NoParent::Ring);
        }
        Ok(parent)
    }

    fn settings(
        &mut self,
        path: &Path,
        text: &Arc<str>,
        read: Result<Settings, Vec<SettingsError>>,
    ) -> Option<Settings> {
        match read {
            Ok(settings) => Some(settings),
            Err(errors) => {
                errors.into_iter().for_each(|error| self.trouble(path, text, Wrong::Said(error)));
                None
            }
        }
    }

    fn trouble(&mut self, path: &Path, text: &Arc<str>, what: Wrong) {
        self.troubles.push(Trouble { path: path.to_path_buf(), text: text.clone(), what });
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const KNOWN: Known<'static> = Known { rules: &[], families: &[], techniques: &[] };

    fn house(files: &[(&str, &str)]) -> (tempfile::TempDir, PathBuf) {
        let folder = tempfile::tempdir().unwrap();
        let root = folder.path().canonicalize().unwrap();
        for (name, text) in files {
            let path = root.join(name);
            std::fs::create_dir_all(path.parent().unwrap()).unwrap();
            std::fs::write(path, text).unwrap();
        }
        (folder, root)
    }

    #[test]
    fn what_stands_in_beats_the_disk() {
        let (_folder, root) = house(&[("washline.toml", "extends = 3\n")]);
        let of_disk = standards(&root, &KNOWN, &|_| None);
        assert!(of_disk.settings.is_none() && of_disk.troubles.len() == 1);
        let of_editor = standards(&root, &KNOWN, &|_| Some(Arc::from("")));
        assert!(of_editor.settings.is_some() && of_editor.troubles.is_empty());
    }

    #[test]
    fn a_ring_is_told_where_it_closes() {
        let files = [
            ("washline.toml", "extends = \"a/washline.toml\"\n"),
            ("a/washline.toml", "extends = \"../washline.toml\"\n"),
        ];
        let (_folder, root) = house(&files);
        let read = standards(&root, &KNOWN, &|_| None);
        assert_eq!(read.files.len(), 2);
        let [trouble] = read.troubles.as_slice() else { panic!("{:?}", read.troubles) };
        assert_eq!(trouble.path, root.join("a/washline.toml"));
        assert_eq!(trouble.what.message(&root), "`../washline.toml` starts from this file itself");
    }
}
