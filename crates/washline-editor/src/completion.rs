//! What may be written at the cursor: the words that the line, half typed as it is, has room for.

use washline_book::Workspace;
use washline_syntax::Key;
use washline_text::{FileId, Span};

use crate::Topic;

mod fields;
mod goods;
mod offers;
mod opening;
mod site;
mod step;
mod steps;
mod usual;
mod values;
mod wanted;

use offers::Offers;
use site::{Place, Site};

/// Something that may be written at the cursor.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Item {
    /// What a list shows, and what is matched against what was typed.
    pub label: String,
    /// A few words beside it; may be empty.
    pub detail: String,
    /// What it is.
    pub kind: ItemKind,
    /// What it replaces: the words typed so far, and the rest of the word under the cursor.
    pub span: Span,
    /// What is written there.
    pub text: String,
    /// Whether the text has tab stops: `${1:words}`, `$0`; it holds no other `$`, `}` or `\`.
    pub snippet: bool,
    /// Its place among the items: the less, the sooner it is meant.
    pub rank: u32,
    /// What [`describe`](crate::describe) tells of it.
    pub topic: Option<Topic>,
}

/// What an item is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ItemKind {
    /// An entry with its heading and the fields it should have.
    Entry,
    /// A field's key.
    Key,
    /// A word of a field's vocabulary, or of a line's.
    Word,
    /// A unit.
    Unit,
    /// An ingredient of the reference.
    Ingredient,
    /// A prep or stock entry of the workspace.
    Prepared,
    /// A drink of the workspace.
    Drink,
    /// A technique.
    Technique,
    /// A rule.
    Rule,
}

/// What may be written at `offset`, the likeliest first. What does not fit the letters typed is
/// left out.
#[must_use]
pub fn completion(workspace: &Workspace, file: FileId, offset: u32) -> Vec<Item> {
    let Some(place) = Place::at(workspace, file, offset) else { return Vec::new() };
    let Some((site, typed)) = place.site() else { return Vec::new() };
    let mut offers = Offers::new(&place, typed);
    match site {
        Site::Opening => opening::offer(&place, &mut offers),
        Site::Title(kind) => values::titles(&place, kind, &mut offers),
        Site::Value(key, said) => values::offer(&place, key, said, &mut offers),
        Site::Unit => goods::units(&mut offers),
        Site::UnitOrName => {
            goods::units(&mut offers);
            goods::names(&place, &mut offers);
        }
        Site::Name => goods::names(&place, &mut offers),
        Site::Qualifier => goods::qualifiers(&mut offers),
        Site::Act => steps::acts(&place, &mut offers),
        Site::Object => steps::objects(&place, &mut offers),
        Site::With => steps::with(&place, &mut offers),
        Site::WithIce => steps::ices(&mut offers),
        Site::Glass => values::glasses(&place, Key::Glass, &mut offers),
        Site::Onward => steps::onward(&mut offers),
        Site::Time => fields::times(&place, &mut offers),
        Site::Degrees => fields::degrees(&mut offers),
        Site::Prose => {}
    }
    offers.ranked()
}

#[cfg(test)]
pub(crate) mod tests {
    use washline_syntax::EntryKind;

    use super::*;
    use crate::harness::House;

    fn offered(files: &[&str]) -> Vec<Item> {
        let (house, at) = House::of(files);
        completion(&house.workspace, at.file, at.offset)
    }

    pub(crate) fn labels(text: &str) -> Vec<String> {
        offered(&[text]).into_iter().map(|item| item.label).collect()
    }

    /// The text once the item `label` is taken.
    pub(crate) fn taken(text: &str, label: &str) -> String {
        let (house, at) = House::at(text);
        let items = completion(&house.workspace, at.file, at.offset);
        let item = items.iter().find(|item| item.label == label);
        let item = item.unwrap_or_else(|| panic!("{label} is not offered: {items:?}"));
        let mut out = house.text().to_owned();
        out.replace_range(item.span.start as usize..item.span.end as usize, &item.text);
        out
    }

    #[test]
    fn an_empty_file_opens_with_an_entry() {
        assert_eq!(labels("|"), ["drink", "prep", "stock", "book", "section"]);
        assert!(offered(&["dr|"])[0].snippet);
    }

