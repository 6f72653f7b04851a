//! Properties of one ingredient that it cannot both have.

use washline_book::{Read, syrup_brix};
use washline_syntax::Property;
use washline_text::Span;

use crate::words::number;
use crate::{Context, Report};

/// What a property is of, its value, and the unit that it is said in.
type Stated = (&'static str, f64, &'static str);

fn stated(read: &Read, property: &Property) -> Option<Stated> {
    let spirit =
        || read.ingredient().is_some_and(|known| known.abv.is_some_and(|abv| abv.value > 0.0));
    Some(match property {
        Property::Abv(x) => ("strength", x.to_f64(), "% vol"),
        Property::Percent(x) if spirit() => ("strength", x.to_f64(), "% vol"),
        Property::Brix(x) => ("sweetness", x.to_f64(), "Brix"),
        Property::Ratio { .. } => ("sweetness", syrup_brix(property, read.ingredient())?, "Brix"),
        Property::Sugar(x) => ("sugar content", x.to_f64(), "g/100 ml"),
        Property::Acid(x) => ("acidity", x.to_f64(), "% acid"),
        Property::Fat(x) => ("fat content", x.to_f64(), "% fat"),
        Property::Salt(x) => ("salt content", x.to_f64(), "% salt"),
        _ => return None,
    })
}

/// How far two statements of one thing may lie apart: as far as labels and hand refractometers
/// do. Common practice, no source.
fn spread(what: &str) -> f64 {
    match what {
        "strength" => 0.5,
        "sweetness" => 3.0,
        "sugar content" => 2.0,
        _ => 0.5,
    }
}

pub(super) fn two_properties(context: &Context<'_>, read: &Read) -> Option<Report> {
    let mut said: Vec<(Span, Stated)> = Vec::new();
    for (span, property) in &read.properties {
        let Some(one) = stated(read, property) else { continue };
        let clash = said
            .iter()
            .find(|(_, other)| other.0 == one.0 && (other.1 - one.1).abs() > spread(one.0));
        if let Some((first, other)) = clash {
            return Some(two_of(context, read, (*first, other), (*span, &one)));
        }
        said.push((*span, one));
    }
    None
}

fn two_of(
    context: &Context<'_>,
    read: &Read,
    (first, one): (Span, &Stated),
    (second, other): (Span, &Stated),
) -> Report {
    let record = context.record;
    let (written, earlier) = (record.text(second), record.text(first));
    let message = format!(
        "`{written}` is {} {}, `{earlier}` says {} {}: {} has one {}",
        number(other.1),
        other.2,
        number(one.1),
        one.2,
        read.name,
        one.0,
    );
    Report::at(context, second, message)
        .help("read the label or measure it, and keep one of the two")
        .related(record.place(first), format!("`{earlier}` stands here"))
}
