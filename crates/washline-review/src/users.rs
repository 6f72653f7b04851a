//! Who still asks for an entry that is gone.

use washline_book::Referent;
use washline_reference::plural;
use washline_syntax::Key;
use washline_text::fold;

use crate::StillUsed;
use crate::pair::Pairs;
use crate::state::{Item, Items};

/// The entries of the later state with a line that names what stood at `b`, and what that name
/// means now. `now` is the place of the entry that it became, if there is one.
pub(crate) fn of(
    b: usize,
    now: Option<usize>,
    before: &Items<'_>,
    after: &Items<'_>,
    pairs: &Pairs,
) -> Vec<StillUsed> {
    let Some(gone) = before.get(b) else { return Vec::new() };
    let mut names = vec![gone.record.key.to_string()];
    names.extend(gone.record.terms(Key::Also).map(|(name, _)| fold(name)));
    let users = gone.workspace.users(gone.record.id);
    let users = users.iter().filter_map(|user| {
        let was = before.at(gone.room, *user);
        let is = (*pairs.to.get(was)?)?;
        still(after.get(is)?, &names, now, after)
    });
    users.collect()
}

fn still(
    user: &Item<'_>,
    names: &[String],
    now: Option<usize>,
    after: &Items<'_>,
) -> Option<StillUsed> {
    let record = user.record;
    let mut reads = record.reads.iter().chain(&record.garnishes);
    let read = reads.find(|read| {
        let mut called = vec![fold(&read.name)];
        called.extend(read.or.iter().map(|(name, _)| fold(name)));
        let turned = |gone: &String, name: &String| plural::turned(gone).any(|word| word == *name);
        let fits =
            called.iter().any(|name| names.iter().any(|gone| name == gone || turned(gone, name)));
        fits && !is_the_entry(read.referent(), now, user, after)
    })?;
    Some(StillUsed {
        by: user.named(),
        line: read.name.clone(),
        now: read.referent().map(|referent| user.workspace.name_of(referent).to_owned()),
    })
}

fn is_the_entry(
    referent: Option<Referent>,
    now: Option<usize>,
    user: &Item<'_>,
    after: &Items<'_>,
) -> bool {
    let Some(Referent::Entry(id)) = referent else { return false };
    now == Some(after.at(user.room, id))
}
