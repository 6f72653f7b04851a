//! An allergen that is declared and that nothing carries.

use washline_book::Record;
use washline_reference::{Allergen, Trait};
use washline_syntax::{Key, Value};
use washline_text::{Kind, Span, fold};

use super::{Named, is_listed};
use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A card that declares what is not there turns guests away for nothing, and is often left
    /// over from another version, whose own allergen is then missing. It is told only where
    /// every line is vouched for. A house that declares more on purpose says so: in
    /// `may-contain:`, in a remark behind the words, in a `note:` that names it, or by a waiver.
    /// Nothing is taken out for you.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: egg
    ///
    ///   60 ml    gin
    ///   22.5 ml  lemon juice
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
    ///   contains: egg            # our tins see egg white all night
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
    /// Common practice, no source. Regulation (EU) 1169/2011, Article 36, on what is declared
    /// of one's own accord: it must not mislead.
    "declared-not-present", Allergens, Information, Fixes::None, Check::Entry(find),
    why: "guests are turned away for nothing, or another version's allergen is missing"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if record.kind == Kind::Stock || !record.allergens.vouched || record.unread {
        return;
    }
    let Some(field) = record.field(Key::Contains) else { return };
    if !matches!(field.value, Value::Terms(_)) || has_remark(record, field.value_span) {
        return;
    }
    // `none` beside a word is a clash, told as one.
    let clashes = record.terms(Key::Contains).any(|(word, _)| word.eq_ignore_ascii_case("none"));
    if clashes {
        return;
    }
    for (named, span) in washline_book::allergens_listed(record, Key::Contains) {
        let Some(named) = named else { continue };
        if !is_carried(record, named) && !is_meant(record, named) {
            sink.report(report(context, named, span));
        }
    }
}

/// A remark behind the words is a decision.
fn has_remark(record: &Record, value: Span) -> bool {
    record.entry.lines.iter().any(|line| line.span.touches(value.start) && line.comment.is_some())
}

/// Whether a line carries it, be it exempt, below the quantity, or of some makers only.
fn is_carried(record: &Record, (allergen, kind): Named) -> bool {
    let poured = record.allergens.of(allergen).filter(|carried| carried.is_poured());
    poured.into_iter().any(|carried| is_listed(&[(allergen, kind)], allergen, &carried.detail))
}

/// Whether the house says why, or declares the grain behind a distillate.
fn is_meant(record: &Record, (allergen, kind): Named) -> bool {
    let grain =
        allergen == Allergen::Gluten && record.reads.iter().any(|read| read.is(Trait::Distillate));
    grain
        || record
            .fields(Key::Note)
            .any(|note| speaks_of(record.text(note.value_span), allergen, kind))
}

fn speaks_of(note: &str, allergen: Allergen, kind: &str) -> bool {
    let note = fold(note);
    let words = note.split(|c: char| !c.is_alphanumeric());
    words.into_iter().any(|word| {
        let named = washline_reference::allergen_from_word(word);
        named.is_some_and(|(other, other_kind)| {
            other == allergen && (kind.is_empty() || other_kind.is_empty() || kind == other_kind)
        })
    })
}

fn report(context: &Context<'_>, (allergen, _): Named, span: Span) -> Report {
    let written = context.record.text(span);
    Report::at(context, span, format!("`{written}` is declared, and no line carries it"))
        .help("take it out if it is left over; if it is meant, say why behind it: `# shared tins`, or move it to `may-contain:`")
        .key(allergen.id())
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::check;

    #[test]
    fn the_word_is_pointed_at() {
        check(
            &RULE,
            "
drink: A
  contains: egg, milk
                 ^^^^
  60 ml gin
  1 egg white
",
        );
    }

    #[test]
    fn over_declaring_on_purpose_is_silent() {
        check(
            &RULE,
            "
drink: A
  contains: milk  # one blender for all
  60 ml gin

drink: B
  contains: nuts
  note: our shakers see orgeat, so nuts cannot be ruled out
  60 ml gin

drink: C
  contains: none
  may-contain: nuts
  60 ml gin

drink: D
  contains: gluten
  60 ml rye whiskey
",
        );
    }

    #[test]
    fn what_nobody_vouches_for_may_carry_it() {
        check(
            &RULE,
            "
drink: A
  contains: celery
  60 ml gin
  2 dashes aromatic bitters

drink: B
  contains: milk
  60 ml xanthous elixir

drink: C
  contains: milk
  60 ml Pier Cup

stock: Pier Cup
  abv: 20 %
  sugar: 10 g/100 ml
",
        );
    }

    #[test]
    fn what_is_exempt_or_below_the_quantity_is_there_all_the_same() {
        check(
            &RULE,
            "
drink: A
  contains: sulphites, gluten
  60 ml gin
  5 g dextrose
  1 ml dry vermouth
  - stir with ice, strain
",
        );
    }

    #[test]
    fn a_prep_is_held_to_what_it_declares() {
        check(
            &RULE,
            "
prep: Plain Syrup
  contains: nuts
            ^^^^
  100 g sugar
  100 g water
",
        );
    }
}
