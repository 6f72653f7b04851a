//! What a measure comes to in other units.

use washline_book::{Read, Record, Settings};
use washline_measure::{Exact, Measure, Ounce, Unit, number, spread};

use super::goods::shares;

/// The units that a bar reads a volume in.
const READINGS: &[Unit] = &[Unit::Ml, Unit::Oz, Unit::Cl, Unit::Tsp];

/// What a line's amount comes to, and its share of the drink.
pub(super) fn of_line(record: &Record, read: &Read, settings: &Settings) -> Option<String> {
    let mut words = Vec::new();
    if let Some(ml) = read.ml {
        words.push(volume(ml.value, settings));
    }
    if let Some(g) = read.g {
        words.push(format!("{} g", number(g.value)));
    }
    if words.is_empty() {
        return None;
    }
    if let Some(ml) = read.ml {
        let range = ml.interval(0.0, f64::MAX);
        let range = spread(range.low, range.high);
        if !range.is_empty() {
            words.push(format!("19 of 20 pours lie in {range} ml"));
        }
        let all: f64 = record.reads.iter().filter(|read| read.counted).map(Read::volume).sum();
        if read.counted && all > 0.0 {
            words.push(format!("{:.0} % of what is poured", 100.0 * ml.value / all));
        }
    }
    words.extend(shares(record, read));
    Some(words.join("  \n"))
}

/// A measure of volume or mass in other units.
pub(super) fn readings(measure: &Measure, settings: &Settings) -> Option<String> {
    let unit = measure.unit?;
    let amount = measure.quantity.middle().to_f64();
    if let Some(ml) = unit.ml(settings.ounce) {
        return Some(volume(amount * ml.to_f64(), settings));
    }
    let grams = amount * unit.grams()?.to_f64();
    let pounds = Unit::OzWt.grams().map_or(f64::NAN, Exact::to_f64);
    Some(format!("{} g = {} oz wt", number(grams), number(grams / pounds)))
}

/// What a unit is.
pub(super) fn unit(unit: Unit, settings: &Settings) -> String {
    let mut out = format!("**{}**", unit.name());
    if unit.plural() != unit.name() {
        out = format!("{out}, {}", unit.plural());
    }
    let house = settings.bar.get(&unit).map(|(value, low, high)| (*value, spread(*low, *high)));
    let exact = unit.ml(settings.ounce).map(|ml| (ml.to_f64(), String::new()));
    if let Some((ml, range)) = house.or(exact) {
        let range = if range.is_empty() { range } else { format!(" ({range})") };
        return format!("{out}: {} ml{range}, {}", number(ml), ounce(settings.ounce));
    }
    if let Some(grams) = unit.grams() {
        return format!("{out}: {} g", number(grams.to_f64()));
    }
    out
}

fn volume(ml: f64, settings: &Settings) -> String {
    let reading = |unit: &Unit| {
        let one = unit.ml(settings.ounce)?.to_f64();
        Some(format!("{} {}", number(ml / one), unit.name()))
    };
    let all: Vec<String> = READINGS.iter().filter_map(reading).collect();
    format!("{} ({})", all.join(" = "), ounce(settings.ounce))
}

const fn ounce(ounce: Ounce) -> &'static str {
    match ounce {
        Ounce::Us => "US ounce",
        Ounce::Imperial => "imperial ounce",
        Ounce::Thirty => "ounce of 30 ml",
    }
}
