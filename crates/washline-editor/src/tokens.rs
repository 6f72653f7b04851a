//! What each word of a file is, for its colour.

use washline_book::{Record, Referent, Workspace};
use washline_syntax::{
    Amount, EntryKind, Field, Heading, Ingredient, Key, Line, LineKind, Located, Step, Value,
};
use washline_text::{FileId, Span};

use crate::cursor::{clamp_span, record_at, whole};
use crate::naming::{self, Naming};

/// What a word is, by the standard name of its like in a program.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum TokenKind {
    /// A book or a section.
    Namespace,
    /// A drink, a prep or a stock entry, where it is named.
    Class,
    /// An ingredient of the reference.
    Variable,
    /// A field's key.
    Property,
    /// A word of a vocabulary.
    EnumMember,
    /// A technique.
    Function,
    /// A heading's word, an amount word.
    Keyword,
    /// What is said of an ingredient.
    Modifier,
    /// A comment.
    Comment,
    /// Text in a person's own words.
    String,
    /// A number.
    Number,
    /// A unit.
    Type,
}

/// All kinds, each at its own place: a legend.
pub const TOKEN_KINDS: &[TokenKind] = &[
    TokenKind::Namespace,
    TokenKind::Class,
    TokenKind::Variable,
    TokenKind::Property,
    TokenKind::EnumMember,
    TokenKind::Function,
    TokenKind::Keyword,
    TokenKind::Modifier,
    TokenKind::Comment,
    TokenKind::String,
    TokenKind::Number,
    TokenKind::Type,
];

impl TokenKind {
    /// Its standard name.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Namespace => "namespace",
            Self::Class => "class",
            Self::Variable => "variable",
            Self::Property => "property",
            Self::EnumMember => "enumMember",
            Self::Function => "function",
            Self::Keyword => "keyword",
            Self::Modifier => "modifier",
            Self::Comment => "comment",
            Self::String => "string",
            Self::Number => "number",
            Self::Type => "type",
        }
    }
}

/// A word with what it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Token {
    /// The word; never empty, never over a line's end.
    pub span: Span,
    /// What it is.
    pub kind: TokenKind,
    /// Whether it is where an entry gets its name.
    pub declares: bool,
}

/// The tokens of the lines that `span` touches, in order, no two of them overlapping; of all
/// lines where there is no span.
#[must_use]
pub fn tokens(workspace: &Workspace, file: FileId, span: Option<Span>) -> Vec<Token> {
    let Some(source) = workspace.file(file) else { return Vec::new() };
    let span = span.map(|span| clamp_span(source.document.text(), span));
    let within = |line: Span| span.is_none_or(|s| line.start <= s.end && s.start <= line.end);
    let mut out = Vec::new();
    for located in source.document.entries().iter().filter(|one| within(whole(one))) {
        let names = names(workspace, record_at(workspace, file, located));
        for line in &located.entry.lines {
            if within(line.span.shift(located.start)) {
                of_line(located, line, &names, &mut out);
            }
        }
    }
    out
}

fn names(workspace: &Workspace, record: Option<&Record>) -> Vec<Naming> {
    record.map(|record| naming::of(workspace, record)).unwrap_or_default()
}

/// The tokens of a line, those that know most of their words first.
fn of_line(located: &Located, line: &Line, names: &[Naming], out: &mut Vec<Token>) {
    let mut own = Own { content: line.span, tokens: Vec::new() };
    if let Some(comment) = line.comment {
        own.add(comment, TokenKind::Comment);
    }
    let first = names.partition_point(|naming| naming.span.start < line.span.start);
    let here = names.iter().skip(first).take_while(|n| n.span.start < line.span.end);
    if !matches!(line.what, LineKind::Heading(_)) {
        here.for_each(|naming| own.name(naming));
    }
    match &line.what {
        LineKind::Heading(heading) => of_heading(heading, &mut own),
        LineKind::Field(field) => of_field(&located.entry.text, field, &mut own),
        LineKind::Ingredient(ingredient) => of_ingredient(ingredient, &mut own),
        LineKind::Step(step) => of_step(step, &mut own),
        LineKind::Comment => own.add(line.content, TokenKind::Comment),
        LineKind::Blank | LineKind::Unread => {}
    }
    own.tokens.sort_by_key(|token| token.span.start);
    let shifted = own.tokens.into_iter();
    out.extend(shifted.map(|token| Token { span: token.span.shift(located.start), ..token }));
}

fn of_heading(heading: &Heading, own: &mut Own) {
    own.add(heading.key, TokenKind::Keyword);
    let kind = match heading.kind {
        EntryKind::Lead | EntryKind::Book | EntryKind::Section => TokenKind::Namespace,
        EntryKind::Drink | EntryKind::Prep | EntryKind::Stock => TokenKind::Class,
    };
    own.declare(heading.name, kind);
}

