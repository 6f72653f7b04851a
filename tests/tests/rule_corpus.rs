//! `corpus/rules`: for each rule the spec it flags and the same spec mended, as files.
//!
//! They are written from the rules' own prose; `UPDATE_EXPECT=1 cargo test -p washline-tests
//! --test rule_corpus` writes them anew.

use std::collections::BTreeMap;
use std::fs;

use washline_rules::{Check, all};
use washline_tests::root;

/// What the folder should hold: path below it, and text.
fn wanted() -> BTreeMap<String, String> {
    let mut out = BTreeMap::new();
    for rule in all().filter(|rule| !matches!(rule.check, Check::Bytes)) {
        let prose = rule.parts();
        let folder = format!("{}/{}", rule.group.name(), rule.name);
        for (kind, texts) in [("flagged", &prose.flagged), ("mended", &prose.mended)] {
            for (n, text) in texts.iter().enumerate() {
                let n = if n == 0 { String::new() } else { format!("-{}", n + 1) };
                out.insert(format!("{folder}/{kind}{n}.pour"), text.clone());
            }
        }
        // Each folder is a house of its own, so that its names stay in it.
        out.insert(format!("{folder}/washline.toml"), prose.settings.clone());
    }
    out
}

#[test]
fn the_corpus_has_every_rules_examples() {
    let folder = root().join("corpus/rules");
    let wanted = wanted();
    if std::env::var_os("UPDATE_EXPECT").is_some() {
        let _ = fs::remove_dir_all(&folder);
        for (path, text) in &wanted {
            let path = folder.join(path);
            fs::create_dir_all(path.parent().unwrap()).unwrap();
            fs::write(path, text).unwrap();
        }
    }
    let mut found = BTreeMap::new();
    let mut open = vec![folder.clone()];
    while let Some(at) = open.pop() {
        for entry in fs::read_dir(at).unwrap().map(Result::unwrap) {
            let path = entry.path();
            if path.is_dir() {
                open.push(path);
                continue;
            }
            let name = path.strip_prefix(&folder).unwrap().to_string_lossy().replace('\\', "/");
            found.insert(name, String::from_utf8(fs::read(&path).unwrap()).unwrap());
        }
    }
    let names = |files: &BTreeMap<String, String>| files.keys().cloned().collect::<Vec<_>>();
    assert_eq!(names(&found), names(&wanted));
    for (path, text) in wanted {
        assert_eq!(found.get(&path), Some(&text), "{path}");
    }
}
