//! What leaves a prep: the water that boils off, solids with what they hold, fat at a wash, curd.

use washline_measure::Estimate;
use washline_mixture::Composition;
use washline_reference::constants::{
    FAT_WASH_TAKES, MILK_WASH_YIELDS, OPEN_BOIL_LOSES, PAPER_FILTER_HOLDS_ML, SOLIDS_HOLD,
};
use washline_reference::{Sort, Trait};
use washline_syntax::{Key, Technique};
use washline_text::fold;

use crate::{ActRead, Input, Method, Read, Record};

use super::used::Line;
use super::{Loss, share};

/// What leaves a prep, and how well that is known.
#[derive(Clone, Debug, Default)]
pub(super) struct Leaving {
    entry: u32,
    /// Share of the water that boils off.
    boiled: Estimate,
    /// What goes in when the strain is over, and loses nothing to it, g.
    late: Composition,
    /// Solids, protein and fat that a strain takes out, g.
    solids: Composition,
    /// Liquor that stays in them and in filters, g.
    held: Estimate,
    /// Share that a wash or a clarifying lets through.
    washed: Estimate,
    /// Share of the mass that is lost, as the entry states.
    stated: Option<f64>,
    /// Whether a strain, a filter or a wash takes anything.
    pub strained: bool,
}

/// The acts that boil water off in an open pan.
const BOILS: &[Technique] = &[Technique::Boil, Technique::Simmer, Technique::Reduce];

/// The acts over heat.
pub(super) const HEATED: &[Technique] = &[
    Technique::Boil,
    Technique::Simmer,
    Technique::Reduce,
    Technique::Heat,
    Technique::Warm,
    Technique::Cook,
    Technique::Blanch,
    Technique::Melt,
    Technique::Toast,
];

/// The acts after which no sum of the lines holds: gas, drying, whipping.
pub(super) const UNSETTLING: &[Technique] =
    &[Technique::Ferment, Technique::Dry, Technique::Charge, Technique::WhipShake];

/// The acts at which solids leave.
const STRAINS: &[Technique] = &[
    Technique::Strain,
    Technique::DoubleStrain,
    Technique::FineStrain,
    Technique::Press,
    Technique::Filter,
    Technique::Discard,
    Technique::Skim,
    Technique::FatWash,
    Technique::Clarify,
    Technique::MilkWash,
];

/// The acts that make a fruit give up its water.
const BREAKS: &[Technique] = &[
    Technique::Boil,
    Technique::Simmer,
    Technique::Reduce,
    Technique::Heat,
    Technique::Warm,
    Technique::Cook,
    Technique::SousVide,
    Technique::Muddle,
    Technique::Press,
    Technique::Blend,
    Technique::FlashBlend,
    Technique::Crack,
    Technique::Macerate,
    Technique::Juice,
    Technique::Squeeze,
];

