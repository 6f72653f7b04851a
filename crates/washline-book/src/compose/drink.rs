//! One drink, from its lines and steps to its figures.

use std::sync::Arc;

use washline_measure::{Estimate, Interval};
use washline_mixture::{Act, Composition, heat};
use washline_reference::{Sort, Trait};
use washline_syntax::{Key, Role, Technique};
use washline_text::fold;

use super::parts::{Parts, has_no_size};
use crate::figures::{Figure, Poured, WATER_G_PER_ML};
use crate::mix::{Watering, start_c, sum, watering};
use crate::{Families, Figures, Makeup, Melt, Method, Read, Record, Room, Settings, glass};

/// One drink on its way to its figures.
pub(super) struct Drink<'a> {
    pub record: &'a Record,
    pub settings: &'a Settings,
    pub families: &'a Families,
    pub glass: Option<glass::Held>,
}

impl Drink<'_> {
    pub(super) fn figures(&self, parts: &mut Parts) -> (Figures, Option<Room>) {
        let Some((poured, inside)) = self.pour(parts) else { return Default::default() };
        let mut figures = poured.figures(self.settings.temperatures.freezer);
        self.traces(&mut figures, parts);
        let mut room = None;
        if let Some(finished) = figures.get(Figure::Final) {
            if let Some(glass) = &self.glass {
                let ice = glass::served_on(&self.record.entry, &parts.method);
                let made = Room::of(finished, &parts.reads, &parts.method, glass, ice);
                figures.set(Figure::GlassFill, made.fill_percent());
                room = Some(made);
            }
            figures.set(Figure::ServeTemperature, self.served_at(parts, &inside, &poured));
        }
        (figures, room)
    }

    /// What the figures are computed from, and which lines meet the ice; none where a line that
    /// matters has no size, or nothing is poured.
    pub(super) fn pour(&self, parts: &mut Parts) -> Option<(Poured, Vec<bool>)> {
        self.as_served(&mut parts.method);
        let default = self.without_a_mix(parts);
        let (watering, inside) = watering(&parts.method, &parts.reads, self.settings, default);
        self.fill_tops(parts, watering.as_ref(), &inside);
        if has_no_size(&parts.reads) {
            return None;
        }
        let poured = self.poured(&parts.reads, watering, &inside);
        let something = poured.inside.mass() + poured.outside.mass() + poured.water_lines > 0.0;
        something.then_some((poured, inside))
    }

    /// A stir in a julep is a churn. What is built hot, or in a small glass with no word of
    /// ice, meets none.
    fn as_served(&self, method: &mut Method) {
        let julep = self.families.is("julep");
        let iced = method.acts.iter().any(|act| act.act.ice.is_some());
        let no_ice = !iced && !self.stands_on_ice();
        // A batch is stirred to mix it.
        let bottled = matches!(self.serve().as_str(), "bottled" | "draught")
            || method.has(&[Technique::Bottle, Technique::Keg]);
        let batched = bottled && !iced;
        for mix in &mut method.mixes {
            let built = matches!(mix.melt, Melt::Share("build" | "long build"));
            if julep && (built || mix.melt == Melt::Stir) {
                mix.melt = Melt::Share("churn");
            } else if built && no_ice || mix.melt == Melt::Stir && batched {
                mix.melt = Melt::None;
            }
        }
    }

    /// Whether the drink stands on ice where its steps say nothing: as `ice:` and `serve:` say,
    /// else in a glass that has room for it.
    fn stands_on_ice(&self) -> bool {
        if let Some((ice, _)) = self.record.terms(Key::Ice).next() {
            return !glass::is_none(&fold(ice));
        }
        match self.serve().as_str() {
            "up" | "neat" | "hot" | "bottled" | "draught" | "bowl" => return false,
            "rocks" | "long" | "frozen" => return true,
            _ => {}
        }
        if self.families.any(&["hot", "neat", "shot"]) {
            return false;
        }
        self.glass.is_none_or(|glass| glass.known.brim.value >= glass::ROOM_FOR_ICE_ML)
    }

    fn serve(&self) -> String {
        self.record.terms(Key::Serve).map(|(word, _)| fold(word)).next().unwrap_or_default()
    }

    /// How a drink that nothing mixes with ice is watered: not at all if it is bottled,
    /// neat, hot or has its water in its lines; `None` where nobody says how it is made.
    fn without_a_mix(&self, parts: &Parts) -> Option<Melt> {
        let serve = self.serve();
        let iced = self.record.terms(Key::Ice).any(|(word, _)| !glass::is_none(&fold(word)));
        let rests = matches!(serve.as_str(), "bottled" | "neat" | "hot" | "draught");
        if self.families.is("punch") && !rests {
            return Some(Melt::Share("block punch"));
        }
        let watered = parts.reads.iter().any(|read| read.counted && read.water);
        if rests || watered || self.families.any(&["neat", "shot", "hot", "carbonated"]) {
            return Some(Melt::None);
        }
        // Ice that only chills the glass is thrown out.
        let for_the_glass = [Technique::Chill, Technique::Rinse, Technique::Discard];
        let ices =
            parts.method.acts.iter().any(|act| act.act.ice.is_some() && !act.is(&for_the_glass));
        if parts.method.acts.is_empty() {
            return None;
        }
        if iced || ices || matches!(serve.as_str(), "rocks" | "long") {
            let long = parts.reads.iter().any(|read| read.role == Role::Top)
                || parts.method.has(&[Technique::Top, Technique::Fill]);
            return Some(Melt::Share(if long { "long build" } else { "build" }));
        }
        Some(Melt::None)
    }

    /// A top with no size fills the glass to its wash line.
    fn fill_tops(&self, parts: &mut Parts, watering: Option<&Watering>, inside: &[bool]) {
        let open: Vec<usize> = parts
            .reads
            .iter()
            .enumerate()
            .filter(|(_, read)| read.role == Role::Top && read.counted && read.vague)
            .map(|(at, _)| at)
            .collect();
        let ([at], Some(glass), Some(watering)) = (open.as_slice(), &self.glass, watering) else {
            return;
        };
        let ice = glass::served_on(&self.record.entry, &parts.method);
        let usable = glass.to_wash_line(ice);
        let lines: Vec<usize> = (0..parts.reads.len()).filter(|n| n != at).collect();
        let in_vessel: Vec<usize> =
            lines.iter().copied().filter(|n| inside.get(*n).copied().unwrap_or(false)).collect();
        let there = sum(&parts.reads, &lines).volume_ml()
            + watering.melt_ml(&sum(&parts.reads, &in_vessel), 0.0)
            + glass::foam(&parts.reads, &parts.method).value
            - glass::stays(&parts.method).value;
        // Filled to the line per serve, whatever is in it.
        let room = usable.value * self.record.serves - there;
        // A glass that is full already takes none: how it overflows is another matter.
        let ml = room.max(0.0);
        let u = (usable.u * self.record.serves).hypot(0.1 * ml);
        if let Some(read) = parts.reads.get_mut(*at) {
            read.top_up(ml, u, self.record.id.0);
        }
    }

    fn poured(&self, reads: &[Read], watering: Option<Watering>, inside: &[bool]) -> Poured {
        let mut poured = Poured { watering, serves: self.record.serves, ..Poured::default() };
        let mut shifts = Vec::new();
        for (at, read) in reads.iter().enumerate().filter(|(_, read)| read.counted) {
            let within = inside.get(at).copied().unwrap_or(false);
            if read.water && !self.families.is("hot") {
                // Ice in a line is what the drink is made with; the model says what of it melts.
                if !read.sort_is(&[Sort::Ice]) {
                    poured.water_lines += read.composition.water;
                    poured.water_inside += if within { read.composition.water } else { 0.0 };
                }
                continue;
            }
            let zero = Composition::ZERO;
            for (input, shift) in &read.shifts {
                shifts.push(if within { (*input, *shift, zero) } else { (*input, zero, *shift) });
            }
            let side = if within { &mut poured.inside } else { &mut poured.outside };
            *side = side.plus(&read.composition);
        }
        shifts.sort_by_key(|(input, ..)| *input);
        for (input, within, without) in shifts {
            match poured.shifts.last_mut() {
                Some((last, a, b))
                    if *last == input && !matches!(input, crate::Input::Line(..)) =>
                {
                    *a = a.plus(&within);
                    *b = b.plus(&without);
                }
                _ => poured.shifts.push((input, within, without)),
            }
        }
        poured
    }

    /// Sulphites, quinine and caffeine of the finished drink.
    fn traces(&self, figures: &mut Figures, parts: &Parts) {
        let total = |of: fn(&Read) -> f64| -> f64 {
            parts.reads.iter().filter(|read| read.counted).map(of).sum::<f64>() / self.record.serves
        };
        let volume = figures.value(Figure::Final).or(figures.value(Figure::Poured));
        if let Some(ml) = volume.filter(|ml| *ml > 0.0) {
            figures.sulphites_mg_per_l = Some(total(|read| read.sulphites) / ml * 1000.0);
            figures.quinine_mg_per_l = Some(total(|read| read.quinine) / ml * 1000.0);
        }
        figures.caffeine_mg = Some(total(|read| read.caffeine));
    }

    /// The temperature in the glass: what the heat balance leaves of what was mixed with
    /// ice, and cold tops from the fridge.
    fn served_at(&self, parts: &Parts, inside: &[bool], poured: &Poured) -> Option<Interval> {
        let mix = parts.method.mixes.iter().find(|mix| mix.melt != Melt::None)?;
        let act = match mix.melt {
            Melt::Shake | Melt::Ice(..) | Melt::IceOf(_) => Act::Shaken,
            _ => Act::Stirred,
        };
        let hot = parts
            .reads
            .iter()
            .any(|read| read.counted && read.temperature == Some(crate::Temperature::Hot));
        if hot || mix.technique == Technique::Steam {
            return None;
        }
        let lines: Vec<usize> =
            (0..parts.reads.len()).filter(|n| inside.get(*n).copied().unwrap_or(false)).collect();
        let start = start_c(&parts.reads, &lines, self.settings);
        let end = heat::equilibrium(&act.chill(&poured.in_the_vessel(&poured.inside), start)).end_c;
        let melt = poured
            .watering
            .as_ref()
            .map_or(0.0, |w| w.melt_ml(&poured.in_the_vessel(&poured.inside), 0.0));
        let mixed = poured.inside.mass() + poured.water_inside + melt * WATER_G_PER_ML;
        let tops = poured.outside.mass();
        let whole = mixed + tops;
        let celsius = if whole > 0.0 {
            (mixed * end + tops * self.settings.temperatures.fridge) / whole
        } else {
            end
        };
        // Hand, tin and glass differ by a degree or two. Common practice, no source.
        Some(Estimate { value: celsius, u: 1.0 }.interval(-40.0, 100.0))
    }
}

impl Read {
    /// Gives a top that had no size the millilitres it fills.
    fn top_up(&mut self, ml: f64, u: f64, entry: u32) {
        let Some(makeup) = self.top_makeup() else { return };
        self.vague = false;
        self.ml = Some(Estimate { value: ml, u });
        self.g = Some(Estimate { value: ml, u }.times(makeup.grams_a_unit()));
        self.composition = makeup.times(ml);
        self.shifts = makeup.shifts.iter().map(|(i, shift)| (*i, shift.times(ml))).collect();
        self.shifts.push((crate::Input::Line(entry, self.line), makeup.times(u)));
        self.sulphites = makeup.sulphites * ml;
        self.quinine = makeup.quinine * ml;
        self.caffeine = makeup.caffeine * ml;
    }

    fn top_makeup(&self) -> Option<Arc<Makeup>> {
        self.unit_makeup.clone().filter(|makeup| makeup.liquid)
    }

    /// Whether it is carbonated.
    #[must_use]
    pub fn carbonated(&self) -> bool {
        self.is(Trait::Carbonated)
    }
}
