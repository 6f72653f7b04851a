//! Colour, decided once: the pen that text is drawn with.

use std::io::{self, Write};

use codespan_reporting::diagnostic::{LabelStyle, Severity as Drawn};
use codespan_reporting::term::WriteStyle;

/// Collects what is drawn, with the escape sequences of colours or without.
#[derive(Debug)]
pub(crate) struct Paint {
    out: Vec<u8>,
    colour: bool,
    /// The next word written is the name of a severity.
    severity: bool,
}

const RESET: &str = "\x1b[0m";
const BOLD: &str = "\x1b[1m";
const RED: &str = "\x1b[31m";
const YELLOW: &str = "\x1b[33m";
const BLUE: &str = "\x1b[34m";
const CYAN: &str = "\x1b[36m";

impl Paint {
    pub(crate) const fn new(colour: bool) -> Self {
        Self { out: Vec::new(), colour, severity: false }
    }

    pub(crate) fn into_string(self) -> String {
        String::from_utf8_lossy(&self.out).into_owned()
    }

    fn set(&mut self, codes: &[&str]) -> io::Result<()> {
        if self.colour {
            codes.iter().for_each(|code| self.out.extend_from_slice(code.as_bytes()));
        }
        Ok(())
    }
}

/// Severities go by our own names.
impl Write for Paint {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        let word = match bytes {
            b"note" if self.severity => b"information",
            b"help" if self.severity => b"hint".as_slice(),
            bytes => bytes,
        };
        self.severity = false;
        self.out.extend_from_slice(word);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

impl WriteStyle for Paint {
    fn set_header(&mut self, severity: Drawn) -> io::Result<()> {
        self.severity = true;
        self.set(&[BOLD, hue(severity)])
    }

    fn set_header_message(&mut self) -> io::Result<()> {
        self.set(&[RESET, BOLD])
    }

    fn set_line_number(&mut self) -> io::Result<()> {
        self.set(&[BLUE])
    }

    fn set_note_bullet(&mut self) -> io::Result<()> {
        self.set(&[BLUE])
    }

    fn set_source_border(&mut self) -> io::Result<()> {
        self.set(&[BLUE])
    }

    fn set_label(&mut self, severity: Drawn, style: LabelStyle) -> io::Result<()> {
        match style {
            LabelStyle::Primary => self.set(&[hue(severity)]),
            LabelStyle::Secondary => self.set(&[BLUE]),
        }
    }

    fn reset(&mut self) -> io::Result<()> {
        self.set(&[RESET])
    }
}

const fn hue(severity: Drawn) -> &'static str {
    match severity {
        Drawn::Bug | Drawn::Error => RED,
        Drawn::Warning => YELLOW,
        Drawn::Note => BLUE,
        Drawn::Help => CYAN,
    }
}
