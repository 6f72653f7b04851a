//! A unit other than the house's.

use washline_measure::{Unit, UnitKind};
use washline_syntax::Role;

use crate::convert::millilitres;
use crate::rule::rule;
use crate::words::list;
use crate::{Check, Context, Fixes, Report, Sink};

use super::{Measured, measured, mixed_systems, system};

rule! {
    /// # Why
    /// A house that pours in one unit reads every card in it. One line in another is turned over
    /// in the head, in the rush, by each hand its own way. Larger and smaller units of the same
    /// make (l beside ml, kg beside g) are the house's too.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   6 cl     gin
    ///   2.25 cl  lemon juice
    ///   2.25 cl  sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    /// ```pour
    /// drink: Quarry Lane
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   2 oz     gin
    ///   3/4 oz   lemon juice
    ///   3/4 oz   sugar syrup, 1:1
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
    /// ```pour
    /// drink: Quarry Lane
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml    (2 oz)   gin
    ///   22.5 ml  (3/4 oz) lemon juice
    ///   22.5 ml  (3/4 oz) sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Settings
    /// ```toml
    /// ounce = "us"
    ///
    /// [units]
    /// liquid = "ml"
    /// solid = "g"
    /// ```
    ///
    /// # Source
    /// The house's `[units]`, or its book's `units:`.
    "off-house-unit", Measures, Hint, Fixes::Both, Check::Entry(find),
    why: "a line in another unit is turned over in the head, in the rush"
}

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if context.settings.units.is_empty() || mixed_systems::odd(context).is_some() {
        return;
    }
    let off: Vec<Off<'_>> =
        measured(context.record).filter_map(|line| Off::of(context, line)).collect();
    for one in &off {
        sink.report(report(context, one, &off));
    }
}

/// A line in another unit than the house's.
struct Off<'a> {
    line: Measured<'a>,
    kind: &'static str,
    house: Unit,
}

impl<'a> Off<'a> {
    fn of(context: &Context<'_>, line: Measured<'a>) -> Option<Self> {
        let (kind, house) = houses(context, &line)?;
        let said = line.second().is_some_and(|second| ladder(house).contains(&second));
        (!said && !ladder(house).contains(&line.unit)).then_some(Self { line, kind, house })
    }

    /// Whether it is metric where the house writes ounces, or the reverse.
    fn is_across(&self) -> bool {
        let (own, house) = (system(self.line.unit), system(self.house));
        own.is_some() && house.is_some() && own != house
    }
}

/// The kind of thing that a line is, and the house's unit of it.
fn houses(context: &Context<'_>, line: &Measured<'_>) -> Option<(&'static str, Unit)> {
    if matches!(line.read.role, Role::Garnish | Role::Rim | Role::Side) || !line.read.known() {
        return None;
    }
    let exact = matches!(line.unit.kind(), UnitKind::Metric | UnitKind::Customary | UnitKind::Mass);
    let spoon = matches!(line.unit, Unit::Tsp | Unit::Bsp);
    let kind = match (spoon, exact, line.liquid()) {
        (true, _, _) => "small",
        (false, true, true) => "liquid",
        (false, true, false) => "solid",
        (false, false, _) => return None,
    };
    // A liquid weighed in a drink is another rule's.
    if kind == "liquid" && line.unit.kind() == UnitKind::Mass {
        return None;
    }
    context.settings.units.get(kind).map(|unit| (kind, *unit))
}

/// The units of one make, that a house with one of them reads without turning over.
fn ladder(house: Unit) -> &'static [Unit] {
    match house {
        Unit::Ml => &[Unit::Ml, Unit::L],
        Unit::Cl => &[Unit::Cl, Unit::L],
        Unit::Dl => &[Unit::Dl, Unit::L],
        Unit::L => &[Unit::L, Unit::Ml],
        Unit::Oz => &[Unit::Oz, Unit::Pint, Unit::Quart, Unit::Gallon],
        Unit::ImpOz => &[Unit::ImpOz, Unit::Pint, Unit::Quart, Unit::Gallon],
        Unit::G | Unit::Kg | Unit::Mg => &[Unit::Mg, Unit::G, Unit::Kg],
        // A solid's plain ounce is the weight ounce.
        Unit::OzWt | Unit::Lb => &[Unit::OzWt, Unit::Oz, Unit::Lb],
        Unit::Tsp => &[Unit::Tsp],
        Unit::Tbsp => &[Unit::Tbsp],
        Unit::Cup => &[Unit::Cup, Unit::Tbsp],
        Unit::Bsp => &[Unit::Bsp],
        _ => &[],
    }
}

