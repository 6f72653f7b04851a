//! The bands that a house's own drinks come to, ready for its `washline.toml`.

use std::fmt::Write as _;

use serde::Serialize;
use serde_json::{Value, json as value};
use washline_book::{Band, ENOUGH, Far, Figure, Fit, Fitted, FittedBand, Workspace};
use washline_measure::six_digits;

use super::Card;
use super::csv::{number, sheet, text};
use crate::escape::on_one_line;
use crate::number::number as for_people;

/// What the drinks of one house come to.
#[derive(Clone, Debug)]
pub struct HouseBands<'a> {
    /// The file that the bands are for; none where the house has none yet.
    pub file: Option<&'a str>,
    /// Its books.
    pub workspace: &'a Workspace,
    /// How outputs call its files, in its order.
    pub names: &'a [String],
    /// Its bands.
    pub fit: Fit<'a>,
}

/// The bands as TOML: tables to paste, with what each stands on, and whom it names, in comments.
#[must_use]
pub fn bands_toml(houses: &[HouseBands<'_>]) -> String {
    houses.iter().map(HouseBands::toml).collect::<Vec<_>>().join("\n")
}

/// The bands as one JSON object, with a line end.
#[must_use]
pub fn bands_json(houses: &[HouseBands<'_>]) -> String {
    let houses: Vec<Value> = houses.iter().map(HouseBands::json).collect();
    format!("{}\n", value!({"format": 1, "houses": houses}))
}

/// The bands as CSV: a row a band, with a header.
#[must_use]
pub fn bands_csv(houses: &[HouseBands<'_>]) -> String {
    let header = ["standards", "family", "drinks", "figure", "low", "high", "middle", "count"];
    let rows = houses.iter().flat_map(|house| {
        let families = house.fit.families.iter();
        families.flat_map(move |family| family.bands.iter().map(move |band| (family, band))).map(
            |(family, band)| {
                vec![
                    text(house.file.unwrap_or_default()),
                    family.family.to_owned(),
                    family.drinks.to_string(),
                    key(band.figure).to_owned(),
                    band.band.low.map_or_else(String::new, number),
                    band.band.high.map_or_else(String::new, number),
                    number(band.middle),
                    band.count.to_string(),
                ]
            },
        )
    });
    sheet(&header.map(str::to_owned), rows)
}

impl<'a> HouseBands<'a> {
    fn toml(&self) -> String {
        let mut out = String::new();
        // Writing into memory can't fail.
        let _ = self.write(&mut out);
        out
    }

    fn write(&self, out: &mut String) -> std::fmt::Result {
        match self.file {
            Some(file) => writeln!(out, "# For {}.", on_one_line(file))?,
            None => writeln!(out, "# For a washline.toml beside the books.")?,
        }
        out.push_str(
            "# Each band holds the middle nine tenths of the drinks that state the family, rounded\n\
             # outwards; what is far from the others does not stretch it.\n",
        );
        for family in &self.fit.families {
            table(out, family)?;
        }
        let far: Vec<String> =
            self.fit.families.iter().flat_map(|family| self.far(family)).collect();
        section(out, "Far from their family", &far);
        if !self.fit.few.is_empty() {
            let few = self.fit.few.iter().map(|(family, count)| format!("{family} {count}"));
            let few: Vec<String> = few.collect();
            writeln!(out, "\n# Fewer than {ENOUGH} drinks make no band: {}.", few.join(", "))?;
        }
        match self.fit.left_out {
            0 => {}
            1 => {
                out.push_str("\n# 1 drink states no family, or is not computed: it is left out.\n")
            }
            n => writeln!(
                out,
                "\n# {n} drinks state no family, or are not computed: they are left out."
            )?,
        }
        Ok(())
    }

    /// `Treacle Row (sours.pour:40), sour: sugar 21 g/100 ml, the middle is 8.2`
    fn far(&self, family: &Fitted<'a>) -> Vec<String> {
        let line = |far: &Far<'a>| {
            let card = self.card(far);
            let unit = unit(far.figure);
            format!(
                "{} ({}:{}), {}: {} {}{unit}, the middle is {}",
                far.record.name,
                card.file,
                card.line(),
                family.family,
                key(far.figure),
                for_people(far.value.value),
                for_people(far.middle)
            )
        };
        family.far.iter().map(line).collect()
    }

    fn card(&self, far: &Far<'a>) -> Card<'a> {
        let file = self.names.get(far.record.file.0 as usize).map_or("", String::as_str);
        Card { workspace: self.workspace, record: far.record, file }
    }

    fn json(&self) -> Value {
        let family = |family: &Fitted<'a>| {
            let far = family.far.iter().map(|far| {
                let card = self.card(far);
                FarTold {
                    entry: &far.record.name,
                    file: card.file,
                    line: card.line(),
                    figure: key(far.figure),
                    value: six_digits(far.value.value),
                    middle: six_digits(far.middle),
                    deviations: six_digits(far.score),
                }
            });
            value!({
                "family": family.family,
                "drinks": family.drinks,
                "bands": family.bands.iter().map(BandTold::of).collect::<Vec<_>>(),
                "far": far.collect::<Vec<_>>(),
            })
        };
        let few =
            self.fit.few.iter().map(|(family, count)| value!({"family": family, "drinks": count}));
        value!({
            "standards": self.file,
            "families": self.fit.families.iter().map(family).collect::<Vec<_>>(),
            "few": few.collect::<Vec<_>>(),
            "left_out": self.fit.left_out,
        })
    }
}

fn table(out: &mut String, family: &Fitted<'_>) -> std::fmt::Result {
    writeln!(out, "\n[families.{}]  # {} drinks", family.family, family.drinks)?;
    let lines = family.bands.iter().map(|band| {
        let short =
            if band.count < family.drinks { format!(", of {}", band.count) } else { String::new() };
        let note = format!("middle {}{short}", for_people(band.middle));
        (format!("{} = {}", key(band.figure), ends(band.band)), note)
    });
    let lines: Vec<(String, String)> = lines.collect();
    let width = lines.iter().map(|(line, _)| line.len()).max().unwrap_or(0);
    for (line, note) in lines {
        writeln!(out, "{line:width$}  # {note}")?;
    }
    Ok(())
}

fn section(out: &mut String, title: &str, lines: &[String]) {
    if lines.is_empty() {
        return;
    }
    let _ = writeln!(out, "\n# {title}:");
    for line in lines {
        let _ = writeln!(out, "#   {}", on_one_line(line));
    }
}

/// A band as `washline.toml` has it.
fn ends(band: Band) -> String {
    match (band.low, band.high) {
        (Some(low), Some(high)) => format!("[{}, {}]", number(low), number(high)),
        (Some(low), None) => format!("{{ low = {} }}", number(low)),
        (None, Some(high)) => format!("{{ high = {} }}", number(high)),
        (None, None) => "\"none\"".to_owned(),
    }
}

/// The key of a figure's band in `washline.toml`.
const fn key(figure: Figure) -> &'static str {
    match figure {
        Figure::Abv => "strength",
        Figure::Sugar => "sugar",
        Figure::Acid => "acid",
        _ => "ratio",
    }
}

const fn unit(figure: Figure) -> &'static str {
    match figure {
        Figure::Abv => " % vol",
        Figure::Sugar | Figure::Acid => " g/100 ml",
        _ => "",
    }
}

