//! Owns what is said when the computing itself went wrong: what, where, when, by how much, and what to do about it.

use super::words::{clock, number};
use crate::hearth::fault::{Fault, Place};

/// The whole of it, in words; no verdict may be shown beside it.
///
/// ```
/// use hearthload::hearth::fault::{Fault, Place};
/// let fault = Fault { at_s: 69_120.0, place: Place::Layer, residual: 35.0, allowed: 0.02 };
/// let says = hearthload::report::fault_words::fault(&fault);
/// assert!(says.starts_with("The computing failed at 19:12") && says.contains("35.0 W"));
/// ```
#[must_use]
pub fn fault(fault: &Fault) -> String {
    let (left, allowed) = (figures(fault.residual), figures(fault.allowed));
    let what = match fault.place {
        Place::Layer => {
            format!("the heat balance of the smoke under the dome leaves {left} W open where {allowed} W may be")
        }
        Place::Step => {
            format!("the stone would have to be looked at every {left} s, and {allowed} s is the finest there is")
        }
        Place::Stone => format!("stone came out at {left} \u{b0}C, beyond {allowed} \u{b0}C, which no oven's is"),
        Place::Ledger => format!("the heat ledger leaves {left} J open where {allowed} J may be"),
    };
    format!(
        "The computing failed at {}: {what}. There is no answer to this scenario, for any shown would be wrong. Please report the file.",
        clock(fault.at_s)
    )
}

/// A number with three figures that count; one that is none is said to be none.
fn figures(value: f64) -> String {
    if !value.is_finite() {
        return "no number of".to_owned();
    }
    let size = value.abs();
    let decimals = [100.0, 10.0, 1.0, 0.1, 0.01].iter().position(|&least| size >= least).unwrap_or(6);
    number(value, decimals)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_place_is_told_with_time_and_residual() {
        for (place, residual, said) in [
            (Place::Layer, 12.5, "12.5 W"),
            (Place::Step, 0.013, "0.013"),
            (Place::Stone, 2400.0, "2400"),
            (Place::Ledger, f64::NAN, "no number of J"),
        ] {
            let says = fault(&Fault { at_s: 91_800.0, place, residual, allowed: 1.0 });
            assert!(says.contains(said) && says.contains("at 01:30") && says.contains("report"), "{says}");
        }
    }
}
