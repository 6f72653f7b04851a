//! A workspace of spec books: names resolved, preps composed, the figures of every entry.
//!
//! [`Workspace::new`] takes the texts of all files and the house's [`Settings`]
//! and computes everything a rule, a table or an editor asks for. It touches no
//! disk, no clock and no environment.

mod allergens;
mod bands;
mod batch;
mod compose;
mod cost;
mod dose;
mod family;
mod figures;
mod fingerprint;
mod fit;
mod glass;
mod keeping;
mod line;
mod made;
mod makeup;
mod menu;
mod method;
mod mix;
mod names;
mod prep;
mod record;
mod says;
mod settings;
mod what_if;
mod workspace;

pub use allergens::{
    Allergens, Carried, Step as AllergenStep, Unvouched, listed as allergens_listed,
    named_by as allergens_named_by,
};
pub use bands::{Band, Bands, Side, Standing};
pub use batch::Watered;
pub use family::{Families, Family};
pub use figures::{Cause, Effects, Figure, Figures};
pub use fingerprint::fingerprint;
pub use fit::{ENOUGH, Far, Fit, Fitted, FittedBand, fit};
pub use glass::{Room, find as glass_called};
pub use keeping::{Guard, Keeps, Life, Shelf};
pub use line::{Lack, Read, Temperature, syrup_brix};
pub use made::Made;
pub use makeup::{Input, Makeup};
pub use menu::{Menu, MenuName};
pub use method::{ActRead, Goes, Melt, Method, Mix, Unlisted, is_mix, is_shaken};
pub use names::{Level, Referent, Resolution};
pub use prep::{Loss, Makes, Proportion, Yield};
pub use record::{EntryId, Record};
pub use settings::{
    Cards, Dimension, DrinkPart, Expectation, FamilyBands, Folder, FractionStyle, Held, Holds,
    Key as SettingsKey, Known, Layout, Limits, LineOrder, Names as SettingsNames, Naming, Settings,
    SettingsError, Standard, Temperatures, Wanted, key as settings_key, keys as settings_keys,
    read as read_settings, read_over as read_settings_over,
};
pub use workspace::{Answers, SourceFile, Watched, Workspace};
