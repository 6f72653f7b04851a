//! Lossless, total, local: for texts of every kind.

use std::sync::Arc;

use proptest::collection::vec;
use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use washline_syntax::{Document, Entry, LineKind};
use washline_text::Span;

/// Words and signs of the notation, to be put together at random.
const WORDS: &[&str] = &[
    "drink:",
    "prep:",
    "stock:",
    "book:",
    "section:",
    "glass:",
    "glas:",
    "garnish:",
    "note:",
    "keeps:",
    "60",
    "22,5",
    "1,000",
    "1/2",
    "3/0",
    "½",
    "1-1/2",
    "10-15",
    "~8",
    "ml",
    "oz",
    "fl. oz.",
    "dashes",
    "bar spoon",
    "leaves",
    "half",
    "a",
    "one",
    "top",
    "rim",
    "to top",
    "each",
    "equal parts",
    "juice of",
    "gin",
    "lime juice",
    "ice",
    "dry ice",
    "(1 oz)",
    "(",
    ")",
    "+",
    ",",
    ";",
    ".",
    "#",
    "# x",
    "#2",
    "\\#",
    "-",
    "- ",
    "–",
    "• ",
    "1. ",
    "shake",
    "hard",
    "strain",
    "then",
    "and",
    "until",
    "into",
    "for 12 s",
    "to 50 C",
    "with",
    "over",
    "2:1",
    "43 %",
    "100 proof",
    "contains gluten",
    "or",
    "/",
    "=",
    "[",
    "x",
    "<<<<<<< a",
    "=======",
    ">>>>>>> b",
    "\u{200b}",
    "\u{feff}",
    "\u{2028}",
    "g\u{456}n",
    "é",
    "\u{1f34b}",
    " ",
    "  ",
    "\t",
    "\u{a0}",
    "\n",
    "\n",
    "\n  ",
    "\r\n",
    "\r",
    "because",
    "none",
    "x",
];

fn notation() -> impl Strategy<Value = String> {
    let word = (0..WORDS.len()).prop_map(|at| WORDS.get(at).copied().unwrap_or(""));
    let spaced = (word, any::<bool>()).prop_map(|(word, blank)| match blank {
        true => format!("{word} "),
        false => word.to_owned(),
    });
    vec(spaced, 0..60).prop_map(|words| words.concat())
}

fn text() -> impl Strategy<Value = String> {
    prop_oneof![3 => notation(), 1 => any::<String>(), 1 => "[ -~\n\r\t]{0,200}"]
}

/// Every place that an entry names lies in its text, between characters.
fn check_places(entry: &Entry) {
    let check = |span: Span| {
        assert!(span.start <= span.end, "{span:?}");
        assert!(entry.text.get(span.range()).is_some(), "{span:?} of {:?}", entry.text);
    };
    check(entry.name);
    for line in &entry.lines {
        check(line.span);
        check(line.content);
        assert!(line.span.start <= line.content.start && line.content.end <= line.span.end);
        line.comment.into_iter().for_each(check);
        match &line.what {
            LineKind::Blank | LineKind::Comment | LineKind::Unread => {}
            LineKind::Heading(heading) => [heading.key, heading.name].into_iter().for_each(check),
            LineKind::Field(field) => {
                [field.key_span, field.value_span].into_iter().for_each(check)
            }
            LineKind::Ingredient(read) => {
                [read.amount_span, read.tail, read.name].into_iter().for_each(check);
                read.qualifiers.iter().chain(&read.shared).copied().for_each(check);
                read.second.iter().flat_map(|second| [second.span, second.inner]).for_each(check);
            }
            LineKind::Step(step) => {
                check(step.text);
                for act in &step.acts {
                    [act.verb, act.span, act.object].into_iter().for_each(check);
                    act.into.into_iter().chain(act.until).for_each(check);
                    act.ice.into_iter().for_each(|(_, span)| check(span));
                }
            }
        }
    }
    for problem in &entry.problems {
        check(problem.span);
        assert!(!problem.message.is_empty() && !problem.help.is_empty());
        for mend in &problem.mends {
            let after = washline_text::apply(&entry.text, &mend.edits);
            assert!(after.is_ok(), "{problem:?}");
        }
    }
}

