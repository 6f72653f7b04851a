//! How the tests of the settings read and compare.

use super::{Known, Settings, SettingsError, read};

/// The names that the tests know.
pub(super) const KNOWN: Known = Known {
    rules: &["measures-disagree", "no-jigger", "off-house-unit", "too-tart"],
    families: &["sour", "spirit-forward", "highball"],
    techniques: &["stir", "shake", "hard shake", "blend"],
};

/// What `text` comes to, which must be without a mistake.
pub(super) fn right(text: &str) -> Settings {
    read(text, &KNOWN).unwrap_or_else(|errors| panic!("{text}\n{errors:#?}"))
}

/// Holds `text` to have just the mistakes `expected`, in this order: the text that each
/// points at, its message, and words of its help.
pub(super) fn wrong(text: &str, expected: &[(&str, &str, &str)]) {
    let errors = read(text, &KNOWN).expect_err(text);
    let told = |error: &SettingsError| (error.span.text(text).to_owned(), error.message.clone());
    let found: Vec<_> = errors.iter().map(told).collect();
    let wanted: Vec<_> =
        expected.iter().map(|(at, what, _)| ((*at).to_owned(), (*what).to_owned())).collect();
    assert_eq!(found, wanted, "{text}");
    for (error, (_, _, help)) in errors.iter().zip(expected) {
        assert!(error.help.contains(help), "{text}\n{:?} lacks {help:?}", error.help);
    }
}
