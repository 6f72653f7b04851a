//! The guide to layout shows what the formatter does to messy books, as it does it today.
//!
//! `UPDATE_EXPECT=1 cargo test -p washline-tests --test layout_pictures` draws the pictures anew.

use std::fmt::Write as _;
use std::fs;
use std::path::PathBuf;

use unicode_width::UnicodeWidthStr;
use washline_format::{Options, format};
use washline_syntax::Document;
use washline_tests::{root, specs};
use washline_text::apply;

const GUIDE: &str = "crates/washline-format/docs";
const INTRO: &str = "# Layout, before and after

`washline format` sets entries apart, fields, lines and steps in blocks, amounts, second measures and
names in columns, and spells numbers and units in one way. It changes no value, no word and no
order; comments and blank lines that someone meant stay. An entry with a line that can't be read
stays byte for byte. What a house may choose stands under `[layout]` in its `washline.toml`.

The books below lie in `corpus/messy`; the pictures are drawn from them by a test.
";

/// The size of a character and a line, px.
const WIDE: f64 = 7.3;
const HIGH: f64 = 17.0;

#[test]
fn the_pictures_are_todays() {
    let mut guide = INTRO.to_owned();
    for (path, text) in specs(&root().join("corpus/messy")) {
        let name = path.file_stem().unwrap().to_string_lossy().into_owned();
        let edits = format(&Document::parse(&*text), &Options::default()).edits;
        let picture = picture(&name, &text, &apply(&text, &edits).unwrap());
        let _ = write!(
            guide,
            "\n## {}\n\n![{name}.pour as it was written, and laid out]({name}.svg)\n",
            name.replace('-', " ")
        );
        expect(&format!("{name}.svg"), &picture);
    }
    expect("README.md", &guide);
}

fn expect(name: &str, text: &str) {
    let path: PathBuf = root().join(GUIDE).join(name);
    if std::env::var_os("UPDATE_EXPECT").is_some() {
        fs::create_dir_all(path.parent().unwrap()).unwrap();
        fs::write(&path, text).unwrap();
    }
    let there = fs::read_to_string(&path).unwrap_or_default();
    assert!(there == text, "{} is not today's: UPDATE_EXPECT=1 draws it anew", path.display());
}

fn picture(name: &str, before: &str, after: &str) -> String {
    let columns = |text: &str| text.lines().map(UnicodeWidthStr::width).max().unwrap_or(0) as f64;
    let left = columns(before) * WIDE + 40.0;
    let width = left + columns(after) * WIDE + 40.0;
    let lines = before.lines().count().max(after.lines().count()) as f64;
    let height = (lines + 2.0) * HIGH + 24.0;
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.0}\" height=\"{height:.0}\" \
         viewBox=\"0 0 {width:.0} {height:.0}\" role=\"img\" aria-label=\"{name}.pour before and after\">\n\
         <style>text {{ font: 12px ui-monospace, 'DejaVu Sans Mono', monospace; fill: #24292f; white-space: pre }} \
         .title {{ font-weight: bold; fill: #57606a }} .remark {{ fill: #6e7781 }}</style>\n\
         <rect width=\"100%\" height=\"100%\" rx=\"6\" fill=\"#f6f8fa\"/>\n\
         <path d=\"M {left:.0} 12 V {:.0}\" stroke=\"#d0d7de\"/>\n",
        height - 12.0
    );
    panel(&mut out, 20.0, "as it was written", before);
    panel(&mut out, left + 20.0, "laid out", after);
    out.push_str("</svg>\n");
    out
}

fn panel(out: &mut String, x: f64, title: &str, text: &str) {
    let _ = writeln!(out, "<text x=\"{x:.0}\" y=\"24\" class=\"title\">{title}</text>");
    for (n, line) in text.lines().enumerate().filter(|(_, line)| !line.is_empty()) {
        let y = 24.0 + HIGH * (n as f64 + 1.5);
        // What stands before a remark, and the remark.
        let (said, remark) = line.split_at(line.find('#').unwrap_or(line.len()));
        let _ =
            write!(out, "<text x=\"{x:.0}\" y=\"{y:.1}\" xml:space=\"preserve\">{}", escaped(said));
        if !remark.is_empty() {
            let _ = write!(out, "<tspan class=\"remark\">{}</tspan>", escaped(remark));
        }
        out.push_str("</text>\n");
    }
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}
