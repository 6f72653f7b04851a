//! Two states of a book compared by meaning: what changed in the glass, not in the text.
//!
//! [`compare`] pairs the entries of both states, says of each pair what was written
//! differently and what that does to its figures, its allergens and its findings, and follows
//! every changed prep and stock entry into what pours it.

mod allergens;
mod carried;
mod change;
mod compare;
mod fields;
mod findings;
mod lines;
mod meaning;
mod moves;
mod pair;
mod standards;
mod state;
mod steps;
#[cfg(test)]
mod tests;
mod uncertainty;
mod users;

pub use change::{
    AllergenChange, Allergens, Carried, Change, Conflict, FieldChange, Findings, LineChange,
    LineKind, Move, Named, Review, StandardChange, StepChange, StillUsed, Stood, Told, Turn, What,
};
pub use compare::compare;
pub use moves::turns;
pub use state::{Room, Standard, State};
