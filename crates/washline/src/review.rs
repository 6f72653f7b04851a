//! `washline review`: two states of the books compared by meaning.

use std::io;
use std::path::{Path, PathBuf};
use std::thread;

use washline_files::git::{GitError, Repository};
use washline_files::{absolute, relative};
use washline_report::review::{Sides, html, json, markdown, text};
use washline_review::{Room as Compared, State, compare};
use washline_text::{Finding, Severity};

use crate::arguments::{Color, Review, ReviewFailOn, ReviewFormat};
use crate::failure::{Failure, Failures};
use crate::{FAILED, colour, output};

mod conflicts;
mod rooms;
mod snapshot;
mod standards;
mod touched;

use rooms::{Asked, Room};
use snapshot::{Point, Snapshots};

pub(crate) use touched::Touched;

/// Runs the command; the exit status where nothing failed.
pub(crate) fn run(review: &Review, color: Color, failures: &mut Failures) -> u8 {
    if !output::are_apart(&review.output, failures) {
        return FAILED;
    }
    let Some(states) = states(review, failures) else { return FAILED };
    let found = states.findings();
    let mut compared = states.compare(&found);
    compared.conflicts = conflicts::of(&states);
    compared.line_ends = states.line_ends();
    let sides = &states.sides;
    for wanted in &review.output {
        let coloured = wanted.file.is_none() && colour::on(color, &io::stdout());
        let written = match wanted.format {
            ReviewFormat::Text => text(&compared, sides, coloured),
            ReviewFormat::Markdown => markdown(&compared, sides),
            ReviewFormat::Json => json(&compared, sides),
            ReviewFormat::Html => html(&compared, sides),
        };
        output::write(wanted, &written, failures);
    }
    u8::from(review.fail_on.is_some_and(|on| fails(on, &compared)))
}

fn fails(on: ReviewFailOn, review: &washline_review::Review) -> bool {
    let changed = review.changes.iter().filter(|change| change.before.is_some());
    let mut allergens =
        changed.map(|c| &c.allergens).chain(review.carried.iter().map(|c| &c.allergens));
    match on {
        ReviewFailOn::NewFindings => {
            review.findings.new.iter().any(|told| told.severity <= Severity::Warning)
        }
        ReviewFailOn::Allergens => allergens.any(|allergens| !allergens.is_empty()),
        ReviewFailOn::Any => {
            !review.changes.is_empty()
                || !review.carried.is_empty()
                || !review.standards.is_empty()
                || !review.conflicts.is_empty()
                || !review.findings.new.is_empty()
        }
    }
}

/// Both states of a review, read whole.
pub(crate) struct States {
    before: Vec<Room>,
    after: Vec<Room>,
    /// How outputs call them.
    pub sides: Sides,
}

/// The findings of every workspace of both states.
pub(crate) struct Found {
    before: Vec<Vec<Finding>>,
    after: Vec<Vec<Finding>>,
}

/// Reads both states; none where that fails, which is told.
fn states(review: &Review, failures: &mut Failures) -> Option<States> {
    let here = here(failures)?;
    let wanted = Wanted {
        base: review.base.as_deref(),
        head: review.head.as_deref(),
        staged: review.staged,
        merge_base: review.merge_base,
        paths: &review.paths,
    };
    wanted.read(&here, failures)
}

/// The working directory, as the disk knows it; none where it is gone, which is told.
fn here(failures: &mut Failures) -> Option<PathBuf> {
    match std::env::current_dir().and_then(|here| here.canonicalize()) {
        Ok(here) => Some(here),
        Err(error) => {
            failures.tell(&Failure::about("the working directory", error));
            None
        }
    }
}

/// The repository that `here` lies in; none where there is none, which is told.
fn open(here: &Path, failures: &mut Failures) -> Option<Repository> {
    told(Repository::open(here), failures)
}

fn told<T>(read: Result<T, GitError>, failures: &mut Failures) -> Option<T> {
    match read {
        Ok(read) => Some(read),
        Err(error) => {
            failures.tell(&Failure::new(error.to_string()).help(error.help()));
            None
        }
    }
}

/// What is to be compared.
pub(crate) struct Wanted<'a> {
    /// The earlier revision; `HEAD` where it is left out.
    pub base: Option<&'a str>,
    /// The later one; the working tree where it is left out.
    pub head: Option<&'a str>,
    /// The index is the later one.
    pub staged: bool,
    /// The earlier one is where the two parted.
    pub merge_base: bool,
    /// What is asked for; all below the working directory where it is empty.
    pub paths: &'a [PathBuf],
}

