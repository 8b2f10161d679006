//! Owns how a sentence that was made in English is said in another language: found in the catalogue by what stands between its open
//! places, then filled again, each place said in that language too where it is a clause of its own.
//!
//! A sentence the catalogue does not have stays English; `tests/page/language.rs` holds the catalogue against the sources, so that
//! none does.

use super::language::{Language, language};
use super::{Words, german};
use std::cell::{OnceCell, RefCell};
use std::collections::BTreeMap;

/// A sentence or clause: as the engine makes it, `{}` where something goes, `{#}` where it begins with a digit; and as it is said.
pub(super) type Entry = (&'static str, &'static str);

/// An entry with open places.
struct Open {
    /// What stands around and between the places.
    pieces: Vec<&'static str>,
    /// Which places begin with a digit.
    digits: Vec<bool>,
    says: &'static str,
}

/// All entries, made ready for finding, and the page's own words.
struct Catalogue {
    own: &'static Words,
    whole: BTreeMap<&'static str, &'static str>,
    /// Those that fix most letters first.
    open: Vec<Open>,
}

/// How many sentences are kept said before they are forgotten: many times what a page shows at once.
const REMEMBERED: usize = 4000;

thread_local! {
    static CATALOGUE: OnceCell<Catalogue> = const { OnceCell::new() };
    static SAID: RefCell<BTreeMap<String, Option<String>>> = const { RefCell::new(BTreeMap::new()) };
    /// Names people gave: never taken for words.
    static NAMES: RefCell<Vec<String>> = const { RefCell::new(Vec::new()) };
}

/// Takes in the other language's text. Gives whether it can be spoken.
pub fn learn(text: &str) -> bool {
    CATALOGUE.with(|known| match german::read(text) {
        Some((own, sentences)) if known.get().is_none() => {
            known.set(Catalogue::of(Box::leak(Box::new(own)), sentences)).is_ok()
        }
        _ => known.get().is_some(),
    })
}

/// Whether a language can be spoken: English always, another once its text is there.
#[must_use]
pub fn speaks(tongue: Language) -> bool {
    tongue == Language::English || ask(|_| ()).is_some()
}

/// The page's own words in the other language.
pub(super) fn own() -> Option<&'static Words> {
    ask(|catalogue| catalogue.own)
}

/// Asks the other language's catalogue, where it is there.
fn ask<A>(what: impl FnOnce(&Catalogue) -> A) -> Option<A> {
    #[cfg(not(target_arch = "wasm32"))]
    if CATALOGUE.with(|known| known.get().is_none()) {
        learn(german::TEXT);
    }
    CATALOGUE.with(|known| known.get().map(what))
}

/// Tells which names stand in the scenario, so that they are left as they are.
pub fn know(names: Vec<String>) {
    let news = NAMES.with_borrow(|known| *known != names);
    if news {
        NAMES.set(names);
        SAID.take();
    }
}

/// Says something as if nobody had given names: what the demonstration calls its dishes is words, whoever's scenario is open.
pub fn without_names<A>(say: impl FnOnce() -> A) -> A {
    let names = NAMES.take();
    SAID.take();
    let said = say();
    know(names);
    said
}

/// A text in the reader's language.
#[must_use]
pub fn tr(text: &str) -> String {
    if language() == Language::English {
        return text.to_owned();
    }
    sentences(text).map(|sentence| edged(sentence, |bare| said(bare).unwrap_or_else(|| bare.to_owned()))).collect()
}

/// The sentences of a text that the catalogue does not have.
#[must_use]
pub fn missing(text: &str) -> Vec<String> {
    sentences(text).map(str::trim).filter(|bare| said(bare).is_none()).map(str::to_owned).collect()
}