fn report(context: &Context<'_>, off: &Off<'_>, all: &[Off<'_>]) -> Report {
    let Off { line, kind, house } = off;
    let what = match *kind {
        "small" => "what is small",
        "liquid" => "what is liquid",
        _ => "what is solid",
    };
    let message = format!(
        "{} stands in {}, the house writes {what} in {}",
        line.read.name,
        line.unit.plural(),
        house.plural()
    );
    let report = Report::at(context, line.placed.span, message)
        .help(format!("write it in {}", house.plural()));
    let across: Vec<&Off<'_>> = all.iter().filter(|other| other.is_across()).collect();
    match off.is_across() && across.len() > 1 {
        // One line alone would leave the card in two systems.
        true => whole(context, &across, report),
        false => one(context, off, report),
    }
}

fn one(context: &Context<'_>, Off { line, house, .. }: &Off<'_>, report: Report) -> Report {
    let Some(text) = line.written_in(*house, context.settings.ounce) else { return report };
    let title = format!("write {text}");
    let safe = is_same(line, &text, *house, context);
    report.fix(title, safe, vec![context.edit(line.placed.span, text)])
}

fn whole(context: &Context<'_>, across: &[&Off<'_>], report: Report) -> Report {
    let mut safe = true;
    let mut texts = Vec::new();
    let mut edits = Vec::new();
    for Off { line, house, .. } in across {
        let Some(text) = line.written_in(*house, context.settings.ounce) else { return report };
        safe &= is_same(line, &text, *house, context);
        edits.push(context.edit(line.placed.span, text.clone()));
        texts.push(text);
    }
    let texts: Vec<&str> = texts.iter().map(String::as_str).collect();
    report.fix(format!("write {}", list(&texts)), safe, edits)
}

/// Whether the new amount is the old one to the last digit, so that nothing is poured otherwise.
fn is_same(line: &Measured<'_>, text: &str, house: Unit, context: &Context<'_>) -> bool {
    let ounce = context.settings.ounce;
    let one = house.ml(ounce).filter(|_| house.kind() == UnitKind::Metric);
    let number = text.split(' ').next().and_then(|number| number.parse::<f64>().ok());
    let new = one.zip(number).map(|(one, number)| one.to_f64() * number);
    let old = millilitres(&line.placed.measure, ounce);
    old.zip(new).is_some_and(|(old, new)| (old - new).abs() < 1e-9)
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, check_under, findings, fixed};

    const ML: &str = "[units]\nliquid = \"ml\"\nsolid = \"g\"\n";

    #[test]
    fn silent_until_the_house_lists_its_units() {
        check(&RULE, "\ndrink: A\n  2 oz gin\n  3/4 oz lime juice\n");
    }

    #[test]
    fn each_line_in_another_unit() {
        check_under(
            &RULE,
            ML,
            "
drink: A
  2 oz gin
  ^^^^
  3/4 oz lime juice
  ^^^^^^
",
        );
    }

    /// Small amounts are spoons and dashes unless the house says otherwise; a litre is a litre.
    #[test]
    fn what_stands_beside_every_unit_is_silent() {
        check_under(
            &RULE,
            ML,
            "
drink: A
  60 ml gin
  1 tsp maraschino liqueur
  2 dashes orange bitters
  8 mint leaves
  60 ml (2 oz) rum
  2 oz (60 ml) brandy
",
        );
        check_under(&RULE, ML, "\nprep: A\n  1 l water\n  1 kg sugar\n  2 mg saffron\n");
    }

    #[test]
    fn small_has_its_own_unit() {
        let settings = "[units]\nliquid = \"ml\"\nsmall = \"bsp\"\n";
        check_under(
            &RULE,
            settings,
            "
drink: A
  60 ml gin
  1 tsp maraschino liqueur
  ^^^^^
  2 bsp sugar syrup
",
        );
    }

    /// The book's `units:` hold where the house is silent.
    #[test]
    fn a_book_may_say_its_units() {
        check(
            &RULE,
            "
book: A
  units: cl, g
drink: B
  60 ml gin
  ^^^^^
",
        );
    }

    /// A spec in two systems is told once, by its own rule.
    #[test]
    fn a_mixed_spec_is_told_once() {
        check_under(&RULE, ML, "\ndrink: A\n  60 ml gin\n  3/4 oz lime juice\n");
    }

    #[test]
    fn a_conversion_to_the_last_digit_is_safe() {
        let safe = |text: &str| {
            findings(text, ML)
                .iter()
                .find(|f| f.rule == RULE.name)
                .and_then(|f| f.fixes.first().map(|fix| fix.safe))
        };
        assert_eq!(safe("drink: A\n  6 cl gin\n"), Some(true));
        assert_eq!(safe("drink: A\n  2 oz gin\n"), Some(false));
        assert!(fixed(&RULE, "prep: A\n  1 cup sugar\n", ML).unwrap().contains("200 g sugar"));
    }
}
