//! A finished prep as its figures are computed.

use washline_mixture::Composition;

use crate::figures::{Figure, Poured};
use crate::mix::Watering;
use crate::{Figures, Record, Settings, prep};

/// A finished prep as it is computed: no ice, all of it (or per serve).
pub(super) fn prep_poured(record: &Record, composed: &prep::Composed) -> Poured {
    let volume = composed.finished.volume_ml();
    let units = if composed.makeup.liquid { volume } else { composed.finished.mass() };
    let outside = |(input, shift): &(_, _)| (*input, Composition::ZERO, *shift);
    Poured {
        outside: composed.makeup.one.times(units),
        watering: Some(Watering::DRY),
        shifts: composed.shifts.iter().map(outside).collect(),
        serves: record.serves,
        ..Poured::default()
    }
}

/// The figures of a finished prep.
pub(super) fn prep_figures(
    record: &Record,
    composed: &prep::Composed,
    settings: &Settings,
) -> Figures {
    let mut figures = prep_poured(record, composed).figures(settings.temperatures.freezer);
    for none in [Figure::Dilution, Figure::WaterShare, Figure::AbvBefore] {
        figures.set(none, None);
    }
    if composed.finished.volume_ml() > 0.0 {
        figures.sulphites_mg_per_l = Some(composed.makeup.sulphites * 1000.0);
        figures.quinine_mg_per_l = Some(composed.makeup.quinine * 1000.0);
    }
    figures
}
