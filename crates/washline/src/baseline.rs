//! The baseline file of a check.

use std::collections::BTreeSet;
use std::fmt::Write as _;
use std::fs;
use std::path::{Component, Path, PathBuf, absolute};

use washline_files::relative;
use washline_report::Outcome;
use washline_report::baseline::{self, Baseline, BaselineError, FILE, Known};

use crate::arguments::Check;
use crate::failure::{self, Failure, Failures};
use crate::output;
use crate::rooms::Room;

/// What the house knows already, read before anything is mended; none without a file, or when
/// it is to be written anew.
pub(crate) fn known(check: &Check, failures: &mut Failures) -> Option<Baseline> {
    let asked = check.baseline.is_some() || check.shrink_baseline;
    if check.write_baseline || !asked {
        return None;
    }
    let file = file(check);
    match fs::read_to_string(file) {
        Ok(text) => read(file, &text, failures),
        Err(error) => {
            failures.tell(&failure::path(file, &error));
            None
        }
    }
}

fn file(check: &Check) -> &Path {
    check.baseline.as_deref().unwrap_or(Path::new(FILE))
}

/// Marks what the baseline knows, and tells what of it is gone. With `--write-baseline` it is
/// first made of all there is, with `--shrink-baseline` what is gone is taken out of it.
pub(crate) fn apply(
    check: &Check,
    known: Option<Baseline>,
    rooms: &[Room],
    outcome: &mut Outcome<'_>,
    failures: &mut Failures,
) {
    let path = file(check);
    let seen = Seen::of(path, rooms);
    let mut known = known;
    if check.write_baseline {
        let text = baseline::write(outcome, |name| seen.place(Path::new(name)));
        output::to_file(path, &text, failures);
        known = read(path, &text, failures);
    }
    let Some(known) = known else { return };
    let mut gone = known.mark(outcome.findings_mut());
    // A run that leaves findings out can't tell which are gone.
    if check.changed_since.is_some() {
        return;
    }
    gone.retain(|known| seen.could_meet(known));
    if gone.is_empty() {
        return;
    }
    if check.shrink_baseline {
        output::to_file(path, &known.without(&gone), failures);
    }
    output::to_stderr(&told(path, &known, &gone, check.shrink_baseline));
}

/// What a run has looked at, from the baseline's folder on.
struct Seen {
    folder: PathBuf,
    files: BTreeSet<String>,
    folders: BTreeSet<String>,
    /// Whether every file of its workspaces was asked for.
    whole: bool,
}

impl Seen {
    fn of(baseline: &Path, rooms: &[Room]) -> Self {
        let folder = from_root(baseline).parent().map(Path::to_path_buf).unwrap_or_default();
        let mut seen =
            Self { folder, files: BTreeSet::new(), folders: BTreeSet::new(), whole: true };
        for room in rooms {
            for (name, asked) in room.names.iter().zip(&room.asked) {
                seen.whole &= *asked;
                if let Some(name) = seen.place(Path::new(name)).filter(|_| *asked) {
                    seen.folders.insert(folder_of(&name).to_owned());
                    seen.files.insert(name);
                }
            }
        }
        seen
    }

    fn place(&self, path: &Path) -> Option<String> {
        relative(&from_root(path), &self.folder)
    }

    /// Whether a known finding would have been met: its file was looked at, or it is there no
    /// more and all of its folder was, so that it would have been met under another name.
    fn could_meet(&self, known: &Known) -> bool {
        match &known.file {
            None => self.whole,
            Some(file) if self.files.contains(file) => true,
            Some(file) => {
                let beside = self.folders.contains(folder_of(file));
                self.whole && beside && !self.folder.join(file).exists()
            }
        }
    }
}

/// The path from the root on, without `..` in it.
fn from_root(path: &Path) -> PathBuf {
    let mut out = PathBuf::new();
    for part in absolute(path).unwrap_or_default().components() {
        match part {
            Component::ParentDir => {
                out.pop();
            }
            part => out.push(part),
        }
    }
    out
}

fn folder_of(name: &str) -> &str {
    name.rsplit_once('/').map_or("", |(folder, _)| folder)
}

/// Known findings that are gone, one a line.
fn told(path: &Path, known: &Baseline, gone: &[&Known], taken_out: bool) -> String {
    const MOST: usize = 10;
    let name = path.to_string_lossy();
    let (count, all) = (gone.len(), known.len());
    let mut out = match taken_out {
        true => format!("{name}: {count} of {all} findings were gone, and are taken out\n"),
        false => format!(
            "{name}: {count} of {all} findings are gone; --shrink-baseline takes them out\n"
        ),
    };
    for known in gone.iter().take(MOST) {
        let file = known.file.as_deref().map(|file| format!("{file}: ")).unwrap_or_default();
        let entry = known.entry.as_deref().map(|entry| format!("{entry}: ")).unwrap_or_default();
        let line = format!("  {file}{entry}{} [{}]", known.message, known.rule);
        let _ = writeln!(out, "{}", washline_report::escape::on_one_line(&line));
    }
    if count > MOST {
        let _ = writeln!(out, "  and {} more", count - MOST);
    }
    out
}

fn read(file: &Path, text: &str, failures: &mut Failures) -> Option<Baseline> {
    let name = file.to_string_lossy();
    let told =
        |error: BaselineError| Failure::about(&name, &error).at(&name, text, (error.offset, 0));
    Baseline::read(text).map_err(|error| failures.tell(&told(error))).ok()
}
