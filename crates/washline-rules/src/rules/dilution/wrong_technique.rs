//! A technique that does not do what the drink needs.

use washline_book::{ActRead, Figure, Melt, Mix, Read};
use washline_reference::{Sort, Trait};
use washline_syntax::Technique;
use washline_text::Span;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// Citrus, cream and egg want air: stirred, they lie heavy and part. Egg white foams with a shake
    /// without ice, or a long one. A clear drink of spirits alone turns cloudy and thin in a shaker.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: sour
    ///   glass: coupe, chilled
    ///   contains: none
    ///
    ///   60 ml gin
    ///   22.5 ml lemon juice
    ///   22.5 ml sugar syrup, 1:1
    ///
    ///   - stir with ice for 20 s, strain into the coupe
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
    ///   60 ml gin
    ///   22.5 ml lemon juice
    ///   22.5 ml sugar syrup, 1:1
    ///
    ///   - shake with ice for 12 s, double strain
    ///   garnish: lemon twist
    /// ```
    ///
    /// # Source
    /// Common practice, no source.
    "wrong-technique", Dilution, Information, Fixes::Unsafe, Check::Figures(find),
    why: "texture, clarity and chill come from the technique, not from the list"
}

/// A short drink, ml. Common practice, no source.
const SHORT_ML: f64 = 160.0;
/// From so much on it clouds a stir, ml.
const CLOUDING_ML: f64 = 10.0;
/// A shake so long foams an egg by itself, s. Common practice, no source.
const LONG_S: f64 = 15.0;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    if !context.is_drink() || context.record.retired {
        return;
    }
    let method = &context.record.method;
    let only_stirred = method
        .mixes
        .iter()
        .all(|mix| matches!(mix.melt, Melt::Stir | Melt::None) && mix.technique == Technique::Stir);
    let Some(main) = method.mixes.first() else { return };
    if only_stirred && main.melt == Melt::Stir {
        stirred(context, main, sink);
    }
    egg(context, sink);
    clear(context, sink);
}

fn stirred(context: &Context<'_>, mix: &Mix, sink: &mut Sink<'_>) {
    let record = context.record;
    let short = context.figure(Figure::Final).is_some_and(|ml| ml < SHORT_ML);
    let clouds = |read: &&Read| {
        let juice = read.is(Trait::Citrus) && read.sort_is(&[Sort::Juice]);
        let rich = read.sort_is(&[Sort::Dairy, Sort::PlantMilk]) || read.is(Trait::RawEgg);
        read.counted && !read.clarified && (juice || rich) && read.volume() > CLOUDING_ML
    };
    let mixed = mix.lines.iter().filter_map(|line| record.reads.get(*line));
    let (Some(read), true) = (mixed.into_iter().find(clouds), short) else { return };
    let Some(act) = record.method.act(mix.act) else { return };
    let report = Report::at(context, act.span(), format!("{} is only stirred", read.name))
        .help("shake it, throw it, or clarify the juice")
        .related(record.place(read.name_span), "clouds a stirred drink");
    sink.report(instead(context, act, "shake", 12, report));
}

fn egg(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    let foams = |read: &&Read| read.counted && read.is(Trait::RawEgg) && read.is(Trait::Foams);
    let Some(read) = record.reads.iter().find(foams) else { return };
    let method = &record.method;
    let airs = [
        Technique::DryShake,
        Technique::ReverseDryShake,
        Technique::HardShake,
        Technique::Blend,
        Technique::FlashBlend,
        Technique::Whisk,
    ];
    let long = method
        .acts
        .iter()
        .any(|act| act.act.no_ice || act.act.seconds.is_some_and(|(_, most)| most >= LONG_S));
    let shake = method.acts.iter().find(|act| act.is(&[Technique::Shake, Technique::WetShake]));
    let Some(shake) = shake.filter(|_| !method.has(&airs) && !long) else { return };
    sink.report(
        Report::at(context, shake.span(), format!("{} has no dry or long shake", read.name))
            .help("shake it without ice first, or for 15 s and more")
            .related(record.place(read.name_span), "foams with air")
            .fix(
                "write `dry shake for 15 s` before it",
                false,
                vec![context.edit(Span::at(shake.span().start), "dry shake for 15 s, ")],
            ),
    );
}

