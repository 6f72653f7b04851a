//! Parts of fruits and eggs: `juice of 1/2 lime`, `half a lime, juiced`.

use washline_text::Span;

use super::{Head, doubt};
use crate::amount::{measure, placed};
use crate::reader::Reader;
use crate::slice::{gap, one_of, phrase, taken};
use crate::{Amount, Part, Role};

pub(crate) const PARTS: &[(&str, Part)] = &[
    ("juice", Part::Juice),
    ("zest", Part::Zest),
    ("peel", Part::Peel),
    ("white", Part::White),
    ("whites", Part::White),
    ("yolk", Part::Yolk),
    ("yolks", Part::Yolk),
    ("zests", Part::Zest),
    ("peels", Part::Peel),
];

/// Words behind a whole fruit or egg that leave one part of it.
const LEFT: &[(&str, Part)] = &[
    ("juiced", Part::Juice),
    ("juice only", Part::Juice),
    ("zest only", Part::Zest),
    ("white only", Part::White),
    ("whites only", Part::White),
    ("yolk only", Part::Yolk),
    ("yolks only", Part::Yolk),
];

/// `the juice of 1/2 lime`.
pub(super) fn read<'t>(reader: &mut Reader<'t>, content: &'t str) -> Option<(Head<'t>, &'t str)> {
    let start = phrase(content, "the").map_or(content, gap);
    let (part, rest) = one_of(start, PARTS)?;
    let rest = phrase(gap(rest), "of").or_else(|| phrase(gap(rest), "from"))?;
    let (rest, counted) = measure(gap(rest)).ok()?;
    doubt::comma(reader, counted.number);
    doubt::fraction(reader, &counted, rest);
    let text = taken(content, rest);
    let amount = Amount::PartOf(part, placed(reader, &counted));
    Some((Head { amount, text, role: Role::Poured }, rest))
}

/// Turns a count of whole things into a part of them where a qualifier says so.
pub(super) fn of_qualifier(reader: &Reader<'_>, amount: &mut Amount, qualifiers: &[Span]) {
    let Amount::Measures(terms) = amount else { return };
    let &mut [only] = terms.as_mut_slice() else { return };
    if only.measure.unit.is_some() {
        return;
    }
    let said = qualifiers.iter().find_map(|span| {
        let text = span.text(reader.text).trim();
        one_of(text, LEFT).filter(|(_, rest)| rest.is_empty()).map(|(part, _)| part)
    });
    if let Some(part) = said {
        *amount = Amount::PartOf(part, only);
    }
}
