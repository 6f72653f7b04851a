//! Frames out of a stream of bytes: a header of any shape, then as many bytes as it says.
//!
//! Whatever comes, reading goes on: what is no frame is told once, and the next header is
//! looked for.

use std::io::{self, Read};

/// The most bytes that a frame may have.
const MOST_BYTES: usize = 256 << 20;
/// The most bytes that a header may have.
const MOST_HEADER: usize = 8 << 10;
/// How much is read at once.
const CHUNK: usize = 64 << 10;
/// The header that says how long a frame is.
const LENGTH: &[u8] = b"content-length:";

/// What was read.
#[derive(Debug, PartialEq, Eq)]
pub(crate) enum Frame {
    /// The body of a frame.
    Body(Vec<u8>),
    /// Something that is no frame: why.
    Bad(&'static str),
}

/// The frames of a stream.
#[derive(Debug)]
pub(crate) struct Frames<R> {
    from: R,
    chunk: Box<[u8]>,
    /// What was read and not yet used, from `start` on.
    held: Vec<u8>,
    start: usize,
    /// Whether the next header is to be looked for.
    lost: bool,
}

/// A header as far as it can be told.
enum Header {
    /// Its own length, and the length it gives.
    Length(usize, usize),
    /// It gives none.
    Bad(&'static str),
    /// It is not all there.
    Short,
}

impl<R: Read> Frames<R> {
    pub(crate) fn new(from: R) -> Self {
        Self { from, chunk: vec![0; CHUNK].into(), held: Vec::new(), start: 0, lost: false }
    }

    /// The next frame; none at the end of the stream.
    ///
    /// # Errors
    /// Where the stream can't be read.
    pub(crate) fn next(&mut self) -> io::Result<Option<Frame>> {
        loop {
            if self.lost && !self.seek()? {
                return Ok(None);
            }
            match header(self.rest()) {
                Header::Length(own, length) => return self.body(own, length),
                Header::Bad(why) => {
                    self.lost = true;
                    return Ok(Some(Frame::Bad(why)));
                }
                Header::Short if self.fill()? => {}
                Header::Short => return Ok(None),
            }
        }
    }

    /// Looks once more at a body that made no sense: a wrong length may have swallowed the
    /// frames behind it.
    pub(crate) fn reconsider(&mut self, body: &[u8]) {
        let Some(at) = find_length(body) else { return };
        let mut held = body.get(at..).unwrap_or_default().to_vec();
        held.extend_from_slice(self.rest());
        (self.held, self.start) = (held, 0);
    }

    fn body(&mut self, own: usize, length: usize) -> io::Result<Option<Frame>> {
        let whole = own + length;
        while self.rest().len() < whole {
            if !self.fill()? {
                return Ok(None);
            }
        }
        let body = self.rest().get(own..whole).unwrap_or_default().to_vec();
        self.skip(whole);
        Ok(Some(Frame::Body(body)))
    }

    /// Drops what is held up to the next header that gives a length.
    fn seek(&mut self) -> io::Result<bool> {
        // Not the same one again.
        let mut from = usize::from(starts_with_length(self.rest()));
        loop {
            let rest = self.rest().get(from..).unwrap_or_default();
            if let Some(at) = find_length(rest) {
                self.skip(from + at);
                self.lost = false;
                return Ok(true);
            }
            let kept = rest.len().min(LENGTH.len());
            self.skip(self.rest().len() - kept);
            from = 0;
            if !self.fill()? {
                return Ok(false);
            }
        }
    }

    fn rest(&self) -> &[u8] {
        self.held.get(self.start..).unwrap_or_default()
    }

    fn skip(&mut self, bytes: usize) {
        self.start += bytes;
        if self.start >= self.held.len() {
            // A large frame's room is given back.
            self.held.truncate(0);
            self.held.shrink_to(CHUNK);
            self.start = 0;
        }
    }

