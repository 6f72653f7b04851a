//! A workspace that is edited is told the same as one that is read afresh.

#![cfg(test)]

use std::collections::{BTreeMap, BTreeSet};
use std::sync::Arc;

use washline_book::{Known, Settings, Workspace, read_settings};
use washline_rules::{Check, Checked, Rule, all, check};
use washline_text::{FileId, Finding};

/// Numbers that look random and are the same in every run (Knuth, MMIX).
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: usize) -> usize {
        self.0 =
            self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        (self.0 >> 33) as usize % sides
    }

    fn one<'a>(&mut self, of: &[&'a str]) -> &'a str {
        of[self.roll(of.len())]
    }
}

const LINES: &[&str] = &[
    "drink: Lantern Row",
    "drink: Quarry Lane",
    "drink: Crème du Quai",
    "drink:",
    "prep: Quarry Cordial",
    "prep: Lantern Batch",
    "prep: sirop d'été",
    "prep: gin",
    "stock: Harbour Gin",
    "stock: Quarry Cup",
    "book: Winter",
    "book: Sømmer",
    "section: Long",
    "market: uk",
    "units: oz",
    "note: contains raw egg",
    "  kind: gin",
    "  kind: lime cordial",
    "  abv: 41 %",
    "  also: quarry cordial, Quai",
    "  also: gin",
    "  family: sour",
    "  family: sourr",
    "  glass: coupe, chilled",
    "  contains: none",
    "  contains: milk",
    "  status: retired",
    "  status: draft",
    "  variant-of: Quarry Lane",
    "  variant of: Lantern Rowe",
    "  waive: too-tart because the house likes it",
    "  waive: no-glass",
    "  yield: 700 ml",
    "  60 ml gin",
    "  60 ml Harbour Gin",
    "  2 oz gin",
    "  22.5 ml lemon juice",
    "  22.5 ml sugar syrup",
    "  22.5 ml sugar syrup, 2:1",
    "  15 ml Quarry Cordial",
    "  15 ml quarry cordials",
    "  30 ml Lantern Batch",
    "  10 ml sirop d'été",
    "  20 ml Quarry Cup",
    "  20 ml Quarry Cupp",
    "  1 egg white",
    "  30 ml cream",
    "  500 g sugar",
    "  500 ml water",
    "  top soda",
    "  60 ml quince 🍋 thing",
    "  1 splosh gin",
    "  - shake with ice for 12 s, double strain",
    "  - stir with ice for 20 s, strain",
    "  - simmer for 5 min",
    "  garnish: lemon twist",
    "  garnish: sirop d'été",
    "  # a word",
    "section: Stirred",
    "section: Shaken",
    "  cost: 20 GBP",
    "  cost: 24 EUR",
    "  price: 12 GBP",
    "  price: 14 EUR",
    "  glass: coupe 160 ml",
    "  glass: coupe 190 ml",
    "  keeps: 2 weeks chilled",
    "  garnish: dehydrated lime wheel",
    "prep: Dehydrated Limes\n  4 lime",
    "drink: Slate Ferry\n  60 ml gin\n  22.5 ml lemon juice\n  - shake with ice, strain\nsection: Long",
    "drink: Copper Heron\n  22.5 ml lemon juice\n  60 ml gin\n  - shake with ice, strain\nsection: Long",
    "drink: Lamp Quay\n  contains: none\n  45 ml amaretto\n  22.5 ml lemon juice\n  - shake with ice, strain\nsection: Long",
    "drink: Slip Row\n  glass: coupe 210 ml\n  2 oz gin\nsection: Long",
    "drink: Weir Row\n  glass: coupe 160 ml\n  3 oz rum\nsection: Long",
    "",
    "???",
];

const TOML: &[&str] = &[
    "",
    "ounce = 'us'\n",
    "market = 'us'\ndefault-syrup = '1:1'\n",
    "[rules]\n'too-tart' = 'off'\n'unknown-ingredient' = 'error'\n",
];

fn settings(text: &str) -> Settings {
    let rules: Vec<&str> = all().map(|rule| rule.name).collect();
    let families: Vec<&str> = washline_reference::families().iter().map(|f| f.name).collect();
    let techniques: Vec<&str> = washline_reference::techniques().iter().map(|t| t.name).collect();
    let known = Known { rules: &rules, families: &families, techniques: &techniques };
    read_settings(text, &known).unwrap_or_else(|error| panic!("{text}: {error:?}"))
}

/// Changes a line or two of `text`.
fn changed(text: &str, dice: &mut Dice) -> String {
    let mut lines: Vec<&str> = text.lines().collect();
    for _ in 0..=dice.roll(2) {
        let at = dice.roll(lines.len() + 1);
        match dice.roll(8) {
            0..3 => lines.insert(at, dice.one(LINES)),
            3..5 if at < lines.len() => lines[at] = dice.one(LINES),
            5 if at < lines.len() => {
                lines.remove(at);
            }
            6 if at < lines.len() => {
                let end = (at + 1 + dice.roll(8)).min(lines.len());
                let moved: Vec<&str> = lines.drain(at..end).collect();
                let to = dice.roll(lines.len() + 1);
                lines.splice(to..to, moved);
            }
            _ => {
                let end = (at + dice.roll(10)).min(lines.len());
                let again: Vec<&str> = lines[at.min(end)..end].to_vec();
                lines.extend(again);
            }
        }
    }
    let mut text = lines.join("\n");
    text.push('\n');
    text
}

