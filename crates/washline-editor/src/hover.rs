//! What is told about the words under the pointer.

use washline_book::{Read, Record, Referent, Workspace};
use washline_reference as reference;
use washline_syntax::{Field, Key, LineKind, Step, Value};
use washline_text::{FileId, Span, fold};

use crate::cursor::Cursor;
use crate::naming;
use crate::topic::{self, Topic};

mod card;
pub(crate) mod goods;
mod measure;
mod table;
mod vocabulary;

/// An explanation.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Hover {
    /// The words that it is of.
    pub span: Span,
    /// The explanation, as Markdown.
    pub markdown: String,
}

/// What can be told about the words at `offset`.
#[must_use]
pub fn hover(workspace: &Workspace, file: FileId, offset: u32) -> Option<Hover> {
    let cursor = Cursor::at(workspace, file, offset)?;
    let inner = cursor.inner();
    let (_, line) = cursor.line?;
    if line.comment.is_some_and(|comment| comment.touches(inner) && comment.start < inner) {
        return None;
    }
    let (span, markdown) = match &line.what {
        LineKind::Heading(heading) => {
            let whole = heading.key.cover(heading.name);
            let record = cursor.record.filter(|_| whole.touches(inner))?;
            (whole, card::write(workspace, record))
        }
        LineKind::Field(field) => in_field(&cursor, field)?,
        LineKind::Ingredient(_) => on_line(&cursor)?,
        LineKind::Step(step) => in_step(&cursor, step)?,
        LineKind::Blank | LineKind::Comment | LineKind::Unread => return None,
    };
    Some(Hover { span: cursor.span(span), markdown })
}

/// What can be told about `topic`, as Markdown; of an entry, the one nearest to `file`.
#[must_use]
pub fn describe(workspace: &Workspace, file: FileId, topic: &Topic) -> Option<String> {
    let settings = workspace.settings_in(file);
    Some(match topic {
        Topic::Entry(key) => {
            let record = workspace.record(topic::entry(workspace, file, key)?)?;
            card::write(workspace, record)
        }
        Topic::Ingredient(id) => goods::ingredient(reference::ingredient(*id)?),
        Topic::Key(key) => vocabulary::key(*key),
        Topic::Unit(unit) => measure::unit(*unit, settings),
        Topic::Technique(technique) => vocabulary::technique(*technique),
        Topic::Glass(name) => vocabulary::glass(reference::glass(&fold(name))?, settings),
        Topic::Ice(name) => vocabulary::ice(reference::ice(&fold(name))?),
        Topic::Family(name) => vocabulary::family(name, settings)?,
        Topic::Allergen(allergen) => vocabulary::allergen(*allergen, settings),
        Topic::Rule(name) => vocabulary::rule(washline_rules::find(name)?),
    })
}

type Told = (Span, String);

fn in_field(cursor: &Cursor<'_>, field: &Field) -> Option<Told> {
    let inner = cursor.inner();
    let (workspace, file) = (cursor.workspace, cursor.file);
    let about = |span: Span, topic: Topic| Some((span, describe(workspace, file, &topic)?));
    let key = field.key?;
    if field.key_span.touches(inner) {
        return about(field.key_span, Topic::Key(key));
    }
    if !field.value_span.touches(inner) {
        return None;
    }
    if let Some(naming) = naming::at(cursor).filter(|_| key != Key::Also) {
        let topic = topic_of(workspace, naming.means)?;
        return about(naming.span, topic);
    }
    let folded = |span: Span| fold(cursor.text(span));
    match &field.value {
        Value::Vessel { name, .. } => {
            let glass = reference::glass(&folded(*name))
                .or_else(|| washline_book::glass_called(&folded(*name)))?;
            about(*name, Topic::Glass(glass.name))
        }
        Value::Terms(terms) => {
            let term = *terms.iter().find(|term| term.touches(inner))?;
            about(term, term_topic(key, &folded(term))?)
        }
        Value::Waive { rules, .. } => {
            let rule = *rules.iter().find(|rule| rule.touches(inner))?;
            let name = folded(rule).replace(' ', "-");
            about(rule, Topic::rule(washline_rules::find(&name)?))
        }
        Value::Amount(measure, _) => {
            let settings = workspace.settings_in(file);
            Some((field.value_span, measure::readings(measure, settings)?))
        }
        _ => about(field.value_span, term_topic(key, &folded(field.value_span))?),
    }
}

/// What a word of the field `key` stands for.
fn term_topic(key: Key, folded: &str) -> Option<Topic> {
    match key {
        Key::Family => Some(Topic::Family(folded.replace(' ', "-"))),
        Key::Contains | Key::MayContain | Key::FreeFrom => {
            reference::allergen_from_word(folded).map(|(allergen, _)| Topic::Allergen(allergen))
        }
        Key::Ice => reference::ice(folded).map(|ice| Topic::Ice(ice.name)),
        Key::Kind => reference::lookup(folded).map(|known| Topic::Ingredient(known.id)),
        _ => None,
    }
}

