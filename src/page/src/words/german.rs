//! Owns German as texts beside the program: fetched when somebody reads it, so that nobody else waits for it. The page's own words come
//! first, in the order of the English list; then the sentences of engine and pictures, each line in English with its German below.

use super::{Words, translate::Entry};

/// What stands between the words and the sentences.
const CUT: &str = "---";

/// The whole text. In a browser it is fetched; where tests run it is at hand.
#[cfg(not(target_arch = "wasm32"))]
pub const TEXT: &str = concat!(
    include_str!("german/words.txt"),
    "---\n",
    include_str!("german/day.txt"),
    include_str!("german/fields.txt"),
    include_str!("german/fire.txt"),
    include_str!("german/goods.txt"),
    include_str!("german/pictures.txt"),
    include_str!("german/plans.txt"),
    include_str!("german/problems.txt"),
    include_str!("german/verdict.txt"),
);

/// The page's own words and the sentences out of a whole text; nothing where it is not of this version.
pub(super) fn read(text: &str) -> Option<(Words, Vec<Entry>)> {
    // Read once and kept as long as the page is open.
    let text: &'static str = Box::leak(text.replace('~', "\u{a0}").into_boxed_str());
    let mut lines = text.lines().filter(|line| !line.is_empty() && !line.starts_with('#'));
    let own = lines.by_ref().take_while(|line| *line != CUT).filter_map(|line| line.split_once(" = "));
    let words = Words::of(&own.map(|(_, says)| says).collect::<Vec<_>>())?;
    let mut sentences = Vec::new();
    while let (Some(english), Some(says)) = (lines.next(), lines.next()) {
        sentences.push((english, says.trim_start_matches(' ')));
    }
    Some((words, sentences))
}

/// The names of the words in a whole text, in its order.
#[cfg(not(target_arch = "wasm32"))]
#[must_use]
pub fn names() -> Vec<&'static str> {
    TEXT.lines().take_while(|line| *line != CUT).filter_map(|line| Some(line.split_once(" = ")?.0)).collect()
}
