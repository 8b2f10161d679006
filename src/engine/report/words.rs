//! Owns how a number is said to people: rounding to what a cook can act on, its unit, and a no-break space between.
//!
//! Two forms of a clock time exist. Files and JSON keep the typed form, which runs on past midnight ("25:30", [`clock_typed`]),
//! so that sorting and subtracting work. People read what a clock on the wall shows ("01:30", [`clock`]).

use crate::units::time::{DAY_S, HOUR_S, MINUTE_S};

/// The no-break space that stands between a number and its unit.
pub const NBSP: char = '\u{a0}';

/// Said where a number is not finite.
pub const UNKNOWN: &str = "not known";

/// Durations of ten seconds and more are said in steps of ten: common practice, nobody times a bake closer.
const STEP_S: f64 = 10.0;

/// A number with a fixed count of decimals, a true minus sign, and never "-0".
#[must_use]
pub fn number(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return UNKNOWN.to_owned();
    }
    let plain = format!("{:.decimals$}", value.abs());
    let is_zero = plain.chars().all(|c| c == '0' || c == '.');
    if value < 0.0 && !is_zero { format!("\u{2212}{plain}") } else { plain }
}

/// A number and its unit; "not known" stands without one.
#[must_use]
pub fn with_unit(value: f64, decimals: usize, unit: &str) -> String {
    if !value.is_finite() {
        return UNKNOWN.to_owned();
    }
    format!("{}{NBSP}{unit}", number(value, decimals))
}

/// Two numbers of one kind side by side: as many decimals as asked, and one or two more where they would look the same.
#[must_use]
pub fn pair(first: f64, second: f64, decimals: usize, unit: &str) -> (String, String) {
    let digits = (decimals..decimals + 2).find(|&d| number(first, d) != number(second, d)).unwrap_or(decimals);
    (with_unit(first, digits, unit), with_unit(second, digits, unit))
}

/// A temperature to 1 degC: "277 °C".
#[must_use]
pub fn degrees(value_c: f64) -> String {
    with_unit(value_c, 0, "°C")
}

/// A mass to 0.1 kg.
#[must_use]
pub fn kg(value_kg: f64) -> String {
    with_unit(value_kg, 1, "kg")
}

/// Heat to 1 kJ.
#[must_use]
pub fn kj(value_kj: f64) -> String {
    with_unit(value_kj, 0, "kJ")
}

/// Heat to 0.1 MJ.
#[must_use]
pub fn mj(value_mj: f64) -> String {
    with_unit(value_mj, 1, "MJ")
}

/// A heat rate to 0.1 kW.
#[must_use]
pub fn kw(value_kw: f64) -> String {
    with_unit(value_kw, 1, "kW")
}

/// Gas to 0.1 kWh.
#[must_use]
pub fn kwh(value_kwh: f64) -> String {
    with_unit(value_kwh, 1, "kWh")
}

/// A share to 1 %: 0.09 is "9 %".
#[must_use]
pub fn percent(share: f64) -> String {
    with_unit(share * 100.0, 0, "%")
}

/// A count: "1 cover", "84 covers", "0 covers".
#[must_use]
pub fn count(value: f64, one: &str, many: &str) -> String {
    let shown = number(value, 0);
    let noun = if shown == "1" { one } else { many };
    format!("{shown}{NBSP}{noun}")
}

/// A rate of pieces: "84 pieces an hour".
#[must_use]
pub fn pieces_an_hour(per_h: f64) -> String {
    format!("{} an hour", count(per_h, "piece", "pieces"))
}

/// A share as a cook says it: "a third", "half", "a quarter", otherwise in percent.
#[must_use]
pub fn share(value: f64) -> String {
    /// The shares that have a name, and how far a typed 0.33 may be from a third.
    const NAMED: [(f64, &str); 5] =
        [(0.5, "half"), (1.0 / 3.0, "a third"), (0.25, "a quarter"), (0.2, "a fifth"), (0.1, "a tenth")];
    const NEAR: f64 = 0.005;
    NAMED
        .iter()
        .find(|(named, _)| (value - named).abs() < NEAR)
        .map_or_else(|| percent(value), |(_, name)| (*name).to_owned())
}

/// A duration to ten seconds (to one below ten): "40 s", "3 min 20 s", "1 h 10 min".
#[must_use]
pub fn duration(value_s: f64) -> String {
    if !value_s.is_finite() {
        return UNKNOWN.to_owned();
    }
    if value_s.abs() < STEP_S {
        return with_unit(value_s, 0, "s");
    }
    let sign = if value_s < 0.0 { "\u{2212}" } else { "" };
    let whole_s = (value_s.abs() / STEP_S).round() * STEP_S;
    if whole_s < HOUR_S {
        let minutes = (whole_s / MINUTE_S).floor();
        let seconds = whole_s - minutes * MINUTE_S;
        return format!("{sign}{}", two_parts(minutes, "min", seconds, "s"));
    }
    let whole_min = (value_s.abs() / MINUTE_S).round();
    let hours = (whole_min / MINUTE_S).floor();
    format!("{sign}{}", two_parts(hours, "h", whole_min - hours * MINUTE_S, "min"))
}

