//! A review as one page that stands by itself: no script, no address, no picture.

use std::fmt::Write;

use washline_review::{Carried, Change, Move, Review, Told};

use super::{Sides, words};
use crate::escape;

/// The review as an HTML page.
#[must_use]
pub fn html(review: &Review, sides: &Sides) -> String {
    let mut page = Page { out: String::new() };
    page.head(review, sides);
    page.allergens(review);
    page.conflicts(review);
    page.findings("New findings", "bad", &review.findings.new, true);
    page.carried(review);
    page.changes(review);
    page.standards(review);
    page.findings("Findings that are gone", "good", &review.findings.gone, false);
    page.rest(review);
    page.put("</main>\n</body>\n</html>\n");
    page.out
}

const STYLE: &str = include_str!("page.css");

struct Page {
    out: String,
}

impl Page {
    fn put(&mut self, html: &str) {
        self.out.push_str(html);
    }

    fn head(&mut self, review: &Review, sides: &Sides) {
        let title = format!("{} to {}", sides.base, sides.head);
        let headline = words::headline(review, sides);
        let summary = headline.strip_prefix(&format!("{title}: ")).unwrap_or(&headline);
        let _ = write!(
            self.out,
            "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
             <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
             <title>{0}</title>\n<style>\n{STYLE}</style>\n</head>\n<body>\n<main>\n\
             <header>\n<h1>{0}</h1>\n<p class=\"summary\">{1}</p>\n</header>\n",
            safe(&title),
            safe(summary)
        );
    }

    fn section(&mut self, title: &str, class: &str) {
        let _ = write!(self.out, "<section class=\"{class}\">\n<h2>{}</h2>\n", safe(title));
    }

    fn end(&mut self) {
        self.put("</section>\n");
    }

    fn list(&mut self, items: &[String]) {
        if items.is_empty() {
            return;
        }
        self.put("<ul>\n");
        for item in items {
            let _ = writeln!(self.out, "<li>{item}</li>");
        }
        self.put("</ul>\n");
    }

    fn allergens(&mut self, review: &Review) {
        let changed = review.changes.iter().filter(|change| change.before.is_some());
        let changed = changed.map(|change| (&change.entry, &change.allergens));
        let carried = review.carried.iter().map(|carried| (&carried.entry, &carried.allergens));
        let items: Vec<String> = changed
            .chain(carried)
            .flat_map(|(entry, allergens)| {
                let name = safe(words::shown(entry));
                let told = words::allergens(allergens).into_iter();
                told.map(move |(word, said)| {
                    format!("<strong>{name}</strong> <em>{word}</em> {}", safe(&said))
                })
            })
            .collect();
        if !items.is_empty() {
            self.section("Allergens", "bad");
            self.list(&items);
            self.put(
                "<p class=\"quiet\">Reckoned from what is written. Labels, local codes and licensed \
                 practice decide.</p>\n",
            );
            self.end();
        }
    }

    fn conflicts(&mut self, review: &Review) {
        for conflict in &review.conflicts {
            let place = format!("Merge conflict in {}, line {}", conflict.file, conflict.line);
            self.section(&place, "bad");
            self.put("<p>Two versions stand in the file: before is ours, after is theirs.</p>\n");
            conflict.sides.iter().for_each(|change| self.change(change));
            self.end();
        }
    }

    fn findings(&mut self, title: &str, class: &str, told: &[Told], open: bool) {
        if told.is_empty() {
            return;
        }
        self.section(&format!("{title}: {}", told.len()), class);
        let items: Vec<String> = told.iter().map(finding).collect();
        if !open {
            self.put("<details>\n<summary>Show them</summary>\n");
        }
        self.list(&items);
        if !open {
            self.put("</details>\n");
        }
        self.end();
    }

    fn carried(&mut self, review: &Review) {
        let groups = words::groups(review);
        if groups.is_empty() {
            return;
        }
        self.section("Not touched, and no longer the same", "carried");
        for group in groups {
            let cause = group.cause.map_or("The house's standards", words::shown);
            let _ = write!(
                self.out,
                "<h3>{}</h3>\n<p>{}</p>\n<details>\n<summary>{}</summary>\n",
                safe(cause),
                safe(&words::group(&group)),
                safe(&words::entries(group.entries.len()))
            );
            group.entries.iter().for_each(|one| self.carry(one));
            self.put("</details>\n");
        }
        self.end();
    }

    fn carry(&mut self, one: &Carried) {
        let _ = write!(
            self.out,
            "<article>\n<h4>{}</h4>\n<p class=\"quiet\">through {}</p>\n",
            safe(&words::name(&one.entry)),
            safe(&words::way(&one.through))
        );
        self.meaning(one.unread, &one.moves);
        self.put("</article>\n");
    }

    /// In which way it turned, and by how much.
    fn meaning(&mut self, unread: (bool, bool), moves: &[Move]) {
        let reading = words::reading(unread).map(str::to_owned);
        if let Some(said) = reading.or_else(|| words::turned(moves)) {
            let _ = writeln!(self.out, "<p class=\"turn\">{}</p>", safe(&said));
        }
        self.table(moves);
    }

    fn changes(&mut self, review: &Review) {
        if review.changes.is_empty() {
            return;
        }
        self.section(&format!("What was changed: {}", words::entries(review.changes.len())), "");
        review.changes.iter().for_each(|change| self.change(change));
        self.end();
    }

