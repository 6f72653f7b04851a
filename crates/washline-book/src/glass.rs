//! The glass: what it holds, what the ice leaves of it, how full it is.

use washline_measure::{Estimate, Interval, Ounce, UnitKind};
use washline_reference as reference;
use washline_reference::{Glass, Trait};
use washline_syntax::{Entry, Ice, Key, LineKind, Technique, Value};
use washline_text::fold;

use crate::{Method, Read, Settings};

/// The glass of an entry and its capacity at the brim, ml.
pub(crate) fn of(entry: &Entry, settings: &Settings) -> Option<(&'static Glass, f64)> {
    let field = entry.lines.iter().find_map(|line| match &line.what {
        LineKind::Field(field) if field.key == Some(Key::Glass) => Some(field),
        _ => None,
    })?;
    let Value::Vessel { name, capacity, .. } = &field.value else { return None };
    let key = fold(name.text(&entry.text));
    let glass = find(&key)?;
    let stated = capacity.as_ref().and_then(|measure| {
        let unit = measure.unit?;
        let volume = matches!(unit.kind(), UnitKind::Metric | UnitKind::Customary);
        let ml = unit.ml(settings.ounce).filter(|_| volume)?;
        Some(measure.quantity.middle().to_f64() * ml.to_f64())
    });
    let house = || {
        let named = settings.glasses.get(&key);
        named.or_else(|| settings.glasses.get(&fold(glass.name))).copied()
    };
    Some((glass, stated.or_else(house).unwrap_or(glass.brim.value)))
}

/// The glass that folded words name, words about its size or state taken off the front.
pub(crate) fn find(key: &str) -> Option<&'static Glass> {
    let mut rest = key;
    loop {
        if let Some(glass) = reference::glass(rest) {
            return Some(glass);
        }
        if let Some(glass) = reference::glass(&format!("{rest} glass")) {
            return Some(glass);
        }
        let short = rest.strip_suffix(" glass").or_else(|| rest.strip_suffix(" glasses"));
        if let Some(glass) = short.and_then(reference::glass) {
            return Some(glass);
        }
        rest = rest.split_once(' ')?.1;
    }
}

/// The ice that a drink is served on.
pub(crate) fn served_on(entry: &Entry, method: &Method) -> Option<Ice> {
    let mut serve = None;
    for line in &entry.lines {
        let LineKind::Field(field) = &line.what else { continue };
        let word = fold(field.value_span.text(&entry.text));
        match field.key {
            Some(Key::Ice) => return named(&word),
            Some(Key::Serve) => serve = Some(word),
            _ => {}
        }
    }
    if serve.as_deref().is_some_and(|s| matches!(s, "up" | "down" | "neat" | "hot" | "bottled")) {
        return None;
    }
    // The last act that names ice and is not the shake or stir before a strain.
    let strained = method.position(crate::method::LEAVES_THE_VESSEL);
    let mut with_ice = method.acts.iter().enumerate().filter_map(|(at, act)| {
        let (ice, _) = act.act.ice?;
        let after = strained.is_none_or(|strained| at >= strained);
        let fills = matches!(
            act.act.technique,
            Some(Technique::Fill | Technique::Top | Technique::Add | Technique::Pour)
        );
        (after || fills).then_some(ice)
    });
    let found = with_ice.next_back();
    if found.is_none()
        && strained.is_none()
        && method.has(&[Technique::Build, Technique::Swizzle, Technique::Churn])
    {
        let crushed = method.has(&[Technique::Swizzle, Technique::Churn]);
        return Some(if crushed { Ice::Crushed } else { Ice::Plain });
    }
    found.or(match serve.as_deref() {
        Some("rocks" | "long") => Some(Ice::Plain),
        _ => None,
    })
}

fn named(word: &str) -> Option<Ice> {
    const WORDS: &[(&str, Ice)] = &[
        ("large cube", Ice::LargeCube),
        ("big cube", Ice::LargeCube),
        ("large", Ice::LargeCube),
        ("sphere", Ice::Sphere),
        ("spear", Ice::Spear),
        ("block", Ice::Block),
        ("cracked", Ice::Cracked),
        ("crushed", Ice::Crushed),
        ("pebble", Ice::Pebble),
        ("shaved", Ice::Shaved),
        ("dry ice", Ice::Dry),
        ("cube", Ice::Cubed),
    ];
    if word.starts_with("none") || word.starts_with("no ") {
        return None;
    }
    let known = WORDS.iter().find(|(name, _)| word.contains(name));
    Some(known.map_or(Ice::Plain, |(_, ice)| *ice))
}

