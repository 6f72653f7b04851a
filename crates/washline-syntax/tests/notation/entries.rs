//! Entries and files: what one line cannot show.

use washline_syntax::{Document, Entry, EntryKind, Key, LineKind, Problem};

use crate::read::entry;

/// The rules of an entry's problems with the words that each points at.
fn problems(entry: &Entry) -> Vec<String> {
    let shown = |problem: &Problem| format!("{}: {}", problem.rule, entry.text_of(problem.span));
    entry.problems.iter().map(shown).collect()
}

/// The text of the last entry after the first mend of each of its problems.
fn mended(entry: &Entry) -> String {
    let mends = entry.problems.iter().filter_map(|problem| problem.mends.first());
    let edits: Vec<_> = mends.flat_map(|mend| mend.edits.clone()).collect();
    washline_text::apply(&entry.text, &edits).expect("edits that apply")
}

#[test]
fn a_card_is_read_whole() {
    let card = "book: The Copper Heron\nsection: Shaken\n\ndrink: Quarry Lane\n  family: sour\n  \
                glass: coupe, chilled\n\n  52.5 ml  (1 3/4 oz)  pear brandy\n  15 ml    (1/2 oz)    \
                honey syrup            # the house prep below\n\n  - shake hard with cubed ice for \
                12 s, double strain\n  garnish: pear slice\n\nstock: Orchard Row Pear Brandy\n  also: \
                pear brandy\n  abv: 43 %\n";
    let document = Document::parse(card);
    let kinds: Vec<EntryKind> = document.entries().iter().map(|e| e.entry.kind).collect();
    assert_eq!(kinds, [EntryKind::Book, EntryKind::Section, EntryKind::Drink, EntryKind::Stock]);
    let drink = &document.entries()[2].entry;
    assert_eq!(drink.name_text(), "Quarry Lane");
    assert_eq!(drink.ingredients().count(), 2);
    assert_eq!(drink.steps().count(), 1);
    assert_eq!(drink.fields().count(), 3);
    let glass = drink.field(Key::Glass).expect("a glass");
    assert_eq!(drink.text_of(glass.value_span), "coupe, chilled");
    assert!(document.entries().iter().all(|located| located.entry.problems.is_empty()));
    assert!(!drink.unformattable());
    let comment = drink.lines.iter().find_map(|line| line.comment).expect("a comment");
    assert_eq!(drink.text_of(comment), "# the house prep below");
}

#[test]
fn entries_start_where_the_file_says() {
    let document = Document::parse("# lead\r\ndrink: A\r\n\rprep: B");
    let starts: Vec<u32> = document.entries().iter().map(|located| located.start).collect();
    assert_eq!(starts, [0, 8, 19]);
    assert_eq!(document.entries()[2].entry.name_text(), "B");
}

#[test]
fn a_byte_order_mark_belongs_to_the_first_entry() {
    let document = Document::parse("\u{feff}drink: A\n");
    assert!(document.has_bom());
    let first = &document.entries()[0].entry;
    assert_eq!((first.kind, first.name_text()), (EntryKind::Drink, "A"));
    assert!(first.problems.is_empty());
    assert_eq!(&*first.text, "\u{feff}drink: A\n");
    let again = Document::parse("drink: B\n\u{feff}drink: A\n");
    assert_eq!(problems(&again.entries()[1].entry), ["hidden-character: \u{feff}"]);
}

#[test]
fn files_with_nothing_in_them() {
    assert!(Document::parse("").entries().is_empty());
    let blank = Document::parse("\n \t\n");
    assert_eq!(blank.entries().len(), 1);
    assert!(blank.entries()[0].entry.problems.is_empty());
    assert_eq!(Document::parse("\u{feff}").entries().len(), 1);
}

#[test]
fn headings_without_a_name() {
    assert_eq!(problems(&entry("drink:")), ["missing-name: drink"]);
    assert_eq!(problems(&entry("Section :  # x")), ["missing-name: Section"]);
}

#[test]
fn lines_before_the_first_heading_are_one_finding() {
    let read = entry("# a comment\n\nQuarry Lane\n60 ml gin\nlime\n- shake\n");
    assert_eq!(problems(&read), ["misplaced-line: Quarry Lane\n60 ml gin\nlime\n- shake"]);
    assert!(mended(&read).contains("\ndrink: Quarry Lane\n"));
    assert!(read.unformattable());
    assert!(problems(&entry("# only\n\n# comments\n")).is_empty());
}

#[test]
fn a_pasted_card_is_one_finding() {
    let read = entry("drink: A\n  gin\n  lime juice\n\n  syrup\n  ice\n  60 ml gin\n  lemon\n");
    let shown = problems(&read);
    assert_eq!(shown, ["syntax: gin\n  lime juice\n\n  syrup\n  ice", "syntax: lemon"]);
    let three = entry("drink: A\n  gin\n  lime juice\n  syrup\n");
    assert_eq!(three.problems.len(), 3);
    let mendable = entry("drink: A\n gin 1 oz\n lime 1 oz\n syrup 1 oz\n shake\n");
    assert_eq!(mendable.problems.len(), 1);
    assert_eq!(mended(&mendable), "drink: A\n 1 oz gin\n 1 oz lime\n 1 oz syrup\n - shake\n");
}