    fn change(&mut self, change: &Change) {
        let entry = &change.entry;
        let became = words::became(change).map_or_else(String::new, |words| {
            format!(" <span class=\"became\">{}</span>", safe(&words))
        });
        let _ = write!(
            self.out,
            "<article>\n<h3>{}{became}</h3>\n<p class=\"quiet\">{}</p>\n",
            safe(&words::name(entry)),
            safe(&format!("{}:{}", entry.file, entry.line))
        );
        let written = words::written(change);
        if !written.is_empty() {
            self.put("<dl>\n");
            for (word, said) in written {
                let _ = writeln!(self.out, "<dt>{}</dt><dd>{}</dd>", safe(&word), safe(&said));
            }
            self.put("</dl>\n");
        }
        if change.has_both() {
            self.meaning(change.unread, &change.moves);
        } else {
            self.figures(&change.moves);
        }
        if change.before.is_none() {
            let carries = words::allergens(&change.allergens);
            let carries: Vec<String> = carries.iter().map(|(_, said)| safe(said)).collect();
            self.list(&carries);
        }
        let gone = change.before.as_ref().unwrap_or(entry);
        let still: Vec<String> =
            change.still_used.iter().map(|used| safe(&words::still(used, gone))).collect();
        self.list(&still);
        self.put("</article>\n");
    }

    /// The figures of what is new or taken out.
    fn figures(&mut self, moves: &[Move]) {
        let rows = words::rows(moves).map(|one| {
            let told = words::told(one);
            ("", vec![told.label.clone(), told.alone(one).to_owned()])
        });
        self.rows(&["figure", "value"], rows.collect());
    }

    fn table(&mut self, moves: &[Move]) {
        let noted = words::any_note(moves);
        let rows = words::rows(moves).map(|one| {
            let told = words::told(one);
            let mut cells = vec![told.label, told.before, told.after, told.difference];
            cells.extend(noted.then_some(told.note));
            (if one.within { " class=\"within\"" } else { "" }, cells)
        });
        let mut head = vec!["figure", "before", "after", "difference"];
        head.extend(noted.then_some("what it means"));
        self.rows(&head, rows.collect());
    }

    /// A table: its head, and rows each with its class.
    fn rows(&mut self, head: &[&str], rows: Vec<(&str, Vec<String>)>) {
        if rows.is_empty() {
            return;
        }
        self.put(
            "<div class=\"scroll\" tabindex=\"0\" role=\"group\" aria-label=\"Figures\">\n<table>\n\
             <thead><tr>",
        );
        head.iter().for_each(|name| self.put(&format!("<th scope=\"col\">{name}</th>")));
        self.put("</tr></thead>\n<tbody>\n");
        for (class, cells) in rows {
            self.put(&format!("<tr{class}>"));
            for (at, cell) in cells.iter().enumerate() {
                let cell = safe(cell);
                self.put(&match at {
                    0 => format!("<th scope=\"row\">{cell}</th>"),
                    _ => format!("<td>{cell}</td>"),
                });
            }
            self.put("</tr>\n");
        }
        self.put("</tbody>\n</table>\n</div>\n");
    }

    fn standards(&mut self, review: &Review) {
        if review.standards.is_empty() {
            return;
        }
        self.section("House standards", "");
        self.put("<dl>\n");
        for change in &review.standards {
            let (key, moved) = words::standard(change);
            let _ = writeln!(self.out, "<dt>{}</dt><dd>{}</dd>", safe(&key), safe(&moved));
        }
        self.put("</dl>\n");
        self.end();
    }

    fn rest(&mut self, review: &Review) {
        let mut last = Vec::new();
        if !review.layout.is_empty() {
            last.push(format!("Layout only: {}.", words::entries(review.layout.len())));
        }
        if !review.line_ends.is_empty() {
            let files = words::many(review.line_ends.len(), "file", "files");
            last.push(format!("Line ends only: {files}."));
        }
        let still = review.findings.still.len();
        if still > 0 {
            last.push(format!("Still there: {}.", words::many(still, "finding", "findings")));
        }
        if !last.is_empty() {
            let _ = writeln!(self.out, "<p class=\"quiet\">{}</p>", last.join(" "));
        }
    }
}

fn finding(told: &Told) -> String {
    let who = told
        .entry
        .as_ref()
        .map_or_else(String::new, |entry| format!("<strong>{}</strong> ", safe(&entry.name)));
    format!(
        "<span class=\"{0}\">{0}</span> {who}{1} <span class=\"quiet\">{2}, {3}</span>",
        told.severity.name(),
        spans(&told.message),
        told.rule,
        safe(&format!("{}:{}", told.file, told.line))
    )
}

/// The words of a finding: what stands between backticks is code.
fn spans(text: &str) -> String {
    let pieces = words::pieces(text).into_iter();
    let piece = |(code, piece): (bool, &str)| match code {
        true => format!("<code>{}</code>", safe(piece)),
        false => safe(piece),
    };
    pieces.map(piece).collect()
}

/// `text` with nothing in it that is markup.
fn safe(text: &str) -> String {
    let text = escape::on_one_line(text);
    let mut out = String::with_capacity(text.len() + 8);
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            c => out.push(c),
        }
    }
    out
}
