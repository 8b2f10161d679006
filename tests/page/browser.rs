//! Checks of the page's glue that need a browser: the worker's client, the storage, the page on its root, a picture on a canvas.
#![cfg(target_arch = "wasm32")]

use gloo::{
    storage::{LocalStorage, SessionStorage, Storage},
    timers::future::TimeoutFuture,
    utils::document,
};
use hearthload::ask::PROTOCOL;
use hearthload_page::{
    app::App,
    state::{kept::Kept, tabs::News},
    storage,
    worker::{
        Run,
        client::{Client, Heard},
        pool::{Came, Job, Pool},
    },
};
use serde_json::json;
use std::{cell::RefCell, rc::Rc};
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};

wasm_bindgen_test_configure!(run_in_browser);

/// Waits until something is so, at most some seconds.
async fn until(what: impl Fn() -> bool) -> bool {
    for _ in 0..250 {
        if what() {
            return true;
        }
        TimeoutFuture::new(20).await;
    }
    false
}

#[wasm_bindgen_test]
async fn a_worker_that_cannot_load_is_reported_lost() {
    let heard = Rc::new(RefCell::new(Vec::new()));
    let ears = heard.clone();
    let client = Client::new("./there-is-no-such-worker.js", move |what| ears.borrow_mut().push(what));
    client.ask(1, "golden", r#"{"question":"golden"}"#.to_owned());
    assert!(until(|| !heard.borrow().is_empty()).await);
    assert!(matches!(heard.borrow().as_slice(), [Heard::Lost(_)]), "{:?}", heard.borrow());
}

/// The address of a worker that says each request back after a while, breaks on "break" and never answers "hang".
fn echo() -> String {
    let code = format!(
        r#"const tell = (run, ok) => postMessage(`{{"protocol":{PROTOCOL},"run":${{run}},"answer":{{"ok":"${{ok}}"}}}}`);
        onmessage = ({{ data }}) => {{
            const {{ run, request }} = JSON.parse(data);
            if (request === "break") throw new Error("broken");
            if (request !== "hang") setTimeout(() => tell(run, request), 30);
        }};
        tell(0, "");"#
    );
    let options = web_sys::BlobPropertyBag::new();
    options.set_type("text/javascript");
    let blob = web_sys::Blob::new_with_str_sequence_and_options(&js_sys::Array::of1(&code.into()), &options).unwrap();
    web_sys::Url::create_object_url_with_blob(&blob).unwrap()
}

type Came3 = Rc<RefCell<Vec<(Run, usize, Came)>>>;

fn pool(size: usize) -> (Pool, Came3) {
    let came = Came3::default();
    let ears = came.clone();
    (Pool::new(&echo(), size, move |run, index, what| ears.borrow_mut().push((run, index, what))), came)
}

fn jobs(run: Run, requests: &[&str]) -> Vec<Job> {
    requests.iter().enumerate().map(|(index, request)| Job { run, index, request: (*request).into() }).collect()
}

#[wasm_bindgen_test]
async fn a_pool_answers_every_part_once_however_many_work() {
    for size in [1, 3] {
        let (pool, came) = pool(size);
        let all = jobs(7, &["a", "b", "c", "d", "e"]);
        pool.want(all.clone());
        // Said again while it runs, as the page does whenever something changes: nothing is done twice.
        pool.want(all.clone());
        assert!(until(|| came.borrow().len() == 5).await, "{:?}", came.borrow());
        pool.want(all);
        TimeoutFuture::new(200).await;
        let mut indexes: Vec<usize> = came.borrow().iter().map(|(_, index, _)| *index).collect();
        indexes.sort_unstable();
        assert_eq!(indexes, [0, 1, 2, 3, 4], "{size} workers");
        assert!(came.borrow().iter().all(|(run, _, came)| *run == 7 && matches!(came, Came::Answer(_))));
    }
}

#[wasm_bindgen_test]
async fn a_part_that_breaks_its_worker_twice_is_given_up_and_the_pool_lives_on() {
    let (pool, came) = pool(2);
    pool.want(jobs(1, &["a", "break"]));
    assert!(until(|| came.borrow().iter().any(|(_, _, came)| matches!(came, Came::Lost(_)))).await);
    let lost: Vec<usize> =
        came.borrow().iter().filter(|(_, _, came)| matches!(came, Came::Lost(_))).map(|(_, index, _)| *index).collect();
    assert_eq!(lost, [1], "said once");
    pool.want(jobs(2, &["c", "d", "e"]));
    assert!(until(|| came.borrow().iter().filter(|(run, ..)| *run == 2).count() == 3).await, "{:?}", came.borrow());
}

#[wasm_bindgen_test]
async fn what_is_no_longer_wanted_ends_in_the_middle_of_its_work() {
    let (pool, came) = pool(2);
    pool.want(jobs(1, &["hang", "hang", "hang"]));
    TimeoutFuture::new(100).await;
    pool.want(jobs(2, &["a"]));
    assert!(until(|| !came.borrow().is_empty()).await, "a worker is free again");
    assert!(matches!(came.borrow().as_slice(), [(2, 0, Came::Answer(_))]), "{:?}", came.borrow());
}

#[wasm_bindgen_test]
async fn the_page_stands_without_its_worker_and_keeps_what_is_typed() {
    LocalStorage::clear();
    SessionStorage::clear();
    let root = document().create_element("div").unwrap();
    document().body().unwrap().append_child(&root).unwrap();
    yew::Renderer::<App>::with_root(root.clone()).render();
    // Nothing serves the worker here: the page says so, and its form is there all the same.
    assert!(until(|| root.query_selector("[data-verdict=stopped] .strip button").unwrap().is_some()).await);
    assert!(root.query_selector("#f-oven-width_cm").unwrap().is_some());
    assert!(root.query_selector("h1").unwrap().is_some());
    // What stands on the page is kept, and another tab opens on it.
    let raw = LocalStorage::raw();
    assert!(until(|| raw.get_item("hearthload.one.1").is_ok_and(|text| text.is_some())).await);
    let open = || storage::open(|| Kept::with(json!({ "name": "None was kept" })));
    let (mut tabs, mut kept, news) = open();
    assert!(kept.list().len() > 1 && news.is_empty(), "the demonstration's scenarios");
    kept.bring(json!({ "hearthload": 1, "name": "Mine" }), "");
    assert!(storage::meet(&mut tabs, &kept).kept);
    let (_, again, _) = open();
    assert_eq!((again.list(), again.open_id()), (kept.list(), kept.open_id()));

    raw.set_item("hearthload.one.1", "torn").unwrap();
    let (_, again, news) = open();
    assert_eq!(again.list(), &kept.list()[1..], "what cannot be read is not taken");
    assert_eq!(news, [News::Aside]);
    assert_eq!(raw.get_item("hearthload.aside.1").unwrap().as_deref(), Some("torn"), "and not thrown away");
    LocalStorage::clear();
    SessionStorage::clear();
}
