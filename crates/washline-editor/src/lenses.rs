//! The figures of an entry in a few words, above its heading.

use washline_book::{Figure, Record, Workspace};
use washline_measure::number;
use washline_text::{FileId, Kind, Span};

use crate::Switches;
use crate::cursor::records_of;

/// A few words above a line.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Lens {
    /// The heading that it stands above.
    pub span: Span,
    /// The words.
    pub title: String,
}

/// The lenses of `file`: what each drink and prep comes to.
#[must_use]
pub fn lenses(workspace: &Workspace, file: FileId, switches: &Switches) -> Vec<Lens> {
    if !switches.figures {
        return Vec::new();
    }
    let records = records_of(workspace, file).iter();
    let lens = |record: &Record| {
        let heading = record.entry.lines.first()?.content;
        let title = title(record)?;
        Some(Lens { span: record.place(heading).span, title })
    };
    records.filter_map(lens).collect()
}

/// `18 % vol · sugar 7.5, acid 0.8 g/100 ml · 105 ml`.
pub(crate) fn title(record: &Record) -> Option<String> {
    if record.kind == Kind::Stock || record.reads.is_empty() {
        return None;
    }
    if record.unread {
        return Some(format!("no figures: {}", crate::unread::why(record)));
    }
    let told =
        |figure: Figure| record.figures.value(figure).filter(|value| *value >= LEAST).map(short);
    let held = [("sugar", Figure::Sugar), ("acid", Figure::Acid)];
    let held: Vec<String> = held
        .into_iter()
        .filter_map(|(name, figure)| Some(format!("{name} {}", told(figure)?)))
        .collect();
    let words = [
        told(Figure::Abv).map(|value| format!("{value} % vol")),
        (!held.is_empty()).then(|| format!("{} g/100 ml", held.join(", "))),
        told(Figure::Final).map(|value| format!("{value} ml")),
    ];
    let mut words: Vec<String> = words.into_iter().flatten().collect();
    if words.is_empty() {
        return None;
    }
    if record.serves > 1.0 {
        words.push(format!("each of {}", number(record.serves)));
    }
    Some(words.join(" · "))
}

/// What is less than this rounds to nothing.
const LEAST: f64 = 0.05;

/// One decimal below ten, none from a hundred on: a lens is read in passing.
fn short(value: f64) -> String {
    let places = usize::from(value < 99.95);
    let text = format!("{value:.places$}");
    if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.').to_owned()
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::harness::House;

    fn told(text: &str) -> Vec<String> {
        let (house, at) = House::at(text);
        let lenses = lenses(&house.workspace, at.file, &Switches::default());
        lenses
            .into_iter()
            .map(|lens| format!("{}: {}", house.words(lens.span), lens.title))
            .collect()
    }

    #[test]
    fn a_heading_tells_what_is_in_the_glass() {
        let told = told("drink: A\n  60 ml vodka, 40 %\n  60 ml water\n  - combine\n");
        assert_eq!(told, ["drink: A: 20 % vol · 120 ml"]);
    }

    #[test]
    fn sugar_and_acid_say_in_how_much() {
        let told = told(
            "drink: A\n  60 ml vodka, 40 %\n  60 ml sugar syrup, 1:1\n  60 ml lemon juice\n  - combine\n",
        );
        let [title] = told.as_slice() else { unreachable!("{told:?}") };
        assert!(title.contains(" % vol · sugar ") && title.contains(" g/100 ml · "), "{title}");
    }

    #[test]
    fn figures_of_a_batch_are_of_one_serve() {
        let told =
            told("drink: A\n  serves: 10\n  600 ml vodka, 40 %\n  600 ml water\n  - combine\n");
        assert_eq!(told, ["drink: A: 20 % vol · 120 ml · each of 10"]);
    }

    #[test]
    fn an_unknown_name_leaves_no_figures() {
        let told = told("drink: A\n  60 ml no such thing\n");
        assert_eq!(told, ["drink: A: no figures: nothing is known as `no such thing`"]);
    }

    #[test]
    fn switched_off_nothing_is_told() {
        let (house, at) = House::at("drink: A\n  60 ml vodka\n");
        let off = Switches { figures: false, ..Switches::default() };
        assert!(lenses(&house.workspace, at.file, &off).is_empty());
    }
}
