//! One cause is one finding: what a graver slip explains is not told again.

use std::collections::BTreeSet;

use washline_text::{Entry, FileId, Finding, Severity};

use crate::{Group, find};

/// A rule that speaks first, and what it explains in the same entry.
struct Cause {
    rule: &'static str,
    groups: &'static [Group],
    rules: &'static [&'static str],
}

const CAUSES: &[Cause] = &[
    // A slip of the decimal makes every figure wrong.
    Cause {
        rule: "unlikely-amount",
        groups: &[Group::Balance, Group::Dilution],
        rules: &["strong-serve", "overproof", "too-dear", "no-jigger"],
    },
    // A bottle whose strength is a slip is weak for its name for that reason.
    Cause { rule: "unlikely-strength", groups: &[], rules: &["weak-for-its-name"] },
    // Parts of no size are as much as nobody knows.
    Cause { rule: "part-without-size", groups: &[], rules: &["vague-amount"] },
    // A price below the cost is too low whatever the limit.
    Cause { rule: "pour-cost", groups: &[], rules: &["too-dear"] },
    // A shake of minutes waters as no model says.
    Cause { rule: "unlikely-time", groups: &[Group::Balance, Group::Dilution], rules: &[] },
    // Spirit that meets no water is strong, sweet and sharp for that reason.
    Cause {
        rule: "no-dilution",
        groups: &[],
        rules: &[
            "strength-out-of-band",
            "sugar-out-of-band",
            "acid-out-of-band",
            "low-wash-line",
            "no-method",
        ],
    },
    // So is a drink that is watered twice thin.
    Cause {
        rule: "diluted-twice",
        groups: &[],
        rules: &["strength-out-of-band", "sugar-out-of-band", "acid-out-of-band"],
    },
    // What curdles is stirred wrongly for that reason.
    Cause { rule: "curdles", groups: &[], rules: &["wrong-technique"] },
    // Steps in the wrong order leave the shake in the tin.
    Cause { rule: "step-out-of-order", groups: &[], rules: &["unstrained"] },
    // A shake with no ice is dry for that reason.
    Cause { rule: "no-ice", groups: &[], rules: &["no-dilution"] },
    // What bursts in the tin is not weighed.
    Cause { rule: "shaken-bubbles", groups: &[Group::Balance], rules: &["warm-bubbles"] },
    // What can poison where it stands stands too long, or in the wrong place, for that reason.
    Cause {
        rule: "low-acid-infusion",
        groups: &[],
        rules: &["kept-too-long", "where-kept", "short-life-chain", "left-out"],
    },
    Cause { rule: "sealed-low-acid", groups: &[], rules: &["kept-too-long", "short-life-chain"] },
    Cause { rule: "raw-egg-kept", groups: &[], rules: &["kept-too-long", "short-life-chain"] },
    // Juice past its day is past its time for that reason, and so is what is mixed of it.
    Cause { rule: "stale-citrus", groups: &[], rules: &["kept-too-long", "short-life-chain"] },
    Cause { rule: "kept-too-long", groups: &[], rules: &["short-life-chain"] },
    // What is carbonated warm is told its pressure and headspace with it.
    Cause { rule: "warm-bubbles", groups: &[], rules: &["shaken-bubbles"] },
];

/// Takes out of `findings` what another finding of the same entry explains; one that is waived
/// explains nothing.
pub(crate) fn say_once(findings: &mut Vec<Finding>) {
    for cause in CAUSES {
        let speakers: BTreeSet<(FileId, Entry)> = findings
            .iter()
            .filter(|finding| finding.rule == cause.rule && !finding.waived)
            // A hint or a caution explains nothing away.
            .filter(|finding| finding.severity <= Severity::Warning)
            .filter_map(|finding| Some((finding.place.file, finding.entry.clone()?)))
            .collect();
        if speakers.is_empty() {
            continue;
        }
        findings.retain(|finding| {
            let Some(entry) = &finding.entry else { return true };
            let group =
                || find(finding.rule).is_some_and(|rule| cause.groups.contains(&rule.group));
            let explained = cause.rules.contains(&finding.rule) || group();
            finding.rule == cause.rule
                || !explained
                || !speakers.contains(&(finding.place.file, entry.clone()))
        });
    }
}

#[cfg(test)]
mod tests {
    use crate::harness::names;

    #[test]
    fn a_slip_of_the_decimal_is_told_once() {
        let text = "
drink: Lantern Row
  family: sour
  glass: coupe, chilled
  contains: none

  60 ml gin
  225 ml lime juice
  22.5 ml sugar syrup, 1:1

  - shake with ice for 12 s, double strain
  garnish: lime wheel
";
        assert_eq!(names(text, ""), ["unlikely-amount"]);
    }
}
