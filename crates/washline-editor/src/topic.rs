//! Something that can be told about, as a word that travels.

use std::fmt;
use std::str::FromStr;

use washline_book::{EntryId, Record, Workspace};
use washline_measure::Unit;
use washline_reference as reference;
use washline_reference::Allergen;
use washline_rules::Rule;
use washline_syntax::{Key, Technique};
use washline_text::{FileId, fold};

/// What an explanation is of. As text it is a kind and a name, and reads back.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Topic {
    /// An entry of the workspace, by its folded name.
    Entry(String),
    /// An ingredient of the reference, by its id.
    Ingredient(u16),
    /// A field's key.
    Key(Key),
    /// A unit.
    Unit(Unit),
    /// A technique of a step.
    Technique(Technique),
    /// A glass, by its name.
    Glass(&'static str),
    /// A kind of ice, by its name.
    Ice(&'static str),
    /// A family of drinks, by its word.
    Family(String),
    /// An allergen.
    Allergen(Allergen),
    /// A rule, by its name.
    Rule(&'static str),
}

impl Topic {
    /// The topic of an entry.
    pub(crate) fn of(record: &Record) -> Self {
        Self::Entry(record.key.to_string())
    }

    /// The topic of a rule.
    pub(crate) const fn rule(rule: &Rule) -> Self {
        Self::Rule(rule.name)
    }
}

impl fmt::Display for Topic {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Entry(key) => write!(f, "entry {key}"),
            Self::Ingredient(id) => {
                let name = reference::ingredient(*id).map_or("", |known| known.name);
                write!(f, "ingredient {name}")
            }
            Self::Key(key) => write!(f, "key {}", key.word()),
            Self::Unit(unit) => write!(f, "unit {}", unit.name()),
            Self::Technique(technique) => write!(f, "technique {}", technique.word()),
            Self::Glass(name) => write!(f, "glass {name}"),
            Self::Ice(name) => write!(f, "ice {name}"),
            Self::Family(name) => write!(f, "family {name}"),
            Self::Allergen(allergen) => write!(f, "allergen {}", allergen.id()),
            Self::Rule(name) => write!(f, "rule {name}"),
        }
    }
}

/// The text names nothing that can be told about.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoTopic;

impl fmt::Display for NoTopic {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("nothing is known by that name")
    }
}

impl std::error::Error for NoTopic {}

impl FromStr for Topic {
    type Err = NoTopic;

    fn from_str(text: &str) -> Result<Self, NoTopic> {
        let (kind, name) = text.split_once(' ').ok_or(NoTopic)?;
        let found = match kind {
            "entry" => Some(Self::Entry(name.to_owned())),
            "ingredient" => reference::lookup(&fold(name)).map(|one| Self::Ingredient(one.id)),
            "key" => Key::from_word(name).map(Self::Key),
            "unit" => Unit::from_words(name).map(Self::Unit),
            "technique" => {
                let same = |technique: &&Technique| technique.word() == name;
                Technique::ALL.iter().find(same).copied().map(Self::Technique)
            }
            "glass" => reference::glass(&fold(name)).map(|glass| Self::Glass(glass.name)),
            "ice" => reference::ice(&fold(name)).map(|ice| Self::Ice(ice.name)),
            "family" => Some(Self::Family(name.to_owned())),
            "allergen" => Allergen::from_id(name).map(Self::Allergen),
            "rule" => washline_rules::find(name).map(Self::rule),
            _ => None,
        };
        found.ok_or(NoTopic)
    }
}

/// The entry called `key`, one of `file` first.
pub(crate) fn entry(workspace: &Workspace, file: FileId, key: &str) -> Option<EntryId> {
    let mut called = workspace.records().iter().filter(|record| &*record.key == key);
    let first = called.next()?;
    let near = |record: &&Record| record.file == file;
    let own = std::iter::once(first).chain(called).find(near);
    Some(own.unwrap_or(first).id)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_topic_reads_back() {
        let words = [
            "entry honey syrup",
            "ingredient gin",
            "key glass",
            "unit imp oz",
            "technique dry shake",
            "glass coupe",
            "ice crushed ice",
            "family sour",
            "allergen egg",
            "rule too-tart",
        ];
        for word in words {
            let topic: Topic = word.parse().unwrap_or_else(|_| panic!("{word}"));
            assert_eq!(topic.to_string().parse(), Ok(topic));
        }
        assert_eq!("rule no-such".parse::<Topic>(), Err(NoTopic));
    }
}
