//! Every question has an answer at every byte of every text.

use proptest::prelude::*;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use washline_book::{Settings, Workspace};
use washline_text::{FileId, Span};

use crate::*;

/// Lines of all kinds, whole and half typed, some with what no keyboard has.
const LINES: &[&str] = &[
    "book: The Grey Gull",
    "section: Long",
    "drink: Amber Lantern",
    "drink:",
    "prep: Smoked Honey",
    "stock: Gull Row Gin",
    "  also: smoked honey, honey № 2",
    "  kind: gin",
    "  glass: coupe 160",
    "  contains: egg, ",
    "  serves: 4",
    "  waive: too-tart because it is",
    "  variant-of: Amber Lantern",
    "  market",
    "  22.5 ml (3/4 oz) lemon juice, fresh # é",
    "  1 1/2 oz gin or vodka",
    "  30",
    "  30 ml Smoked Honey",
    "  30m",
    "  15 ml (",
    "  top (90 ml) soda water",
    "  2 dashes",
    "  ½ egg white, ",
    "  99999999999999999999 ml gin",
    "  - shake hard with ice, double str",
    "  - add the Smoked Honey, then ",
    "  - ",
    "# note",
    "\u{feff}🍋: \u{301}",
    "",
];

fn ask(workspace: &Workspace, offset: u32, end: u32) -> Result<(), TestCaseError> {
    let file = FileId(0);
    let text = workspace.file(file).map_or("", |source| source.document.text());
    let whole = |span: Span| {
        let (start, end) = (span.start as usize, span.end as usize);
        text.is_char_boundary(start) && text.is_char_boundary(end) && end <= text.len()
    };
    let span = Span::new(offset.min(end), offset.max(end));
    for item in completion(workspace, file, offset) {
        prop_assert!(whole(item.span), "{item:?}");
    }
    prop_assert!(hover(workspace, file, offset).is_none_or(|hover| whole(hover.span)));
    prop_assert!(selection(workspace, file, offset).into_iter().all(whole));
    let hints = hints(workspace, file, span, &Switches::default());
    prop_assert!(hints.iter().all(|hint| whole(Span::at(hint.offset))));
    let tokens = tokens(workspace, file, Some(span));
    prop_assert!(tokens.iter().all(|token| whole(token.span) && !token.span.is_empty()));
    prop_assert!(tokens.windows(2).all(|pair| pair[0].span.end <= pair[1].span.start));
    prop_assert!(tokens.iter().all(|token| !token.span.text(text).contains(['\n', '\r'])));
    for action in actions(workspace, file, span, &[]) {
        let edits = match action.does {
            Does::Edits(edits) => Some(edits),
            Does::Deferred(act) => resolve(workspace, file, &act),
        };
        let Some(edits) = edits else { continue };
        let edits: Vec<_> = edits.into_iter().map(|(_, edit)| edit).collect();
        prop_assert!(washline_text::apply(text, &edits).is_ok(), "{}: {edits:?}", action.title);
    }
    let used = references(workspace, file, offset, true);
    prop_assert!(used.iter().all(|place| whole(place.span)));
    let lit = highlights(workspace, file, offset);
    prop_assert!(lit.iter().all(|highlight| whole(highlight.span)));
    let renaming = prepare_rename(workspace, file, offset);
    prop_assert!(renaming.is_none_or(|renaming| whole(renaming.span)));
    let _ = (definition(workspace, file, offset), implementation(workspace, file, offset));
    let _ = prepare_calls(workspace, file, offset);
    if let Ok(edits) = rename(workspace, file, offset, "Salt Ferry") {
        let edits: Vec<_> = edits.into_iter().map(|(_, edit)| edit).collect();
        prop_assert!(washline_text::apply(text, &edits).is_ok(), "{edits:?}");
    }
    for edits in [format_range(workspace, file, span), format_typed(workspace, file, offset, "\n")]
    {
        prop_assert!(washline_text::apply(text, &edits).is_ok(), "{edits:?}");
    }
    Ok(())
}

fn house(text: &str) -> Workspace {
    Workspace::new(vec![("a.pour".into(), text.into())], Settings::default())
}

#[test]
fn books_made_by_chance_are_answered_at_any_byte() {
    let config = Config { cases: 200, failure_persistence: None, ..Config::default() };
    let rng = TestRng::deterministic_rng(RngAlgorithm::ChaCha);
    let lines = prop::collection::vec(prop::sample::select(LINES), 1..14);
    let ends = prop::sample::select(vec!["\n", "\r\n", "\r"]);
    let places = prop::collection::vec((0..500_u32, 0..500_u32), 6);
    let asked = TestRunner::new_with_rng(config, rng).run(
        &(lines, ends, places),
        |(lines, end, places)| {
            let workspace = house(&lines.join(end));
            places.iter().try_for_each(|(offset, end)| ask(&workspace, *offset, *end))
        },
    );
    asked.unwrap();
}

#[test]
fn the_official_list_is_answered_all_along() {
    let workspace = house(include_str!("../../../tests/data/official.pour"));
    let length = workspace.files()[0].document.text().len() as u32;
    for offset in (0..length + 9).step_by(331) {
        ask(&workspace, offset, offset + 40).unwrap();
    }
}
