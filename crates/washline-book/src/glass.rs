//! The glass: what it holds, what the ice leaves of it, how full it is.

use washline_measure::{Estimate, Interval, Ounce, UnitKind};
use washline_reference as reference;
use washline_reference::{Glass, Trait};
use washline_syntax::{Entry, Ice, Key, LineKind, Technique, Value};
use washline_text::{Span, fold};

use crate::method::{is_mix, is_shaken};
use crate::{ActRead, Goes, Melt, Method, Read, Settings};

/// A small glass has no room for ice, ml to the brim. Common practice, no source.
pub(crate) const ROOM_FOR_ICE_ML: f64 = 225.0;

/// The glass of an entry.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Held {
    /// Which.
    pub known: &'static Glass,
    /// What it holds to the brim, ml: exact where the card or the house says it.
    pub brim: Estimate,
}

/// The glass of an entry and its capacity at the brim.
pub(crate) fn of(entry: &Entry, settings: &Settings) -> Option<Held> {
    let field = entry.lines.iter().find_map(|line| match &line.what {
        LineKind::Field(field) if field.key == Some(Key::Glass) => Some(field),
        _ => None,
    })?;
    let Value::Vessel { name, capacity, words } = &field.value else { return None };
    let key = fold(name.text(&entry.text));
    // A word about the glass may be part of its name: `small tulip`.
    let before = words.iter().filter(|word| word.end <= name.start);
    let longer = before.map(|word| fold(Span::new(word.start, name.end).text(&entry.text)));
    let known = longer.filter_map(|key| reference::glass(&key)).next().or_else(|| find(&key))?;
    let stated = capacity.as_ref().and_then(|measure| {
        let unit = measure.unit?;
        let volume = matches!(unit.kind(), UnitKind::Metric | UnitKind::Customary);
        let ml = unit.ml(settings.ounce).filter(|_| volume)?;
        Some(measure.quantity.middle().to_f64() * ml.to_f64())
    });
    let house = || {
        let named = settings.glasses.get(&key);
        named.or_else(|| settings.glasses.get(&fold(known.name))).copied()
    };
    let said = stated.or_else(house).map(Estimate::exact);
    Some(Held { known, brim: said.unwrap_or_else(|| known.brim.estimate()) })
}

/// The glass that folded words name, words about its size or state taken off the front.
#[must_use]
pub fn find(key: &str) -> Option<&'static Glass> {
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

/// The ice that a drink is served on: as `ice:` says, else as its steps and `serve:` do.
pub(crate) fn served_on(entry: &Entry, method: &Method) -> Option<Ice> {
    let mut serve = None;
    let mut ice = None;
    for line in &entry.lines {
        let LineKind::Field(field) = &line.what else { continue };
        let word = fold(field.value_span.text(&entry.text));
        match field.key {
            Some(Key::Ice) => ice = Some(named(&word)),
            Some(Key::Serve) => serve = Some(word),
            _ => {}
        }
    }
    if let Some(said) = ice {
        // The block stays in the bowl: none of it goes into a cup.
        let in_the_bowl = said == Some(Ice::Block) && serve.as_deref() == Some("bowl");
        return said.filter(|_| !in_the_bowl);
    }
    match serve.as_deref() {
        Some("up" | "down" | "neat" | "hot" | "bottled" | "draught") => None,
        Some("rocks" | "long") => method.served_over(&entry.text).or(Some(Ice::Plain)),
        _ => method.served_over(&entry.text),
    }
}

impl Method {
    /// The ice that the steps serve the drink on.
    #[must_use]
    pub fn served_over(&self, text: &str) -> Option<Ice> {
        let over = |(at, act): (usize, &ActRead)| {
            let words = || fold(act.act.object.text(text));
            let ice = act.act.ice.map(|(ice, _)| ice);
            match act.act.technique? {
                Technique::Strain | Technique::DoubleStrain | Technique::FineStrain => {
                    if act.goes == Goes::Vessel { None } else { ice.or_else(|| filled(&words())) }
                }
                Technique::OpenPour | Technique::Dump | Technique::Pour | Technique::Serve => ice,
                Technique::Fill if act.goes == Goes::Vessel => None,
                // A crown of ice lies above the rim.
                Technique::Fill => ice.filter(|_| !is_crown(&words())),
                Technique::Add | Technique::Combine if act.goes == Goes::Glass => ice,
                // What is added before a shake or a stir stays behind in the tin.
                Technique::Add | Technique::Combine => {
                    ice.filter(|_| !self.leaves_after(at) && !is_crown(&words()))
                }
                technique if is_mix(technique) && !is_shaken(technique) => {
                    ice.filter(|_| !self.leaves_after(at))
                }
                _ => None,
            }
        };
        let found = self.acts.iter().enumerate().rev().find_map(over);
        found.or_else(|| {
            let last = self.mixes.iter().rev().find_map(|mix| match mix.melt {
                Melt::Share("build" | "long build") => Some((Ice::Plain, mix.act)),
                Melt::Share("swizzle" | "churn") => Some((Ice::Crushed, mix.act)),
                _ => None,
            });
            last.filter(|(_, act)| !self.leaves_after(*act)).map(|(ice, _)| ice)
        })
    }
}

/// How steps speak of ice above the rim.
const CROWNS: &[&str] = &["crown", "cone of", "mound"];

fn is_crown(words: &str) -> bool {
    CROWNS.iter().any(|crown| words.contains(crown))
}