fn of_field(text: &str, field: &Field, own: &mut Own) {
    own.add(field.key_span, TokenKind::Property);
    match &field.value {
        Value::Terms(terms) => {
            let free = matches!(field.key, Some(Key::Tags | Key::Also));
            let kind = if free { TokenKind::String } else { TokenKind::EnumMember };
            terms.iter().for_each(|term| own.add(*term, kind));
        }
        Value::None => own.add(field.value_span, TokenKind::EnumMember),
        Value::Vessel { name, words, .. } => {
            own.add(*name, TokenKind::EnumMember);
            words.iter().for_each(|word| own.add(*word, TokenKind::Modifier));
            own.numbers(text, field.value_span);
        }
        Value::Keeps { places, .. } => {
            places.iter().for_each(|place| own.add(*place, TokenKind::EnumMember));
            own.numbers(text, field.value_span);
        }
        Value::Garnishes(garnishes) => {
            for garnish in garnishes {
                own.add(garnish.name, TokenKind::Variable);
                garnish.qualifiers.iter().for_each(|said| own.add(*said, TokenKind::Modifier));
            }
            own.numbers(text, field.value_span);
        }
        Value::Waive { rules, reason } => {
            rules.iter().for_each(|rule| own.add(*rule, TokenKind::EnumMember));
            reason.iter().for_each(|reason| own.add(*reason, TokenKind::String));
        }
        Value::Number(_) => own.figure(text, field.value_span),
        Value::Count(_) => own.numbers(text, field.value_span),
        Value::Amount(..) | Value::Pack { .. } => own.amounts(text, field.value_span),
        Value::Money { currency, .. } => {
            own.add(*currency, TokenKind::Type);
            own.numbers(text, field.value_span);
        }
        Value::Text => own.add(field.value_span, TokenKind::String),
        Value::Bad => {}
    }
}

fn of_ingredient(line: &Ingredient, own: &mut Own) {
    match &line.amount {
        Amount::Measures(measures) => {
            for placed in measures {
                own.add(placed.number, TokenKind::Number);
                own.add(placed.unit, TokenKind::Type);
            }
        }
        Amount::PartOf(_, placed) => {
            own.add(placed.number, TokenKind::Number);
            own.add(placed.unit, TokenKind::Type);
        }
        Amount::Word(_) => own.add(line.amount_span, TokenKind::Keyword),
        Amount::Vague(_) | Amount::Proportion(_) => own.add(line.amount_span, TokenKind::Number),
    }
    if let Some(second) = line.second {
        own.add(second.inner, TokenKind::Number);
    }
    line.qualifiers.iter().for_each(|said| own.add(*said, TokenKind::Modifier));
}

fn of_step(step: &Step, own: &mut Own) {
    for act in &step.acts {
        if act.technique.is_some() {
            own.add(act.verb, TokenKind::Function);
        }
        if let Some((_, span)) = act.ice {
            own.add(span, TokenKind::EnumMember);
        }
    }
}

/// The tokens of one line: a word has the first kind that it was given.
struct Own {
    content: Span,
    tokens: Vec<Token>,
}

impl Own {
    fn add(&mut self, span: Span, kind: TokenKind) {
        self.push(Token { span, kind, declares: false });
    }

    fn declare(&mut self, span: Span, kind: TokenKind) {
        self.push(Token { span, kind, declares: true });
    }

    fn name(&mut self, naming: &Naming) {
        let kind = match naming.means {
            Referent::Entry(_) => TokenKind::Class,
            Referent::Reference(_) => TokenKind::Variable,
        };
        self.push(Token { span: naming.span, kind, declares: naming.declares });
    }

    /// The runs of digits in `span` that nothing has taken.
    fn numbers(&mut self, text: &str, span: Span) {
        let words = span.text(text);
        for run in runs(words) {
            self.add(Span::of(run, words).shift(span.start), TokenKind::Number);
        }
    }

    /// A number, and as its unit all that stands behind it (`6 g/100 ml`).
    fn figure(&mut self, text: &str, span: Span) {
        let words = span.text(text);
        let Some(number) = runs(words).next() else { return };
        self.add(Span::of(number, words).shift(span.start), TokenKind::Number);
        self.add(behind(number, words).shift(span.start), TokenKind::Type);
    }