impl Wanted<'_> {
    /// Reads both states; none where that fails, which is told.
    pub(crate) fn read(&self, here: &Path, failures: &mut Failures) -> Option<States> {
        let repository = open(here, failures)?;
        let points = told(self.points(&repository), failures)?;
        let asked = Asked::of(self.paths, repository.top(), here, failures)?;
        let taken = (Snapshots { repository: &repository, failures }).take(&points);
        let [old, new] = told(taken, failures)?;
        let sides = self.sides();
        let opener = rooms::Opener { top: repository.top(), here, asked: &asked };
        let before = opener.open(&old, &sides.base, &[], failures)?;
        let after = opener.open(&new, &sides.head, &before, failures)?;
        asked.tell_unknown(&before, &after, failures);
        Some(States { before, after, sides })
    }

    /// Where the two states are.
    fn points(&self, repository: &Repository) -> Result<[Point; 2], GitError> {
        let base = self.base.unwrap_or("HEAD");
        let later = match (self.head, self.staged) {
            (Some(head), _) => Point::Tree(repository.tree(head)?),
            (None, true) => Point::Index,
            (None, false) => Point::Disk,
        };
        if self.staged && self.base.is_none() && !repository.has_commit() {
            return Ok([Point::Nothing, later]);
        }
        let earlier = match self.merge_base {
            true => {
                let parted = repository.merge_base(base, self.head.unwrap_or("HEAD"))?;
                repository.tree(parted.as_str())?
            }
            false => repository.tree(base)?,
        };
        Ok([Point::Tree(earlier), later])
    }

    fn sides(&self) -> Sides {
        let base = self.base.unwrap_or("HEAD");
        let base = match self.merge_base {
            true => format!("where it left {base}"),
            false => base.to_owned(),
        };
        let head = match (self.head, self.staged) {
            (Some(head), _) => head.to_owned(),
            (None, true) => "what is staged".to_owned(),
            (None, false) => "the working tree".to_owned(),
        };
        Sides { base, head }
    }
}

impl States {
    /// The findings of both, each on a thread of its own.
    pub(crate) fn findings(&self) -> Found {
        let of = |rooms: &[Room]| rooms.iter().map(Room::findings).collect::<Vec<_>>();
        let (before, after) = (&self.before, &self.after);
        thread::scope(|scope| {
            let earlier = scope.spawn(|| of(before));
            let after = of(after);
            // A thread that panics has told why; the run can't go on without it.
            let before = earlier.join().unwrap_or_else(|why| std::panic::resume_unwind(why));
            Found { before, after }
        })
    }

    /// No findings, for whom they do not matter.
    fn without_findings(&self) -> Found {
        let none = |rooms: &[Room]| vec![Vec::new(); rooms.len()];
        Found { before: none(&self.before), after: none(&self.after) }
    }

    /// What differs.
    pub(crate) fn compare(&self, found: &Found) -> washline_review::Review {
        compare(&state(&self.before, &found.before), &state(&self.after, &found.after))
    }

    /// The files that differ in their line ends alone.
    fn line_ends(&self) -> Vec<String> {
        let mut out = Vec::new();
        for (before, after) in self.before.iter().flat_map(|before| {
            self.after.iter().filter(|after| after.root == before.root).map(move |a| (before, a))
        }) {
            for (name, text) in after.asked_texts() {
                let Some(old) = before.text(name) else { continue };
                let lf = |text: &str| text.replace("\r\n", "\n");
                if old.len() != text.len() && lf(old) == lf(text) {
                    out.push(name.to_owned());
                }
            }
        }
        out
    }
}

fn state<'a>(rooms: &'a [Room], findings: &'a [Vec<Finding>]) -> State<'a> {
    let rooms = rooms.iter().zip(findings).map(|(room, findings)| room.compared(findings));
    State { rooms: rooms.collect() }
}

/// `path` from the top of the repository on, with `/`; none where it lies outside.
fn from_top(path: &Path, top: &Path, here: &Path) -> Option<String> {
    let full = absolute(path, here).ok()?;
    let real = || full.canonicalize().ok().and_then(|real| relative(&real, top));
    relative(&full, top).or_else(real)
}

/// A room as the comparison takes it.
impl Room {
    fn compared<'a>(&'a self, findings: &'a [Finding]) -> Compared<'a> {
        Compared {
            workspace: &self.workspace,
            names: &self.names,
            asked: &self.asked,
            findings,
            standards: &self.standards,
        }
    }
}
