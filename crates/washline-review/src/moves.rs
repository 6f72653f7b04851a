//! Figures before and after.

use washline_book::{Figure, Side, Standing};
use washline_measure::Interval;
use washline_reference::Market;
use washline_text::Kind;

use crate::state::Item;
use crate::uncertainty::Both;
use crate::{Move, Stood, Turn};

const OF_A_DRINK: [Figure; 8] = [
    Figure::Abv,
    Figure::Sugar,
    Figure::Acid,
    Figure::Ratio,
    Figure::Dilution,
    Figure::Final,
    Figure::Ethanol,
    Figure::Cost,
];
const OF_A_PREP: [Figure; 6] =
    [Figure::Abv, Figure::Brix, Figure::Sugar, Figure::Acid, Figure::Final, Figure::Cost];

/// What the volume of a prep is called.
const YIELD: &str = Figure::Final.label_of(Kind::Prep);
/// Less than this share of a figure nobody pours, tastes or pays. Common practice, no source.
const SMALL: f64 = 0.005;
/// Less than this share of a figure is rounding.
const ROUNDING: f64 = 1e-6;

/// The figures that differ; of an entry that has only one state, those that it has.
pub(crate) fn compare<'a>(
    before: Option<&Item<'_>>,
    after: Option<&Item<'_>>,
    both: impl FnOnce() -> Option<Both<'a>>,
) -> Vec<Move> {
    let Some(one) = after.or(before) else { return Vec::new() };
    let figures: &[Figure] = match one.record.kind {
        Kind::Drink => &OF_A_DRINK,
        Kind::Prep => &OF_A_PREP,
        Kind::Stock => return Vec::new(),
    };
    let mut moves: Vec<Move> =
        figures.iter().filter_map(|figure| of_figure(*figure, before, after)).collect();
    moves.iter_mut().for_each(|one| one.within = one.is_small());
    // What each input does is worth asking only where something differs to be seen.
    let told = |one: &Move| one.difference().is_some() && !one.within;
    if moves.iter().any(told)
        && let Some(both) = both()
    {
        moves.iter_mut().filter(|one| told(one)).for_each(|one| doubt(one, &both));
    }
    moves.extend(standard_drinks(&moves, one));
    moves.retain(|one| one.figure != Figure::Ethanol || one.id != Figure::Ethanol.id());
    moves
}

/// Says how far the difference is known.
fn doubt(one: &mut Move, both: &Both<'_>) {
    let (Some(before), Some(after)) = (one.before, one.after) else { return };
    let Some(u) = both.of_difference(one.figure) else { return };
    if one.figure == Figure::Ratio {
        one.within = (after.value / before.value).ln().abs() <= 2.0 * u;
        let doubt = after.value * ((2.0 * u).exp() - 1.0);
        one.doubt = Some(doubt).filter(|doubt| doubt.is_finite());
        return;
    }
    one.within = (after.value - before.value).abs() <= 2.0 * u;
    one.doubt = Some(2.0 * u);
}

fn of_figure(figure: Figure, before: Option<&Item<'_>>, after: Option<&Item<'_>>) -> Option<Move> {
    let of = |item: Option<&Item<'_>>| -> Option<Interval> {
        let record = item?.record;
        record.figures.get(figure).filter(|_| !record.unread)
    };
    let (old, new) = (of(before), of(after));
    match (old, new) {
        (None, None) => return None,
        (Some(a), Some(b)) if is_same(a.value, b.value) => return None,
        _ => {}
    }
    // Nothing there before and nothing after is no news: a spirit has no sugar.
    if [old, new].into_iter().flatten().all(|interval| interval.value.abs() < 1e-9) {
        return None;
    }
    let currency = || {
        [after, before].into_iter().flatten().find_map(|item| item.record.figures.currency.clone())
    };
    let prep = after.or(before).is_some_and(|item| item.record.kind == Kind::Prep);
    let label = match figure {
        Figure::Final if prep => YIELD,
        Figure::Dilution => "dilution",
        Figure::Final => "in the glass",
        Figure::Acid => "acid",
        Figure::Ratio => "sugar to acid",
        Figure::Brix => "Brix",
        other => other.label(),
    };
    let unit = match figure {
        Figure::Cost => currency().unwrap_or_default(),
        Figure::Brix => String::new(),
        other => other.unit().to_owned(),
    };
    Some(Move {
        id: figure.id().to_owned(),
        label: label.to_owned(),
        unit,
        figure,
        before: old,
        after: new,
        doubt: None,
        within: false,
        stood: stood(figure, before, after),
    })
}

