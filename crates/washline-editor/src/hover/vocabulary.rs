//! Words of the notation and of the trade: keys, techniques, glasses, ice, families,
//! allergens, rules.

use std::fmt::Write;

use washline_book::{Bands, Families, Family, Figure, Settings};
use washline_measure::{number, spread};
use washline_reference as reference;
use washline_reference::{Allergen, Datum, Dilution, Glass, Ice};
use washline_rules::Rule;
use washline_syntax::{Key, Technique};
use washline_text::fold;

/// What a key says, and of which entries.
pub(super) fn key(key: Key) -> String {
    format!("**{}**: {}", key.word(), key.doc())
}

/// How a technique waters and cools.
pub(super) fn technique(technique: Technique) -> String {
    let word = technique.word();
    let Some(known) = reference::technique(&fold(word)) else {
        return format!("**{word}**: brings no water.");
    };
    let share = |datum: Datum| {
        let range = spread(100.0 * datum.low, 100.0 * datum.high);
        format!("{} % of the pour ({range})", number(100.0 * datum.value))
    };
    let water = match (known.dilution, known.share) {
        (Dilution::None, _) => "brings no water".to_owned(),
        (Dilution::Stir, _) => "brings water by the published formula of a stirred drink: the stronger the pour, the more".to_owned(),
        (Dilution::Shake, _) => "brings water by the published formula of a shaken drink: the stronger the pour, the more".to_owned(),
        (Dilution::Share, Some(datum)) => format!("brings water: {}", share(datum)),
        (Dilution::IceInLine, Some(datum)) => {
            format!("brings the water of the ice that is weighed in; where none is, {}", share(datum))
        }
        (Dilution::Share | Dilution::IceInLine, None) => "brings the water of its ice".to_owned(),
    };
    let ice = if known.needs_ice { "; done with ice" } else { "" };
    let cold = if known.chills { "; leaves the drink colder" } else { "" };
    format!("**{word}**: {water}{ice}{cold}.")
}

/// What a glass holds, in this house.
pub(super) fn glass(glass: &Glass, settings: &Settings) -> String {
    let house = settings.glasses.get(&fold(glass.name)).copied();
    let mut out = format!("**{}**: ", glass.name);
    let brim = match house {
        Some(ml) => {
            let _ = write!(out, "{} ml to the brim, as the house says", number(ml));
            ml
        }
        None => {
            let range = spread(glass.brim.low, glass.brim.high);
            let _ = write!(out, "{} ml to the brim ({range})", number(glass.brim.value));
            glass.brim.value
        }
    };
    let _ = write!(out, "; {} ml to the wash line", number(brim * glass.wash_line.value));
    if glass.stemmed {
        out.push_str("; on a stem");
    }
    out
}

/// What a kind of ice is and takes up.
pub(super) fn ice(ice: &Ice) -> String {
    let mut out = format!("**{}**, ice", ice.name);
    if let (Some(piece), Some(across)) = (ice.piece_ml, ice.across_cm) {
        let _ = write!(
            out,
            "; one piece of {} cm takes up {} ml",
            number(across.value),
            number(piece.value)
        );
    }
    if let Some(leaves) = ice.leaves {
        let _ = write!(
            out,
            "; a packed glass has {} % left for the drink",
            number(100.0 * leaves.value)
        );
    }
    if let Some(water) = ice.clinging {
        let _ = write!(out, "; water on it: {} % of its mass", number(100.0 * water.value));
    }
    if ice.name == "dry ice" {
        out.push_str(". A cryogen: never in the mouth, never in a sealed vessel, never in a room without air; local codes and licensed practice decide.");
    }
    out
}

/// The reference's name for a kind of ice.
pub(super) const fn ice_word(ice: washline_syntax::Ice) -> &'static str {
    use washline_syntax::Ice as Kind;
    match ice {
        Kind::Plain | Kind::Cubed => "cubed",
        Kind::LargeCube => "large cube",
        Kind::Sphere => "sphere",
        Kind::Spear => "spear",
        Kind::Block => "block",
        Kind::Cracked => "cracked",
        Kind::Crushed => "crushed",
        Kind::Pebble => "pebble",
        Kind::Shaved => "shaved",
        Kind::Dry => "dry ice",
    }
}

/// A family of drinks and its bands in this house.
pub(super) fn family(name: &str, settings: &Settings) -> Option<String> {
    let like = || settings.family_like.get(name).and_then(|like| reference::family(like));
    let known = reference::family(name).or_else(like);
    if known.is_none() && !settings.families.contains_key(name) {
        return None;
    }
    let mut out = format!("**{name}**");
    if let Some(known) = known {
        let _ = write!(out, ": {}", known.doc);
    }
    let families =
        Families { list: vec![Family { name: name.to_owned(), known }], ..Families::default() };
    let bands = Bands::of(&families, settings);
    for figure in [Figure::Abv, Figure::Sugar, Figure::Acid, Figure::Ratio] {
        if let Some(band) = bands.get(figure) {
            let _ = write!(out, "\n- {}: {} {}", figure.label(), band.words(), figure.unit());
        }
    }
    Some(out)
}

/// What markets call an allergen, and which of them ask for it.
pub(super) fn allergen(allergen: Allergen, settings: &Settings) -> String {
    let mut out = format!("**{allergen}**");
    for market in settings.declared_markets() {
        let words = if market.declares(allergen) {
            format!("to be declared, as “{}”", market.term(allergen))
        } else {
            "not asked for".to_owned()
        };
        let _ = write!(out, "\n- {}: {words}", market.id());
    }
    out.push_str("\n\nRead every label; local law says what must be declared.");
    out
}

/// Why a rule exists, a spec that it flags, the spec mended.
pub(super) fn rule(rule: &Rule) -> String {
    let prose = rule.parts();
    let mut out = format!("**{}**: {}\n\n{}", rule.name, rule.why, prose.why);
    for (heading, specs) in [("Flagged", &prose.flagged), ("Mended", &prose.mended)] {
        if let Some(spec) = specs.first() {
            let _ = write!(out, "\n\n{heading}:\n```pour\n{}```", spec);
        }
    }
    if !prose.source.is_empty() {
        let _ = write!(out, "\n\n{}", prose.source);
    }
    out
}
