//! Compiles the parser, which is C.

fn main() {
    let sources = ["src/parser.c", "src/scanner.c"];
    cc::Build::new().std("c11").include("src").files(sources).warnings(false).compile("pour");
    for file in
        sources.iter().chain(&["src/text.h", "src/amount.h", "src/line.h", "src/vocabulary.h"])
    {
        println!("cargo::rerun-if-changed={file}");
    }
}
