//! Lines that are none of the others, and comments.

use crate::read::{entry, mended, table};

#[test]
fn lines_that_fit_nothing() {
    table(
        "drink",
        &[
            ("# comment", "comment"),
            ("  # comment", "comment"),
            ("lime juice", "unread ! syntax"),
            ("lime juice 30 ml", "unread ! syntax"),
            ("lime juice, 30 ml", "unread ! syntax"),
            ("lime juice - 30 ml", "unread ! syntax"),
            ("lime juice (30 ml)", "unread ! syntax"),
            ("gin 2", "unread ! syntax"),
            ("Shake hard", "unread ! syntax"),
            ("Shake hard, then strain", "unread ! syntax"),
            ("stir 20 s", "unread ! syntax"),
            ("Shake with ice: hard", "unread ! syntax"),
            ("rinse the glass with absinthe", "unread ! syntax"),
            ("drop in a cherry", "unread ! syntax"),
            ("lime wheel, for garnish", "unread ! syntax"),
            ("-----", "unread ! syntax"),
            ("***", "unread ! syntax"),
            ("\u{2022} gin", "unread ! syntax"),
            ("1) gin", "unread ! syntax"),
            ("http://example.com", "?: text ! unknown-field"),
            ("top-shelf gin", "unread ! syntax"),
            ("Top: soda", "unread ! syntax"),
            ("gin", "unread ! syntax"),
            ("\u{2014} gin", "unread ! syntax"),
        ],
    );
}

/// One cause is one problem.
#[test]
fn told_once() {
    for line in ["60 ml (2) gin", "60 ml (2 oz gin", "keeps: cold", "yields: plenty"] {
        let whole = format!("drink: X\n  {line}\n");
        let entry = entry(&whole);
        assert_eq!(entry.problems.len(), 1, "{line}: {:?}", entry.problems);
    }
}

/// The line after the first mend of its first problem.
#[test]
fn first_mends() {
    let rows = [
        ("drink", "lime juice 30 ml", "30 ml lime juice"),
        ("drink", "lime juice, 30 ml", "30 ml lime juice"),
        ("drink", "lime juice - 30 ml", "30 ml lime juice"),
        ("drink", "lime juice (30 ml)", "30 ml lime juice"),
        ("drink", "Shake hard", "- Shake hard"),
        ("drink", "Shake hard, then strain", "- Shake hard, then strain"),
        ("drink", "stir 20 s", "- stir 20 s"),
        ("drink", "Shake with ice: hard", "- Shake with ice: hard"),
        ("drink", "rinse the glass with absinthe", "- rinse the glass with absinthe"),
        ("drink", "drop in a cherry", "- drop in a cherry"),
        ("drink", "lime wheel, for garnish", "garnish: lime wheel"),
        ("drink", "-----", "# -----"),
        ("drink", "***", "# ***"),
        ("drink", "Top: soda", "- Top: soda"),
        ("drink", "(2 oz) gin", "2 oz gin"),
        ("drink", "(2 oz gin", "2 oz gin"),
        ("drink", "(60 ml) (2 oz) gin", "60 ml (2 oz) gin"),
        ("drink", "| 60 ml | gin |", "60 ml gin"),
        ("drink", "| gin | 60 ml |", "60 ml gin"),
        ("drink", "gin\t60\tml", "60 ml gin"),
        ("drink", "gin: 60 ml", "60 ml gin"),
        ("drink", "colour: red", "note: colour: red"),
        ("drink", "keeps: cold", "note: keeps: cold"),
        ("drink", "strength: strong", "note: strength: strong"),
        ("drink", "(gin", "no mend"),
        ("drink", "glass coupe", "glass: coupe"),
        ("drink", "Glass = coupe", "Glass: coupe"),
        ("drink", "note - cold", "note: cold"),
        ("drink", "garnish lemon twist", "garnish: lemon twist"),
        ("drink", "garnish with a lemon twist", "- garnish with a lemon twist"),
        ("drink", "part of the rum", "no mend"),
        ("prep", "glass coupe", "no mend"),
    ];
    for (heading, line, expected) in rows {
        assert_eq!(mended(heading, line), expected, "{line}");
    }
}
