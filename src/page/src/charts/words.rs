//! Owns how the pictures write numbers: units, rounding to what a cook can act on, no-break spaces, clock times, small counts in words.

use crate::words::{
    language::{Language, language},
    translate,
};
use hearthload::units::{
    decimal,
    time::{HOUR_S, MINUTE_S},
};

/// In what gas is counted.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Gas {
    /// Kilowatt hours.
    #[default]
    KilowattHours,
    /// Cubic metres of natural gas.
    CubicMetres,
    /// Therms.
    Therms,
}

/// Which units people read.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Units {
    /// Degrees Fahrenheit for Celsius.
    pub fahrenheit: bool,
    /// Pounds for kilograms.
    pub pounds: bool,
    /// Inches for centimetres.
    pub inches: bool,
    /// British thermal units an hour for kilowatts.
    pub btu: bool,
    /// In what gas is counted.
    pub gas: Gas,
    /// am and pm for 24 hours.
    pub twelve_hours: bool,
    /// Decimal comma for the point.
    pub comma: bool,
}

/// Kilograms in a pound (exact by definition, NIST SP 811).
const KG_PER_LB: f64 = 0.453_592_37;
/// Metres in an inch (exact by definition, NIST SP 811).
const M_PER_INCH: f64 = 0.0254;

/// A space at which no line breaks.
pub const NBSP: char = '\u{a0}';

impl Units {
    /// A number with a fixed count of decimals.
    #[must_use]
    pub fn number(self, value: f64, decimals: usize) -> String {
        let text = format!("{value:.decimals$}");
        let zero = text.trim_start_matches('-').chars().all(|sign| sign == '0' || sign == '.');
        let text = if zero { text.trim_start_matches('-').to_owned() } else { text.replace('-', "\u{2212}") };
        if self.comma { text.replace('.', ",") } else { text }
    }

    /// A temperature in the reader's scale, without its unit.
    #[must_use]
    pub fn scale(self, temperature_c: f64) -> f64 {
        if self.fahrenheit { temperature_c * 1.8 + 32.0 } else { temperature_c }
    }

    /// The sign of the scale.
    #[must_use]
    pub const fn degree(self) -> &'static str {
        if self.fahrenheit { "°F" } else { "°C" }
    }

    /// "277 °C".
    #[must_use]
    pub fn degrees(self, temperature_c: f64) -> String {
        format!("{}{NBSP}{}", self.bare_degrees(temperature_c), self.degree())
    }

    /// "277".
    #[must_use]
    pub fn bare_degrees(self, temperature_c: f64) -> String {
        self.number(self.scale(temperature_c), 0)
    }

    /// A difference of temperatures, "23 °C".
    #[must_use]
    pub fn step(self, difference_k: f64) -> String {
        let value = if self.fahrenheit { difference_k * 1.8 } else { difference_k };
        format!("{}{NBSP}{}", self.number(value, 0), self.degree())
    }

    /// A band, "300 to 350 °C".
    #[must_use]
    pub fn band(self, band_c: [f64; 2]) -> String {
        let to = match language() {
            Language::English => "to",
            Language::German => "bis",
        };
        format!("{} {to} {}", self.bare_degrees(band_c[0]), self.degrees(band_c[1]))
    }

    /// A mass without its unit, to a tenth.
    #[must_use]
    pub fn bare_mass(self, mass_kg: f64) -> String {
        self.number(if self.pounds { mass_kg / KG_PER_LB } else { mass_kg }, 1)
    }

    /// The unit of mass.
    #[must_use]
    pub const fn mass_unit(self) -> &'static str {
        if self.pounds { "lb" } else { "kg" }
    }

    /// "1.9 kg".
    #[must_use]
    pub fn mass(self, mass_kg: f64) -> String {
        format!("{}{NBSP}{}", self.bare_mass(mass_kg), self.mass_unit())
    }

    /// "120 cm".
    #[must_use]
    pub fn length(self, length_m: f64) -> String {
        if self.inches {
            format!("{}{NBSP}in", self.number(length_m / M_PER_INCH, 0))
        } else {
            format!("{}{NBSP}cm", self.number(length_m * 100.0, 0))
        }
    }

    /// A clock time from seconds since the day's midnight, "20:45" or "8:45 pm"; past midnight it starts again at 0.
    #[must_use]
    pub fn clock(self, at_s: f64) -> String {
        let minutes = (at_s / MINUTE_S).round().max(0.0) as u64;
        let (hour, minute) = (minutes / 60 % 24, minutes % 60);
        if self.twelve_hours {
            let half = if hour < 12 { "am" } else { "pm" };
            format!("{}:{minute:02}{NBSP}{half}", (hour + 11) % 12 + 1)
        } else {
            format!("{hour}:{minute:02}")
        }
    }

    /// The clock at an axis, where room is short: no am or pm.
    #[must_use]
    pub fn axis_clock(self, at_s: f64) -> String {
        Self { twelve_hours: false, ..self }.clock(if self.twelve_hours {
            (at_s / HOUR_S + 11.0) % 12.0 * HOUR_S + HOUR_S
        } else {
            at_s
        })
    }

    /// Heat of one piece or cover, "81 kJ".
    #[must_use]
    pub fn kilojoules(self, heat_kj: f64) -> String {
        format!("{}{NBSP}kJ", self.number(heat_kj, 0))
    }

    /// Heat of a day, "253 MJ".
    #[must_use]
    pub fn megajoules(self, heat_mj: f64) -> String {
        format!("{}{NBSP}MJ", self.number(heat_mj, 0))
    }

    /// A share, "52 %".
    #[must_use]
    pub fn percent(self, share: f64) -> String {
        format!("{}{NBSP}%", self.number(share * 100.0, 0))
    }

    /// How long is left, "4:35" or "21:00".
    #[must_use]
    pub fn countdown(self, left_s: f64) -> String {
        let seconds = (left_s / 5.0).round().max(0.0) as u64 * 5;
        format!("{}:{:02}", seconds / 60, seconds % 60)
    }
}

