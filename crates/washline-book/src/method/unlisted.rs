//! What a step adds that no line lists.

use std::collections::BTreeSet;

use washline_reference::{Sort, plural};
use washline_syntax::Key;
use washline_text::{Span, fold};

use crate::workspace::from;
use crate::{ActRead, Read, Record, Referent, Resolution, Workspace};

use super::is_adding;

/// Words of an adding act that name a known ingredient.
#[derive(Clone, Debug, PartialEq)]
pub struct Unlisted {
    /// Where they stand, relative to the entry.
    pub span: Span,
    /// What they mean.
    pub resolution: Resolution,
}

/// Words behind which an act no longer says what it adds.
const ENDS: &[&str] = &[
    "into",
    "to",
    "over",
    "onto",
    "on",
    "in",
    "inside",
    "from",
    "through",
    "until",
    "till",
    "at",
    "but",
    "except",
    "without",
    "save",
    "excluding",
    "for",
    "by",
    "under",
    "before",
    "after",
    "as",
    "using",
    "against",
    "like",
    "around",
    "above",
    "between",
    "if",
];

/// The longest name that is looked for, in words.
const LONGEST: usize = 4;

/// What a bartender calls any spirit of its sort.
const ANY_SPIRIT: &[&str] = &["whiskey", "whisky", "brandy", "rum", "spirit"];

impl Workspace {
    /// What the object of the adding act `act` names that neither a line nor a garnish of
    /// `record` lists. Empty for acts that add nothing.
    #[must_use]
    pub fn unlisted(&self, record: &Record, act: &ActRead) -> Vec<Unlisted> {
        if !act.act.technique.is_some_and(is_adding) {
            return Vec::new();
        }
        let text = &record.entry.text;
        let words = object(act.act.object, text);
        let mut out = Vec::new();
        let mut at = 0;
        while at < words.len() {
            let Some((length, named)) = self.named(record, words.get(at..).unwrap_or_default())
            else {
                at += 1;
                continue;
            };
            at += length;
            if !self.lists(record, &named) {
                out.push(named);
            }
        }
        out
    }

    /// The longest known name at the start of `words`, and how many words it has.
    fn named(&self, record: &Record, words: &[Word]) -> Option<(usize, Unlisted)> {
        let joined = words.iter().take_while(|word| !word.closes).count() + 1;
        let most = LONGEST.min(words.len()).min(joined);
        (1..=most).rev().find_map(|length| {
            let run = words.get(..length)?;
            let span = run.first()?.span.cover(run.last()?.span);
            let resolution = self.names().resolve(record.text(span), &[], true, from(record));
            let known = !resolution.hits.is_empty();
            known.then_some((length, Unlisted { span, resolution }))
        })
    }

    /// Whether a line or garnish is what `named` means, or goes by some of its words.
    fn lists(&self, record: &Record, named: &Unlisted) -> bool {
        let reads = || record.reads.iter().chain(&record.garnishes);
        let meant = |read: &Read| read.referents().any(|one| named.resolution.hits.contains(&one));
        // What a house prep is made of is in the glass too.
        let within = |one: &Referent| match one {
            Referent::Reference(id) => record.reaches.iter().any(|(reached, _)| reached == id),
            Referent::Entry(_) => false,
        };
        if reads().any(meant) || named.resolution.hits.iter().any(within) {
            return true;
        }
        let said = words_of(&fold(record.text(named.span)));
        reads().any(|read| {
            let any = said.len() == 1 && said.iter().any(|word| ANY_SPIRIT.contains(&&**word));
            any && read.sort_is(&[Sort::Spirit])
                || self.spelled(read).iter().any(|spelling| {
                    let spelling = words_of(spelling);
                    !spelling.is_empty() && (said.is_subset(&spelling) || spelling.is_subset(&said))
                })
        })
    }

    /// The ways in which a line can be called, folded.
    fn spelled(&self, read: &Read) -> Vec<String> {
        let mut out = vec![fold(&read.name)];
        out.extend(read.or.iter().map(|(name, _)| fold(name)));
        for referent in read.referents() {
            out.push(fold(self.name_of(referent)));
            if let Referent::Entry(id) = referent
                && let Some(entry) = self.record(id)
            {
                out.extend(entry.terms(Key::Also).map(|(also, _)| fold(also)));
            }
        }
        if let Some(known) = read.ingredient() {
            out.push(fold(known.name));
            out.extend(known.aliases.iter().map(|alias| fold(alias)));
        }
        out
    }
}

/// A word of an object.
struct Word {
    span: Span,
    /// Whether a comma or the like behind it ends the name.
    closes: bool,
}

/// The words of `object` up to where it says where to, over what, how long.
fn object(object: Span, text: &str) -> Vec<Word> {
    let whole = object.text(text);
    let mut out = Vec::new();
    for piece in whole.split_whitespace() {
        let word = piece.trim_matches(|c: char| !c.is_alphanumeric());
        if word.is_empty() {
            continue;
        }
        if ENDS.iter().any(|end| end.eq_ignore_ascii_case(word)) {
            break;
        }
        let span = Span::of(word, whole).shift(object.start);
        out.push(Word { span, closes: !piece.ends_with(word) });
    }
    out
}

/// The words of a folded name, each in the singular.
fn words_of(folded: &str) -> BTreeSet<String> {
    let words = folded.split(' ').filter(|word| !word.is_empty());
    words
        .map(|word| {
            plural::turned(word)
                .next()
                .map_or_else(|| word.to_owned(), |turned| turned.min(word.to_owned()))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use crate::{Settings, Workspace};

    /// What the steps of a drink of `lines` add that is not listed.
    fn unlisted(lines: &str) -> Vec<String> {
        let text = format!("drink: A\n  {}\n", lines.replace("; ", "\n  "));
        let workspace =
            Workspace::new(vec![(Arc::from("a.pour"), Arc::from(text))], Settings::default());
        let record = &workspace.records()[0];
        let acts = record.method.acts.iter();
        acts.flat_map(|act| workspace.unlisted(record, act))
            .map(|named| record.text(named.span).to_owned())
            .collect()
    }

    #[test]
    fn what_is_added_and_not_listed_is_found() {
        assert_eq!(unlisted("45 ml gin; - build over ice, top with soda"), ["soda"]);
        assert_eq!(
            unlisted("45 ml gin; - muddle mint leaves and brown sugar"),
            ["mint leaves", "brown sugar"]
        );
        assert_eq!(unlisted("45 ml gin; - rinse the glass with absinthe"), ["absinthe"]);
    }

    #[test]
    fn a_line_is_listed_by_any_of_its_names() {
        for lines in [
            "45 ml bourbon; - add the whiskey",
            "60 ml soda water; - top with soda",
            "60 ml prosecco; - top with champagne",
            "8 mint leaves; - muddle the mint",
            "30 ml dark rum; 30 ml white rum; - add the rum",
            "30 ml lime juice; - add lime",
            "45 ml gin; garnish: mint sprig; - top with mint",
            "15 ml sugar syrup; - add the syrup",
            "15 ml lemon or lime juice; - add the lime",
        ] {
            assert!(unlisted(lines).is_empty(), "{lines}: {:?}", unlisted(lines));
        }
    }

    #[test]
    fn prose_behind_the_object_is_no_object() {
        for step in [
            "pour over coffee ice",
            "pour through a coffee filter",
            "stir with sugar",
            "add to the tin with tonic",
            "strain into sherry glass",
        ] {
            assert!(unlisted(&format!("45 ml gin; - {step}")).is_empty(), "{step}");
        }
    }
}
