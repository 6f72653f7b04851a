//! A claim that the lines do not keep.

use washline_book::{Carried, Figure, Read, Record};
use washline_reference::{Allergen, Market, Trait};
use washline_syntax::Key;
use washline_text::{Kind, Severity, Span, fold};

use super::mend::without_claim;
use super::{Named, is_listed, market_name, said, way, with_way};
use crate::rule::rule;
use crate::words::number;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// `free-from:` is a promise to a guest who asked. It is held against every line, the preps
    /// below it, the garnish and what is optional, in every market alike: what a law exempts
    /// from declaring breaks a promise all the same. Free of alcohol is what the market's law
    /// lets be called so, by the strength as computed, bitters and extracts counted; where only
    /// the high end of the strength is above the limit, it is a warning. A drink of the family
    /// `alcohol-free` that makes no such claim is held to its strength by `not-alcohol-free`.
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
    "broken-claim", Allergens, Error, Fixes::Unsafe, Check::Entry(find),
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
            let edits = without_claim(context, span).into_iter().collect();
            let title = format!("take `{}` out of the claims", context.record.text(span));
            sink.report(report.fix(title, false, edits));
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

/// The strength against what the house's markets let be called free of alcohol.
fn alcohol(context: &Context<'_>, span: Span) -> Option<Report> {
    let figures = &context.record.figures;
    let told = |message: String| {
        Report::at(context, span, message)
            .help("take the claim out, or the lines that bring the alcohol")
            .key("alcohol")
    };
    let abv = figures.get(Figure::Abv).or_else(|| figures.get(Figure::AbvBefore));
    let Limit { abv: limit, term, place } = limit(context)?;
    if let Some(abv) = abv.filter(|abv| abv.value > 0.0 && abv.high > limit) {
        let over = abv.value > limit;
        let may = if over { String::new() } else { format!(", perhaps {}", number(abv.high)) };
        let report = told(format!(
            "claims to be free from alcohol at {}{may} % vol; `{term}` is up to {} % vol in {place}",
            number(abv.value),
            number(limit)
        ));
        return Some(if over { report } else { report.severity(Severity::Warning) });
    }
    // What is optional or served beside enters no figure, and is drunk all the same.
    let beside = |read: &&Read| !read.counted && read.composition.ethanol > 0.0;
    let read = context.record.reads.iter().find(beside)?;
    let message = format!(
        "claims to be free from alcohol, and {} brings {} g of it",
        read.name,
        number(read.composition.ethanol)
    );
    let place = context.record.place(read.name_span);
    Some(told(message).related(place, format!("{}, in {}", read.name, context.record.name)))
}

/// Up to what strength a drink is free of alcohol, the word for it, and where.
struct Limit {
    abv: f64,
    term: &'static str,
    place: &'static str,
}

/// The strictest of the house's markets; where it names none, what most of them have.
fn limit(context: &Context<'_>) -> Option<Limit> {
    let markets = &context.settings.markets;
    if markets.is_empty() {
        let all = Market::ALL.into_iter().map(Market::alcohol_free_limit);
        let loosest = all.max_by(|a, b| a.abv.total_cmp(&b.abv))?;
        return Some(Limit { abv: loosest.abv, term: loosest.term, place: "most markets" });
    }
    let all = markets.iter().map(|market| (market, market.alcohol_free_limit()));
    let (market, limit) = all.min_by(|a, b| a.1.abv.total_cmp(&b.1.abv))?;
    Some(Limit { abv: limit.abv, term: limit.term, place: market_name(*market) })
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
    use crate::harness::{check, check_under, findings, message, severity};
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
    fn the_family_alcohol_free_does_not_excuse_the_claim() {
        let text = "drink: A\n  family: alcohol-free\n  free-from: alcohol\n  30 ml gin\n  90 ml apple juice\n  - build over ice\n";
        let found = findings(text, "");
        let grave: Vec<&str> =
            found.iter().filter(|f| f.severity == Severity::Error).map(|f| f.rule).collect();
        assert_eq!(grave, [RULE.name]);
    }

    #[test]
    fn a_strength_that_may_be_above_is_a_warning() {
        let text = "drink: A\n  free-from: alcohol\n  150 ml soda water\n  2 dashes aromatic bitters\n  - build over ice\n";
        assert_eq!(severity(&RULE, text, ""), Some(Severity::Warning));
    }

    #[test]
    fn what_is_optional_breaks_it() {
        check(
            &RULE,
            "
drink: A
  free-from: alcohol
             ^^^^^^^
  90 ml apple juice
  15 ml dark rum, optional
  - shake with ice, strain
",
        );
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
