//! Sugar, acid and strength of the finished drink.

use washline_book::{Band, Figure, Read, Side, Standing};
use washline_measure::Interval;
use washline_syntax::Role;
use washline_text::Severity;

use crate::words::{list, number, typed_lines};
use crate::{Context, Report, Rule};

pub(crate) mod acid_out_of_band;
mod mend;
pub(crate) mod missing_counterpart;
pub(crate) mod strength_out_of_band;
pub(crate) mod strength_promise;
pub(crate) mod sugar_out_of_band;
pub(crate) mod too_sweet;
pub(crate) mod too_tart;
pub(crate) mod two_sweets;

pub(super) const ALL: &[&Rule] = &[
    &too_tart::RULE,
    &too_sweet::RULE,
    &sugar_out_of_band::RULE,
    &acid_out_of_band::RULE,
    &strength_out_of_band::RULE,
    &missing_counterpart::RULE,
    &strength_promise::RULE,
    &two_sweets::RULE,
];

/// A figure beyond its band.
#[derive(Clone, Copy)]
struct Beyond {
    band: Band,
    value: Interval,
    side: Side,
    /// Whether the whole range lies beyond; else it leans.
    outside: bool,
}

/// Where `figure` of a drink lies beyond the band of its family, if it does.
fn beyond(context: &Context<'_>, figure: Figure) -> Option<Beyond> {
    if !context.is_drink() {
        return None;
    }
    let (band, value, standing) = context.record.standing(figure, context.settings)?;
    let (side, outside) = match standing {
        Standing::Inside => return None,
        Standing::Leaning(side) => (side, false),
        Standing::Outside(side) => (side, true),
    };
    Some(Beyond { band, value, side, outside })
}

impl Beyond {
    /// Information; a warning far out.
    fn grave(&self) -> Severity {
        if self.band.far(self.value) { Severity::Warning } else { Severity::Information }
    }

    /// `grave` where the whole range lies beyond, on a family that the card states; a leaning
    /// figure is a hint.
    fn severity(&self, context: &Context<'_>, grave: Severity) -> Severity {
        match (self.outside, context.record.families.inferred) {
            (false, _) => Severity::Hint,
            (true, true) => grave.max(Severity::Information),
            (true, false) => grave,
        }
    }

    /// `3.2 (2.6 to 3.9), below the band of sour, 5 to 12`
    fn words(&self, context: &Context<'_>, unit: &str) -> String {
        let Interval { value, low, high } = self.value;
        let side = if self.side == Side::Below { "below" } else { "above" };
        let (leaning, reach) = match self.outside {
            true => ("", ""),
            false => ("leaning ", "; its range reaches in"),
        };
        format!(
            "{}{unit} ({} to {}), {leaning}{side} the band of {}, {}{reach}",
            number(value),
            number(low),
            number(high),
            families(context),
            self.band.words(),
        )
    }
}

/// The families whose bands hold, and whether the card says so itself.
fn families(context: &Context<'_>) -> String {
    let families = &context.record.families;
    let names: Vec<&str> = families.list.iter().map(|family| family.name.as_str()).collect();
    let said = if families.inferred { " (inferred: the card states no family)" } else { "" };
    format!("{}{said}", list(&names))
}

/// Where the ratio lies beyond its band on `side`, and nothing else tells of it: not the line
/// that is missing, nor sugar or acid that lies wholly beyond where the ratio only leans.
fn ratio(context: &Context<'_>, side: Side) -> Option<Beyond> {
    let beyond = beyond(context, Figure::Ratio).filter(|beyond| beyond.side == side)?;
    let told = missing(context).is_some()
        || !beyond.outside
            && [Figure::Sugar, Figure::Acid].into_iter().any(|figure| {
                self::beyond(context, figure)
                    .is_some_and(|other| other.outside && moves(figure, other.side) == side)
            });
    (!told).then_some(beyond)
}

/// The side to which sugar or acid beyond `side` moves the ratio.
fn moves(figure: Figure, side: Side) -> Side {
    match (figure, side) {
        (Figure::Acid, Side::Below) => Side::Above,
        (Figure::Acid, Side::Above) => Side::Below,
        (_, side) => side,
    }
}

