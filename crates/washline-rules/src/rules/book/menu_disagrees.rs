//! Menu words that name what the drink lacks, promise what it is not, or leave out its allergen.

use washline_book::Menu;
use washline_reference::{Allergen, Trait, ingredient};
use washline_syntax::{Field, Key};
use washline_text::Severity;

use crate::rule::rule;
use crate::words::list;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// The guest orders by the menu. Words that name an ingredient the drink no longer has sell
    /// another drink; words that list what is in it and leave out the egg or the nut are what a guest
    /// who must avoid it reads; `dairy-free` over cream is worse. Words that name no ingredient are
    /// the menu's own. The list of allergens, local codes and the staff's answer come first; this
    /// only reads the words.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///   menu: gin, lime, a little sugar
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///   menu: gin, lemon, a little sugar
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "menu-disagrees", Book, Information, Fixes::None, Check::Entry(find),
    why: "the guest orders by these words, and some by what they leave out"
}

/// What guests look for in the words of a menu, with words that speak of it. Sulphites and the
/// grain of a beer are looked for in the list beside it.
const LOOKED_FOR: &[(Allergen, &[&str])] = &[
    (Allergen::Egg, &["egg"]),
    (Allergen::Milk, &["milk", "cream", "dairy", "butter", "yoghurt", "yogurt", "cheese"]),
    (Allergen::Nuts, &["nut", "almond", "hazelnut", "walnut", "pistachio", "cashew", "orgeat"]),
    (Allergen::Peanut, &["peanut"]),
    (Allergen::Sesame, &["sesame", "tahini"]),
    (Allergen::Soy, &["soy", "soya"]),
    (Allergen::Fish, &["fish", "anchovy"]),
    (Allergen::Crustacean, &["crab", "lobster", "shrimp", "prawn", "shellfish"]),
    (Allergen::Mollusc, &["clam", "oyster", "shellfish"]),
    (Allergen::Celery, &["celery"]),
    (Allergen::Mustard, &["mustard"]),
];

/// Words of a menu that promise, and what they promise the absence of.
const PROMISES: &[(&[&str], &[Allergen])] = &[
    (&["dairy", "free"], &[Allergen::Milk]),
    (&["milk", "free"], &[Allergen::Milk]),
    (&["lactose", "free"], &[Allergen::Milk]),
    (&["nut", "free"], &[Allergen::Nuts, Allergen::Peanut]),
    (&["egg", "free"], &[Allergen::Egg]),
    (&["gluten", "free"], &[Allergen::Gluten]),
    (&["vegan"], &[Allergen::Egg, Allergen::Milk, Allergen::Fish]),
];

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    let Some(field) = record.field(Key::Menu) else { return };
    if !context.is_drink() || record.retired || record.unread {
        return;
    }
    if let Some(report) = promise(context, field) {
        sink.report(report);
    }
    let Some(menu) = context.workspace.menu(record) else { return };
    // A bottle of no known kind may be anything that the menu says.
    let nameless = record.reads.iter().any(|read| {
        read.ingredient.is_none() && read.resolution.level.is_none_or(|_| is_bottle(context, read))
    });
    if !nameless {
        for name in menu.names.iter().filter(|name| !name.poured) {
            let written = record.text(name.span);
            let message = format!("the menu names {written}, and nothing in the drink is that");
            sink.report(
                Report::at(context, name.span, message)
                    .help("write on the menu what is poured, or pour what the menu says")
                    .key(washline_text::fold(written)),
            );
        }
    }
    if let Some(report) = left_out(context, field, &menu) {
        sink.report(report);
    }
}

/// Whether a line pours a stock entry that says no kind.
fn is_bottle(context: &Context<'_>, read: &washline_book::Read) -> bool {
    read.referents().any(|referent| match referent {
        washline_book::Referent::Entry(id) => {
            context.workspace.record(id).is_some_and(|entry| entry.reaches.is_empty())
        }
        washline_book::Referent::Reference(_) => false,
    })
}

/// `dairy-free` over cream.
fn promise(context: &Context<'_>, field: &Field) -> Option<Report> {
    let record = context.record;
    let folded = washline_text::fold(record.text(field.value_span));
    let words: Vec<&str> = folded.split(|c: char| !c.is_alphanumeric()).collect();
    let said = |promise: &[&str]| words.windows(promise.len()).any(|run| run == promise);
    let (promised, broken) =
        PROMISES.iter().filter(|(promise, _)| said(promise)).find_map(|(promise, absent)| {
            Some((promise.join("-"), broken_by(context, promise, absent)?))
        })?;
    let message = format!("the menu says {promised}, and the drink has {broken} in it");
    Some(
        Report::at(context, field.value_span, message)
            .severity(Severity::Warning)
            .help("take the word off the menu until it is true; what guests must avoid is never a matter of words")
            .key(promised),
    )
}