/// "3 min 20 s", without a part that is nought.
fn two_parts(large: f64, large_unit: &str, small: f64, small_unit: &str) -> String {
    match (large >= 1.0, small >= 1.0) {
        (true, true) => format!("{large:.0}{NBSP}{large_unit} {small:.0}{NBSP}{small_unit}"),
        (true, false) => format!("{large:.0}{NBSP}{large_unit}"),
        _ => format!("{small:.0}{NBSP}{small_unit}"),
    }
}

/// Minutes to one: "12 min"; an hour and more as [`duration`] says it.
#[must_use]
pub fn minutes(value_min: f64) -> String {
    if value_min.abs() < MINUTE_S { with_unit(value_min, 0, "min") } else { duration(value_min * MINUTE_S) }
}

/// A clock time as the clock on the wall shows it, "01:30" for half past one in the night. Seconds since midnight go in.
#[must_use]
pub fn clock(at_s: f64) -> String {
    clock_parts(at_s, true)
}

/// A clock time as files and JSON write it: past midnight it runs on, "25:30".
#[must_use]
pub fn clock_typed(at_s: f64) -> String {
    clock_parts(at_s, false)
}

fn clock_parts(at_s: f64, wrap: bool) -> String {
    if !at_s.is_finite() || at_s < 0.0 {
        return UNKNOWN.to_owned();
    }
    let day_min = DAY_S / MINUTE_S;
    let mut minutes = (at_s / MINUTE_S).floor();
    if wrap {
        minutes -= (minutes / day_min).floor() * day_min;
    }
    let hours = (minutes / MINUTE_S).floor();
    format!("{hours:02.0}:{:02.0}", minutes - hours * MINUTE_S)
}

/// The typed form "25:30" as seconds since midnight. None where it is not a clock time.
#[must_use]
pub fn clock_seconds(typed: &str) -> Option<f64> {
    let (hours, minutes) = typed.split_once(':')?;
    let digits = |s: &str| !s.is_empty() && s.bytes().all(|b| b.is_ascii_digit());
    if !digits(hours) || !digits(minutes) {
        return None;
    }
    let (hours, minutes): (u32, u32) = (hours.parse().ok()?, minutes.parse().ok()?);
    (minutes < 60).then(|| f64::from(hours) * HOUR_S + f64::from(minutes) * MINUTE_S)
}

/// The typed form as the wall shows it: "25:30" becomes "01:30"; anything else stays as it is.
#[must_use]
pub fn clock_from_typed(typed: &str) -> String {
    clock_seconds(typed).map_or_else(|| typed.to_owned(), clock)
}

/// Names in a row: "a", "a and b", "a, b and c".
#[must_use]
pub fn list(names: &[&str]) -> String {
    match names {
        [] => String::new(),
        [one] => (*one).to_owned(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plain(text: &str) -> String {
        text.replace(NBSP, " ")
    }

    #[test]
    fn durations_step_by_ten_seconds_and_carry_over() {
        assert_eq!(plain(&duration(200.0)), "3 min 20 s");
        assert_eq!(plain(&duration(179.0)), "3 min");
        assert_eq!(plain(&duration(3.4)), "3 s");
        assert_eq!(plain(&duration(42.0)), "40 s");
        assert_eq!(plain(&duration(3598.0)), "1 h");
        assert_eq!(plain(&duration(4200.0)), "1 h 10 min");
        assert_eq!(plain(&duration(-200.0)), "\u{2212}3 min 20 s");
        assert_eq!(duration(f64::NAN), UNKNOWN);
    }

    #[test]
    fn clocks_wrap_for_people_and_run_on_in_files() {
        assert_eq!(clock(91_800.0), "01:30");
        assert_eq!(clock_typed(91_800.0), "25:30");
        assert_eq!(clock_from_typed("25:30"), "01:30");
        assert_eq!(clock_from_typed("noon"), "noon");
        assert_eq!(clock_seconds("20:45"), Some(74_700.0));
        assert_eq!(clock_seconds("20:65"), None);
        assert_eq!(clock_seconds("+2:05"), None);
        assert_eq!(clock(f64::INFINITY), UNKNOWN);
    }

    #[test]
    fn numbers_have_units_and_never_a_minus_nought() {
        assert_eq!(degrees(276.6), format!("277{NBSP}°C"));
        assert_eq!(number(-0.04, 1), "0.0");
        assert_eq!(number(-4.04, 1), "\u{2212}4.0");
        assert_eq!(plain(&percent(0.094)), "9 %");
        assert_eq!(share(0.33), "a third");
        assert_eq!(plain(&share(0.4)), "40 %");
        assert_eq!(plain(&count(1.2, "cover", "covers")), "1 cover");
    }

    #[test]
    fn a_pair_that_would_look_the_same_gets_more_digits() {
        let (a, b) = pair(2.24, 2.16, 1, "kW");
        assert_eq!((plain(&a), plain(&b)), ("2.24 kW".to_owned(), "2.16 kW".to_owned()));
        let (a, b) = pair(2.2, 1.9, 1, "kW");
        assert_eq!((plain(&a), plain(&b)), ("2.2 kW".to_owned(), "1.9 kW".to_owned()));
        let (a, b) = pair(2.2, 2.2, 1, "kW");
        assert_eq!(a, b);
    }

    #[test]
    fn names_in_a_row() {
        assert_eq!(list(&[]), "");
        assert_eq!(list(&["a"]), "a");
        assert_eq!(list(&["a", "b", "c"]), "a, b and c");
    }
}
