//! Starts a worker that answers everything: the long questions of the doors, which search over many days, and the outside checks.
//! Fetched when somebody first asks one of them.

fn main() {
    hearthload_page::worker::serve::start(hearthload::ask::answer);
}
