//! `[units]`: the unit that the house writes each kind of thing in.

use washline_measure::{Unit, UnitKind};
use washline_text::fold;

use super::keys::{Holds, Key, names};
use super::reader::{Entry, Reader};
use super::value::{self, Item, Read, refuse};
use super::words::did_you_mean;

/// The table's keys.
pub(super) static KEYS: [Key; 3] = [
    Key {
        name: "liquid",
        what: "the house's unit for liquids",
        why: "`off-house-unit` then finds the line that is in another",
        holds: Holds::Unit(|unit| fits(unit, "liquid")),
        unset: "any unit will do",
        examples: &["\"ml\""],
    },
    Key {
        name: "solid",
        what: "the house's unit for solids",
        why: "sugar by the cup and by the gram are two recipes",
        holds: Holds::Unit(|unit| fits(unit, "solid")),
        unset: "any unit will do",
        examples: &["\"g\""],
    },
    Key {
        name: "small",
        what: "the house's unit for what is less than a measure",
        why: "a spoon at one station is a dash at the next",
        holds: Holds::Unit(|unit| fits(unit, "small")),
        unset: "any unit will do",
        examples: &["\"bsp\""],
    },
];

const HELP: &str = "write `liquid = \"ml\"`, `solid = \"g\"`, `small = \"bsp\"`";

/// `[units]`
pub(super) fn units(reader: &mut Reader, entry: Entry) -> Read<()> {
    let fields = reader.fields(entry.value, "[units]", &names(&KEYS), HELP)?;
    for key in names(&KEYS) {
        let Some(item) = fields.get(key) else { continue };
        if let Some(unit) = reader.take(unit(item, key)) {
            reader.settings.units.insert(key.to_owned(), unit);
            reader.say(format!("units.{key}"), item);
        }
    }
    Ok(())
}

fn unit(item: &Item, key: &str) -> Read<Unit> {
    let written = value::text(item, HELP)?;
    let Some(unit) = Unit::from_words(&fold(written)) else {
        let fitting = Unit::ALL.iter().filter(|unit| fits(**unit, key)).map(|unit| unit.name());
        return refuse(
            item,
            format!("`{written}` is no unit"),
            did_you_mean(written, fitting, HELP),
        );
    };
    if !fits(unit, key) {
        return refuse(item, format!("`{written}` is no unit of what is {key}"), HELP);
    }
    Ok(unit)
}

/// Solids are weighed, or measured in cups and spoons; a small amount may be a dash.
fn fits(unit: Unit, key: &str) -> bool {
    match unit.kind() {
        UnitKind::Metric => key != "solid",
        UnitKind::Customary => true,
        UnitKind::Mass => key == "solid",
        UnitKind::Bar => key == "small",
        UnitKind::Count | UnitKind::Part => false,
    }
}

#[cfg(test)]
mod tests {
    use super::super::checks::{right, wrong};
    use super::*;

    #[test]
    fn each_kind_has_its_unit() {
        let units = right("[units]\nliquid = 'oz'\nsolid = 'gram'\nsmall = 'bar spoon'").units;
        let read: Vec<_> = units.iter().map(|(kind, unit)| (kind.as_str(), *unit)).collect();
        assert_eq!(read, [("liquid", Unit::Oz), ("small", Unit::Bsp), ("solid", Unit::G)]);
    }

    #[test]
    fn wrong_units_point_at_themselves() {
        wrong(
            "[units]\nliquid = 'g'\nsolid = 'grm'\nsmall = 1\nliquids = 'ml'",
            &[
                ("'g'", "`g` is no unit of what is liquid", "liquid = \"ml\""),
                ("'grm'", "`grm` is no unit", "solid = \"g\""),
                ("1", "a number stands where words in quotes should", "small = \"bsp\""),
                ("liquids", "`liquids` is no key of [units]", "did you mean `liquid`?"),
            ],
        );
        wrong("units = 'ml'", &[("'ml'", "words in quotes stand where a table should", "ml")]);
    }
}
