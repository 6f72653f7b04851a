//! Colour, decided once for each stream.

use std::env;
use std::ffi::OsString;
use std::io::IsTerminal;

use crate::arguments::Color;

/// What the environment says of colour.
struct Said {
    no_color: Option<OsString>,
    force: Option<OsString>,
    term: Option<OsString>,
    terminal: bool,
}

/// Whether what goes to `stream` has colour.
pub(crate) fn on(color: Color, stream: &impl IsTerminal) -> bool {
    decide(
        color,
        &Said {
            no_color: env::var_os("NO_COLOR"),
            force: env::var_os("CLICOLOR_FORCE"),
            term: env::var_os("TERM"),
            terminal: stream.is_terminal(),
        },
    )
}

/// The command line first, then `NO_COLOR` (any value but none), then `CLICOLOR_FORCE`
/// (any but 0), then whether somebody is looking.
fn decide(color: Color, said: &Said) -> bool {
    let set = |value: &Option<OsString>| value.as_ref().is_some_and(|value| !value.is_empty());
    match color {
        Color::Always => true,
        Color::Never => false,
        Color::Auto if set(&said.no_color) => false,
        Color::Auto if set(&said.force) && said.force.as_deref() != Some("0".as_ref()) => true,
        Color::Auto => said.terminal && said.term.as_deref() != Some("dumb".as_ref()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(color: Color, no_color: &str, force: &str, terminal: bool) -> bool {
        let value = |text: &str| Some(OsString::from(text));
        let term = value("xterm");
        decide(color, &Said { no_color: value(no_color), force: value(force), term, terminal })
    }

    #[test]
    fn the_nearest_word_counts() {
        assert!(of(Color::Auto, "", "", true) && !of(Color::Auto, "", "", false));
        assert!(!of(Color::Auto, "0", "", true), "any value but none");
        assert!(of(Color::Auto, "", "1", false) && !of(Color::Auto, "", "0", false));
        assert!(!of(Color::Auto, "1", "1", true));
        assert!(of(Color::Always, "1", "", false) && !of(Color::Never, "", "1", true));
    }
}
