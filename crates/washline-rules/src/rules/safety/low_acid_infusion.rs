//! Garlic, herb or vegetable in oil or weak syrup.

use washline_book::{Guard, Read, Shelf};
use washline_text::Severity;

use super::{CODES, on};
use crate::rule::rule;
use crate::words::number;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Soil carries the spores of botulism; heat of a kitchen does not kill them. Under oil or in a weak
    /// syrup with little acid they wake where no air comes, and their poison has no smell and no taste.
    /// Acid below pH 4.6, spirit above 20 % vol, much sugar, cold and short keeping hold them.
    ///
    /// # Flagged
    /// ```pour
    /// prep: Garlic Oil
    ///   yields: 500 ml
    ///   keeps: 1 month dark
    ///
    ///   500 ml  olive oil
    ///   40 g    garlic
    ///
    ///   - warm to 60 C, rest for 2 hours, fine strain
    ///   - bottle, label
    ///
    /// drink: Lantern Row
    ///   family: none
    ///   glass: coupe, chilled
    ///   contains: sulphites
    ///
    ///   60 ml    gin
    ///   15 ml    dry vermouth
    ///   3 drops  garlic oil
    ///
    ///   - stir with ice for 20 s, strain
    ///   garnish: none
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// prep: Garlic Oil
    ///   yields: 500 ml
    ///   keeps: 3 days chilled
    ///
    ///   500 ml  olive oil
    ///   40 g    garlic
    ///
    ///   - warm to 60 C, rest for 2 hours, fine strain
    ///   - bottle, label
    ///
    /// drink: Lantern Row
    ///   family: none
    ///   glass: coupe, chilled
    ///   contains: sulphites
    ///
    ///   60 ml    gin
    ///   15 ml    dry vermouth
    ///   3 drops  garlic oil
    ///
    ///   - stir with ice for 20 s, strain
    ///   garnish: none
    /// ```
    ///
    /// # Source
    /// FDA Food Code 1-201.10(B), garlic-in-oil and pH 4.6; water activity from which spores wake (0.935 at room temperature,
    /// 0.97 in the fridge): FDA, Fish and Fishery Products Hazards and Controls Guidance, appendix 4, from memory; days from memory. The
    /// pH is reckoned, never a measurement.
    "low-acid-infusion", Safety, Error, Fixes::None, Check::Figures(find),
    why: "spores of botulism wake in it, and their poison has no taste"
}

/// A measured pH at or below which spores do not wake. Source: FDA Food Code 1-201.10(B).
const ACID_PH: f64 = 4.6;
/// A reckoned pH is off by half a unit.
const RECKONED_PH: f64 = 4.2;
/// Water activity above which spores wake, at room temperature and in the fridge, with what the model may be off.
const WET_ROOM: f64 = 0.945;
const WET_FRIDGE: f64 = 0.97;
/// How long the fridge holds it, hours: under oil four days, else seven. From memory.
const OIL_HOURS: f64 = 96.0;
const FRIDGE_HOURS: f64 = 168.0;
/// How long it may stand warm, hours. From memory.
const ROOM_HOURS: f64 = 4.0;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_prep() || record.retired {
        return;
    }
    let Some(plant) = record.reads.iter().find(|read| read.counted && read.is_tissue()) else {
        return;
    };
    let shelf = record.shelf();
    let Some(guard) = record.guard().filter(|guard| wakes(guard, shelf)) else { return };
    if record.is_treated() || is_short(context, &guard, shelf) {
        return;
    }
    sink.report(report(context, plant, &guard, shelf));
}

/// Whether spores wake in it on that shelf.
fn wakes(guard: &Guard, shelf: Option<Shelf>) -> bool {
    let acid = if guard.ph_measured { ACID_PH } else { RECKONED_PH };
    if guard.is_strong() || shelf == Some(Shelf::Freezer) {
        return false;
    }
    // What lies under oil has the plant's own water around it, and no acid of the oil's.
    if guard.is_oil() {
        return !(guard.ph_measured && guard.ph <= ACID_PH);
    }
    let wet = if shelf == Some(Shelf::Fridge) { WET_FRIDGE } else { WET_ROOM };
    guard.ph > acid && guard.water_activity > wet
}

