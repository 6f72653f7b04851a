//! `[temperatures]`: how cold the freezer and the fridge are, how warm the back bar.

use super::amount::celsius;
use super::reader::{Entry, Reader};
use super::value::{Item, Read, refuse, within};

/// The table's keys, coldest first.
pub(super) const KEYS: [&str; 3] = ["freezer", "fridge", "room"];

const HELP: &str = "write `freezer = -18`, `fridge = 4`, `room = 20`; a number is °C";

/// `[temperatures]`
pub(super) fn temperatures(reader: &mut Reader, entry: Entry) -> Read<()> {
    let fields = reader.fields(entry.value, "[temperatures]", &KEYS, HELP)?;
    let mut sound = true;
    for key in KEYS {
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
    let [freezer, fridge, room] = KEYS.map(|key| fields.get(key));
    if !sound {
        return Ok(());
    }
    colder((held.freezer, freezer), "freezer", (held.fridge, fridge), "fridge")?;
    colder((held.fridge, fridge), "fridge", (held.room, room), "room")
}

fn temperature(item: &Item, key: &str) -> Read<f64> {
    let read = celsius(item, HELP)?;
    let (range, help) = match key {
        "freezer" if read > 10.0 => (-100.0..=10.0, format!("did you mean -{read}? {HELP}")),
        "freezer" => (-100.0..=10.0, HELP.to_owned()),
        "fridge" => (-10.0..=20.0, HELP.to_owned()),
        _ => (0.0..=50.0, HELP.to_owned()),
    };
    within(item, read, range, "°C", &help)?;
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