/// The name of what breaks a promise.
fn broken_by(context: &Context<'_>, promise: &[&str], absent: &[Allergen]) -> Option<String> {
    let record = context.record;
    let carried = record.allergens.carried.iter().find(|carried| {
        carried.certain && carried.is_poured() && absent.contains(&carried.allergen)
    });
    if let Some(step) = carried.and_then(|carried| carried.path.last()) {
        return Some(step.name.clone());
    }
    let animal = |id: u16| ingredient(id).filter(|known| known.is(Trait::Animal));
    let vegan = promise == ["vegan"];
    record
        .reaches
        .iter()
        .filter(|_| vegan)
        .find_map(|(id, _)| animal(*id))
        .map(|known| known.name.to_owned())
}

/// A menu that lists what is in the drink, all but what some guests must avoid.
fn left_out(context: &Context<'_>, field: &Field, menu: &Menu) -> Option<Report> {
    let record = context.record;
    if menu.names.iter().filter(|name| name.poured).count() < 2 {
        return None;
    }
    let mut things: Vec<String> = Vec::new();
    for carried in record.allergens.carried.iter().filter(|carried| carried.certain) {
        let Some((_, words)) = LOOKED_FOR.iter().find(|(known, _)| *known == carried.allergen)
        else {
            continue;
        };
        let Some(read) = carried.path.first().and_then(|step| record.reads.get(step.read?)) else {
            continue;
        };
        if menu.says_any(words) || menu.says_any(&[&carried.detail]) {
            continue;
        }
        if menu.speaks_of(context.workspace, read) && carried.path.len() == 1 {
            continue;
        }
        let thing = match carried.path.len() {
            1 => read.name.clone(),
            _ => format!("the {} in {}", carried.allergen.id(), read.name),
        };
        if !things.contains(&thing) {
            things.push(thing);
        }
    }
    if things.is_empty() {
        return None;
    }
    let message = format!("the menu lists what is in it, and leaves out {}", list(&things));
    Some(
        Report::at(context, field.value_span, message)
            .why("a guest who must avoid it reads the list and orders")
            .help("name it on the menu; local codes decide how allergens are made known")
            .key("left-out"),
    )
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message, severity};
    use washline_text::Severity;

    const LINES: &str = "  60 ml gin\n  20 ml lemon juice\n  20 ml sugar syrup, 1:1\n";

    #[test]
    fn what_the_drink_lacks_is_pointed_at() {
        check(
            &RULE,
            &format!(
                "drink: A
  menu: vodka, lemon and thyme
        ^^^^^            ^^^^^
{LINES}"
            ),
        );
    }

    #[test]
    fn the_menus_own_words_are_its_own() {
        check(
            &RULE,
            &format!("drink: A\n  menu: gin, a long evening, the sea, blended with ice\n{LINES}"),
        );
        check(&RULE, &format!("drink: A\n  menu: bright and short\n{LINES}"));
    }

    #[test]
    fn general_words_and_what_is_in_a_prep_are_poured() {
        check(
            &RULE,
            "
drink: A
  menu: whiskey, tea, lemon
  50 ml bourbon
  20 ml Dusk Syrup
  20 ml lemon juice
prep: Dusk Syrup
  10 g black tea leaves
  200 g sugar
  200 g water
  - steep, strain
",
        );
    }

    #[test]
    fn a_bottle_of_no_known_kind_may_be_what_the_menu_says() {
        check(
            &RULE,
            "drink: A\n  menu: plum, lemon\n  50 ml Dusk No. 4\n  20 ml lemon juice\n\
             stock: Dusk No. 4\n  abv: 20 %\n  sugar: 20 g/100 ml\n",
        );
    }

    #[test]
    fn an_egg_that_the_list_leaves_out_is_told() {
        let text = format!("drink: A\n  menu: gin, lemon, sugar\n{LINES}  1 egg white\n");
        let said = "the menu lists what is in it, and leaves out egg white";
        assert_eq!(message(&RULE, &text, "").as_deref(), Some(said));
        check(&RULE, &format!("drink: A\n  menu: gin, lemon, egg white\n{LINES}  1 egg white\n"));
        check(&RULE, &format!("drink: A\n  menu: a cloud at dusk\n{LINES}  1 egg white\n"));
    }

    #[test]
    fn an_allergen_in_a_prep_is_left_out_too() {
        let text = "
drink: A
  menu: rum, lime, house syrup
  50 ml rum
  20 ml lime juice
  20 ml House Syrup
prep: House Syrup
  200 g orgeat
  100 g sugar
";
        let said = "the menu lists what is in it, and leaves out the nuts in House Syrup";
        assert_eq!(message(&RULE, text, "").as_deref(), Some(said));
    }

    #[test]
    fn a_promise_is_held_to() {
        let text =
            format!("drink: A\n  menu: dairy-free, gin, lemon, cream\n{LINES}  20 ml cream\n");
        assert_eq!(severity(&RULE, &text, ""), Some(Severity::Warning));
        let vegan = format!("drink: A\n  menu: vegan, gin, honey\n{LINES}  20 ml honey\n");
        let said = "the menu says vegan, and the drink has honey in it";
        assert_eq!(message(&RULE, &vegan, "").as_deref(), Some(said));
        check(&RULE, &format!("drink: A\n  menu: vegan and dairy-free\n{LINES}"));
    }

    #[test]
    fn last_years_menu_is_left_alone() {
        check(&RULE, &format!("drink: A\n  status: retired\n  menu: vodka\n{LINES}"));
    }
}
