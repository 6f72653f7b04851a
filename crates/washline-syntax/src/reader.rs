//! Reads the lines of one entry.

use washline_text::{Edit, Span};

use crate::blank::trim;
use crate::conflict::{self, Marker};
use crate::doubles;
use crate::key::Keys;
use crate::lines::{BOM, Before, Piece, lines};
use crate::{
    Entry, EntryKind, Field, Key, Line, LineKind, Problem, Value, comment, field, heading, hidden,
    ingredient, other, run, slice, step,
};

/// One entry while it is read.
pub(crate) struct Reader<'t> {
    /// The text of the entry.
    pub text: &'t str,
    /// What it is.
    pub kind: EntryKind,
    /// Whether the line at hand stands inside a merge conflict.
    pub conflict: bool,
    /// The keys read so far.
    pub seen: Keys,
    problems: Vec<Problem>,
    line: &'t str,
}

/// Reads `piece`, whatever it holds.
pub(crate) fn entry(piece: Piece<'_>) -> Entry {
    let Before { first, conflict } = piece.before;
    let mut reader = Reader {
        text: piece.text,
        kind: piece.kind,
        conflict,
        seen: Keys::default(),
        problems: Vec::new(),
        line: piece.text,
    };
    let mut read: Vec<Line> = Vec::with_capacity(lines(piece.text).count());
    read.extend(lines(piece.text).map(|line| reader.line(line)));
    run::gather(piece.kind, piece.text, &read, &mut reader.problems);
    doubles::mend(piece.text, &read, &mut reader.problems);
    let visible = if first { slice::skip(piece.text, BOM.len_utf8()) } else { piece.text };
    hidden::check(&mut reader, visible, &read);
    let name = match read.first().map(|line| &line.what) {
        Some(LineKind::Heading(heading)) => heading.name,
        _ => Span::at(0),
    };
    let mut problems = reader.problems;
    problems.sort_by_key(|problem| problem.span.start);
    Entry {
        kind: piece.kind,
        text: piece.text.into(),
        name,
        lines: read,
        problems,
        before: piece.before,
    }
}

impl<'t> Reader<'t> {
    /// Where `part`, a slice of the entry's text, stands in it.
    pub(crate) fn span(&self, part: &str) -> Span {
        Span::of(part, self.text)
    }

    /// The physical line at hand.
    pub(crate) const fn whole_line(&self) -> &'t str {
        self.line
    }

    /// The edit that puts `text` in the place of `part`.
    pub(crate) fn replace(&self, part: &str, text: impl Into<String>) -> Edit {
        Edit::new(self.span(part), text)
    }

    /// Adds a problem, save inside a merge conflict: what stands there is not what
    /// the house means.
    pub(crate) fn tell(&mut self, problem: Problem) {
        let about_conflict = problem.rule == "merge-conflict";
        if about_conflict || !self.conflict {
            self.problems.push(problem);
        }
    }

    /// What `read` reads, without what it tells.
    pub(crate) fn silently<T>(&mut self, read: impl FnOnce(&mut Self) -> T) -> T {
        let told = self.problems.len();
        let read = read(self);
        self.problems.truncate(told);
        read
    }

    /// Whether `read` has nothing to tell.
    pub(crate) fn quiet<T>(&mut self, read: impl FnOnce(&mut Self) -> T) -> bool {
        let told = self.problems.len();
        read(self);
        let quiet = self.problems.len() == told;
        self.problems.truncate(told);
        quiet
    }

    fn line(&mut self, line: &'t str) -> Line {
        self.line = line;
        let trimmed = trim(line);
        let span = self.span(line);
        if trimmed.is_empty() {
            let content = self.span(slice::end(line));
            return Line { span, content, comment: None, what: LineKind::Blank };
        }
        if comment::whole(trimmed) {
            let content = self.span(slice::start(trimmed));
            let comment = Some(self.span(trimmed));
            return Line { span, content, comment, what: LineKind::Comment };
        }
        let marker = conflict::marker(line);
        if let Some(marker) = marker.filter(|m| *m != Marker::Middle || self.conflict) {
            let what = conflict::read(self, marker, line);
            return Line { span, content: self.span(trimmed), comment: None, what };
        }
        let (content, comment) = comment::split(trimmed);
        let what = self.content(content);
        let comment = comment.map(|comment| self.span(comment));
        Line { span, content: self.span(content), comment, what }
    }

    /// The first that fits: a step, a pair, an ingredient, anything else.
    fn content(&mut self, content: &'t str) -> LineKind {
        let first = content.as_bytes().first().copied().unwrap_or_default();
        if first == b'-'
            && let Some(text) = step::after_bullet(content)
        {
            return step::read(self, text);
        }
        if first.is_ascii_alphabetic()
            && let Some(pair) = heading::pair(content)
        {
            if let Some(kind) = heading::kind_of(pair.key) {
                return heading::read(self, kind, pair);
            }
            if let Some(field) = field::read(self, pair) {
                return LineKind::Field(Box::new(field));
            }
        }
        ingredient::read(self, content).unwrap_or_else(|| other::read(self, content))
    }
}

impl Field {
    /// A field that says nothing that can be used.
    pub(crate) const fn bad(key: Option<Key>, key_span: Span, value_span: Span) -> Self {
        Self { key, key_span, value_span, value: Value::Bad }
    }
}

#[cfg(test)]
mod tests {
    use crate::Document;
    use crate::slice::walked;

    /// What one could make a reader go over and over again.
    const PIECES: &[&str] = &[
        "(",
        ")",
        "(,",
        "1",
        "1,000,",
        "1 ",
        "1/",
        "1 + ",
        ", ",
        "; ",
        "and ",
        " then",
        "then, ",
        "gently ",
        "the ",
        "with ",
        "with the ",
        "into ",
        "until ",
        "not contains ",
        "contains ",
        "no ice ",
        ", peel",
        ", peel of",
        " and dry",
        "      ",
        "- ",
        "\u{2022} ",
        "~",
        "about ",
        "x ",
        "#",
        "b ",
        "because",
        "2:1 ",
        "half a ",
        "each ",
        "ml ",
        "fl ",
        "dry ",
    ];

    /// What they stand behind.
    const STARTS: &[&str] = &[
        "60 ml gin ",
        "60 ml ",
        "- shake ",
        "- ",
        "",
        "glass: ",
        "garnish: ",
        "keeps: 1 day ",
        "waive: ",
        "contains: ",
        "soda, ",
        "juice of ",
        "15 ml each ",
        "serve: ",
        "1 ",
    ];

    fn walk(start: &str, piece: &str, times: usize) -> usize {
        walked::take();
        let text = format!("drink: A\n{start}{}", piece.repeat(times));
        let document = Document::parse(text);
        for located in document.entries() {
            let found = crate::property::scan(&located.entry.text);
            assert!(found.len() <= located.entry.text.len());
        }
        walked::take()
    }

    #[test]
    fn twice_the_text_is_twice_the_work() {
        for start in STARTS {
            for piece in PIECES {
                let (once, twice) = (walk(start, piece, 100), walk(start, piece, 200));
                let line = walk(start, &format!("{piece}\n{start}"), 50);
                let lines = walk(start, &format!("{piece}\n{start}"), 100);
                assert!(twice <= once * 5 / 2 + 200, "{start}{piece}: {once}, then {twice}");
                assert!(
                    lines <= line * 5 / 2 + 200,
                    "{start}{piece} by line: {line}, then {lines}"
                );
            }
        }
    }
}
