//! Steps: what is done, act by act.

use washline_measure::{Unit, UnitKind};

use crate::amount::measure;
use crate::reader::Reader;
use crate::slice::{self, gap};
use crate::{Act, LineKind, Problem, Step};
use split::Cut;

mod clause;
mod ice;
mod misspelt;
pub(crate) mod split;
mod temperature;
pub(crate) mod time;
pub(crate) mod vocabulary;

pub(crate) use ice::is_size;
pub use ice::of as ice_of;
pub(crate) use time::duration;
pub(crate) use vocabulary::at_start;
pub use vocabulary::technique_at_start;

/// The text behind `- `, or behind a `-` that ends the line.
pub(crate) fn after_bullet(content: &str) -> Option<&str> {
    let behind = content.strip_prefix('-')?;
    let text = gap(behind);
    (behind.is_empty() || text.len() < behind.len()).then_some(text)
}

/// Reads the text behind a bullet.
pub(crate) fn read<'t>(reader: &mut Reader<'t>, text: &'t str) -> LineKind {
    let span = reader.span(text);
    if text.is_empty() {
        let line = reader.whole_line();
        let at = reader.span(crate::blank::trim(line));
        reader.tell(Problem::new(
            "empty-step",
            at,
            "this step says nothing",
            "write what is done behind the bullet, or take the line out",
        ));
        return LineKind::Step(Box::new(Step { text: span, acts: Vec::new() }));
    }
    measured(reader, text);
    let acts = split::acts(text).map(|act| read_act(reader, act)).collect();
    LineKind::Step(Box::new(Step { text: span, acts }))
}

/// A step that opens with a measure is an ingredient line with a bullet too many.
fn measured<'t>(reader: &mut Reader<'t>, text: &'t str) {
    if !text.starts_with(|c: char| c.is_numeric()) {
        return;
    }
    let Ok((rest, read)) = measure(text) else { return };
    let poured = read.measure.unit.map(Unit::kind);
    let poured = poured.is_some_and(|kind| kind != UnitKind::Count) && !gap(rest).is_empty();
    if !poured {
        return;
    }
    let line = crate::blank::trim(reader.whole_line());
    let bullet = slice::taken(line, slice::skip(line, line.len() - from(line, text).len()));
    let problem = Problem::new(
        "wrong-bullet",
        reader.span(bullet.trim_end()),
        format!("this step starts with an amount: `{}`", read.text),
        "an ingredient line has no bullet; a step starts with what is done",
    );
    let edits = vec![reader.replace(bullet, "")];
    reader.tell(problem.perhaps("make it an ingredient line", edits));
}

/// `line` from where `text`, a part of it, starts.
fn from<'t>(line: &'t str, text: &str) -> &'t str {
    slice::skip(line, washline_text::Span::of(text, line).start as usize)
}

/// Reads one act.
fn read_act(reader: &Reader<'_>, act: Cut<'_>) -> Act {
    let Cut { text, verb } = act;
    let from = washline_text::Span::of(verb.words, text);
    let object = gap(slice::skip(text, from.end as usize));
    let said = match verb.technique {
        Some(_) => clause::read(verb.words, object, verb.technique),
        None => clause::read(slice::start(text), slice::skip(text, from.start as usize), None),
    };
    Act {
        technique: verb.technique,
        meant: verb.meant,
        verb: reader.span(verb.words),
        span: reader.span(text),
        object: reader.span(object),
        ice: said.ice.map(|(ice, words)| (ice, reader.span(words))),
        no_ice: said.no_ice,
        seconds: said.seconds,
        celsius: said.celsius,
        into: said.into.map(|words| reader.span(words)),
        until: said.until.map(|words| reader.span(words)),
        stated: said.stated,
    }
}
