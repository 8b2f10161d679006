//! Owns how numbers are read from a keyboard: decimal comma or point, clock times in many hands. Writing is `report::words`'s.

use hearthload::units::decimal;
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

/// A clock time as it goes into the draft: "17.30", "1730" and "17h30" are written the one way the engine reads.
#[must_use]
pub fn clock(text: &str) -> Option<Value> {
    let text = text.trim();
    if text.is_empty() {
        return None;
    }
    // Only what is written out is put into form: "17:3" is still being typed.
    let parts = match text.split_once([':', '.', 'h', ',']) {
        Some(parts) => Some(parts),
        None if text.is_ascii() && text.len() == 4 => Some(text.split_at(2)),
        None => None,
    };
    let whole = |part: &str| part.parse::<u32>().ok().filter(|_| part.len() <= 2);
    let read = parts.and_then(|(hours, minutes)| Some((whole(hours)?, whole(minutes).filter(|_| minutes.len() == 2)?)));
    Some(read.map_or_else(|| Value::from(text), |(hours, minutes)| Value::from(format!("{hours:02}:{minutes:02}"))))
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