    /// Amounts, with and without brackets: numbers, and the unit behind the last of each amount.
    fn amounts(&mut self, text: &str, span: Span) {
        let words = span.text(text);
        for amount in words.split(['(', ')']) {
            let Some(last) = runs(amount).last() else { continue };
            let unit = behind(last, amount).shift(Span::of(amount, words).start);
            self.add(unit.shift(span.start), TokenKind::Type);
        }
        self.numbers(text, span);
    }

    fn push(&mut self, token: Token) {
        let Token { span, .. } = token;
        let inside = self.content.start <= span.start && span.end <= self.content.end;
        let free = |other: &Token| span.end <= other.span.start || other.span.end <= span.start;
        if !span.is_empty() && inside && self.tokens.iter().all(free) {
            self.tokens.push(token);
        }
    }
}

/// The runs of digits in `words`.
fn runs(words: &str) -> impl Iterator<Item = &str> {
    let part = |c: char| c.is_numeric() || matches!(c, '.' | '/');
    words.split(move |c: char| !part(c)).filter(|run| run.contains(char::is_numeric))
}

/// Where the words behind `run` stand in `words`, of which it is a part.
fn behind(run: &str, words: &str) -> Span {
    let end = Span::of(run, words).end as usize;
    Span::of(words.get(end..).unwrap_or_default().trim(), words)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::harness::House;

    fn told(text: &str) -> Vec<(String, &'static str)> {
        let (house, at) = House::at(text);
        let tokens = tokens(&house.workspace, at.file, None);
        tokens.into_iter().map(|t| (house.words(t.span).to_owned(), t.kind.name())).collect()
    }

    fn check(text: &str, expected: &[(&str, &str)]) {
        let told = told(text);
        let told: Vec<(&str, &str)> =
            told.iter().map(|(word, kind)| (word.as_str(), *kind)).collect();
        assert_eq!(told, expected);
    }

    #[test]
    fn a_line_is_number_unit_name_and_what_is_said_of_it() {
        check(
            "drink: A\n  22.5 ml lemon juice, fresh # sour\n",
            &[
                ("drink", "keyword"),
                ("A", "class"),
                ("22.5", "number"),
                ("ml", "type"),
                ("lemon juice", "variable"),
                ("fresh", "modifier"),
                ("# sour", "comment"),
            ],
        );
    }

    #[test]
    fn fields_and_steps_have_their_words() {
        check(
            "section: B\ndrink: A\n  serve: up\n  note: ask first\n  - shake\n",
            &[
                ("section", "keyword"),
                ("B", "namespace"),
                ("drink", "keyword"),
                ("A", "class"),
                ("serve", "property"),
                ("up", "enumMember"),
                ("note", "property"),
                ("ask first", "string"),
                ("shake", "function"),
            ],
        );
    }

    #[test]
    fn the_units_of_a_field_are_units() {
        for (field, words) in [
            ("  strength: 40 %", &[("40", "number"), ("%", "type")][..]),
            ("  price: 12.00 EUR", &[("12.00", "number"), ("EUR", "type")]),
            ("  price: £12", &[("£", "type"), ("12", "number")]),
            (
                "  portion: 90 ml (3 oz)",
                &[("90", "number"), ("ml", "type"), ("3", "number"), ("oz", "type")],
            ),
            ("  serves: 4", &[("4", "number")]),
        ] {
            let told = told(&format!("drink: A\n{field}\n"));
            let told: Vec<_> =
                told[3..].iter().map(|(word, kind)| (word.as_str(), *kind)).collect();
            assert_eq!(told, words, "{field}");
        }
        let told = told("prep: A\n  acid: 6 g/100 ml\n");
        assert_eq!(told[3..], [("6".to_owned(), "number"), ("g/100 ml".to_owned(), "type")]);
    }

    #[test]
    fn a_prep_is_the_same_where_it_is_made_and_where_it_is_poured() {
        let text = "drink: A\n  15 ml Amber Cordial\nprep: Amber Cordial\n  600 g honey\n";
        let told = told(text);
        let cordials = told.iter().filter(|(word, _)| word == "Amber Cordial");
        assert_eq!(cordials.map(|(_, kind)| *kind).collect::<Vec<_>>(), ["class", "class"]);
    }

    #[test]
    fn the_legend_holds_each_kind_at_its_place() {
        for (at, kind) in TOKEN_KINDS.iter().enumerate() {
            assert_eq!(*kind as usize, at);
        }
    }

    #[test]
    fn a_range_has_the_tokens_of_its_lines() {
        let (house, at) = House::at("drink: A\n  |30 ml gin\n  30 ml rum\n");
        let span = Span::at(at.offset);
        let words = tokens(&house.workspace, at.file, Some(span));
        let words: Vec<&str> = words.iter().map(|token| house.words(token.span)).collect();
        assert_eq!(words, ["30", "ml", "gin"]);
    }
}
