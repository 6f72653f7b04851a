//! The last tokens that the client was given of each open text, to tell it next time what is new.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};

use tower_lsp::lsp_types::{
    SemanticToken, SemanticTokens, SemanticTokensDelta, SemanticTokensFullDeltaResult, Url,
};

use crate::answers::tokens::{repainted, tokens};
use crate::library::View;
use crate::session::Session;

/// What the client has of each text.
#[derive(Debug, Default)]
pub(crate) struct Painted(Mutex<Shelf>);

#[derive(Debug, Default)]
struct Shelf {
    given: u64,
    last: BTreeMap<Url, Coat>,
}

/// What the client has of one text.
#[derive(Clone, Debug)]
struct Coat {
    number: u64,
    tokens: Arc<[SemanticToken]>,
}

/// Tokens that the client is given, and those it has.
#[derive(Debug)]
pub(crate) struct Fresh {
    /// By what it will know them; none where nobody keeps them.
    pub id: Option<String>,
    /// All of them.
    pub tokens: Arc<[SemanticToken]>,
    /// Those that it has; none where it has none that are known here.
    pub before: Option<Arc<[SemanticToken]>>,
}

/// The tokens of a text, kept as what the client has of it, beside what it had as `before`.
pub(crate) fn paint(session: &Session, view: &View, url: &Url, before: Option<&str>) -> Fresh {
    let tokens: Arc<[SemanticToken]> = tokens(view, None).into();
    let before = before.and_then(|id| session.painted.under(url, id));
    let is_open = || session.desk().open.contains_key(url);
    Fresh { id: session.painted.give(url, tokens.clone(), is_open), tokens, before }
}

impl Fresh {
    /// All of them.
    pub(crate) fn whole(self) -> SemanticTokens {
        SemanticTokens { result_id: self.id, data: self.tokens.to_vec() }
    }

    /// What is new, or all of them.
    pub(crate) fn news(self) -> SemanticTokensFullDeltaResult {
        let Some(before) = &self.before else {
            return SemanticTokensFullDeltaResult::Tokens(self.whole());
        };
        let edits = repainted(before, &self.tokens);
        let delta = SemanticTokensDelta { result_id: self.id, edits };
        SemanticTokensFullDeltaResult::TokensDelta(delta)
    }
}

impl Painted {
    /// The tokens that the client has of a text under `id`, if they were the last.
    pub(crate) fn under(&self, url: &Url, id: &str) -> Option<Arc<[SemanticToken]>> {
        let shelf = self.lock();
        let coat = shelf.last.get(url).filter(|coat| coat.number.to_string() == id)?;
        Some(coat.tokens.clone())
    }

    /// The client is about to be given `tokens`: the id that it will know them by; none where the
    /// text `is_open` no more.
    pub(crate) fn give(
        &self,
        url: &Url,
        tokens: Arc<[SemanticToken]>,
        is_open: impl FnOnce() -> bool,
    ) -> Option<String> {
        let mut shelf = self.lock();
        // Asked under the lock: who closes a text closes it first and then has it forgotten.
        if !is_open() {
            return None;
        }
        shelf.given += 1;
        let number = shelf.given;
        shelf.last.insert(url.clone(), Coat { number, tokens });
        Some(number.to_string())
    }

    /// A text was closed.
    pub(crate) fn forget(&self, url: &Url) {
        self.lock().last.remove(url);
    }

    fn lock(&self) -> MutexGuard<'_, Shelf> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_the_last_of_an_open_text_is_kept() {
        let painted = Painted::default();
        let url = Url::parse("untitled:a").unwrap();
        let tokens: Arc<[SemanticToken]> = Arc::from([SemanticToken::default()]);
        let first = painted.give(&url, tokens.clone(), || true).unwrap();
        assert!(painted.under(&url, &first).is_some());
        let second = painted.give(&url, tokens.clone(), || true).unwrap();
        assert!(painted.under(&url, &first).is_none());
        assert!(painted.under(&url, &second).is_some());
        painted.forget(&url);
        assert!(painted.under(&url, &second).is_none());
        assert!(painted.give(&url, tokens, || false).is_none());
        assert!(painted.lock().last.is_empty());
    }
}
