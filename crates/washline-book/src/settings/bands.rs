//! `[families.NAME]`: bands of the families, and families that the house adds.

use washline_text::fold;

use super::amount::measured;
use super::keys::{Holds, Key, names};
use super::reader::{Entry, Reader};
use super::value::{self, Item, Read, error, refuse, within};
use super::words::did_you_mean;

/// The keys of one family.
pub(super) static KEYS: [Key; 5] = [
    Key {
        name: "like",
        what: "the family that one of the house's own is like, where it sets no band",
        why: "a family that only this house knows still has rules and bands",
        holds: Holds::Family,
        unset: "the family must be a known one",
        examples: &["\"sour\""],
    },
    Key {
        name: "strength",
        what: "the strength of the finished drink, % vol",
        why: "the house's own idea of short and long",
        holds: Holds::Band(&STRENGTH, ENDS.0, ENDS.1),
        unset: "the band of the reference",
        examples: &["[15, 22]", "{ high = \"22 %\" }"],
    },
    Key {
        name: "sugar",
        what: "the sugar of the finished drink, g/100 ml",
        why: "a house that pours drier than most is not told so at every drink",
        holds: Holds::Band(&GRAMS, ENDS.0, ENDS.1),
        unset: "the band of the reference",
        examples: &["[8, \"none\"]", "[5, 9]"],
    },
    Key {
        name: "acid",
        what: "the titratable acid of the finished drink, as citric, g/100 ml",
        why: "the same for those who like it sharp",
        holds: Holds::Band(&GRAMS, ENDS.0, ENDS.1),
        unset: "the band of the reference",
        examples: &["{ high = 1.2 }", "[0.6, 1.1]"],
    },
    Key {
        name: "ratio",
        what: "sugar over acid, by mass",
        why: "where the house sets sweet against sour",
        holds: Holds::Band(&[], ENDS.0, ENDS.1),
        unset: "the band of the reference",
        examples: &["\"none\"", "[6, 10]"],
    },
];

/// What may follow the number of an end.
const STRENGTH: [&str; 3] = ["%", "% vol", "% abv"];
const GRAMS: [&str; 3] = ["%", "g/100 ml", "g/100ml"];

/// What an end of a band may be.
const ENDS: (f64, f64) = (0.0, 100.0);

/// From and to; an open end is none.
type Band = (Option<f64>, Option<f64>);

const HELP: &str = "write `strength = [15, 22]`, `sugar = [8, \"none\"]`, `acid = { high = 1.2 }` \
                    or `ratio = \"none\"`";
const LIKE: &str = "write `like = \"sour\"`, a family that is known";

/// `[families.NAME]`
pub(super) fn families(reader: &mut Reader, entry: Entry) -> Read<()> {
    for family in reader.entries(entry.value, "[families]", "write `[families.sour]`")? {
        let done = one(reader, family);
        reader.take(done);
    }
    Ok(())
}

fn one(reader: &mut Reader, entry: Entry) -> Read<()> {
    let fields =
        reader.fields(entry.value, &format!("[families.{}]", entry.name), &names(&KEYS), HELP)?;
    let name = name(reader, entry, fields.get("like"))?;
    let mut bands = reader.settings.families.get(&name).copied().unwrap_or_default();
    for (key, band) in [
        ("strength", &mut bands.strength),
        ("sugar", &mut bands.sugar),
        ("acid", &mut bands.acid),
        ("ratio", &mut bands.ratio),
    ] {
        let Some(item) = fields.get(key) else { continue };
        let read = read_band(reader, item, key);
        *band = reader.take(read).or(*band);
        reader.say(format!("families.{name}.{key}"), item);
    }
    reader.settings.families.insert(name, bands);
    Ok(())
}

/// The family as the caller spells it; one that the house adds says what it is `like`.
fn name(reader: &mut Reader, entry: Entry, like: Option<&Item>) -> Read<String> {
    let known = |word: &str| {
        let folded = fold(word);
        reader.known.families.iter().copied().find(|family| fold(family) == folded)
    };
    let own = fold(entry.name).replace(' ', "-");
    match (known(entry.name), like) {
        (Some(name), None) => Ok(name.to_owned()),
        (Some(name), Some(like)) => {
            let help = "take `like` out, or give the house's own family another name";
            refuse(like, format!("`{name}` is a family already"), help)
        }
        (None, None) if reader.settings.family_like.contains_key(&own) => Ok(own),
        (None, None) => {
            let help = "for a family of the house's own, write `like = \"sour\"` under it";
            let help = did_you_mean(&own, reader.known.families.iter().copied(), help);
            Err(error(entry.key, format!("no family is called `{}`", entry.name), help))
        }
        (None, Some(like)) => {
            let written = value::text(like, LIKE)?;
            let Some(known) = known(written) else {
                let help = did_you_mean(written, reader.known.families.iter().copied(), LIKE);
                return refuse(like, format!("no family is called `{written}`"), help);
            };
            reader.say(format!("families.{own}.like"), like);
            reader.settings.family_like.insert(own.clone(), known.to_owned());
            Ok(own)
        }
    }
}

