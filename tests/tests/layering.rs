//! Arrows point down only: every crate stands on what the table in DEVELOPERS.md allows.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().to_owned()
}

/// The rows of the table of floors: crate, and the crates it may stand on.
fn floors() -> BTreeMap<String, BTreeSet<String>> {
    let text = fs::read_to_string(root().join("DEVELOPERS.md")).unwrap();
    let mut out = BTreeMap::new();
    for row in text.lines().filter(|line| line.starts_with("| `washline")) {
        let cells: Vec<&str> = row.trim_matches('|').split('|').map(str::trim).collect();
        let name = cells[0].trim_matches('`').to_owned();
        let below = cells[2].split(", ").filter(|cell| *cell != "–");
        out.insert(
            name,
            below.map(|cell| format!("washline-{}", cell.trim_matches('`'))).collect(),
        );
    }
    out
}

fn manifests() -> Vec<(String, toml::Table)> {
    let mut out = Vec::new();
    for entry in fs::read_dir(root().join("crates")).unwrap() {
        let path = entry.unwrap().path().join("Cargo.toml");
        let table: toml::Table = fs::read_to_string(&path).unwrap().parse().unwrap();
        let name = table["package"]["name"].as_str().unwrap().to_owned();
        out.push((name, table));
    }
    out
}

fn own_dependencies(manifest: &toml::Table) -> BTreeSet<String> {
    let table = manifest.get("dependencies").and_then(toml::Value::as_table);
    table
        .into_iter()
        .flat_map(|t| t.keys().cloned())
        .filter(|k| k.starts_with("washline"))
        .collect()
}

#[test]
fn crates_stand_only_on_the_floors_below() {
    let floors = floors();
    for (name, manifest) in manifests() {
        let allowed = floors.get(&name).unwrap_or_else(|| panic!("{name} is not in the table"));
        for used in own_dependencies(&manifest) {
            assert!(allowed.contains(&used), "{name} must not stand on {used}");
        }
    }
}

#[test]
fn the_table_has_no_crate_too_many() {
    let crates: BTreeSet<String> = manifests().into_iter().map(|(name, _)| name).collect();
    let rows: BTreeSet<String> = floors().into_keys().collect();
    assert_eq!(rows, crates);
}

/// A crate stands on nothing that stands on it: the table itself has no ring.
#[test]
fn the_floors_are_floors() {
    let floors = floors();
    let mut placed = BTreeSet::new();
    while placed.len() < floors.len() {
        let next: Vec<&String> = floors
            .iter()
            .filter(|(name, below)| !placed.contains(*name) && below.is_subset(&placed))
            .map(|(name, _)| name)
            .collect();
        assert!(!next.is_empty(), "a ring among {:?}", floors.keys());
        placed.extend(next.into_iter().cloned());
    }
}

/// Every crate inherits the workspace's lints, and the pure ones carry their own list of what
/// they may not call.
#[test]
fn lints_hold_everywhere() {
    for (name, manifest) in manifests() {
        assert_eq!(manifest["lints"]["workspace"].as_bool(), Some(true), "{name}");
        let pure = !matches!(name.as_str(), "washline" | "washline-files" | "washline-lsp");
        let own = root().join("crates").join(&name).join("clippy.toml");
        assert_eq!(own.exists(), pure, "{name}: clippy.toml");
        if pure {
            let text = fs::read_to_string(own).unwrap();
            for path in ["std::fs::read", "std::env::var", "std::time::Instant::now"] {
                assert!(text.contains(path), "{name} may call {path}");
            }
        }
    }
}

/// The top level is the house plan and no more.
#[test]
fn the_top_level_is_the_house_plan() {
    let plan = [
        "Cargo.toml",
        "Cargo.lock",
        "README.md",
        "DEVELOPERS.md",
        "CHANGELOG.md",
        "LICENSE-MIT",
        "LICENSE-APACHE",
        "crates",
        "grammar",
        "editors",
        "tests",
        "corpus",
        "target",
    ];
    for entry in fs::read_dir(root()).unwrap() {
        let name = entry.unwrap().file_name().to_string_lossy().into_owned();
        assert!(name.starts_with('.') || plan.contains(&name.as_str()), "{name} at the top level");
    }
}