/// A text with what goes into its places: `{}` in order, `{0}` by number.
#[must_use]
pub fn put(text: &str, parts: &[&str]) -> String {
    let mut out = String::with_capacity(text.len());
    let (mut rest, mut next) = (text, 0);
    while let Some(start) = rest.find('{') {
        let Some(length) = rest[start..].find('}') else { break };
        out.push_str(&rest[..start]);
        let place = rest[start + 1..start + length].parse().unwrap_or(next);
        out.push_str(parts.get(place).copied().unwrap_or_default());
        next += 1;
        rest = &rest[start + length + 1..];
    }
    out + rest
}

/// A text cut behind each sentence's end; the blanks stay with the sentence before.
pub fn sentences(text: &str) -> impl Iterator<Item = &str> {
    let mut rest = text;
    std::iter::from_fn(move || {
        let mut from = 0;
        let end = loop {
            let Some(stop) = rest[from..].find(['.', '?', '!']) else { break rest.len() };
            let after = from + stop + 1;
            let next = rest[after..].trim_start_matches([' ', '\n']);
            let blank = next.len() < rest.len() - after;
            if blank
                && next.starts_with(|sign: char| {
                    sign.is_ascii_uppercase() || sign.is_ascii_digit() || "\"{".contains(sign)
                })
            {
                break rest.len() - next.len();
            }
            from = after;
        };
        let (sentence, left) = rest.split_at(end);
        rest = left;
        (!sentence.is_empty()).then_some(sentence)
    })
}

/// Says what lies between the blanks at both ends of a text.
fn edged(text: &str, say: impl FnOnce(&str) -> String) -> String {
    let bare = text.trim_matches([' ', '\n']);
    let start = text.find(bare).unwrap_or(0);
    format!("{}{}{}", &text[..start], say(bare), &text[start + bare.len()..])
}

/// A sentence, where it is known; numbers, and names people gave, are known as they are.
fn said(bare: &str) -> Option<String> {
    if let Some(known) = SAID.with_borrow(|said| said.get(bare).cloned()) {
        return known;
    }
    let found = find(bare);
    SAID.with_borrow_mut(|said| {
        if said.len() > REMEMBERED {
            said.clear();
        }
        said.insert(bare.to_owned(), found.clone());
    });
    found
}

fn find(bare: &str) -> Option<String> {
    let has_words = bare.contains(|sign: char| sign.is_ascii_alphabetic());
    if !has_words || NAMES.with_borrow(|names| names.iter().any(|name| name == bare)) {
        return Some(bare.to_owned());
    }
    ask(|catalogue| catalogue.find(bare)).flatten().or_else(|| from_clause(bare)).or_else(|| joined(bare)).or_else(
        || {
            // A figure with its unit is the same in both.
            is_figure(bare).then(|| bare.to_owned())
        },
    )
}

/// A clause with a capital and a full stop put about it.
fn from_clause(bare: &str) -> Option<String> {
    let first = bare.chars().next()?;
    let stop = bare.strip_suffix('.').unwrap_or(bare);
    let small = format!("{}{}", first.to_ascii_lowercase(), &stop[first.len_utf8()..]);
    if small == bare {
        return None;
    }
    let clause = said(&small)?;
    let says = if first.is_ascii_uppercase() { capital(&clause) } else { clause };
    Some(format!("{says}{}", &bare[stop.len()..]))
}

/// What joins clauses, and how it is said.
const JOINTS: [(&str, &str); 5] = [(": ", ": "), ("; ", "; "), (", and ", " und "), (", ", ", "), (" and ", " und ")];

/// Two known clauses side by side.
fn joined(bare: &str) -> Option<String> {
    JOINTS.into_iter().find_map(|(joint, says)| {
        bare.match_indices(joint).find_map(|(at, _)| {
            let (left, right) = (&bare[..at], &bare[at + joint.len()..]);
            (!left.is_empty() && !right.is_empty()).then_some(())?;
            Some(format!("{}{says}{}", said(left)?, said(right)?))
        })
    })
}

