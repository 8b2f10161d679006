//! Owns what may be typed after the program's name.

use clap::{Args as ClapArgs, Parser, Subcommand};
use std::path::PathBuf;

/// Will this wood-fired hearth carry this menu, what gives first, and what would help?
#[derive(Parser)]
#[command(name = "hearthload", version, arg_required_else_help = true)]
pub struct Args {
    #[command(subcommand)]
    pub command: Command,
}

/// One question each.
#[derive(Subcommand)]
pub enum Command {
    /// Will this oven carry this menu tonight, and what gives first?
    Carry(CarryArgs),
    /// When to light, how often a piece, when to stop: the laziest fire that carries the evening
    Fire(FireArgs),
    /// Every floor size on offer, with and without gas: which is the smallest that carries?
    Floors(FloorsArgs),
    /// Many seeded nights: how often does it hold, and where does it break?
    Nights(NightsArgs),
    /// The JSON Schema of a scenario file
    Schema(JsonArgs),
    /// Every field a scenario may hold: unit, limits, default and where the default comes from
    Fields(JsonArgs),
    /// The engine's numbers beside numbers from outside, and which of them agree
    Proof(JsonArgs),
    /// The hashes that must be the same in every build and on every machine
    Golden(JsonArgs),
    /// One request a line in, one answer a line out, in the same order, on all cores
    Batch(BatchArgs),
}

/// `hearthload carry`.
#[derive(ClapArgs)]
pub struct CarryArgs {
    /// The scenario, or - for stdin
    pub file: PathBuf,
    /// The whole report as JSON, numbers not rounded
    #[arg(long)]
    pub json: bool,
    /// With --json: also the floor cell by cell and minute by minute
    #[arg(long, requires = "json")]
    pub map: bool,
    /// One table as CSV: dishes, floor, wood, limits, ledger, assumed or placements
    #[arg(long, value_name = "TABLE", conflicts_with = "json")]
    pub csv: Option<String>,
    /// Also the most covers at this mix and what would carry more; takes longer
    #[arg(long, conflicts_with_all = ["csv", "map"])]
    pub reach: bool,
    /// Also how sure the answer is: what is not known exactly, drawn at random; takes longer
    #[arg(long, conflicts_with_all = ["csv", "map", "reach"])]
    pub sure: bool,
}

/// `hearthload floors`.
#[derive(ClapArgs)]
pub struct FloorsArgs {
    /// The scenario, or - for stdin
    pub file: PathBuf,
    /// These widths, in cm, in the place of the scenario's smallest, largest and step
    #[arg(long, value_name = "CM,...", value_delimiter = ',')]
    pub sizes: Vec<f64>,
    /// Doorway and dome stay as given; else they go with the floor
    #[arg(long)]
    pub keep_doorway: bool,
    /// How many floors are worked on at once; all cores if left out
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub threads: Option<u16>,
    /// The whole report as JSON, numbers not rounded
    #[arg(long)]
    pub json: bool,
}

/// `hearthload nights`.
#[derive(ClapArgs)]
pub struct NightsArgs {
    /// The scenario, or - for stdin
    pub file: PathBuf,
    /// How many nights
    #[arg(long, value_name = "N", default_value_t = 200, value_parser = clap::value_parser!(u32).range(1..=100_000))]
    pub nights: u32,
    /// Which nights: the same number brings the same ones; the scenario's own if left out
    #[arg(long, value_name = "S")]
    pub seed: Option<u64>,
    /// Stop after so many seconds with what there is by then
    #[arg(long, value_name = "SECONDS", value_parser = clap::value_parser!(u64).range(1..))]
    pub at_most: Option<u64>,
    /// How many nights are worked on at once; all cores if left out
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub threads: Option<u16>,
    /// The whole report as JSON, numbers not rounded
    #[arg(long)]
    pub json: bool,
}

/// `hearthload fire`.
#[derive(ClapArgs)]
pub struct FireArgs {
    /// The scenario, or - for stdin
    pub file: PathBuf,
    /// The whole plan as JSON, numbers not rounded
    #[arg(long)]
    pub json: bool,
    /// Plan again from a reading in mid-service: when the floor was read
    #[arg(long, value_name = "HH:MM", requires = "floor")]
    pub at: Option<String>,
    /// ... and what it read
    #[arg(long, value_name = "C", requires = "at")]
    pub floor: Option<f64>,
    /// What was truly fed lately and since, as times with commas between
    #[arg(long, value_name = "HH:MM,...", value_delimiter = ',', requires = "at")]
    pub fed: Vec<String>,
    /// When the plan had pieces that were not fed then, as times with commas between
    #[arg(long, value_name = "HH:MM,...", value_delimiter = ',', requires = "at")]
    pub skipped: Vec<String>,
    /// On so many rough nights: how many the plan holds, and the least more wood that holds nine in ten; 0 leaves them out
    #[arg(long, value_name = "N", default_value_t = 10, value_parser = clap::value_parser!(u32).range(0..=1000))]
    pub rough: u32,
    /// The slow schedule of a new or damp oven
    #[arg(long, conflicts_with = "at")]
    pub first_firing: bool,
    /// With --first-firing: in so many hours of fire, please
    #[arg(long, value_name = "H", requires = "first_firing")]
    pub in_hours: Option<f64>,
}

/// Commands without a scenario.
#[derive(ClapArgs)]
pub struct JsonArgs {
    /// As JSON
    #[arg(long)]
    pub json: bool,
}

/// `hearthload batch`.
#[derive(ClapArgs)]
pub struct BatchArgs {
    /// Requests, one JSON object a line {"id", "question", "scenario"}; - for stdin
    #[arg(default_value = "-")]
    pub file: PathBuf,
    /// Earlier answers: ids answered there are skipped
    #[arg(long, value_name = "FILE")]
    pub resume: Option<PathBuf>,
    /// How many requests are worked on at once; all cores if left out
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u16).range(1..=1024))]
    pub threads: Option<u16>,
    /// Accepted everywhere; the answers of a batch are JSON in any case
    #[arg(long)]
    pub json: bool,
}