/// Seconds since midnight from "HH:MM", also past "24:00".
#[must_use]
pub fn seconds_of(clock: &str) -> Option<f64> {
    let (hours, minutes) = clock.split_once(':')?;
    Some(decimal::read(hours.trim())? * HOUR_S + decimal::read(minutes.trim())? * MINUTE_S)
}

/// A small count in words, "two"; above twelve in digits.
#[must_use]
pub fn count(number: usize) -> String {
    const ENGLISH: [&str; 13] =
        ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve"];
    const GERMAN: [&str; 13] =
        ["keine", "ein", "zwei", "drei", "vier", "fünf", "sechs", "sieben", "acht", "neun", "zehn", "elf", "zwölf"];
    let words = match language() {
        Language::English => ENGLISH,
        Language::German => GERMAN,
    };
    words.get(number).map_or_else(|| number.to_string(), |word| (*word).to_owned())
}

/// A dish's name inside a sentence: its first letter small unless the word has other capitals; in German as it is.
#[must_use]
pub fn inside_sentence(name: &str) -> String {
    if language() == Language::German {
        return name.to_owned();
    }
    let mut signs = name.chars();
    match (signs.next(), signs.clone().next()) {
        (Some(first), Some(second)) if !second.is_ascii_uppercase() => {
            std::iter::once(first.to_ascii_lowercase()).chain(signs).collect()
        }
        _ => name.to_owned(),
    }
}

/// The plural of a dish's name, by the plain English rules: of the noun before "in", "with" or "on" where there is one. In German,
/// where no rule is plain, the name as it is.
#[must_use]
pub fn plural(name: &str) -> String {
    if language() == Language::German {
        return name.to_owned();
    }
    let tail = [" in ", " with ", " on ", " from ", " under "]
        .iter()
        .filter_map(|word| name.find(word))
        .min()
        .unwrap_or(name.len());
    let (noun, rest) = name.split_at(tail);
    let sibilant = ["sh", "ch", "x", "z"].iter().any(|end| noun.ends_with(end));
    let ending = if noun.ends_with('s') {
        ""
    } else if sibilant {
        "es"
    } else {
        "s"
    };
    format!("{noun}{ending}{rest}")
}

/// Whether a dish's name is a plural already: "baked eggs in a skillet".
#[must_use]
pub fn is_plural(name: &str) -> bool {
    language() == Language::English && plural(name) == name
}

/// A sentence's first letter made large.
#[must_use]
pub fn capital(sentence: &str) -> String {
    translate::capital(sentence)
}

/// "a, b and c".
#[must_use]
pub fn list(parts: &[String]) -> String {
    match parts {
        [] => String::new(),
        [only] => only.clone(),
        [most @ .., last] => {
            let and = match language() {
                Language::English => "and",
                Language::German => "und",
            };
            format!("{} {and} {last}", most.join(", "))
        }
    }
}
