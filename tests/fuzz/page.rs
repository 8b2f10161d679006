//! Owns what the page takes from outside: links, files, and what lies in the browser's storage.

use base64::{Engine, engine::general_purpose::URL_SAFE_NO_PAD};
use hearthload_page::{
    files, number,
    route::Place,
    share,
    state::{
        entry::{self, Entry, Lies},
        kept::Kept,
        tabs::{Store, Tabs},
    },
};
use miniz_oxide::deflate::compress_to_vec_zlib;
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};

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
    stored(&text);
}

/// A storage, no larger than what is put into it.
#[derive(Default)]
struct Lying(BTreeMap<String, String>);

impl Store for Lying {
    fn keys(&self) -> Vec<String> {
        self.0.keys().cloned().collect()
    }

    fn get(&self, key: &str) -> Option<String> {
        self.0.get(key).cloned()
    }

    fn set(&mut self, key: &str, text: &str) -> bool {
        self.0.insert(key.to_owned(), text.to_owned());
        true
    }

    fn remove(&mut self, key: &str) {
        self.0.remove(key);
    }
}

/// A text as a scenario in the storage, and as the list of an earlier version: read, or set aside; never lost, never in the way.
fn stored(text: &str) {
    let mut store = Lying::default();
    store.set(&entry::key(3), text);
    store.set("hearthload.kept", &Value::from(text).to_string());
    let mut tabs = Tabs::new("a".to_owned());
    let (list, _, last) = tabs.open(&mut store);
    let mut kept = Kept::found(list, None).unwrap_or_else(|| Kept::with(json!({})).beyond(last));
    kept.bring(json!({}), "new");
    kept.copy("copy".to_owned());
    let ids: BTreeSet<u32> = kept.list().iter().map(|one| one.id).collect();
    assert_eq!(ids.len(), kept.list().len(), "no number twice");
    let met = tabs.meet(kept.list(), &mut store);
    assert!(met.kept && met.news.is_empty(), "{met:?}");
    let is_gone = matches!(Entry::read(text), Lies::Gone(_));
    assert!(is_gone || store.0.values().any(|lies| lies == text), "what lay there is there still");
    let (again, news, _) = Tabs::new("b".to_owned()).open(&mut store);
    assert!(news.is_empty() && again == kept.list(), "another tab opens on the same");
    opened((*kept.list()[0].doc).clone());
}

/// A document that the page opens is read by the engine as it stands.
fn opened(doc: Value) {
    crate::draft::whole(hearthload::scenario::resolve(&doc));
}