/// Whether a text is a number with, at most, its unit behind it.
fn is_figure(bare: &str) -> bool {
    const UNITS: [&str; 20] = [
        "°C", "°F", "K", "kg", "g", "lb", "oz", "kJ", "MJ", "kW", "kWh", "kW/m²", "Btu/h", "cm", "in", "m", "ft", "s",
        "min", "h",
    ];
    UNITS.contains(&bare)
        || bare.starts_with(|sign: char| sign.is_ascii_digit() || "+\u{2212}-±".contains(sign))
            && bare.split([' ', '\u{a0}']).all(|word| {
                UNITS.contains(&word)
                    || ["am", "pm", "to", "bis"].contains(&word)
                    || !word.contains(|sign: char| sign.is_ascii_alphabetic())
            })
}

/// A sentence's first letter made large, those with dots among them.
#[must_use]
pub fn capital(sentence: &str) -> String {
    let mut signs = sentence.chars();
    let large = |first| match first {
        'ä' => 'Ä',
        'ö' => 'Ö',
        'ü' => 'Ü',
        other => other.to_ascii_uppercase(),
    };
    signs.next().map_or_else(String::new, |first| std::iter::once(large(first)).chain(signs).collect())
}

impl Catalogue {
    fn of(own: &'static Words, entries: Vec<Entry>) -> Self {
        let mut whole = BTreeMap::new();
        let mut open: Vec<Open> = Vec::new();
        for (english, says) in entries {
            if !english.contains('{') {
                whole.insert(english, says);
                continue;
            }
            let digits = english.match_indices('{').map(|(at, _)| english[at..].starts_with("{#}")).collect();
            let pieces = english.split('{').enumerate().map(|(place, piece)| {
                if place == 0 { piece } else { piece.split_once('}').map_or("", |(_, after)| after) }
            });
            open.push(Open { pieces: pieces.collect(), digits, says });
        }
        hearthload::numerics::order::by(&mut open, |a, b| b.letters().cmp(&a.letters()));
        Self { own, whole, open }
    }

    fn find(&self, bare: &str) -> Option<String> {
        if let Some(says) = self.whole.get(bare) {
            return Some((*says).to_owned());
        }
        self.open.iter().find_map(|open| open.say(bare))
    }
}

impl Open {
    fn letters(&self) -> usize {
        self.pieces.iter().map(|piece| piece.len()).sum()
    }

    /// The text in this form, where it has it.
    fn say(&self, bare: &str) -> Option<String> {
        let (first, more) = self.pieces.split_first()?;
        let (last, between) = more.split_last()?;
        let mut rest = bare.strip_prefix(first)?.strip_suffix(last)?;
        let mut places: Vec<&str> = Vec::new();
        for piece in between {
            let at = rest.find(piece)?;
            places.push(&rest[..at]);
            rest = &rest[at + piece.len()..];
        }
        places.push(rest);
        let fits = places.iter().zip(&self.digits).all(|(place, digit)| {
            !digit || place.starts_with(|sign: char| sign.is_ascii_digit() || "+\u{2212}-".contains(sign))
        });
        if !fits {
            return None;
        }
        // A form that fixes few letters would fit anything: there each place must be known.
        const FEW: usize = 9;
        let listed = |joint: &str| places.iter().any(|place| place.contains(joint));
        // Nor does a place reach over from one clause of a row into the next.
        if listed("; ") && !self.pieces.iter().any(|piece| piece.contains("; ")) {
            return None;
        }
        if self.letters() < FEW && listed(", ") {
            return None;
        }
        if self.letters() < FEW && !places.iter().all(|place| said(place.trim_matches(' ')).is_some()) {
            return None;
        }
        let places: Vec<String> = places
            .into_iter()
            .map(|place| edged(place, |bare| said(bare).unwrap_or_else(|| bare.to_owned())))
            .collect();
        Some(put(self.says, &places.iter().map(String::as_str).collect::<Vec<_>>()))
    }
}
