//! Starts the page; loaded by a worker, starts the worker's side. One program for both: the engine is fetched once, and
//! page and worker are never of different versions.

fn main() {
    console_error_panic_hook::set_once();
    if web_sys::window().is_none() {
        let mut live = hearthload::ask::Live::default();
        hearthload_page::worker::serve::start(move |request| live.answer(request));
        return;
    }
    hearthload_page::golden::if_asked();
    hearthload_page::app::start();
}
