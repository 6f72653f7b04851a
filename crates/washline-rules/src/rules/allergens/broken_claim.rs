//! A claim that the lines do not keep.

use washline_book::{Carried, Figure, Record};
use washline_reference::{Allergen, Market, Trait};
use washline_syntax::Key;
use washline_text::{Kind, Severity, Span, fold};

use super::{Named, is_listed, market_name, said, way, with_way};
use crate::rule::rule;
use crate::words::number;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// `free-from:` is a promise to a guest who asked. It is held against every line, the preps
    /// below it, the garnish and what is optional, in every market alike: what a law exempts
    /// from declaring need not be promised absent. Free of alcohol is what the market's law
    /// lets be called so, by the strength as computed, bitters and extracts counted. A drink of
    /// the family `alcohol-free` is held to its strength by `not-alcohol-free`.
    ///
    /// A claim that nothing contradicts is not thereby true: what nobody vouches for is unknown.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: almond
    ///   free-from: nuts
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
    ///   contains: none
    ///   free-from: nuts
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
    /// Regulation (EU) 1169/2011, Article 7: food information must not mislead. Limits of
    /// alcohol: the market's, as the reference cites them.
    "broken-claim", Allergens, Error, Fixes::None, Check::Entry(find),
    why: "a guest who asked is promised what the glass does not keep"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if context.record.kind == Kind::Stock || context.record.field(Key::FreeFrom).is_none() {
        return;
    }
    for (named, span) in washline_book::allergens_listed(context.record, Key::FreeFrom) {
        let report = match named {
            Some(named) => allergen(context, named, span),
            None => match fold(context.record.text(span)).as_str() {
                "alcohol" => alcohol(context, span),
                "animal" => animal(context, span, Trait::Animal, OF_ANIMALS, "of an animal"),
                "meat and fish" => {
                    animal(context, span, Trait::MeatOrFish, OF_FLESH, "meat or fish")
                }
                _ => None,
            },
        };
        if let Some(report) = report {
            sink.report(report);
        }
    }
}

/// Allergens that come from animals, whatever carries them.
const OF_ANIMALS: &[Allergen] =
    &[Allergen::Milk, Allergen::Egg, Allergen::Fish, Allergen::Crustacean, Allergen::Mollusc];
const OF_FLESH: &[Allergen] = &[Allergen::Fish, Allergen::Crustacean, Allergen::Mollusc];

/// An allergen that a line carries: an error where it always does, a warning where some
/// makers' does.
fn allergen(context: &Context<'_>, claim: Named, span: Span) -> Option<Report> {
    let broken = |carried: &&Carried| carried.is_poured() && breaks(context, claim, carried);
    let ways = || context.record.allergens.carried.iter().filter(broken);
    let carried = ways().find(|carried| carried.certain).or_else(|| ways().next())?;
    let what = said(context.settings, carried);
    let way_down = way(&carried.path);
    let report = if carried.certain {
        let message = format!(
            "claims to be free from {}, and carries {what}, through {way_down}",
            context.record.text(span)
        );
        Report::at(context, span, message).help("take the claim out, or what breaks it")
    } else {
        let message = format!(
            "claims to be free from {}; some makers' {way_down} carries {what}",
            context.record.text(span)
        );
        Report::at(context, span, message)
            .severity(Severity::Warning)
            .help("read the label, and give the bottle a `stock:` entry with its own `contains:`")
    };
    Some(with_way(report.key(format!("{} {}", claim.0, claim.1)), context, &carried.path))
}

/// Whether what is carried breaks the claim; sulphites below every market's quantity do not.
fn breaks(context: &Context<'_>, (allergen, kind): Named, carried: &Carried) -> bool {
    if !is_listed(&[(allergen, kind)], carried.allergen, &carried.detail) {
        return false;
    }
    let mg = context.record.figures.sulphites_mg_per_l;
    let counts =
        |market: &Market| Carried { exempt: Vec::new(), ..carried.clone() }.counts_in(*market, mg);
    // A kind that no market lists, coconut among the nuts, breaks only a claim that names it.
    !kind.is_empty() && allergen != Allergen::Sulphites || Market::ALL.iter().any(counts)
}

/// The strength against what the house's markets let be called free of alcohol; where none is
/// said, against what most of them do.
fn alcohol(context: &Context<'_>, span: Span) -> Option<Report> {
    if context.record.families.is("alcohol-free") {
        return None;
    }
    let figures = &context.record.figures;
    let abv = figures.value(Figure::Abv).or_else(|| figures.value(Figure::AbvBefore))?;
    let markets = &context.settings.markets;
    let (limit, term, place) = if markets.is_empty() {
        let loosest = Market::ALL.into_iter().map(Market::alcohol_free_limit);
        let limit = loosest.max_by(|a, b| a.abv.total_cmp(&b.abv))?;
        (limit.abv, limit.term, "most markets")
    } else {
        let all = markets.iter().map(|market| (market, market.alcohol_free_limit()));
        let (market, limit) = all.min_by(|a, b| a.1.abv.total_cmp(&b.1.abv))?;
        (limit.abv, limit.term, market_name(*market))
    };
    (abv > limit).then(|| {
        let message = format!(
            "claims to be free from alcohol at {} % vol; `{term}` is up to {} % vol in {place}",
            number(abv),
            number(limit)
        );
        Report::at(context, span, message)
            .help("take the claim out, or the lines that bring the alcohol")
            .key("alcohol")
    })
}

