//! `[[expect]]`: what the house expects of some of its entries.

use washline_syntax::{EntryKind, Key as Field, Technique};
use washline_text::{Kind, fold};

use super::cards;
use super::keys::{Holds, Key, names};
use super::reader::{Entry, Fields, Reader};
use super::value::{self, Item, Read, choice, error, one_or_many, refuse, span};
use super::words::did_you_mean;

/// The keys of one expectation.
pub(super) static KEYS: [Key; 7] = [
    Key {
        name: "of",
        what: "the kind of entry that it speaks of",
        why: "preps and stock have habits too",
        holds: Holds::Word(&["drink", "prep", "stock"]),
        unset: "drinks",
        examples: &["\"prep\""],
    },
    Key {
        name: "family",
        what: "only drinks of this family",
        why: "a highball is built as the house builds highballs",
        holds: Holds::Family,
        unset: "drinks of any family",
        examples: &["\"highball\""],
    },
    Key {
        name: "tag",
        what: "only entries with this tag",
        why: "what the house tags it treats alike",
        holds: Holds::Text,
        unset: "with any tag or none",
        examples: &["\"batch\""],
    },
    Key {
        name: "field",
        what: "the field that they are to have",
        why: "what every such card must say",
        holds: Holds::Word(&cards::FIELDS),
        unset: "`step` says what is expected",
        examples: &["\"ice\""],
    },
    Key {
        name: "is",
        what: "the words one of which the field is to say",
        why: "one ice, one glass for all of a kind",
        holds: Holds::Texts,
        unset: "it may say anything",
        examples: &["[\"cubed\", \"spear\"]", "\"highball\""],
    },
    Key {
        name: "step",
        what: "the technique that a step is to begin with",
        why: "what every such drink is done with",
        holds: Holds::Word(&TECHNIQUES),
        unset: "`field` says what is expected",
        examples: &["\"double strain\""],
    },
    Key {
        name: "because",
        what: "the house's reason, told with the finding",
        why: "who knows why keeps to it",
        holds: Holds::Text,
        unset: "none is told",
        examples: &["\"one spear lasts the drink\""],
    },
];

/// The words of every technique.
const TECHNIQUES: [&str; Technique::ALL.len()] = technique_words();

#[expect(clippy::indexing_slicing, reason = "the compiler runs it, and refuses what is beyond")]
const fn technique_words() -> [&'static str; Technique::ALL.len()] {
    let mut words = [""; Technique::ALL.len()];
    let mut at = 0;
    while at < words.len() {
        words[at] = Technique::ALL[at].word();
        at += 1;
    }
    words
}

/// What the house expects of the entries that it speaks of: that they have a field, that the
/// field says one of some words, or that a step does something.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Expectation {
    /// The kind of entry.
    pub of: Kind,
    /// Only drinks of this family; in lower case with hyphens.
    pub family: Option<String>,
    /// Only entries with this tag; folded.
    pub tag: Option<String>,
    /// What they are to have or to do.
    pub wants: Wanted,
    /// The house's reason.
    pub because: Option<String>,
}

/// What is expected of an entry.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Wanted {
    /// That the field is there.
    Field(Field),
    /// That the field says one of these words; as the house wrote them, never empty.
    Word(Field, Vec<String>),
    /// That a step does this.
    Step(Technique),
}

impl Expectation {
    /// What is expected, in one clause: `drinks of family highball say ice: cubed or spear`.
    #[must_use]
    pub fn words(&self) -> String {
        let of = match self.of {
            Kind::Stock => "stock".to_owned(),
            kind => format!("{}s", kind.name()),
        };
        let family = self.family.as_ref().map(|family| format!(" of family {family}"));
        let tag = self.tag.as_ref().map(|tag| format!(" tagged {tag}"));
        let of = format!("{of}{}{}", family.unwrap_or_default(), tag.unwrap_or_default());
        match &self.wants {
            Wanted::Field(field) => format!("{of} say {}", field.word()),
            Wanted::Word(field, words) => {
                format!("{of} say {}: {}", field.word(), words.join(" or "))
            }
            Wanted::Step(technique) => format!("{of}: {}", technique.word()),
        }
    }
}

