//! Allergens and markets.

use std::fmt;

/// A market whose law a house may follow.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Market {
    /// The European Union.
    Eu,
    /// The United Kingdom.
    Uk,
    /// The United States.
    Us,
    /// Canada.
    Ca,
    /// Australia and New Zealand.
    AuNz,
}

impl Market {
    /// All of them.
    pub const ALL: [Self; 5] = [Self::Eu, Self::Uk, Self::Us, Self::Ca, Self::AuNz];

    /// As settings and outputs spell it.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Eu => "eu",
            Self::Uk => "uk",
            Self::Us => "us",
            Self::Ca => "ca",
            Self::AuNz => "au-nz",
        }
    }

    /// The market that `id` names.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|market| market.id() == id)
    }
}

/// A substance that markets ask to declare.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Allergen {
    /// Cereals with gluten; wheat alone in the United States.
    Gluten,
    /// Crustaceans.
    Crustacean,
    /// Eggs.
    Egg,
    /// Fish.
    Fish,
    /// Peanuts.
    Peanut,
    /// Soybeans.
    Soy,
    /// Milk, lactose with it.
    Milk,
    /// Tree nuts.
    Nuts,
    /// Celery.
    Celery,
    /// Mustard.
    Mustard,
    /// Sesame.
    Sesame,
    /// Sulphur dioxide and sulphites above the market's quantity.
    Sulphites,
    /// Lupin.
    Lupin,
    /// Molluscs.
    Mollusc,
}

impl Allergen {
    /// All of them, in the order of Annex II of Regulation (EU) 1169/2011.
    pub const ALL: [Self; 14] = [
        Self::Gluten,
        Self::Crustacean,
        Self::Egg,
        Self::Fish,
        Self::Peanut,
        Self::Soy,
        Self::Milk,
        Self::Nuts,
        Self::Celery,
        Self::Mustard,
        Self::Sesame,
        Self::Sulphites,
        Self::Lupin,
        Self::Mollusc,
    ];

    /// The word that `contains:` and the outputs use.
    #[must_use]
    pub const fn id(self) -> &'static str {
        match self {
            Self::Gluten => "gluten",
            Self::Crustacean => "crustacean",
            Self::Egg => "egg",
            Self::Fish => "fish",
            Self::Peanut => "peanut",
            Self::Soy => "soy",
            Self::Milk => "milk",
            Self::Nuts => "nuts",
            Self::Celery => "celery",
            Self::Mustard => "mustard",
            Self::Sesame => "sesame",
            Self::Sulphites => "sulphites",
            Self::Lupin => "lupin",
            Self::Mollusc => "mollusc",
        }
    }

    /// The allergen that `id` names.
    #[must_use]
    pub fn from_id(id: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|allergen| allergen.id() == id)
    }
}

impl fmt::Display for Allergen {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.id())
    }
}
