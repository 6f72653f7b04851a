//! How much water the mixing of a drink gives it.

use washline_mixture::{Act, Composition, dilution};
use washline_reference as reference;
use washline_syntax::{Ice, Technique};

use crate::figures::WATER_G_PER_ML;
use crate::{Melt, Method, Mix, Read, Settings, Temperature};

/// How the main mix waters what is in the vessel, and what other mixes add.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Watering {
    model: Model,
    /// Share of the poured volume by which ice and force move the model.
    shift: f64,
    /// One standard uncertainty of the share.
    u: f64,
    /// Water of other mixes, ml.
    more_ml: f64,
}

#[derive(Clone, Copy, Debug, Default, PartialEq)]
enum Model {
    #[default]
    None,
    /// A published formula, where it was measured.
    Formula(Act),
    /// Elsewhere, what the heat balance makes of it: a share at a strength, and its slope.
    Line {
        abv: f64,
        share: f64,
        slope: f64,
    },
    Share(f64),
    Millilitres(f64),
    To(f64),
}

/// Residuals of the formulas, one standard uncertainty as a share of the pour: half of the
/// published spreads of ± 10 and ± 5 points.
const STIR_U: f64 = 0.05;
const SHAKE_U: f64 = 0.025;

impl Watering {
    /// Nothing is added.
    pub(crate) const DRY: Self = Self { model: Model::None, shift: 0.0, u: 0.0, more_ml: 0.0 };

    /// A shake in ordinary time, for tests.
    #[cfg(test)]
    pub(crate) const fn shaken() -> Self {
        Self { model: Model::Formula(Act::Shaken), u: SHAKE_U, ..Self::DRY }
    }

    /// The water gained by `inside`, ml, with the share moved by `residual`.
    pub(crate) fn melt_ml(&self, inside: &Composition, residual: f64) -> f64 {
        let volume = inside.volume_ml();
        if volume <= 0.0 {
            return self.more_ml;
        }
        let share = self.share(inside, volume) + residual;
        (share * volume).max(0.0) + self.more_ml
    }

    /// The name of the model: what it does not know is the same wherever it is used.
    pub(crate) fn model_name(&self) -> String {
        match self.model {
            Model::None => "none".to_owned(),
            Model::Formula(Act::Stirred) => "stirred".to_owned(),
            Model::Formula(Act::Shaken) => "shaken".to_owned(),
            Model::Line { .. } => "heat balance".to_owned(),
            Model::Share(share) => format!("share {share}"),
            Model::Millilitres(_) | Model::To(_) => "stated".to_owned(),
        }
    }

    /// One standard uncertainty of the share.
    pub(crate) const fn residual(&self) -> f64 {
        self.u
    }

    fn share(&self, inside: &Composition, volume: f64) -> f64 {
        let share = match self.model {
            Model::None => return 0.0,
            Model::Share(share) => share,
            Model::Millilitres(ml) => return ml / volume,
            Model::To(ml) => return (ml - volume).max(0.0) / volume,
            Model::Formula(Act::Stirred) => dilution::stirred(inside.abv_percent() / 100.0),
            Model::Formula(Act::Shaken) => dilution::shaken(inside.abv_percent() / 100.0),
            Model::Line { abv, share, slope } => share + slope * (inside.abv_percent() - abv),
        };
        (share + self.shift).max(0.0)
    }
}

/// What is mixed where, and how much water it gains; `None` where nobody says how the
/// drink is made.
pub(crate) fn watering(
    method: &Method,
    reads: &[Read],
    settings: &Settings,
    default: Option<Melt>,
) -> (Option<Watering>, Vec<bool>) {
    let mut inside = vec![false; reads.len()];
    let models: Vec<(Watering, f64)> = method
        .mixes
        .iter()
        .map(|mix| {
            let composition = sum(reads, &mix.lines);
            let watering = model(mix, method, reads, settings, &composition);
            let share = share_of(&watering, &composition);
            (watering, share)
        })
        .collect();
    // A line that meets ice in two mixes takes the larger.
    let mut taken: Vec<Vec<usize>> = vec![Vec::new(); method.mixes.len()];
    for line in 0..reads.len() {
        let best = method
            .mixes
            .iter()
            .zip(&models)
            .enumerate()
            .filter(|(_, (mix, (_, share)))| mix.lines.contains(&line) && *share > 0.0)
            .max_by(|a, b| a.1.1.1.total_cmp(&b.1.1.1));
        if let Some((at, _)) = best
            && let Some(lines) = taken.get_mut(at)
        {
            lines.push(line);
        }
    }
    let main = (0..taken.len()).max_by(|a, b| {
        let volume = |n: &usize| taken.get(*n).map_or(0.0, |lines| sum(reads, lines).volume_ml());
        volume(a).total_cmp(&volume(b))
    });
    let Some(main) = main.filter(|n| taken.get(*n).is_some_and(|lines| !lines.is_empty())) else {
        return (without_ice(method, reads, settings, default, &mut inside), inside);
    };
    let Some((mut watering, _)) = models.get(main).copied() else { return (None, inside) };
    for line in taken.get(main).into_iter().flatten() {
        if let Some(slot) = inside.get_mut(*line) {
            *slot = true;
        }
    }
    for (at, lines) in taken.iter().enumerate() {
        if at != main
            && let Some((other, _)) = models.get(at)
        {
            watering.more_ml += other.melt_ml(&sum(reads, lines), 0.0);
        }
    }
    (Some(watering), inside)
}

