//! `washline figures`: what is in the glass.

use washline_book::fit;
use washline_reference::nearest::closest;
use washline_report::figures::{
    Card, HouseBands, bands_csv, bands_json, bands_toml, csv, json, table,
};
use washline_syntax::Key;
use washline_text::{Kind, fold};

use crate::arguments::{Figures, FiguresFormat};
use crate::failure::{Failure, Failures};
use crate::progress::Progress;
use crate::rooms::{Room, rooms};
use crate::{FAILED, output};

/// Runs the command; the exit status where nothing failed.
pub(crate) fn run(figures: &Figures, failures: &mut Failures) -> u8 {
    if !output::are_apart(&figures.output, failures) {
        return FAILED;
    }
    let progress = Progress::default();
    let Some(rooms) = rooms(&figures.paths, &progress, failures) else { return FAILED };
    drop(progress);
    rooms.iter().for_each(|room| damaged(room, failures));
    if figures.bands {
        bands(figures, &rooms, failures);
        return 0;
    }
    let mut cards: Vec<Card<'_>> = rooms.iter().flat_map(cards).collect();
    cards.sort_by(|a, b| (a.file, a.record.start).cmp(&(b.file, b.record.start)));
    if let Some(name) = &figures.entry {
        if !cards.iter().any(|card| is_called(card, name)) {
            failures.tell(&not_found(name, &cards));
            return FAILED;
        }
        cards.retain(|card| is_called(card, name));
    }
    for wanted in &figures.output {
        let written = match wanted.format {
            FiguresFormat::Table => table(&cards, figures.entry.is_some()),
            FiguresFormat::Json => json(&cards),
            FiguresFormat::Csv => csv(&cards),
        };
        output::write(wanted, &written, failures);
    }
    0
}

/// Writes the bands of each house's drinks.
fn bands(figures: &Figures, rooms: &[Room], failures: &mut Failures) {
    let houses: Vec<HouseBands<'_>> = rooms
        .iter()
        .map(|room| {
            let records = room.records().filter(|record| !room.is_damaged(record.file));
            HouseBands {
                file: room.house.first().map(|file| &*file.name),
                workspace: &room.workspace,
                names: &room.names,
                fit: fit(records),
            }
        })
        .collect();
    for wanted in &figures.output {
        let written = match wanted.format {
            FiguresFormat::Table => bands_toml(&houses),
            FiguresFormat::Json => bands_json(&houses),
            FiguresFormat::Csv => bands_csv(&houses),
        };
        output::write(wanted, &written, failures);
    }
}

/// The drinks and preps of a workspace that are asked for.
fn cards(room: &Room) -> impl Iterator<Item = Card<'_>> {
    let records = room.records().filter(|record| {
        matches!(record.kind, Kind::Drink | Kind::Prep) && !room.is_damaged(record.file)
    });
    records.map(|record| Card {
        workspace: &room.workspace,
        record,
        file: room.names.get(record.file.0 as usize).map_or("", String::as_str),
    })
}

/// Tells the files that are no UTF-8: nothing is computed of them.
fn damaged(room: &Room, failures: &mut Failures) {
    for (file, not) in room.damaged.iter().filter(|(file, _)| room.asks(*file)) {
        let name = room.names.get(file.0 as usize).map_or("", String::as_str);
        failures.tell(&Failure::about(name, not.message()));
    }
}

fn is_called(card: &Card<'_>, name: &str) -> bool {
    let name = fold(name);
    *card.record.key == *name || card.record.terms(Key::Also).any(|(word, _)| fold(word) == name)
}

fn not_found(name: &str, cards: &[Card<'_>]) -> Failure {
    let keys = cards.iter().map(|card| (&*card.record.key, &*card.record.name));
    let near = closest(&fold(name), keys, 3);
    let near: Vec<String> = near.into_iter().map(|(_, name)| format!("`{name}`")).collect();
    let failure = Failure::new(format!("no drink or prep below the paths is called `{name}`"));
    match near.is_empty() {
        true => failure,
        false => failure.help(format!("did you mean {}?", near.join(" or "))),
    }
}
