//! What happens to a book in a year, one at a time.

use crate::repository::Repository;

/// A sour on a house syrup.
const DRINKS: &str = "book: The Copper Heron

section: Shaken

drink: Quarry Lane
  family: sour
  glass: coupe, chilled
  serve: up
  contains: none

  52.5 ml  gin
  22.5 ml  lemon juice
  15 ml    Honey Syrup

  - shake hard with cubed ice for 12 s, double strain
  garnish: lemon twist

drink: Tin Chapel
  family: sour
  glass: coupe, chilled
  serve: up
  contains: none

  60 ml    white rum
  22.5 ml  lime juice
  20 ml    Honey Syrup

  - shake with cubed ice for 12 s, double strain
  garnish: lime wheel
";

const PREPS: &str = "book: The Copper Heron

prep: Honey Syrup
  yields: 715 ml
  keeps: 2 weeks chilled

  600 g  honey
  300 g  water

  - warm to 50 C, stir until even
  - cool, bottle, label, refrigerate
";

fn book() -> Repository {
    Repository::of(&[("drinks.pour", DRINKS), ("preps.pour", PREPS)])
}

#[test]
fn an_amount() {
    let book = book();
    book.replace("drinks.pour", "22.5 ml  lemon juice", "30 ml  lemon juice");
    let came = book.review(&["HEAD"]);
    came.says(&[
        "HEAD to the working tree: 1 entry changed",
        "Quarry Lane (drink) drinks.pour:5",
        "amount 22.5 ml lemon juice → 30 ml lemon juice",
        "turns tarter, weaker and longer",
        "sugar to acid",
    ]);
    came.never_says(&["Tin Chapel", "no longer the same"]);
    assert_eq!(came.status, 0);
    // Both ways, and between two commits.
    book.commit("sharper");
    book.review(&["HEAD~1", "HEAD"]).says(&["HEAD~1 to HEAD: 1 entry changed", "tarter"]);
    book.review(&["HEAD", "HEAD~1"]).says(&["30 ml lemon juice → 22.5 ml lemon juice", "sweeter"]);
    book.review(&["HEAD"]).says(&["nothing changed in the glass"]);
}

/// Half a millilitre is less than the hand that pours it.
#[test]
fn an_amount_within_what_can_be_told() {
    let book = book();
    book.replace("drinks.pour", "52.5 ml  gin", "52 ml  gin");
    let came = book.review(&["HEAD"]);
    came.says(&["amount 52.5 ml gin → 52 ml gin", "within what the figures can tell"]);
    came.never_says(&["turns"]);
}

#[test]
fn a_swap() {
    let book = book();
    book.replace("drinks.pour", "52.5 ml  gin", "52.5 ml  vodka");
    book.review(&["HEAD"]).says(&["swapped 52.5 ml gin → 52.5 ml vodka"]);
}

#[test]
fn a_ratio_carries_into_what_pours_the_prep() {
    let book = book();
    book.replace("preps.pour", "300 g  water", "500 g  water");
    book.replace("preps.pour", "yields: 715 ml", "yields: 915 ml");
    let came = book.review(&["HEAD"]);
    came.says(&[
        "1 entry changed, 2 more not touched and no longer the same",
        "Honey Syrup (prep) preps.pour:3",
        "amount 300 g water → 500 g water",
        "yields 715 ml → 915 ml",
        "Brix",
        "Not touched, and no longer the same",
        "Honey Syrup: 2 drinks turn tarter",
        "Quarry Lane sugar",
        "Tin Chapel sugar",
    ]);
    // Only the drinks are asked for: what changed elsewhere still counts.
    let came = book.review(&["HEAD", "--", "drinks.pour"]);
    came.says(&[
        "HEAD to the working tree: 2 more not touched",
        "Honey Syrup: 2 drinks turn tarter",
    ]);
    came.never_says(&["300 g water"]);
}

