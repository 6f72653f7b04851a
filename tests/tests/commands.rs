//! The command, run as its users run it: each folder of `tests/cmd` is a case.
//!
//! A case holds `command` (the command line, after any `NAME=value` of its environment), `in`
//! (the folder it runs in, as a copy), and what is expected: `stdout`, `stderr`, `status`. An
//! expected file that is missing stands for nothing, and for status 0. `stdin` is what comes in,
//! and files in `out` are what the run is to leave behind, by their names in the folder. The
//! folder's own path is written `[HERE]`.
//!
//! `UPDATE_EXPECT=1 cargo test -p washline-tests --test commands` writes what comes out as what
//! is expected. The program is the one that `cargo test --workspace` has built beside this test;
//! when only this test is run, `cargo build -p washline` comes before it.

use std::collections::BTreeMap;
use std::fs;
use std::io::Write;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};

use washline_tests::program;

#[test]
fn every_case_does_what_it_says() {
    let program = program();
    let update = std::env::var_os("UPDATE_EXPECT").is_some();
    let mut failed = Vec::new();
    for case in cases() {
        let wrong = compare(&case, &run(&case, &program), update);
        if !wrong.is_empty() {
            failed.push(format!("{}\n{wrong}", case.display()));
        }
    }
    assert!(failed.is_empty(), "{}", failed.join("\n"));
}

#[test]
fn every_command_has_cases() {
    let cases: Vec<String> =
        cases().iter().map(|case| fs::read_to_string(case.join("command")).unwrap()).collect();
    for command in ["check", "figures", "settings", "review", "explain"] {
        assert!(
            cases.iter().any(|case| case.contains(&format!("washline {command}"))),
            "{command}"
        );
    }
}

/// The folders below `tests/cmd`.
fn cases() -> Vec<PathBuf> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("cmd");
    let mut cases: Vec<PathBuf> =
        fs::read_dir(folder).unwrap().map(|case| case.unwrap().path()).collect();
    cases.sort();
    cases
}

/// What came out, by the name of the file that expects it.
type Came = BTreeMap<String, String>;

fn run(case: &Path, program: &Path) -> Came {
    let here = tempfile::tempdir().unwrap();
    let folder = here.path().canonicalize().unwrap();
    if case.join("in").is_dir() {
        copy(&case.join("in"), &folder);
    }
    let (environment, arguments) = words(&fs::read_to_string(case.join("command")).unwrap());
    let mut child = Command::new(program)
        .args(arguments)
        .current_dir(&folder)
        .env_remove("NO_COLOR")
        .env_remove("CLICOLOR_FORCE")
        .envs(environment)
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .stderr(Stdio::piped())
        .spawn()
        .unwrap();
    let stdin = fs::read(case.join("stdin")).unwrap_or_default();
    // A program that reads no input may be gone before it is written.
    let _ = child.stdin.take().unwrap().write_all(&stdin);
    let output = child.wait_with_output().unwrap();
    let text = |bytes: &[u8]| {
        let text = String::from_utf8(bytes.to_vec()).unwrap();
        text.replace(folder.to_str().unwrap(), "[HERE]").replace('\x1b', "␛")
    };
    let mut came = Came::from([
        ("stdout".to_owned(), text(&output.stdout)),
        ("stderr".to_owned(), text(&output.stderr)),
    ]);
    let status = output.status.code().map_or("killed".to_owned(), |code| code.to_string());
    came.insert("status".to_owned(), if status == "0" { String::new() } else { status + "\n" });
    if case.join("out").is_dir() {
        for file in fs::read_dir(case.join("out")).unwrap() {
            let name = file.unwrap().file_name().into_string().unwrap();
            let left = fs::read(folder.join(&name)).unwrap_or_default();
            came.insert(format!("out/{name}"), text(&left));
        }
    }
    came
}

/// What differs from what is expected; with `update`, what came is expected from now on.
fn compare(case: &Path, came: &Came, update: bool) -> String {
    let mut wrong = String::new();
    for (name, came) in came {
        let path = case.join(name);
        let expected = fs::read_to_string(&path).unwrap_or_default();
        if *came == expected {
            continue;
        }
        if !update {
            wrong.push_str(&format!("--- {name} expected\n{expected}--- came\n{came}"));
        } else if came.is_empty() {
            fs::remove_file(path).unwrap();
        } else {
            fs::write(path, came).unwrap();
        }
    }
    wrong
}

/// The environment and the arguments of `NAME=value washline 'one argument' another`.
fn words(line: &str) -> (Vec<(String, String)>, Vec<String>) {
    let mut words: Vec<String> = Vec::new();
    for (n, part) in line.trim().split('\'').enumerate() {
        if n % 2 == 1 {
            words.push(part.to_owned());
        } else {
            words.extend(part.split_whitespace().map(str::to_owned));
        }
    }
    let program = words.iter().position(|word| word == "washline").expect("the program's name");
    let arguments = words.split_off(program + 1);
    words.pop();
    let pair = |word: String| {
        let (name, value) = word.split_once('=').expect("NAME=value");
        (name.to_owned(), value.to_owned())
    };
    (words.into_iter().map(pair).collect(), arguments)
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for entry in fs::read_dir(from).unwrap() {
        let entry = entry.unwrap();
        let target = to.join(entry.file_name());
        if entry.path().is_dir() {
            copy(&entry.path(), &target);
        } else {
            fs::copy(entry.path(), target).unwrap();
        }
    }
}
