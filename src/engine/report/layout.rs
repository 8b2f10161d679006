//! Owns the laying out of plain text on a terminal: wrapping, columns, and text made harmless.

use super::words::number;

/// Columns of a terminal that everybody has.
pub(super) const WIDTH: usize = 80;

/// User text without control characters (a name could otherwise steer the terminal), spaces in their place.
pub(super) fn harmless(text: &str) -> String {
    text.chars().map(|c| if c.is_control() { ' ' } else { c }).collect()
}

/// User text cut to a column's width.
pub(super) fn cut(text: &str, width: usize) -> String {
    let text = harmless(text);
    if text.chars().count() <= width {
        return text;
    }
    let kept: String = text.chars().take(width.saturating_sub(1)).collect();
    format!("{}…", kept.trim_end())
}

/// Wraps at spaces (never at a no-break space): the first line begins with `head`, the others with as many spaces.
pub(super) fn wrapped(head: &str, text: &str) -> String {
    let indent = head.chars().count();
    let mut out = String::from(head);
    let mut column = indent;
    for word in harmless(text).split(' ').filter(|word| !word.is_empty()) {
        let width = word.chars().count();
        if column > indent && column + 1 + width > WIDTH {
            out.push('\n');
            out.push_str(&" ".repeat(indent));
            column = indent;
        }
        if column > indent {
            out.push(' ');
            column += 1;
        }
        out.push_str(word);
        column += width;
    }
    out.push('\n');
    out
}

/// Text set left in a column.
pub(super) fn left(text: &str, width: usize) -> String {
    format!("{text:<width$}")
}

/// Text set right in a column.
pub(super) fn right(text: &str, width: usize) -> String {
    format!("{text:>width$}")
}

/// A number for a column, "-" where there is none.
pub(super) fn cell(value: Option<f64>, decimals: usize) -> String {
    value.filter(|v| v.is_finite()).map_or_else(|| "-".to_owned(), |v| number(v, decimals))
}

/// Minutes and seconds for a column, "4:35"; "-" where there are none.
pub(super) fn minutes_seconds(value_s: Option<f64>) -> String {
    const MINUTE_S: f64 = 60.0;
    let Some(value_s) = value_s.filter(|v| v.is_finite() && *v >= 0.0) else {
        return "-".to_owned();
    };
    let whole = value_s.round();
    let minutes = (whole / MINUTE_S).floor();
    format!("{minutes:.0}:{:02.0}", whole - minutes * MINUTE_S)
}

/// The first sentence of a text.
pub(super) fn first_sentence(text: &str) -> &str {
    text.find(". ").map_or(text, |at| &text[..=at])
}

/// Rounds parts to tenths so that they add up to the tenths of a whole that is shown beside them: the tenths that are
/// missing or too many go to the parts nearest to the next tenth (largest remainder). Parts that do not add up to begin with
/// are only rounded, so that the gap shows.
pub(super) fn tenths_that_add_up(whole: f64, whole_shown: f64, parts: &[f64]) -> Vec<f64> {
    const TENTH: f64 = 10.0;
    /// What a ledger's own rounding may leave open, share of the whole.
    const CLOSED: f64 = 1e-6;
    let mut shown: Vec<f64> = parts.iter().map(|part| (part * TENTH).round()).collect();
    let sum: f64 = parts.iter().sum();
    if (sum - whole).abs() <= CLOSED * whole.abs() {
        let mut missing = (whole_shown * TENTH).round() - shown.iter().sum::<f64>();
        for _ in 0..parts.len() {
            let step = missing.signum();
            let gap = |i: &usize| (parts[*i] * TENTH - shown[*i]) * step;
            let nearest = (0..parts.len()).max_by(|a, b| gap(a).total_cmp(&gap(b)));
            if let Some(nearest) = nearest.filter(|_| missing.abs() >= 0.5) {
                shown[nearest] += step;
                missing -= step;
            }
        }
    }
    shown.iter().map(|tenths| tenths / TENTH).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_wrap_at_spaces_only_and_keep_their_indent() {
        let text = wrapped("Wood   ", &"14.2\u{a0}kg before ".repeat(12));
        assert!(text.lines().all(|line| line.chars().count() <= WIDTH), "{text}");
        assert!(text.lines().skip(1).all(|line| line.starts_with("       ") && !line.contains("\u{a0}\n")));
    }

    #[test]
    fn control_characters_cannot_steer_the_terminal() {
        assert_eq!(harmless("a\u{1b}[2Jb\nc"), "a [2Jb c");
        assert_eq!(cut("Leek round with cheese", 12), "Leek round…");
    }

    #[test]
    fn what_is_shown_adds_up() {
        let parts = [33.34, 33.34, 33.32, 0.0];
        let shown = tenths_that_add_up(100.0, 100.0, &parts);
        let tenths: Vec<i64> = shown.iter().map(|part| (part * 10.0).round() as i64).collect();
        assert_eq!(tenths.iter().sum::<i64>(), 1000, "{shown:?}");
        let gap = tenths_that_add_up(100.0, 100.0, &[10.0, 20.0]);
        assert_eq!(gap, [10.0, 20.0]);
    }

    #[test]
    fn times_in_columns() {
        assert_eq!(minutes_seconds(Some(275.4)), "4:35");
        assert_eq!(minutes_seconds(None), "-");
        assert_eq!(first_sentence("Stop. Then go."), "Stop.");
    }
}