    /// The text with what stands ready at each stop.
    fn filled(snippet: &str) -> String {
        let mut parts = snippet.replace("$0", "");
        while let Some((before, rest)) = parts.split_once("${") {
            let (stop, after) = rest.split_once('}').unwrap();
            parts = format!("{before}{}{after}", stop.split_once(':').unwrap().1);
        }
        parts
    }

    #[test]
    fn an_entry_taken_as_offered_passes_the_check() {
        for item in offered(&["|"]) {
            let (house, at) = House::at(&filled(&item.text));
            let said: Vec<_> = washline_rules::check(&house.workspace)
                .into_iter()
                .map(|finding| finding.rule)
                .filter(|rule| !rule.starts_with("unused-") && *rule != "section-without-drinks")
                .collect();
            assert!(said.is_empty(), "{}: {said:?}", item.label);
            assert_eq!(crate::format_document(&house.workspace, at.file), [], "{}", item.label);
        }
    }

    #[test]
    fn keys_are_those_of_the_entry_that_it_lacks() {
        let all = labels("drink: A\n  glass: coupe\n  |\n");
        assert!(all.iter().any(|label| label == "family"));
        assert!(all.iter().any(|label| label == "note"));
        assert!(!all.iter().any(|label| label == "glass" || label == "pack"));
        assert_eq!(labels("stock: A\n  pa|\n")[0], "pack");
        assert_eq!(taken("drink: A\n  gla|\n", "glass"), "drink: A\n  glass: \n");
    }

    #[test]
    fn a_key_before_its_colon_leaves_the_colon_alone() {
        assert_eq!(taken("drink: A\n  gla|: coupe\n", "glass"), "drink: A\n  glass: coupe\n");
    }

    #[test]
    fn values_are_the_words_of_their_key() {
        assert_eq!(labels("drink: A\n  serve: r|\n")[0], "rocks");
        assert_eq!(labels("drink: A\n  status: |\n"), ["draft", "retired"]);
        assert_eq!(labels("drink: A\n  glass: cou|\n")[0], "coupe");
        assert_eq!(labels("drink: A\n  ice: peb|\n")[0], "pebble");
        let families = labels("drink: A\n  family: sour, |\n");
        assert!(families.iter().any(|name| name == "fizz"));
        assert!(!families.iter().any(|name| name == "sour"));
        assert_eq!(labels("stock: A\n  kind: gi|\n")[0], "gin");
        assert!(labels("drink: A\n  note: |\n").is_empty());
    }

    #[test]
    fn allergens_that_the_lines_carry_come_first_and_none_comes_last() {
        let all = labels("drink: A\n  contains: |\n  15 ml egg white\n");
        assert!(all[0].contains("egg"), "{all:?}");
        assert_eq!(all.last().map(String::as_str), Some("none"));
        assert!(
            !labels("drink: A\n  contains: egg, |\n").iter().any(|l| l == "none" || l == "egg")
        );
    }

    #[test]
    fn claims_are_words_and_allergens() {
        let all = labels("drink: A\n  free-from: |\n");
        assert_eq!(all[..3], ["alcohol", "animal", "meat-and-fish"]);
        assert!(!all.iter().any(|label| label == "none"));
    }

    #[test]
    fn after_a_number_stands_a_unit_or_a_name() {
        assert!(labels("drink: A\n  30 |\n").iter().any(|label| label == "ml"));
        assert_eq!(taken("drink: A\n  2 das|\n", "dashes"), "drink: A\n  2 dashes\n");
        assert_eq!(taken("drink: A\n  1 das|\n", "dash"), "drink: A\n  1 dash\n");
        assert_eq!(labels("drink: A\n  30m|\n")[0], "ml");
        assert_eq!(labels("drink: A\n  30 ml (1 o|\n")[0], "oz");
        assert_eq!(labels("prep: A\n  yields: 700 m|\n")[0], "ml");
        assert!(labels("drink: A\n  30|\n").is_empty());
    }

    #[test]
    fn what_the_house_pours_most_is_named_first() {
        let files = [
            "drink: A\n  30 ml rum\ndrink: B\n  30 ml rum\n  30 ml gin\nprep: Honey Syrup\n  600 g honey\n",
            "drink: C\n  30 ml |\n",
        ];
        let all: Vec<String> = offered(&files).into_iter().map(|item| item.label).collect();
        assert_eq!(all[0], "rum");
        let place = |name: &str| all.iter().position(|label| label == name);
        assert!(place("gin") < place("Honey Syrup"));
        assert!(place("Honey Syrup") < place("vodka"));
    }

