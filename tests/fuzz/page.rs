//! Owns what the page takes from outside: links, files, and what lies in the browser's storage.

use base64::{Engine, engine::general_purpose::URL_SAFE_NO_PAD};
use hearthload_page::{files, number, route::Place, share, state::kept::Kept};
use miniz_oxide::deflate::compress_to_vec_zlib;
use serde_json::Value;

/// Level of packing: fast, since only the unpacking is on trial.
const LEVEL: u8 = 1;

/// A link: the bytes as its fragment, or packed as a link's inside, or as what stands where the packed bytes should.
pub(crate) fn link(bytes: &[u8]) {
    let Some((kind, rest)) = bytes.split_first() else { return };
    let fragment = match kind % 4 {
        0 => String::from_utf8_lossy(rest).into_owned(),
        1 => format!("#scenario=1.{}", String::from_utf8_lossy(rest)),
        2 => format!("#scenario=1.{}", URL_SAFE_NO_PAD.encode(rest)),
        _ => format!("#scenario=1.{}", URL_SAFE_NO_PAD.encode(compress_to_vec_zlib(rest, LEVEL))),
    };
    drop(Place::read(&fragment));
    let Some(Ok(doc)) = share::read(&fragment) else { return };
    assert!(doc.is_object(), "a link brings an object or nothing");
    let again = share::fragment(&Place::default(), &doc);
    assert_eq!(share::read(&again), Some(Ok(doc.clone())), "what was taken from a link can be shared again");
    opened(doc);
}

/// A file, a storage entry, and letters typed into fields.
pub(crate) fn kept(bytes: &[u8]) {
    let text = String::from_utf8_lossy(bytes);
    drop(files::taken("a.json", &text));
    for value in [number::typed(&text), number::clock(&text)].into_iter().flatten() {
        assert!(value.is_string() || value.as_f64().is_some_and(f64::is_finite), "{text:?} was read as {value}");
    }
    let Some(mut kept) = Kept::read(&text) else { return };
    assert_eq!(Kept::read(&kept.write()).as_ref(), Some(&kept), "what was kept is kept again");
    let ids: std::collections::BTreeSet<u32> = kept.list().iter().map(|one| one.id).collect();
    assert_eq!(ids.len(), kept.list().len(), "no number twice");
    let before = kept.list().len();
    kept.bring(Value::Object(serde_json::Map::new()), "new");
    kept.copy("copy".to_owned());
    assert!(kept.list().len() == before + 2 && kept.list().last().is_some_and(|one| one.id == kept.open_id()));
    assert!(Kept::read(&kept.write()).is_some_and(|again| again.list().len() == before + 2));
    opened((*kept.open_doc()).clone());
}

/// A document that the page opens is read by the engine as it stands.
fn opened(doc: Value) {
    crate::draft::whole(hearthload::scenario::resolve(&doc));
}