#[test]
fn a_stock_entrys_strength() {
    let stock = "stock: Orchard Row Gin\n  also: gin\n  kind: gin\n  abv: 47 %\n";
    let book =
        Repository::of(&[("drinks.pour", DRINKS), ("preps.pour", PREPS), ("larder.pour", stock)]);
    book.replace("larder.pour", "47 %", "40 %");
    book.review(&["HEAD"]).says(&[
        "Orchard Row Gin (stock) larder.pour:1",
        "abv 47 % → 40 %",
        "Orchard Row Gin: 1 drink turns sweeter, weaker and shorter",
        "Quarry Lane strength",
    ]);
}

#[test]
fn a_rename_is_known_by_its_lines() {
    let book = book();
    book.replace("drinks.pour", "drink: Quarry Lane", "drink: Quarry Road");
    book.replace("drinks.pour", "52.5 ml  gin", "50 ml  gin");
    let came = book.review(&["HEAD"]);
    came.says(&[
        "1 entry renamed",
        "Quarry Road (drink), was Quarry Lane",
        "52.5 ml gin → 50 ml gin",
    ]);
    came.never_says(&["added", "removed"]);
}

/// A finding that is there on both sides is no news because the entry has another name.
#[test]
fn a_rename_brings_no_new_findings() {
    let book = Repository::of(&[(
        "a.pour",
        "drink: Lantern\n  60 ml gin\n  1 oz (20 ml) lime juice\n  20 ml sugar syrup, 1:1\n  - shake with ice, strain\n",
    )]);
    book.replace("a.pour", "Lantern", "Lantern Row");
    let came = book.review(&["HEAD", "--fail-on", "new-findings"]);
    came.says(&["1 entry renamed", "Findings: 0 new, 0 gone"]);
    assert_eq!(came.status, 0);
}

#[test]
fn a_move_to_another_file() {
    let book = book();
    let (kept, moved) = DRINKS.split_once("drink: Tin Chapel").unwrap();
    book.write("drinks.pour", kept);
    book.write("rum.pour", &format!("book: The Copper Heron\n\ndrink: Tin Chapel{moved}"));
    let came = book.review(&["HEAD"]);
    came.says(&[
        "1 entry moved",
        "Tin Chapel (drink), was in drinks.pour rum.pour:3",
        "section Shaken → not said",
    ]);
}

#[test]
fn a_reformat_is_one_line() {
    let book = book();
    let text =
        DRINKS.replace("  52.5 ml  gin", "52.5ml    gin").replace("family: sour", "family:   Sour");
    book.write("drinks.pour", &text.replace("drink: Tin", "# our oldest\ndrink: Tin"));
    let came = book.review(&["HEAD", "--fail-on", "any"]);
    came.says(&["nothing changed in the glass", "Layout only"]);
    assert_eq!(came.status, 0, "{}", came.out);
    book.write("drinks.pour", &DRINKS.replace('\n', "\r\n"));
    let came = book.review(&["HEAD"]);
    came.says(&["nothing changed in the glass", "Line ends only: 1 file"]);
}

#[test]
fn an_allergen_three_preps_deep() {
    let preps = "
prep: Paste
  100 g  almonds
  100 g  sugar

  - blend until even

prep: Nut Milk
  100 g  Paste
  500 g  water

  - blend until even

prep: Cream Wash
  200 g  Nut Milk
  200 g  sugar

  - stir until even
";
    let drink = "drink: Harbour Bell\n  family: sour\n  contains: nuts\n\n  45 ml gin\n  22.5 ml lemon juice\n  20 ml Cream Wash\n\n  - shake with ice for 12 s, double strain\n";
    let book =
        Repository::of(&[("a.pour", drink), ("preps.pour", &preps.replace("almonds", "oats"))]);
    book.write("preps.pour", preps);
    let came = book.review(&["HEAD", "--fail-on", "allergens"]);
    came.says(&[
        "Harbour Bell (drink) gains nuts (almond), through Cream Wash → Nut Milk → Paste → almonds",
        "Harbour Bell (drink) loses gluten",
        "swapped 100 g oats → 100 g almonds",
    ]);
    assert_eq!(came.status, 1);
    assert_eq!(book.review(&["HEAD"]).status, 0);
}