/// An unread line, or one that lacks something, never goes without a word. In an entry that a
/// conflict before it runs into, the word was said where the conflict opens.
fn check_told(entry: &Entry, conflict_before: bool) {
    let own = entry.problems.iter().any(|problem| problem.rule == "merge-conflict");
    let conflict = own || conflict_before;
    let unread = entry.lines.iter().any(|line| line.what == LineKind::Unread);
    let inside = entry.text.contains("=======") || entry.text.contains(">>>>>>>");
    assert!(!unread || conflict || inside || !entry.problems.is_empty(), "{:?}", entry.text);
}

/// What an edit puts, with all that changes where entries start and how they are read.
fn piece() -> impl Strategy<Value = &'static str> {
    prop::sample::select(vec![
        "",
        " ",
        "a",
        ":",
        "\r",
        "\n",
        "\r\n",
        "\u{feff}",
        "é",
        "drink: A\n",
        "drink",
        "prep:",
        "\rstock: b\r",
        "  60 ml gin\n",
        "  - shake\r\n",
        "<<<<<<< ours\n",
        "=======\n",
        ">>>>>>> theirs\n",
        "section: x",
        "# remark\n",
    ])
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 600, failure_persistence: None, rng_seed: RngSeed::Fixed(20_251), ..ProptestConfig::default() })]

    #[test]
    fn the_entries_are_the_file_byte_for_byte(text in text()) {
        let document = Document::parse(text.as_str());
        let joined: String = document.entries().iter().map(|located| &*located.entry.text).collect();
        prop_assert_eq!(&joined, &text);
        prop_assert_eq!(&**document.text(), text.as_str());
        let mut at = 0;
        for located in document.entries() {
            prop_assert_eq!(located.start, at);
            at += u32::try_from(located.entry.text.len()).expect("a short text");
        }
    }

    #[test]
    fn the_lines_are_the_entry(text in text()) {
        for located in Document::parse(text.as_str()).entries() {
            let entry = &located.entry;
            let mut at = 0;
            for line in &entry.lines {
                let between = entry.text.get(at as usize..line.span.start as usize).expect("an end");
                prop_assert!(at == 0 || matches!(between, "\n" | "\r" | "\r\n"), "{between:?}");
                at = line.span.end;
            }
            let rest = entry.text.get(at as usize..).expect("the rest");
            prop_assert!(matches!(rest, "" | "\n" | "\r" | "\r\n"), "{rest:?}");
        }
    }

    #[test]
    fn every_place_lies_in_its_entry_and_every_mend_applies(text in text()) {
        let mut conflict_before = false;
        for located in Document::parse(text.as_str()).entries() {
            check_places(&located.entry);
            check_told(&located.entry, conflict_before);
            conflict_before |= located.entry.text.contains("<<<<<<<");
        }
    }

    #[test]
    fn an_edit_gives_what_reading_anew_gives(before in text(), after in text()) {
        let edited = Document::parse(before.as_str()).edit(after.as_str());
        let anew = Document::parse(after.as_str());
        prop_assert_eq!(edited.entries().len(), anew.entries().len());
        for (edited, anew) in edited.entries().iter().zip(anew.entries()) {
            prop_assert_eq!(edited.start, anew.start);
            prop_assert_eq!(&*edited.entry, &*anew.entry);
        }
    }

    #[test]
    fn many_small_edits_give_what_reading_anew_gives(
        start in vec(piece(), 0..12),
        edits in vec((any::<prop::sample::Index>(), any::<prop::sample::Index>(), piece()), 1..12),
    ) {
        let mut document = Document::parse(start.concat());
        for (from, to, put) in edits {
            let text = document.text().clone();
            let places: Vec<usize> =
                text.char_indices().map(|(at, _)| at).chain([text.len()]).collect();
            let from = from.index(places.len());
            let to = (from + to.index(places.len())).min(from + 24).min(places.len() - 1);
            let (before, after) = (&text[..places[from]], &text[places[to]..]);
            document = document.edit([before, put, after].concat());
            let anew = Document::parse(document.text().clone());
            let all = |document: &Document| -> Vec<(u32, Arc<Entry>)> {
                document.entries().iter().map(|at| (at.start, at.entry.clone())).collect()
            };
            prop_assert_eq!(all(&document), all(&anew));
        }
    }

    #[test]
    fn an_edit_of_one_entry_keeps_all_others(
        names in vec("[a-z]{1,8}", 2..12),
        at in any::<prop::sample::Index>(),
        line in "[a-z0-9 ]{0,20}",
    ) {
        let write = |changed: Option<usize>| -> String {
            let entries = names.iter().enumerate().map(|(n, name)| {
                let extra = if changed == Some(n) { format!("  1 {line}\n") } else { String::new() };
                format!("drink: {name} {n}\n  60 ml gin\n{extra}  - shake\n\n")
            });
            entries.collect()
        };
        let changed = at.index(names.len());
        let before = Document::parse(write(None));
        let after = before.edit(write(Some(changed)));
        for (n, (old, new)) in before.entries().iter().zip(after.entries()).enumerate() {
            prop_assert_eq!(Arc::ptr_eq(&old.entry, &new.entry), n != changed, "entry {}", n);
        }
    }
}