impl Leaving {
    /// What the steps of `record` take away from its lines.
    pub(super) fn of(record: &Record, lines: &[Line<'_>], method: &Method) -> Self {
        let mut leaving = Self {
            entry: record.id.0,
            boiled: boiled(record, method),
            washed: Estimate::exact(1.0),
            stated: record.number(Key::Loss),
            ..Self::default()
        };
        if let Some(strain) = method.position(STRAINS) {
            leaving.solids(strain, lines, method);
        }
        leaving.paper(record, method);
        leaving.wash(lines, method);
        leaving
    }

    fn solids(&mut self, strain: usize, lines: &[Line<'_>], method: &Method) {
        let broken = method.has(BREAKS);
        let pressed = method.has(&[Technique::Press, Technique::Squeeze]);
        let ground = method.has(&[Technique::Blend, Technique::FlashBlend, Technique::Grind]);
        for line in lines {
            if enters_after(line.at, strain, method) {
                self.late = self.late.plus(&line.composition);
                continue;
            }
            if line.juiced || !is_strained_out(line.read) {
                continue;
            }
            self.strained = true;
            // Ground nuts let half of their fat and protein through a cloth. Common practice, no source.
            let stays = if ground && line.read.sort_is(&[Sort::Nut]) { 0.5 } else { 1.0 };
            self.solids = self.solids.plus(&dry(&line.composition).times(stays));
            let mut held = holds(line, broken);
            if pressed {
                held = held.times(0.5);
            }
            self.held = self.held.plus(held);
        }
    }

    /// A paper filter drinks its own.
    fn paper(&mut self, record: &Record, method: &Method) {
        let through = |act: &ActRead| {
            let filters = matches!(
                act.act.technique,
                Some(
                    Technique::Filter
                        | Technique::Strain
                        | Technique::FineStrain
                        | Technique::DoubleStrain
                )
            );
            let words = || fold(record.text(act.act.object));
            filters && ["paper", "coffee filter"].iter().any(|word| words().contains(word))
        };
        if method.acts.iter().any(through) {
            self.strained = true;
            self.held = self.held.plus(PAPER_FILTER_HOLDS_ML.estimate());
        }
    }

    fn wash(&mut self, lines: &[Line<'_>], method: &Method) {
        let fat: f64 = lines.iter().filter(|l| is_fatty(l.read)).map(|l| l.composition.fat).sum();
        let whole: f64 = lines.iter().map(|line| line.composition.mass()).sum();
        // Oil that a plant is strained out of is what is kept, not what is washed with.
        if fat > 0.0 && fat <= 0.5 * whole && method.has(STRAINS) {
            self.strained = true;
            self.solids.fat += fat;
            let takes = FAT_WASH_TAKES.estimate();
            self.lets_through(Estimate { value: 1.0 - takes.value, u: takes.u });
        }
        if method.has(&[Technique::MilkWash]) {
            self.strained = true;
            let of = |part: fn(&Composition) -> f64| -> f64 {
                lines.iter().map(|line| part(&line.composition)).sum()
            };
            self.solids.fat = of(|c| c.fat);
            // Whey keeps a fifth of milk's protein. Common practice, no source.
            self.solids.protein = 0.8 * of(|c| c.protein);
            self.lets_through(MILK_WASH_YIELDS.estimate());
        }
        if method.has(&[Technique::Clarify]) {
            self.strained = true;
            // Agar, gelatin or a spin: 70 to 100 % comes through. Common practice, no source.
            self.lets_through(Estimate::of_range(0.9, 0.75, 1.0));
        }
    }

    fn lets_through(&mut self, by: Estimate) {
        let relative = |e: Estimate| share(e.u, e.value);
        let value = self.washed.value * by.value;
        let u = value * relative(self.washed).hypot(relative(by));
        self.washed = Estimate { value, u };
    }

    /// What is left of `total`.
    pub(super) fn left(&self, total: &Composition) -> Composition {
        self.left_with(total, self.boiled.value, self.held.value, self.washed.value)
    }

    fn left_with(&self, total: &Composition, boiled: f64, held: f64, washed: f64) -> Composition {
        let boils = 1.0 - boiled.clamp(0.0, 0.95);
        if let Some(percent) = self.stated {
            let dried = Composition { water: total.water * boils, ..*total };
            let liquor = self.without_solids(&dried);
            let kept = dried.mass() * (1.0 - percent / 100.0).clamp(0.0, 1.0);
            return liquor.times(share(kept, liquor.mass()));
        }
        let early = total.minus(&self.late);
        let liquor = self.without_solids(&Composition { water: early.water * boils, ..early });
        let through = (1.0 - share(held, liquor.mass())).clamp(0.05, 1.0);
        liquor.times(through * washed.clamp(0.0, 1.0)).plus(&self.late)
    }

    fn without_solids(&self, dried: &Composition) -> Composition {
        let out = &self.solids;
        Composition {
            fat: (dried.fat - out.fat).max(0.0),
            protein: (dried.protein - out.protein).max(0.0),
            other: (dried.other - out.other).max(0.0),
            ..*dried
        }
    }

    /// How what is left changes when each loss grows by one standard uncertainty.
    pub(super) fn doubts(
        &self,
        total: &Composition,
        left: &Composition,
    ) -> Vec<(Input, Composition)> {
        let (boiled, held, washed) = (self.boiled, self.held, self.washed);
        let moved = [
            (Loss::Boiled, boiled.u, [boiled.value + boiled.u, held.value, washed.value]),
            (Loss::Held, held.u, [boiled.value, held.value + held.u, washed.value]),
            (Loss::Washed, washed.u, [boiled.value, held.value, washed.value - washed.u]),
        ];
        let known = |loss: Loss| loss != Loss::Boiled && self.stated.is_some();
        moved
            .into_iter()
            .filter(|(loss, u, _)| *u > 0.0 && !known(*loss))
            .map(|(loss, _, [boiled, held, washed])| {
                let after = self.left_with(total, boiled, held, washed);
                (Input::Loss(self.entry, loss), after.minus(left))
            })
            .collect()
    }

    /// The share of the liquor, and of what is dissolved in it, that is left.
    pub(super) fn liquor_kept(&self, total: &Composition) -> f64 {
        let early = total.minus(&self.late);
        let boiled = early.water * self.boiled.value;
        let liquor = early.mass() - boiled - self.solids.mass();
        share(self.left(total).mass() - self.late.mass(), liquor).clamp(0.0, 1.0)
    }

    /// The most water that boiling explains, as a share of all water; 0 where nothing boils.
    pub(super) fn most_boiled(&self) -> f64 {
        (self.boiled.value + 4.0 * self.boiled.u).min(0.95)
    }
}

/// A boil whose time is not said, minutes: brought to the boil, or kept at a simmer.
/// Common practice, no source.
const BROUGHT_TO: f64 = 1.0;
const SIMMERED: f64 = 5.0;

/// The share of the water that open boiling takes.
fn boiled(record: &Record, method: &Method) -> Estimate {
    let of = |act: &ActRead| {
        let technique = act.act.technique?;
        if !BOILS.contains(&technique) {
            return None;
        }
        if technique == Technique::Reduce
            && let Some(share) = reduced_by(&fold(record.text(act.act.object)))
        {
            return Some(share);
        }
        let minutes = match act.act.seconds {
            Some((low, high)) => f64::midpoint(low, high) / 60.0,
            None if technique == Technique::Boil => BROUGHT_TO,
            // Reduced until it is right: nobody says how far. Common practice, no source.
            None if technique == Technique::Reduce => {
                return Some(Estimate::of_range(0.35, 0.1, 0.6));
            }
            None => SIMMERED,
        };
        Some(OPEN_BOIL_LOSES.estimate().times(minutes.min(60.0) / 10.0))
    };
    let all = method.acts.iter().filter_map(of);
    let kept = all.fold(Estimate::exact(1.0), |kept, lost| {
        let share = (1.0 - lost.value).max(0.05);
        Estimate { value: kept.value * share, u: (kept.u * share).hypot(kept.value * lost.u) }
    });
    Estimate { value: 1.0 - kept.value, u: kept.u }
}

/// `reduce by half`, `reduce to a third`.
fn reduced_by(words: &str) -> Option<Estimate> {
    const SHARES: &[(&str, f64)] = &[
        ("two thirds", 2.0 / 3.0),
        ("three quarters", 0.75),
        ("half", 0.5),
        ("third", 1.0 / 3.0),
        ("quarter", 0.25),
    ];
    let (_, share) = SHARES.iter().find(|(word, _)| words.contains(word))?;
    let to = words.split(' ').next() == Some("to");
    // Judged by eye in the pan: 10 points. Common practice, no source.
    Some(Estimate { value: if to { 1.0 - share } else { *share }, u: 0.05 })
}

/// Whether a line is a solid that a strain takes out: not sugar, salt, acid and other things
/// that dissolve, nor powders that pass.
fn is_strained_out(read: &Read) -> bool {
    let Some(known) = read.ingredient().filter(|known| !known.liquid) else { return false };
    match known.sort {
        Sort::Fruit | Sort::Vegetable | Sort::Herb | Sort::Spice | Sort::Flower | Sort::Nut => true,
        // Grounds, leaves and nibs hold liquor; instant powder and chocolate go through.
        Sort::Tea | Sort::Coffee | Sort::Chocolate => known.holds.is_some(),
        _ => false,
    }
}

/// Whether only acts behind the strain speak of the line.
fn enters_after(line: usize, strain: usize, method: &Method) -> bool {
    let named = |act: &ActRead| act.mentions.contains(&line);
    method.acts.iter().skip(strain + 1).any(named) && !method.acts.iter().take(strain).any(named)
}

fn dry(c: &Composition) -> Composition {
    Composition { fat: c.fat, protein: c.protein, other: c.other, ..Composition::ZERO }
}

/// The liquor that stays in a solid, g.
fn holds(line: &Line<'_>, broken: bool) -> Estimate {
    let whole = line.composition.mass();
    let water = line.composition.water;
    let wet = water > 0.3 * whole;
    let known = line.read.ingredient().and_then(|known| known.holds).map(|d| d.estimate());
    if !wet {
        return known.unwrap_or_else(|| SOLIDS_HOLD.estimate()).times(whole);
    }
    // A fruit left whole keeps most of what it holds, a crushed or cooked one a fifth of its
    // water. Common practice, no source.
    let own = if broken { 0.2 * water } else { 0.8 * water };
    let spread = 0.1 * water;
    match known.filter(|_| broken) {
        Some(known) => Estimate { value: known.value * whole, u: (known.u * whole).hypot(spread) },
        None => Estimate { value: own, u: spread },
    }
}

/// Oil and butter: what a wash is made with.
fn is_fatty(read: &Read) -> bool {
    read.sort_is(&[Sort::Fat]) || is_butter(read)
}

/// Dairy that is mostly fat.
fn is_butter(read: &Read) -> bool {
    read.sort_is(&[Sort::Dairy])
        && read.composition.fat > 0.5 * read.composition.mass()
        && !read.is(Trait::Foams)
}