#[test]
fn a_deletion_still_in_use() {
    let book = book();
    book.remove("preps.pour");
    book.replace("drinks.pour", "20 ml    Honey Syrup", "20 ml    sugar syrup, 1:1");
    let came = book.review(&["HEAD"]);
    came.says(&["Honey Syrup (prep), taken out", "Quarry Lane still asks for Honey Syrup"]);
    came.never_says(&["Tin Chapel still asks"]);
}

/// A name that nothing else knows leaves the drink without figures.
#[test]
fn a_deletion_that_leaves_a_hole() {
    let book = Repository::of(&[
        ("a.pour", "drink: A\n  60 ml gin\n  20 ml Moss Cordial\n  - stir with ice for 20 s\n"),
        ("b.pour", "prep: Moss Cordial\n  100 g sugar\n  100 g water\n  - stir until even\n"),
    ]);
    book.remove("b.pour");
    let came = book.review(&["HEAD", "--fail-on", "new-findings"]);
    came.says(&[
        "A still asks for Moss Cordial: nothing goes by that name now",
        "Moss Cordial: 1 drink can't be computed any more",
        "unknown-ingredient",
    ]);
    assert_eq!(came.status, 1);
}

#[test]
fn a_conflict_is_one_finding_with_both_sides() {
    let book = book();
    book.git(&["checkout", "--quiet", "-b", "sharper"]);
    book.replace("drinks.pour", "22.5 ml  lemon juice", "30 ml  lemon juice");
    book.commit("sharper");
    book.git(&["checkout", "--quiet", "main"]);
    book.replace("drinks.pour", "22.5 ml  lemon juice", "15 ml  lemon juice");
    book.commit("softer");
    assert!(!book.try_git(&["merge", "sharper"]).status.success());
    let came = book.review(&["HEAD"]);
    came.says(&[
        "1 merge conflict",
        "Merge conflict in drinks.pour:12: two versions stand in the file",
        "amount 15 ml lemon juice → 30 ml lemon juice",
        "turns tarter",
        "Findings: 1 new",
        "[merge-conflict]",
    ]);
    let told = came.out.matches("new error").count() + came.out.matches("new warning").count();
    assert_eq!(told, 1, "{}", came.out);
    // The index has no text for it: our version stands in, and that is told.
    let staged = book.review(&["--staged"]);
    assert!(staged.err.contains("drinks.pour: not merged yet"), "{}", staged.err);
}

#[test]
fn standards_are_read_on_each_side_and_named() {
    let book = book();
    book.write("washline.toml", "ounce = \"us\"\n[rules]\nno-garnish-said = \"off\"\n");
    book.commit("standards");
    book.write("washline.toml", "ounce = \"30 ml\"\n[rules]\nno-garnish-said = \"off\"\n");
    let came = book.review(&["HEAD"]);
    came.says(&["House standards", "washline.toml, ounce \"us\" → \"30 ml\""]);
    came.never_says(&["no-garnish-said"]);
}

#[test]
fn a_pull_request_is_held_against_where_it_left() {
    let book = book();
    book.git(&["checkout", "--quiet", "-b", "sharper"]);
    book.replace("drinks.pour", "22.5 ml  lemon juice", "30 ml  lemon juice");
    book.commit("sharper");
    book.git(&["checkout", "--quiet", "main"]);
    book.replace("drinks.pour", "60 ml    white rum", "45 ml    white rum");
    book.commit("meanwhile");
    let came = book.review(&["--merge-base", "main", "sharper"]);
    came.says(&["where it left main to sharper: 1 entry changed", "Quarry Lane"]);
    came.never_says(&["Tin Chapel"]);
    book.review(&["main", "sharper"]).says(&["2 entries changed", "Tin Chapel"]);
}

#[test]
fn what_is_staged_and_nothing_else() {
    let book = book();
    book.replace("drinks.pour", "22.5 ml  lemon juice", "30 ml  lemon juice");
    book.git(&["add", "--all"]);
    book.replace("drinks.pour", "60 ml    white rum", "45 ml    white rum");
    let came = book.review(&["--staged"]);
    came.says(&["HEAD to what is staged: 1 entry changed", "Quarry Lane"]);
    came.never_says(&["Tin Chapel"]);
}
