//! What the build refuses in a data file, and that it says where.

#[path = "../src/allergen.rs"]
mod allergen;
#[path = "../build/check.rs"]
mod check;
#[path = "../src/dilution.rs"]
mod dilution;
#[path = "../src/property.rs"]
mod property;
#[path = "../build/read.rs"]
mod read;
#[path = "../build/shape.rs"]
#[expect(dead_code, reason = "the build writes out what the check does not ask for")]
mod shape;
#[path = "../src/sort.rs"]
mod sort;
#[path = "../src/vocabulary.rs"]
mod vocabulary;

const GOOD: &str = r#"
[[source]]
id = "practice"
text = "common practice, no source"
basis = "practice"

[[ingredient]]
name = "gin"
sort = "spirit"
liquid = true
abv = [40, 37.5, 47, "practice"]
sizes = [{ of = "dash", ml = [0.8, 0.4, 1.1, "practice"] }]
allergens = [{ is = "nuts", detail = "almond", exempt = ["eu"], certain = false }]
traits = ["distillate"]
minima = [{ market = "eu", abv = 37.5, source = "practice" }]
"#;

/// The faults of the good file with `from` put as `to`, markets left aside.
fn faults(from: &str, to: &str) -> Vec<String> {
    assert!(GOOD.contains(from), "the good file has no {from:?}");
    let mut data = read::Data::default();
    let mut faults = Vec::new();
    data.read("data/x.toml", &GOOD.replace(from, to), &mut faults);
    faults.extend(check::faults(&data));
    faults.retain(|fault| !fault.starts_with("markets: "));
    faults
}

fn refused(from: &str, to: &str, words: &str) {
    let faults = faults(from, to);
    let one = faults.iter().find(|fault| fault.contains(words));
    let one = one.unwrap_or_else(|| panic!("no {words:?} in {faults:#?}"));
    assert!(one.starts_with("data/x.toml: "), "{one} names no file");
    assert!(one.contains('`'), "{one} names no entry");
}

#[test]
fn a_good_file_has_no_faults() {
    assert_eq!(faults("gin", "gin"), Vec::<String>::new());
}

#[test]
fn a_value_without_a_source_is_refused() {
    refused("47, \"practice\"", "47", "a value without a source");
    refused("47, \"practice\"", "47, \"\"", "a value without a source");
    refused("47, \"practice\"", "47, \"hearsay\"", "unknown source `hearsay`");
    refused("source = \"practice\" }]\n", "source = \"law\" }]\n", "unknown source `law`");
}

#[test]
fn a_value_outside_its_range_is_refused() {
    refused("[40, 37.5", "[30, 37.5", "30 is not within 37.5..47");
    refused("[40, 37.5", "[48, 37.5", "48 is not within 37.5..47");
    refused("37.5, 47", "37.5, 147", "37.5..147 is not within 0..100");
    refused("[40, 37.5", "[nan, 37.5", "NaN is not within");
}

#[test]
fn an_unknown_word_is_refused() {
    refused("liquid = true", "liquid = true\ncolour = \"clear\"", "unknown field `colour`");
    refused("\"spirit\"", "\"ghost\"", "unknown sort `ghost`");
    refused("\"dash\"", "\"smidgen\"", "unknown unit `smidgen`");
    refused("\"nuts\"", "\"dust\"", "unknown allergen `dust`");
    refused("[\"eu\"]", "[\"mars\"]", "unknown market `mars`");
    refused("[\"distillate\"]", "[\"tasty\"]", "unknown trait `tasty`");
    refused("basis = \"practice\"", "basis = \"hearsay\"", "unknown basis `hearsay`");
    refused("[[ingredient]]", "[[gadget]]", "unknown kind of entry");
}

#[test]
fn a_name_given_twice_is_refused() {
    let twice =
        "[[ingredient]]\nname = \"gin-\"\nsort = \"spirit\"\nliquid = true\n\n[[ingredient]]";
    refused("[[ingredient]]", twice, "already names");
}

#[test]
fn text_that_is_no_toml_names_its_file() {
    let faults = faults("liquid = true", "liquid = ");
    assert!(faults.iter().any(|fault| fault.starts_with("data/x.toml: ")), "{faults:#?}");
}
