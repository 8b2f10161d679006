//! Owns what the heat at the doorway means to the one who stands there: how long bare skin bears it.

use super::words::{duration, number};
use crate::units::time::MINUTE_S;

/// Radiation that may be borne for a whole shift with breaks, kW/m2. API 521 takes 1.58 for those who stay, from memory.
pub const STAYS_KW_M2: f64 = 1.58;
/// From here on bare skin hurts within a minute, kW/m2: the tenability limit of ISO 13571, from memory.
pub const BEARABLE_KW_M2: f64 = 2.5;

/// How long until bare skin hurts, s: 4.2 min over q^1.9, q in kW/m2 (ISO 13571, from memory).
#[must_use]
pub fn hurts_after_s(kw_m2: f64) -> f64 {
    4.2 * MINUTE_S / libm::pow(kw_m2, 1.9)
}

/// How long until it blisters, s: 6.9 min over q^1.56, q in kW/m2 (ISO 13571, second-degree burns, from memory).
#[must_use]
pub fn burns_after_s(kw_m2: f64) -> f64 {
    6.9 * MINUTE_S / libm::pow(kw_m2, 1.56)
}

/// The judgement in words.
#[must_use]
pub fn says(kw_m2: f64) -> String {
    if !kw_m2.is_finite() || kw_m2 <= 0.0 {
        return "nobody notices it".to_owned();
    }
    if kw_m2 <= STAYS_KW_M2 {
        return format!(
            "borne through a shift with breaks (staying is held bearable up to {})",
            number(STAYS_KW_M2, 1)
        );
    }
    let hurts = duration(hurts_after_s(kw_m2));
    if kw_m2 <= BEARABLE_KW_M2 {
        return format!("too much to stay in: bare skin hurts after about {hurts}, so step aside between loads");
    }
    let burns = duration(burns_after_s(kw_m2));
    format!("hard on the cook: bare skin hurts after {hurts} and blisters after {burns}; sleeves, a shield, turns")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn skin_bears_less_of_more() {
        // API 521, from memory: at 4.7 kW/m2 pain within about 16 s, at 9.5 within about 6 s; ISO 13571's law is held to these.
        assert!((hurts_after_s(4.73) - 16.0).abs() < 4.0, "{}", hurts_after_s(4.73));
        assert!((hurts_after_s(9.46) - 6.0).abs() < 3.0, "{}", hurts_after_s(9.46));
        assert!([1.0, 2.0, 5.0, 10.0].into_iter().all(|q| burns_after_s(q) > hurts_after_s(q)));
        assert!(
            says(0.9).contains("through a shift") && says(2.0).contains("step aside") && says(3.5).contains("blisters")
        );
    }
}