#[test]
fn entries_keep_their_reading_when_others_come_go_and_move() {
    let [a, b, c] = ["drink: A\n 1 egg\n", "drink: B\n 2 limes\n", "prep: C\n 1 l water\n"];
    let before = Document::parse([a, b, c].concat());
    let moved = before.edit([c, "drink: D\n", a].concat());
    let same = |at: usize, was: usize| {
        Arc::ptr_eq(&moved.entries()[at].entry, &before.entries()[was].entry)
    };
    assert!(same(0, 2) && same(2, 0));
    let nothing = before.edit([a, b, c].concat());
    let kept = before.entries().iter().zip(nothing.entries());
    assert!(kept.into_iter().all(|(old, new)| Arc::ptr_eq(&old.entry, &new.entry)));
}

#[test]
fn every_prefix_of_a_card_is_read() {
    let card = "\u{feff}drink: Quarry Lane\r\n  family: sour\n  1½ oz (45 ml) pear brandy, 43 % # x\n  \
                5/6 mint leaves\n  top (90 ml) soda\n  - shake hard with ice for 12 s, strain\n  \
                garnish: pear slice; none\n<<<<<<< a\n  lime\n";
    for (at, _) in card.char_indices() {
        let prefix = card.get(..at).expect("a prefix");
        let document = Document::parse(prefix);
        for located in document.entries() {
            check_places(&located.entry);
        }
    }
}

/// Long lines and many lines that a careless reader would choke on: depth of
/// brackets, of list signs, of digits, of everything.
#[test]
fn nothing_is_too_long() {
    const MANY: usize = 50_000;
    for piece in [
        "(",
        ")",
        "1",
        "1,000,",
        ",",
        "- ",
        "and ",
        "then ",
        "contains ",
        "~",
        "#",
        "x ",
        "'",
        "½ ",
    ] {
        for start in [
            "drink: A\n60 ml gin ",
            "drink: A\n- shake ",
            "drink: A\nnote: ",
            "drink: A\n",
            "keeps: ",
        ] {
            let text = format!("{start}{}", piece.repeat(MANY));
            let document = Document::parse(text.as_str());
            for located in document.entries() {
                check_places(&located.entry);
            }
        }
    }
}
