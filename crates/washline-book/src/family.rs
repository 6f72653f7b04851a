//! The families a drink belongs to: as it says, or as its lines and steps show.

use washline_reference as reference;
use washline_reference::{Sort, Trait};
use washline_syntax::{Entry, Key, LineKind, Role, Technique, Value};
use washline_text::fold;

use crate::{Method, Read, Settings, Temperature};

/// A family: of the reference, or one that the house adds.
#[derive(Clone, Debug, PartialEq)]
pub struct Family {
    /// Its word.
    pub name: String,
    /// The reference's family of that name, or the one the house's is like.
    pub known: Option<&'static reference::Family>,
}

/// The families of one drink.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Families {
    /// The families; empty for none.
    pub list: Vec<Family>,
    /// Whether they were inferred.
    pub inferred: bool,
    /// Words of `family:` that name no family.
    pub unknown: Vec<washline_text::Span>,
}

impl Families {
    /// Whether the drink is of the family `name`, or of one that the house made like it.
    #[must_use]
    pub fn is(&self, name: &str) -> bool {
        let known = |family: &Family| family.known.is_some_and(|known| known.name == name);
        self.list.iter().any(|family| family.name == name || known(family))
    }

    /// Whether the drink is of one of the families `names`.
    #[must_use]
    pub fn any(&self, names: &[&str]) -> bool {
        names.iter().any(|name| self.is(name))
    }
}

/// The families that the entry states, or those inferred.
pub(crate) fn of(entry: &Entry, reads: &[Read], method: &Method, settings: &Settings) -> Families {
    let stated = entry.lines.iter().find_map(|line| match &line.what {
        LineKind::Field(field) if field.key == Some(Key::Family) => Some(field),
        _ => None,
    });
    let mut families = Families::default();
    match stated.map(|field| &field.value) {
        Some(Value::None) => return families,
        Some(Value::Terms(terms)) => {
            for term in terms {
                let word = fold(term.text(&entry.text)).replace(' ', "-");
                let like =
                    || settings.family_like.get(&word).and_then(|like| reference::family(like));
                let known = reference::family(&word).or_else(like);
                if known.is_none() && !settings.families.contains_key(&word) {
                    families.unknown.push(*term);
                    continue;
                }
                families.list.push(Family { name: word, known });
            }
            if !families.list.is_empty() {
                return families;
            }
        }
        _ => {}
    }
    families.inferred = true;
    if let Some(known) = infer(entry, reads, method).and_then(reference::family) {
        families.list.push(Family { name: known.name.to_owned(), known: Some(known) });
    }
    families
}

/// What the lines and steps show. Each test is what a bartender would say of the card.
fn infer(entry: &Entry, reads: &[Read], method: &Method) -> Option<&'static str> {
    let lines = Lines::of(reads);
    let serve = serve(entry);
    if lines.volume <= 0.0 {
        return None;
    }
    if serve == "neat" {
        return Some("neat");
    }
    if serve == "bowl" {
        return Some("punch");
    }
    if lines.ethanol <= 0.0 {
        return Some("alcohol-free");
    }
    if lines.coffee {
        return Some("coffee");
    }
    if serve == "hot" || lines.hot || method.has(&[Technique::Steam]) {
        return Some("hot");
    }
    if method.has(&[Technique::Blend, Technique::FlashBlend]) || serve == "frozen" {
        return Some("blended");
    }
    if lines.tomato {
        return Some("savoury");
    }
    if method.has(&[Technique::Swizzle]) {
        return Some("swizzle");
    }
    if method.has(&[Technique::Churn]) && lines.sour_acid < SOUR_G {
        return Some("julep");
    }
    if method.has(&[Technique::Carbonate]) {
        return Some("carbonated");
    }
    if lines.yolk {
        return Some("flip");
    }
    if lines.sour_acid >= SOUR_G {
        return lines.with_citrus(method);
    }
    if lines.cream_ml >= 10.0 {
        return Some("cream");
    }
    if lines.sparkling_ml >= 45.0 {
        return Some("spritz");
    }
    if lines.soda_ml + lines.juice_ml >= 60.0 {
        return Some("highball");
    }
    if lines.citrus_fruit && lines.sweet() && method.has(&[Technique::Muddle]) {
        return Some("smash");
    }
    if lines.juice_ml > 0.0 || lines.sour_acid > 0.0 {
        return None;
    }
    lines.of_spirits_alone()
}

/// The acid of 10 ml of sharp juice, g: less seasons, as much makes a sour. Common practice, no
/// source.
const SOUR_G: f64 = 0.4;

