//! `[rules]`: how grave each rule is in this house.

use std::collections::BTreeMap;

use washline_text::Severity;

use super::reader::{Entry, Reader};
use super::value::{Item, Read, choice, error};
use super::words::did_you_mean;

const LEVELS: [(&str, Option<Severity>); 5] = [
    ("off", None),
    ("error", Some(Severity::Error)),
    ("warning", Some(Severity::Warning)),
    ("information", Some(Severity::Information)),
    ("hint", Some(Severity::Hint)),
];

const TABLE: &str = "write `[rules]`, and under it `no-jigger = \"off\"`";
const HELP: &str = "write \"off\", \"error\", \"warning\", \"information\" or \"hint\"";

/// `[rules]`
pub(super) fn rules(reader: &mut Reader, entry: Entry) -> Read<()> {
    let rules = severities(reader, entry.value, "rules")?;
    reader.settings.rules.extend(rules);
    Ok(())
}

/// The severities of a table by rule, `None` for off; `path` is the table's own.
pub(super) fn severities(
    reader: &mut Reader,
    table: &Item,
    path: &str,
) -> Read<BTreeMap<String, Option<Severity>>> {
    let mut severities = BTreeMap::new();
    for rule in reader.entries(table, "[rules]", TABLE)? {
        let read = known(reader, rule).and_then(|()| choice(rule.value, "severity", &LEVELS, HELP));
        if let Some(severity) = reader.take(read) {
            reader.say(format!("{path}.{}", rule.name), rule.value);
            severities.insert(rule.name.to_owned(), severity);
        }
    }
    Ok(severities)
}

fn known(reader: &Reader, rule: Entry) -> Read<()> {
    let known = reader.known.rules;
    if known.contains(&rule.name) {
        return Ok(());
    }
    let help = did_you_mean(rule.name, known.iter().copied(), "write the name of a rule");
    Err(error(rule.key, format!("no rule is called `{}`", rule.name), help))
}

#[cfg(test)]
mod tests {
    use super::super::checks::{right, wrong};
    use super::*;

    #[test]
    fn every_severity_and_off() {
        for (word, severity) in LEVELS {
            let settings = right(&format!("[rules]\nno-jigger = '{word}'"));
            assert_eq!(settings.severity("no-jigger", "a.pour"), Some(severity));
            assert_eq!(settings.severity("too-tart", "a.pour"), None);
        }
    }

    #[test]
    fn wrong_rules_point_at_themselves() {
        wrong(
            "[rules]\nno-jiger = 'off'\ntoo-tart = 'warn'\noff-house-unit = false",
            &[
                ("no-jiger", "no rule is called `no-jiger`", "did you mean `no-jigger`?"),
                ("'warn'", "`warn` is no severity", "\"warning\""),
                ("false", "true or false stands where words in quotes should", "write \"off\""),
            ],
        );
        wrong(
            "rules = 'off'",
            &[("'off'", "words in quotes stand where a table should", "[rules]")],
        );
    }
}