/// `[15, 22]`, `[8, "none"]`, `{ low = 8 }`, `"none"`
fn read_band(reader: &mut Reader, item: &Item, key: &str) -> Read<Band> {
    if is_none(item) {
        return Ok((None, None));
    }
    let (low, high) = if item.get_ref().is_table() {
        let fields = reader.fields(item, "a band", &["low", "high"], HELP)?;
        (fields.get("low"), fields.get("high"))
    } else {
        match item.get_ref().as_array().map(|items| &items[..]) {
            Some([low, high]) => (Some(low), Some(high)),
            Some(_) => return refuse(item, "a band has two ends", HELP),
            None => return value::mistyped(item, "a band", HELP),
        }
    };
    let end = |item: Option<&Item>| {
        item.filter(|item| !is_none(item)).map(|item| read_end(item, key)).transpose()
    };
    let (low, high) = (end(low)?, end(high)?);
    if let (Some(low), Some(high)) = (low, high)
        && low >= high
    {
        let message = format!("a band from {low} to {high} does not rise");
        return match low > high {
            true => refuse(item, message, format!("did you mean [{high}, {low}]? {HELP}")),
            false => refuse(item, message, HELP),
        };
    }
    Ok((low, high))
}

fn read_end(item: &Item, key: &str) -> Read<f64> {
    let units: &[&str] = match key {
        "strength" => &STRENGTH,
        "sugar" | "acid" => &GRAMS,
        _ => &[],
    };
    let (number, unit) = measured(item, HELP)?;
    if let Some(unit) = unit
        && !units.contains(&unit.as_str())
    {
        return refuse(item, format!("`{unit}` is no unit of {key}"), HELP);
    }
    within(item, number, ENDS.0..=ENDS.1, "", HELP)?;
    Ok(number)
}

fn is_none(item: &Item) -> bool {
    item.get_ref().as_str().is_some_and(|word| fold(word) == "none")
}

#[cfg(test)]
mod tests {
    use super::super::checks::{KNOWN, right, wrong};
    use super::super::{FamilyBands, read, read_over};

    #[test]
    fn bands_have_ends_or_none() {
        let text = "[families.Sour]\nstrength = [15, '22 %']\nsugar = [8, 'none']\n\
                    acid = { high = '1.2 g/100 ml' }\nratio = 'none'";
        let expected = FamilyBands {
            strength: Some((Some(15.0), Some(22.0))),
            sugar: Some((Some(8.0), None)),
            acid: Some((None, Some(1.2))),
            ratio: Some((None, None)),
        };
        assert_eq!(right(text).families.get("sour"), Some(&expected));
    }

    #[test]
    fn a_family_of_the_house_is_like_another() {
        let text = "[families.'Garden Sour']\nlike = 'sour'\nacid = [0.6, 1.1]";
        let parent = right(text);
        assert_eq!(parent.family_like.get("garden-sour").map(String::as_str), Some("sour"));
        let child = "[families.garden-sour]\nsugar = [5, 9]";
        assert!(read(child, &KNOWN).is_err(), "alone, nobody knows it");
        let both = read_over(parent, child, &KNOWN).unwrap().families;
        let bands = both.get("garden-sour").unwrap();
        assert_eq!(bands.acid, Some((Some(0.6), Some(1.1))));
        assert_eq!(bands.sugar, Some((Some(5.0), Some(9.0))));
    }

    #[test]
    fn wrong_bands_point_at_themselves() {
        let write = "write `strength = [15, 22]`";
        wrong(
            "[families.sour]\nstrength = [22, 15]\nsugar = [8]\nacid = [-1, 101]\nratio = 7\n\
             strenght = [1, 2]\n[families.highball]\nacid = ['1 %', '2 g/l']\nratio = { lo = 1 }",
            &[
                ("[22, 15]", "a band from 22 to 15 does not rise", "did you mean [15, 22]?"),
                ("[8]", "a band has two ends", write),
                ("-1", "-1 is not between 0 and 100", write),
                ("7", "a number stands where a band should", write),
                ("strenght", "`strenght` is no key of [families.sour]", "`strength`?"),
                ("'2 g/l'", "`g/l` is no unit of acid", write),
                ("lo", "`lo` is no key of a band", "did you mean `low`?"),
            ],
        );
    }

    #[test]
    fn wrong_families_point_at_their_name() {
        wrong(
            "[families.sours]\nacid = [1, 2]\n[families.x]\nlike = 'sowr'\n\
             [families.sour]\nlike = 'highball'",
            &[
                ("sours", "no family is called `sours`", "did you mean `sour`?"),
                ("'sowr'", "no family is called `sowr`", "did you mean `sour`?"),
                ("'highball'", "`sour` is a family already", "take `like` out"),
            ],
        );
        wrong("families = 1", &[("1", "a number stands where a table should", "families.sour")]);
    }
}
