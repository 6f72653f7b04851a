//! Which lines are in the vessel when it is mixed, and how they are watered.

use std::sync::Arc;

use super::{Goes, Melt};
use crate::{Method, Settings, Workspace};

const SOUR: &str = "  60 ml gin\n  25 ml lemon juice\n  20 ml sugar syrup\n";
const SHORT: &str = "  60 ml rye whiskey\n  30 ml sweet vermouth\n";

fn read(lines: &str, steps: &str) -> Method {
    let text = format!("drink: A\n{lines}{steps}");
    let files = vec![(Arc::from("book.pour"), Arc::from(text))];
    let workspace = Workspace::new(files, Settings::default());
    workspace.records().first().unwrap().method.clone()
}

/// The lines of each mix, and how it waters them.
fn mixes(lines: &str, steps: &str) -> Vec<(Vec<usize>, Melt)> {
    read(lines, steps).mixes.into_iter().map(|mix| (mix.lines, mix.melt)).collect()
}

fn melts(lines: &str, steps: &str) -> Vec<Melt> {
    mixes(lines, steps).into_iter().map(|(_, melt)| melt).collect()
}

#[test]
fn lines_are_in_the_vessel_from_the_start() {
    assert_eq!(mixes(SOUR, "  - shake with ice, strain\n"), [(vec![0, 1, 2], Melt::Shake)]);
}

#[test]
fn amount_words_and_what_a_later_act_adds_are_not() {
    let lines = format!("{SOUR}  top soda water\n  rinse absinthe\n  60 ml tonic water\n");
    let steps = "  - shake with ice, strain\n  - top with the tonic water\n";
    assert_eq!(mixes(&lines, steps), [(vec![0, 1, 2], Melt::Shake)]);
    let steps = "  - shake with ice, strain\n  - add the tonic water\n";
    assert_eq!(mixes(&lines, steps), [(vec![0, 1, 2], Melt::Shake)]);
}

#[test]
fn what_is_spared_stays_out_till_an_act_adds_it() {
    let lines = format!("{SOUR}  60 ml soda water\n");
    let steps = "  - shake all but the soda with ice, strain\n  - add the soda, stir\n";
    let found = mixes(&lines, steps);
    assert_eq!(found.first().unwrap().0, [0, 1, 2]);
    assert_eq!(found.get(1).unwrap().0, [0, 1, 2, 3]);
    let never = mixes(&lines, "  - shake everything but the soda with ice, strain, stir\n");
    assert!(never.iter().all(|(lines, _)| *lines == [0, 1, 2]));
}

#[test]
fn the_rest_comes_with_the_act_that_adds_it() {
    let lines = "  1 sugar cube\n  2 dashes aromatic bitters\n  60 ml bourbon\n";
    let steps = "  - muddle the sugar cube and bitters\n  - stir\n  - add the rest and ice, stir\n";
    let found = mixes(lines, steps);
    assert_eq!(found.first().unwrap(), &(vec![0, 1], Melt::None));
    assert_eq!(found.get(1).unwrap(), &(vec![0, 1, 2], Melt::Share("build")));
}

#[test]
fn what_waits_in_the_glass_is_not_shaken() {
    let lines = format!("{SOUR}  60 ml sparkling wine\n");
    let steps = "  - pour the sparkling wine into the flute\n  - shake the rest with ice, strain\n";
    assert_eq!(mixes(&lines, steps), [(vec![0, 1, 2], Melt::Shake)]);
}

#[test]
fn a_stir_is_in_the_mixing_glass_where_it_is_strained() {
    for steps in ["  - stir with ice, strain\n", "  - build in the mixing glass, stir, strain\n"] {
        assert_eq!(melts(SHORT, steps).last(), Some(&Melt::Stir), "{steps}");
    }
    assert_eq!(melts(SHORT, "  - stir for 20 s, strain over a large cube\n"), [Melt::Stir]);
    for steps in ["  - build over ice, stir\n", "  - stir over a large cube\n"] {
        assert_eq!(melts(SHORT, steps).last(), Some(&Melt::Share("build")), "{steps}");
    }
    let long = "  50 ml gin\n  150 ml tonic water\n";
    assert_eq!(melts(long, "  - build over ice\n"), [Melt::Share("long build")]);
}

