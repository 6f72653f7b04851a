//! Well-formed books made by chance, over every production of the notation.

use proptest::prelude::*;
use proptest::sample::select;

/// A book: entries one after the other, laid out as a hasty hand would.
pub fn book() -> impl Strategy<Value = String> {
    let entry = prop_oneof![6 => drink(), 2 => prep(), 1 => stock()];
    let ends = select(vec!["\n", "\n", "\n", "\r\n"]);
    (prop::collection::vec(entry, 1..4), ends).prop_map(|(entries, end)| {
        let named = entries.iter().enumerate().map(|(n, entry)| entry.replace("NAME", NAMES[n]));
        named.collect::<String>().replace('\n', end)
    })
}

const NAMES: [&str; 3] = ["Slate Ferry", "Quarry  Lane №2", "Lantern Row — Été"];

fn lines(parts: Vec<Vec<String>>) -> String {
    parts.into_iter().flatten().collect()
}

fn drink() -> impl Strategy<Value = String> {
    let field = prop_oneof![
        select(vec!["family:sour", "family : Stirred", "FAMILY: highball", "family: sour, fizz"]),
        select(vec!["glass:  coupe,chilled", "glass: rocks", "Glass: collins 400ml"]),
        select(vec!["contains:none", "contains: egg , milk", "contains: nuts (almond)"]),
        select(vec!["ice: large cube", "serve:up", "serves : 2", "status: draft", "tags: a,b"]),
        select(vec!["note: for the terrace, from May", "menu: bright ; dry", "strength:18 %"]),
    ];
    let parts = (
        prop::collection::vec(noisy(field.prop_map(str::to_owned)), 0..4),
        prop::collection::vec(noisy(ingredient()), 1..7),
        prop::collection::vec(noisy(step()), 0..4),
        prop::option::of(noisy(garnish())),
        blanks(),
    );
    parts.prop_map(|(fields, pours, steps, garnish, blanks)| {
        let fields = distinct(fields);
        let last = garnish.into_iter().collect();
        format!("drink :  NAME\n{}{blanks}", lines(vec![fields, pours, steps, last]))
    })
}

/// A field stands once: of several of one key the first is kept.
fn distinct(fields: Vec<String>) -> Vec<String> {
    let key = |field: &String| {
        let line = field.lines().find(|line| line.contains(':') && !line.trim().starts_with('#'));
        line.and_then(|line| line.split(':').next()).unwrap_or("").trim().to_lowercase()
    };
    let mut seen = Vec::new();
    let fresh = |field: &String| {
        let key = key(field);
        let new = !seen.contains(&key);
        seen.push(key);
        new
    };
    fields.into_iter().filter(fresh).collect()
}

fn prep() -> impl Strategy<Value = String> {
    let weight = select(vec!["500 g sugar", "0.5kg honey", "250g  demerara sugar", "2 g salt"]);
    let wet = select(vec!["500 g water", "1/2 l water", "300ml lemon juice , strained"]);
    let field =
        select(vec!["yields: 800 ml", "keeps:14 days chilled", "yields : 1 l", "also: the syrup"]);
    let parts = (
        noisy(field.prop_map(str::to_owned)),
        noisy(weight.prop_map(str::to_owned)),
        noisy(wet.prop_map(str::to_owned)),
        noisy(select(vec!["- warm to 60 C", "-  blend, strain"]).prop_map(str::to_owned)),
        blanks(),
    );
    parts.prop_map(|(a, b, c, d, e)| format!("Prep: NAME\n{a}{b}{c}{d}{e}"))
}

fn stock() -> impl Strategy<Value = String> {
    let kind = select(vec!["kind: gin", "kind:orange liqueur", "kind : white rum"]);
    let rest = select(vec!["abv:47 %", "abv : 40%", "pack: 700ml\n cost: 24 EUR"]);
    (kind, rest, blanks())
        .prop_map(|(kind, rest, end)| format!("stock: NAME\n{kind}\n {rest}\n{end}"))
}

fn ingredient() -> impl Strategy<Value = String> {
    let unit =
        select(vec!["ml", " ml", "oz", " oz", " cl", " tsp", "  dashes", " bar spoon", " drops"]);
    let number = prop_oneof![
        (1_u32..90).prop_map(|n| n.to_string()),
        select(vec!["22.5", "7.50", "¾", "1½", "1 1/2", "3/4", "0.75", "15-20", "~8", "two", "a"])
            .prop_map(str::to_owned),
    ];
    let second = select(vec!["", "", "(30 ml)", " ( 1oz )", "  (22.50ml)", "(¾ oz) "]);
    let measured =
        (number, unit, second).prop_map(|(n, unit, second)| format!("{n}{unit}{second}"));
    let worded =
        select(vec!["top", "rinse", "2 sprigs", "8 leaves", "1", "juice of 1/2", "float 15 ml"]);
    let amount = prop_oneof![5 => measured, 1 => worded.prop_map(str::to_owned)];
    let said =
        select(vec!["", "", "", ", fresh", " ,  chilled", ", abv 45 %", ", 2:1", ", optional"]);
    (amount, blank(), name(), said)
        .prop_map(|(amount, blank, name, said)| format!("{amount} {blank}{name}{said}"))
}

/// Mostly what the reference knows, sometimes a name in other letters that nobody does.
fn name() -> impl Strategy<Value = String> {
    let known: Vec<&'static str> =
        washline_reference::ingredients().iter().map(|known| known.name).collect();
    let odd =
        select(vec!["crème de cassis", "柚子 juice", "lime   juice", "Żubr  wódka", "🍋 sherbet"]);
    prop_oneof![8 => select(known), 1 => odd].prop_map(str::to_owned)
}

fn step() -> impl Strategy<Value = String> {
    let acts = vec![
        "shake",
        "stir",
        "dry shake",
        "build",
        "muddle",
        "throw",
        "swizzle",
        "strain",
        "double strain",
        "top with soda water",
        "pour",
    ];
    let tails = vec!["", " with ice", " with cubed ice for 12 s", ",  then strain", " hard ; pour"];
    (select(acts), select(tails), blank())
        .prop_map(|(act, tail, blank)| format!("- {blank}{act}{tail}"))
}

fn garnish() -> impl Strategy<Value = String> {
    select(vec!["garnish:lime wheel", "garnish : none", "garnish: lemon twist;1 cherry"])
        .prop_map(str::to_owned)
}

fn blank() -> impl Strategy<Value = &'static str> {
    select(vec!["", "", " ", "   ", "\t"])
}

fn blanks() -> impl Strategy<Value = &'static str> {
    select(vec!["", "\n", "\n\n\n", "# about the next one\n"])
}

/// A line as a hasty hand indents it, with what else may stand around it.
fn noisy(line: impl Strategy<Value = String>) -> impl Strategy<Value = String> {
    let before = select(vec!["", "", "", "", "\n", "  # the sweet\n", "# a line of its own\n\n"]);
    let after = select(vec!["", "", "", " ", " # ours", "  # 柚子 — été", "\t#x"]);
    (before, select(vec!["", " ", "  ", "    ", "\t"]), line, after)
        .prop_map(|(before, indent, line, after)| format!("{before}{indent}{line}{after}\n"))
}