fn clear(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !record.families.is("spirit-forward") {
        return;
    }
    let clear = record.reads.iter().filter(|read| read.counted).all(|read| {
        read.sort_is(&[
            Sort::Spirit,
            Sort::Liqueur,
            Sort::Bitters,
            Sort::AromatisedWine,
            Sort::FortifiedWine,
            Sort::Syrup,
            Sort::Sugar,
            Sort::Water,
            Sort::Salt,
        ]) && !read.is(Trait::CreamLiqueur)
            && !read.is(Trait::Cloudy)
    });
    let shaken = record.method.mixes.iter().find(|mix| mix.melt == Melt::Shake);
    let act = shaken.and_then(|mix| record.method.act(mix.act));
    if let Some(act) = act.filter(|_| clear) {
        let report = Report::at(context, act.span(), "a clear drink of spirits alone is shaken")
            .help("stir it: it stays clear, silky and a little stronger");
        sink.report(instead(context, act, "stir", 20, report));
    }
}

/// The same with a mend: `verb` with the ice that is said, for so many seconds; not where the act
/// says more than its ice and its time.
fn instead(
    context: &Context<'_>,
    act: &ActRead,
    verb: &str,
    seconds: u32,
    report: Report,
) -> Report {
    let said = &act.act;
    let more = said.into.is_some() || said.until.is_some() || said.stated.is_some();
    if more || !act.mentions.is_empty() || said.no_ice {
        return report;
    }
    let ice = said.ice.map_or("ice", |(_, span)| context.record.text(span));
    let text = format!("{verb} with {ice} for {seconds} s");
    let edit = context.edit(act.span(), text.clone());
    report.fix(format!("write `{text}`"), false, vec![edit])
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::{check, fixed};

    #[test]
    fn stirred_citrus_is_told() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  22.5 ml lemon juice
  22.5 ml sugar syrup, 1:1
  - stir with ice, strain
    ^^^^^^^^^^^^^
",
        );
    }

    #[test]
    fn a_short_shake_of_egg_is_told() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  22.5 ml lemon juice
  22.5 ml sugar syrup, 1:1
  1 egg white
  - shake with ice for 8 s, strain
    ^^^^^^^^^^^^^^^^^^^^^^
",
        );
    }

    #[test]
    fn a_shaken_clear_drink_is_told() {
        check(
            &RULE,
            "
drink: A
  family: spirit-forward
  60 ml gin
  10 ml dry vermouth
  - shake with ice, strain
    ^^^^^^^^^^^^^^
",
        );
    }

    #[test]
    fn a_clear_drink_is_known_by_its_lines() {
        check(
            &RULE,
            "
drink: A
  60 ml gin
  30 ml dry vermouth
  - shake with ice, strain
    ^^^^^^^^^^^^^^
",
        );
    }

    #[test]
    fn the_other_technique_is_written() {
        let sour = |step| format!("drink: A\n  60 ml gin\n  22.5 ml lemon juice\n  - {step}\n");
        let mended = fixed(&RULE, &sour("stir with cubed ice for 40 s, strain"), "");
        assert_eq!(mended, Some(sour("shake with cubed ice for 12 s, strain")));
        assert_eq!(fixed(&RULE, &sour("stir with ice until cold, strain"), ""), None);
    }

    #[test]
    fn what_bartenders_do_is_silent() {
        for (lines, steps) in [
            ("60 ml gin\n  22.5 ml lemon juice", "- throw between two tins, strain"),
            ("60 ml gin\n  90 ml tomato juice\n  15 ml lemon juice", "- roll, strain over ice"),
            ("60 ml gin\n  22.5 ml lime juice, clarified", "- stir with ice, strain"),
            ("45 ml gin\n  5 ml lime juice", "- stir with ice, strain"),
            (
                "60 ml gin\n  22.5 ml lemon juice\n  1 egg white",
                "- dry shake, shake with ice, strain",
            ),
            ("60 ml gin\n  22.5 ml lemon juice\n  1 egg white", "- shake hard with ice, strain"),
            ("45 ml gin\n  30 ml lemon juice\n  90 ml soda water", "- build over ice, stir"),
        ] {
            check(&RULE, &format!("\ndrink: A\n  {lines}\n  {steps}\n"));
        }
    }
}
