//! A review as a comment on a pull request: short first, details folded, and never larger than
//! a forge takes.

use std::fmt::Write;

use washline_review::{Carried, Change, Move, Review, Told};

use super::{Sides, words};
use crate::escape;

/// The most characters that forges take in a comment.
pub const MOST_CHARACTERS: usize = 65_536;
/// What is kept free for what a workflow adds of its own.
const SPARE: usize = 1_024;

/// How much is told.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
enum Detail {
    /// Everything, figures as tables.
    Full,
    /// What was written and in which way it turned.
    Lines,
    /// The names alone.
    Names,
    /// Numbers alone.
    Counts,
}

/// The review as Markdown, at most [`MOST_CHARACTERS`] long: what would be longer is told in less
/// detail, and says so.
#[must_use]
pub fn markdown(review: &Review, sides: &Sides) -> String {
    let mut out = String::new();
    for detail in [Detail::Full, Detail::Lines, Detail::Names, Detail::Counts] {
        out = page(review, sides, detail);
        if out.chars().count() <= MOST_CHARACTERS - SPARE {
            break;
        }
    }
    cut(out)
}

/// Names alone may be too long: nothing is left but to stop.
fn cut(text: String) -> String {
    if text.chars().count() <= MOST_CHARACTERS {
        return text;
    }
    let mut out: String = text.chars().take(MOST_CHARACTERS - SPARE).collect();
    out.push_str("…\n\nThe rest is too long for a comment.\n");
    out
}

fn page(review: &Review, sides: &Sides, detail: Detail) -> String {
    let mut page = Page { out: String::new(), detail };
    page.put(&format!("**{}**\n\n", plain(&words::headline(review, sides))));
    page.note();
    page.allergens(review);
    page.conflicts(review);
    page.new_findings(review);
    page.groups(review);
    page.changes(review);
    page.carried(review);
    page.rest(review);
    page.out
}

struct Page {
    out: String,
    detail: Detail,
}

impl Page {
    fn put(&mut self, text: &str) {
        self.out.push_str(text);
    }

    fn item(&mut self, text: &str) {
        let _ = writeln!(self.out, "- {text}");
    }

    fn note(&mut self) {
        let less = match self.detail {
            Detail::Full => return,
            Detail::Lines => "figures are left out",
            Detail::Names => "entries are named alone",
            Detail::Counts => "entries are counted alone",
        };
        self.put(&format!(
            "_Too much for a comment: {less}. `washline review` in a terminal tells all._\n\n"
        ));
    }

    /// The most items of a list that stays open.
    const fn most(&self) -> usize {
        match self.detail {
            Detail::Full | Detail::Lines => 50,
            Detail::Names => 20,
            Detail::Counts => 5,
        }
    }

    fn list(&mut self, items: &[String]) {
        let most = self.most();
        items.iter().take(most).for_each(|item| self.item(item));
        if items.len() > most {
            self.item(&format!("and {} more", items.len() - most));
        }
        self.put("\n");
    }

    fn allergens(&mut self, review: &Review) {
        let changed = review.changes.iter().filter(|change| change.before.is_some());
        let changed = changed.map(|change| (&change.entry, &change.allergens));
        let carried = review.carried.iter().map(|carried| (&carried.entry, &carried.allergens));
        let items: Vec<String> = changed
            .chain(carried)
            .flat_map(|(entry, allergens)| {
                let name = bold(words::shown(entry));
                let told = words::allergens(allergens).into_iter();
                told.map(move |(word, said)| format!("{name} {word} {}", plain(&said)))
            })
            .collect();
        if !items.is_empty() {
            self.put("### Allergens\n\n");
            self.list(&items);
        }
    }

    fn conflicts(&mut self, review: &Review) {
        if review.conflicts.is_empty() {
            return;
        }
        self.put("### Merge conflicts\n\n");
        for conflict in &review.conflicts {
            let (file, line) = (plain(&conflict.file), conflict.line);
            self.put(&format!("Two versions stand in {file}, line {line}: ours → theirs.\n\n"));
            conflict.sides.iter().take(self.most()).for_each(|change| self.change(change));
        }
    }

    fn new_findings(&mut self, review: &Review) {
        let items: Vec<String> = review.findings.new.iter().map(finding).collect();
        if !items.is_empty() {
            self.put("### New findings\n\n");
            self.list(&items);
        }
    }

