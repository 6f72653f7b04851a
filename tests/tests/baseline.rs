//! A baseline over a book that changes: what is known stays known, what is new fails, what is gone
//! is told and can be taken out.

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

use tempfile::TempDir;
use washline_tests::program;

/// Two findings that count: an amount that disagrees, and an unread one.
const CARDS: &str = "drink: Wet Rope\n  contains: none\n  60 ml (1 oz) gin\n  - stir with ice, strain\n\ndrink: Deck Wash\n  contains: none\n  1.000 ml rum\n  - stir with ice, strain\n";

struct House(TempDir);

impl House {
    /// A house with its baseline written.
    fn with_baseline() -> Self {
        let house = Self(tempfile::tempdir().unwrap());
        house.write(
            "washline.toml",
            "[rules]\nno-garnish-said = \"off\"\nno-glass-said = \"off\"\n",
        );
        house.write("cards.pour", CARDS);
        assert_eq!(house.check(&[]).0, 1, "the cards have findings");
        house.check(&["--write-baseline"]);
        assert_eq!(house.check(&["--baseline", "washline-baseline.json"]).0, 0);
        house
    }

    fn path(&self) -> &Path {
        self.0.path()
    }

    fn write(&self, name: &str, text: &str) {
        fs::write(self.path().join(name), text).unwrap();
    }

    /// The exit status, and what is said on standard error.
    fn check(&self, arguments: &[&str]) -> (i32, String) {
        let mut all = vec!["check", "--output", "short"];
        all.extend(arguments);
        let output: Output =
            Command::new(program()).args(&all).current_dir(self.path()).output().unwrap();
        (output.status.code().unwrap(), String::from_utf8(output.stderr).unwrap())
    }

    fn known(&self) -> (i32, String) {
        self.check(&["--baseline", "washline-baseline.json"])
    }
}

#[test]
fn lines_move_files_are_renamed_and_layout_changes() {
    let house = House::with_baseline();
    house.write("cards.pour", &format!("# the summer list\n\n{CARDS}"));
    assert_eq!(house.known(), (0, String::new()), "lines moved");
    fs::rename(house.path().join("cards.pour"), house.path().join("summer.pour")).unwrap();
    assert_eq!(house.known(), (0, String::new()), "the file is renamed");
    let formatted =
        Command::new(program()).args(["format", "."]).current_dir(house.path()).output().unwrap();
    assert!(formatted.status.code().is_some());
    assert_ne!(fs::read_to_string(house.path().join("summer.pour")).unwrap(), CARDS);
    assert_eq!(house.known(), (0, String::new()), "laid out anew");
}

#[test]
fn a_new_finding_fails_and_is_not_let_in_by_shrinking() {
    let house = House::with_baseline();
    let new = CARDS.replace("60 ml (1 oz) gin", "60 ml (2 oz) gin") + "  45 ml (3 oz) rum\n";
    house.write("cards.pour", &new);
    let (status, told) = house.known();
    assert_eq!(status, 1);
    assert!(told.contains("1 of 2 findings are gone; --shrink-baseline takes them out"), "{told}");
    assert!(
        told.contains("cards.pour: Wet Rope: ") && told.contains("[measures-disagree]"),
        "{told}"
    );
    let (status, told) = house.check(&["--shrink-baseline"]);
    assert_eq!(status, 1, "the new one still counts");
    assert!(told.contains("1 of 2 findings were gone, and are taken out"), "{told}");
    let left = fs::read_to_string(house.path().join("washline-baseline.json")).unwrap();
    assert!(left.contains("unreadable-amount") && !left.contains("measures-disagree"), "{left}");
    assert_eq!(house.known(), (1, String::new()), "nothing is gone any more");
}

#[test]
fn what_was_not_looked_at_is_not_gone() {
    let house = House::with_baseline();
    house.write(
        "other.pour",
        "drink: Slate\n  contains: none\n  60 ml gin\n  - stir with ice, strain\n",
    );
    let only = house.check(&["--baseline", "washline-baseline.json", "other.pour"]);
    assert_eq!(only, (0, String::new()));
    fs::remove_file(house.path().join("cards.pour")).unwrap();
    let only = house.check(&["--baseline", "washline-baseline.json", "other.pour"]);
    assert!(
        only.1.contains("2 of 2 findings are gone"),
        "the whole house is looked at: {}",
        only.1
    );
}

#[test]
fn a_folder_below_has_a_baseline_of_its_own() {
    let house = House::with_baseline();
    fs::create_dir(house.path().join("slip")).unwrap();
    house.write("slip/a.pour", CARDS);
    house.check(&["--write-baseline", "--baseline", "slip/known.json", "slip"]);
    let text = fs::read_to_string(house.path().join("slip/known.json")).unwrap();
    assert!(text.contains("\"file\": \"a.pour\""), "{text}");
    house.write("slip/a.pour", &CARDS.replace("1.000 ml", "1 ml"));
    let (_, by_detour) = house.check(&["--baseline", "slip/../slip/known.json", "slip/../slip"]);
    assert!(by_detour.contains("1 of 2 findings are gone"), "{by_detour}");
    let (_, told) = house.check(&["--baseline", "slip/known.json", "slip"]);
    assert!(told.contains("slip/known.json: 1 of 2 findings are gone"), "{told}");
}
