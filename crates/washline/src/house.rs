//! The standards of a house, with what is wrong in them told.

use std::path::Path;

use washline_book::Settings;
use washline_files::{ReadError, Trouble, Wrong, shown, standards as read};
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
    let read = read(folder, &washline_rules::known(), &|_| None);
    for trouble in &read.troubles {
        failures.tell(&failure(trouble, here));
    }
    let files = read.files.into_iter().map(|file| SettingsFile {
        name: shown(&file.path, here),
        text: file.text.to_string(),
        said: file.said,
    });
    Some(House { settings: read.settings?, files: files.collect() })
}

fn failure(trouble: &Trouble, here: &Path) -> Failure {
    let name = shown(&trouble.path, here);
    match &trouble.what {
        Wrong::Unread(ReadError::Io(error)) => failure::path(Path::new(&name), error),
        Wrong::Said(error) => Failure::settings(&name, &trouble.text, error),
        wrong => {
            let failure = Failure::about(&name, wrong.message(here));
            let span = wrong.span().map(|span| (span.start as usize, span.len() as usize));
            match span {
                Some(span) => failure.at(&name, &trouble.text, span),
                None => failure,
            }
        }
    }
}
