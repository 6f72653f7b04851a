//! An allergen that `contains:` leaves out.

use std::collections::BTreeMap;

use washline_book::{Carried, Record, Workspace};
use washline_reference::nearest::closest;
use washline_reference::{Allergen, Market, allergen_words};
use washline_syntax::{Field, Key, Value};
use washline_text::{Edit, FileId, Kind, Severity, Span, fold};

use super::mend::{completed, declaration};
use super::{carried, each, is_listed, market_name, named, said, way, with_way, word};
use crate::lines::in_line;
use crate::rule::rule;
use crate::run::within;
use crate::words::{list, number, some};
use crate::{Check, Circle, Context, Fixes, Part, Report, Sink, Together};

rule! {
    /// # Why
    /// Whoever takes an order reads `contains:` and nothing else. What a drink carries is the
    /// union over its lines, their preps, the preps of those, the garnish, and what is optional
    /// or served beside; each allergen is traced to the line it came through. Sulphites count
    /// by their quantity in the finished drink, and where the quantity is not known they count.
    /// What the market's law exempts, a distillate of grain or of nuts, does not.
    ///
    /// Only a drink must declare; preps and bottles hand down what they carry. A book that
    /// declares nothing anywhere is told once; one drink that says nothing in a book that
    /// declares is told by itself, as an error if it carries something.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  orgeat
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: almond
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  orgeat
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Regulation (EU) 1169/2011, Annex II, and each market's own list, as the reference cites
    /// them. The card is an aid: local law and the label decide.
    "undeclared-allergen", Allergens, Error, Fixes::Unsafe, Check::EntryAndBook(find, Together { circles, find: find_in_book }),
    why: "a guest who must not have it is told that it is not there"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if record.kind != Kind::Drink {
        return;
    }
    match record.field(Key::Contains) {
        Some(field) if field.value != Value::Bad => left_out(context, field, sink),
        Some(_) => {}
        None if record.draft || record.retired => {}
        None if context.workspace.declares(record) => sink.report(says_nothing(context)),
        None => {}
    }
}

/// One finding for each allergen that the words of `contains:` leave out.
fn left_out(context: &Context<'_>, field: &Field, sink: &mut Sink<'_>) {
    let mut carried = carried(context).peekable();
    if carried.peek().is_none() {
        return;
    }
    let listed = named(context.record, Key::Contains);
    let mut missing: BTreeMap<Allergen, Vec<&Carried>> = BTreeMap::new();
    for carried in carried.filter(|c| !is_listed(&listed, c.allergen, &c.detail)) {
        missing.entry(carried.allergen).or_default().push(carried);
    }
    for (allergen, ways) in missing {
        if !is_misspelt(context.record, allergen) {
            sink.report(missing_one(context, field, &ways));
        }
    }
}

/// Whether a word of `contains:` that names nothing was meant for it: that is told as such.
fn is_misspelt(record: &Record, allergen: Allergen) -> bool {
    let words = washline_book::allergens_listed(record, Key::Contains);
    words.iter().filter(|(named, _)| named.is_none()).any(|(_, span)| {
        let near = closest(&fold(record.text(*span)), allergen_words(), 1);
        near.first().is_some_and(|(_, meant)| *meant == allergen)
    })
}

fn missing_one(context: &Context<'_>, field: &Field, ways: &[&Carried]) -> Report {
    let settings = context.settings;
    let said = each(ways, |c| said(settings, c));
    let through = each(ways, |c| way(&c.path));
    let message = format!(
        "`contains:` leaves out {}{}, through {}",
        list(&said),
        quantity(context, ways),
        some(&through)
    );
    let words = each(ways, |c| word(settings, c)).join(", ");
    let edit = completed(context, field, &words);
    let allergen = ways.first().map_or("", |c| c.allergen.id());
    let mut report = Report::at(context, field.value_span, message)
        .help(help(context, ways, &words))
        .key(allergen);
    for carried in ways.iter().take(3) {
        report = with_way(report, context, &carried.path);
    }
    report.fix(format!("declare {words}"), false, vec![edit])
}

/// `, 26 mg/l`, of sulphites that are known by quantity.
fn quantity(context: &Context<'_>, ways: &[&Carried]) -> String {
    let sulphites = ways.iter().all(|c| c.allergen == Allergen::Sulphites && c.measured);
    match context.record.figures.sulphites_mg_per_l.filter(|_| sulphites) {
        Some(mg) => format!(", {} mg/l of the finished drink", number(mg)),
        None => String::new(),
    }
}

