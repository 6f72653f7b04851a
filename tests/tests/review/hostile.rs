//! Repositories that would rather do something else.

use std::fs;
use std::process::Command;

use crate::repository::{Repository, came, program};

const DRINK: &str = "drink: A\n  60 ml gin\n  20 ml lime juice\n  15 ml sugar syrup, 1:1\n  - shake with ice for 12 s, strain\n";

fn changed() -> Repository {
    let repository = Repository::of(&[("a.pour", DRINK)]);
    repository.write("a.pour", &DRINK.replace("60 ml", "45 ml"));
    repository
}

/// Everything that git can be told to run writes a file if it is run.
#[test]
#[cfg(unix)]
fn nothing_that_a_repository_configures_is_run() {
    use std::os::unix::fs::PermissionsExt;
    let repository = changed();
    let trap = repository.path("trap.sh");
    let sprung = repository.path("sprung");
    fs::write(&trap, format!("#!/bin/sh\necho \"$0 $*\" >> '{}'\ncat\n", sprung.display()))
        .unwrap();
    fs::set_permissions(&trap, fs::Permissions::from_mode(0o755)).unwrap();
    let run = trap.to_str().unwrap();
    for hook in ["post-index-change", "post-checkout", "pre-commit", "reference-transaction"] {
        let hook = repository.top().join(".git/hooks").join(hook);
        fs::create_dir_all(hook.parent().unwrap()).unwrap();
        fs::copy(&trap, hook).unwrap();
    }
    repository.write(".gitattributes", "*.pour filter=trap diff=trap text eol=crlf\n");
    for (key, value) in [
        ("core.fsmonitor", run),
        ("core.pager", run),
        ("core.sshCommand", run),
        ("core.askPass", run),
        ("core.editor", run),
        ("filter.trap.clean", run),
        ("filter.trap.smudge", run),
        ("filter.trap.process", run),
        ("filter.trap.required", "true"),
        ("diff.trap.textconv", run),
        ("diff.trap.command", run),
        ("diff.external", run),
        ("core.alternateRefsCommand", run),
        ("credential.helper", run),
    ] {
        repository.git(&["config", key, value]);
    }
    for arguments in [&["HEAD"][..], &["--staged"], &["HEAD", "HEAD"], &["--merge-base", "HEAD"]] {
        let mut command = repository.own(Command::new(program()), &repository.top());
        for name in ["GIT_EXTERNAL_DIFF", "GIT_PAGER", "GIT_SSH_COMMAND", "GIT_ASKPASS"] {
            command.env(name, run);
        }
        command.env("GIT_CONFIG_COUNT", "1").env("GIT_CONFIG_KEY_0", "core.fsmonitor");
        command.env("GIT_CONFIG_VALUE_0", run);
        let came = came(command.arg("review").args(arguments).output().unwrap());
        assert_eq!(came.status, 0, "{came:?}");
    }
    let sprung = fs::read_to_string(&sprung).unwrap_or_default();
    assert_eq!(sprung, "");
    repository.review(&["HEAD"]).says(&["60 ml gin → 45 ml gin"]);
}

#[test]
fn nothing_is_written() {
    let repository = changed();
    let index = repository.top().join(".git/index");
    let before = fs::read(&index).unwrap();
    repository.review(&["HEAD"]);
    repository.review(&["--staged"]);
    assert_eq!(fs::read(&index).unwrap(), before);
}

#[test]
#[cfg(unix)]
fn unusual_names() {
    use std::os::unix::ffi::OsStrExt;
    let names = ["with blank.pour", "-n.pour", "\"quoted\".pour", "é 日本.pour", "tab\there.pour"];
    let files: Vec<(&str, String)> =
        names.iter().map(|name| (*name, DRINK.replace('A', name))).collect();
    let repository = Repository::empty();
    files.iter().for_each(|(name, text)| repository.write(name, text));
    let odd = repository.top().join(std::ffi::OsStr::from_bytes(b"odd\xff.pour"));
    fs::write(&odd, DRINK.replace('A', "Odd")).unwrap();
    repository.commit("first");
    repository.review(&["HEAD"]).says(&["nothing changed in the glass"]);
    for (name, text) in &files {
        repository.write(name, &text.replace("60 ml", "45 ml"));
    }
    let came = repository.review(&["HEAD"]);
    came.says(&["5 entries changed", "with blank.pour:1", "-n.pour:1", "é 日本.pour:1"]);
    let came = repository.review(&["HEAD", "--", "-n.pour"]);
    came.says(&["1 entry changed", "-n.pour:1"]);
}

#[test]
fn a_shallow_clone_says_what_it_lacks() {
    let repository = changed();
    repository.commit("second");
    let url = format!("file://{}", repository.top().display());
    let clone = repository.path("clone");
    let to = clone.to_str().unwrap();
    repository.git(&["clone", "--quiet", "--depth", "1", &url, to]);
    let first = repository.git(&["rev-parse", "HEAD~1"]);
    let run = |arguments: &[&str]| {
        let mut command = repository.own(Command::new(program()), &clone);
        came(command.arg("review").args(arguments).output().unwrap())
    };
    let shallow = "this clone: it is shallow, older history was left out";
    run(&[&first]).fails(&["there is no revision", shallow, "git fetch --unshallow"]);
    run(&["HEAD~1"]).fails(&["there is no revision `HEAD~1`", shallow]);
    assert_eq!(run(&["HEAD"]).status, 0);
}

