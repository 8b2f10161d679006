//! Starts the worker.

fn main() {
    hearthload_page::worker::serve::start();
}