#[test]
fn one_broken_line_leaves_the_others_alone() {
    let read =
        entry("drink: A\n  lime juice\n  60 ml gin\n  Shake hard\n  glas: coupe\n  - strain\n");
    let rules: Vec<&str> = read.problems.iter().map(|problem| problem.rule).collect();
    assert_eq!(rules, ["syntax", "syntax", "unknown-field"]);
    assert_eq!((read.ingredients().count(), read.steps().count()), (1, 1));
}

#[test]
fn a_key_given_twice() {
    let read = entry(
        "drink: A\n glass: coupe\n Glass: flute\n note: a\n note: b\n garnish: x\n garnish: y\n",
    );
    assert_eq!(problems(&read), ["duplicate-field: Glass"]);
    let other = entry("drink: A\n glass: coupe\n drnk: B\n glass: flute\n");
    assert_eq!(problems(&other), ["unknown-field: drnk"]);
}

#[test]
fn a_conflict_is_told_once_and_its_lines_are_read() {
    let read = entry(
        "drink: A\n<<<<<<< ours\n 60 ml gin\n glass: coupe\n lime\n=======\n 45 ml gin\n glass: \
         flute\n>>>>>>> theirs\n lemon\n",
    );
    assert_eq!(problems(&read), ["merge-conflict: <<<<<<< ours", "syntax: lemon"]);
    assert_eq!(read.ingredients().count(), 2);
    assert!(read.unformattable());
}

#[test]
fn a_conflict_may_go_over_several_entries() {
    let text = "drink: A\n<<<<<<< ours\n lime\ndrink: B\n lime\n=======\ndrink: C\n>>>>>>> theirs\n lime\n";
    let document = Document::parse(text);
    let all: Vec<Vec<String>> =
        document.entries().iter().map(|located| problems(&located.entry)).collect();
    assert_eq!(all[0], ["merge-conflict: <<<<<<< ours"]);
    assert!(all[1].is_empty());
    assert_eq!(all[2], ["syntax: lime"]);
    let closed = document.edit(text.replace("<<<<<<< ours\n", ""));
    assert_eq!(problems(&closed.entries()[1].entry), ["syntax: lime", "syntax: ======="]);
    assert_eq!(problems(&closed.entries()[2].entry)[0], "merge-conflict: >>>>>>> theirs");
}

#[test]
fn hidden_characters_are_taken_out() {
    let read =
        entry("drink: A\u{200b}b\n 60 ml gi\u{202e}n\u{200b}\n 1\u{a0}egg\n note: a\u{2028}b\n");
    let rules: Vec<&str> = read.problems.iter().map(|problem| problem.rule).collect();
    assert_eq!(rules, ["hidden-character"; 3]);
    assert_eq!(mended(&read), "drink: Ab\n 60 ml gin\n 1\u{a0}egg\n note: a b\n");
    assert!(problems(&entry("drink: A\n note: \u{1f469}\u{200d}\u{1f373}\n")).is_empty());
    assert_eq!(read.ingredients().count(), 2);
    assert!(read.unformattable(), "layout might lose in silence what nobody sees");
}

#[test]
fn a_hidden_character_does_not_hide_a_heading() {
    let document = Document::parse("drink: A\n\u{200b}drink: B\n\u{0}60 ml gin\n");
    assert_eq!(document.entries().len(), 2);
    assert_eq!(document.entries()[1].entry.ingredients().count(), 1);
}

#[test]
fn words_of_two_scripts() {
    let read = entry(
        "drink: A\n 60 ml g\u{456}n\n 1 жгn\n 30 ml водка\n 2 \u{3bc}l water\n # g\u{456}n\n",
    );
    assert_eq!(
        problems(&read),
        ["mixed-script: g\u{456}n", "mixed-script: жгn", "mixed-script: \u{3bc}l"]
    );
    assert!(mended(&read).contains("60 ml gin"));
}

#[test]
fn each_entry_has_its_fields() {
    for kind in
        [EntryKind::Book, EntryKind::Section, EntryKind::Drink, EntryKind::Prep, EntryKind::Stock]
    {
        for key in Key::ALL {
            let word = key.word();
            let heading = format!("{kind:?}").to_lowercase();
            let read = entry(&format!("{heading}: A\n {word}: none\n"));
            let unknown = read.problems.iter().any(|problem| problem.rule == "unknown-field");
            assert_eq!(unknown, !Key::of(kind).contains(key), "{heading} {word}");
            assert_eq!(read.fields().next().map(|field| field.key), Some(Some(*key)));
        }
    }
}

#[test]
fn white_space_and_line_ends_carry_no_meaning() {
    let plain = entry("drink: A\n60 ml gin\nglass: coupe\n- shake\n");
    for text in [
        "drink: A\r\n60 ml gin\r\nglass: coupe\r\n- shake\r\n",
        "drink: A\r60 ml gin\rglass: coupe\r- shake",
        "\t drink : A\n\n\u{a0}\u{a0}60\u{a0}ml   gin  \n   GLASS:coupe\n \t-\tshake\t\n",
    ] {
        let read = entry(text);
        assert!(read.problems.is_empty(), "{text:?}: {:?}", read.problems);
        assert_eq!(read.ingredients().count(), plain.ingredients().count());
        assert_eq!(read.steps().count(), plain.steps().count());
        let said: Vec<&str> = read.lines.iter().map(|line| read.text_of(line.content)).collect();
        assert!(said.iter().all(|content| content.trim() == *content));
        let gin = read.ingredients().next().expect("an ingredient");
        assert_eq!(read.text_of(gin.name), "gin");
        assert!(read.lines.iter().any(|line| matches!(line.what, LineKind::Step(_))));
    }
}
