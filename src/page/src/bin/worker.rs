//! Starts the worker.

fn main() {}
