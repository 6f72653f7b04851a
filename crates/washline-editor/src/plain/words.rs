//! The words of a line without their marks.

/// `text` without marks for bold and code, and with links told in brackets.
pub(super) fn words(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some(at) = rest.find(['\\', '`', '*', '[', '<']) {
        let (before, marked) = rest.split_at(at);
        out.push_str(before);
        let (shown, behind) = unmarked(marked);
        out.push_str(&shown);
        rest = behind;
    }
    out.push_str(rest);
    out
}

/// What a text that begins with a mark shows at its beginning, and what stands behind that.
fn unmarked(text: &str) -> (String, &str) {
    code(text)
        .or_else(|| escape(text))
        .or_else(|| text.strip_prefix("**").map(|behind| (String::new(), behind)))
        .or_else(|| link(text))
        .or_else(|| address(text))
        .unwrap_or_else(|| first(text))
}

/// `\*`
fn escape(text: &str) -> Option<(String, &str)> {
    let behind = text.strip_prefix('\\')?;
    behind.starts_with(|c: char| c.is_ascii_punctuation()).then(|| first(behind))
}

/// `` `a` `` and ` ``a`` `
fn code(text: &str) -> Option<(String, &str)> {
    let inner = text.trim_start_matches('`');
    let (ticks, _) = text.split_at(text.len() - inner.len());
    if ticks.is_empty() {
        return None;
    }
    let (code, behind) = inner.split_once(ticks)?;
    Some((code.trim().to_owned(), behind))
}

/// `[words](address)`; an address that leads out is told, one of a neighbouring page is not.
fn link(text: &str) -> Option<(String, &str)> {
    let (name, rest) = text.strip_prefix('[')?.split_once("](")?;
    let (address, behind) = rest.split_once(')')?;
    let name = words(name);
    let told = address.contains("://") && address != name;
    Some((if told { format!("{name} ({address})") } else { name }, behind))
}

/// `<https://…>`
fn address(text: &str) -> Option<(String, &str)> {
    let (address, behind) = text.strip_prefix('<')?.split_once('>')?;
    address.contains("://").then(|| (address.to_owned(), behind))
}

fn first(text: &str) -> (String, &str) {
    let mut chars = text.chars();
    (chars.next().map(String::from).unwrap_or_default(), chars.as_str())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marks_are_taken_off() {
        for (markdown, text) in [
            ("**sour**: a *b*", "sour: a *b*"),
            ("`free-from: \\a` and ``a`b``", "free-from: \\a and a`b"),
            ("a \\*\\*bold\\*\\* \\| \\[name\\] \\d", "a **bold** | [name] \\d"),
            ("see [`tart`](too-tart.md).", "see tart."),
            ("[a table](https://example.org/a), p. 3", "a table (https://example.org/a), p. 3"),
            ("[https://b.org](https://b.org)", "https://b.org"),
            ("<https://c.org>, a < b", "https://c.org, a < b"),
            ("an open [bracket, ` tick", "an open [bracket, ` tick"),
        ] {
            assert_eq!(words(markdown), text);
        }
    }
}