    #[test]
    fn a_name_of_the_houses_own_goods_is_offered_once() {
        let own = "stock: Press House Cloudy\n  also: cloudy apple juice\n  kind: apple juice\n\n";
        let card = "drink: A\n  30 ml cloudy apple juice\n\ndrink: B\n  30 ml cloudy ap|\n";
        let all = labels(&[own, card].concat());
        let same = all.iter().filter(|label| *label == "cloudy apple juice").count();
        assert_eq!(same, 1, "{all:?}");
    }

    #[test]
    fn a_name_of_several_words_is_replaced_whole() {
        let text = "drink: A\n  22.5 ml lemon j|\n";
        assert_eq!(taken(text, "lemon juice"), "drink: A\n  22.5 ml lemon juice\n");
        let text = "drink: A\n  60 ml gin or vod|ka\n";
        assert_eq!(taken(text, "vodka"), "drink: A\n  60 ml gin or vodka\n");
    }

    #[test]
    fn a_name_that_opens_a_line_gets_an_amount() {
        let text = "drink: A\n  lime ju|\n";
        assert_eq!(labels("drink: A\n  lime|\n")[0], "lime");
        assert_eq!(taken(text, "lime juice"), "drink: A\n  ${1:30 ml} lime juice\n");
        let text = "drink: A\n  2 oz gin\n  egg w|\n";
        assert_eq!(taken(text, "egg white"), "drink: A\n  2 oz gin\n  ${1:1} egg white\n");
        let text = "drink: A\n  2 oz gin\n  bourb|\n";
        assert_eq!(taken(text, "bourbon"), "drink: A\n  2 oz gin\n  ${1:1 oz} bourbon\n");
        assert_eq!(labels("drink: A\n  ga|\n")[0], "garnish");
        assert!(!labels("stock: A\n  lim|\n").iter().any(|label| label == "lime"));
        assert!(labels("drink: A\n  what we call a lime|\n").is_empty());
    }

    #[test]
    fn a_measure_said_alone_is_one() {
        assert_eq!(taken("drink: A\n  da|\n", "dash"), "drink: A\n  1 dash \n");
        assert_eq!(taken("drink: A\n  juice o|\n", "juice of"), "drink: A\n  juice of \n");
    }

    #[test]
    fn a_blank_stands_behind_a_colon_and_a_comma() {
        assert_eq!(taken("drink: A\n  glass:|\n", "coupe"), "drink: A\n  glass: coupe\n");
        assert_eq!(
            taken("drink: A\n  30 ml gin,|\n", "chilled"),
            "drink: A\n  30 ml gin, chilled\n"
        );
        assert_eq!(
            taken("drink: A\n  family: sour,fi|\n", "fizz"),
            "drink: A\n  family: sour, fizz\n"
        );
    }

    #[test]
    fn what_an_amount_is_usually_of_comes_first() {
        let book = "drink: A\n  30 ml gin\n  30 ml rum\n\ndrink: B\n";
        let place = |text: &str, name: &str| {
            labels(&[book, text].concat()).iter().position(|label| label == name)
        };
        assert!(place("  top |\n", "soda water") < place("  top |\n", "gin"));
        assert_eq!(place("  top so|\n", "soda water"), Some(0));
        assert!(place("  2 dashes |\n", "aromatic bitters") < place("  2 dashes |\n", "gin"));
        assert_eq!(place("  2 dashes or|\n", "orange bitters"), Some(0));
        assert_eq!(place("  30 ml |\n", "gin"), Some(0));
        assert_eq!(place("  30 ml gin\n  30 ml |\n", "rum"), Some(0));
    }

    #[test]
    fn what_poisons_comes_last_and_says_so() {
        let items = offered(&["drink: A\n  5 g da|\n"]);
        let place = |name: &str| items.iter().position(|item| item.label == name);
        assert!(place("date") < place("daffodil"));
        let daffodil = items.iter().find(|item| item.label == "daffodil");
        assert_eq!(daffodil.map(|item| item.detail.as_str()), Some("poisonous"));
    }

    #[test]
    fn another_name_of_what_is_used_is_no_likelier() {
        let book = "prep: A\n  600 g honey\n\ndrink: B\n  30 ml lime juice\n  30 ml l|\n";
        assert_eq!(labels(book)[0], "lime juice");
        let book = "drink: A\n  1 egg white\n\ndrink: B\n  50 ml wh|\n";
        assert_eq!(labels(book)[0], "white rum");
    }

