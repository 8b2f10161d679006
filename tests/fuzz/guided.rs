//! Owns the fuzzer proper: libFuzzer, which mutates what reached new branches, held to a budget of memory and of time.
//!
//! `HEARTHLOAD_FUZZ` names the target. With `HEARTHLOAD_SEEDS` it writes the target's seeds into that folder, and a
//! dictionary beside it, and ends. See `tests/fuzz/run`.
#![no_main]

use cap::Cap;
use cpu_time::ThreadTime;
use hearthload_fuzz::{TARGETS, Target, dictionary, seeds, target};
use std::alloc::System;
use std::path::Path;
use std::sync::LazyLock;

/// Most memory all together, bytes: no input may ask for more. What libFuzzer itself takes does not count.
const MOST_BYTES: usize = 256 << 20;

#[global_allocator]
static MEMORY: Cap<System> = Cap::new(System, MOST_BYTES);

static CHOSEN: LazyLock<Target> = LazyLock::new(|| {
    let name = std::env::var("HEARTHLOAD_FUZZ").unwrap_or_default();
    let names = TARGETS.map(|target| target.name).join(", ");
    *target(&name).unwrap_or_else(|| stop(&format!("HEARTHLOAD_FUZZ names one of {names}; it says '{name}'.")))
});

fn stop(says: &str) -> ! {
    eprintln!("{says}");
    std::process::exit(2)
}

fn write_seeds(folder: &Path) {
    let written = (0..)
        .zip(seeds(CHOSEN.name))
        .try_for_each(|(number, seed)| std::fs::write(folder.join(format!("seed-{number}")), seed));
    let written = written.and_then(|()| std::fs::write(folder.with_extension("dict"), dictionary()));
    if let Err(error) = written {
        stop(&format!("The seeds cannot be written to {}: {error}.", folder.display()));
    }
    std::process::exit(0)
}

fn begin() {
    if let Ok(folder) = std::env::var("HEARTHLOAD_SEEDS") {
        write_seeds(Path::new(&folder));
    }
}

libfuzzer_sys::fuzz_target!(init: begin(), |bytes: &[u8]| {
    let before = ThreadTime::now();
    (CHOSEN.run)(bytes);
    let took = before.elapsed();
    assert!(took.as_secs() < CHOSEN.most_s, "this took {took:?} of processor time");
});
