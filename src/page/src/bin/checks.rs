//! Starts the worker that runs the outside checks; fetched when somebody asks for them.

fn main() {
    hearthload_page::worker::serve::start(hearthload::ask::answer);
}
