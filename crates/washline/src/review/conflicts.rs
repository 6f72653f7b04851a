//! Merges that are not resolved: what differs between their two sides.

use washline_review::{Conflict, Room as Compared, State, compare};

use super::States;
use super::rooms::Room;

/// Every file of the later state with a merge in it.
pub(super) fn of(states: &States) -> Vec<Conflict> {
    states.after.iter().filter(|room| !room.merges.is_empty()).flat_map(of_room).collect()
}

fn of_room(room: &Room) -> Vec<Conflict> {
    let theirs = room.theirs();
    // Only what lies in the merged files counts here.
    let mut asked = vec![false; room.names.len()];
    for merge in &room.merges {
        let at = merge.file.0 as usize;
        if let (Some(slot), Some(wanted)) = (asked.get_mut(at), room.asked.get(at)) {
            *slot = *wanted;
        }
    }
    let side = |workspace| {
        let (names, asked) = (room.names.as_slice(), asked.as_slice());
        let compared = Compared { workspace, names, asked, findings: &[], standards: &[] };
        State { rooms: vec![compared] }
    };
    let compared = compare(&side(&room.workspace), &side(&theirs));
    let mut conflicts = Vec::new();
    for merge in &room.merges {
        let at = merge.file.0 as usize;
        let Some(name) = room.names.get(at).filter(|_| asked.get(at) == Some(&true)) else {
            continue;
        };
        let sides = compared.changes.iter().filter(|change| change.entry.file == *name);
        let lines = merge.text.lines().take_while(|line| !line.starts_with("<<<<<<<")).count();
        conflicts.push(Conflict {
            file: name.clone(),
            line: u32::try_from(lines + 1).unwrap_or(u32::MAX),
            sides: sides.cloned().collect(),
        });
    }
    conflicts
}
