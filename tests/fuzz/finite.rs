//! Owns the search for numbers that are none. JSON writes them as null, which may be meant; Rust's own debug form does not.

/// Where a value's debug form holds a NaN or an infinity, with the words before it; text in quotes does not count.
#[must_use]
pub fn broken_number(debug: &str) -> Option<String> {
    let (mut quoted, mut escaped, mut word_from) = (false, false, None::<usize>);
    for (at, letter) in debug.char_indices().chain([(debug.len(), ' ')]) {
        if quoted {
            (quoted, escaped) = (escaped || letter != '"', !escaped && letter == '\\');
            continue;
        }
        if letter.is_ascii_alphanumeric() || letter == '_' {
            word_from = word_from.or(Some(at));
            continue;
        }
        if let Some(from) = word_from.take()
            && matches!(&debug[from..at], "NaN" | "inf")
        {
            let before = debug.floor_char_boundary(from.saturating_sub(200));
            return Some(debug[before..at].to_owned());
        }
        quoted = letter == '"';
    }
    None
}