#[test]
fn no_ice_no_water() {
    for steps in [
        "  - dry shake, strain\n",
        "  - shake without ice, strain\n",
        "  - stir with no ice, strain\n",
        "  - build with dry ice\n",
    ] {
        assert_eq!(melts(SOUR, steps), [Melt::None], "{steps}");
    }
    let toddy = "  family: hot\n  45 ml dark rum\n  120 ml hot water\n";
    assert_eq!(melts(toddy, "  - build in the mug, stir\n"), [Melt::None, Melt::None]);
    let flute = "  glass: flute\n  15 ml creme de cassis\n  100 ml sparkling wine\n";
    assert_eq!(melts(flute, "  - build\n"), [Melt::None]);
}

#[test]
fn one_wet_shake_waters_beside_a_dry_one() {
    let both = melts(SOUR, "  - shake with ice, strain into the tin, dry shake, strain\n");
    assert_eq!(both, [Melt::Shake, Melt::None]);
    let named = melts(SOUR, "  - shake with ice\n  - reverse dry shake, strain\n");
    assert_eq!(named, [Melt::Shake, Melt::None]);
    assert_eq!(melts(SOUR, "  - reverse dry shake, strain\n"), [Melt::Shake]);
}

#[test]
fn a_strain_back_into_the_tin_does_not_end_its_stage() {
    let steps = "  - shake with ice, strain into the tin, dry shake, double strain\n";
    let goes: Vec<Goes> = read(SOUR, steps).acts.iter().map(|act| act.goes).collect();
    assert_eq!(goes, [Goes::Nowhere, Goes::Vessel, Goes::Nowhere, Goes::Out]);
    let unsaid = read(SOUR, "  - shake with ice, strain, dry shake, double strain\n");
    assert_eq!(unsaid.acts.get(1).unwrap().goes, Goes::Vessel);
}

#[test]
fn what_is_stated_beats_the_model() {
    assert_eq!(melts(SHORT, "  - stir with ice to 130 ml, strain\n"), [Melt::To(130.0)]);
    assert_eq!(melts(SHORT, "  - stir down 40 %, strain\n"), [Melt::By(0.4)]);
}

#[test]
fn the_weighed_ice_is_what_melts() {
    let weighed = format!("{SOUR}  30 g crushed ice\n");
    assert_eq!(melts(&weighed, "  - whip shake, pour\n"), [Melt::Ice(30.0, 1.0)]);
    assert_eq!(melts(SOUR, "  - whip shake, pour\n"), [Melt::IceOf("whip shake")]);
    assert_eq!(melts(SOUR, "  - blend, pour\n"), [Melt::Share("blend")]);
    assert_eq!(melts(SOUR, "  - flash blend, pour\n"), [Melt::Share("flash blend")]);
}

#[test]
fn a_stir_in_a_julep_is_churned() {
    let julep = "  family: julep\n  60 ml bourbon\n  10 ml sugar syrup\n";
    for steps in ["  - stir with crushed ice\n", "  - build over crushed ice\n", "  - churn\n"] {
        assert_eq!(melts(julep, steps), [Melt::Share("churn")], "{steps}");
    }
}

#[test]
fn no_technique_waters_a_prep() {
    let text = "prep: A\n  500 ml gin\n  - stir with ice, strain\n";
    let files = vec![(Arc::from("book.pour"), Arc::from(text))];
    let workspace = Workspace::new(files, Settings::default());
    let record = workspace.records().first().unwrap();
    assert!(record.method.mixes.iter().all(|mix| mix.melt == Melt::None));
}
