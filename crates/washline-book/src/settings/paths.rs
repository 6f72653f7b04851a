//! Paths: what is left out, and which file this one starts from.

use super::reader::{Entry, Reader};
use super::value::{self, Item, Read, one_or_many, refuse};

const EXCLUDE: &str = "write `exclude = [\"archive/\"]`, from this file's folder, with `/`";
const EXTENDS: &str = "write `extends = \"../washline.toml\"`, from this file's folder";

/// `exclude = ["archive/"]`
pub(super) fn exclude(reader: &mut Reader, entry: Entry) -> Read<()> {
    let mut paths = Vec::new();
    for item in one_or_many(entry.value) {
        paths.extend(reader.take(below(item, EXCLUDE)).map(str::to_owned));
    }
    reader.settings.exclude = paths;
    reader.say("exclude".to_owned(), entry.value);
    Ok(())
}

/// `extends = "../washline.toml"`
pub(super) fn extends(reader: &mut Reader, entry: Entry) -> Read<()> {
    let path = slashed(entry.value, EXTENDS)?;
    reader.settings.extends = Some(path.to_owned());
    reader.say("extends".to_owned(), entry.value);
    Ok(())
}

/// A path below the file's own folder, without `./` before it.
pub(super) fn below<'t>(item: &'t Item<'t>, help: &str) -> Read<&'t str> {
    let path = slashed(item, help)?;
    if path.starts_with('/') || path.split('/').any(|part| part == "..") {
        return refuse(item, format!("`{path}` leads out of this file's folder"), help);
    }
    Ok(path.strip_prefix("./").unwrap_or(path))
}

fn slashed<'t>(item: &'t Item<'t>, help: &str) -> Read<&'t str> {
    let path = value::text(item, help)?;
    if path.is_empty() {
        return refuse(item, "the path is empty", help);
    }
    if path.contains('\\') {
        let help = format!("write \"{}\"", path.replace('\\', "/"));
        return refuse(item, "a path has `/`, on every system", help);
    }
    Ok(path)
}

#[cfg(test)]
mod tests {
    use super::super::checks::{right, wrong};

    #[test]
    fn paths_are_kept_as_written() {
        assert_eq!(right("exclude = ['./old', '*.tmp.pour']").exclude, ["old", "*.tmp.pour"]);
        assert_eq!(right("exclude = 'old/'").exclude, ["old/"]);
        let text = "extends = '../washline.toml'";
        let settings = right(text);
        assert_eq!(settings.extends.as_deref(), Some("../washline.toml"));
        let said = settings.said.get("extends").map(|span| span.text(text));
        assert_eq!(said, Some("'../washline.toml'"));
    }

    #[test]
    fn wrong_paths_point_at_themselves() {
        wrong(
            "exclude = ['', '../other', 'a\\b', '/a', 1]",
            &[
                ("''", "the path is empty", "archive/"),
                ("'../other'", "`../other` leads out of this file's folder", "archive/"),
                ("'a\\b'", "a path has `/`, on every system", "write \"a/b\""),
                ("'/a'", "`/a` leads out of this file's folder", "archive/"),
                ("1", "a number stands where words in quotes should", "archive/"),
            ],
        );
        wrong(
            "extends = ['a']",
            &[("['a']", "a list stands where words in quotes should", "extends")],
        );
    }
}