    /// One line for each cause, unfolded: what a bar lead asks first.
    fn groups(&mut self, review: &Review) {
        let groups = words::groups(review);
        let items: Vec<String> = groups
            .iter()
            .map(|group| {
                let cause = group.cause.map_or("The house's standards", words::shown);
                format!("{}: {}", bold(cause), words::group(group))
            })
            .collect();
        if !items.is_empty() {
            self.put("### Not touched, and no longer the same\n\n");
            self.list(&items);
        }
    }

    fn changes(&mut self, review: &Review) {
        if review.changes.is_empty() || self.detail == Detail::Counts {
            return;
        }
        self.open(&format!("What was changed: {}", words::entries(review.changes.len())));
        if self.detail == Detail::Names {
            let names = review.changes.iter().map(|change| plain(&words::name(&change.entry)));
            let names: Vec<String> = names.collect();
            self.put(&names.join(", "));
            self.put("\n\n");
        } else {
            review.changes.iter().for_each(|change| self.change(change));
        }
        self.close();
    }

    fn change(&mut self, change: &Change) {
        let became = words::became(change).map_or_else(String::new, |words| format!(", {words}"));
        let entry = &change.entry;
        let place = plain(&format!("{}:{}", entry.file, entry.line));
        let head = format!("{}{}", words::name(entry), became);
        self.put(&format!("**{}** {place}\n\n", plain(&head)));
        let mut any = false;
        for (word, said) in words::written(change) {
            any = true;
            self.item(&format!("{}: {}", plain(&word), plain(&said)));
        }
        for told in words::turned(&change.moves).into_iter() {
            any = true;
            self.item(&bold(&told));
        }
        if let Some(reading) = words::reading(change.unread) {
            any = true;
            self.item(&bold(reading));
        }
        for used in &change.still_used {
            any = true;
            let gone = change.before.as_ref().unwrap_or(entry);
            self.item(&bold(&words::still(used, gone)));
        }
        if change.before.is_none() {
            for (_, said) in words::allergens(&change.allergens) {
                any = true;
                self.item(&format!("allergens: {}", plain(&said)));
            }
        }
        if any {
            self.put("\n");
        }
        if self.detail != Detail::Full {
            return;
        }
        match change.has_both() {
            true => self.table(&change.moves),
            false => self.figures(&change.moves),
        }
    }

    /// The figures of what is new or taken out.
    fn figures(&mut self, moves: &[Move]) {
        let told = words::rows(moves).map(|one| {
            let told = words::told(one);
            vec![told.label.clone(), told.alone(one).to_owned()]
        });
        self.rows("| | |\n| --- | ---: |\n", told.collect());
    }

    fn table(&mut self, moves: &[Move]) {
        let noted = words::any_note(moves);
        let told = words::rows(moves).map(|one| {
            let told = words::told(one);
            let mut cells = vec![told.label, told.before, told.after, told.difference];
            cells.extend(noted.then_some(told.note));
            cells
        });
        let head = match noted {
            true => {
                "| | before | after | difference | what it means |\n| --- | ---: | ---: | --- | --- |\n"
            }
            false => "| | before | after | difference |\n| --- | ---: | ---: | --- |\n",
        };
        self.rows(head, told.collect());
    }

    fn rows(&mut self, head: &str, rows: Vec<Vec<String>>) {
        if rows.is_empty() {
            return;
        }
        self.put(head);
        for cells in rows {
            let cells: Vec<String> = cells.iter().map(|cell| plain(cell)).collect();
            self.put(&format!("| {} |\n", cells.join(" | ")));
        }
        self.put("\n");
    }

    fn carried(&mut self, review: &Review) {
        if review.carried.is_empty() || self.detail >= Detail::Names {
            return;
        }
        self.open(&format!("What they carry along: {}", words::entries(review.carried.len())));
        for one in &review.carried {
            self.carry(one);
        }
        self.close();
    }

