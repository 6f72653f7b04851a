//! Runs of lines that are one mistake: lines before the first heading, and a card
//! pasted in as it was.

use washline_text::Span;

use crate::{EntryKind, Line, LineKind, Mend, Problem};

/// So many unread lines in a row are a card pasted in.
const CARD: usize = 4;

/// Makes one problem of many where they have one cause.
pub(crate) fn gather(kind: EntryKind, text: &str, lines: &[Line], problems: &mut Vec<Problem>) {
    if kind == EntryKind::Lead {
        return lead(text, lines, problems);
    }
    let unread = problems.iter().filter(|problem| problem.rule == "syntax").count();
    if unread >= CARD {
        cards(lines, problems);
    }
}

/// Lines before the first heading belong to nothing: that is all there is to say of them.
fn lead(text: &str, lines: &[Line], problems: &mut Vec<Problem>) {
    problems.retain(|problem| problem.rule == "merge-conflict");
    let said = |line: &&Line| !matches!(line.what, LineKind::Blank | LineKind::Comment);
    let conflict = !problems.is_empty();
    let Some(first) = lines.iter().find(said).filter(|_| !conflict) else { return };
    let last = lines.iter().rev().find(said).unwrap_or(first);
    let count = lines.iter().filter(said).count();
    let message = match count {
        1 => "this line stands before the first heading, and belongs to nothing".to_owned(),
        _ => format!("these {count} lines stand before the first heading, and belong to nothing"),
    };
    let span = first.content.cover(last.content);
    let mut problem = Problem::new(
        "misplaced-line",
        span,
        message,
        "open an entry above them: `drink: NAME`, `prep: NAME` or `stock: NAME`",
    );
    if first.what == LineKind::Unread {
        let edits = vec![washline_text::Edit::insert(first.content.start, "drink: ")];
        let title = format!("make `{}` a drink", first.content.text(text));
        problem = problem.perhaps(title, edits);
    }
    problems.push(problem);
}

/// Replaces the problems of each long run of unread lines by one.
fn cards(lines: &[Line], problems: &mut Vec<Problem>) {
    let starts: Vec<u32> =
        problems.iter().filter(|p| p.rule == "syntax").map(|p| p.span.start).collect();
    let mut run: Vec<&Line> = Vec::new();
    let mut cards: Vec<(Span, usize)> = Vec::new();
    for line in lines {
        let syntax = starts.binary_search(&line.content.start).is_ok();
        match line.what {
            LineKind::Unread if syntax => run.push(line),
            LineKind::Blank | LineKind::Comment => {}
            _ => close(&mut run, &mut cards),
        }
    }
    close(&mut run, &mut cards);
    let mut left = std::mem::take(problems).into_iter().peekable();
    for (span, count) in cards {
        let mut gone = Vec::new();
        while let Some(problem) = left.next_if(|p| p.span.start < span.end) {
            let inside = problem.rule == "syntax" && span.start <= problem.span.start;
            if inside { gone.push(problem) } else { problems.push(problem) }
        }
        problems.push(card(span, count, gone));
    }
    problems.extend(left);
}

fn close(run: &mut Vec<&Line>, cards: &mut Vec<(Span, usize)>) {
    if let (Some(first), Some(last)) = (run.first(), run.last())
        && run.len() >= CARD
    {
        cards.push((first.content.cover(last.content), run.len()));
    }
    run.clear();
}

/// One problem for a run; where each of its lines has a mend, one mend for all.
fn card(span: Span, count: usize, problems: Vec<Problem>) -> Problem {
    let mends: Option<Vec<Mend>> =
        problems.into_iter().map(|problem| problem.mends.into_iter().next()).collect();
    let problem = Problem::new(
        "syntax",
        span,
        format!("these {count} lines read like a card pasted in as it was"),
        "write each ingredient on a line that starts with its amount, each step on one that starts \
         with `- `, anything else behind `note:`",
    );
    match mends {
        Some(mends) => {
            let edits = mends.into_iter().flat_map(|mend| mend.edits).collect();
            problem.perhaps("mend each line", edits)
        }
        None => problem,
    }
}
