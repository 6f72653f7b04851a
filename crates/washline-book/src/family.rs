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
    /// Whether the drink is of the family `name`.
    #[must_use]
    pub fn is(&self, name: &str) -> bool {
        self.list.iter().any(|family| family.name == name)
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
                let known = reference::family(&word);
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
    if method.has(&[Technique::Churn]) && lines.acid_ml < 10.0 {
        return Some("julep");
    }
    if method.has(&[Technique::Carbonate]) {
        return Some("carbonated");
    }
    if lines.yolk {
        return Some("flip");
    }
    if lines.acid_ml >= 10.0 {
        return Some(lines.with_citrus(method));
    }
    if lines.cream_ml >= 10.0 {
        return Some("cream");
    }
    if lines.ginger && lines.soda_ml >= 60.0 {
        return Some("buck");
    }
    if lines.sparkling_ml >= 45.0 {
        return Some("spritz");
    }
    if lines.soda_ml + lines.juice_ml >= 60.0 {
        return Some("highball");
    }
    if lines.juice_ml > 0.0 || lines.acid_ml > 0.0 {
        return None;
    }
    lines.of_spirits_alone()
}

#[derive(Default)]
struct Lines {
    volume: f64,
    ethanol: f64,
    acid_ml: f64,
    soda_ml: f64,
    juice_ml: f64,
    sparkling_ml: f64,
    cream_ml: f64,
    spirit_ml: f64,
    liqueur_ml: f64,
    wine_ml: f64,
    syrup_sugar: f64,
    liqueur_sugar: f64,
    pours: u32,
    bitters: bool,
    foams: bool,
    yolk: bool,
    coffee: bool,
    hot: bool,
    tomato: bool,
    ginger: bool,
    muddled: bool,
    top: bool,
}

impl Lines {
    fn of(reads: &[Read]) -> Self {
        let mut lines = Self::default();
        for read in reads.iter().filter(|read| read.counted || read.role == Role::Top) {
            let ml = read.volume();
            lines.volume += ml;
            lines.ethanol += read.composition.ethanol;
            lines.hot |= read.temperature == Some(Temperature::Hot);
            let Some(known) = read.ingredient() else { continue };
            lines.top |= read.role == Role::Top;
            if known.is(Trait::Citrus)
                && known.sort == Sort::Juice
                && known.acid.is_some_and(|a| a.value > 3.0)
            {
                lines.acid_ml += ml;
            } else if known.sort == Sort::Juice || known.sort == Sort::Puree {
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
            lines.foams |= known.is(Trait::Foams);
            lines.yolk |= known.is(Trait::RawEgg) && known.fat.is_some_and(|fat| fat.value > 1.0);
            lines.tomato |= known.name.contains("tomato");
            lines.ginger |= known.sort == Sort::Soda && known.name.contains("ginger");
            lines.muddled |= matches!(known.sort, Sort::Fruit | Sort::Herb);
        }
        lines
    }

    fn with_citrus(&self, method: &Method) -> &'static str {
        if self.ginger && self.soda_ml > 0.0 {
            return "buck";
        }
        if self.sparkling_ml > 0.0 {
            return "fizz";
        }
        if self.soda_ml > 0.0 {
            let shaken = method.has(&[
                Technique::Shake,
                Technique::HardShake,
                Technique::DryShake,
                Technique::WetShake,
            ]);
            return if shaken { "fizz" } else { "collins" };
        }
        if self.foams {
            return "egg-sour";
        }
        if method.has(&[Technique::Muddle]) && self.muddled {
            return "smash";
        }
        if self.juice_ml >= 60.0 {
            return "tiki";
        }
        if self.syrup_sugar < self.liqueur_sugar { "daisy" } else { "sour" }
    }

    fn of_spirits_alone(&self) -> Option<&'static str> {
        if self.syrup_sugar > 0.0 && self.bitters && self.wine_ml < 1.0 {
            return Some("old-fashioned");
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
