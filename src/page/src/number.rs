//! Owns how numbers are read from a keyboard: decimal comma or point, clock times in many hands. Writing is `report::words`'s.

use hearthload::{report::words::clock_seconds, units::decimal};
use serde_json::Value;

/// What a person typed, as a number: a comma or a point, spaces as grouping, a typographic minus. Nothing where it is no number.
#[must_use]
pub fn read(typed: &str) -> Option<f64> {
    let bare: String = typed
        .chars()
        .filter(|letter| !letter.is_whitespace())
        .map(|letter| if letter == '\u{2212}' { '-' } else { letter })
        .collect();
    let marks = bare.matches([',', '.']).count();
    let digits = |letter: char| letter.is_ascii_digit();
    if marks > 1
        || !bare.contains(digits)
        || !bare.trim_start_matches('-').chars().all(|letter| digits(letter) || letter == ',' || letter == '.')
    {
        return None;
    }
    decimal::read(&bare.replace(',', "."))
}

/// A count of spoons, cups or pieces: "2", "0,5", "1/2", "1 1/2", "½".
#[must_use]
pub fn amount(typed: &str) -> Option<f64> {
    let text = typed.trim().replace('½', " 1/2").replace('¼', " 1/4").replace('¾', " 3/4").replace('⅓', " 1/3");
    let parts = text.split_whitespace().map(|part| match part.split_once('/') {
        Some((over, under)) => Some(read(over)? / read(under).filter(|under| *under > 0.0)?),
        None => read(part),
    });
    // Nothing typed is no amount; a part that is none makes the whole none.
    let all = parts.collect::<Option<Vec<f64>>>().filter(|all| (1..=2).contains(&all.len()))?;
    Some(all.iter().sum::<f64>()).filter(|amount| *amount >= 0.0)
}

/// What a person typed into a number's field, as it goes into the draft: emptied, a number, or the letters as they are.
#[must_use]
pub fn typed(text: &str) -> Option<Value> {
    let text = text.trim();
    if text.is_empty() {
        return None;
    }
    match read(text) {
        // Whole numbers stay whole: "2" is kept as 2, not 2.0.
        Some(number) if number.fract() == 0.0 && number.abs() < 9e15 => Some(Value::from(number as i64)),
        Some(number) => Some(Value::from(number)),
        None => Some(Value::from(text)),
    }
}

/// A clock time as it goes into the draft: "17.30", "1730", "17h30" and "5:30 pm" are written the one way the engine reads. "+1"
/// behind it is the night after, as the field shows it to those who read am and pm.
#[must_use]
pub fn clock(text: &str) -> Option<Value> {
    let text = text.trim();
    if text.is_empty() {
        return None;
    }
    Some(written(text).map_or_else(|| Value::from(text), Value::from))
}

/// The hour until which a time that lies before the first order is meant for the night after it.
const SMALL_HOURS: &str = "06:00";

/// As [`clock`], for a time that cannot lie before the first order: half past one is then half past one in the night.
#[must_use]
pub fn clock_after(text: &str, first_order: &str) -> Option<Value> {
    let value = clock(text)?;
    let night = |time: &str| (time < first_order && time < SMALL_HOURS).then(|| clock(&format!("{time}+1"))).flatten();
    let time = value.as_str().filter(|time| clock_seconds(time).is_some() && clock_seconds(first_order).is_some());
    Some(time.and_then(night).unwrap_or(value))
}

/// The way the engine reads it; nothing where it is not written out: "17:3" is still being typed.
fn written(text: &str) -> Option<String> {
    let low = text.to_ascii_lowercase().replace(['\u{a0}', ' '], "");
    let (low, days) = low.strip_suffix("+1").map_or((low.as_str(), 0), |low| (low, 24));
    let half = [("am", 0), ("a.m.", 0), ("pm", 12), ("p.m.", 12)];
    let half = half.into_iter().find_map(|(name, more)| Some((low.strip_suffix(name)?, more)));
    let (bare, half) = half.map_or((low, None), |(bare, more)| (bare, Some(more)));
    let parts = match bare.split_once([':', '.', 'h', ',']) {
        Some(parts) => parts,
        None if bare.is_ascii() && (bare.len() == 4 || bare.len() == 3 && half.is_some()) => {
            bare.split_at(bare.len() - 2)
        }
        None if half.is_some() => (bare, "00"),
        None => return None,
    };
    let whole = |part: &str| part.parse::<u32>().ok().filter(|_| part.len() <= 2);
    let (hours, minutes) = (whole(parts.0)?, whole(parts.1).filter(|_| parts.1.len() == 2)?);
    let hours = match half {
        Some(more) if (1..=12).contains(&hours) => hours % 12 + more,
        Some(_) => return None,
        None => hours,
    };
    Some(format!("{:02}:{minutes:02}", hours + days))
}

/// A value of the draft as it stands in its field.
#[must_use]
pub fn shown(value: &Value) -> String {
    match value {
        Value::String(text) => text.clone(),
        Value::Null => String::new(),
        other => {
            let text = other.to_string();
            text.strip_suffix(".0").map(str::to_owned).unwrap_or(text)
        }
    }
}

/// A unit as people see it.
#[must_use]
pub fn unit(name: &str) -> &str {
    match name {
        "degC" => "°C",
        "HH:MM" => "",
        other => other,
    }
}