const HELP: &str = "write `[[expect]]`, and under it `family = \"highball\"`, `field = \"ice\"`, \
                    `is = [\"cubed\", \"spear\"]`";
const WANTS: &str = "write `field = \"ice\"` or `step = \"double strain\"`";
const KINDS: [(&str, Kind); 3] =
    [("drink", Kind::Drink), ("prep", Kind::Prep), ("stock", Kind::Stock)];

/// `[[expect]]`
pub(super) fn expect(reader: &mut Reader, entry: Entry) -> Read<()> {
    let Some(items) = entry.value.get_ref().as_array() else {
        return refuse(entry.value, "expectations stand in a list of tables", HELP);
    };
    let before = reader.settings.expect.len();
    for item in items.iter() {
        let read = one(reader, item);
        let read = reader.take(read);
        reader.settings.expect.extend(read);
    }
    if reader.settings.expect.len() > before {
        reader.say("expect".to_owned(), entry.value);
    }
    Ok(())
}

fn one(reader: &mut Reader, item: &Item) -> Read<Expectation> {
    let fields = reader.fields(item, "[[expect]]", &names(&KEYS), HELP)?;
    let of = match fields.get("of") {
        Some(item) => {
            choice(item, "kind of entry", &KINDS, "write \"drink\", \"prep\", \"stock\"")?
        }
        None => Kind::Drink,
    };
    let family = match fields.get("family") {
        Some(item) => Some(family(reader, item, of)?),
        None => None,
    };
    let tag = match fields.get("tag") {
        Some(item) => Some(fold(value::text(item, "write `tag = \"batch\"`")?)),
        None => None,
    };
    let because = match fields.get("because") {
        Some(item) => Some(value::text(item, "write `because = \"…\"`")?.to_owned()),
        None => None,
    };
    Ok(Expectation { of, family, tag, wants: wanted(&fields, item, of)?, because })
}

/// A family that is known, or that the house adds.
fn family(reader: &Reader, item: &Item, of: Kind) -> Read<String> {
    let help = "write `family = \"sour\"`, a family that is known";
    let written = value::text(item, help)?;
    if of != Kind::Drink {
        return refuse(item, "only drinks have a family", "take `family` or `of` out");
    }
    let name = fold(written).replace(' ', "-");
    let own = reader.settings.families.keys().map(String::as_str);
    let mut all = reader.known.families.iter().copied().chain(own);
    if all.any(|known| known == name) {
        return Ok(name);
    }
    let help = did_you_mean(written, reader.known.families.iter().copied(), help);
    refuse(item, format!("no family is called `{written}`"), help)
}

fn wanted(fields: &Fields, item: &Item, of: Kind) -> Read<Wanted> {
    let is = fields.get("is");
    match (fields.get("field"), fields.get("step")) {
        (None, None) => refuse(item, "nothing is expected here", WANTS),
        (Some(_), Some(step)) => {
            let help = "write a second [[expect]] for the step";
            Err(error(span(step), "one [[expect]] asks for one thing", help))
        }
        (None, Some(step)) => match is {
            Some(is) => refuse(is, "`is` goes with `field`", WANTS),
            None => technique(step).map(Wanted::Step),
        },
        (Some(field), None) => {
            let key = cards::field(field, &[entry_kind(of)])?;
            let Some(is) = is else { return Ok(Wanted::Field(key)) };
            let words = one_or_many(is).iter().map(word).collect::<Read<Vec<String>>>()?;
            if words.is_empty() {
                return refuse(is, "no word is left that the field could say", HELP);
            }
            Ok(Wanted::Word(key, words))
        }
    }
}

fn word(item: &Item) -> Read<String> {
    value::text(item, "write `is = [\"cubed\", \"spear\"]`").map(str::to_owned)
}

