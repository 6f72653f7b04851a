//! What each market's law asks: allergens, sulphites, standard drinks, alcohol-free.

use crate::compiled::{ALLERGEN_WORDS, LAWS};
use crate::{Allergen, Datum, Market, Source};

/// The quantity from which sulphites must be declared.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SulphiteThreshold {
    /// Total sulphur dioxide, mg/l.
    pub mg_per_l: f64,
    /// Whether the quantity itself is already to be declared.
    pub at_limit: bool,
    /// The law.
    pub source: &'static Source,
}

impl SulphiteThreshold {
    /// Whether `mg_per_l` of the finished drink must be declared.
    #[must_use]
    pub fn is_reached(&self, mg_per_l: f64) -> bool {
        mg_per_l > self.mg_per_l || (self.at_limit && mg_per_l >= self.mg_per_l)
    }
}

/// Up to what strength a drink may be called free of alcohol.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AlcoholFree {
    /// The highest strength, % vol.
    pub abv: f64,
    /// The market's word.
    pub term: &'static str,
    /// The law or guidance.
    pub source: &'static Source,
}

/// An allergen that a market asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Declared {
    /// Which.
    pub allergen: Allergen,
    /// The market's own word for it.
    pub term: &'static str,
    /// The kinds that count; empty where all do.
    pub kinds: &'static [&'static str],
    /// The law.
    pub source: &'static Source,
}

/// The law of one market.
#[derive(Debug, PartialEq)]
pub(crate) struct Law {
    pub declares: &'static [Declared],
    pub sulphites: SulphiteThreshold,
    pub standard_drink_g: Datum,
    pub alcohol_free: AlcoholFree,
}

impl Market {
    fn law(self) -> &'static Law {
        let [eu, uk, us, ca, au_nz] = &LAWS;
        match self {
            Self::Eu => eu,
            Self::Uk => uk,
            Self::Us => us,
            Self::Ca => ca,
            Self::AuNz => au_nz,
        }
    }

    /// The allergens that it asks for.
    #[must_use]
    pub fn declared(self) -> &'static [Declared] {
        self.law().declares
    }

    /// Whether it asks for `allergen`, of some kind at least.
    #[must_use]
    pub fn declares(self, allergen: Allergen) -> bool {
        self.declared().iter().any(|declared| declared.allergen == allergen)
    }

    /// Whether it asks for this kind of `allergen`: rye is no allergen in the
    /// United States, wheat is. A kind that is not known counts.
    #[must_use]
    pub fn declares_kind(self, allergen: Allergen, kind: &str) -> bool {
        let Some(declared) = self.declared().iter().find(|d| d.allergen == allergen) else {
            return false;
        };
        kind.is_empty() || declared.kinds.is_empty() || declared.kinds.contains(&kind)
    }

    /// Its own word for `allergen`; where it does not ask for it, the common one.
    #[must_use]
    pub fn term(self, allergen: Allergen) -> &'static str {
        let declared = self.declared().iter().find(|declared| declared.allergen == allergen);
        declared.map_or(allergen.id(), |declared| declared.term)
    }

    /// The quantity of sulphites that must be declared.
    #[must_use]
    pub fn sulphite_threshold(self) -> SulphiteThreshold {
        self.law().sulphites
    }

    /// Ethanol in its standard drink or unit, g.
    #[must_use]
    pub fn standard_drink_g(self) -> Datum {
        self.law().standard_drink_g
    }

    /// Up to what strength a drink may be called free of alcohol.
    #[must_use]
    pub fn alcohol_free_limit(self) -> AlcoholFree {
        self.law().alcohol_free
    }
}

/// The allergen that a folded word stands for, and which kind of it: `hazelnut`
/// is nuts, `wheat` is gluten, `so2` sulphites. The kind is empty for the general word.
#[must_use]
pub fn allergen_from_word(folded: &str) -> Option<(Allergen, &'static str)> {
    let at = ALLERGEN_WORDS.binary_search_by(|(word, _, _)| (*word).cmp(folded)).ok()?;
    ALLERGEN_WORDS.get(at).map(|(_, allergen, kind)| (*allergen, *kind))
}

/// Every word that stands for an allergen, folded.
pub fn allergen_words() -> impl Iterator<Item = (&'static str, Allergen)> {
    ALLERGEN_WORDS.iter().map(|(word, allergen, _)| (*word, *allergen))
}
