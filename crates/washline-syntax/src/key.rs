//! The keys of fields, and which entries have them.

use crate::EntryKind;

macro_rules! keys {
    ($($name:ident $word:literal $doc:literal;)*) => {
        /// A field's key.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Key { $(#[doc = $doc] $name,)* }

        impl Key {
            /// All keys.
            pub const ALL: &'static [Self] = &[$(Self::$name,)*];

            /// As it is written.
            #[must_use]
            pub const fn word(self) -> &'static str {
                match self { $(Self::$name => $word,)* }
            }

            /// What it says, for completion and help.
            #[must_use]
            pub const fn doc(self) -> &'static str {
                match self { $(Self::$name => $doc,)* }
            }
        }
    };
}

keys! {
    House "house" "The house this book belongs to.";
    Market "market" "The markets whose law the house follows.";
    Units "units" "The units the house writes in.";
    Note "note" "Anything the next shift should know.";
    Family "family" "The family of drinks: its bands are held against the figures.";
    Glass "glass" "The glass, its capacity where the house's differs, words about it.";
    Vessel "vessel" "What it is made in.";
    Ice "ice" "The ice it is served on.";
    Serve "serve" "How it is served: up, rocks, long.";
    Serves "serves" "How many serves the lines make.";
    Portion "portion" "How much one serve is.";
    Part "part" "How much one part is.";
    Total "total" "How much all parts come to.";
    Garnish "garnish" "The garnish; several by `;`, or none.";
    Contains "contains" "The allergens it carries, or none.";
    MayContain "may-contain" "Traces it may carry.";
    FreeFrom "free-from" "A claim to keep.";
    Strength "strength" "The strength promised, % vol.";
    VariantOf "variant-of" "The drink it varies.";
    Credit "credit" "Who it comes from.";
    Menu "menu" "The words on the menu.";
    Price "price" "What the guest pays.";
    Status "status" "draft or retired.";
    Tags "tags" "Words to find it by.";
    Waive "waive" "Lets it off a rule, because of a reason.";
    Yields "yields" "How much it makes.";
    Loss "loss" "The share that is lost, % of mass.";
    Keeps "keeps" "How long it keeps, then where.";
    Store "store" "Where it is stored.";
    Also "also" "Other names for it.";
    Abv "abv" "Strength, % vol.";
    Brix "brix" "Dissolved sugar, % of mass.";
    Sugar "sugar" "Sugar, g/100 ml.";
    Acid "acid" "Titratable acid as citric, g/100 ml.";
    Salt "salt" "Salt, % of mass.";
    Fat "fat" "Fat, % of mass.";
    Density "density" "Density, g/ml.";
    Ph "ph" "pH.";
    Source "source" "Where it comes from.";
    Kind "kind" "The generic ingredient it is.";
    Dash "dash" "What one dash of its bottle gives.";
    Pack "pack" "What one pack holds.";
    Waste "waste" "The share of a pack that is wasted, %.";
    Cost "cost" "What one pack costs.";
}

impl Key {
    /// The key that `word` spells, in any case, with blanks for hyphens.
    #[must_use]
    pub fn from_word(word: &str) -> Option<Self> {
        let first = word.bytes().next()? | 0x20;
        // Most keys are not it, and their first letter tells.
        let near = |key: &&Self| key.word().as_bytes().first() == Some(&first);
        Self::ALL.iter().filter(near).copied().find(|key| same(key.word(), word))
    }

    /// Whether it may stand more than once in an entry.
    #[must_use]
    pub const fn repeats(self) -> bool {
        matches!(self, Self::Note | Self::Waive | Self::Garnish | Self::Also | Self::Tags)
    }

    /// The keys of an entry of `kind`.
    #[must_use]
    pub const fn of(kind: EntryKind) -> &'static [Self] {
        use Key::{
            Abv, Acid, Also, Brix, Contains, Cost, Credit, Dash, Density, Family, Fat, FreeFrom,
            Garnish, Glass, House, Ice, Keeps, Kind, Loss, Market, MayContain, Menu, Note, Pack,
            Part, Ph, Portion, Price, Salt, Serve, Serves, Source, Status, Store, Strength, Sugar,
            Tags, Total, Units, VariantOf, Vessel, Waive, Waste, Yields,
        };
        match kind {
            EntryKind::Lead => &[],
            EntryKind::Book => &[House, Market, Units, Note],
            EntryKind::Section => &[Note],
            EntryKind::Drink => &[
                Family, Glass, Vessel, Ice, Serve, Serves, Portion, Part, Total, Garnish, Contains,
                MayContain, FreeFrom, Strength, VariantOf, Credit, Menu, Price, Status, Tags, Note,
                Waive,
            ],
            EntryKind::Prep => &[
                Yields, Serves, Loss, Keeps, Store, Also, Contains, MayContain, FreeFrom, Abv,
                Brix, Sugar, Acid, Salt, Density, Ph, Source, Status, Tags, Note, Waive,
            ],
            EntryKind::Stock => &[
                Kind, Also, Abv, Sugar, Brix, Acid, Fat, Salt, Density, Dash, Ph, Contains,
                MayContain, Pack, Waste, Cost, Keeps, Store, Source, Status, Note, Waive,
            ],
        }
    }
}

/// A set of keys.
#[derive(Clone, Copy, Debug, Default)]
pub(crate) struct Keys(u64);

impl Keys {
    /// Adds `key`; whether it was not there yet.
    pub(crate) const fn add(&mut self, key: Key) -> bool {
        let bit = 1 << key as u32;
        let new = self.0 & bit == 0;
        self.0 |= bit;
        new
    }
}

fn same(word: &str, written: &str) -> bool {
    let mut letters = written.split(['-', ' ']).filter(|part| !part.is_empty());
    word.split('-').all(|part| letters.next().is_some_and(|l| l.eq_ignore_ascii_case(part)))
        && letters.next().is_none()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_set_holds_every_key_once() {
        let mut keys = Keys::default();
        assert!(Key::ALL.iter().all(|key| keys.add(*key)));
        assert!(!Key::ALL.iter().any(|key| keys.add(*key)));
    }

    #[test]
    fn keys_are_read_in_any_case_and_with_blanks() {
        assert_eq!(Key::from_word("Free From"), Some(Key::FreeFrom));
        assert_eq!(Key::from_word("free-from"), Some(Key::FreeFrom));
        assert_eq!(Key::from_word("free-from-x"), None);
        assert_eq!(Key::from_word("glas"), None);
    }
}
