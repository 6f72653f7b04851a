//! Spirit lit in or over a glass.

use washline_book::{ActRead, Figure, Read};
use washline_syntax::Technique;

use crate::rule::rule;
use crate::words::number;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Burning spirit cannot be seen in a lit room, it runs where it is spilled and it follows the
    /// bottle back up the pour. Peel flamed over a glass is a spark and gone; spirit set alight is
    /// a fire in a guest's reach.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: none
    ///   glass: rocks 300 ml
    ///   ice: none
    ///   serve: neat
    ///   contains: none
    ///
    ///   15 ml  coffee liqueur
    ///   15 ml  overproof rum
    ///
    ///   - build in the glass
    ///   - light the overproof rum
    ///   garnish: none
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: none
    ///   glass: rocks 300 ml
    ///   ice: none
    ///   serve: neat
    ///   contains: none
    ///
    ///   15 ml  coffee liqueur
    ///   15 ml  overproof rum
    ///
    ///   - build in the glass
    ///   garnish: none
    /// ```
    ///
    /// # Source
    /// Common practice of the trade and of fire codes, no source; local codes and licensed practice decide.
    "flame-near-spirit", Alcohol, Warning, Fixes::None, Check::Entry(find),
    why: "its flame is hard to see, runs with what is spilled and climbs the pour"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if !context.is_drink() {
        return;
    }
    for act in &context.record.method.acts {
        if let Some(lit) = lit(context, act) {
            sink.report(report(context, act, lit));
        }
    }
}

/// Things that are flamed or lit as a garnish, over the glass and away from it.
const GARNISHES: &[&str] = &[
    "peel",
    "zest",
    "twist",
    "disc",
    "coin",
    "wheel",
    "slice",
    "wedge",
    "rosemary",
    "thyme",
    "sage",
    "herb",
    "sprig",
    "cinnamon",
    "stick",
    "anise",
    "wood",
    "plank",
    "chip",
    "torch",
    "smoke",
    "garnish",
    "marshmallow",
    "meringue",
    "sugar",
    "candle",
    "stencil",
    "bay",
    "leaf",
    "oil",
    "oils",
    "cloche",
    "hay",
    "tea",
];
/// Words for what is in the glass.
const DRINK: &[&str] = &[
    "spirit", "alcohol", "surface", "drink", "float", "shot", "shell", "half", "fire", "contents",
    "mixture", "liquid",
];

/// What is lit: the line that an act names, or the strongest where it names the drink.
/// `None` where it lights nothing strong.
pub(crate) fn lit<'a>(context: &Context<'a>, act: &ActRead) -> Option<&'a Read> {
    if !matches!(act.act.technique, Some(Technique::Flame | Technique::Light)) {
        return None;
    }
    let record = context.record;
    let strong = |read: &&Read| read.composition.ethanol > 0.1 * read.composition.mass();
    let named = act.mentions.iter().filter_map(|line| record.reads.get(*line)).find(strong);
    let garnish = act.says(&record.entry, GARNISHES);
    if let Some(named) = named {
        // `flame the zest over the rum` lights the zest.
        let over = garnish && act.act.technique == Some(Technique::Flame);
        return (!over).then_some(named);
    }
    if garnish || !act.mentions.is_empty() {
        return None;
    }
    let bare = act.act.object.is_empty();
    let flames_peel = act.act.technique == Some(Technique::Flame)
        && record.garnishes.iter().any(|read| peels(&read.name));
    if flames_peel && !act.says(&record.entry, DRINK) {
        return None;
    }
    if !bare && !act.says(&record.entry, DRINK) && act.act.technique == Some(Technique::Flame) {
        return None;
    }
    record.reads.iter().filter(strong).max_by(|a, b| {
        let share = |read: &Read| read.composition.abv_percent();
        share(a).total_cmp(&share(b))
    })
}

fn peels(name: &str) -> bool {
    let name = washline_text::fold(name);
    ["peel", "zest", "twist", "disc", "coin"].iter().any(|word| name.contains(word))
}

fn report(context: &Context<'_>, act: &ActRead, lit: &Read) -> Report {
    let record = context.record;
    let abv = lit.composition.abv_percent();
    let warm = if abv > 50.0 { ", which lights at room temperature" } else { "" };
    let message = format!("{} of {} % vol is lit{warm}", lit.name, number(abv));
    let mut report = Report::at(context, act.span(), message)
        .help(
            "light a small measure away from bottles, sleeves and guests, never pour onto a flame, \
             keep a lid and an extinguisher at hand, put it out before it is served; \
             local codes and licensed practice decide whether it may be done at all",
        )
        .related(record.place(lit.span), "what burns");
    if let Some(total) = context.figure(Figure::Ethanol) {
        report = report.why(format!(
            "{} g of ethanol are in reach of it, and its flame is hard to see",
            number(total)
        ));
    }
    report
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message};

    #[test]
    fn spirit_that_is_lit() {
        check(
            &RULE,
            "
drink: A
  45 ml rum
  15 ml overproof rum
  - build in the glass
  - light the overproof rum
    ^^^^^^^^^^^^^^^^^^^^^^^
drink: B
  45 ml rum
  - build in the glass
  - flame the surface
    ^^^^^^^^^^^^^^^^^
",
        );
        check(
            &RULE,
            "
drink: C
  45 ml rum
  22.5 ml lime juice
  float (10 ml) overproof rum
  - shake with ice, strain
  - float overproof rum and ignite
                            ^^^^^^
",
        );
        let text = "drink: A\n  15 ml overproof rum\n  - light the rum\n";
        assert!(message(&RULE, text, "").unwrap().contains("lights at room temperature"));
    }

    /// A flamed peel is no fire, nor a torched herb, a smoked glass, a light shake.
    #[test]
    fn a_flamed_garnish_is_no_fire() {
        check(
            &RULE,
            "
drink: A
  60 ml rum
  - stir with ice, strain
  - flame an orange zest over the drink
  garnish: flamed orange zest
drink: B
  60 ml mezcal
  - stir with ice, strain
  - flame the peel over the mezcal
drink: C
  60 ml rum
  - light a rosemary sprig, drop it in
  garnish: orange twist
drink: D
  60 ml rum
  - stir with ice, strain
  - flame
  garnish: orange peel
drink: E
  60 ml rum
  - smoke the glass with cherry wood
  - stir with ice, strain
",
        );
    }

    #[test]
    fn nothing_strong_nothing_burns() {
        check(
            &RULE,
            "
drink: A
  60 ml apple juice
  - light the candle
drink: B
  60 ml apple juice
  - flame the surface
",
        );
    }
}