#[derive(Default)]
struct Lines {
    volume: f64,
    ethanol: f64,
    sour_acid: f64,
    soda_ml: f64,
    juice_ml: f64,
    sparkling_ml: f64,
    cream_ml: f64,
    spirit_ml: f64,
    liqueur_ml: f64,
    wine_ml: f64,
    syrup_sugar: f64,
    liqueur_sugar: f64,
    other_sugar: f64,
    pours: u32,
    bitters: bool,
    foams: bool,
    yolk: bool,
    coffee: bool,
    hot: bool,
    tomato: bool,
    ginger: bool,
    muddled: bool,
    citrus_fruit: bool,
}

impl Lines {
    fn of(reads: &[Read]) -> Self {
        let mut lines = Self::default();
        for read in reads.iter().filter(|read| read.counted || read.role == Role::Top) {
            let ml = read.volume();
            lines.volume += ml;
            lines.ethanol += read.composition.ethanol;
            lines.hot |= read.temperature == Some(Temperature::Hot);
            let whole = read.sort_is(&[Sort::Fruit]);
            if read.sours() && !whole {
                lines.sour_acid += read.composition.acid;
            } else if !read.sours() {
                lines.other_sugar += read.composition.sugar;
            }
            let Some(known) = read.ingredient() else { continue };
            if !read.sours() && (known.sort == Sort::Juice || known.sort == Sort::Puree) {
                lines.juice_ml += ml;
            }
            match known.sort {
                Sort::Spirit => {
                    lines.spirit_ml += ml;
                    lines.pours += 1;
                }
                Sort::Liqueur => {
                    lines.liqueur_ml += ml;
                    lines.liqueur_sugar += read.composition.sugar;
                    lines.pours += 1;
                }
                Sort::AromatisedWine | Sort::FortifiedWine | Sort::Wine => {
                    lines.wine_ml += ml;
                    lines.pours += 1;
                }
                Sort::SparklingWine => lines.sparkling_ml += ml,
                Sort::Syrup | Sort::Sugar => lines.syrup_sugar += read.composition.sugar,
                // A bottom of bitters seasons; a measure of them is a base.
                Sort::Bitters if ml < 10.0 => lines.bitters = true,
                Sort::Bitters => lines.spirit_ml += ml,
                Sort::Soda | Sort::Beer | Sort::Cider => {
                    // A top that has no size yet is long.
                    lines.soda_ml += if read.role == Role::Top { ml.max(60.0) } else { ml };
                }
                Sort::Dairy | Sort::PlantMilk => lines.cream_ml += ml,
                Sort::Coffee => lines.coffee = true,
                _ => {}
            }
            // Pineapple foams too, and makes no egg sour.
            lines.foams |= known.is(Trait::Foams) && known.sort != Sort::Juice;
            lines.citrus_fruit |= known.is(Trait::Citrus) && known.sort == Sort::Fruit;
            lines.yolk |= known.is(Trait::RawEgg) && known.fat.is_some_and(|fat| fat.value > 1.0);
            lines.hot |= known.is(Trait::Hot) && known.sort == Sort::Water;
            lines.tomato |= known.name.contains("tomato");
            lines.ginger |= known.sort == Sort::Soda && known.name.contains("ginger");
            lines.muddled |= matches!(known.sort, Sort::Fruit | Sort::Herb);
        }
        lines
    }

    /// Whether something other than the sour juice brings sugar.
    fn sweet(&self) -> bool {
        self.other_sugar >= crate::line::NO_SUGAR_G
    }

    fn with_citrus(&self, method: &Method) -> Option<&'static str> {
        let shaken = method.has(&[
            Technique::Shake,
            Technique::HardShake,
            Technique::DryShake,
            Technique::WetShake,
            Technique::ReverseDryShake,
            Technique::WhipShake,
        ]);
        if self.ginger && self.soda_ml > 0.0 {
            return Some("buck");
        }
        if self.sparkling_ml > 0.0 {
            return Some("fizz");
        }
        if self.soda_ml > 0.0 {
            // Spirit, lime and soda wants no sugar.
            let sour = if shaken { "fizz" } else { "collins" };
            return Some(if self.sweet() { sour } else { "highball" });
        }
        if self.foams {
            return Some("egg-sour");
        }
        if method.has(&[Technique::Muddle]) && self.muddled {
            return Some("smash");
        }
        if self.juice_ml >= 60.0 {
            return Some("tiki");
        }
        if !self.sweet() && !shaken {
            return None;
        }
        Some(if self.syrup_sugar < self.liqueur_sugar { "daisy" } else { "sour" })
    }

    fn of_spirits_alone(&self) -> Option<&'static str> {
        if self.syrup_sugar > 0.0 && self.bitters && self.wine_ml < 1.0 {
            return Some("old-fashioned");
        }
        if self.syrup_sugar > 0.0 && self.wine_ml >= 45.0 && self.spirit_ml < 1.0 {
            return Some("cobbler");
        }
        if self.pours == 2
            && self.wine_ml < 1.0
            && self.liqueur_ml > 0.0
            && self.spirit_ml > 0.0
            && !self.bitters
        {
            return Some("duo");
        }
        if self.pours >= 2 || self.bitters {
            let strong = self.ethanol > 0.17 * self.volume;
            return Some(if strong { "spirit-forward" } else { "aperitif" });
        }
        None
    }
}

