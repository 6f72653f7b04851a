//! The file as TOML, and what to say where it is none.

use toml::Spanned;
use toml::de::{DeTable, Error};
use washline_text::Span;

use super::SettingsError;
use super::value::{bytes, error};

/// The file's top table.
pub(super) fn parse(text: &str) -> Result<Spanned<DeTable<'_>>, Vec<SettingsError>> {
    let (table, mut errors) = DeTable::parse_recoverable(text);
    if errors.is_empty() {
        return Ok(table);
    }
    errors.sort_by_key(|error| error.span().map_or(usize::MAX, |span| span.start));
    let trusted = errors.iter().position(|error| !stands_alone(error)).unwrap_or(errors.len());
    Err(errors.iter().take(trusted.saturating_add(1)).map(|error| told(error, text)).collect())
}

/// Whether what follows in the file is read as if the mistake were not there.
fn stands_alone(error: &Error) -> bool {
    error.message().starts_with(UNQUOTED) || error.message() == TWICE
}

const UNQUOTED: &str = "string values must be quoted";
const TWICE: &str = "duplicate key";

fn told(found: &Error, text: &str) -> SettingsError {
    let span = found.span().map_or_else(Span::default, bytes);
    let (line, words) = (line_around(text, span), span.text(text));
    let message = found.message();
    let place = if span.is_empty() { line } else { span };
    if message == TWICE {
        return error(place, format!("`{words}` is set twice"), "keep one of the two");
    }
    if message.starts_with(UNQUOTED) {
        return unquoted(place, words);
    }
    if message.starts_with("key with no value") || message.starts_with("invalid unquoted key") {
        return no_value(line, line.text(text));
    }
    if message.starts_with("unexpected key or value") {
        let help = "one `key = value` a line; a decimal has a point, a list stands in [ ]";
        return error(line, "something follows the value", help);
    }
    let (what, _) = message.split_once(", expected").unwrap_or((message, ""));
    let help =
        "write `key = value`: words in quotes, lists in [ ], digits on both sides of a point";
    error(place, format!("this is no TOML: {what}"), help)
}

fn unquoted(place: Span, words: &str) -> SettingsError {
    if words.is_empty() {
        return error(place, "a value is missing", "write one, or take the key out");
    }
    let number = words.replace('\u{2212}', "-");
    if number != words && number.parse::<f64>().is_ok() {
        let help = format!("write {number}, with a hyphen");
        return error(place, "the minus is a sign that TOML does not know", help);
    }
    error(place, format!("`{words}` stands without quotes"), format!("write \"{words}\""))
}

fn no_value(line: Span, content: &str) -> SettingsError {
    let key = content.split(['=', ':']).next().unwrap_or(content).trim();
    let help = if key.is_empty() {
        "write `key = value`".to_owned()
    } else if key.contains(' ') {
        format!("a key of two words stands in quotes or has a hyphen: `{}`", key.replace(' ', "-"))
    } else {
        format!("write `{key} = …`")
    };
    error(line, "this line sets nothing", help)
}

/// The line that holds the start of `span`, without white space around it.
fn line_around(text: &str, span: Span) -> Span {
    let start = span.range().start;
    let Some((before, after)) = text.split_at_checked(start) else { return span };
    let from = before.rfind('\n').map_or(0, |at| at + 1);
    let to = after.find('\n').map_or(text.len(), |at| start + at);
    text.get(from..to).map_or(span, |line| Span::of(line.trim(), text))
}

#[cfg(test)]
mod tests {
    use super::super::checks::wrong;

    #[test]
    fn what_is_no_toml_is_told_in_the_words_of_the_file() {
        let quotes = ("30 ml", "`30 ml` stands without quotes", "write \"30 ml\"");
        wrong("ounce = 30 ml\n", &[quotes]);
        wrong(
            "[glasses]\na = 1 l\nb = 2 l\n",
            &[
                ("1 l", "`1 l` stands without quotes", "write \"1 l\""),
                ("2 l", "`2 l` stands without quotes", "write \"2 l\""),
            ],
        );
        wrong(
            "[temperatures]\nfreezer = −18\n",
            &[("−18", "the minus is a sign that TOML does not know", "write -18, with a hyphen")],
        );
        wrong("ounce = \n", &[("ounce =", "a value is missing", "write one")]);
        wrong("ounce: 'us'\n", &[("ounce: 'us'", "this line sets nothing", "write `ounce = …`")]);
        wrong("ounce\n", &[("ounce", "this line sets nothing", "write `ounce = …`")]);
        wrong("bar spoon = 5\n", &[("bar spoon = 5", "this line sets nothing", "`bar-spoon`")]);
        wrong("= 5\n", &[("= 5", "this is no TOML: unquoted keys cannot be empty", "write")]);
        wrong("\u{0}", &[("\u{0}", "this line sets nothing", "write")]);
        wrong(
            "[bar]\ndash = 0,8\n",
            &[("dash = 0,8", "something follows the value", "a decimal has a point")],
        );
        wrong(
            "ounce = 'us'\nounce = 'us'\n",
            &[("ounce", "`ounce` is set twice", "keep one of the two")],
        );
    }

    #[test]
    fn a_broken_list_is_told_once() {
        wrong(
            "jiggers = [25, 50\n[bar]\ndash = 1\n",
            &[("[bar]", "this is no TOML: missing comma between array elements", "lists in [ ]")],
        );
    }
}
