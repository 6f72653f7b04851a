//! A layer heavier than what it lies on.

use washline_book::{Figure, Read, Record};
use washline_syntax::{Role, Technique};

use crate::words::number;

use crate::rule::rule;
use crate::{Check, Context, Fixes, Report, Sink};

rule! {
    /// # Why
    /// A layer floats only on something denser. Sugar makes a liquid heavy, alcohol light: the density of
    /// each is what the lines come to.
    ///
    /// # Flagged
    /// ```pour
    /// drink: Lantern Row
    ///   family: shot
    ///   glass: shot glass
    ///   contains: none
    ///
    ///   20 ml vodka
    ///   20 ml coffee liqueur
    ///
    ///   - layer the vodka, layer the coffee liqueur
    ///   garnish: none
    /// ```
    ///
    /// # Mended
    /// ```pour
    /// drink: Lantern Row
    ///   family: shot
    ///   glass: shot glass
    ///   contains: none
    ///
    ///   20 ml coffee liqueur
    ///   20 ml vodka
    ///
    ///   - layer the coffee liqueur, layer the vodka
    ///   garnish: none
    /// ```
    ///
    /// # Source
    /// Densities: from the strength and sugar of each line (OIML R 22, ICUMSA SPS-4).
    "layers-sink", Dilution, Warning, Fixes::None, Check::Figures(find),
    why: "it falls through, and the drink is mixed before it is served"
}

/// Two liquids nearer than this lie on each other with a steady hand, g/ml. Common practice, no source.
const NEAR: f64 = 0.006;

fn find(context: &Context<'_>, sink: &mut Sink<'_>) {
    let record = context.record;
    if !context.is_drink() || record.retired {
        return;
    }
    let mut below: Option<&Read> = None;
    for read in layers(record) {
        let Some(under) = below.replace(read) else { continue };
        if heavier(read, under.composition.density()) {
            sink.report(report(context, read, &under.name, under.composition.density()));
            return;
        }
    }
    let floats = record.reads.iter().filter(|read| read.role == Role::Float && read.counted);
    for read in floats {
        // The drink under a float is the drink without it: near enough its own density.
        let Some(density) = context.figure(Figure::Density) else { return };
        if heavier(read, density) {
            sink.report(report(context, read, "the drink", density));
            return;
        }
    }
}

/// The lines in the order they are layered: as the steps name them, or as they stand where one
/// `layer` names none.
fn layers(record: &Record) -> Vec<&Read> {
    let mut order = Vec::new();
    for act in record.method.acts.iter().filter(|act| act.is(&[Technique::Layer])) {
        // `layer the gin over the vermouth`: what is named behind lies below.
        let over = act.says(&record.entry, &["over", "onto", "above"]);
        let mut named: Vec<usize> = act.mentions.clone();
        if named.is_empty() {
            named = (0..record.reads.len()).collect();
        } else if over && named.len() == 2 {
            named.reverse();
        }
        order.extend(named);
    }
    let poured = |read: &&Read| read.counted && read.role == Role::Poured;
    order.into_iter().filter_map(|line| record.reads.get(line)).filter(poured).collect()
}

fn heavier(read: &Read, under: f64) -> bool {
    let density = read.composition.density();
    density > under + NEAR && under > 0.0 && read.volume() > 0.0
}

fn report(context: &Context<'_>, read: &Read, under: &str, density: f64) -> Report {
    let message = format!(
        "{} is {} g/ml, and lies on {under}, {} g/ml",
        read.name,
        number(read.composition.density()),
        number(density)
    );
    Report::at(context, read.name_span, message)
        .help("put the heavier one in first, or let it sink and say so")
}

#[cfg(test)]
mod tests {
    use super::RULE;
    use crate::harness::check;

    #[test]
    fn a_heavy_layer_sinks() {
        check(
            &RULE,
            "
drink: A
  20 ml vodka
  20 ml coffee liqueur
        ^^^^^^^^^^^^^^
  - layer the vodka, layer the coffee liqueur
",
        );
    }

    #[test]
    fn a_syrup_floated_sinks() {
        check(
            &RULE,
            "
drink: A
  60 ml vodka
  float (15 ml) grenadine
                ^^^^^^^^^
  - build over ice, stir
  - float the grenadine
",
        );
    }

    #[test]
    fn layers_with_no_names_stand_as_the_lines_do() {
        check(
            &RULE,
            "
drink: A
  15 ml triple sec
  15 ml coffee liqueur
        ^^^^^^^^^^^^^^
  - layer in this order
",
        );
        check(
            &RULE,
            "
drink: A
  15 ml coffee liqueur
  15 ml irish cream liqueur
  15 ml triple sec
  - layer in this order
",
        );
    }

    #[test]
    fn light_over_heavy_is_silent() {
        check(
            &RULE,
            "
drink: A
  20 ml coffee liqueur
  20 ml vodka
  - layer the coffee liqueur, layer the vodka
",
        );
        check(
            &RULE,
            "
drink: A
  20 ml vodka
  20 ml coffee liqueur
  - layer the vodka over the coffee liqueur
",
        );
        check(
            &RULE,
            "
drink: A
  60 ml bourbon
  22.5 ml lemon juice
  22.5 ml sugar syrup, 1:1
  float (15 ml) overproof rum
  - shake with ice, strain over ice, float the overproof rum
",
        );
    }
}