    /// Reads on; false at the end of the stream.
    fn fill(&mut self) -> io::Result<bool> {
        if self.start > CHUNK {
            self.held.drain(..self.start);
            self.start = 0;
        }
        let read = loop {
            match self.from.read(&mut self.chunk) {
                Err(error) if error.kind() == io::ErrorKind::Interrupted => {}
                other => break other?,
            }
        };
        self.held.extend_from_slice(self.chunk.get(..read).unwrap_or_default());
        Ok(read > 0)
    }
}

fn header(bytes: &[u8]) -> Header {
    let mut at = 0;
    let mut length = None;
    for end in memchr::memchr_iter(b'\n', bytes.get(..MOST_HEADER).unwrap_or(bytes)) {
        let line = bytes.get(at..end).unwrap_or_default().trim_ascii();
        at = end + 1;
        if line.is_empty() {
            return match length {
                Some(Some(length)) if length <= MOST_BYTES => Header::Length(at, length),
                Some(Some(_)) => Header::Bad("the message is too long"),
                Some(None) => Header::Bad("the header gives no length that can be read"),
                None => Header::Bad("the header gives no length"),
            };
        }
        if starts_with_length(line) {
            let digits = line.get(LENGTH.len()..).unwrap_or_default().trim_ascii();
            length = Some(std::str::from_utf8(digits).ok().and_then(|d| d.parse().ok()));
        }
    }
    match bytes.len() < MOST_HEADER {
        true => Header::Short,
        false => Header::Bad("the header has no end"),
    }
}

fn starts_with_length(bytes: &[u8]) -> bool {
    bytes.get(..LENGTH.len()).is_some_and(|start| start.eq_ignore_ascii_case(LENGTH))
}

/// Where a header that gives a length begins.
fn find_length(bytes: &[u8]) -> Option<usize> {
    memchr::memchr_iter(b'-', bytes)
        .filter_map(|dash| dash.checked_sub(b"content".len()))
        .find(|at| starts_with_length(bytes.get(*at..).unwrap_or_default()))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// A stream that gives `n` bytes at a time.
    struct Dripping<'a>(&'a [u8], usize);

    impl Read for Dripping<'_> {
        fn read(&mut self, buffer: &mut [u8]) -> io::Result<usize> {
            let n = self.1.min(self.0.len()).min(buffer.len());
            buffer[..n].copy_from_slice(&self.0[..n]);
            self.0 = &self.0[n..];
            Ok(n)
        }
    }

    fn read(bytes: &[u8]) -> Vec<String> {
        let mut told: Option<Vec<String>> = None;
        for drip in [1, 3, 64, CHUNK] {
            let mut frames = Frames::new(Dripping(bytes, drip));
            let mut out = Vec::new();
            while let Some(frame) = frames.next().unwrap() {
                match frame {
                    Frame::Body(body) => out.push(String::from_utf8(body).unwrap()),
                    Frame::Bad(why) => out.push(format!("! {why}")),
                }
            }
            assert_eq!(told.get_or_insert(out.clone()), &out, "{drip} bytes at a time");
        }
        told.unwrap()
    }

    #[test]
    fn headers_of_any_case_and_number_are_read() {
        let bytes = b"Content-Length: 2\r\n\r\n{}content-LENGTH:2\nA: b\nC: d\n\n[]";
        assert_eq!(read(bytes), ["{}", "[]"]);
        let bytes =
            b"Content-Type: x\r\nX: y\r\nContent-Length: 0\r\n\r\nContent-Length: 1\r\n\r\n1";
        assert_eq!(read(bytes), ["", "1"]);
    }

    #[test]
    fn reading_goes_on_behind_what_is_no_frame() {
        let none = "! the header gives no length";
        let bad = "! the header gives no length that can be read";
        assert_eq!(read(b"A: b\r\n\r\n{}Content-Length: 1\r\n\r\n1"), [none, "1"]);
        assert_eq!(read(b"Content-Length: -5\r\n\r\n{}Content-Length: 1\r\n\r\n1"), [bad, "1"]);
        assert_eq!(read(b"Content-Length: x\r\n\r\nContent-Length: 1\r\n\r\n1"), [bad, "1"]);
        let long = b"Content-Length: 99999999999\r\n\r\n{}Content-Length: 1\r\n\r\n1";
        assert_eq!(read(long), ["! the message is too long", "1"]);
        let noise = [&b"x".repeat(3 * MOST_HEADER)[..], b"Content-Length: 1\r\n\r\n1"].concat();
        assert_eq!(read(&noise), ["! the header has no end", "1"]);
    }

    #[test]
    fn a_stream_may_end_anywhere() {
        assert!(read(b"").is_empty());
        assert!(read(b"Content-Le").is_empty());
        assert!(read(b"Content-Length: 5\r\n\r\n{}").is_empty());
    }

    #[test]
    fn a_length_that_swallowed_the_next_frame_gives_it_back() {
        let bytes =
            b"Content-Length: 30\r\n\r\n{}Content-Length: 1\r\n\r\n1Content-Length: 1\r\n\r\n2";
        let mut frames = Frames::new(&bytes[..]);
        let Some(Frame::Body(body)) = frames.next().unwrap() else { panic!() };
        frames.reconsider(&body);
        assert_eq!(frames.next().unwrap(), Some(Frame::Body(b"1".to_vec())));
        assert_eq!(frames.next().unwrap(), Some(Frame::Body(b"2".to_vec())));
    }
}
