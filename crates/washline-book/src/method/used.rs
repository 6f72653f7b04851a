//! Which lines the steps can have used.

use washline_syntax::{Entry, Role, Technique};
use washline_text::fold;

use crate::Read;

use super::{ActRead, Method, is_adding};

impl Method {
    /// A line is used where a mix has it, an act names it, its amount word says what is done
    /// with it, or an act takes all that is there.
    pub(super) fn mark_used(&mut self, entry: &Entry, reads: &[Read], prep: bool) {
        let gathered = self.acts.iter().any(|act| self.gathers(act, entry, prep));
        for (line, used) in self.used.iter_mut().enumerate() {
            let mixed = self.mixes.iter().any(|mix| mix.lines.contains(&line));
            let named = self.acts.iter().any(|act| act.mentions.contains(&line));
            let apart = reads.get(line).is_some_and(|read| read.role != Role::Poured);
            let spared = self.acts.iter().any(|act| act.but.contains(&line));
            *used = mixed || named || apart || gathered && !spared;
        }
    }

    /// Whether an act takes all that is there: it says so, it puts together and names nothing,
    /// or it works on what is in the pot.
    fn gathers(&self, act: &ActRead, entry: &Entry, prep: bool) -> bool {
        let Some(technique) = act.act.technique else { return false };
        let adds = is_adding(technique) && !dresses(technique) && !is_ice(act, entry);
        let leaves = act.leaves() && self.mixes.is_empty();
        act.everything
            || prep && works(technique)
            || act.mentions.is_empty() && (adds || leaves || works(technique))
    }
}

/// Acts on the glass, or on what is in it already.
const fn dresses(technique: Technique) -> bool {
    use Technique::{Dust, Fill, Float, Layer, Mist, Rim, Rinse, Top};
    matches!(technique, Fill | Top | Float | Layer | Rinse | Rim | Mist | Dust)
}

/// Acts on all that is in the pot, the bottle or the keg, whatever else they name.
const fn works(technique: Technique) -> bool {
    use Technique::{
        Boil, Bottle, Carbonate, Charge, Chill, Clarify, Combine, Cook, Dissolve, FatWash, Ferment,
        Freeze, Heat, Infuse, Keg, Macerate, Melt, MilkWash, Mix, Reduce, Simmer, Soak, SousVide,
        Steep, Warm, Weigh, Whisk,
    };
    matches!(
        technique,
        Boil | Bottle
            | Carbonate
            | Charge
            | Chill
            | Clarify
            | Combine
            | Cook
            | Dissolve
            | FatWash
            | Ferment
            | Freeze
            | Heat
            | Infuse
            | Keg
            | Macerate
            | Melt
            | MilkWash
            | Mix
            | Reduce
            | Simmer
            | Soak
            | SousVide
            | Steep
            | Warm
            | Weigh
            | Whisk
    )
}

/// Whether ice is all that the act adds: `add ice`, `add plenty of fresh ice`.
fn is_ice(act: &ActRead, entry: &Entry) -> bool {
    const BEFORE: &[&str] = &["", "some", "more", "the", "plenty of", "a scoop of", "a little"];
    let Some((_, ice)) = act.act.ice else { return false };
    if act.act.technique == Some(Technique::Pour) {
        return false;
    }
    let object = act.act.object.text(&entry.text);
    let before = ice.start.saturating_sub(act.act.object.start) as usize;
    object.get(..before).is_some_and(|words| BEFORE.contains(&fold(words).as_str()))
}

#[cfg(test)]
mod tests {
    use std::sync::Arc;

    use crate::{Settings, Workspace};

    /// The lines that the steps cannot have used.
    fn unused(heading: &str, lines: &str) -> Vec<String> {
        let text = format!("{heading}: A\n  {}\n", lines.replace("; ", "\n  "));
        let workspace =
            Workspace::new(vec![(Arc::from("a.pour"), Arc::from(text))], Settings::default());
        let record = &workspace.records()[0];
        let lines = record.reads.iter().zip(&record.method.used);
        lines.filter(|(_, used)| !**used).map(|(read, _)| read.name.clone()).collect()
    }

    #[test]
    fn what_is_left_out_and_never_added_is_unused() {
        let lines = "45 ml gin; 15 ml lime juice; 90 ml soda water; \
                     - shake all but the soda with ice, strain over ice";
        assert_eq!(unused("drink", lines), ["soda water"]);
        assert!(
            unused("drink", &lines.replace("strain over", "top with the soda over")).is_empty()
        );
    }

    #[test]
    fn what_no_act_reaches_is_unused() {
        let lines = "8 mint leaves; 2 tsp sugar; 60 ml rum; 15 ml lime juice; \
                     - muddle the mint and sugar, add the rum, fill with ice";
        assert_eq!(unused("drink", lines), ["lime juice"]);
        assert_eq!(unused("drink", &lines.replace("fill with", "add")), ["lime juice"]);
    }

    #[test]
    fn acts_that_take_all_leave_nothing() {
        for step in
            ["pour over ice", "build over ice", "shake with ice", "add to a glass", "bottle"]
        {
            let lines = format!("45 ml gin; 90 ml soda water; - {step}");
            assert!(unused("drink", &lines).is_empty(), "{step}");
        }
        for step in
            ["simmer with the ginger for 10 min, strain", "combine, bottle", "blend, strain"]
        {
            let lines = format!("500 g sugar; 500 g water; 80 g ginger; - {step}");
            assert!(unused("prep", &lines).is_empty(), "{step}");
        }
    }

    /// A strain with nothing before it lacks a step, not every line.
    #[test]
    fn a_bare_strain_takes_what_is_there() {
        assert!(unused("drink", "45 ml gin; rinse absinthe; - strain into a coupe").is_empty());
    }
}
