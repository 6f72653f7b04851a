//! Reads `data/`, refuses what breaks its rules, and compiles the rest in.

#![expect(clippy::disallowed_methods, reason = "a build script reads data and writes code")]

mod check;
mod emit;
mod read;
mod shape;

#[path = "../src/allergen.rs"]
mod allergen;
#[path = "../src/dilution.rs"]
mod dilution;
#[path = "../src/property.rs"]
mod property;
#[path = "../src/sort.rs"]
mod sort;
#[path = "../src/vocabulary.rs"]
mod vocabulary;

use std::fmt;
use std::fs;
use std::path::{Path, PathBuf};

fn main() -> Result<(), Faults> {
    let root = PathBuf::from(std::env::var("CARGO_MANIFEST_DIR")?);
    let out = PathBuf::from(std::env::var("OUT_DIR")?);
    rerun_if_changed("data");
    rerun_if_changed("build");

    let mut data = read::Data::default();
    let mut faults = Vec::new();
    for path in data_files(&root.join("data"))? {
        let name = path.strip_prefix(&root).unwrap_or(&path).display().to_string();
        data.read(&name, &fs::read_to_string(&path)?, &mut faults);
    }
    faults.extend(check::faults(&data));
    if !faults.is_empty() {
        return Err(Faults(faults));
    }
    fs::write(out.join("tables.rs"), emit::tables(&mut data))?;
    fs::write(out.join("constants.rs"), emit::constants(&data))?;
    Ok(())
}

#[expect(clippy::print_stdout, reason = "a build script speaks to cargo on standard output")]
fn rerun_if_changed(path: &str) {
    println!("cargo::rerun-if-changed={path}");
}

/// The data files below `folder`, in the order of their names.
fn data_files(folder: &Path) -> Result<Vec<PathBuf>, Faults> {
    let mut files = Vec::new();
    let mut entries = Vec::new();
    for entry in fs::read_dir(folder)? {
        entries.push(entry?.path());
    }
    entries.sort();
    for path in entries {
        if path.is_dir() {
            files.extend(data_files(&path)?);
        } else if path.extension().is_some_and(|end| end == "toml") {
            files.push(path);
        }
    }
    Ok(files)
}

/// What is wrong, one fault a line; the build shows it as it is.
struct Faults(Vec<String>);

impl fmt::Debug for Faults {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.iter().try_for_each(|fault| write!(f, "\n  {fault}"))
    }
}

impl<E: std::error::Error> From<E> for Faults {
    fn from(error: E) -> Self {
        Self(vec![error.to_string()])
    }
}
