//! `[temperatures]`: how cold the freezer and the fridge are, how warm the back bar.

use super::amount::celsius;
use super::keys::{Dimension, Holds, Key, names};
use super::reader::{Entry, Reader};
use super::value::{Item, Read, refuse, within};

/// The table's keys, coldest first.
pub(super) static KEYS: [Key; 3] = [
    Key {
        name: "freezer",
        what: "how cold the freezer is",
        why: "whether a batch freezes hard in it hangs on a few degrees",
        holds: Holds::Amount(Dimension::Temperature, FREEZER.0, FREEZER.1),
        unset: "-18 °C",
        examples: &["-20", "\"0 F\""],
    },
    Key {
        name: "fridge",
        what: "how cold the fridge is",
        why: "what is served from it is reckoned at that temperature",
        holds: Holds::Amount(Dimension::Temperature, FRIDGE.0, FRIDGE.1),
        unset: "4 °C",
        examples: &["3"],
    },
    Key {
        name: "room",
        what: "how warm the back bar is",
        why: "warmer bottles melt more ice",
        holds: Holds::Amount(Dimension::Temperature, ROOM.0, ROOM.1),
        unset: "20 °C",
        examples: &["22", "\"72 F\""],
    },
];

const FREEZER: (f64, f64) = (-100.0, 10.0);
const FRIDGE: (f64, f64) = (-10.0, 20.0);
const ROOM: (f64, f64) = (0.0, 50.0);

const HELP: &str = "write `freezer = -18`, `fridge = 4`, `room = 20`; a number is °C";

/// `[temperatures]`
pub(super) fn temperatures(reader: &mut Reader, entry: Entry) -> Read<()> {
    let fields = reader.fields(entry.value, "[temperatures]", &names(&KEYS), HELP)?;
    let mut sound = true;
    for key in names(&KEYS) {
        let Some(item) = fields.get(key) else { continue };
        let read = temperature(item, key);
        let Some(read) = reader.take(read) else {
            sound = false;
            continue;
        };
        let held = &mut reader.settings.temperatures;
        match key {
            "freezer" => held.freezer = read,
            "fridge" => held.fridge = read,
            _ => held.room = read,
        }
        reader.say(format!("temperatures.{key}"), item);
    }
    let held = reader.settings.temperatures;
    let [freezer, fridge, room] = names(&KEYS).map(|key| fields.get(key));
    if !sound {
        return Ok(());
    }
    colder((held.freezer, freezer), "freezer", (held.fridge, fridge), "fridge")?;
    colder((held.fridge, fridge), "fridge", (held.room, room), "room")
}

fn temperature(item: &Item, key: &str) -> Read<f64> {
    let read = celsius(item, HELP)?;
    let ((least, most), help) = match key {
        "freezer" if read > FREEZER.1 => (FREEZER, format!("did you mean -{read}? {HELP}")),
        "freezer" => (FREEZER, HELP.to_owned()),
        "fridge" => (FRIDGE, HELP.to_owned()),
        _ => (ROOM, HELP.to_owned()),
    };
    within(item, read, least..=most, "°C", &help)?;
    Ok(read)
}

/// Refuses the one that the file says where the first is not colder than the second.
fn colder(
    (cold, first): (f64, Option<&Item>),
    name: &str,
    (warm, second): (f64, Option<&Item>),
    other: &str,
) -> Read<()> {
    match first.or(second) {
        Some(item) if cold >= warm => {
            let message =
                format!("the {name}, {cold} °C, is no colder than the {other}, {warm} °C");
            refuse(item, message, HELP)
        }
        _ => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::super::checks::{right, wrong};

    #[test]
    fn temperatures_are_celsius_or_say_so() {
        let held =
            right("[temperatures]\nfreezer = '0 F'\nfridge = '3 °C'\nroom = 22.5").temperatures;
        assert!((held.freezer + 17.78).abs() < 0.01);
        assert_eq!((held.fridge, held.room), (3.0, 22.5));
        assert_eq!(right("").temperatures.freezer, -18.0);
    }

    #[test]
    fn wrong_temperatures_point_at_themselves() {
        wrong(
            "[temperatures]\nfreezer = 18\nfridge = '4 K'\nroom = 68\nfridg = 4",
            &[
                ("18", "18 °C is not between -100 and 10 °C", "did you mean -18?"),
                ("'4 K'", "`k` is no unit of temperature", "a number is °C"),
                ("68", "68 °C is not between 0 and 50 °C", "a number is °C"),
                ("fridg", "`fridg` is no key of [temperatures]", "did you mean `fridge`?"),
            ],
        );
        let warm = "the freezer, 5 °C, is no colder than the fridge, 4 °C";
        wrong("[temperatures]\nfreezer = 5", &[("5", warm, "a number is °C")]);
        let warm = "the fridge, 15 °C, is no colder than the room, 12 °C";
        wrong("[temperatures]\nroom = 12\nfridge = 15", &[("15", warm, "a number is °C")]);
    }
}