/// Whether it is gone before it matters.
fn is_short(context: &Context<'_>, guard: &Guard, shelf: Option<Shelf>) -> bool {
    let Some(keeps) = context.record.keeps() else { return false };
    let most = match shelf {
        Some(Shelf::Fridge) if guard.is_oil() => OIL_HOURS,
        Some(Shelf::Fridge) => FRIDGE_HOURS,
        _ => ROOM_HOURS,
    };
    keeps.hours <= most
}

fn report(context: &Context<'_>, plant: &Read, guard: &Guard, shelf: Option<Shelf>) -> Report {
    let record = context.record;
    let kept = record
        .keeps()
        .map_or_else(String::new, |keeps| format!(", kept {}", record.text(keeps.span)));
    let medium = if guard.is_oil() {
        "under oil".to_owned()
    } else {
        let ph = if guard.ph_measured { "measured" } else { "reckoned" };
        format!(
            "in {} % vol, {} Brix, pH {} {ph}",
            number(guard.abv),
            number(guard.brix.round()),
            number((guard.ph * 10.0).round() / 10.0)
        )
    };
    let message =
        format!("{} {medium}{kept}, {}: spores of botulism can wake", plant.name, on(shelf));
    let said = shelf.is_some() && record.keeps().is_some();
    let help = if guard.is_oil() {
        "keep it chilled, four days at the most, or freeze it; dry or acidify the plant by a tested recipe"
    } else {
        "acidify it to pH 4.2 by the meter and write `ph:`, bring it above 20 % vol, sweeten it past 1:1, or keep it chilled for a week at the most"
    };
    Report::on(record, record.place(plant.name_span), message)
        .severity(if said { Severity::Error } else { Severity::Warning })
        .help(format!("{help}; {CODES}"))
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, message, severity};
    use washline_text::Severity;

    #[test]
    fn in_oil_and_in_weak_syrup() {
        check(
            &RULE,
            "
prep: A
  keeps: 1 month dark
  500 ml olive oil
  40 g garlic
       ^^^^^^
prep: B
  keeps: 2 weeks chilled
  500 ml olive oil
  20 g basil
       ^^^^^
  - rest for 2 hours, strain
prep: C
  keeps: 2 weeks chilled
  100 g sugar
  500 g water
  200 g beetroot
        ^^^^^^^^
prep: D
  keeps: 2 weeks ambient
  200 g sugar
  500 g water
  100 g cucumber
        ^^^^^^^^
",
        );
    }

    #[test]
    fn no_place_said_is_a_warning() {
        let said = "prep: A\n  keeps: 1 month dark\n  500 ml olive oil\n  40 g garlic\n";
        let unsaid = "prep: A\n  keeps: 1 month\n  500 ml olive oil\n  40 g garlic\n";
        assert_eq!(severity(&RULE, said, ""), Some(Severity::Error));
        assert_eq!(severity(&RULE, unsaid, ""), Some(Severity::Warning));
        assert_eq!(
            message(&RULE, said, "").as_deref(),
            Some(
                "garlic under oil, kept 1 month dark, at room temperature: spores of botulism can wake"
            )
        );
    }

    /// Garlic in strong spirit, a herb syrup at 1:1 in the fridge, with vinegar, frozen, for the week, at a measured pH.
    #[test]
    fn what_holds_the_spores_is_heard() {
        check(
            &RULE,
            "
prep: A
  keeps: 6 months dark
  500 ml overproof rum
  40 g garlic
prep: B
  keeps: 3 weeks chilled
  500 g sugar
  500 g water
  20 g mint
prep: C
  keeps: 1 month chilled
  100 g sugar
  500 ml cider vinegar
  100 g beetroot
prep: D
  keeps: 3 months frozen
  500 ml water
  100 g beetroot
prep: E
  keeps: 5 days chilled
  500 ml water
  100 g cucumber
prep: F
  keeps: 4 weeks ambient
  ph: 4.1
  200 g sugar
  500 g water
  100 g cucumber
",
        );
    }

    /// Fruit and spice are no such plants; nor is oil by itself.
    #[test]
    fn other_infusions_are_left_alone() {
        check(
            &RULE,
            "
prep: A
  keeps: 2 weeks chilled
  100 g sugar
  500 g water
  200 g raspberries
prep: B
  keeps: 2 weeks dark
  500 ml olive oil
  5 g black pepper
prep: C
  keeps: 1 month dark
  500 g sugar
  20 g mint
",
        );
    }
}
