//! Names that are more than a name: two ingredients in one, a remark, a bracket left open.

use washline_book::{Record, Workspace};
use washline_reference as reference;
use washline_syntax::name_beside;
use washline_text::{Edit, FileId, Place, Span, fold};

/// What is odd about a name, and the mend where there is one.
pub(super) struct Odd {
    /// What to do.
    pub help: &'static str,
    /// A mend: its title and its edits.
    pub mend: Option<(String, Vec<(FileId, Edit)>)>,
}

/// What is odd about the name at `place`, which nothing knows.
pub(super) fn odd(workspace: &Workspace, record: &Record, place: Place) -> Option<Odd> {
    let name = workspace.text(place);
    let whole = |text: String| vec![(place.file, Edit::new(place.span, text))];
    if let Some(rest) = name.strip_prefix("w/") {
        let rest = rest.trim().to_owned();
        return Some(Odd {
            help: "`w/` is no part of a name",
            mend: Some(("take `w/` out".to_owned(), whole(rest))),
        });
    }
    if let Some((known, said)) = remark(name).filter(|(known, _)| is_known(workspace, known)) {
        let text = format!("{known}  # {said}");
        return Some(Odd {
            help: "a remark stands behind `#`",
            mend: Some((format!("write `# {said}`"), whole(text))),
        });
    }
    let open = name.split_once('(').filter(|(_, said)| !said.is_empty() && !said.contains(')'));
    if open.is_some_and(|(known, _)| is_known(workspace, known)) {
        let closed = vec![(place.file, Edit::insert(place.span.end, ")"))];
        return Some(Odd {
            help: "a bracket opens here that nothing closes",
            mend: Some(("close the bracket".to_owned(), closed)),
        });
    }
    several(workspace, record, place, name)
}

/// `gin // house pour`, `gin -- house pour`.
fn remark(name: &str) -> Option<(&str, &str)> {
    let (known, said) = name.split_once(" //").or_else(|| name.split_once(" -- "))?;
    Some((known.trim(), said.trim())).filter(|(_, said)| !said.is_empty())
}

/// Known names with a sign or a word between them.
fn several(workspace: &Workspace, record: &Record, place: Place, name: &str) -> Option<Odd> {
    let joint = [" + ", "+", " & ", " and ", " / ", "/"].into_iter().find(|j| name.contains(j))?;
    let sides: Vec<&str> = name.split(joint).map(str::trim).collect();
    let bare = |side: &&str| {
        name_beside(side).map_or_else(|| (*side).to_owned(), |at| at.text(side).to_owned())
    };
    if !sides.iter().all(|side| is_known(workspace, &bare(side))) {
        return None;
    }
    let measured = sides.iter().skip(1).all(|side| name_beside(side).is_some());
    let mend = if joint.trim() == "/" {
        let text = sides.join(" or ");
        Some((format!("write `{text}`"), vec![(place.file, Edit::new(place.span, text))]))
    } else if measured {
        let text = sides.join(&format!("\n{}", indent(record, place)?));
        let edits = vec![(place.file, Edit::new(place.span, text))];
        Some(("write a line for each".to_owned(), edits))
    } else {
        None
    };
    let help = match joint.trim() {
        "/" => "a choice is written with `or`; two ingredients are two lines, each with its amount",
        _ => "these are several ingredients: write a line for each, with its amount",
    };
    Some(Odd { help, mend })
}

/// What the line at `place` begins with.
fn indent(record: &Record, place: Place) -> Option<&str> {
    let at = place.span.start.checked_sub(record.start)?;
    let line =
        record.entry.lines.iter().find(|line| line.span.start <= at && at <= line.span.end)?;
    Some(record.text(Span::new(line.span.start, line.content.start)))
}

fn is_known(workspace: &Workspace, name: &str) -> bool {
    let key = fold(name.trim());
    let own = || workspace.nearest(&key, 1).first().is_some_and(|near| fold(near) == key);
    !key.is_empty() && (reference::lookup(&key).is_some() || own())
}

#[cfg(test)]
mod tests {
    use super::super::RULE;
    use crate::harness::{findings, fixed};

    fn check(line: &str, after: &str) {
        let text = format!("drink: A\n  {line}\n");
        let after = format!("drink: A\n  {after}\n");
        assert_eq!(fixed(&RULE, &text, "").as_deref(), Some(after.as_str()), "{line}");
    }

    #[test]
    fn what_is_no_name_is_taken_apart() {
        check("60 ml gin / vodka", "60 ml gin or vodka");
        check("30 ml lime juice + 15 ml honey", "30 ml lime juice\n  15 ml honey");
        check("60 ml gin //house pour", "60 ml gin  # house pour");
        check("60 ml gin -- house pour", "60 ml gin  # house pour");
        check("60 ml gin (the good one", "60 ml gin (the good one)");
        check("top w/ soda water", "top soda water");
    }

    /// One of two is not offered for both.
    #[test]
    fn none_of_two_ingredients_gets_lost() {
        for line in ["60 ml gin & tonic water", "60 ml gin and tonic water", "60 ml gin+rum"] {
            let found = findings(&format!("drink: A\n  {line}\n"), "");
            let ours = found.iter().find(|finding| finding.rule == RULE.name).unwrap();
            assert!(ours.fixes.is_empty(), "{line}: {:?}", ours.fixes);
            assert!(ours.help.contains("a line for each"), "{line}");
        }
    }
}