/// Standard drinks of the house's first market; where it has none, the ethanol itself.
fn standard_drinks(moves: &[Move], item: &Item<'_>) -> Option<Move> {
    let ethanol = moves.iter().find(|one| one.figure == Figure::Ethanol)?.clone();
    let markets = &item.workspace.settings_of(item.record).markets;
    let Some(market) = markets.first() else {
        return Some(Move {
            id: "ethanol".to_owned(),
            label: "pure alcohol".to_owned(),
            ..ethanol
        });
    };
    let grams = market.standard_drink_g().value;
    let over = |interval: Option<Interval>| {
        interval.map(|i| Interval {
            value: i.value / grams,
            low: i.low / grams,
            high: i.high / grams,
        })
    };
    Some(Move {
        id: "standard_drinks".to_owned(),
        label: "standard drinks".to_owned(),
        unit: words(*market).to_owned(),
        before: over(ethanol.before),
        after: over(ethanol.after),
        doubt: ethanol.doubt.map(|doubt| doubt / grams),
        ..ethanol
    })
}

const fn words(market: Market) -> &'static str {
    match market {
        Market::Eu => "of 10 g",
        Market::Uk => "UK units",
        Market::Us => "US",
        Market::Ca => "Canada",
        Market::AuNz => "Australia, New Zealand",
    }
}

fn stood(figure: Figure, before: Option<&Item<'_>>, after: Option<&Item<'_>>) -> Option<Stood> {
    let of = |item: Option<&Item<'_>>| {
        let item = item.filter(|item| item.record.kind == Kind::Drink && !item.record.unread)?;
        item.record.standing(figure, item.workspace.settings_of(item.record))
    };
    let (old, new) = (of(before), of(after));
    let (band, ..) = new.or(old)?;
    let standing = |found: Option<(_, _, Standing)>| found.map(|(_, _, standing)| standing);
    Some(Stood { band: band.words(), before: standing(old), after: standing(new) })
}

fn is_same(a: f64, b: f64) -> bool {
    (a - b).abs() <= ROUNDING * a.abs().max(b.abs())
}

impl Move {
    /// Whether it was in its family's band, or leaned out of it, and is outside.
    #[must_use]
    pub fn leaves_band(&self) -> bool {
        self.side(|stood| stood.after).is_some() && self.side(|stood| stood.before).is_none()
    }

    /// Whether it was outside of its family's band and is not now.
    #[must_use]
    pub fn enters_band(&self) -> bool {
        let stands = self.stood.as_ref().is_some_and(|stood| stood.after.is_some());
        stands
            && self.side(|stood| stood.before).is_some()
            && self.side(|stood| stood.after).is_none()
    }

    fn side(&self, when: impl Fn(&Stood) -> Option<Standing>) -> Option<Side> {
        match when(self.stood.as_ref()?)? {
            Standing::Outside(side) => Some(side),
            Standing::Inside | Standing::Leaning(_) => None,
        }
    }

    /// Whether it differs by so little that nobody pours, tastes or pays it.
    #[must_use]
    pub fn is_small(&self) -> bool {
        let (Some(before), Some(after)) = (self.before, self.after) else { return false };
        let most = before.value.abs().max(after.value.abs());
        (after.value - before.value).abs() < SMALL * most
            && !self.leaves_band()
            && !self.enters_band()
    }

    /// How much more it is than it was.
    #[must_use]
    pub fn difference(&self) -> Option<f64> {
        Some(self.after?.value - self.before?.value)
    }
}

/// In which ways a drink turned, beyond what the figures leave open.
#[must_use]
pub fn turns(moves: &[Move]) -> Vec<Turn> {
    let told = |figure: Figure| {
        let one = moves.iter().find(|one| one.figure == figure && !one.within)?;
        one.difference()
    };
    // A prep that yields more is no longer drink.
    let yields = moves.iter().any(|one| one.label == YIELD);
    let mut out = Vec::new();
    let mut push = |by: Option<f64>, more: Turn, less: Turn| {
        if let Some(by) = by {
            out.push(if by > 0.0 { more } else { less });
        }
    };
    let ratio = told(Figure::Ratio);
    push(ratio, Turn::Sweeter, Turn::Tarter);
    let sours = moves.iter().any(|one| one.figure == Figure::Ratio);
    if !sours {
        push(told(Figure::Sugar), Turn::Sweeter, Turn::Drier);
    }
    push(told(Figure::Abv), Turn::Stronger, Turn::Weaker);
    push(told(Figure::Final).filter(|_| !yields), Turn::Longer, Turn::Shorter);
    push(told(Figure::Cost), Turn::Dearer, Turn::Cheaper);
    out
}
