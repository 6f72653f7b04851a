//! How large a line is: its measures, its words, its part of a fruit.

use washline_measure::{Form, Measure, Unit, UnitKind};
use washline_reference::{Ingredient as Known, amount_word};
use washline_syntax::{Amount, AmountWord, Ingredient, Part, Placed};

use crate::Input;

use super::amount::{Sized, Thing};
use super::reader::{Reader, Source};
use super::{Lack, Read};

impl<S: Source> Reader<'_, S> {
    /// The size of the line; `None` where it is vague or fills the glass.
    pub(super) fn sized(
        &self,
        read: &Read,
        line: &Ingredient,
        thing: &Thing,
        whole: Option<&'static Known>,
    ) -> Result<Option<Sized>, Lack> {
        let bracket = || {
            let second = line.second?;
            self.portions.size(&second.measure, thing).ok()
        };
        match &line.amount {
            Amount::Measures(sum) => self.sum(read, sum, line, thing).map(Some),
            Amount::PartOf(part, count) => {
                if let Some(size) = bracket() {
                    return Ok(Some(size));
                }
                self.part_size(*part, count, whole, thing).map(Some)
            }
            Amount::Word(word) => Ok(bracket().or_else(|| word_size(*word))),
            Amount::Vague(unit) => {
                if let Some(size) = bracket() {
                    return Ok(Some(size));
                }
                Ok(self.few(unit.or(read.resolution.unit), thing))
            }
            Amount::Proportion(_) => Err(Lack::Proportion),
        }
    }

    pub(super) fn sum(
        &self,
        read: &Read,
        sum: &[Placed],
        line: &Ingredient,
        thing: &Thing,
    ) -> Result<Sized, Lack> {
        let mut total = Sized::default();
        for (n, placed) in sum.iter().enumerate() {
            let mut measure = placed.measure;
            measure.unit = measure.unit.or(read.resolution.unit);
            let countable = measure.unit.is_none_or(|unit| unit.kind() == UnitKind::Count);
            if countable
                && sum.len() == 1
                && let Some(second) = line.second
                && let Ok(size) = self.portions.size(&second.measure, thing)
            {
                return Ok(per_piece(size, &measure));
            }
            let size = self.portions.size(&measure, thing)?;
            if n > 0 && size.grams != total.grams {
                return Err(Lack::Density);
            }
            total.grams = size.grams;
            total.value += size.value;
            total.doubts.extend(size.doubts);
        }
        Ok(total)
    }

    /// Juice by what a fruit gives; zest, peel, white and yolk by what one weighs.
    pub(super) fn part_size(
        &self,
        part: Part,
        count: &Placed,
        whole: Option<&'static Known>,
        thing: &Thing,
    ) -> Result<Sized, Lack> {
        let measure = Measure { quantity: count.measure.quantity, unit: None };
        // What comes off a whole fruit weighs more than the twist that a peel usually means.
        let off = match part {
            Part::Peel => Some(Unit::Peel),
            Part::Zest => Some(Unit::Zest),
            _ => None,
        };
        if part != Part::Juice {
            let fruit = whole.filter(|fruit| off.is_some() && fruit.size(off).is_some());
            let of_fruit = Thing { ingredient: fruit, ..*thing };
            let (measure, thing) = match fruit {
                Some(_) => (Measure { unit: off, ..measure }, &of_fruit),
                None => (measure, thing),
            };
            return self.portions.size(&measure, thing);
        }
        let fruit = whole.and_then(|fruit| Some((fruit.id, fruit.juice?)));
        let (id, juice) = fruit.ok_or(Lack::Size)?;
        let number = measure.quantity.middle().to_f64();
        let one = juice.estimate();
        Ok(Sized {
            value: one.value * number,
            grams: false,
            doubts: vec![
                (Input::Size(id, None), one.u * number),
                (Input::Line(0, 0), measure.quantity.uncertainty() * one.value),
            ],
        })
    }

    /// `a few leaves`: three to six. Common practice, no source.
    pub(super) fn few(&self, unit: Option<Unit>, thing: &Thing) -> Option<Sized> {
        let few = washline_measure::Quantity {
            form: Form::Range(washline_measure::Exact::whole(3), washline_measure::Exact::whole(6)),
            approximate: false,
        };
        self.portions.size(&Measure { quantity: few, unit }, thing).ok()
    }
}

/// A bracket behind a count is the size of all of it, save that a can or bottle's is one's.
fn per_piece(size: Sized, count: &Measure) -> Sized {
    if !matches!(count.unit, Some(Unit::Can | Unit::Bottle)) {
        return size;
    }
    let number = count.quantity.middle().to_f64();
    Sized {
        value: size.value * number,
        grams: size.grams,
        doubts: size.doubts.into_iter().map(|(input, u)| (input, u * number)).collect(),
    }
}

fn word_size(word: AmountWord) -> Option<Sized> {
    let name = match word {
        AmountWord::Rinse => "rinse",
        AmountWord::Mist => "mist",
        AmountWord::Rim => "rim",
        AmountWord::Float => "float",
        AmountWord::Top | AmountWord::Fill | AmountWord::ToTaste => return None,
    };
    let estimate = amount_word(name)?.estimate();
    let doubts = if estimate.u > 0.0 { vec![(Input::Line(0, 0), estimate.u)] } else { Vec::new() };
    Some(Sized { value: estimate.value, grams: false, doubts })
}