/// A line, or a prep's, that comes from an animal.
fn animal(
    context: &Context<'_>,
    span: Span,
    property: Trait,
    allergens: &[Allergen],
    what: &str,
) -> Option<Report> {
    let record = context.record;
    let claim = record.text(span);
    let told = |message: String| {
        Report::at(context, span, message)
            .help("take the claim out, or what breaks it")
            .key(fold(claim))
    };
    let known = |id: u16| washline_reference::ingredient(id).filter(|known| known.is(property));
    if let Some((at, ingredient)) =
        record.reaches.iter().find_map(|(id, at)| Some((*at, known(*id)?)))
    {
        let line = line_name(record, at);
        let through = match fold(line) == fold(ingredient.name) {
            true => line.to_owned(),
            false => format!("{line} → {}", ingredient.name),
        };
        let message = format!("claims to be free from {claim}, and {through} is {what}");
        return Some(
            told(message).related(context.read_place(at), format!("{line}, in {}", record.name)),
        );
    }
    let mut carried = record.allergens.carried.iter().filter(|c| c.certain && c.is_poured());
    let carried = carried.find(|carried| allergens.contains(&carried.allergen))?;
    let message = format!(
        "claims to be free from {claim}, and carries {}, through {}",
        said(context.settings, carried),
        way(&carried.path)
    );
    Some(with_way(told(message), context, &carried.path))
}

fn line_name(record: &Record, at: usize) -> &str {
    record.reads.iter().chain(&record.garnishes).nth(at).map_or("", |read| read.name.as_str())
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, message, severity};
    use washline_text::Severity;

    #[test]
    fn an_allergen_is_traced() {
        check(
            &RULE,
            "
drink: A
  contains: milk
  free-from: egg, milk
                  ^^^^
  30 ml Brown Butter Rum

prep: Brown Butter Rum
  700 ml gold rum
  200 g butter
",
        );
        let text = "drink: A\n  contains: almond\n  free-from: nuts\n  30 ml orgeat\n";
        assert_eq!(
            message(&RULE, text, "").as_deref(),
            Some("claims to be free from nuts, and carries nuts (almond), through orgeat")
        );
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Error));
    }

    #[test]
    fn another_kind_does_not_break_it() {
        check(
            &RULE,
            "
drink: A
  contains: almond
  free-from: hazelnut, peanut
  30 ml orgeat
",
        );
    }

    #[test]
    fn what_some_makers_have_is_a_warning() {
        let text = "drink: A\n  contains: none\n  free-from: nuts\n  30 ml amaretto\n";
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Warning));
    }

    #[test]
    fn alcohol_is_held_to_the_markets_limit() {
        let text = "
drink: A
  free-from: alcohol
             ^^^^^^^
  90 ml apple juice
  30 ml gin
  - shake with ice, strain
";
        check(&RULE, text);
        // Two dashes in 250 ml are about 0.3 % vol: free of alcohol in most markets, not in the UK.
        let dashes = "drink: A\n  free-from: alcohol\n  250 ml soda water\n  2 dashes aromatic bitters\n  - build over ice\n";
        check(&RULE, dashes);
        assert!(message(&RULE, dashes, "market = \"uk\"\n").unwrap().contains("`alcohol-free`"));
        check_under(&RULE, "market = \"us\"\n", dashes);
    }

    #[test]
    fn animals_are_seen_through_preps_and_garnish() {
        check(
            &RULE,
            "
drink: A
  free-from: animal, meat-and-fish
             ^^^^^^
  30 ml Honey Mix

drink: B
  free-from: meat-and-fish
             ^^^^^^^^^^^^^
  30 ml gin
  garnish: anchovy olive

drink: C
  free-from: animal
             ^^^^^^
  30 ml Pier Cup

prep: Honey Mix
  100 g honey
  100 g water

stock: Pier Cup
  kind: gin
  contains: milk
",
        );
    }

    #[test]
    fn a_kept_claim_is_silent() {
        check(
            &RULE,
            "
drink: A
  contains: sulphites
  free-from: nuts, gluten, animal, meat-and-fish
  60 ml rye whiskey
  30 ml sweet vermouth
  2 dashes aromatic bitters
  - stir with ice, strain
",
        );
    }
}
