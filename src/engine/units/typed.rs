//! Owns the units people type in, their names, and the one conversion of each to SI.

/// A unit a field is typed in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// A bare number.
    None,
    /// Centimetres.
    Cm,
    /// Degrees Celsius (kept as degrees Celsius inside).
    DegC,
    /// A difference of temperatures.
    Kelvin,
    /// Hundredths.
    Percent,
    /// Seconds.
    Seconds,
    /// Minutes.
    Minutes,
    /// Hours.
    Hours,
    /// Kilograms.
    Kg,
    /// Grams.
    Grams,
    /// Grams a second.
    GramsPerSecond,
    /// Kilowatts.
    Kw,
    /// Pieces of a dish or of wood.
    Pieces,
    /// Guests served.
    Covers,
    /// Days in a week.
    Days,
    /// The kitchen's own money.
    Money,
    /// Money for a kilogram.
    MoneyPerKg,
    /// Money for a kilowatt hour.
    MoneyPerKwh,
}

impl Unit {
    /// Its name, as messages, schema and form write it; empty for a bare number.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::None => "",
            Self::Cm => "cm",
            Self::DegC => "degC",
            Self::Kelvin => "K",
            Self::Percent => "%",
            Self::Seconds => "s",
            Self::Minutes => "min",
            Self::Hours => "h",
            Self::Kg => "kg",
            Self::Grams => "g",
            Self::GramsPerSecond => "g/s",
            Self::Kw => "kW",
            Self::Pieces => "pieces",
            Self::Covers => "covers",
            Self::Days => "days",
            Self::Money => "money",
            Self::MoneyPerKg => "money/kg",
            Self::MoneyPerKwh => "money/kWh",
        }
    }

    /// The typed number in SI: m, s, kg, kg/s, W, shares of one; temperatures stay in degC.
    ///
    /// ```
    /// use hearthload::units::typed::Unit;
    /// assert_eq!(Unit::Cm.to_si(120.0), 1.2);
    /// assert_eq!(Unit::Minutes.to_si(3.5), 210.0);
    /// ```
    #[must_use]
    pub fn to_si(self, typed: f64) -> f64 {
        match self {
            Self::Cm | Self::Percent => typed / 100.0,
            Self::Minutes => typed * 60.0,
            Self::Hours => typed * 3600.0,
            Self::Grams | Self::GramsPerSecond => typed / 1000.0,
            Self::Kw => typed * 1000.0,
            _ => typed,
        }
    }
}

/// Degrees Celsius of a Fahrenheit reading.
///
/// ```
/// assert_eq!(hearthload::units::typed::celsius_of_fahrenheit(212.0), 100.0);
/// ```
#[must_use]
pub fn celsius_of_fahrenheit(fahrenheit: f64) -> f64 {
    (fahrenheit - 32.0) / 1.8
}
