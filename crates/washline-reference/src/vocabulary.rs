//! Closed lists of words, each an enum whose members know how the data files spell them.

/// An enum with `ALL`, `id` and `from_id`, from one list of members and spellings.
macro_rules! vocabulary {
    ($(#[$outer:meta])* $name:ident { $($(#[$inner:meta])* $member:ident = $id:literal,)* }) => {
        $(#[$outer])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name { $($(#[$inner])* $member,)* }

        impl $name {
            /// All of them.
            pub const ALL: &'static [Self] = &[$(Self::$member,)*];

            /// As the data files spell it.
            #[must_use]
            pub const fn id(self) -> &'static str {
                match self { $(Self::$member => $id,)* }
            }

            /// The one that `id` spells.
            #[must_use]
            pub fn from_id(id: &str) -> Option<Self> {
                Self::ALL.iter().copied().find(|one| one.id() == id)
            }
        }
    };
}

pub(crate) use vocabulary;
