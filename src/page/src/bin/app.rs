//! Starts the page.

fn main() {
    console_error_panic_hook::set_once();
    hearthload_page::golden::if_asked();
    hearthload_page::app::start();
}