fn technique(item: &Item) -> Read<Technique> {
    let help = "write `step = \"double strain\"`, a technique that steps begin with";
    let written = value::text(item, help)?;
    let folded = fold(written);
    let whole = Technique::ALL.iter().copied().find(|technique| {
        technique.word() == folded || technique.others().contains(&folded.as_str())
    });
    match whole {
        Some(technique) => Ok(technique),
        None => {
            let words = Technique::ALL.iter().map(|technique| technique.word());
            let help = did_you_mean(written, words, help);
            refuse(item, format!("no technique is called `{written}`"), help)
        }
    }
}

const fn entry_kind(of: Kind) -> EntryKind {
    match of {
        Kind::Drink => EntryKind::Drink,
        Kind::Prep => EntryKind::Prep,
        Kind::Stock => EntryKind::Stock,
    }
}

#[cfg(test)]
mod tests {
    use super::super::checks::{KNOWN, right, wrong};
    use super::super::read_over;
    use super::*;

    #[test]
    fn a_field_a_word_or_a_step_is_expected() {
        let expect = right(
            "[[expect]]\nfamily = 'Highball'\nfield = 'ice'\nis = ['cubed', 'spear']\n\
             because = 'one spear lasts the drink'\n\
             [[expect]]\nof = 'prep'\ntag = 'Batch'\nfield = 'store'\n\
             [[expect]]\nfamily = 'sour'\nstep = 'double strain'",
        )
        .expect;
        let words = vec!["cubed".to_owned(), "spear".to_owned()];
        let wants: Vec<_> = expect.iter().map(|one| one.wants.clone()).collect();
        let expected = [
            Wanted::Word(Field::Ice, words),
            Wanted::Field(Field::Store),
            Wanted::Step(Technique::DoubleStrain),
        ];
        assert_eq!(wants, expected);
        assert_eq!(expect[0].family.as_deref(), Some("highball"));
        assert_eq!((expect[1].of, expect[1].tag.as_deref()), (Kind::Prep, Some("batch")));
    }

    #[test]
    fn a_family_of_the_house_may_be_meant() {
        let text = "[[expect]]\nfamily = 'garden sour'\nfield = 'note'\n\
                    [families.garden-sour]\nlike = 'sour'";
        assert_eq!(right(text).expect.len(), 1);
    }

    #[test]
    fn a_venue_adds_to_what_its_group_expects() {
        let group = right("[[expect]]\nfield = 'price'");
        let both = read_over(group, "[[expect]]\nfield = 'menu'", &KNOWN).unwrap();
        assert_eq!(both.expect.len(), 2);
    }

    #[test]
    fn wrong_expectations_point_at_themselves() {
        wrong(
            "[[expect]]\nfamily = 'sours'\nfield = 'ice'\n\
             [[expect]]\nfield = 'yields'\n[[expect]]\nstep = 'double strian'\n\
             [[expect]]\nof = 'dring'\nfield = 'ice'\n[[expect]]\nfield = 'ice'\nis = []\n\
             [[expect]]\nfild = 'ice'\nstep = 'shake'",
            &[
                ("'sours'", "no family is called `sours`", "did you mean `sour`?"),
                ("'yields'", "a drink has no `yields:`", "such as \"glass\""),
                ("'double strian'", "no technique is called `double strian`", "`double strain`?"),
                ("'dring'", "`dring` is no kind of entry", "did you mean `drink`?"),
                ("[]", "no word is left that the field could say", "is = "),
                ("fild", "`fild` is no key of [[expect]]", "did you mean `field`?"),
            ],
        );
        wrong(
            "[[expect]]\nfamily = 'sour'\n[[expect]]\nfield = 'ice'\nstep = 'shake'\n\
             [[expect]]\nof = 'prep'\nfamily = 'sour'\nfield = 'keeps'\n\
             [[expect]]\nstep = 'shake'\nis = 'x'",
            &[
                ("[[expect]]", "nothing is expected here", "write `field"),
                ("'shake'", "one [[expect]] asks for one thing", "a second [[expect]]"),
                ("'sour'", "only drinks have a family", "take `family`"),
                ("'x'", "`is` goes with `field`", "write `field"),
            ],
        );
        wrong(
            "[expect]\nfield = 'ice'",
            &[("[expect]", "expectations stand in a list of tables", "write `[[expect]]`")],
        );
    }
}
