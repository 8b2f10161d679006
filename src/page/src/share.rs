//! Owns the link that carries a whole scenario in its fragment: versioned, packed, and checked, so that a link cut short is seen.

use crate::route::{Place, SCENARIO};
use base64::{Engine, engine::general_purpose::URL_SAFE_NO_PAD};
use miniz_oxide::{deflate::compress_to_vec_zlib, inflate::decompress_to_vec_zlib_with_limit};
use serde_json::Value;

/// The version of the packing.
const VERSION: &str = "1";
/// Hardest packing: links are short and made once.
const LEVEL: u8 = 9;
/// Longest link offered, in letters. Messengers cut or refuse longer ones: from experience, no source.
pub const LONGEST: usize = 4000;
/// Most a link may unpack to, bytes.
const UNPACKED: usize = hearthload::scenario::LARGEST_BYTES;

/// Why a link cannot be taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Broken {
    /// Cut short or changed on its way.
    Damaged,
    /// Made by a newer program.
    Newer,
}

/// The fragment that carries a scenario to a place of the page.
#[must_use]
pub fn fragment(place: &Place, doc: &Value) -> String {
    let packed = compress_to_vec_zlib(doc.to_string().as_bytes(), LEVEL);
    format!("{}/{SCENARIO}{VERSION}.{}", place.fragment(), URL_SAFE_NO_PAD.encode(packed))
}

/// The scenario in a fragment; nothing where the fragment is about something else.
#[must_use]
pub fn read(fragment: &str) -> Option<Result<Value, Broken>> {
    let rest = fragment.trim_start_matches('#').split('/').find_map(|part| part.strip_prefix(SCENARIO))?;
    Some(match rest.split_once('.') {
        Some((VERSION, packed)) => unpack(packed).ok_or(Broken::Damaged),
        Some((version, _)) if version.parse::<u32>().is_ok_and(|version| version > 1) => Err(Broken::Newer),
        _ => Err(Broken::Damaged),
    })
}

fn unpack(packed: &str) -> Option<Value> {
    let bytes = URL_SAFE_NO_PAD.decode(packed).ok()?;
    let text = decompress_to_vec_zlib_with_limit(&bytes, UNPACKED).ok()?;
    serde_json::from_str(std::str::from_utf8(&text).ok()?).ok().filter(Value::is_object)
}