/// What the glass holds up to its wash line once the ice is in, ml.
pub(crate) fn usable(glass: &Glass, brim: f64, ice: Option<Ice>) -> Estimate {
    let wash = brim * glass.wash_line.value;
    let Some(ice) = ice else {
        return Estimate { value: wash, u: 0.02 * wash };
    };
    let name = match ice {
        Ice::Plain | Ice::Cubed => "cubed",
        Ice::LargeCube => "large cube",
        Ice::Sphere => "sphere",
        Ice::Spear => "spear",
        Ice::Block => "block",
        Ice::Cracked => "cracked",
        Ice::Crushed => "crushed",
        Ice::Pebble => "pebble",
        Ice::Shaved => "shaved",
        Ice::Dry => return Estimate { value: wash, u: 0.1 * wash },
    };
    let Some(known) = reference::ice(name) else {
        return Estimate { value: 0.5 * wash, u: 0.1 * wash };
    };
    if let Some(piece) = known.piece_ml.filter(|_| known.leaves.is_none()) {
        let one = piece.estimate();
        return Estimate { value: (wash - one.value).max(0.2 * wash), u: one.u.max(0.05 * wash) };
    }
    let share = known.leaves.map_or(Estimate { value: 0.5, u: 0.05 }, |leaves| leaves.estimate());
    // How tightly a glass is packed is each hand's own: widen by a tenth. Common practice, no source.
    Estimate { value: share.value * brim, u: share.u.hypot(0.05) * brim }
}

/// What stays on ice and tin, ml: 5 ± 2 shaken or stirred, 2 for an open pour. Common practice, no source.
pub(crate) fn stays(method: &Method) -> Estimate {
    if method.has(&[Technique::OpenPour, Technique::Dump]) {
        return Estimate::exact(2.0);
    }
    let strained = method.has(&[Technique::Strain, Technique::DoubleStrain, Technique::FineStrain]);
    if strained { Estimate { value: 5.0, u: 1.0 } } else { Estimate::exact(0.0) }
}

/// What foam adds, ml: 15 to 40 of an egg white, 30 to 60 of a fizz. Common practice, no source.
pub(crate) fn foam(reads: &[Read], method: &Method) -> Estimate {
    let shakes = [
        Technique::Shake,
        Technique::HardShake,
        Technique::DryShake,
        Technique::ReverseDryShake,
        Technique::Blend,
        Technique::FlashBlend,
    ];
    let foams = reads.iter().any(|read| read.counted && read.is(Trait::Foams));
    if !foams || !method.has(&shakes) {
        return Estimate::exact(0.0);
    }
    let fizz = reads.iter().any(|read| read.counted && read.is(Trait::Carbonated));
    if fizz { Estimate::of_range(45.0, 30.0, 60.0) } else { Estimate::of_range(27.5, 15.0, 40.0) }
}

/// How full the glass is to its wash line, per cent.
pub(crate) fn fill(
    drink: Interval,
    reads: &[Read],
    method: &Method,
    usable: Estimate,
) -> Option<Interval> {
    if usable.value <= 0.0 {
        return None;
    }
    let own = Estimate { value: drink.value, u: (drink.high - drink.low) / 4.0 };
    let stays = stays(method);
    let foam = foam(reads, method);
    let there = Estimate {
        value: (own.value - stays.value + foam.value).max(0.0),
        u: own.u.hypot(stays.u).hypot(foam.u),
    };
    let share = there.value / usable.value;
    let relative = |e: Estimate| if e.value > 0.0 { e.u / e.value } else { 0.0 };
    let u = 100.0 * share * relative(there).hypot(relative(usable));
    Some(Estimate { value: 100.0 * share, u }.interval(0.0, f64::MAX))
}

/// Millilitres of a measure of volume; none of another.
pub(crate) fn millilitres(measure: &washline_measure::Measure, ounce: Ounce) -> Option<f64> {
    let ml = measure.unit?.ml(ounce)?;
    Some(measure.quantity.middle().to_f64() * ml.to_f64())
}
