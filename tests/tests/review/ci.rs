//! The hooks and the script that a repository of specs takes: installed as its users do, and run.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

use crate::repository::{Came, Repository, came};

const DRINK: &str = "drink: A
  family: sour
  glass: coupe, chilled
  contains: none

  60 ml gin
  22.5 ml lemon juice
  20 ml sugar syrup, 1:1

  - shake with ice for 12 s, double strain
  garnish: lemon twist
";

fn ci(name: &str) -> PathBuf {
    root().join("crates/washline/ci").join(name)
}

fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).parent().unwrap().to_owned()
}

fn book() -> Repository {
    Repository::of(&[("a.pour", DRINK), ("notes.md", "by hand\n")])
}

#[cfg(unix)]
fn with_hook(repository: &Repository) {
    let hooks = repository.top().join(".git/hooks");
    fs::create_dir_all(&hooks).unwrap();
    // The mode comes along.
    fs::copy(ci("pre-commit"), hooks.join("pre-commit")).unwrap();
}

fn commit(repository: &Repository, more: &[&str]) -> Came {
    came(repository.try_git(&[&["commit", "-m", "a change"], more].concat()))
}

#[test]
#[cfg(unix)]
fn the_hook_stops_a_bad_commit_and_lets_a_good_one_pass() {
    let repository = book();
    with_hook(&repository);
    repository.replace("a.pour", "60 ml gin", "1 oz (60 ml) gin");
    repository.git(&["add", "--all"]);
    let stopped = commit(&repository, &[]);
    assert_eq!(stopped.status, 1, "{stopped:?}");
    let said = format!("{}{}", stopped.out, stopped.err);
    assert!(said.contains("new error") && said.contains("[measures-disagree]"), "{said}");
    assert_eq!(repository.git(&["rev-list", "--count", "HEAD"]), "1");
    repository.replace("a.pour", "1 oz (60 ml) gin", "2 oz (60 ml) gin");
    repository.git(&["add", "--all"]);
    let passed = commit(&repository, &[]);
    assert_eq!(passed.status, 0, "{passed:?}");
    assert_eq!(repository.git(&["rev-list", "--count", "HEAD"]), "2");
}

/// `git commit -a` makes an index of its own for the hook: that one counts.
#[test]
#[cfg(unix)]
fn the_hook_sees_what_the_commit_would_hold() {
    let repository = book();
    with_hook(&repository);
    repository.replace("a.pour", "60 ml gin", "1 oz (60 ml) gin");
    let stopped = commit(&repository, &["--all"]);
    assert_eq!(stopped.status, 1, "{stopped:?}");
    repository.write("notes.md", "no spec\n");
    let other = commit(&repository, &["notes.md"]);
    assert_eq!(other.status, 0, "{other:?}");
}

#[test]
#[cfg(unix)]
fn the_hook_works_for_a_first_commit() {
    let repository = Repository::empty();
    repository.write("a.pour", DRINK);
    repository.git(&["add", "--all"]);
    with_hook(&repository);
    let passed = commit(&repository, &[]);
    assert_eq!(passed.status, 0, "{passed:?}");
}

fn script(repository: &Repository, arguments: &[&str], fail_on: Option<&str>) -> Came {
    let mut sh = repository.own(Command::new("sh"), &repository.top());
    sh.arg(ci("review.sh")).args(arguments).env("WASHLINE_OUT", repository.path("out"));
    sh.envs(fail_on.map(|on| ("WASHLINE_FAIL_ON", on)));
    came(sh.output().unwrap())
}

#[test]
#[cfg(unix)]
fn the_script_reviews_a_branch() {
    let repository = book();
    repository.git(&["checkout", "--quiet", "-b", "spring"]);
    repository.replace("a.pour", "22.5 ml lemon juice", "30 ml lemon juice");
    repository.commit("sharper");
    repository.git(&["checkout", "--quiet", "main"]);
    repository.replace("a.pour", "60 ml gin", "45 ml gin");
    repository.commit("meanwhile");
    let came = script(&repository, &["main", "spring"], Some("never"));
    came.says(&["where it left main to spring: 1 entry changed", "turns tarter"]);
    came.never_says(&["45 ml gin"]);
    assert_eq!(came.status, 0, "{came:?}");
    for file in ["review.md", "review.html", "review.json"] {
        let text = fs::read_to_string(repository.path("out").join(file)).unwrap();
        assert!(text.contains("30 ml lemon juice"), "{file}");
    }
    assert_eq!(script(&repository, &["main", "spring"], Some("any")).status, 1);
    assert_eq!(script(&repository, &["main", "spring"], Some("allergens")).status, 0);
    assert_eq!(script(&repository, &["no-such-branch"], None).status, 2);
    assert_eq!(script(&repository, &[], None).status, 2);
}

/// Each hook of the manifest, run as a hook manager runs it.
#[test]
fn the_manifests_hooks_run() {
    let manifest = fs::read_to_string(root().join(".pre-commit-hooks.yaml")).unwrap();
    let value = |line: &str, key: &str| line.trim().strip_prefix(key).map(|v| v.trim().to_owned());
    let entries: Vec<String> = manifest.lines().filter_map(|line| value(line, "entry:")).collect();
    assert_eq!(entries.len(), 3);
    let ids = manifest.lines().filter_map(|line| value(line, "- id:"));
    assert_eq!(ids.collect::<Vec<_>>(), ["washline-review", "washline-check", "washline-format"]);
    let repository = book();
    repository.replace("a.pour", "60 ml gin", "1 oz (60 ml) gin");
    repository.git(&["add", "--all"]);
    for (entry, status) in entries.iter().zip([1, 1, 0]) {
        let words: Vec<&str> = entry.split_whitespace().skip(1).collect();
        let files: &[&str] = if entry.contains("format") { &["a.pour"] } else { &[] };
        let came = repository.run_in("", &[&words[..], files].concat());
        assert_eq!(came.status, status, "{entry}: {came:?}");
    }
}

/// The action runs the script that is tested here, and names nothing that is not there.
#[test]
fn the_action_runs_the_script() {
    let folder = root().join(".github/actions/review");
    let action = fs::read_to_string(folder.join("action.yml")).unwrap();
    let paths = action.split("$GITHUB_ACTION_PATH/").skip(1);
    let paths: Vec<&str> = paths.filter_map(|rest| rest.split('"').next()).collect();
    assert_eq!(paths.len(), 2);
    for path in paths {
        assert!(folder.join(path).exists(), "{path}");
    }
}
