//! Owns what is in reason for the numbers of an answer, by what their names say they are, wherever they stand in it.

use serde_json::Value;

/// Nothing in an oven is colder than deep-frozen food or hotter than a flame, degC.
const TEMPERATURE_C: std::ops::RangeInclusive<f64> = -50.0..=2000.0;
/// Rounding may leave a share this far beyond its ends.
const ROUNDING: f64 = 1e-9;
/// Names of shares, by how they begin or end; and some by themselves.
const SHARES: [&str; 2] = ["share_", "never_share"];
const SHARES_AT_END: [&str; 4] = ["_share", "_share_range", "_fraction", "_stands"];
const SHARES_BY_NAME: [&str; 2] = ["holds_between", "share"];
/// Names of what there is none of or some, never less: masses, and what is counted.
const MASSES: [&str; 3] = ["kg", "g", "tonnes"];
const COUNTS: [&str; 8] = ["pieces", "baked", "ordered", "covers", "nights", "fit", "feeds", "draws"];

/// A number of an answer that is not in reason, with its name; the answer as plain JSON.
#[must_use]
pub fn out_of_reason(answer: &Value) -> Option<String> {
    within(answer, "")
}

/// How many temperatures an answer tells.
#[must_use]
pub fn temperatures(answer: &Value) -> usize {
    match answer {
        Value::Object(map) => map
            .iter()
            .map(|(name, value)| if name.ends_with("_c") { numbers(value) } else { temperatures(value) })
            .sum(),
        Value::Array(items) => items.iter().map(temperatures).sum(),
        _ => 0,
    }
}

fn numbers(value: &Value) -> usize {
    match value {
        Value::Array(items) => items.iter().map(numbers).sum(),
        value => usize::from(value.is_number()),
    }
}

fn within(value: &Value, name: &str) -> Option<String> {
    match value {
        Value::Object(map) => map.iter().find_map(|(name, value)| within(value, name)),
        Value::Array(items) => items.iter().find_map(|value| within(value, name)),
        Value::Number(number) => {
            let number = number.as_f64()?;
            (!is_in_reason(name, number)).then(|| format!("{name} is {number}"))
        }
        _ => None,
    }
}

fn is_in_reason(name: &str, number: f64) -> bool {
    let is_share = SHARES.iter().any(|begin| name.starts_with(begin))
        || SHARES_AT_END.iter().any(|end| name.ends_with(end))
        || SHARES_BY_NAME.contains(&name);
    let is_some = name.split('_').any(|word| MASSES.contains(&word)) || COUNTS.contains(&name);
    if name.ends_with("_c") {
        return TEMPERATURE_C.contains(&number);
    }
    (!is_share || (-ROUNDING..=1.0 + ROUNDING).contains(&number)) && (!is_some || number >= -ROUNDING)
}

#[cfg(test)]
mod tests {
    use super::*;
    use serde_json::json;

    #[test]
    fn what_is_out_of_reason_is_found_by_name() {
        let wrong = [
            json!({ "floor": { "start_c": 2100.0 } }),
            json!({ "floor_band_c": [200.0, -60.0] }),
            json!([{ "share_in_band": 1.01 }]),
            json!({ "base_share_range": [-0.1, 0.2] }),
            json!({ "holds_fraction": 2 }),
            json!({ "wood": { "kg_piece": -0.5 } }),
            json!({ "baked": -1 }),
        ];
        for answer in wrong {
            assert!(out_of_reason(&answer).is_some(), "{answer}");
        }
        let fine = json!({ "start_c": -18.0, "swing_k": -3.0, "share_in_band": 1.0, "wood_kg": 0.0, "x_m": -1.0, "says": "no" });
        assert_eq!(out_of_reason(&fine), None);
        assert_eq!(temperatures(&json!({ "a": { "floor_c": [1.0, 2.0] }, "b_c": 3.0, "c_c": null, "k": 1.0 })), 3);
    }
}