fn help(context: &Context<'_>, ways: &[&Carried], words: &str) -> String {
    let mg = context.record.figures.sulphites_mg_per_l;
    let asks = |market: &&Market| ways.iter().any(|c| c.counts_in(**market, mg));
    let markets = context.settings.declared_markets().iter().filter(asks);
    let markets: Vec<&str> = markets.map(|market| market_name(*market)).collect();
    let traces = named(context.record, Key::MayContain);
    let traced = ways.iter().any(|c| is_listed(&traces, c.allergen, &c.detail));
    let traced = if traced { "; `may-contain:` is for traces, and this is poured" } else { "" };
    let asks = if markets.len() == 1 { "asks" } else { "ask" };
    format!("add `{words}` to `contains:`, as {} {asks}{traced}", list(&markets))
}

/// A drink that says nothing in a book whose other drinks do.
fn says_nothing(context: &Context<'_>) -> Report {
    let record = context.record;
    let carried: Vec<&Carried> = carried(context).collect();
    let (severity, message, help) = if carried.is_empty() {
        let unread = unvouched(record);
        let help = match unread.as_slice() {
            [] => "write `contains: none` if that is so".to_owned(),
            names => format!(
                "nobody vouches for {}: read the labels, then write what they say",
                some(names)
            ),
        };
        let message =
            format!("{} does not say what it contains, as this book's drinks do", record.name);
        (Severity::Warning, message, help)
    } else {
        let what =
            each(&carried, |c| format!("{}, through {}", said(context.settings, c), way(&c.path)));
        let message = format!(
            "{} does not say what it contains; it carries {}",
            record.name,
            what.join("; ")
        );
        (Severity::Error, message, "write `contains:` with all that it carries".to_owned())
    };
    let mut report = Report::entry(context, message).severity(severity).help(help);
    for carried in carried.iter().take(3) {
        report = with_way(report, context, &carried.path);
    }
    match declaration(context) {
        Some((words, edit)) => report.fix(format!("write `contains: {words}`"), false, vec![edit]),
        None => report,
    }
}

/// The names of the lines that nobody vouches for.
fn unvouched(record: &Record) -> Vec<&str> {
    let vouches = |read: &&washline_book::Read| {
        !read.ingredient().is_some_and(|known| known.vouches) || !read.known()
    };
    if record.allergens.vouched {
        return Vec::new();
    }
    record.reads.iter().filter(vouches).map(|read| read.name.as_str()).collect()
}

/// A book that declares nothing is told once.
fn circles(context: &Context<'_>) -> Vec<Part> {
    let record = context.record;
    let quiet = record.draft || record.retired || record.field(Key::Contains).is_some();
    let silent = record.kind == Kind::Drink && !quiet && !context.workspace.declares(record);
    if !silent {
        return Vec::new();
    }
    let (carries, declared) = of_silent(context);
    let edit = declared.map(|(_, Edit { span, text })| {
        let within = |at: u32| at.saturating_sub(record.start);
        (in_line(record, Span::new(within(span.start), within(span.end))), text)
    });
    vec![Circle::of(&record.book.as_deref()).saying(&(carries, edit))]
}

/// Whether a drink that declares nothing carries an allergen, and the edit that declares it.
fn of_silent(context: &Context<'_>) -> (bool, Option<(FileId, Edit)>) {
    (carried(context).next().is_some(), declaration(context).map(|(_, edit)| edit))
}

fn find_in_book(workspace: &Workspace, _: Circle, records: &[&Record], sink: &mut Sink<'_>) {
    let mut silent: BTreeMap<Option<&str>, Vec<&Record>> = BTreeMap::new();
    for &record in records {
        silent.entry(record.book.as_deref()).or_default().push(record);
    }
    let books = silent.values().filter_map(|drinks| silent_book(workspace, drinks));
    books.for_each(|report| sink.report(report));
}

/// A book none of whose drinks says what it contains.
fn silent_book(workspace: &Workspace, drinks: &[&Record]) -> Option<Report> {
    let first = drinks.first()?;
    let mut carrying: Vec<&str> = Vec::new();
    let mut edits = Vec::new();
    for drink in drinks {
        let (carries, declared) = of_silent(&within(workspace, drink));
        if carries {
            carrying.push(&drink.name);
        }
        edits.extend(declared);
    }
    let message = match carrying.as_slice() {
        [] => "no drink of this book says what it contains".to_owned(),
        many => format!(
            "no drink of this book says what it contains; {} of {} carry an allergen: {}",
            many.len(),
            drinks.len(),
            some(many)
        ),
    };
    let title = format!("write what is known of {} in `contains:`", count(edits.len(), "drink"));
    let report = Report::on(first, first.name_place(), message)
        .severity(Severity::Information)
        .help("write `contains:` in each drink, or `contains: none` where every label was read")
        .key("book");
    Some(report.fix(title, false, edits))
}

