//! Properties that a piece of text states: strength, sugar, state.

use nom::Parser;
use nom::branch::alt;
use nom::combinator::opt;
use washline_measure::Exact;
use washline_text::Span;

use crate::Property;
use crate::amount::{Read, Refused, number};
use crate::slice::{self, first, gap, is_dash, phrase, skip, taken, walked};

/// Every property that `text` states, in order, with the words that state it.
/// Spans count from the start of `text`.
#[must_use]
pub fn scan(text: &str) -> Vec<(Span, Property)> {
    let mut found = Vec::new();
    let mut rest = text;
    let mut denied = false;
    while let Some(at) = next_token(rest) {
        let stated = if denied { None } else { property(at, text) };
        match stated {
            Some((after, property)) => {
                found.push((Span::of(taken(at, after), text), property));
                rest = after;
            }
            None => rest = over(at),
        }
        let token = taken(at, over(at)).trim_end_matches(is_dash);
        denied = DENIALS.iter().any(|no| no.eq_ignore_ascii_case(token));
    }
    found
}

/// Words that deny what follows: `not pasteurised`, `non-pasteurised`.
const DENIALS: &[&str] = &["not", "non", "un", "never", "no"];

/// States in one word.
pub(crate) const STATES: &[(&str, Property)] = &[
    ("hot", Property::Hot),
    ("chilled", Property::Chilled),
    ("frozen", Property::Frozen),
    ("clarified", Property::Clarified),
    ("pasteurised", Property::Pasteurised),
    ("pasteurized", Property::Pasteurised),
];

/// What the number before `%` is of.
#[derive(Clone, Copy)]
pub(crate) enum Of {
    Alcohol,
    Acid,
    Sugar,
    Fat,
    Salt,
}

/// Words behind `%`.
pub(crate) const OF: &[(&str, Of)] = &[
    ("abv", Of::Alcohol),
    ("alc/vol", Of::Alcohol),
    ("alc./vol", Of::Alcohol),
    ("alcohol by volume", Of::Alcohol),
    ("alcohol", Of::Alcohol),
    ("alc", Of::Alcohol),
    ("vol", Of::Alcohol),
    ("acid", Of::Acid),
    ("acidity", Of::Acid),
    ("sugar", Of::Sugar),
    ("fat", Of::Fat),
    ("milkfat", Of::Fat),
    ("butterfat", Of::Fat),
    ("salt", Of::Salt),
];

fn property<'t>(at: &'t str, text: &str) -> Option<(&'t str, Property)> {
    match first(at)? {
        '0'..='9' | '.' => figure(at).ok(),
        c if c.is_ascii_alphabetic() => word(at, text),
        _ => None,
    }
}

/// `43 % abv`, `100 proof`, `66 brix`, `300 g/l sugar`, `2:1 by volume`.
fn figure(at: &str) -> Read<'_, Property> {
    let (rest, value) = number(at)?;
    let value = value.value;
    alt((
        |rest| percent(rest, value),
        |rest| proof(rest, value),
        |rest| brix(rest, value),
        |rest| a_litre(rest, value),
        |rest| ratio(rest, value),
    ))
    .parse(rest)
}

fn percent(rest: &str, value: Exact) -> Read<'_, Property> {
    let sign = gap(rest).strip_prefix('%').ok_or_else(|| Refused::none(rest))?;
    let Some((of, after)) = slice::one_of(gap(sign), OF) else {
        return Ok((sign, Property::Percent(value)));
    };
    let property = match of {
        Of::Alcohol => Property::Abv(value),
        Of::Acid => Property::Acid(value),
        Of::Sugar => Property::Sugar(value),
        Of::Fat => Property::Fat(value),
        Of::Salt => Property::Salt(value),
    };
    Ok((after, property))
}

/// US proof is twice the per cent by volume (27 CFR 5.1, "proof").
fn proof(rest: &str, value: Exact) -> Read<'_, Property> {
    let body = gap(rest.strip_prefix('-').unwrap_or(rest));
    let after = phrase(body, "proof").ok_or_else(|| Refused::none(rest))?;
    let half = value.over(Exact::whole(2)).ok_or_else(|| Refused::none(rest))?;
    Ok((after, Property::Abv(half)))
}

fn brix(rest: &str, value: Exact) -> Read<'_, Property> {
    let (body, _) = opt(nom::character::complete::char('°')).parse(gap(rest))?;
    let body = gap(body);
    let after = phrase(body, "brix").or_else(|| phrase(body, "bx"));
    after.map(|after| (after, Property::Brix(value))).ok_or_else(|| Refused::none(rest))
}

fn a_litre(rest: &str, value: Exact) -> Read<'_, Property> {
    let body = gap(rest);
    let hundred = ["g/100ml", "g/100 ml"].iter().find_map(|w| phrase(body, w));
    let (after, value) = match hundred {
        Some(after) => (after, Some(value)),
        None => {
            let after = phrase(body, "g/l").ok_or_else(|| Refused::none(rest))?;
            (after, value.over(Exact::whole(10)))
        }
    };
    let value = value.ok_or_else(|| Refused::none(rest))?;
    if let Some(after) = phrase(gap(after), "acid") {
        return Ok((after, Property::Acid(value)));
    }
    let after = phrase(gap(after), "sugar").unwrap_or(after);
    Ok((after, Property::Sugar(value)))
}

