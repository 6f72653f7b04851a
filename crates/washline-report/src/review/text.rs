//! A review on a terminal.

use washline_review::{Carried, Change, Findings, Move, Review, Told as Finding};

use super::{Sides, words};
use crate::escape;
use crate::grid::Grid;

/// The review as text, ending with a line end.
#[must_use]
pub fn text(review: &Review, sides: &Sides, colour: bool) -> String {
    let mut page = Page { out: String::new(), colour };
    page.line(BOLD, 0, &words::headline(review, sides));
    page.allergens(review);
    page.conflicts(review);
    if !review.changes.is_empty() {
        page.title("Changed");
        review.changes.iter().for_each(|change| page.change(change));
    }
    page.carried(review);
    page.standards(review);
    page.layout(review);
    page.findings(&review.findings);
    page.out
}

/// How many entries that one change carries along are listed: nobody reads more on a terminal.
const MOST_CARRIED: usize = 20;

const RESET: &str = "\x1b[0m";
const BOLD: &str = "\x1b[1m";
const DIM: &str = "\x1b[2m";
const RED: &str = "\x1b[31m";
const GREEN: &str = "\x1b[32m";
const YELLOW: &str = "\x1b[33m";

struct Page {
    out: String,
    colour: bool,
}

impl Page {
    fn line(&mut self, style: &str, indent: usize, words: &str) {
        self.out.push_str(&" ".repeat(indent));
        let words = escape::on_one_line(words);
        if self.colour && !style.is_empty() {
            self.out.push_str(style);
            self.out.push_str(&words);
            self.out.push_str(RESET);
        } else {
            self.out.push_str(&words);
        }
        self.out.push('\n');
    }

    fn title(&mut self, words: &str) {
        self.out.push('\n');
        self.line(BOLD, 0, words);
    }

    /// First of all, who may no longer drink what.
    fn allergens(&mut self, review: &Review) {
        let changed = review.changes.iter().filter(|change| change.before.is_some());
        let changed = changed.map(|change| (&change.entry, &change.allergens));
        let carried = review.carried.iter().map(|carried| (&carried.entry, &carried.allergens));
        let all: Vec<_> = changed.chain(carried).filter(|(_, a)| !a.is_empty()).collect();
        if all.is_empty() {
            return;
        }
        self.title("Allergens");
        for (entry, allergens) in all {
            for (word, said) in words::allergens(allergens) {
                let style = if matches!(word, "gains" | "unknown") { RED } else { GREEN };
                self.line(style, 2, &format!("{} {word} {said}", words::name(entry)));
            }
        }
    }

    fn conflicts(&mut self, review: &Review) {
        for conflict in &review.conflicts {
            self.title(&format!(
                "Merge conflict in {}:{}: two versions stand in the file",
                conflict.file, conflict.line
            ));
            if conflict.sides.is_empty() {
                self.line("", 2, "both versions mean the same: keep either");
            } else {
                self.line(
                    DIM,
                    2,
                    "before each arrow our version, after it theirs; keep the lines of one",
                );
            }
            conflict.sides.iter().for_each(|change| self.change(change));
        }
    }

    fn change(&mut self, change: &Change) {
        let entry = &change.entry;
        let became = words::became(change).map_or_else(String::new, |words| format!(", {words}"));
        let place = format!("{}:{}", entry.file, entry.line);
        self.out.push('\n');
        self.line(BOLD, 2, &format!("{}{became}  {place}", words::name(entry)));
        let mut grid = Grid::default();
        for (word, said) in words::written(change) {
            grid.row().left("").left(&word).left(&said);
        }
        grid.write(&mut self.out);
        if let Some(turned) = words::turned(&change.moves) {
            self.line(YELLOW, 4, &turned);
        }
        self.moves(&change.moves, change.has_both());
        if let Some(reading) = words::reading(change.unread) {
            self.line(RED, 4, reading);
        }
        if change.before.is_none() {
            for (_, said) in words::allergens(&change.allergens) {
                let word = if said.starts_with("nobody") { "" } else { "carries " };
                self.line("", 4, &format!("{word}{said}"));
            }
        }
        for used in &change.still_used {
            let gone = change.before.as_ref().unwrap_or(entry);
            self.line(RED, 4, &words::still(used, gone));
        }
    }