fn count(n: usize, what: &str) -> String {
    if n == 1 { format!("one {what}") } else { format!("{n} {what}s") }
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, findings, fixed, message, severity};
    use washline_text::Severity;

    /// A drink that says `contains: none` over `lines`, with `more` behind it.
    fn drink(lines: &str, more: &str) -> String {
        format!(
            "drink: A\n  glass: coupe\n  contains: none\n{lines}  - shake with ice, strain\n\n{more}"
        )
    }

    fn count(text: &str, settings: &str) -> usize {
        findings(text, settings).iter().filter(|f| f.rule == RULE.name).count()
    }

    #[test]
    fn the_way_is_traced_through_preps() {
        let more = "prep: Brown Butter Rum\n  700 ml gold rum\n  200 g butter\n";
        let text = drink("  60 ml Brown Butter Rum\n", more);
        assert_eq!(
            message(&RULE, &text, "").as_deref(),
            Some("`contains:` leaves out milk, through Brown Butter Rum → butter")
        );
        let found = findings(&text, "");
        let one = found.iter().find(|f| f.rule == RULE.name).unwrap();
        assert_eq!(one.severity, Severity::Error);
        assert_eq!(one.related.len(), 2);
        assert!(one.fixes.iter().all(|fix| !fix.safe));
        assert!(fixed(&RULE, &text, "").unwrap().contains("contains: milk\n"));
    }

    #[test]
    fn each_allergen_is_one_finding_and_the_list_is_completed() {
        check(
            &RULE,
            "
drink: A
  contains: sulphites
            ^^^^^^^^^
  30 ml orgeat
  30 ml dry vermouth
  - shake with ice, strain
",
        );
        let text = drink("  30 ml orgeat\n  20 ml egg white\n", "");
        assert_eq!(count(&text, ""), 2);
        let partly = "drink: A\n  contains: egg\n  30 ml orgeat\n  1 egg white\n";
        assert!(fixed(&RULE, partly, "").unwrap().contains("contains: egg, almond\n"));
    }

    #[test]
    fn garnish_optional_and_side_lines_count() {
        let text = "drink: A\n  contains: none\n  60 ml gin\n  garnish: blue cheese olive\n";
        assert!(message(&RULE, text, "").unwrap().contains("milk"));
        assert_eq!(count(&drink("  60 ml gin\n  10 ml orgeat, optional\n", ""), ""), 1);
        assert_eq!(count(&drink("  60 ml gin\n  100 ml beer, on the side\n", ""), ""), 1);
        assert_eq!(count(&drink("  60 ml gin or orgeat\n", ""), ""), 1);
        assert_eq!(count(&drink("  60 ml gin, contains gluten\n", ""), ""), 1);
    }

    #[test]
    fn any_word_for_it_declares_it() {
        for word in ["milk", "dairy", "Lactose"] {
            let text = format!("drink: A\n  contains: {word}\n  30 ml cream\n");
            assert_eq!(count(&text, ""), 0, "{word}");
        }
        for word in ["nuts", "tree nuts", "almonds", "nuts (almond)"] {
            let text = format!("drink: A\n  contains: {word}\n  30 ml orgeat\n");
            assert_eq!(count(&text, ""), 0, "{word}");
        }
        assert_eq!(count("drink: A\n  contains: hazelnut\n  30 ml orgeat\n", ""), 1);
        let traces = "drink: A\n  contains: none\n  may-contain: nuts\n  30 ml orgeat\n";
        assert_eq!(count(traces, ""), 1);
    }

    #[test]
    fn the_markets_decide_what_counts_and_how_it_is_called() {
        let beer = drink("  100 ml beer\n", "");
        assert_eq!(count(&beer, "market = \"eu\"\n"), 1);
        assert_eq!(count(&beer, "market = \"us\"\n"), 0);
        assert_eq!(count(&beer, ""), 1);
        let milk = drink("  20 ml egg white\n", "");
        let words = fixed(&RULE, &milk, "market = \"au-nz\"\n").unwrap();
        assert!(words.contains("contains: egg\n"));
        let words = fixed(&RULE, &milk, "market = \"uk\"\n").unwrap();
        assert!(words.contains("contains: eggs\n"));
        let term = fixed(&RULE, &beer, "market = \"eu\"\n").unwrap();
        assert!(term.contains("contains: cereals containing gluten\n"));
    }

    /// Regulation (EU) 1169/2011, Annex II, 12: above 10 mg/l of the drink as it is ready to drink.
    #[test]
    fn sulphites_count_by_quantity() {
        assert_eq!(count(&drink("  60 ml gin\n  30 ml dry vermouth\n", ""), ""), 1);
        assert_eq!(count(&drink("  60 ml gin\n  2 ml dry vermouth\n", ""), ""), 0);
        let unknown = "stock: Ox\n  kind: gin\n  contains: sulphites\n";
        assert_eq!(count(&drink("  60 ml gin\n  2 ml Ox\n", unknown), ""), 1);
        let text = drink("  60 ml gin\n  30 ml dry vermouth\n", "");
        assert!(message(&RULE, &text, "").unwrap().contains("mg/l of the finished drink"));
    }

    /// Regulation (EU) 1169/2011, Annex II, 1 (d): distillates of cereals are exempt.
    #[test]
    fn distillates_of_grain_or_nuts_are_no_allergen() {
        let lines = "  20 ml bourbon\n  20 ml vodka\n  20 ml gin\n  20 ml rye whiskey\n";
        for market in ["", "market = \"eu\"\n", "market = \"us\"\n"] {
            assert_eq!(count(&drink(lines, ""), market), 0, "{market}");
        }
    }

    #[test]
    fn a_bottles_own_label_replaces_its_kind() {
        let own = "stock: Pier Orgeat\n  kind: orgeat\n  contains: none\n";
        assert_eq!(count(&drink("  60 ml Pier Orgeat\n", own), ""), 0);
        let own = "stock: Pier Gin\n  kind: gin\n  contains: milk\n";
        assert_eq!(count(&drink("  60 ml Pier Gin\n", own), ""), 1);
    }

    #[test]
    fn a_book_that_declares_nothing_is_told_once() {
        let text = "drink: A\n  1 egg white\n\ndrink: B\n  30 ml cream\n\ndrink: C\n  9 ml gin\n";
        assert_eq!(count(text, ""), 1);
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Information));
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("no drink of this book says what it contains; 2 of 3 carry an allergen: A and B")
        );
        assert_eq!(
            fixed(&RULE, text, "").as_deref(),
            Some(
                "drink: A\n  contains: egg\n  1 egg white\n\ndrink: B\n  contains: milk\n  30 ml cream\n\ndrink: C\n  contains: none\n  9 ml gin\n"
            )
        );
    }

    #[test]
    fn one_drink_that_says_nothing_is_told_by_itself() {
        let other = "drink: Z\n  contains: none\n  60 ml gin\n";
        let egg = format!("drink: A\n  1 egg white\n\n{other}");
        assert_eq!(severity(&RULE, &egg, ""), Some(Severity::Error));
        let plain = format!("drink: A\n  60 ml gin\n\n{other}");
        assert_eq!(severity(&RULE, &plain, ""), Some(Severity::Warning));
        assert!(fixed(&RULE, &plain, "").unwrap().contains("contains: none\n  60 ml gin\n\ndrink"));
        let draft = format!("drink: A\n  status: draft\n  1 egg white\n\n{other}");
        assert_eq!(count(&draft, ""), 0);
        let retired = format!("drink: A\n  status: retired\n  1 egg white\n\n{other}");
        assert_eq!(count(&retired, ""), 0);
    }

    #[test]
    fn what_nobody_vouches_for_is_never_written_as_none() {
        let text = "drink: A\n  60 ml gin\n  2 dashes orange bitters\n\ndrink: Z\n  contains: none\n  60 ml gin\n";
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Warning));
        assert_eq!(fixed(&RULE, text, ""), None);
    }

    #[test]
    fn preps_and_bottles_need_not_declare() {
        check(
            &RULE,
            "
drink: A
  contains: nuts
  30 ml Almond Mix

prep: Almond Mix
  100 g almonds
  100 g water

stock: Pier Orgeat
  kind: orgeat
",
        );
    }

    #[test]
    fn a_draft_keeps_the_error_of_what_it_does_say() {
        check_under(
            &RULE,
            "",
            "
drink: A
  status: draft
  contains: none
            ^^^^
  1 egg white
",
        );
    }
}
