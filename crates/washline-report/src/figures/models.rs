//! The water of a stir or a shake, by the published formula and by the heat balance.

use washline_book::{Melt, Mix, Record, Settings, Temperature};
use washline_mixture::heat::equilibrium;
use washline_mixture::{Act, Composition, dilution};
use washline_reference::Sort;

/// Water gained as shares of the poured volume.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Models {
    /// What is done.
    pub act: Act,
    /// By the published formula, from the strength alone.
    pub formula: f64,
    /// By the heat balance.
    pub balance: f64,
    /// The least and the most that the heat balance allows.
    pub bounds: (f64, f64),
    /// Where the heat balance ends, °C.
    pub end_c: f64,
}

impl Models {
    /// Both models of the entry's largest stir or shake; none where it has neither.
    #[must_use]
    pub fn of(record: &Record, settings: &Settings) -> Option<Self> {
        let stirs = record.method.mixes.iter().filter_map(|mix| Some((mix, act(mix)?)));
        let (mix, act) = stirs.max_by(|(a, _), (b, _)| {
            let volume = |mix| poured(record, mix).volume_ml();
            volume(a).total_cmp(&volume(b))
        })?;
        let liquid = poured(record, mix);
        if liquid.volume_ml() <= 0.0 || record.unread {
            return None;
        }
        let strength = liquid.abv_percent() / 100.0;
        let start = start_c(record, mix, settings);
        let chilled = equilibrium(&act.chill(&liquid, start));
        let water = Composition::water(chilled.water_gained_g);
        Some(Self {
            act,
            formula: match act {
                Act::Stirred => dilution::stirred(strength),
                Act::Shaken => dilution::shaken(strength),
            },
            balance: water.volume_ml() / liquid.volume_ml(),
            bounds: act.bounds(&liquid, start),
            end_c: chilled.end_c,
        })
    }
}

const fn act(mix: &Mix) -> Option<Act> {
    match mix.melt {
        Melt::Stir => Some(Act::Stirred),
        Melt::Shake => Some(Act::Shaken),
        _ => None,
    }
}

fn poured(record: &Record, mix: &Mix) -> Composition {
    let reads = mix.lines.iter().filter_map(|line| record.reads.get(*line));
    let liquid = reads.filter(|read| read.counted && !read.sort_is(&[Sort::Ice]));
    liquid.fold(Composition::ZERO, |all, read| all.plus(&read.composition))
}

/// How warm the pour is, by mass.
fn start_c(record: &Record, mix: &Mix, settings: &Settings) -> f64 {
    let t = &settings.temperatures;
    let reads = mix.lines.iter().filter_map(|line| record.reads.get(*line));
    let (mut heat, mut mass) = (0.0, 0.0);
    for read in reads.filter(|read| read.counted) {
        let celsius = match read.temperature {
            Some(Temperature::Chilled) => t.fridge,
            Some(Temperature::Frozen) => t.freezer,
            // What a hot cup has come down to when it meets ice. Common practice, no source.
            Some(Temperature::Hot) => 70.0,
            None => t.room,
        };
        heat += read.composition.mass() * celsius;
        mass += read.composition.mass();
    }
    if mass > 0.0 { heat / mass } else { t.room }
}