#[derive(Serialize)]
struct BandTold {
    figure: &'static str,
    low: Value,
    high: Value,
    middle: Value,
    count: usize,
}

impl BandTold {
    fn of(band: &FittedBand) -> Self {
        let end = |end: Option<f64>| end.map_or(Value::Null, |end| value!(six_digits(end)));
        Self {
            figure: key(band.figure),
            low: end(band.band.low),
            high: end(band.band.high),
            middle: value!(six_digits(band.middle)),
            count: band.count,
        }
    }
}

#[derive(Serialize)]
struct FarTold<'a> {
    entry: &'a str,
    file: &'a str,
    line: u32,
    figure: &'static str,
    value: f64,
    middle: f64,
    deviations: f64,
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::checks::workspace;

    fn house<T>(with: impl FnOnce(&[HouseBands<'_>]) -> T) -> T {
        let mut book = String::new();
        for (n, syrup) in [18.0, 19.0, 20.0, 20.0, 21.0, 22.5, 90.0].iter().enumerate() {
            let _ = write!(
                book,
                "drink: Sour {n}\n  family: sour\n  60 ml gin\n  22.5 ml lemon juice\n  {syrup} ml sugar syrup, 1:1\n  - shake with ice for 12 s, double strain\n\n"
            );
        }
        book.push_str("drink: Neat\n  family: neat\n  50 ml gin\n");
        let workspace = workspace(&[("a.pour", &book)]);
        let names = ["a.pour".to_owned()];
        let fit = washline_book::fit(workspace.records().iter());
        with(&[HouseBands {
            file: Some("washline.toml"),
            workspace: &workspace,
            names: &names,
            fit,
        }])
    }

    /// What is printed is read by the reader of standards, and says the bands that were fitted.
    #[test]
    fn the_tables_are_standards() {
        house(|houses| {
            let families: Vec<&str> =
                washline_reference::families().iter().map(|family| family.name).collect();
            let known = washline_book::Known { rules: &[], families: &families, techniques: &[] };
            let settings = washline_book::read_settings(&bands_toml(houses), &known).unwrap();
            let sour = settings.families.get("sour").unwrap();
            for band in &houses[0].fit.families[0].bands {
                let read = match band.figure {
                    Figure::Abv => sour.strength,
                    Figure::Sugar => sour.sugar,
                    Figure::Acid => sour.acid,
                    _ => sour.ratio,
                };
                assert_eq!(read, Some((band.band.low, band.band.high)), "{:?}", band.figure);
            }
        });
    }

    #[test]
    fn who_is_far_and_what_is_few_is_named() {
        house(|houses| {
            let told = bands_toml(houses);
            assert!(
                told.contains("# Far from their family:\n#   Sour 6 (a.pour:43), sour: "),
                "{told}"
            );
            assert!(told.contains("# Fewer than 5 drinks make no band: neat 1.\n"), "{told}");
            let read: Value = serde_json::from_str(&bands_json(houses)).unwrap();
            let house = &read["houses"][0];
            assert_eq!(house["families"][0]["far"][0]["entry"], "Sour 6");
            assert_eq!(house["families"][0]["drinks"], 7);
            assert_eq!(house["few"][0]["family"], "neat");
            let rows = bands_csv(houses).lines().count();
            assert_eq!(rows, 1 + houses[0].fit.families[0].bands.len());
        });
    }
}