fn serve(entry: &Entry) -> String {
    let field = entry.lines.iter().find_map(|line| match &line.what {
        LineKind::Field(field) if field.key == Some(Key::Serve) => Some(field),
        _ => None,
    });
    field.map(|field| fold(field.value_span.text(&entry.text))).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use crate::{Known, Settings, Workspace, read_settings};

    /// The families of a drink of `lines` (split at `;`).
    fn families(lines: &str, settings: Settings) -> (Vec<String>, bool) {
        let text = format!("drink: A\n  {}\n", lines.replace("; ", "\n  "));
        let workspace = Workspace::new(vec![(Arc::from("a.pour"), Arc::from(text))], settings);
        let families = &workspace.records()[0].families;
        (families.list.iter().map(|family| family.name.clone()).collect(), families.inferred)
    }

    fn inferred(lines: &str) -> String {
        families(lines, Settings::default()).0.join(" ")
    }

    /// What a bartender would call each at sight: common practice, no source.
    #[test]
    fn the_lines_and_steps_show_the_family() {
        for (lines, family) in [
            ("60 ml gin; 10 ml dry vermouth; - stir with ice, strain", "spirit-forward"),
            ("60 ml gin; 30 ml lime juice; 20 ml sugar syrup; - shake with ice", "sour"),
            ("45 ml bourbon; 30 ml lemon juice; 30 ml amaro; - shake with ice", "daisy"),
            ("45 ml aromatic bitters; 30 ml orgeat; 20 ml lemon juice; - shake", "sour"),
            ("45 ml gin; 20 ml lime juice; 90 ml soda water; - build over ice", "highball"),
            (
                "45 ml gin; 20 ml lemon juice; 15 ml sugar syrup; 60 ml soda water; - build",
                "collins",
            ),
            ("45 ml rum; 100 ml ginger beer; - build over ice", "highball"),
            ("45 ml rum; 15 ml lime juice; 100 ml ginger beer; - build over ice", "buck"),
            (
                "45 ml rum; 45 ml pineapple juice; 15 ml lime juice; 10 ml grenadine; - shake",
                "sour",
            ),
            ("60 ml cachaça; 1 lime; 2 tsp sugar; - muddle the lime and sugar, stir", "smash"),
            ("90 ml fino sherry; 1 tsp sugar; - shake with ice, strain", "cobbler"),
            ("45 ml cognac; 1 tsp honey; 15 ml lemon juice; 120 ml hot water; - stir", "hot"),
            ("120 ml apple juice; 15 ml lime juice; - build over ice", "alcohol-free"),
            ("60 ml gin; 20 ml lime juice; - stir", ""),
        ] {
            assert_eq!(inferred(lines), family, "{lines}");
        }
    }

    /// A blend of the house's own with the acid of lemon sours as lemon does.
    #[test]
    fn a_house_sour_is_a_sour() {
        let lines = "50 ml gin; 25 ml house sour; 25 ml sugar syrup; - shake with ice, strain; \
                     prep: House Sour; 60 g citric acid; 940 g water; - stir until dissolved";
        assert_eq!(inferred(lines), "sour");
    }

    #[test]
    fn what_is_stated_holds() {
        let plain = || Settings::default();
        let both = families("family: sour, fizz; 60 ml gin", plain());
        assert_eq!(both, (vec!["sour".to_owned(), "fizz".to_owned()], false));
        let none = families("family: none; 60 ml gin; 20 ml dry vermouth; - stir", plain());
        assert_eq!(none, (Vec::new(), false));
    }

    /// A family that the house made like another is of that one too.
    #[test]
    fn a_house_family_is_like_a_known_one() {
        let known = Known { rules: &[], families: &["sour"], techniques: &[] };
        let settings = read_settings("[families.garden-sour]\nlike = 'sour'\n", &known).unwrap();
        let text = "drink: A\n  family: garden sour\n  60 ml gin\n";
        let files = vec![(Arc::from("a.pour"), Arc::from(text))];
        let workspace = Workspace::new(files, settings);
        let families = &workspace.records()[0].families;
        assert!(families.is("sour") && families.is("garden-sour") && !families.is("fizz"));
    }
}