    fn carry(&mut self, one: &Carried) {
        let through = match one.through.is_empty() {
            true => String::new(),
            false => format!(", through {}", plain(&words::way(&one.through))),
        };
        let turned = words::reading(one.unread).map(str::to_owned);
        let turned = turned.or_else(|| words::turned(&one.moves));
        let turned = turned.unwrap_or_else(|| "within what the figures can tell".to_owned());
        let name = bold(&words::name(&one.entry));
        if self.detail == Detail::Full {
            self.put(&format!("{name} {turned}{through}\n\n"));
            let moves: Vec<Move> = one.moves.iter().filter(|one| !one.within).cloned().collect();
            self.table(&moves);
        } else {
            self.item(&format!("{name} {turned}{through}"));
        }
    }

    fn rest(&mut self, review: &Review) {
        if !review.standards.is_empty() {
            self.open("House standards");
            let items: Vec<String> = review
                .standards
                .iter()
                .map(|change| {
                    let (key, moved) = words::standard(change);
                    format!("{}: {}", plain(&key), plain(&moved))
                })
                .collect();
            self.list(&items);
            self.close();
        }
        let gone: Vec<String> = review.findings.gone.iter().map(finding).collect();
        if !gone.is_empty() {
            self.open(&format!("Findings that are gone: {}", gone.len()));
            self.list(&gone);
            self.close();
        }
        let mut last = Vec::new();
        if !review.layout.is_empty() {
            last.push(format!("Layout only: {}.", words::entries(review.layout.len())));
        }
        if !review.line_ends.is_empty() {
            last.push(format!(
                "Line ends only: {}.",
                words::many(review.line_ends.len(), "file", "files")
            ));
        }
        let still = review.findings.still.len();
        if still > 0 {
            last.push(format!("Still there: {}.", words::many(still, "finding", "findings")));
        }
        if !last.is_empty() {
            self.put(&last.join(" "));
            self.put("\n");
        }
    }

    fn open(&mut self, summary: &str) {
        self.put(&format!("<details>\n<summary>{summary}</summary>\n\n"));
    }

    fn close(&mut self) {
        self.put("</details>\n\n");
    }
}

fn finding(told: &Told) -> String {
    let who = told.entry.as_ref().map_or_else(String::new, |entry| format!("{}: ", entry.name));
    let Told { severity, message, rule, file, line, .. } = told;
    format!(
        "{severity}: {} (`{rule}`, {})",
        format_args!("{}{}", plain(&who), spans(message)),
        plain(&format!("{file}:{line}"))
    )
}

/// The words of a finding: what stands between backticks is code, all else plain.
fn spans(text: &str) -> String {
    let one_line = escape::on_one_line(text);
    let pieces = words::pieces(&one_line).into_iter();
    pieces.map(|(code, piece)| if code { format!("`{piece}`") } else { plain(piece) }).collect()
}

fn bold(words: &str) -> String {
    format!("**{}**", plain(words))
}

/// `text` as words alone: nothing in it is markup, a mention, a link or a reference.
fn plain(text: &str) -> String {
    let text = escape::on_one_line(text);
    let mut out = String::with_capacity(text.len() + 8);
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            // A name may look like a person to be told or a number to be linked.
            '@' => out.push_str("&#64;"),
            '#' => out.push_str("&#35;"),
            '\\' | '`' | '*' | '_' | '{' | '}' | '[' | ']' | '(' | ')' | '!' | '|' | '~' | '$' => {
                out.push('\\');
                out.push(c);
            }
            c => out.push(c),
        }
    }
    // Words with a dot or a colon may be taken for an address.
    out.replace("://", ":&#47;&#47;").replace("www.", "www&#46;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_in_a_name_is_markup() {
        assert_eq!(plain("a|b *c* <d> @e #1"), "a\\|b \\*c\\* &lt;d&gt; &#64;e &#35;1");
        assert_eq!(plain("![x](http://y)"), "\\!\\[x\\]\\(http:&#47;&#47;y\\)");
        assert_eq!(plain("a\nb"), "a\\\\u\\{a\\}b");
    }

    #[test]
    fn what_is_code_is_code() {
        assert_eq!(spans("no `menu:` of *A*"), "no `menu:` of \\*A\\*");
        assert_eq!(spans("a ` alone"), "a \\` alone");
    }

    #[test]
    fn it_never_grows_beyond_a_comment() {
        let long = "é".repeat(MOST_CHARACTERS + 1);
        assert!(cut(long).chars().count() <= MOST_CHARACTERS);
        assert_eq!(cut("short".to_owned()), "short");
    }
}
