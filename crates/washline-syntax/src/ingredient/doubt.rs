//! Amounts that are read, with a doubt.

use washline_measure::{Unit, UnitKind};

use super::tail::parts;
use crate::Problem;
use crate::amount::{Measured, unit};
use crate::reader::Reader;
use crate::slice::{gap, skip};

/// Things that nobody cuts.
const WHOLE: &[Unit] = &[
    Unit::Leaf,
    Unit::Sprig,
    Unit::Berry,
    Unit::Bean,
    Unit::Clove,
    Unit::Dash,
    Unit::Drop,
    Unit::Piece,
    Unit::Cube,
    Unit::Pinch,
];

/// `22,5` is read as 22.5.
pub(crate) fn comma(reader: &mut Reader<'_>, number: &str) {
    let bytes = number.as_bytes();
    if !bytes.contains(&b',') {
        return;
    }
    let digit = |at: Option<usize>| at.and_then(|at| bytes.get(at)).is_some_and(u8::is_ascii_digit);
    for at in memchr::memchr_iter(b',', bytes) {
        if !(digit(at.checked_sub(1)) && digit(Some(at + 1))) {
            continue;
        }
        let Some(sign) = skip(number, at).get(..1) else { continue };
        let meant = number.replacen(',', ".", 1);
        reader.tell(
            Problem::new(
                "decimal-comma",
                reader.span(number),
                format!("`{number}` is read as {meant}"),
                "write decimals with a point: a comma separates what is said of an ingredient",
            )
            .safely(format!("write `{meant}`"), vec![reader.replace(sign, ".")]),
        );
    }
}

/// `5/6 leaves` may mean five to six.
pub(crate) fn fraction(reader: &mut Reader<'_>, read: &Measured<'_>, rest: &str) {
    let Some((n, d)) = read.fraction else { return };
    let odd = d == n + 1 || !in_lowest_terms(n, d);
    if n < 2 || !odd {
        return;
    }
    let name = parts(gap(rest)).next().unwrap_or("");
    let trailing =
        || unit::at_end(name).or_else(|| unit::at_start(name).filter(|u| u.1.is_empty()));
    let unit = read.measure.unit.or_else(|| trailing().map(|(unit, _)| unit));
    let Some(unit) = unit.filter(|unit| WHOLE.contains(unit)) else { return };
    let many = unit.plural();
    let range = format!("{n}-{d}");
    let uncut = if unit.kind() == UnitKind::Count { "cuts" } else { "splits" };
    reader.tell(
        Problem::new(
            "doubtful-fraction",
            reader.span(read.number),
            format!("`{}` {many} is a fraction, and nobody {uncut} {many}", read.number),
            format!("write `{range}` if it is {n} to {d}"),
        )
        .perhaps(format!("write `{range}`"), vec![reader.replace(read.number, range)]),
    );
}

fn in_lowest_terms(n: i64, d: i64) -> bool {
    (2..=n).all(|by| n.checked_rem(by) != Some(0) || d.checked_rem(by) != Some(0))
}
