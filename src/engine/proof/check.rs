//! Owns the form of one check.

use serde::{Deserialize, Serialize};

/// Where the expected number comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
pub enum Status {
    /// A publication: a measurement, or a closed form evaluated to more digits than are compared.
    #[serde(rename = "published")]
    Published,
    /// A standard, or a table kept by a standards body.
    #[serde(rename = "standard")]
    Standard,
    /// A library or integrator outside the project, its version in the table's header.
    #[serde(rename = "reference library")]
    ReferenceLibrary,
    /// A rule of the trade that nobody wrote down.
    #[serde(rename = "common practice")]
    CommonPractice,
    /// Recalled, not seen: it informs and decides nothing.
    #[serde(rename = "from memory")]
    FromMemory,
    /// The engine beside a definition, beside what it was itself given or beside its own arithmetic: it guards against slips, proves
    /// nothing of the heat and counts as nothing from outside.
    #[serde(rename = "consistency")]
    Consistency,
}

/// One number of the engine beside one from outside.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Check {
    /// Short and unique: topic, a point, a name.
    pub id: String,
    /// What is compared, in a sentence.
    pub what: String,
    /// Where the expected number comes from.
    pub source: String,
    /// What kind of source that is.
    pub status: Status,
    /// The number from outside, in `unit`.
    pub expected: f64,
    /// How far `got` may be from `expected`, in `unit`.
    pub tolerance: f64,
    /// The engine's number, in `unit`.
    pub got: f64,
    /// The unit of the three numbers, "-" for a pure number.
    pub unit: String,
    /// Whether `got` lies within `tolerance` of `expected`.
    pub holds: bool,
    /// Why it does not hold, where it does not and the reason is known.
    pub explained: Option<String>,
    /// Where `got` moves to over what is not known of the thing that was measured.
    #[serde(default)]
    pub spread: Option<Spread>,
}

/// How far the engine's number moves over something the source does not say.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Spread {
    /// Least of the numbers, in the check's unit.
    pub low: f64,
    /// Most of them.
    pub high: f64,
    /// Over what.
    pub over: String,
}

/// The outside number of a check and where it comes from, before the engine is asked.
#[derive(Clone, Debug)]
pub struct Outside {
    /// The number.
    pub expected: f64,
    /// Allowed distance, same unit.
    pub tolerance: f64,
    /// Unit of both.
    pub unit: &'static str,
    /// Kind of source.
    pub status: Status,
    /// The source.
    pub source: String,
}

impl Outside {
    /// An expected number with a tolerance relative to it.
    #[must_use]
    pub fn relative(expected: f64, share: f64, unit: &'static str, status: Status, source: &str) -> Self {
        Self { expected, tolerance: expected.abs() * share, unit, status, source: source.to_owned() }
    }

    /// An expected number with an absolute tolerance.
    #[must_use]
    pub fn within(expected: f64, tolerance: f64, unit: &'static str, status: Status, source: &str) -> Self {
        Self { expected, tolerance, unit, status, source: source.to_owned() }
    }

    /// A range: the expected number is its middle, the tolerance half its width.
    #[must_use]
    pub fn between(low: f64, high: f64, unit: &'static str, status: Status, source: &str) -> Self {
        Self { expected: 0.5 * (low + high), tolerance: 0.5 * (high - low), unit, status, source: source.to_owned() }
    }

    /// Puts the engine's number beside it.
    #[must_use]
    pub fn against(self, id: &str, what: &str, got: f64) -> Check {
        Check {
            id: id.to_owned(),
            what: what.to_owned(),
            source: self.source,
            status: self.status,
            expected: self.expected,
            tolerance: self.tolerance,
            got,
            unit: self.unit.to_owned(),
            holds: holds(self.expected, self.tolerance, got),
            explained: None,
            spread: None,
        }
    }
}

/// Whether a number lies within its tolerance; a number that is not finite never does.
fn holds(expected: f64, tolerance: f64, got: f64) -> bool {
    got.is_finite() && (got - expected).abs() <= tolerance
}

impl Check {
    /// The same check with another number of the engine; `holds` is decided anew.
    #[must_use]
    pub fn with_got(&self, got: f64) -> Self {
        Self { got, holds: holds(self.expected, self.tolerance, got), ..self.clone() }
    }

    /// Shows how far the number moves over something not known, by the same check where that is otherwise.
    #[must_use]
    pub fn spread(mut self, over: &str, others: &[Self]) -> Self {
        let got = || others.iter().filter(|other| other.id == self.id).map(|other| other.got).chain([self.got]);
        let (low, high) = (got().fold(f64::INFINITY, f64::min), got().fold(f64::NEG_INFINITY, f64::max));
        self.spread = Some(Spread { low, high, over: over.to_owned() });
        self
    }

    /// Gives the reason for a miss. A check that holds keeps none.
    #[must_use]
    pub fn explain(mut self, why: &str) -> Self {
        if !self.holds {
            self.explained = Some(why.to_owned());
        }
        self
    }

    /// How far off it is, in tolerances: 1 is the edge.
    #[must_use]
    pub fn misses(&self) -> f64 {
        (self.got - self.expected).abs() / self.tolerance
    }
}

/// The worst of several comparisons of one kind stands for them all.
#[derive(Debug, Default)]
pub struct Worst(Option<Check>);

impl Worst {
    /// Takes in one comparison.
    pub fn add(&mut self, check: Check) {
        let better = self.0.as_ref().is_none_or(|worst| check.misses() > worst.misses() || check.misses().is_nan());
        if better {
            self.0 = Some(check);
        }
    }

    /// The worst one, if there was any.
    #[must_use]
    pub fn into_check(self) -> Option<Check> {
        self.0
    }
}
