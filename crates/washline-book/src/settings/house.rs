//! What the house says at the top: its markets, its ounce, its second unit, its syrup.

use washline_measure::{Ounce, Unit};
use washline_reference::Market;
use washline_text::fold;

use super::amount::{self, leading};
use super::keys::is_fixed;
use super::reader::{Entry, Reader};
use super::value::{self, Item, Read, error, one_or_many, refuse, span, within};
use super::words::did_you_mean;

/// The markets by their words.
pub(super) const MARKETS: [&str; 5] =
    [Market::Eu.id(), Market::Uk.id(), Market::Us.id(), Market::Ca.id(), Market::AuNz.id()];

/// Parts of sugar to one of water: from a light syrup to one that can't be dissolved.
pub(super) const SYRUPS: (f64, f64) = (0.25, 3.0);

const MARKET: &str = "write one or more of \"eu\", \"uk\", \"us\", \"ca\", \"au-nz\"";
const OUNCE: &str = "write \"us\", \"imperial\" or \"30 ml\"";
const SECOND: &str = "write `second-unit = \"oz\"`, or another unit of fixed size";
const SYRUP: &str = "write `default-syrup = \"1:1\"`, sugar first";

/// `market = "eu"`, `market = ["uk", "eu"]`
pub(super) fn market(reader: &mut Reader, entry: Entry) -> Read<()> {
    reader.settings.markets = markets(reader, entry.value);
    reader.say("market".to_owned(), entry.value);
    Ok(())
}

/// The markets of a word or a list of words, each once.
pub(super) fn markets(reader: &mut Reader, item: &Item) -> Vec<Market> {
    let mut markets = Vec::new();
    for item in one_or_many(item) {
        if let Some(market) = reader.take(one_market(item))
            && !markets.contains(&market)
        {
            markets.push(market);
        }
    }
    markets
}

fn one_market(item: &Item) -> Read<Market> {
    let written = value::text(item, MARKET)?;
    if let Some(market) = called(&fold(written)) {
        let help = format!("write \"{}\"", market.id());
        return refuse(item, format!("`{written}` is no market"), help);
    }
    let choices = Market::ALL.map(|market| (market.id(), market));
    value::choice(item, "market", &choices, MARKET)
}

/// The market of a country that is called otherwise here, or stands for its market.
fn called(folded: &str) -> Option<Market> {
    Some(match folded {
        "europe" | "european union" => Market::Eu,
        "gb" | "britain" | "great britain" | "united kingdom" => Market::Uk,
        "usa" | "united states" => Market::Us,
        "canada" => Market::Ca,
        "au" | "nz" | "australia" | "new zealand" | "anz" => Market::AuNz,
        _ => return None,
    })
}

/// `ounce = "us"`, `"imperial"`, `30`, `"30 ml"`
pub(super) fn ounce(reader: &mut Reader, entry: Entry) -> Read<()> {
    reader.settings.ounce = which_ounce(entry.value)?;
    reader.settings.ounce_said = true;
    reader.say("ounce".to_owned(), entry.value);
    Ok(())
}

fn which_ounce(item: &Item) -> Read<Ounce> {
    let words = item.get_ref().as_str();
    if !value::is_number(item) && words.is_none_or(|words| leading(words).is_none()) {
        let choices = [("us", Ounce::Us), ("imperial", Ounce::Imperial), ("30 ml", Ounce::Thirty)];
        return value::choice(item, "ounce", &choices, OUNCE);
    }
    let ml = amount::volume(item, Ounce::Us, OUNCE)?;
    let help = match ml {
        30.0 => return Ok(Ounce::Thirty),
        _ if (29.5..29.7).contains(&ml) => "did you mean \"us\", 29.5735 ml?",
        _ if (28.3..28.5).contains(&ml) => "did you mean \"imperial\", 28.4131 ml?",
        _ => OUNCE,
    };
    refuse(item, format!("no ounce is {ml} ml"), help)
}

/// `second-unit = "oz"`
pub(super) fn second_unit(reader: &mut Reader, entry: Entry) -> Read<()> {
    let written = value::text(entry.value, SECOND)?;
    let unit = Unit::from_words(&fold(written));
    let Some(unit) = unit.filter(|unit| is_fixed(*unit)) else {
        let message = match unit {
            Some(unit) => format!("a {} has no fixed size", unit.name()),
            None => format!("`{written}` is no unit"),
        };
        return refuse(entry.value, message, did_you_mean(written, amount::volumes(), SECOND));
    };
    reader.settings.second_unit = Some(unit);
    reader.say("second-unit".to_owned(), entry.value);
    Ok(())
}

