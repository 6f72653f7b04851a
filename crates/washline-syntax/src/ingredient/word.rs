//! Amounts in words: `top`, `rinse`, `a few`, a unit with no number.

use washline_measure::Unit;

use super::{Head, role_of_word, skip_of};
use crate::amount::unit;
use crate::slice::{gap, one_of, phrase, taken};
use crate::{Amount, AmountWord, Role, step};

/// Amount words at the start of a line, longest first.
pub(crate) const WORDS: &[(&str, AmountWord)] = &[
    ("to taste", AmountWord::ToTaste),
    ("top up with", AmountWord::Top),
    ("top with", AmountWord::Top),
    ("top up", AmountWord::Top),
    ("top", AmountWord::Top),
    ("fill up with", AmountWord::Fill),
    ("fill with", AmountWord::Fill),
    ("fill up", AmountWord::Fill),
    ("fill", AmountWord::Fill),
    ("rinse", AmountWord::Rinse),
    ("float", AmountWord::Float),
    ("mist", AmountWord::Mist),
    ("rim", AmountWord::Rim),
];

/// Vague amounts, longest first.
pub(crate) const VAGUE: &[(&str, ())] = &[
    ("a few", ()),
    ("few", ()),
    ("some", ()),
    ("several", ()),
    ("a little", ()),
    ("a bit of", ()),
];

/// Units that stand for one of them, and how many there are of it.
pub(crate) const BARE: &[(&str, Unit)] = &[
    ("dash", Unit::Dash),
    ("drop", Unit::Drop),
    ("splash", Unit::Splash),
    ("pinch", Unit::Pinch),
    ("barspoon", Unit::Bsp),
    ("bar spoon", Unit::Bsp),
    ("bsp", Unit::Bsp),
    ("handful", Unit::Handful),
    ("bunch", Unit::Bunch),
    ("sprig", Unit::Sprig),
    ("wedge", Unit::Wedge),
    ("knob", Unit::Knob),
    ("capful", Unit::Capful),
    ("scoop", Unit::Scoop),
];

/// What comes behind a verb in a step, and behind no amount.
pub(crate) const STEP_WORDS: &[&str] =
    &["the", "glass", "a glass", "it", "in", "your", "each", "coupe", "over"];

/// An amount word or a vague amount, and what follows it.
pub(super) fn read(content: &str) -> Option<(Head<'_>, &str)> {
    if let Some((word, rest)) = one_of(content, WORDS) {
        let verb = STEP_WORDS.iter().any(|step| phrase(gap(rest), step).is_some());
        let stops = rest.starts_with(|c: char| !c.is_whitespace() && !matches!(c, '(' | ','));
        if verb || stops {
            return None;
        }
        let text = taken(content, rest);
        return Some((Head { amount: Amount::Word(word), text, role: role_of_word(word) }, rest));
    }
    let ((), rest) = one_of(content, VAGUE)?;
    let (unit, rest) = match unit::at_start(gap(rest)) {
        Some((unit, after)) if !skip_of(after).is_empty() => (Some(unit), after),
        _ => (None, rest),
    };
    let text = taken(content, rest);
    Some((Head { amount: Amount::Vague(unit), text, role: Role::Poured }, rest))
}

/// A unit with no number before it. `drop in the cherry` is a step.
pub(super) fn bare(content: &str) -> Option<(Unit, &str)> {
    let (unit, rest) = one_of(content, BARE)?;
    let verb = STEP_WORDS.iter().chain(&["a"]).any(|step| phrase(gap(rest), step).is_some());
    (!verb || step::at_start(content).is_none()).then_some((unit, rest))
}
