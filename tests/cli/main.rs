//! The command line: what it prints where, with which status, and that nothing a user types makes it fall over.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test may stop where it likes")]

mod batch;
mod broken;
mod carry;
mod memory;
mod odd;
mod run;
mod status;
mod stopped;
mod tables;
