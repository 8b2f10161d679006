//! Owns clock times as people type them: "HH:MM", counted on past midnight up to "47:59".

use crate::units::time::MINUTE_S;

/// The latest time that can be typed, "47:59", in seconds.
pub const LATEST_S: f64 = (47 * 60 + 59) as f64 * MINUTE_S;

/// Seconds since the midnight that begins the working day, or `None` where it is not "HH:MM".
///
/// ```
/// use hearthload::scenario::clock;
/// assert_eq!(clock::read("25:30"), Some(91_800.0));
/// assert_eq!(clock::read("7 pm"), None);
/// ```
#[must_use]
pub fn read(text: &str) -> Option<f64> {
    let (hours, minutes) = text.split_once(':')?;
    let digits = |part: &str| !part.is_empty() && part.len() <= 2 && part.bytes().all(|b| b.is_ascii_digit());
    if !digits(hours) || !digits(minutes) || minutes.len() != 2 {
        return None;
    }
    let (hours, minutes): (u32, u32) = (hours.parse().ok()?, minutes.parse().ok()?);
    (hours < 48 && minutes < 60).then(|| f64::from(hours * 60 + minutes) * MINUTE_S)
}

/// A time as it is typed, to the minute below.
///
/// ```
/// assert_eq!(hearthload::scenario::clock::write(91_800.0), "25:30");
/// ```
#[must_use]
pub fn write(seconds: f64) -> String {
    let minutes = (seconds / MINUTE_S).floor().max(0.0) as u64;
    format!("{:02}:{:02}", minutes / 60, minutes % 60)
}

/// What somebody who wrote the time another way may have meant: "7pm", "19.30", "19h30", "1930", 19.5, "19".
#[must_use]
pub fn guess(typed: &str) -> Option<String> {
    let lower = typed.trim().trim_matches('"').trim().to_ascii_lowercase();
    let (body, add) = match (lower.strip_suffix("pm"), lower.strip_suffix("am")) {
        (Some(body), _) => (body.trim(), 12),
        (_, Some(body)) => (body.trim(), 0),
        _ => (lower.as_str(), 0),
    };
    let (hours, minutes) = split(body)?;
    let twelve = body.len() < lower.len() && hours == 12;
    let hours = if twelve { add } else { hours + add };
    let minutes = format!("{hours:02}:{minutes:02}");
    read(&minutes).map(write)
}

/// Hours and minutes out of "7:30", "19.30", "19h30", "1930", "19".
fn split(body: &str) -> Option<(u32, u32)> {
    if !body.is_ascii() {
        return None;
    }
    let parts: Vec<&str> = body.split([':', '.', 'h', ' ']).filter(|part| !part.is_empty()).collect();
    match parts.as_slice() {
        [one] if one.len() == 4 => Some((one[..2].parse().ok()?, one[2..].parse().ok()?)),
        [one] if one.len() <= 2 => Some((one.parse().ok()?, 0)),
        // "19.5" is a half hour, "19.30" thirty minutes.
        [hours, tenth] if tenth.len() == 1 && body.contains('.') => {
            Some((hours.parse().ok()?, tenth.parse::<u32>().ok()? * 6))
        }
        [hours, minutes, ..] if hours.len() <= 2 && minutes.len() == 2 => {
            Some((hours.parse().ok()?, minutes.parse().ok()?))
        }
        _ => None,
    }
}
