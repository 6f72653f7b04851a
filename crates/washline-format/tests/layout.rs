//! What laid out books look like, and what layout never does.

use proptest::prelude::*;
use proptest::test_runner::RngSeed;
use washline_format::{Fractions, Options, format};
use washline_syntax::Document;
use washline_text::apply;

fn laid_out(text: &str, options: &Options) -> String {
    let document = Document::parse(text);
    apply(text, &format(&document, options).edits).unwrap_or_default()
}

#[track_caller]
fn check(text: &str, expected: &str) {
    let text = text.strip_prefix('\n').unwrap_or(text);
    let expected = expected.strip_prefix('\n').unwrap_or(expected);
    let got = laid_out(text, &Options::default());
    assert_eq!(got, expected, "\n{got}");
    assert_eq!(laid_out(&got, &Options::default()), got, "twice is once");
}

#[test]
fn a_card_is_set_in_blocks_and_columns() {
    check(
        "
Drink :  Quarry   Lane
family:sour
GLASS: coupe,chilled
52.5ml (1¾ oz) pear brandy # ours
22.50 ml(¾ oz)   lemon juice, fresh
 15 ml (½ oz) honey   syrup   # the house prep
 two dashes orange bitters
-  shake hard with   cubed ice for 12 s, double strain
garnish: pear slice


prep: Honey Syrup
600 g honey
300 g water
- warm to 50 C",
        "
drink: Quarry Lane
  family: sour
  glass: coupe, chilled

  52.5 ml   (1 3/4 oz)  pear brandy         # ours
  22.5 ml   (3/4 oz)    lemon juice, fresh
  15 ml     (1/2 oz)    honey syrup         # the house prep
  2 dashes              orange bitters

  - shake hard with cubed ice for 12 s, double strain
  garnish: pear slice

prep: Honey Syrup
  600 g  honey
  300 g  water

  - warm to 50 C
",
    );
}

#[test]
fn comments_and_blank_lines_stay() {
    check(
        "
# our book
book: The Copper Heron
section: Shaken
# the first
drink: A
# about the lines
60 ml gin

# the sweet
15 ml sugar syrup

# about the next one


drink: B
60 ml gin
",
        "
# our book
book: The Copper Heron
section: Shaken

# the first
drink: A
  # about the lines
  60 ml  gin

  # the sweet
  15 ml  sugar syrup

# about the next one

drink: B
  60 ml  gin
",
    );
}

#[test]
fn a_broken_entry_stays_byte_for_byte() {
    check(
        "
drink: A
60 ml    gin
drink: B
   60 ml    gin
Shake   hard
drink: C
60 ml    gin
",
        "
drink: A
  60 ml  gin

drink: B
   60 ml    gin
Shake   hard
drink: C
  60 ml  gin
",
    );
}

#[test]
fn each_line_keeps_its_end_and_the_file_its_mark() {
    check(
        "\u{feff}drink: A\r\n60 ml gin\r\n- stir\n",
        "\u{feff}drink: A\r\n  60 ml  gin\r\n\r\n  - stir\n",
    );
    check("drink: A\r60 ml gin", "drink: A\r  60 ml  gin\r");
}

#[test]
fn words_that_stand_for_amounts_stay() {
    check(
        "
drink: A
60 ml gin
rim (half) salt
top (90 ml) soda water
juice of 1/2 lime (15 ml)
2 sprigs of mint
3/4 oz + 1 bsp sugar syrup
soda water, to top
",
        "
drink: A
  60 ml                    gin
  rim             (half)   salt
  top             (90 ml)  soda water
  juice of 1/2             lime (15 ml)
  2 sprigs of              mint
  3/4 oz + 1 bsp           sugar syrup
                           soda water, to top
",
    );
}

#[test]
fn what_is_said_of_a_bare_count_stands_at_it() {
    check(
        "prep: A\n  30 cloves , toasted\n  250 ml overproof rum\n",
        "prep: A\n  30 cloves, toasted\n  250 ml     overproof rum\n",
    );
}

#[test]
fn width_is_what_is_seen() {
    check(
        "
drink: A
60 ml crème de cacao # a
15 ml 柚子 # b
",
        "
drink: A
  60 ml  crème de cacao  # a
  15 ml  柚子            # b
",
    );
}

#[test]
fn fractions_as_the_house_says() {
    let text = "drink: A\n  0.75 oz gin\n  1 1/2 oz rum\n  2/3 oz cognac\n";
    let with = |fractions| laid_out(text, &Options { fractions, ..Options::default() });
    assert_eq!(
        with(Fractions::Fraction),
        "drink: A\n  3/4 oz    gin\n  1 1/2 oz  rum\n  2/3 oz    cognac\n"
    );
    assert_eq!(
        with(Fractions::Decimal),
        "drink: A\n  0.75 oz  gin\n  1.5 oz   rum\n  2/3 oz   cognac\n"
    );
}

fn piece() -> impl Strategy<Value = String> {
    prop_oneof![
        "(drink|prep|stock|book|section|Drink ): ?[A-Za-z ]{0,12}(\n|\r\n)",
        " {0,3}(glass|serve|family|contains|yields|keeps|abv|garnish|note)( :|:) ?.{0,16}\n",
        " {0,4}[1-9][0-9]{0,2}([./-][1-9])?( |)(ml|oz|g|dash|tsp|l|part|) {1,3}[a-z ,]{1,18}( # .{0,8})?\n",
        " {0,4}(a|two|half|~8|1/2|½|1½|top|rinse|some) ?(oz|dash|)  ?(\\((22.5 ml|1/2 oz|rich)\\))? ?[a-z]{1,9}\n",
        "  -  (shake|stir|add|top|muddle|strain)( [a-z ]{0,20})?[,;]? ?(then|and)? [a-z]{0,10}\n",
        " {0,2}# ?[a-z]{0,9}\n",
        "\n{1,3}",
        ".{0,12}\n",
    ]
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, rng_seed: RngSeed::Fixed(20_251), ..ProptestConfig::with_cases(600) })]

    #[test]
    fn twice_is_once_and_comments_stay(pieces in prop::collection::vec(piece(), 0..24)) {
        let text = pieces.concat();
        let once = laid_out(&text, &Options::default());
        prop_assert_eq!(laid_out(&once, &Options::default()), once.clone());
        let comments = |text: &str| {
            let document = Document::parse(text);
            let mut out = Vec::new();
            for at in document.entries() {
                for line in &at.entry.lines {
                    out.extend(line.comment.map(|c| c.text(&at.entry.text).trim().to_owned()));
                }
            }
            out
        };
        prop_assert_eq!(comments(&once), comments(&text));
    }

    #[test]
    fn arbitrary_text_is_laid_out_once(text in "(?s).{0,200}") {
        let once = laid_out(&text, &Options::default());
        prop_assert_eq!(laid_out(&once, &Options::default()), once);
    }
}