/// `2:1`, sugar to water; three numbers are no such ratio.
fn ratio(rest: &str, sugar: Exact) -> Read<'_, Property> {
    let body = rest.strip_prefix(':').ok_or_else(|| Refused::none(rest))?;
    let (after, water) = number(body)?;
    let water = water.value;
    let longer = after.starts_with([':', '.', '/']) || !slice::boundary(after);
    if longer || sugar.is_zero() || water.is_zero() {
        return Err(Refused::none(rest));
    }
    let by = gap(after);
    let volume = ["by volume", "by vol"].iter().find_map(|w| phrase(by, w));
    let weight = ["by weight", "by mass"].iter().find_map(|w| phrase(by, w));
    let by_volume = volume.is_some();
    Ok((volume.or(weight).unwrap_or(after), Property::Ratio { sugar, water, by_volume }))
}

fn word<'t>(at: &'t str, text: &str) -> Option<(&'t str, Property)> {
    if let Some((property, after)) = slice::one_of(at, STATES) {
        return Some((after, property));
    }
    let after = phrase(at, "contains")?;
    let stop = gap(after).find([',', ';', '(', ')']).unwrap_or(gap(after).len());
    walked::add(stop);
    let what = gap(after).get(..stop)?.trim_end();
    if what.is_empty() {
        return None;
    }
    let span = Span::of(what, text);
    Some((skip(gap(after), what.len()), Property::Contains(span)))
}

/// Where the next word or number starts; digits inside a word are the word's.
fn next_token(rest: &str) -> Option<&str> {
    let starts = |c: char| c.is_alphanumeric() || c == '.';
    let at = rest.find(starts)?;
    Some(skip(rest, at))
}

/// What follows the word or number at `at`.
fn over(at: &str) -> &str {
    let inside = |c: char| c.is_alphanumeric() || matches!(c, '.' | ',' | ':' | '/' | '\'');
    let numeric = at.starts_with(|c: char| c.is_ascii_digit() || c == '.');
    let stop =
        at.find(|c: char| {
            if numeric { !inside(c) } else { !c.is_alphanumeric() && !matches!(c, '\'' | '.') }
        })
        .unwrap_or(at.len());
    let rest = skip(at, stop.max(1));
    // The words of `sugar-free` are looked at one by one.
    rest.strip_prefix(is_dash).unwrap_or(rest)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn check(text: &str, expected: &str) {
        let found: Vec<String> = scan(text)
            .iter()
            .map(|(span, property)| format!("{}={}", span.text(text), shown(property, text)))
            .collect();
        assert_eq!(found.join("; "), expected, "{text}");
    }

    fn shown(property: &Property, text: &str) -> String {
        match property {
            Property::Abv(x) => format!("abv {x}"),
            Property::Percent(x) => format!("{x} %"),
            Property::Brix(x) => format!("brix {x}"),
            Property::Acid(x) => format!("acid {x}"),
            Property::Sugar(x) => format!("sugar {x}"),
            Property::Fat(x) => format!("fat {x}"),
            Property::Salt(x) => format!("salt {x}"),
            Property::Ratio { sugar, water, by_volume } => {
                format!("{sugar} to {water}{}", if *by_volume { " by volume" } else { "" })
            }
            Property::Contains(span) => format!("contains {}", span.text(text)),
            state => format!("{state:?}"),
        }
    }

    #[test]
    fn figures() {
        check("43 % abv", "43 % abv=abv 43");
        check("rye whiskey 57%", "57%=57 %");
        check("40 % vol rum", "40 % vol=abv 40");
        check("100 proof bourbon", "100 proof=abv 50");
        check("100-proof bourbon", "100-proof=abv 50");
        check("66 brix", "66 brix=brix 66");
        check("66 °Bx", "66 °Bx=brix 66");
        check("66° brix", "66° brix=brix 66");
        check("6 % acid lime", "6 % acid=acid 6");
        check("cream 36 % fat", "36 % fat=fat 36");
        check("20 % salt", "20 % salt=salt 20");
        check("300 g/l sugar", "300 g/l sugar=sugar 30");
        check("30 g/100 ml", "30 g/100 ml=sugar 30");
        check("0 % abv", "0 % abv=abv 0");
        check("22,5 %", "22,5 %=22.5 %");
    }

    #[test]
    fn ratios() {
        check("2:1", "2:1=2 to 1");
        check("sugar syrup 1.5:1 rich", "1.5:1=1.5 to 1");
        check("2:1 by volume", "2:1 by volume=2 to 1 by volume");
        check("2:1 by weight", "2:1 by weight=2 to 1");
        check("1:1:1", "");
        check("2:1ish", "");
        check("0:1", "");
    }

    #[test]
    fn states() {
        check("hot water", "hot=Hot");
        check("espresso, chilled", "chilled=Chilled");
        check("Frozen and clarified", "Frozen=Frozen; clarified=Clarified");
        check("egg white, pasteurized", "pasteurized=Pasteurised");
        check("contains gluten", "contains gluten=contains gluten");
        check("house, contains egg white, hot", "contains egg white=contains egg white; hot=Hot");
    }

    #[test]
    fn what_is_denied_or_part_of_a_word_is_no_property() {
        check("unpasteurised cream", "");
        check("non-pasteurised cream", "");
        check("not pasteurised", "");
        check("hotel bar", "");
        check("151 rum", "");
        check("No. 9", "");
        check("v1.5%x", "");
        check("", "");
    }
}
