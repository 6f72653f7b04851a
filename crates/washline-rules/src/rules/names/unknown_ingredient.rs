//! An ingredient that nothing knows.

use std::collections::BTreeMap;

use washline_book::{Read, Record, Workspace};
use washline_text::{Place, Span, fold};

use super::{Uses, on_the_list, rewrite, users, with_uses};
use crate::rule::rule;
use crate::words::{either, some};
use crate::{Check, Circle, Context, Fixes, Part, Report, Sink, Together};

mod several;

use several::odd;

rule! {
    /// # Why
    /// What nobody knows has no strength, no sugar and no allergens that anyone can vouch for:
    /// the drink has no figures, and what it carries is unknown. A slip of the pen is one
    /// letter away from its name; a bottle needs an entry that says what kind of thing it is.
    /// It is told once for each name, with the entries that it touches.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemmon juice
    ///   22.5 ml  sugar syrup, 1:1
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
    ///   contains: none
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
    ///   22.5 ml  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// The notation: a name is looked up in its file, its book, the workspace, then the reference.
    "unknown-ingredient", Names, Warning, Fixes::Unsafe, Check::Book(Together { circles, find }),
    why: "nobody can say how strong it is or what allergens it carries"
}

fn circles(context: &Context<'_>) -> Vec<Part> {
    let Context { workspace, record, .. } = context;
    if !on_the_list(context) {
        return Vec::new();
    }
    let unknown = record.reads.iter().filter(is_unknown);
    let name = |read| unknown_words(workspace, record, read).0;
    unknown.map(|read| Circle::of(&*name(read)).whole()).collect()
}

/// Whether a line names something that nothing knows; one that has no name is told as such.
fn is_unknown(read: &&Read) -> bool {
    !read.known() && !read.name.is_empty()
}

fn find(workspace: &Workspace, circle: Circle, records: &[&Record], sink: &mut Sink<'_>) {
    let mut names: BTreeMap<String, Uses<'_>> = BTreeMap::new();
    for &record in records {
        for read in record.reads.iter().filter(is_unknown) {
            let (name, place) = unknown_words(workspace, record, read);
            if Circle::of(&*name) == circle {
                names.entry(name).or_default().push((record, place));
            }
        }
    }
    let reports = names.iter().filter_map(|(name, uses)| report(workspace, name, uses));
    reports.for_each(|report| sink.report(report));
}

/// The words of a line that nothing knows, folded, and where they stand: of a choice the side
/// that is unknown.
fn unknown_words(workspace: &Workspace, record: &Record, read: &Read) -> (String, Place) {
    let side = workspace.unknown_side(&read.name, record);
    let written = record.text(read.name_span);
    let span = written.find(side).and_then(|at| {
        let start = read.name_span.start + u32::try_from(at).ok()?;
        Some(Span::new(start, start + u32::try_from(side.len()).ok()?))
    });
    (fold(side), record.place(span.unwrap_or(read.name_span)))
}

fn report(workspace: &Workspace, name: &str, uses: &Uses<'_>) -> Option<Report> {
    let (record, place) = uses.first()?;
    let odd = odd(workspace, record, *place);
    let letters = name.trim_matches(|c: char| !c.is_alphanumeric());
    let mut near = workspace.nearest(letters, 3);
    near.retain(|near| odd.is_none() && fold(near) != name);
    let who = users(uses);
    let message = format!("nothing is known as `{}`", workspace.text(*place));
    let message = match who.as_slice() {
        [_] => message,
        many => format!("{message}; {} entries need it: {}", many.len(), some(many)),
    };
    let stock = "if it is a bottle, write its kind or a `stock:` entry";
    let help = match near.as_slice() {
        _ if uses.iter().all(|(record, _)| &*record.key == name) => {
            "nothing is made of itself: what it starts from, such as the last batch, needs a name \
             and a `stock:` entry of its own"
                .to_owned()
        }
        [] => odd.as_ref().map_or(stock, |odd| odd.help).to_owned(),
        near => format!("did you mean {}? Else, {stock}", either(near)),
    };
    let mut report = with_uses(Report::on(record, *place, message).help(help), uses);
    report = report.key(name);
    if let Some((title, edits)) = odd.and_then(|odd| odd.mend) {
        report = report.fix(title, false, edits);
    }
    for name in &near {
        report = report.fix(format!("write `{name}`"), false, rewrite(uses, name));
    }
    Some(report)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, findings, fixed, message};

    #[test]
    fn a_slip_is_pointed_at() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  22 ml lmie juice, fresh
        ^^^^^^^^^^
",
        );
    }

    #[test]
    fn a_name_is_told_once_with_all_that_need_it() {
        let text = "drink: A\n  60 ml quince cordail\n\ndrink: B\n  60 ml Quince Cordail\n";
        let found = findings(text, "");
        let ours: Vec<_> = found.iter().filter(|f| f.rule == RULE.name).collect();
        assert_eq!(ours.len(), 1);
        assert_eq!(ours[0].related.len(), 1);
        assert_eq!(
            ours[0].message,
            "nothing is known as `quince cordail`; 2 entries need it: A and B"
        );
    }

    #[test]
    fn signs_around_a_name_are_none_of_it() {
        let text = "drink: A\n  60 ml \"gin\"\n";
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some("drink: A\n  60 ml gin\n"));
    }

    #[test]
    fn a_line_without_a_name_is_told_by_another_rule() {
        let found = findings("drink: A\n  top\n", "");
        assert!(found.iter().all(|finding| finding.rule != RULE.name), "{found:?}");
    }

    #[test]
    fn every_use_is_mended_at_once() {
        let text = "drink: A\n  60 ml lmie juice\n\ndrink: B\n  60 ml lmie juice\n";
        let mended = "drink: A\n  60 ml lime juice\n\ndrink: B\n  60 ml lime juice\n";
        assert_eq!(fixed(&RULE, text, "").as_deref(), Some(mended));
    }

    #[test]
    fn the_houses_own_names_are_offered() {
        let text =
            "drink: A\n  60 ml Heron Cordail\n\nprep: Heron Cordial\n  60 g sugar\n  60 g water\n";
        assert!(fixed(&RULE, text, "").unwrap().contains("60 ml Heron Cordial"));
    }

    #[test]
    fn of_a_choice_the_unknown_side_is_told() {
        check(
            &RULE,
            "
drink: A
  60 ml gin or xanthous elixir
               ^^^^^^^^^^^^^^^
  60 ml bourbon or rye whiskey
  60 ml light or dark rum
",
        );
        let text = "drink: A\n  60 ml gin or xanthous elixir\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("nothing is known as `xanthous elixir`")
        );
    }

    /// A kind outside the reference is a word that its field does not know.
    #[test]
    fn an_unknown_kind_is_told_by_another_rule() {
        let text = "stock: Orchard Row Pear Brandy\n  kind: pear brandee\n";
        let found = findings(text, "");
        assert_eq!(found.iter().map(|f| f.rule).collect::<Vec<_>>(), ["unknown-value"]);
    }

    #[test]
    fn garnishes_are_prose_and_last_years_list_is_left_alone() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  garnish: paper lantern

drink: B
  status: retired
  60 ml xanthous elixir
",
        );
    }
}
