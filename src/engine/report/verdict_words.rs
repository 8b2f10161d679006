//! Owns the words of the verdict: from plain facts to one sentence that says what, when and which dish, and a second that says why.

pub use super::causes::Cause;
use super::words::{clock, degrees, duration, percent, share};

/// A night with less than this share to spare only just carries: common practice, no source.
pub const JUST_CARRIES: f64 = 0.05;

/// A promise that broke, with what was promised and what came.
#[derive(Clone, Debug, PartialEq)]
pub enum Promise {
    /// Nine orders in ten wait at most so long, s.
    WaitP90 {
        /// Promised, s.
        promised_s: f64,
        /// What nine in ten stay under, s; infinite where more than one in ten never got in.
        got_s: f64,
    },
    /// No bake slows by more than a share.
    BakeSlower {
        /// Promised, share (0.33 = a third).
        promised_share: f64,
        /// The known bake, s.
        known_s: f64,
        /// The bake in the worst hour, s.
        got_s: f64,
    },
    /// So many loads start inside their floor band.
    ShareInBand {
        /// Promised, share.
        promised_share: f64,
        /// What came, share.
        got_share: f64,
    },
    /// The last piece is out by a clock time.
    QueueGoneBy {
        /// Promised, s since midnight.
        promised_s: f64,
        /// When it was out, s since midnight; None when it never was.
        got_s: Option<f64>,
    },
    /// The fire stays within its limits: clean, inside the oven, fed with air. Nobody may relax this one.
    FireLimits,
}

/// How the night went, for the words.
#[derive(Clone, Debug, PartialEq)]
pub enum Night {
    /// Nobody ordered anything.
    Idle {
        /// Floor at the first order, degC.
        start_c: f64,
        /// Floor at the end, degC.
        end_c: f64,
    },
    /// All promises hold.
    Carries {
        /// What stands closest to its limit.
        tightest: Cause,
        /// When, s since midnight.
        at_s: f64,
        /// How much of it is left, share.
        spare: f64,
    },
    /// A promise broke.
    Gives {
        /// The one that broke first.
        promise: Promise,
        /// When it first broke, s since midnight.
        from_s: f64,
        /// When it was worst, s since midnight.
        worst_s: f64,
        /// On which dish; None where on all.
        dish: Option<String>,
        /// Why.
        cause: Cause,
    },
}

/// The two sentences of a verdict.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct VerdictWords {
    /// What, when, which dish.
    pub says: String,
    /// Why, with two numbers.
    pub because: String,
}

/// Puts a night into words.
#[must_use]
pub fn verdict(night: &Night) -> VerdictWords {
    match night {
        Night::Idle { start_c, end_c } => VerdictWords {
            says: "Nothing is ordered, so nothing gives.".to_owned(),
            because: format!(
                "The floor stands at {} for the first order and at {} when the doors close.",
                degrees(*start_c),
                degrees(*end_c)
            ),
        },
        Night::Carries { tightest, at_s, spare } => carries(tightest, *at_s, *spare),
        Night::Gives { promise, from_s, worst_s, dish, cause } => VerdictWords {
            says: gives(promise, *from_s, dish.as_deref(), cause),
            because: because(promise, *worst_s, dish.as_deref(), cause),
        },
    }
}

fn carries(tightest: &Cause, at_s: f64, spare: f64) -> VerdictWords {
    let Some(first) = tightest.noun() else {
        return VerdictWords {
            says: "It carries.".to_owned(),
            because: "Nothing comes near its limit all night.".to_owned(),
        };
    };
    let left = percent(spare.max(0.0));
    let says = if spare < JUST_CARRIES {
        format!("It only just carries: {left} to spare on {first}, which gives first if anything comes late.")
    } else {
        format!("It carries, with {left} to spare on {first}, which would give first.")
    };
    VerdictWords { says, because: format!("At its tightest, about {}, {}.", clock(at_s), tightest.held()) }
}

/// "Not as it stands: from 20:05 the floor runs out of heat for leek rounds."
fn gives(promise: &Promise, from_s: f64, dish: Option<&str>, cause: &Cause) -> String {
    let opening = match promise {
        Promise::FireLimits => "Beyond a limit",
        _ => "Not as it stands",
    };
    let what = match cause {
        Cause::Nothing => promise.event(dish),
        other => other.event(dish),
    };
    format!("{opening}: from {} {what}.", clock(from_s))
}

fn because(promise: &Promise, worst_s: f64, dish: Option<&str>, cause: &Cause) -> String {
    let (promised, came) = promise.sentences(worst_s, dish);
    match (promise, cause) {
        (Promise::FireLimits, _) => format!("{promised} {} {}", cause.sentence(), cause.act()),
        (_, Cause::Nothing) => format!("{promised} {came}."),
        (_, Cause::FloorHeat { pulled_kw, won_back_kw, .. }) if won_back_kw >= pulled_kw => {
            format!("{promised} {came}: {}, but too late for the spots in use.", cause.clause())
        }
        _ => format!("{promised} {came}: {}.", cause.clause()),
    }
}

impl Promise {
    /// What was promised as a sentence, and what came as a clause without its full stop.
    fn sentences(&self, worst_s: f64, dish: Option<&str>) -> (String, String) {
        let of_dish = dish.map_or_else(String::new, |name| format!(" for {name}"));
        match self {
            Self::WaitP90 { promised_s, got_s } => (
                format!("You promise that nine orders in ten wait at most {}.", duration(*promised_s)),
                if got_s.is_finite() {
                    format!("Here one in ten waits longer than {}{of_dish}", duration(*got_s))
                } else {
                    format!("Here more than one in ten never gets in{of_dish}")
                },
            ),
            Self::BakeSlower { promised_share, known_s, got_s } => (
                format!("You promise that no bake slows by more than {}.", share(*promised_share)),
                format!(
                    "By {} a bake{} takes {} instead of {}",
                    clock(worst_s),
                    dish.map_or_else(String::new, |name| format!(" of {name}")),
                    duration(*got_s),
                    duration(*known_s)
                ),
            ),
            Self::ShareInBand { promised_share, got_share } => (
                format!("You promise that {} of loads start inside their floor band.", percent(*promised_share)),
                format!(
                    "Here {} of all do{}",
                    percent(*got_share),
                    dish.map_or_else(String::new, |name| format!(", {name} falling short most often"))
                ),
            ),
            Self::QueueGoneBy { promised_s, got_s } => (
                format!("You promise that the last piece is out by {}.", clock(*promised_s)),
                got_s.map_or_else(
                    || "It is still in when the reckoning ends".to_owned(),
                    |at_s| format!("It comes out at {}", clock(at_s)),
                ),
            ),
            Self::FireLimits => (
                "The flames stay inside the oven and the fire burns clean: that limit holds for every plan.".to_owned(),
                String::new(),
            ),
        }
    }

    /// What the kitchen notices, where no resource is to blame.
    fn event(&self, dish: Option<&str>) -> String {
        let name = dish.unwrap_or("the order");
        match self {
            Self::WaitP90 { .. } => format!("{name} waits too long"),
            Self::BakeSlower { .. } => format!("{name} bakes too slowly"),
            Self::ShareInBand { .. } => format!("{name} goes in outside its floor band"),
            Self::QueueGoneBy { .. } => "the queue outlasts the service".to_owned(),
            Self::FireLimits => "the fire leaves its limits".to_owned(),
        }
    }
}
