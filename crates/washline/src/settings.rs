//! `washline settings`: what the house standards come to, and which line said so.

use std::collections::BTreeMap;
use std::env;

use washline_files::{absolute, relative, settings_folder, shown};
use washline_report::standards::{Origin, Standards, json, text};
use washline_text::FileId;

use crate::arguments::{Paths, Settings, SettingsFormat};
use crate::failure::{self, Failure, Failures};
use crate::house::{self, House};
use crate::progress::Progress;
use crate::rooms::{Room, rooms};
use crate::{FAILED, output};

/// Runs the command; the exit status where nothing failed.
pub(crate) fn run(settings: &Settings, failures: &mut Failures) -> u8 {
    if !output::are_apart(&settings.output, failures) {
        return FAILED;
    }
    let done = match settings.path.is_dir() {
        true => of_folder(settings, failures),
        false => of_file(settings, failures),
    };
    done.map_or(FAILED, |()| 0)
}

/// A folder has no book: only the house speaks of it.
fn of_folder(settings: &Settings, failures: &mut Failures) -> Option<()> {
    let told = |error: std::io::Error, failures: &mut Failures| {
        failures.tell(&failure::path(&settings.path, &error));
    };
    let here = env::current_dir().map_err(|error| told(error, failures)).ok()?;
    let full = absolute(&settings.path, &here).map_err(|error| told(error, failures)).ok()?;
    let root = settings_folder(&full);
    let house = match root {
        Some(root) => house::standards(root, &here, failures)?,
        None => House::default(),
    };
    let below = root.and_then(|root| relative(&full, root)).unwrap_or_default();
    let standards = Standards {
        name: &shown(&full, &here),
        path: &format!("{below}/"),
        settings: &house.settings,
        files: &house.files,
        book: BTreeMap::new(),
    };
    write(settings, &standards, failures);
    Some(())
}

fn of_file(settings: &Settings, failures: &mut Failures) -> Option<()> {
    let paths = Paths { paths: vec![settings.path.clone()], name: None };
    let rooms = rooms(&paths, &Progress::default(), failures)?;
    let asked = |room: &Room| room.asked.iter().position(|asked| *asked);
    let Some((room, n)) = rooms.iter().find_map(|room| Some((room, asked(room)?))) else {
        if !failures.any() {
            let name = settings.path.to_string_lossy();
            failures.tell(&Failure::about(&name, "it is no book"));
        }
        return None;
    };
    let file = FileId(u32::try_from(n).unwrap_or(u32::MAX));
    let standards = Standards {
        name: room.names.get(n).map_or("", String::as_str),
        path: room.workspace.file(file).map_or("", |file| &file.name),
        settings: room.workspace.settings_in(file),
        files: &room.house,
        book: book(room, file),
    };
    write(settings, &standards, failures);
    Some(())
}

/// Where the book of `file` says what the house does not.
fn book(room: &Room, file: FileId) -> BTreeMap<String, Origin> {
    let mut out = BTreeMap::new();
    for key in ["market", "units.liquid", "units.solid"] {
        let Some(place) = room.workspace.said_by_book(file, key) else { continue };
        let Some(book) = room.workspace.file(place.file) else { continue };
        let name = room.names.get(place.file.0 as usize).map_or("", String::as_str);
        let origin = Origin::of(name, book.document.text(), &book.index, place.span.start);
        out.insert(key.to_owned(), origin);
    }
    out
}

fn write(settings: &Settings, standards: &Standards<'_>, failures: &mut Failures) {
    for wanted in &settings.output {
        let written = match wanted.format {
            SettingsFormat::Text => text(standards, settings.all),
            SettingsFormat::Json => json(standards),
        };
        output::write(wanted, &written, failures);
    }
}
