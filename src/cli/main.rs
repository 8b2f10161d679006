//! hearthload for the terminal: hands the arguments and the three streams to the library.

use std::io;
use std::process::ExitCode;

fn main() -> ExitCode {
    let input = Box::new(io::stdin());
    let code = hearthload_cli::run(std::env::args_os(), input, &mut io::stdout(), &mut io::stderr());
    ExitCode::from(code)
}
