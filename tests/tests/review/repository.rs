//! A repository of spec books in a folder of its own.

use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output, Stdio};

/// A repository, and how to run things in it.
pub struct Repository {
    folder: tempfile::TempDir,
}

/// What a run of the program came to.
#[derive(Debug)]
pub struct Came {
    /// Standard output.
    pub out: String,
    /// Standard error.
    pub err: String,
    /// Its exit status.
    pub status: i32,
}

impl Came {
    /// Holds that each of `words` stands in the output.
    #[track_caller]
    pub fn says(&self, words: &[&str]) {
        let out = spaced(&self.out);
        for words in words {
            assert!(
                out.contains(&spaced(words)),
                "{words}\nis missing in\n{}\n{}",
                self.out,
                self.err
            );
        }
    }

    /// Holds that none of `words` stands in the output.
    #[track_caller]
    pub fn never_says(&self, words: &[&str]) {
        for words in words {
            assert!(
                !spaced(&self.out).contains(&spaced(words)),
                "{words}\nstands in\n{}",
                self.out
            );
        }
    }

    /// Holds that the run failed, and said so with each of `words`.
    #[track_caller]
    pub fn fails(&self, words: &[&str]) {
        assert_eq!(self.status, 2, "{self:?}");
        let err = spaced(&self.err.replace(['│', '╰', '─', '▶', '×'], " "));
        for words in words {
            assert!(err.contains(words), "{words}\nis missing in\n{}", self.err);
        }
    }
}

/// Columns are set by the widest word: one blank does for any number.
fn spaced(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

impl Repository {
    /// An empty one, with nothing committed.
    pub fn empty() -> Self {
        let repository = Self { folder: tempfile::tempdir().unwrap() };
        fs::create_dir(repository.path("book")).unwrap();
        fs::create_dir(repository.path("home")).unwrap();
        repository.git(&["init", "--quiet", "--initial-branch=main"]);
        repository
    }

    /// One with `files` committed.
    pub fn of(files: &[(&str, &str)]) -> Self {
        let repository = Self::empty();
        files.iter().for_each(|(path, text)| repository.write(path, text));
        repository.commit("first");
        repository
    }

    /// The folder beside the working tree, for what must not be in it.
    pub fn path(&self, name: &str) -> PathBuf {
        self.folder.path().canonicalize().unwrap().join(name)
    }

    /// The top of the working tree.
    pub fn top(&self) -> PathBuf {
        self.path("book")
    }

    pub fn write(&self, path: &str, text: &str) {
        let path = self.top().join(path);
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(path, text).unwrap();
    }

    pub fn remove(&self, path: &str) {
        fs::remove_file(self.top().join(path)).unwrap();
    }

    /// Puts `after` in the place of `before` in a file.
    #[track_caller]
    pub fn replace(&self, path: &str, before: &str, after: &str) {
        let text = fs::read_to_string(self.top().join(path)).unwrap();
        assert!(text.contains(before), "{before} is not in {path}");
        self.write(path, &text.replace(before, after));
    }

    /// Commits all there is.
    pub fn commit(&self, subject: &str) {
        self.git(&["add", "--all"]);
        self.git(&["commit", "--quiet", "--no-verify", "--allow-empty", "-m", subject]);
    }

    /// Runs git, which must work.
    #[track_caller]
    pub fn git(&self, arguments: &[&str]) -> String {
        let output = self.try_git(arguments);
        assert!(output.status.success(), "{arguments:?}: {output:?}");
        String::from_utf8_lossy(&output.stdout).trim_end().to_owned()
    }

    /// Runs git, whatever comes of it.
    pub fn try_git(&self, arguments: &[&str]) -> Output {
        let mut command = self.own(Command::new("git"), &self.top());
        command.args(arguments).output().unwrap()
    }

    /// A command that knows this repository alone, with the program on its path.
    pub fn own(&self, mut command: Command, folder: &Path) -> Command {
        let named: Vec<_> = std::env::vars_os().map(|(name, _)| name).collect();
        for name in named.iter().filter(|name| name.to_string_lossy().starts_with("GIT_")) {
            command.env_remove(name);
        }
        let mut path = vec![program().parent().unwrap().to_path_buf()];
        path.extend(std::env::split_paths(&std::env::var_os("PATH").unwrap()));
        command
            .current_dir(folder)
            .env("PATH", std::env::join_paths(path).unwrap())
            .env("HOME", self.path("home"))
            .env("GIT_CONFIG_NOSYSTEM", "1")
            .env("GIT_AUTHOR_NAME", "Bar Lead")
            .env("GIT_AUTHOR_EMAIL", "lead@example.org")
            .env("GIT_AUTHOR_DATE", "2020-02-02T20:20:20+00:00")
            .env("GIT_COMMITTER_NAME", "Bar Lead")
            .env("GIT_COMMITTER_EMAIL", "lead@example.org")
            .env("GIT_COMMITTER_DATE", "2020-02-02T20:20:20+00:00")
            .env_remove("XDG_CONFIG_HOME")
            .env_remove("CLICOLOR_FORCE")
            .stdin(Stdio::null());
        command
    }

    /// `washline review` with `arguments`, at the top.
    pub fn review(&self, arguments: &[&str]) -> Came {
        self.run_in("", &[&["review"], arguments].concat())
    }

    /// `washline` with `arguments`, in a folder of the working tree.
    pub fn run_in(&self, folder: &str, arguments: &[&str]) -> Came {
        let mut command = self.own(Command::new(program()), &self.top().join(folder));
        came(command.args(arguments).output().unwrap())
    }
}

/// What a finished run came to.
pub fn came(output: Output) -> Came {
    Came {
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
        status: output.status.code().unwrap_or(-1),
    }
}

/// The program beside the folder that holds this test.
pub fn program() -> PathBuf {
    let this = std::env::current_exe().unwrap();
    let folder = this.ancestors().nth(2).unwrap();
    let program = folder.join(format!("washline{}", std::env::consts::EXE_SUFFIX));
    assert!(program.is_file(), "{} is missing: cargo build -p washline", program.display());
    program
}
