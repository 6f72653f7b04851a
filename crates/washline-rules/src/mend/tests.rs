//! Mending converges, keeps what must be kept and tells what it did.

use washline_text::FileId;

use super::*;
use crate::harness::{findings, workspace};

fn mended(text: &str, reach: Reach) -> (String, Mended) {
    let mended = mend(workspace(text, ""), reach, &|_| true);
    let after = mended.workspace.file(FileId(0)).unwrap().document.text().to_string();
    (after, mended)
}

#[test]
fn safe_fixes_leave_what_is_poured() {
    let text = "drink: Slate Ferry\n  1,5 oz (20 ml) gin\n";
    let (after, mended) = mended(text, Reach::Safe);
    assert_eq!(after, "drink: Slate Ferry\n  1.5 oz (20 ml) gin\n");
    assert!(mended.done.iter().all(|mend| mend.safe && mend.rule == "decimal-comma"));
    assert!(findings(&after, "").iter().any(|finding| finding.rule == "measures-disagree"));
}

#[test]
fn round_follows_round_until_none_is_left() {
    let text = "drink: Slate Ferry\n  1,5 oz (20 ml) gin\n  .5 oz (20 ml) lime juice\n";
    let (after, mended) = mended(text, Reach::First);
    assert!(!mended.stopped);
    let rules: Vec<&str> = mended.done.iter().map(|mend| mend.rule).collect();
    assert!(rules.contains(&"measures-disagree"), "{rules:?}\n{after}");
    assert!(findings(&after, "").iter().all(|finding| finding.rule != "measures-disagree"));
    let (again, second) = self::mended(&after, Reach::First);
    assert_eq!((again, second.done), (after, Vec::new()));
}

#[test]
fn waived_and_closed_findings_are_left() {
    let text = "drink: Slate Ferry\n  waive: decimal-comma because the card is a facsimile\n  1,5 oz gin\n";
    assert_eq!(mended(text, Reach::Safe).0, text);
    let text = "drink: Slate Ferry\n  1,5 oz gin\n";
    let closed = mend(workspace(text, ""), Reach::Safe, &|_| false);
    assert!(closed.done.is_empty());
}

#[test]
fn between_two_versions_a_person_chooses() {
    let text = "drink: Slate Ferry\n  glass: coupe\n  glass: rocks\n  60 ml gin\n";
    let (after, told) = mended(text, Reach::First);
    assert!(after.contains("  glass: coupe\n  glass: rocks\n"), "{after}");
    assert_eq!(told.choices, 1);
    let same = "drink: Slate Ferry\n  glass: coupe\n  glass: Coupe\n  60 ml gin\n";
    let (after, told) = mended(same, Reach::Safe);
    assert_eq!(after, "drink: Slate Ferry\n  glass: coupe\n  60 ml gin\n");
    assert_eq!(told.choices, 0);
}

#[test]
fn fixes_of_the_same_words_wait() {
    let edit = |start, end| (FileId(0), Edit::new(Span::new(start, end), ""));
    let mut claims = Claims::default();
    assert!(claims.take(&[edit(4, 8)]));
    assert!(!claims.take(&[edit(0, 2), edit(6, 9)]), "one touches, none is taken");
    assert!(claims.take(&[edit(0, 2)]), "nothing of the refused fix is claimed");
    assert!(claims.take(&[edit(2, 4), edit(8, 8)]));
    assert!(!claims.take(&[edit(8, 8)]), "who stands first at one point is not known");
}

#[test]
fn new_lines_take_the_files_ends() {
    assert_eq!(in_ends("\n  - stir\n", "\r\n"), "\r\n  - stir\r\n");
    assert_eq!(in_ends("a\r\nb\rc", "\n"), "a\nb\nc");
}
