//! Owns the letters that have no place in a name: they cannot be seen, or turn those beside them about, so that a name reads as
//! another. Source: Unicode Technical Report 36 (bidirectional text spoofing) and the general category Cc.

/// Whether a letter misleads: controls, line and paragraph separators, embeddings, overrides and isolates of direction,
/// noncharacters. Joiners and plain direction marks stay: scripts and emoji need them.
#[must_use]
pub fn misleads(letter: char) -> bool {
    letter.is_control()
        || matches!(letter, '\u{2028}'..='\u{202e}' | '\u{2066}'..='\u{2069}' | '\u{feff}' | '\u{fff9}'..='\u{fffb}')
        || u32::from(letter) & 0xfffe == 0xfffe
}

/// Whether a letter may stand in a longer text: there, lines and tabs are meant.
#[must_use]
pub fn misleads_in_note(letter: char) -> bool {
    misleads(letter) && !matches!(letter, '\n' | '\r' | '\t')
}

/// What to call a letter that cannot be shown.
///
/// ```
/// assert_eq!(hearthload::scenario::letters::name('\u{202e}'), "U+202E");
/// ```
#[must_use]
pub fn name(letter: char) -> String {
    format!("U+{:04X}", u32::from(letter))
}
