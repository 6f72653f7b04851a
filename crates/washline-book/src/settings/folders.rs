//! `[[folder]]`: what holds below one folder only.

use super::Folder;
use super::house::{MARKETS, markets};
use super::keys::{Holds, Key, Names, names};
use super::paths::below;
use super::reader::{Entry, Reader};
use super::severities::severities;
use super::value::{Item, Read, refuse};

/// The keys of one folder.
pub(super) static KEYS: [Key; 3] = [
    Key {
        name: "path",
        what: "the folder, from the file's own, with `/`",
        why: "what follows holds for the books below it alone",
        holds: Holds::Path,
        unset: "it must be said",
        examples: &["\"menus/spring\""],
    },
    Key {
        name: "market",
        what: "the markets whose law holds there",
        why: "a list that is sold abroad declares as that market asks",
        holds: Holds::Words(&MARKETS),
        unset: "the house's markets",
        examples: &["\"uk\"", "[\"uk\", \"eu\"]"],
    },
    Key {
        name: "rules",
        what: "how grave each rule is there",
        why: "an archive or a list in the making is held to less",
        holds: Holds::Named(Names::Rules, &Holds::Severity),
        unset: "as the house says",
        examples: &["{ no-jigger = \"off\" }"],
    },
];

const HELP: &str = "write `[[folder]]`, and under it `path = \"menus/spring\"`";

/// `[[folder]]`
pub(super) fn folders(reader: &mut Reader, entry: Entry) -> Read<()> {
    let Some(items) = entry.value.get_ref().as_array() else {
        return refuse(entry.value, "folders stand in a list of tables", HELP);
    };
    let mut folders: Vec<Folder> = Vec::new();
    for item in items.iter() {
        let read = one(reader, item, &folders);
        folders.extend(reader.take(read));
    }
    let all = &mut reader.settings.folders;
    all.extend(folders);
    all.sort_by_key(|folder| folder.path.split('/').count());
    Ok(())
}

fn one(reader: &mut Reader, item: &Item, before: &[Folder]) -> Read<Folder> {
    let fields = reader.fields(item, "[[folder]]", &names(&KEYS), HELP)?;
    let Some(written) = fields.get("path") else {
        return refuse(item, "the folder's `path` is missing", HELP);
    };
    let path = below(written, HELP)?.trim_end_matches('/').to_owned();
    if before.iter().any(|folder| folder.path == path) {
        return refuse(written, format!("`{path}` has its own [[folder]] already"), "join the two");
    }
    let rules = match fields.get("rules") {
        Some(rules) => severities(reader, rules, &format!("folder.{path}.rules"))?,
        None => [].into(),
    };
    let markets = fields.get("market").map(|item| {
        reader.say(format!("folder.{path}.market"), item);
        markets(reader, item)
    });
    Ok(Folder { path, rules, markets })
}

#[cfg(test)]
mod tests {
    use washline_reference::Market;

    use super::super::checks::{KNOWN, right, wrong};
    use super::super::read_over;

    #[test]
    fn the_innermost_folder_has_the_last_word() {
        let text = "[[folder]]\npath = './menus/spring/'\nrules = { too-tart = 'hint' }\n\
                    [[folder]]\npath = 'menus'\nmarket = 'uk'\n[folder.rules]\ntoo-tart = 'off'";
        let settings = right(text);
        let paths: Vec<_> = settings.folders.iter().map(|folder| folder.path.as_str()).collect();
        assert_eq!(paths, ["menus", "menus/spring"]);
        let severity = |path| settings.severity("too-tart", path).map(|s| s.map(|s| s.name()));
        assert_eq!(severity("menus/spring/a.pour"), Some(Some("hint")));
        assert_eq!(severity("menus/a.pour"), Some(None));
        assert_eq!(severity("menus2/a.pour"), None);
        assert_eq!(settings.folders[0].markets.as_deref(), Some([Market::Uk].as_slice()));
    }

    #[test]
    fn a_childs_folder_beats_its_parents() {
        let parent = right("[[folder]]\npath = 'a'\nrules = { too-tart = 'off' }");
        let child = "[[folder]]\npath = 'a'\nrules = { too-tart = 'error' }";
        let both = read_over(parent, child, &KNOWN).unwrap();
        let severity = both.severity("too-tart", "a/b.pour").flatten().map(|s| s.name());
        assert_eq!(severity, Some("error"));
    }

    #[test]
    fn wrong_folders_point_at_themselves() {
        wrong(
            "[[folder]]\nmarket = 'uk'\n[[folder]]\npath = 'a'\nrule = {}\n\
             rules = { no-jigger = 'of' }\n[[folder]]\npath = 'a/'\n[[folder]]\npath = '../a'",
            &[
                ("[[folder]]", "the folder's `path` is missing", "path = \"menus/spring\""),
                ("rule", "`rule` is no key of [[folder]]", "did you mean `rules`?"),
                ("'of'", "`of` is no severity", "did you mean `off`?"),
                ("'a/'", "`a` has its own [[folder]] already", "join the two"),
                ("'../a'", "`../a` leads out of this file's folder", "menus/spring"),
            ],
        );
        wrong(
            "[folder]\npath = 'a'",
            &[("[folder]", "folders stand in a list of tables", "write `[[folder]]`")],
        );
    }
}
