//! The command line: reads a scenario, asks the engine, prints the answer. Everything it does goes through [`run`], so that
//! tests drive it without a process.
//!
//! Exit status: 0 computed, 2 a bad scenario or command (problems on stderr), 1 a fault of the program, 130 stopped before
//! there was anything. A closed pipe is no fault: whoever read the answer had enough.

mod args;
mod batch;
mod commands;
mod door;
mod fire;
mod floors;
mod input;
mod nights;
mod outcome;
mod parts;

use args::{Args, Command};
pub use batch::answer_line;
use clap::Parser;
use outcome::{Outcome, print, written};
use std::ffi::OsString;
use std::io::{Read, Write};
use std::panic::{AssertUnwindSafe, catch_unwind};

/// Computed.
pub const COMPUTED: u8 = 0;
/// The program is at fault.
pub const FAULT: u8 = 1;
/// The scenario or the command is not right.
pub const BAD_SCENARIO: u8 = 2;

/// Runs one command; the first argument is the program's name. Returns the exit status.
pub fn run(
    args: impl IntoIterator<Item = OsString>,
    input: Box<dyn Read + Send>,
    out: &mut dyn Write,
    err: &mut dyn Write,
) -> u8 {
    let args = match Args::try_parse_from(args) {
        Ok(args) => args,
        Err(error) => {
            let says = error.render().to_string();
            let is_help = !error.use_stderr();
            if is_help {
                print(out, &says);
                return COMPUTED;
            }
            print(err, &says);
            return BAD_SCENARIO;
        }
    };
    // The engine is written not to panic; should it, the user is owed a sentence and a status, not a trace.
    catch_unwind(AssertUnwindSafe(|| dispatch(args.command, input, out, err))).unwrap_or_else(|_| {
        print(err, "The program failed on this input. Please report the file.\n");
        FAULT
    })
}

fn dispatch(command: Command, input: Box<dyn Read + Send>, out: &mut dyn Write, err: &mut dyn Write) -> u8 {
    let outcome = match command {
        Command::Batch(args) => return batch::run(&args, input, out, err),
        Command::Carry(args) => commands::carry(&args, input, err),
        Command::Fire(args) => fire::fire(&args, input, err),
        Command::Floors(args) => floors::floors(&args, input, err),
        Command::Nights(args) => nights::nights(&args, input, err),
        Command::Schema(_) => commands::schema(),
        Command::Fields(args) => commands::fields(args.json),
        Command::Proof(args) => commands::proof(args.json, err),
        Command::Golden(args) => commands::golden(args.json),
    };
    let Outcome { code, out: answer, err: complaint } = outcome;
    let done = written(out, &answer);
    print(err, &complaint);
    match done {
        Ok(()) => code,
        Err(error) => {
            print(err, &format!("The answer cannot be written: {error}.\n"));
            FAULT
        }
    }
}
