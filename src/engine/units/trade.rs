//! Owns the units of the trade that are not SI: Fahrenheit, pounds, inches, Btu, kilowatt hours, therms and gas by volume.
//!
//! Each constant is "SI for one of it", so a reading times the constant is SI and SI over the constant is the reading.

use super::ZERO_C_K;

/// One pound, kg (international yard and pound agreement, 1959: exact).
pub const POUND_KG: f64 = 0.453_592_37;
/// One ounce, kg (a sixteenth of a pound: exact).
pub const OUNCE_KG: f64 = POUND_KG / 16.0;
/// One inch, m (1959: exact).
pub const INCH_M: f64 = 0.0254;
/// One foot, m (twelve inches: exact).
pub const FOOT_M: f64 = 12.0 * INCH_M;
/// One centimetre, m.
pub const CENTIMETRE_M: f64 = 0.01;
/// One British thermal unit, J (ISO 31-4, International Table: 1055.055 852 62 J exactly).
pub const BTU_J: f64 = 1_055.055_852_62;
/// One Btu an hour, W.
pub const BTU_PER_HOUR_W: f64 = BTU_J / 3600.0;
/// One therm, J (100 000 Btu, International Table).
pub const THERM_J: f64 = 1e5 * BTU_J;
/// One kilowatt hour, J (exact).
pub const KILOWATT_HOUR_J: f64 = 3.6e6;
/// One megajoule, J.
pub const MEGAJOULE_J: f64 = 1e6;
/// One kilowatt, W.
pub const KILOWATT_W: f64 = 1000.0;
/// Net heat of one cubic metre of methane, J: ideal gas, 15 degC and 101.325 kPa (`iso_6976`; pipeline gas 35 to 38 MJ).
pub const METHANE_NET_J_M3: f64 = 33.947_803_76e6;
/// Net heat of one cubic metre of propane gas, J, likewise.
pub const PROPANE_NET_J_M3: f64 = 86.419_319_75e6;
/// Gross heat of one cubic metre of methane, J: the basis gas is billed on.
pub const METHANE_GROSS_J_M3: f64 = 37.704_227_7e6;
/// Gross heat of one cubic metre of propane gas, J.
pub const PROPANE_GROSS_J_M3: f64 = 93.935_973_95e6;
/// Net heat of one kilogram of propane, J (`iso_6976`).
pub const PROPANE_NET_J_KG: f64 = 46.339_523_06e6;

/// Degrees Fahrenheit for one kelvin.
const FAHRENHEIT_PER_K: f64 = 1.8;
/// Degrees Fahrenheit at 0 degC.
const FAHRENHEIT_AT_ZERO_C: f64 = 32.0;

/// Degrees Fahrenheit of a temperature in degC.
#[must_use]
pub fn fahrenheit(celsius: f64) -> f64 {
    FAHRENHEIT_AT_ZERO_C + FAHRENHEIT_PER_K * celsius
}

/// Kelvin of a temperature in degC.
#[must_use]
pub fn kelvin(celsius: f64) -> f64 {
    celsius + ZERO_C_K
}

/// Degrees Celsius of a temperature in K.
#[must_use]
pub fn celsius(kelvin: f64) -> f64 {
    kelvin - ZERO_C_K
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn printed_equivalents() {
        // NIST Special Publication 811, appendix B.8: the factors as printed there.
        for (ours, printed) in [
            (POUND_KG, 4.535_924e-1),
            (OUNCE_KG, 2.834_952e-2),
            (INCH_M, 2.54e-2),
            (FOOT_M, 3.048e-1),
            (BTU_J, 1.055_056e3),
            (BTU_PER_HOUR_W, 2.930_711e-1),
            (THERM_J, 1.055_06e8),
            (KILOWATT_HOUR_J, 3.6e6),
        ] {
            assert!((ours / printed - 1.0).abs() < 1e-5, "{ours} against {printed}");
        }
    }

    #[test]
    fn temperatures_there_and_back() {
        assert!((fahrenheit(100.0) - 212.0).abs() < 1e-12);
        assert!((fahrenheit(-40.0) + 40.0).abs() < 1e-12);
        assert!((celsius(kelvin(330.0)) - 330.0).abs() < 1e-12);
        assert!((super::super::typed::celsius_of_fahrenheit(fahrenheit(330.0)) - 330.0).abs() < 1e-12);
    }

    #[test]
    fn a_cubic_metre_of_methane_is_nine_and_a_half_kilowatt_hours() {
        // ISO 6976:2016 molar values over the ideal molar volume at 15 degC: 33.95 MJ/m3 net.
        assert!((METHANE_NET_J_M3 / KILOWATT_HOUR_J - 9.43).abs() < 0.01);
        assert!((PROPANE_NET_J_KG / KILOWATT_HOUR_J - 12.87).abs() < 0.01);
    }
}
