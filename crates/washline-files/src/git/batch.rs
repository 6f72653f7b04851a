//! Many objects by one process.

use std::io::{self, BufRead, BufReader, Read, Write};
use std::process::Stdio;
use std::thread;

use super::{GitError, ObjectId, Repository};
use crate::Contents;

/// The most bytes that are read of one object: a spec book has a thousandth of it.
pub const MOST_BLOB_BYTES: u64 = 64 * 1024 * 1024;

/// What an object holds.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Object {
    /// The bytes of a file.
    Contents(Contents),
    /// It has more than [`MOST_BLOB_BYTES`].
    TooLarge,
    /// It is not here: a partial clone has left it at its remote.
    Missing,
}

const ASK: [&str; 2] = ["cat-file", "--batch"];

impl Repository {
    /// What the objects hold, in their order.
    ///
    /// # Errors
    /// Where git can't be run, or stops in between.
    pub fn read(&self, ids: &[ObjectId]) -> Result<Vec<Object>, GitError> {
        if ids.is_empty() {
            return Ok(Vec::new());
        }
        let mut command = self.git().command(&ASK);
        command.stdin(Stdio::piped()).stderr(Stdio::null());
        let mut child = command.spawn().map_err(GitError::of_start)?;
        let (Some(mut stdin), Some(stdout)) = (child.stdin.take(), child.stdout.take()) else {
            return Err(failed("it has no pipes"));
        };
        let objects = thread::scope(|scope| {
            // Asked from a thread of its own: with both pipes full, neither side would go on.
            scope.spawn(move || {
                let asked: String = ids.iter().map(|id| format!("{}\n", id.0)).collect();
                // If git is gone, reading its answers tells of it.
                let _ = stdin.write_all(asked.as_bytes());
            });
            let mut answers = BufReader::with_capacity(1 << 16, stdout);
            ids.iter().map(|_| answer(&mut answers)).collect::<io::Result<Vec<_>>>()
        });
        if objects.is_err() {
            let _ = child.kill();
        }
        let _ = child.wait();
        objects.map_err(|error| failed(&error.to_string()))
    }
}

/// `ID blob SIZE`, a line end, the bytes, a line end; or `ID missing`.
fn answer(from: &mut impl BufRead) -> io::Result<Object> {
    let mut head = String::new();
    from.take(1024).read_line(&mut head)?;
    let mut words = head.trim_end().rsplit(' ');
    let last = words.next().unwrap_or_default();
    if last == "missing" {
        return Ok(Object::Missing);
    }
    let size: u64 = last.parse().map_err(|_| io::Error::other("it gave no size"))?;
    let mut object = from.take(size);
    if size > MOST_BLOB_BYTES {
        io::copy(&mut object, &mut io::sink())?;
    }
    let mut bytes = Vec::with_capacity(usize::try_from(object.limit()).unwrap_or(0));
    object.read_to_end(&mut bytes)?;
    if object.limit() > 0 {
        return Err(io::ErrorKind::UnexpectedEof.into());
    }
    from.read_exact(&mut [0])?;
    match size > MOST_BLOB_BYTES {
        true => Ok(Object::TooLarge),
        false => Ok(Object::Contents(Contents::of(bytes))),
    }
}

fn failed(why: &str) -> GitError {
    GitError::Failed { what: ASK.join(" "), stderr: why.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(answers: &str, many: usize) -> io::Result<Vec<Object>> {
        let mut from = answers.as_bytes();
        (0..many).map(|_| answer(&mut from)).collect()
    }

    #[test]
    fn answers_follow_one_another() {
        let read = of("1a blob 4\na\nb\n\n2b missing\n3c blob 0\n\n", 3).unwrap();
        let text = |text: &str| Object::Contents(Contents::Text(text.to_owned()));
        assert_eq!(read, [text("a\nb\n"), Object::Missing, text("")]);
    }

    #[test]
    fn an_answer_cut_off_is_an_error() {
        assert!(of("1a blob 4\na", 1).is_err());
        assert!(of("", 1).is_err());
        assert!(of("1a blob many\n", 1).is_err());
    }
}
