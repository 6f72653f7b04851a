//! Lines in one short notation, so that a test can say how each is read.

use washline_syntax::{
    Amount, AmountWord, Document, Entry, Ice, Ingredient, Line, LineKind, Role, Second, Step, Value,
};
use washline_text::Span;

/// The last entry of `text`, which has one.
pub fn entry(text: &str) -> std::sync::Arc<Entry> {
    let document = Document::parse(text);
    std::sync::Arc::clone(&document.entries().last().expect("an entry").entry)
}

/// How `line` is read in an entry that `heading` opens.
pub fn line_of(heading: &str, line: &str) -> String {
    let entry = entry(&format!("{heading}: X\n  {line}\n"));
    let mut all: Vec<String> = entry.lines.iter().skip(1).map(|line| shown(&entry, line)).collect();
    let mut rules: Vec<&str> = entry.problems.iter().map(|problem| problem.rule).collect();
    rules.dedup();
    if !rules.is_empty() {
        all.push(format!("! {}", rules.join(", ")));
    }
    all.join(" ")
}

/// Checks each line of a table `line => how it is read`, all in entries of one kind.
pub fn table(heading: &str, rows: &[(&str, &str)]) {
    let wrong: Vec<String> = rows
        .iter()
        .map(|(text, expected)| (text, expected, line_of(heading, text)))
        .filter(|(_, expected, read)| read != *expected)
        .map(|(text, expected, read)| format!("{text}\n  read     {read}\n  expected {expected}"))
        .collect();
    assert!(wrong.is_empty(), "{} of {} rows:\n{}", wrong.len(), rows.len(), wrong.join("\n"));
}

/// The text of the first line of `text` after the first mend of its first problem.
pub fn mended(heading: &str, text: &str) -> String {
    let whole = format!("{heading}: X\n  {text}\n");
    let entry = entry(&whole);
    let mend = entry.problems.first().and_then(|problem| problem.mends.first());
    let Some(mend) = mend else { return "no mend".to_owned() };
    let after = washline_text::apply(&entry.text, &mend.edits).expect("edits that apply");
    after.lines().skip(1).map(str::trim).collect::<Vec<_>>().join(" / ")
}

fn shown(entry: &Entry, line: &Line) -> String {
    match &line.what {
        LineKind::Blank => "blank".to_owned(),
        LineKind::Comment => "comment".to_owned(),
        LineKind::Heading(heading) => format!("heading {}", text(entry, heading.name)),
        LineKind::Field(field) => {
            let key = field.key.map_or("?", |key| key.word());
            format!("{key}: {}", value(entry, &field.value))
        }
        LineKind::Ingredient(read) => ingredient(entry, read),
        LineKind::Step(read) => step(entry, read),
        LineKind::Unread => "unread".to_owned(),
    }
}

fn text(entry: &Entry, span: Span) -> &str {
    entry.text_of(span)
}

fn ingredient(entry: &Entry, read: &Ingredient) -> String {
    let amount = match &read.amount {
        Amount::Measures(terms) => {
            terms.iter().map(|term| term.measure.to_string()).collect::<Vec<_>>().join(" + ")
        }
        Amount::Word(AmountWord::ToTaste) => "to taste".to_owned(),
        Amount::Word(word) => format!("{word:?}").to_lowercase(),
        Amount::PartOf(part, of) => format!("{part:?} of {}", of.measure).to_lowercase(),
        Amount::Vague(Some(unit)) => format!("few {}", unit.plural()),
        Amount::Vague(None) => "few".to_owned(),
        Amount::Proportion(number) => format!("proportion {number}"),
    };
    let second = |second: Second| format!(" = {}", second.measure);
    let second = read.second.map(second).unwrap_or_default();
    let name = if read.shared.is_empty() {
        text(entry, read.name).to_owned()
    } else {
        let names: Vec<&str> = read.shared.iter().map(|span| text(entry, *span)).collect();
        format!("each of {}", names.join(" | "))
    };
    let said: String =
        read.qualifiers.iter().map(|span| format!(", {}", text(entry, *span))).collect();
    let role = match read.role {
        Role::Poured => String::new(),
        role => format!(" <{role:?}>").to_lowercase(),
    };
    let turned = if read.turned { " turned" } else { "" };
    format!("{amount}{second}: {name}{said}{role}{turned}")
}

fn step(entry: &Entry, read: &Step) -> String {
    let acts = read.acts.iter().map(|act| {
        let mut said = act.technique.map_or_else(
            || format!("?{}", text(entry, act.verb)),
            |technique| technique.word().to_owned(),
        );
        if let Some((ice, _)) = act.ice {
            said += &format!(" ice:{}", ice_name(ice));
        }
        if act.no_ice {
            said += " no-ice";
        }
        if let Some((low, high)) = act.seconds {
            said += &if low < high { format!(" {low}..{high}s") } else { format!(" {low}s") };
        }
        if let Some(celsius) = act.celsius {
            said += &format!(" {}C", (celsius * 10.0).round() / 10.0);
        }
        if let Some(into) = act.into {
            said += &format!(" into:{}", text(entry, into));
        }
        if let Some(until) = act.until {
            said += &format!(" until:{}", text(entry, until));
        }
        if let Some(stated) = act.stated {
            said += &match stated {
                washline_syntax::StatedDilution::To(measure) => format!(" stated:{measure}"),
                washline_syntax::StatedDilution::By(percent) => format!(" stated:{percent}%"),
            };
        }
        said
    });
    acts.collect::<Vec<_>>().join(" / ")
}

fn ice_name(ice: Ice) -> String {
    format!("{ice:?}").to_lowercase()
}

fn value(entry: &Entry, read: &Value) -> String {
    let list = |spans: &[Span]| {
        spans.iter().map(|span| text(entry, *span)).collect::<Vec<_>>().join(" | ")
    };
    match read {
        Value::Bad => "bad".to_owned(),
        Value::Text => "text".to_owned(),
        Value::None => "none".to_owned(),
        Value::Terms(terms) => list(terms),
        Value::Number(number) => number.to_string(),
        Value::Count(count) => count.to_string(),
        Value::Amount(measure, None) => measure.to_string(),
        Value::Amount(measure, Some(second)) => format!("{measure} = {second}"),
        Value::Vessel { name, capacity, words } => {
            let capacity = capacity.map(|measure| format!(" of {measure}")).unwrap_or_default();
            let words = if words.is_empty() { String::new() } else { format!(", {}", list(words)) };
            format!("{}{capacity}{words}", text(entry, *name))
        }
        Value::Pack { count, each } => format!("{count} x {each}"),
        Value::Money { amount, currency } => format!("{amount} {}", text(entry, *currency)),
        Value::Keeps { hours, places } => format!("{hours} h {}", list(places)).trim().to_owned(),
        Value::Garnishes(all) => {
            let each = all.iter().map(|one| {
                let amount = one.amount.map(|amount| format!("{amount}: ")).unwrap_or_default();
                let said: String =
                    one.qualifiers.iter().map(|span| format!(", {}", text(entry, *span))).collect();
                format!("{amount}{}{said}", text(entry, one.name))
            });
            each.collect::<Vec<_>>().join("; ")
        }
        Value::Waive { rules, reason } => {
            let reason = reason.map_or("nothing", |span| text(entry, span));
            format!("{} because {reason}", list(rules))
        }
    }
}
