//! What a client says of itself in its first request, as far as it can be read.
//!
//! The library takes all of it or nothing. A client that is newer than the library, or only
//! mistaken in something, is no less welcome: what can't be read is left out.

use serde::Deserialize;
use serde_json::{Map, Value, json};
use tower_lsp::lsp_types::InitializeParams;

/// Leaves out of the first request's parameters what can't be read.
pub(crate) fn tidy(params: &mut Value) {
    rename(params);
    if reads(params.clone()) {
        return;
    }
    prune(params, &|part| part);
    if let Some(params) = params.as_object_mut() {
        params.entry("capabilities").or_insert_with(|| json!({}));
    }
}

/// lsp-types looks for `diagnostics` under a name that no client uses.
fn rename(params: &mut Value) {
    if let Some(workspace) = params.pointer_mut("/capabilities/workspace")
        && let Some(workspace) = workspace.as_object_mut()
        && let Some(diagnostics) = workspace.get("diagnostics").cloned()
    {
        workspace.insert("diagnostic".to_owned(), diagnostics);
    }
}

/// Takes out of `part` what keeps it from being read; `whole` makes parameters of a part alone.
fn prune(part: &mut Value, whole: &dyn Fn(Value) -> Value) {
    match part {
        Value::Object(members) => {
            let names: Vec<String> = members.keys().cloned().collect();
            for name in names {
                let alone = |member| whole(Value::Object(Map::from_iter([(name.clone(), member)])));
                let Some(member) = members.get_mut(&name) else { continue };
                if reads(alone(member.clone())) {
                    continue;
                }
                prune(member, &alone);
                if !reads(alone(member.clone())) {
                    members.shift_remove(&name);
                }
            }
        }
        Value::Array(items) => {
            items.retain(|item| reads(whole(Value::Array(vec![item.clone()]))));
        }
        _ => {}
    }
}

fn reads(mut params: Value) -> bool {
    if let Some(params) = params.as_object_mut() {
        params.entry("capabilities").or_insert_with(|| json!({}));
    }
    InitializeParams::deserialize(params).is_ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tidied(mut params: Value) -> Value {
        tidy(&mut params);
        params
    }

    #[test]
    fn what_can_be_read_stays_as_it_is() {
        let params =
            json!({"processId": 7, "capabilities": {"textDocument": {"hover": {}}}, "x": [1]});
        assert_eq!(tidied(params.clone()), params);
    }

    #[test]
    fn only_what_cannot_be_read_is_left_out() {
        let item = json!({"snippetSupport": true, "documentationFormat": ["html", "plaintext"]});
        let params = json!({
            "processId": "seven", "trace": "loud", "rootUri": "no address",
            "capabilities": {
                "window": 3,
                "workspace": {"configuration": true, "workspaceEdit": {"failureHandling": "never"}},
                "textDocument": {"completion": {"completionItem": item}},
            },
        });
        let item = json!({"snippetSupport": true, "documentationFormat": ["plaintext"]});
        let left = json!({
            "capabilities": {
                "workspace": {"configuration": true, "workspaceEdit": {}},
                "textDocument": {"completion": {"completionItem": item}},
            },
        });
        assert_eq!(tidied(params), left);
        assert_eq!(tidied(json!({"capabilities": []})), json!({"capabilities": {}}));
    }

    #[test]
    fn asking_again_for_diagnostics_stands_where_it_is_looked_for() {
        let workspace = json!({"diagnostics": {"refreshSupport": true}});
        let told = tidied(json!({"capabilities": {"workspace": workspace}}));
        let found = told.pointer("/capabilities/workspace/diagnostic/refreshSupport");
        assert_eq!(found, Some(&Value::Bool(true)));
    }
}