fn some_text(dice: &mut Dice) -> String {
    let lines: Vec<&str> = (0..20 + dice.roll(40)).map(|_| dice.one(LINES)).collect();
    lines.join("\n")
}

type Files = Vec<(Arc<str>, Arc<str>)>;

fn assert_same(checked: &Checked, files: &Files, toml: &str, step: &str) {
    let fresh = Workspace::new(files.clone(), settings(toml));
    let all = check(&fresh);
    for (n, (name, text)) in (0_u32..).zip(files) {
        let file = FileId(n);
        let expected: Vec<&Finding> = all.iter().filter(|f| f.place.file == file).collect();
        let got = checked.findings_of(file);
        if got.iter().eq(expected.iter().copied()) {
            continue;
        }
        let lost: Vec<_> = expected.iter().filter(|f| !got.contains(f)).collect();
        let more: Vec<_> = got.iter().filter(|f| !expected.contains(f)).collect();
        panic!("{step}, {name}: lost {lost:#?}\nmore {more:#?}\n{text}");
    }
}

/// What a rule that looks beyond one entry found, by its name.
fn beyond(checked: &Checked) -> BTreeMap<&'static str, Vec<String>> {
    let mut found: BTreeMap<&'static str, Vec<String>> =
        all().filter(|rule| looks_beyond(rule)).map(|rule| (rule.name, Vec::new())).collect();
    for finding in checked.findings() {
        found.entry(finding.rule).and_modify(|found| found.push(finding.fingerprint));
    }
    found
}

const fn looks_beyond(rule: &Rule) -> bool {
    matches!(
        rule.check,
        Check::Book(_) | Check::EntryAndBook(..) | Check::File(_) | Check::EntryAndFrame(..)
    )
}

/// Edits files by chance; gives the rules that look beyond one entry and found anything else by it.
fn script(seed: u64, steps: usize) -> BTreeSet<&'static str> {
    let mut dice = Dice(seed);
    let mut files: Files =
        (0..4).map(|n| (Arc::from(format!("{n}.pour")), Arc::from(some_text(&mut dice)))).collect();
    let mut toml = "";
    let mut moved = BTreeSet::new();
    let mut checked = Checked::new(Workspace::new(files.clone(), settings(toml)));
    let mut before = beyond(&checked);
    for step in 0..steps {
        let what = dice.roll(12);
        match what {
            0 => {
                let at = dice.roll(files.len() + 1);
                files.insert(
                    at,
                    (Arc::from(format!("new-{step}.pour")), some_text(&mut dice).into()),
                );
            }
            1 if files.len() > 2 => {
                files.remove(dice.roll(files.len()));
            }
            2 => files.reverse(),
            3 => toml = dice.one(TOML),
            _ => {
                let at = dice.roll(files.len());
                let text: Arc<str> = changed(&files[at].1, &mut dice).into();
                files[at].1 = text.clone();
                checked = checked.edit(FileId(u32::try_from(at).unwrap()), text);
            }
        }
        if what < 4 {
            let revised = checked.workspace().revised(files.clone(), settings(toml));
            checked = checked.next(revised);
        }
        assert_same(&checked, &files, toml, &format!("seed {seed}, step {step} ({what})"));
        let after = beyond(&checked);
        let other = |rule: &&&'static str| before.get(**rule) != after.get(**rule);
        moved.extend(after.keys().filter(other).copied());
        before = after;
    }
    moved
}

#[test]
fn an_edited_workspace_is_told_as_a_fresh_one() {
    let moved: BTreeSet<&str> = (1..=24).flat_map(|seed| script(seed, 40)).collect();
    let still: Vec<&str> = all()
        .filter(|rule| looks_beyond(rule) && !moved.contains(rule.name))
        .map(|rule| rule.name)
        .collect();
    assert!(still.is_empty(), "no edit changed what these find: {still:?}");
}

#[test]
fn what_an_edit_does_not_touch_is_shared() {
    let text = "prep: Cordial\n  100 ml lime juice\n  100 g sugar\n\n\
                drink: A\n  60 ml gin\n  20 ml Cordial\n\ndrink: B\n  60 ml gin\n";
    let files = vec![(Arc::from("a.pour"), Arc::from(text))];
    let before = Workspace::new(files, Settings::default());
    let alike = |text: String| -> Vec<bool> {
        let after = before.edit(FileId(0), text.into());
        let pairs = before.records().iter().zip(after.records());
        pairs.map(|(old, new)| old.id == new.id && old.is_made_alike(new)).collect()
    };
    // What comes out of the prep is the same.
    assert_eq!(alike(text.replace("100 g", "100  g")), [false, true, true]);
    assert_eq!(alike(text.replace("100 g", "120 g")), [false, false, true]);
    assert_eq!(alike(text.replace("drink: A\n  60", "drink: A\n  45")), [true, false, true]);
    assert_eq!(alike(format!("# above\n{text}")), [true, true, true]);
    assert_eq!(alike(format!("{text}\nstock: gin\n  kind: gin\n")), [true, false, false]);
}