/// No mix with ice: a default of the serve (a punch round a block, a drink poured over
/// ice), or none at all.
fn without_ice(
    method: &Method,
    reads: &[Read],
    settings: &Settings,
    default: Option<Melt>,
    inside: &mut [bool],
) -> Option<Watering> {
    let melt = default?;
    for (slot, read) in inside.iter_mut().zip(reads) {
        *slot = !crate::method::outside(read);
    }
    let lines: Vec<usize> = (0..reads.len()).collect();
    let mix = Mix { act: usize::MAX, technique: Technique::Build, lines, melt };
    let composition = sum(reads, &mix.lines);
    Some(model(&mix, method, reads, settings, &composition))
}

fn share_of(watering: &Watering, composition: &Composition) -> f64 {
    let volume = composition.volume_ml();
    if volume > 0.0 { watering.melt_ml(composition, 0.0) / volume } else { 0.0 }
}

/// What is mixed, ice left out; still water counts, since it is in the vessel.
pub(crate) fn sum(reads: &[Read], lines: &[usize]) -> Composition {
    lines
        .iter()
        .filter_map(|line| reads.get(*line))
        .filter(|read| read.counted && !read.sort_is(&[reference::Sort::Ice]))
        .fold(Composition::ZERO, |total, read| total.plus(&read.composition))
}

fn model(
    mix: &Mix,
    method: &Method,
    reads: &[Read],
    settings: &Settings,
    composition: &Composition,
) -> Watering {
    let act = method.act(mix.act).map(|act| &act.act);
    let mut watering = Watering::DRY;
    let named = |watering: &mut Watering, name: &str| {
        let house = settings
            .techniques
            .get(name)
            .map(|(value, low, high)| (*value, (high - low).abs() / 4.0));
        let known = || {
            let share = reference::technique(name)?.share?;
            Some((share.value, share.estimate().u))
        };
        let (share, u) = house.or_else(known).unwrap_or((0.0, 0.0));
        watering.model = Model::Share(share);
        watering.u = u;
    };
    match mix.melt {
        Melt::None => return Watering::DRY,
        Melt::Stir | Melt::Shake => {
            let shaken = mix.melt == Melt::Shake;
            let name = if shaken { "shake" } else { "stir" };
            if settings.techniques.contains_key(name) {
                named(&mut watering, name);
                return watering;
            }
            watering.u = if shaken { SHAKE_U } else { STIR_U };
            let as_act = if shaken { Act::Shaken } else { Act::Stirred };
            let seconds = act.and_then(|act| act.seconds).map(|(l, h)| f64::midpoint(l, h));
            let start = start_c(reads, &mix.lines, settings);
            watering.model = by_act(as_act, composition, start, seconds);
            if mix.technique == Technique::HardShake {
                // The high half of the spread.
                watering.shift += watering.u;
            }
            watering.shift += ice_shift(shaken, act.and_then(|act| act.ice).map(|(ice, _)| ice));
        }
        Melt::Share(name) => named(&mut watering, name),
        Melt::IceOf(name) => {
            let grams = reference::technique(name).and_then(|t| t.ice_g);
            let estimate = grams.map_or_else(Default::default, |datum| datum.estimate());
            watering.model = Model::Millilitres(estimate.value / WATER_G_PER_ML);
            let volume = composition.volume_ml();
            watering.u = if volume > 0.0 { estimate.u / volume } else { 0.0 };
        }
        Melt::Ice(grams, melted) => {
            watering.model = Model::Millilitres(grams * melted / WATER_G_PER_ML);
            let volume = composition.volume_ml();
            watering.u = if volume > 0.0 { 0.1 * grams / volume } else { 0.0 };
        }
        Melt::To(ml) => watering.model = Model::To(ml),
        Melt::By(share) => watering.model = Model::Share(share),
    }
    watering
}

/// The formula where it was measured: from 12 to 43 % vol, at room temperature, in
/// ordinary time. Elsewhere the heat balance carries it on.
fn by_act(act: Act, composition: &Composition, start: f64, seconds: Option<f64>) -> Model {
    let abv = composition.abv_percent();
    let ordinary = seconds.is_none_or(|s| (10.0..=40.0).contains(&s));
    if ordinary && (start - 20.0).abs() < 0.5 && (12.0..=43.0).contains(&abv) {
        return Model::Formula(act);
    }
    let at = |c: &Composition| dilution::gained(act, c, start, seconds);
    let share = at(composition);
    let stronger = Composition { ethanol: composition.ethanol * 1.02 + 0.1, ..*composition };
    let away = stronger.abv_percent() - abv;
    let slope = if away.abs() > 1e-6 { (at(&stronger) - share) / away } else { 0.0 };
    Model::Line { abv, share, slope }
}

/// The temperature of what is poured, by mass.
pub(crate) fn start_c(reads: &[Read], lines: &[usize], settings: &Settings) -> f64 {
    let t = &settings.temperatures;
    let (mut heat, mut mass) = (0.0, 0.0);
    for read in lines.iter().filter_map(|line| reads.get(*line)).filter(|read| read.counted) {
        let grams = read.composition.mass();
        let celsius = match read.temperature {
            Some(Temperature::Chilled) => t.fridge,
            Some(Temperature::Frozen) => t.freezer,
            // Hot things meet ice at what a cup has come down to. Common practice, no source.
            Some(Temperature::Hot) => 70.0,
            None => t.room,
        };
        heat += grams * celsius;
        mass += grams;
    }
    if mass > 0.0 { heat / mass } else { t.room }
}

/// One big rock melts less in a shake, small wet ice more: 5 points of the pour each.
fn ice_shift(shaken: bool, ice: Option<Ice>) -> f64 {
    if !shaken {
        return 0.0;
    }
    match ice {
        Some(Ice::LargeCube | Ice::Sphere | Ice::Block) => -0.05,
        Some(Ice::Crushed | Ice::Pebble | Ice::Shaved | Ice::Cracked) => 0.05,
        _ => 0.0,
    }
}