#[test]
fn revisions_that_are_none() {
    let repository = changed();
    repository.review(&["no-such-branch"]).fails(&[
        "there is no revision `no-such-branch` in this repository",
        "a branch of the remote is `origin/NAME`",
    ]);
    repository.review(&["HEAD", "nor-this"]).fails(&["there is no revision `nor-this`"]);
    repository.review(&["HEAD..main"]).fails(&["name the two revisions one after the other"]);
    repository.review(&["HEAD:a.pour"]).fails(&["there is no revision"]);
    repository.review(&[""]).fails(&["the name of a revision is empty"]);
    // What looks like an option of git's never reaches it.
    let came = repository.review(&["--output=x"]);
    assert_eq!(came.status, 2);
}

#[test]
fn no_repository() {
    let repository = Repository::empty();
    let mut command = repository.own(Command::new(program()), &repository.path("home"));
    let came = came(command.args(["review", "HEAD"]).output().unwrap());
    came.fails(&[
        "this folder is in no git repository: there are no revisions to compare",
        "git init",
    ]);
}

#[test]
fn no_git() {
    let repository = changed();
    let mut command = repository.own(Command::new(program()), &repository.top());
    let came = came(command.env("PATH", "").args(["review", "HEAD"]).output().unwrap());
    came.fails(&["git is not installed: revisions are read by the `git` command", "install git"]);
}

#[test]
fn nothing_committed_yet() {
    let repository = Repository::empty();
    repository.write("a.pour", DRINK);
    repository.review(&["HEAD"]).fails(&["nothing was committed yet", "commit once first"]);
    repository.git(&["add", "--all"]);
    repository
        .review(&["--staged"])
        .says(&["HEAD to what is staged: 1 entry added", "A (drink), new"]);
}

#[test]
fn an_empty_tree() {
    let repository = changed();
    let empty = repository.git(&["hash-object", "-t", "tree", "--stdin"]);
    repository.review(&[&empty, "HEAD"]).says(&["1 entry added"]);
    repository.review(&["HEAD", &empty]).says(&["1 entry removed", "A (drink), taken out"]);
}

#[test]
fn in_a_folder_below() {
    let repository = Repository::of(&[("bar/a.pour", DRINK), ("b.pour", &DRINK.replace('A', "B"))]);
    repository.replace("bar/a.pour", "60 ml", "45 ml");
    repository.replace("b.pour", "60 ml", "45 ml");
    let came = repository.run_in("bar", &["review", "HEAD"]);
    came.says(&["1 entry changed", "A (drink) a.pour:1"]);
    came.never_says(&["B (drink)"]);
    repository.run_in("bar", &["review", "HEAD", "--", ".."]).says(&["2 entries changed"]);
    repository.run_in("bar", &["review", "HEAD", "--", "/"]).fails(&["outside of the repository"]);
}

#[test]
#[cfg(unix)]
fn links_and_other_repositories_are_left_out() {
    let repository = changed();
    std::os::unix::fs::symlink("a.pour", repository.top().join("link.pour")).unwrap();
    let inner = repository.top().join("inner");
    let top = repository.top();
    repository.git(&["clone", "--quiet", top.to_str().unwrap(), inner.to_str().unwrap()]);
    repository.git(&["-c", "advice.addEmbeddedRepo=false", "add", "--all"]);
    repository.git(&["commit", "--quiet", "-m", "with a link and a repository inside"]);
    repository.review(&["HEAD"]).says(&["nothing changed in the glass"]);
    let came = repository.review(&["HEAD~1", "HEAD"]);
    came.says(&["1 entry changed"]);
    came.never_says(&["link.pour", "inner/"]);
}

#[test]
fn what_is_ignored_is_ignored_on_both_sides() {
    let repository = Repository::of(&[
        (".ignore", "*.draft.pour\n"),
        ("a.pour", DRINK),
        ("b.draft.pour", &DRINK.replace('A', "B")),
        ("washline.toml", "exclude = [\"old/\"]\n"),
        ("old/c.pour", &DRINK.replace('A', "C")),
    ]);
    repository.review(&["HEAD"]).says(&["nothing changed in the glass"]);
    repository.remove("b.draft.pour");
    repository.remove("old/c.pour");
    repository.review(&["HEAD"]).says(&["nothing changed in the glass"]);
}

#[test]
fn standards_that_cannot_be_read_stop_it() {
    let repository = changed();
    repository.write("washline.toml", "onuce = \"us\"\n");
    repository.commit("a slip");
    repository.review(&["HEAD~1"]).fails(&["washline.toml, at the working tree", "onuce"]);
    repository.remove("washline.toml");
    repository.review(&["HEAD"]).fails(&["washline.toml, at HEAD"]);
}

#[test]
fn a_file_that_is_no_text_is_named() {
    let repository = changed();
    fs::write(repository.top().join("b.pour"), b"drink: B\xff\n").unwrap();
    let came = repository.review(&["HEAD"]);
    assert_eq!(came.status, 2);
    came.says(&["60 ml gin → 45 ml gin"]);
    assert!(came.err.contains("b.pour"), "{}", came.err);
}
