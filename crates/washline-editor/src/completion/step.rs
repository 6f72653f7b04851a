//! Where within a step the cursor stands: at its verb, or behind the last small word of an act.

use washline_book::Record;
use washline_reference as reference;
use washline_syntax::technique_at_start;
use washline_text::{Span, fold};

use super::site::{Site, behind_a_number};

/// `shake with crushed ice, strain`: the last act alone matters.
pub(super) fn site<'a>(record: Option<&Record>, step: &'a str) -> (Site<'a>, &'a str) {
    let ends = [",", ";", " then ", " and ", " & "];
    let after = |end: &&str| step.rfind(*end).map_or(0, |at| at + end.len());
    let start = ends.iter().map(after).max().unwrap_or(0);
    let act = step.get(start..).unwrap_or_default().trim_start();
    let Some((_, verb)) = technique_at_start(act) else { return (Site::Act, act) };
    let rest = act.get(Span::of(verb, act).end as usize..).unwrap_or_default();
    if !rest.starts_with(char::is_whitespace) {
        return (Site::Act, act);
    }
    let small = ["with", "over", "into", "for", "to", "at", "until"];
    let last = small.iter().filter_map(|word| Some((*word, behind(rest, word)?)));
    let (word, said) = last.min_by_key(|(_, said)| said.len()).unwrap_or(("", rest));
    let number = behind_a_number(said);
    match (word, number) {
        ("for", Some(letters)) => return (Site::Time, letters),
        ("to" | "at", Some(letters)) => return (Site::Degrees, letters),
        _ => {}
    }
    let typed = tail(record, said);
    let fresh = said.len() == typed.len() || is_article(said.get(..said.len() - typed.len()));
    let site = match word {
        "with" if fresh => Site::With,
        "over" if fresh => Site::WithIce,
        "into" if fresh => Site::Glass,
        "until" => Site::Prose,
        "for" | "to" | "at" if fresh => Site::Prose,
        "" => Site::Object,
        _ => Site::Onward,
    };
    (site, typed)
}

/// What stands behind the last `word` of an act, and the blank behind it.
fn behind<'a>(rest: &'a str, word: &str) -> Option<&'a str> {
    rest.rmatch_indices(word).find_map(|(at, _)| {
        let before = rest.get(..at)?;
        let after = rest.get(at + word.len()..)?;
        let alone = before.ends_with(char::is_whitespace) && after.starts_with(char::is_whitespace);
        alone.then(|| after.trim_start())
    })
}

fn is_article(words: Option<&str>) -> bool {
    words.is_some_and(|words| ["a", "the", "an"].contains(&words.trim()))
}

/// The longest tail of `said` that something begins with which may stand there, so that a name
/// of several words is replaced whole; else its last word.
fn tail<'a>(record: Option<&Record>, said: &'a str) -> &'a str {
    let reads = record.map_or(&[][..], |record| &record.reads);
    let names: Vec<String> = reads.iter().map(|read| fold(&read.name)).collect();
    let known = names.iter().map(String::as_str);
    let ices = reference::ice_names().map(|(name, _)| name);
    let glasses = reference::glass_names().map(|(name, _)| name);
    let known: Vec<&str> = known.chain(ices).chain(glasses).collect();
    let starts = said.char_indices().filter(|(at, c)| {
        let before = said.get(..*at).unwrap_or_default();
        !c.is_whitespace() && (before.is_empty() || before.ends_with(char::is_whitespace))
    });
    let tails = starts.filter_map(|(at, _)| said.get(at..));
    let mut begins = tails.filter(|tail| {
        let tail = fold(tail);
        known.iter().any(|name| name.starts_with(&tail))
    });
    let spaced = said.ends_with(char::is_whitespace);
    let last = said.rsplit(char::is_whitespace).next().unwrap_or_default();
    begins.next().filter(|_| !spaced).unwrap_or(last)
}