    fn moves(&mut self, moves: &[Move], both: bool) {
        let mut grid = Grid::default();
        for one in words::rows(moves) {
            let told = words::told(one);
            let row = grid.row().left("").left(&told.label);
            if both {
                row.right(&told.before).left("→");
            }
            row.left(if both { &told.after } else { told.alone(one) });
            if both {
                row.left(&told.difference);
            }
            row.left(&told.note);
        }
        grid.write(&mut self.out);
    }

    fn carried(&mut self, review: &Review) {
        let groups = words::groups(review);
        if groups.is_empty() {
            return;
        }
        self.title("Not touched, and no longer the same");
        for group in groups {
            let cause = group.cause.map_or("The house's standards", words::shown);
            self.out.push('\n');
            self.line(BOLD, 2, &format!("{cause}: {}", words::group(&group)));
            let mut entries = group.entries.clone();
            entries.sort_by_key(|one| !one.moves.iter().any(Move::leaves_band));
            let mut grid = Grid::default();
            entries.iter().take(MOST_CARRIED).for_each(|one| rows(&mut grid, one));
            grid.write(&mut self.out);
            let more = entries.len().saturating_sub(MOST_CARRIED);
            if more > 0 {
                self.line(DIM, 4, &format!("and {more} more; --output json names all"));
            }
        }
    }

    fn standards(&mut self, review: &Review) {
        if review.standards.is_empty() {
            return;
        }
        self.title("House standards");
        let mut grid = Grid::default();
        for change in &review.standards {
            let (key, moved) = words::standard(change);
            grid.row().left("").left(&key).left(&moved);
        }
        grid.write(&mut self.out);
    }

    fn layout(&mut self, review: &Review) {
        if !review.layout.is_empty() {
            let names: Vec<&str> = review.layout.iter().take(5).map(words::shown).collect();
            let more = review.layout.len().saturating_sub(names.len());
            let more = if more > 0 { format!(" and {more} more") } else { String::new() };
            let entries = words::entries(review.layout.len());
            self.out.push('\n');
            self.line("", 0, &format!("Layout only, {entries}: {}{more}", names.join(", ")));
        }
        if !review.line_ends.is_empty() {
            self.out.push('\n');
            let files = words::many(review.line_ends.len(), "file", "files");
            self.line("", 0, &format!("Line ends only: {files}"));
        }
    }

    fn findings(&mut self, findings: &Findings) {
        let Findings { new, gone, still } = findings;
        if new.is_empty() && gone.is_empty() && still.is_empty() {
            return;
        }
        let (fresh, past, stay) = (new.len(), gone.len(), still.len());
        self.title(&format!("Findings: {fresh} new, {past} gone, {stay} still there"));
        new.iter().for_each(|one| self.finding("new", RED, one));
        for one in gone {
            self.finding(if one.waived { "waived" } else { "gone" }, GREEN, one);
        }
    }

    fn finding(&mut self, word: &str, style: &str, one: &Finding) {
        let who = one.entry.as_ref().map_or_else(String::new, |entry| format!("{}: ", entry.name));
        let Finding { severity, message, rule, file, line, .. } = one;
        let said = format!("{word} {severity}  {who}{message} [{rule}]  {file}:{line}");
        self.line(style, 2, &said);
    }
}

/// An entry that was carried along: its name, then what tells most.
fn rows(grid: &mut Grid, one: &Carried) {
    let through = match one.through.as_slice() {
        [] | [_] => String::new(),
        [way @ .., _] => format!(", through {}", words::way(way)),
    };
    let name = format!("{}{through}", words::shown(&one.entry));
    let told: Vec<_> = one.moves.iter().filter(|one| !one.within).map(words::told).collect();
    if let Some(reading) = words::reading(one.unread) {
        grid.row().left("").left(&name).left(reading);
        return;
    }
    if told.is_empty() {
        let quiet = match one.moves.is_empty() {
            true => "carries other allergens, see above",
            false => "within what the figures can tell",
        };
        grid.row().left("").left(&name).left(quiet);
        return;
    }
    for (n, told) in told.iter().enumerate() {
        let name = if n == 0 { name.as_str() } else { "" };
        let row = grid.row().left("").left(name).left(&told.label);
        row.right(&told.before).left("→").left(&told.after).left(&told.difference).left(&told.note);
    }
}