/// `strain into an ice-filled highball`, folded.
fn filled(words: &str) -> Option<Ice> {
    let said = ["ice filled", "filled with ice", "full of ice", "iced glass"];
    if said.iter().any(|said| words.contains(said)) {
        return Some(Ice::Plain);
    }
    let behind = words.split_once("filled with ").map(|(_, behind)| behind)?;
    behind.contains("ice").then(|| named(behind)).flatten()
}

/// Whether a folded value of `ice:` says that there is none.
pub(crate) fn is_none(word: &str) -> bool {
    word.starts_with("none") || word.starts_with("no ") || word == "no"
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
    if is_none(word) {
        return None;
    }
    let known = WORDS.iter().find(|(name, _)| word.contains(name));
    Some(known.map_or(Ice::Plain, |(_, ice)| *ice))
}

impl Held {
    /// What it holds up to its wash line once the ice is in, ml.
    pub(crate) fn to_wash_line(self, ice: Option<Ice>) -> Estimate {
        let wash = self.brim.times(self.known.wash_line.value);
        let lined = Estimate { value: wash.value, u: wash.u.hypot(0.02 * wash.value) };
        let Some(ice) = ice else { return lined };
        let Some(known) = of_ice(ice) else {
            return Estimate { value: wash.value, u: wash.u.hypot(0.1 * wash.value) };
        };
        if let Some(piece) = known.piece_ml.filter(|_| known.leaves.is_none()) {
            let one = piece.estimate();
            let left = (wash.value - one.value).max(0.2 * wash.value);
            return Estimate { value: left, u: one.u.hypot(lined.u) };
        }
        let share =
            known.leaves.map_or(Estimate { value: 0.5, u: 0.05 }, |leaves| leaves.estimate());
        // How tightly a glass is packed is each hand's own: widen by a tenth. Common practice, no source.
        let u = share.u.hypot(0.05) * self.brim.value;
        Estimate { value: share.value * self.brim.value, u: u.hypot(share.value * self.brim.u) }
    }

    /// What it holds to the brim once the ice is in, ml. Of ice that is counted out, no more
    /// need be there than two cubes: who pours a long drink takes less.
    fn to_brim(self, ice: Option<Ice>) -> Interval {
        let brim = self.brim.interval(0.0, f64::MAX);
        let Some(ice) = ice else { return brim };
        let wash = self.to_wash_line(Some(ice)).times(1.0 / self.known.wash_line.value);
        let packed = wash.interval(0.0, brim.high);
        if !matches!(ice, Ice::Plain | Ice::Cubed | Ice::Cracked) {
            return packed;
        }
        Interval { high: packed.high.max(brim.high - TWO_CUBES_ML), ..packed }
    }
}

/// Two cubes of 3 cm, ml. Common practice, no source.
const TWO_CUBES_ML: f64 = 54.0;

/// The reference's entry of an ice; none for dry ice, which stays for no drink.
fn of_ice(ice: Ice) -> Option<&'static reference::Ice> {
    reference::ice(match ice {
        Ice::Plain | Ice::Cubed => "cubed",
        Ice::LargeCube => "large cube",
        Ice::Sphere => "sphere",
        Ice::Spear => "spear",
        Ice::Block => "block",
        Ice::Cracked => "cracked",
        Ice::Crushed => "crushed",
        Ice::Pebble => "pebble",
        Ice::Shaved => "shaved",
        Ice::Dry => return None,
    })
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

/// What is in a glass against what it holds, a serve, ml.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// The drink that reaches it, without foam.
    pub liquid: Interval,
    /// The foam above it.
    pub foam: Estimate,
    /// What it holds to its wash line, once the ice is in.
    pub wash_line: Estimate,
    /// What it holds to the brim, once the ice is in.
    pub brim: Interval,
    /// The ice.
    pub ice: Option<Ice>,
}

impl Room {
    /// A drink of `finished` millilitres in `glass` on `ice`.
    pub(crate) fn of(
        finished: Interval,
        reads: &[Read],
        method: &Method,
        glass: &Held,
        ice: Option<Ice>,
    ) -> Self {
        let own = Estimate { value: finished.value, u: (finished.high - finished.low) / 4.0 };
        let stays = stays(method);
        let liquid =
            Estimate { value: (own.value - stays.value).max(0.0), u: own.u.hypot(stays.u) };
        Self {
            liquid: liquid.interval(0.0, f64::MAX),
            foam: foam(reads, method),
            wash_line: glass.to_wash_line(ice),
            brim: glass.to_brim(ice),
            ice,
        }
    }

    /// How full the glass is to its wash line, foam counted, per cent.
    pub(crate) fn fill_percent(&self) -> Option<Interval> {
        if self.wash_line.value <= 0.0 {
            return None;
        }
        let spread = (self.liquid.high - self.liquid.low) / 4.0;
        let there =
            Estimate { value: self.liquid.value + self.foam.value, u: spread.hypot(self.foam.u) };
        let share = there.value / self.wash_line.value;
        let relative = |e: Estimate| if e.value > 0.0 { e.u / e.value } else { 0.0 };
        let u = 100.0 * share * relative(there).hypot(relative(self.wash_line));
        Some(Estimate { value: 100.0 * share, u }.interval(0.0, f64::MAX))
    }
}

/// Millilitres of a measure of volume; none of another.
pub(crate) fn millilitres(measure: &washline_measure::Measure, ounce: Ounce) -> Option<f64> {
    let ml = measure.unit?.ml(ounce)?;
    Some(measure.quantity.middle().to_f64() * ml.to_f64())
}