/// Where sugar or acid lies beyond its band, and nothing else tells of it: not the ratio that
/// it moves out, nor the line that is missing, nor a drink that is thin all over.
fn concentration(context: &Context<'_>, figure: Figure) -> Option<Beyond> {
    let found = beyond(context, figure)?;
    let by_ratio = ratio(context, moves(figure, found.side)).is_some();
    let thin = || {
        found.side == Side::Below
            && beyond(context, Figure::Abv).is_some_and(|abv| abv.side == Side::Below)
    };
    (!by_ratio && missing(context).is_none() && !thin()).then_some(found)
}

/// What a drink lacks of the two that its family needs.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Missing {
    /// It sours and nothing sweetens.
    Sugar,
    /// It sweetens and nothing sours.
    Acid,
}

/// Less sugar or acid than this a serve, g, is none that a line was poured for: dashes of
/// bitters bring as much. Common practice, no source.
const NONE_G: (f64, f64) = (0.5, 0.1);
/// More than this a serve, g, asks for its counterpart: 5 ml of lemon juice, a bar spoon of
/// syrup. Common practice, no source.
const SOME_G: (f64, f64) = (2.0, 0.3);

fn missing(context: &Context<'_>) -> Option<Missing> {
    let record = context.record;
    let needs = |family: &washline_book::Family| {
        family.known.is_some_and(|known| known.needs_sugar_and_acid)
    };
    if !context.is_drink() || !record.families.list.iter().any(needs) {
        return None;
    }
    let counted = || record.reads.iter().filter(|read| read.counted);
    // A line of no known size may be just what seems to be missing.
    let open = |read: &Read| read.role == Role::Taste || read.counted && read.vague;
    if record.reads.iter().any(open) {
        return None;
    }
    let sweet: f64 =
        counted().filter(|read| !read.sours()).map(|read| read.composition.sugar).sum();
    let sour: f64 = counted().map(|read| read.composition.acid).sum();
    let (sweet, sour) = (sweet / record.serves, sour / record.serves);
    if sweet < NONE_G.0 && sour > SOME_G.1 {
        return Some(Missing::Sugar);
    }
    (sour < NONE_G.1 && sweet > SOME_G.0).then_some(Missing::Acid)
}

/// The counted line that brings most of `part`, where any brings some.
fn most<'a>(context: &Context<'a>, part: fn(&Read) -> f64) -> Option<&'a Read> {
    let counted = context.record.reads.iter().filter(|read| read.counted && part(read) > 0.0);
    counted.max_by(|a, b| part(a).total_cmp(&part(b)))
}

fn sugar(read: &Read) -> f64 {
    read.composition.sugar
}

fn acid(read: &Read) -> f64 {
    read.composition.acid
}

fn ethanol(read: &Read) -> f64 {
    read.composition.ethanol
}

/// Sugar or acid beyond its band, at the line that brings most of it.
fn out_of_band(context: &Context<'_>, figure: Figure, part: fn(&Read) -> f64) -> Option<Report> {
    let beyond = concentration(context, figure)?;
    let label = if figure == Figure::Sugar { "sugar" } else { "acid, as citric," };
    let message = format!("{label} is {}", beyond.words(context, " g/100 ml"));
    let help = match beyond.side {
        Side::Below => "pour more of what brings it, or less of what thins it",
        Side::Above => "pour less of what brings it",
    };
    let report = at_line(context, most(context, part), message).help(help);
    let report = report.severity(beyond.severity(context, beyond.grave()));
    Some(mended(report, mend::of_figure(context, figure, &beyond)))
}

/// The report with its ways to mend: amounts are a person's to confirm.
fn mended(report: Report, mends: Vec<mend::Mend>) -> Report {
    mends.into_iter().fold(report, |report, mend| report.fix(mend.title, false, mend.edits))
}

/// A finding about a figure: at the line that brings most of it, else at the drink's name. It
/// hangs on all ingredient lines.
fn at_line(context: &Context<'_>, line: Option<&Read>, message: String) -> Report {
    let report = match line {
        Some(read) => Report::at(context, read.span, message),
        None => Report::entry(context, message),
    };
    report.key(typed_lines(context.record))
}