fn on_line(cursor: &Cursor<'_>) -> Option<Told> {
    let record = cursor.record?;
    let inner = cursor.inner();
    let (at, line) = cursor.line?;
    let LineKind::Ingredient(ingredient) = &line.what else { return None };
    let read = read_on(record, at);
    let second = ingredient.second.map(|second| second.span);
    let amount = second.map_or(ingredient.amount_span, |s| ingredient.amount_span.cover(s));
    if ingredient.amount_span.touches(inner) || second.is_some_and(|span| span.touches(inner)) {
        let settings = cursor.workspace.settings_of(record);
        return Some((amount, measure::of_line(record, read?, settings)?));
    }
    let naming = naming::at(cursor);
    let (span, means) = match naming {
        Some(naming) => (naming.span, naming.means),
        None if ingredient.tail.touches(inner) => {
            let read = read?;
            (read.name_span, read.referent()?)
        }
        None => return None,
    };
    let mut told = goods::referent(cursor.workspace, means)?;
    if let Some(read) = read {
        told.push_str(&goods::on_line(record, read));
    }
    Some((span, told))
}

fn in_step(cursor: &Cursor<'_>, step: &Step) -> Option<Told> {
    let record = cursor.record?;
    let inner = cursor.inner();
    let act = step.acts.iter().find(|act| act.span.touches(inner))?;
    if act.verb.touches(inner) {
        let technique = act.technique?;
        let mut told = vocabulary::technique(technique);
        told.push_str(&card::mixed(record, technique));
        return Some((act.verb, told));
    }
    if let Some((kind, span)) = act.ice.filter(|(_, span)| span.touches(inner)) {
        let name = fold(cursor.text(span));
        let known = reference::ice(&name).or_else(|| reference::ice(vocabulary::ice_word(kind)))?;
        return Some((span, vocabulary::ice(known)));
    }
    if let Some(naming) = naming::at(cursor) {
        return Some((naming.span, goods::referent(cursor.workspace, naming.means)?));
    }
    let into = act.into.filter(|into| into.touches(inner))?;
    let glass = washline_book::glass_called(&fold(cursor.text(into)))?;
    Some((into, vocabulary::glass(glass, cursor.workspace.settings_of(record))))
}

fn read_on(record: &Record, line: usize) -> Option<&Read> {
    record.reads.iter().find(|read| read.line as usize == line)
}

fn topic_of(workspace: &Workspace, means: Referent) -> Option<Topic> {
    match means {
        Referent::Entry(id) => workspace.record(id).map(Topic::of),
        Referent::Reference(id) => Some(Topic::Ingredient(id)),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::harness::House;

    fn told(text: &str) -> Option<(String, String)> {
        let (house, at) = House::at(text);
        let hover = hover(&house.workspace, at.file, at.offset)?;
        Some((house.words(hover.span).to_owned(), hover.markdown))
    }

    fn check(text: &str, of: &str, parts: &[&str]) {
        let (said, markdown) = told(text).unwrap_or_else(|| panic!("nothing told of {text}"));
        assert_eq!(said, of);
        for part in parts {
            assert!(markdown.contains(part), "{part} is not in\n{markdown}");
        }
    }

    #[test]
    fn a_heading_tells_the_figures_against_the_bands() {
        let text = "drink: Quarry| Lane\n  family: sour\n  60 ml gin\n  22.5 ml lemon juice\n  22.5 ml simple syrup\n  1 egg white\n  - shake with cubed ice, strain\n";
        check(
            text,
            "drink: Quarry Lane",
            &["| strength ", "% vol", "sour", "egg", "standard drinks", "label"],
        );
    }

    #[test]
    fn an_ingredient_tells_what_it_is_made_of() {
        check("drink: A\n  60 ml lemon ju|ice\n", "lemon juice", &["acid", "g/100 ml", "density"]);
    }

    #[test]
    fn a_prep_tells_what_is_in_it() {
        let text = "drink: A\n  15 ml honey sy|rup\n\nprep: Honey Syrup\n  yields: 700 ml\n  keeps: 2 weeks chilled\n  600 g honey\n  300 g water\n";
        let parts = [
            "prep",
            "700 ml",
            "2 weeks chilled",
            "600 g honey",
            "| yield ",
            "| 19 of 20 lie in |\n",
        ];
        check(text, "honey syrup", &parts);
    }

    #[test]
    fn an_amount_tells_its_other_readings() {
        check("drink: A\n  3/4| oz lemon juice\n", "3/4 oz", &["22.2 ml", "2.22 cl", "4.5 tsp"]);
    }

    #[test]
    fn words_of_the_notation_tell_what_they_mean() {
        check("drink: A\n  gla|ss: coupe\n", "glass", &["The glass"]);
        check("drink: A\n  glass: cou|pe\n", "coupe", &["ml"]);
        check("drink: A\n  ice: crush|ed\n", "crushed", &["ice"]);
        check("drink: A\n  family: so|ur\n", "sour", &["strength"]);
        check("drink: A\n  contains: e|gg\n", "egg", &["eu"]);
        check("drink: A\n  waive: too-t|art because so\n", "too-tart", &["too-tart"]);
        check("drink: A\n  60 ml gin\n  - st|ir with ice\n", "stir", &["water"]);
    }

    #[test]
    fn comments_and_blanks_tell_nothing() {
        assert_eq!(told("drink: A\n  60 ml gin # le|mon juice\n"), None);
        assert_eq!(told("drink: A\n|\n"), None);
    }
}
