//! What the standards come to, key by key, said or built in.

use washline_measure::{Ounce, Unit};
use washline_reference as reference;
use washline_syntax::Key as Field;

use super::{Cards, FamilyBands, LineOrder, Settings};

/// One standard as it holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Standard {
    /// Its path, as [`Settings::said`] has it: `ounce`, `limits.tin`, `families.sour.acid`.
    pub key: String,
    /// What holds.
    pub value: Held,
}

/// A value as plain data.
#[derive(Clone, Debug, PartialEq)]
pub enum Held {
    /// Nobody has said anything.
    Nothing,
    /// A word.
    Word(String),
    /// Yes or no.
    Flag(bool),
    /// A number with its unit, which may be empty.
    Number(f64, &'static str),
    /// A value with its 95 % range, and the unit.
    Range([f64; 3], &'static str),
    /// A band, an open end being none, and the unit.
    Band(Option<f64>, Option<f64>, &'static str),
    /// Several.
    List(Vec<Held>),
}

impl Settings {
    /// Every standard but the rules' severities, in the order of the reference page.
    #[must_use]
    pub fn held(&self) -> Vec<Standard> {
        let mut out = Listed(Vec::new());
        self.top(&mut out);
        self.measures(&mut out);
        self.limits_and_layout(&mut out);
        self.cards_and_habits(&mut out);
        self.named(&mut out);
        out.0
    }

    fn top(&self, out: &mut Listed) {
        let markets = self.markets.iter().map(|market| Held::word(market.id()));
        out.list("market", markets);
        out.add("ounce", Held::word(ounce(self.ounce)));
        out.add("second-unit", Held::unit(self.second_unit));
        out.add("default-syrup", self.default_syrup.map_or(Held::Nothing, parts));
        out.list("jiggers", self.jiggers.iter().map(|ml| Held::Number(*ml, "ml")));
        out.list(
            "pairs",
            self.pairs
                .iter()
                .map(|(ml, oz)| Held::List(vec![Held::Number(*ml, "ml"), Held::Number(*oz, "oz")])),
        );
        out.list("exclude", self.exclude.iter().map(Held::word));
        out.add("extends", self.extends.as_ref().map_or(Held::Nothing, Held::word));
    }

    fn measures(&self, out: &mut Listed) {
        for kind in ["liquid", "solid", "small"] {
            out.add(format!("units.{kind}"), Held::unit(self.units.get(kind).copied()));
        }
        for key in super::bar::measures() {
            let built_in = || match key.ml(self.ounce) {
                Some(ml) => Some([ml.to_f64(); 3]),
                None => reference::bar_measure(key).map(|d| [d.value, d.low, d.high]),
            };
            let house = self.bar.get(&key).map(|(value, low, high)| [*value, *low, *high]);
            let held =
                house.or_else(built_in).map_or(Held::Nothing, |range| Held::range(range, "ml"));
            out.add(format!("bar.{}", key.name()), held);
        }
    }

    fn limits_and_layout(&self, out: &mut Listed) {
        let style = self.layout.fractions.map_or(Held::Nothing, |style| Held::word(style.word()));
        out.add("layout.fraction-style", style);
        let indent = self.layout.indent.map_or(Held::Nothing, |n| Held::Number(n.into(), ""));
        out.add("layout.indent", indent);
        out.add("layout.align", self.layout.align.map_or(Held::Nothing, Held::Flag));
        let warm = self.temperatures;
        for (name, celsius) in
            [("freezer", warm.freezer), ("fridge", warm.fridge), ("room", warm.room)]
        {
            out.add(format!("temperatures.{name}"), Held::Number(celsius, "°C"));
        }
        let limits = self.limits;
        out.add("limits.ethanol", Held::Number(limits.ethanol_g, "g"));
        out.add("limits.cost", limits.cost.map_or(Held::Nothing, |cost| Held::Number(cost, "")));
        let touches = limits.touches.map_or(Held::Nothing, |n| Held::Number(n.into(), ""));
        let pour_cost = limits.pour_cost;
        let pour_cost = pour_cost.map_or(Held::Nothing, |share| Held::Number(100.0 * share, "%"));
        out.add("limits.pour-cost", pour_cost);
        out.add("limits.touches", touches);
        out.add("limits.tin", Held::Number(limits.tin_ml, "ml"));
    }

    fn cards_and_habits(&self, out: &mut Listed) {
        let Cards { field_order, line_order, naming, drink_needs, prep_needs, stock_needs } =
            &self.cards;
        let fields = |fields: &[Field]| fields.iter().map(|key| Held::word(key.word())).collect();
        for (name, list) in [
            ("field-order", field_order),
            ("drink-needs", drink_needs),
            ("prep-needs", prep_needs),
            ("stock-needs", stock_needs),
        ] {
            let words: Vec<Held> = fields(list);
            out.list(&format!("cards.{name}"), words.into_iter());
        }
        let order = match line_order {
            None => Held::Nothing,
            Some(LineOrder::Largest) => Held::word("largest"),
            Some(LineOrder::Smallest) => Held::word("smallest"),
            Some(LineOrder::Parts(parts)) => {
                Held::List(parts.iter().map(|part| Held::word(part.word())).collect())
            }
        };
        out.add("cards.line-order", order);
        out.add("cards.naming", naming.map_or(Held::Nothing, |naming| Held::word(naming.word())));
        out.list("expect", self.expect.iter().map(|habit| Held::Word(habit.words())));
    }

    /// What stands under names: glasses, techniques, families.
    fn named(&self, out: &mut Listed) {
        for (name, ml) in &self.glasses {
            out.add(format!("glasses.{name}"), Held::Number(*ml, "ml"));
        }
        let known = reference::glasses().iter();
        for glass in
            known.filter(|glass| !self.glasses.contains_key(&washline_text::fold(glass.name)))
        {
            let brim = glass.brim;
            let range = Held::range([brim.value, brim.low, brim.high], "ml");
            out.add(format!("glasses.{}", glass.name), range);
        }
        for (name, (value, low, high)) in &self.techniques {
            let percent = [*value, *low, *high].map(|share| 100.0 * share);
            out.add(format!("techniques.{name}"), Held::range(percent, "%"));
        }
        for family in reference::families() {
            let own = self.families.get(family.name).copied().unwrap_or_default();
            out.bands(family.name, own, Some(family));
        }
        for (name, own) in &self.families {
            let Some(like) = self.family_like.get(name) else { continue };
            out.add(format!("families.{name}.like"), Held::word(like));
            out.bands(name, *own, reference::family(like));
        }
    }
}

/// The standards so far.
struct Listed(Vec<Standard>);

impl Listed {
    fn add(&mut self, key: impl Into<String>, value: Held) {
        self.0.push(Standard { key: key.into(), value });
    }

    fn list(&mut self, key: &str, values: impl Iterator<Item = Held>) {
        let values: Vec<Held> = values.collect();
        self.add(key, if values.is_empty() { Held::Nothing } else { Held::List(values) });
    }

    /// The bands of a family: the house's, else the known ones.
    fn bands(&mut self, name: &str, own: FamilyBands, known: Option<&'static reference::Family>) {
        type Known = fn(&reference::Family) -> Option<reference::Band>;
        let rows: [(&str, &'static str, _, Known); 4] = [
            ("strength", "% vol", own.strength, |family| family.strength),
            ("sugar", "g/100 ml", own.sugar, |family| family.sugar),
            ("acid", "g/100 ml", own.acid, |family| family.acid),
            ("ratio", "", own.ratio, |family| family.ratio),
        ];
        for (figure, unit, own, of) in rows {
            let known = || known.and_then(of).map(|band| (band.low, band.high));
            let band = own.or_else(known);
            let held = band.map_or(Held::Nothing, |(low, high)| Held::Band(low, high, unit));
            self.add(format!("families.{name}.{figure}"), held);
        }
    }
}

impl Held {
    fn word(word: impl AsRef<str>) -> Self {
        Self::Word(word.as_ref().to_owned())
    }

    fn unit(unit: Option<Unit>) -> Self {
        unit.map_or(Self::Nothing, |unit| Self::word(unit.name()))
    }

    fn range([value, low, high]: [f64; 3], unit: &'static str) -> Self {
        if low < high { Self::Range([value, low, high], unit) } else { Self::Number(value, unit) }
    }
}

const fn ounce(ounce: Ounce) -> &'static str {
    match ounce {
        Ounce::Us => "us",
        Ounce::Imperial => "imperial",
        Ounce::Thirty => "30 ml",
    }
}

/// `2:1`; a proportion that no card writes so as parts to one.
fn parts(parts: f64) -> Held {
    for water in 1..=4_u32 {
        let sugar = parts * f64::from(water);
        if (sugar - sugar.round()).abs() < 1e-9 {
            return Held::Word(format!("{}:{water}", sugar.round()));
        }
    }
    Held::Word(format!("{parts}:1"))
}

#[cfg(test)]
mod tests {
    use super::super::checks::right;
    use super::super::keys::{Holds, key, keys};
    use super::*;

    fn value(settings: &Settings, key: &str) -> Held {
        let held = settings.held().into_iter().find(|standard| standard.key == key);
        held.unwrap_or_else(|| panic!("{key}")).value
    }

    #[test]
    fn every_key_of_fixed_name_comes_to_something() {
        let held = Settings::default().held();
        for top in keys() {
            let paths: Vec<String> = match &top.holds {
                Holds::Table(keys) => {
                    keys.iter().map(|key| format!("{}.{}", top.name, key.name)).collect()
                }
                Holds::Named(..) | Holds::Tables(_) => continue,
                _ => vec![top.name.to_owned()],
            };
            for path in paths {
                // The two keys that are other names of their neighbours.
                let path = match path.as_str() {
                    "limits.ethanol-g" => "limits.ethanol",
                    "bar.bar-spoon" => "bar.bsp",
                    path => path,
                };
                assert!(held.iter().any(|standard| standard.key == path), "{path}");
            }
        }
    }

    #[test]
    fn what_is_said_is_held_under_the_same_path() {
        let text = "market = 'uk'\nounce = 30\ndefault-syrup = '3:2'\njiggers = [25]\n\
                    [units]\nliquid = 'ml'\n[bar]\nbar-spoon = 5\n[glasses]\nCoupe = 160\n\
                    [temperatures]\nfreezer = -20\n[limits]\nethanol-g = 28\n[layout]\nindent = 4\n\
                    [families.sour]\nacid = [0.6, 'none']\n[families.garden-sour]\nlike = 'sour'\n\
                    [techniques.shake]\ndilution = 45\n";
        let settings = right(text);
        for path in settings.said.keys() {
            assert_ne!(value(&settings, path), Held::Nothing, "{path}");
            assert!(key(path).is_some(), "{path}");
        }
        assert_eq!(value(&settings, "default-syrup"), Held::Word("3:2".to_owned()));
        let acid = Held::Band(Some(0.6), None, "g/100 ml");
        assert_eq!(value(&settings, "families.sour.acid"), acid);
        let like = value(&settings, "families.garden-sour.strength");
        assert_eq!(like, value(&settings, "families.sour.strength"));
    }

    #[test]
    fn what_is_built_in_is_told_with_its_range() {
        let settings = right("ounce = 30");
        assert!(matches!(value(&settings, "bar.dash"), Held::Range(..)));
        assert_eq!(value(&settings, "bar.tsp"), Held::Number(5.0, "ml"));
        assert_eq!(value(&settings, "limits.cost"), Held::Nothing);
    }
}
