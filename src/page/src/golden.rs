//! Owns the page's part in the proof that every build gives the same bits: `#golden` asks the worker and shows what it says.

use crate::worker::{
    Answer,
    client::{Client, Heard},
};
use hearthload::ask::read::read;
use std::collections::BTreeMap;

/// Where the worker's loader lies, seen from the page.
pub const WORKER: &str = "./worker_loader.js";
/// Where that of the long questions and the outside checks lies.
pub const CHECKS: &str = "./checks_loader.js";

/// With `#golden` in the address, asks for the golden hashes and writes them into `data-golden` of the root element.
pub fn if_asked() {
    if gloo::utils::window().location().hash().as_deref() != Ok("#golden") {
        return;
    }
    let client = Client::new(WORKER, |heard| {
        let says = match &heard {
            Heard::Answer { text, .. } => hashes(text),
            Heard::Lost(why) => why.clone(),
        };
        // An attribute that cannot be set leaves the test waiting, which is the right outcome.
        let _ = gloo::utils::document_element().set_attribute("data-golden", &says);
    });
    client.ask(1, "golden", r#"{"question":"golden"}"#.to_owned());
}

/// The hashes as `name hash name hash`, or what went wrong.
fn hashes(text: &str) -> String {
    match read::<Answer<BTreeMap<String, String>>>(text) {
        Ok(Answer::Ok(hashes)) => {
            hashes.iter().map(|(name, hash)| format!("{name} {hash}")).collect::<Vec<_>>().join(" ")
        }
        other => format!("{other:?}"),
    }
}
