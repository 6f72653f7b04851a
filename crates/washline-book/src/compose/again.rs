//! One entry computed once more: with other amounts, or for what each input does.

use washline_text::Kind;

use super::drink::Drink;
use super::finished::prep_poured;
use super::parts::Parts;
use crate::{Allergens, Effects, Figures, Read, Record, Workspace, glass, prep};

/// The figures of the drink `record` with other amounts in its lines.
pub(crate) fn refigured(workspace: &Workspace, record: &Record, reads: Vec<Read>) -> Figures {
    as_drink(workspace, record).figures(&mut again(record, reads)).0
}

/// What each uncertain input does to the figures of `record`; nothing where it has none.
pub(crate) fn effects(workspace: &Workspace, record: &Record) -> Effects {
    if record.unread {
        return Effects::default();
    }
    let settings = workspace.settings_of(record);
    match record.kind {
        Kind::Drink => {
            let mut parts = again(record, record.reads.clone());
            let poured = as_drink(workspace, record).pour(&mut parts);
            poured.map_or_else(Effects::default, |(poured, _)| poured.effects())
        }
        Kind::Prep if record.reads.iter().any(|read| read.counted) => {
            let composed = prep::compose(record, &record.reads, &record.method, settings);
            prep_poured(record, &composed).effects()
        }
        Kind::Prep | Kind::Stock => Effects::default(),
    }
}

fn as_drink<'a>(workspace: &'a Workspace, record: &'a Record) -> Drink<'a> {
    let settings = workspace.settings_of(record);
    let glass = glass::of(&record.entry, settings);
    Drink { record, settings, families: &record.families, glass }
}

/// The lines of a drink, to be computed again.
fn again(record: &Record, reads: Vec<Read>) -> Parts {
    let mut parts = Parts {
        reads,
        garnishes: Vec::new(),
        method: record.method.clone(),
        allergens: Allergens::default(),
        uses: Vec::new(),
        reaches: Vec::new(),
        unread: false,
        asked: Box::default(),
    };
    parts.open_tops();
    parts
}
