//! The client's settings: what is shown between the lines.

use serde_json::Value;
use washline_editor::Switches;

/// `switches` after `settings`, which stand under the server's name or by themselves: `figures`
/// and `links`, and below `hints` `otherUnit` and `shares`. What they do not name stays.
pub(crate) fn switched(switches: Switches, settings: &Value) -> Switches {
    let own = settings.get("washline").unwrap_or(settings);
    let switch = |path: &str, now: bool| own.pointer(path).and_then(Value::as_bool).unwrap_or(now);
    Switches {
        other_unit: switch("/hints/otherUnit", switches.other_unit),
        shares: switch("/hints/shares", switches.shares),
        figures: switch("/figures", switches.figures),
        links: switch("/links", switches.links),
    }
}

#[cfg(test)]
mod tests {
    use serde_json::json;

    use super::*;

    #[test]
    fn what_is_not_named_stays() {
        let off = switched(Switches::default(), &json!({"washline": {"hints": {"shares": false}}}));
        assert_eq!(off, Switches { shares: false, ..Switches::default() });
        assert!(!switched(off, &json!({"figures": false, "hints": 3})).shares);
        assert_eq!(switched(off, &Value::Null), off);
    }
}