/// `default-syrup = "2:1"`, `1.5`
pub(super) fn default_syrup(reader: &mut Reader, entry: Entry) -> Read<()> {
    let item = entry.value;
    let parts = match item.get_ref().as_str() {
        Some(words) => proportion(words)
            .ok_or_else(|| error(span(item), format!("`{words}` is no proportion"), SYRUP))?,
        None => value::number(item, SYRUP)?,
    };
    within(item, parts, SYRUPS.0..=SYRUPS.1, "parts of sugar to one of water", SYRUP)?;
    reader.settings.default_syrup = Some(parts);
    reader.say("default-syrup".to_owned(), item);
    Ok(())
}

/// `3:2` as 1.5.
fn proportion(words: &str) -> Option<f64> {
    let (sugar, water) = words.split_once(':')?;
    let alone = |part| leading(part).filter(|(_, rest)| rest.is_empty()).map(|(number, _)| number);
    let (sugar, water) = (alone(sugar)?, alone(water)?);
    (water > 0.0).then_some(sugar / water)
}

#[cfg(test)]
mod tests {
    use super::super::checks::{right, wrong};
    use super::*;

    #[test]
    fn markets_stand_alone_or_in_a_list() {
        assert_eq!(right("market = 'EU'").markets, [Market::Eu]);
        let list = "market = ['au-nz', 'uk', 'AU NZ']";
        assert_eq!(right(list).markets, [Market::AuNz, Market::Uk]);
        assert_eq!(right("market = []").markets, []);
    }

    #[test]
    fn every_ounce_is_said() {
        for (written, ounce) in [
            ("'us'", Ounce::Us),
            ("'Imperial'", Ounce::Imperial),
            ("30", Ounce::Thirty),
            ("30.0", Ounce::Thirty),
            ("'30 ml'", Ounce::Thirty),
            ("'3 cl'", Ounce::Thirty),
        ] {
            let settings = right(&format!("ounce = {written}"));
            assert_eq!((settings.ounce, settings.ounce_said), (ounce, true), "{written}");
        }
        assert!(!right("").ounce_said);
    }

    #[test]
    fn second_units_and_syrups() {
        assert_eq!(right("second-unit = 'fl oz'").second_unit, Some(Unit::Oz));
        for (written, parts) in [("'1:1'", 1.0), ("'2:1'", 2.0), ("'3:2'", 1.5), ("1.5", 1.5)] {
            let settings = right(&format!("default-syrup = {written}"));
            assert_eq!(settings.default_syrup, Some(parts), "{written}");
        }
    }

    #[test]
    fn wrong_words_point_at_themselves() {
        wrong("market = 'ue'", &[("'ue'", "`ue` is no market", "write one or more of")]);
        wrong(
            "market = ['eu', 'nz', 3]",
            &[
                ("'nz'", "`nz` is no market", "write \"au-nz\""),
                ("3", "a number stands where words in quotes should", "write one or more"),
            ],
        );
        wrong("ounce = 'impirial'", &[("'impirial'", "`impirial` is no ounce", "`imperial`")]);
        wrong("ounce = 29.57", &[("29.57", "no ounce is 29.57 ml", "did you mean \"us\"")]);
        wrong("ounce = '28.4 ml'", &[("'28.4 ml'", "no ounce is 28.4 ml", "\"imperial\"")]);
        wrong("ounce = 25", &[("25", "no ounce is 25 ml", "write \"us\"")]);
        wrong(
            "ounce = true",
            &[("true", "true or false stands where words in quotes should", "write \"us\"")],
        );
        wrong("second-unit = 'ozz'", &[("'ozz'", "`ozz` is no unit", "did you mean `oz`?")]);
        wrong("second-unit = 'dash'", &[("'dash'", "a dash has no fixed size", "second-unit")]);
        wrong("default-syrup = 'rich'", &[("'rich'", "`rich` is no proportion", "\"1:1\"")]);
        wrong("default-syrup = '1:0'", &[("'1:0'", "`1:0` is no proportion", "\"1:1\"")]);
        wrong(
            "default-syrup = 65",
            &[(
                "65",
                "65 parts of sugar to one of water is not between 0.25 and 3 parts of sugar to one of water",
                "sugar first",
            )],
        );
        wrong(
            "default-syrup = []",
            &[("[]", "a list stands where a number should", "sugar first")],
        );
    }
}