    #[test]
    fn each_of_several_names_is_completed() {
        let text = "drink: A\n  15 ml each lemon and lime ju|\n";
        let after = "drink: A\n  15 ml each lemon and lime juice\n";
        assert_eq!(taken(text, "lime juice"), after);
    }

    #[test]
    fn what_the_cards_say_most_often_comes_first() {
        let book = "drink: A\n  glass: collins 400 ml\n  family: fizz\n  garnish: lime leaf, slapped\n\ndrink: B\n";
        assert_eq!(labels(&[book, "  glass: |\n"].concat())[0], "collins");
        assert_eq!(labels(&[book, "  family: |\n"].concat())[0], "fizz");
        assert_eq!(labels(&[book, "  garnish: l|\n"].concat())[0], "lime leaf, slapped");
        let text = [book, "  garnish: lemon twist; mi|\n"].concat();
        assert!(taken(&text, "mint sprig").ends_with("garnish: lemon twist; mint sprig\n"));
    }

    #[test]
    fn only_what_may_be_waived_is_offered() {
        let all = labels("drink: A\n  waive: |\n");
        assert!(!all.iter().any(|label| label == "syntax" || label == "not-utf8"), "{all:?}");
    }

    #[test]
    fn a_prep_is_not_offered_to_itself_and_a_drink_is_no_ingredient() {
        let all = labels("prep: Amber Cordial\n  30 ml am|\ndrink: Amber Night\n");
        assert!(!all.iter().any(|label| label.starts_with("Amber ")));
    }

    #[test]
    fn behind_a_comma_stands_what_is_said_of_it() {
        let all = labels("drink: A\n  30 ml lemon juice, |\n");
        for word in ["to top", "optional", "on the side", "chilled"] {
            assert!(all.iter().any(|label| label == word), "{word}: {all:?}");
        }
    }

    #[test]
    fn rules_and_drinks_are_named_where_they_are_asked_for() {
        let all = labels("drink: A\n  waive: too-t|\n");
        assert_eq!(all[0], "too-tart");
        assert_eq!(labels("drink: A\n  waive: too-tart |\n"), ["because"]);
        assert_eq!(labels("drink: A\n  variant-of: |\ndrink: B\nprep: C\n"), ["B"]);
    }

    #[test]
    fn a_comment_is_the_writers_own() {
        assert!(labels("drink: A\n  30 ml gin # th|\n").is_empty());
        assert!(labels("# dr|\n").is_empty());
    }

    #[test]
    fn whatever_is_offered_can_be_told_about_or_says_so() {
        let (house, at) = House::at("drink: A\n  30 ml |\n");
        let items = completion(&house.workspace, at.file, at.offset);
        assert!(items.iter().all(|item| {
            let topic = item.topic.as_ref();
            topic.is_some_and(|t| crate::describe(&house.workspace, at.file, t).is_some())
        }));
    }

    #[test]
    fn a_few_words_stand_beside_whatever_is_offered() {
        for text in [
            "|",
            "drink: A\n  |\n",
            "drink: A\n  30 |\n",
            "drink: A\n  30 ml |\n",
            "drink: A\n  30 ml gin, |\n",
            "drink: A\n  30 ml gin\n  - |\n",
            "drink: A\n  30 ml gin\n  - shake |\n",
            "drink: A\n  30 ml gin\n  - shake with |\n",
            "drink: A\n  variant-of: |\ndrink: B\n",
            "book: |\nbook: B\n",
            "drink: A\n  tags: |\ndrink: B\n  tags: x\n",
        ] {
            let (house, at) = House::at(text);
            for item in completion(&house.workspace, at.file, at.offset) {
                assert!(!item.detail.trim().is_empty(), "{} in {text}", item.label);
            }
        }
        for key in Key::of(EntryKind::Drink).iter().chain(Key::of(EntryKind::Stock)) {
            for heading in ["drink", "stock"] {
                let (house, at) = House::at(&format!("{heading}: A\n  {}: |\n", key.word()));
                for item in completion(&house.workspace, at.file, at.offset) {
                    assert!(!item.detail.trim().is_empty(), "{} of {key:?}", item.label);
                }
            }
        }
    }
}
