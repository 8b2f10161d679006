//! Owns the reading of a plain decimal number, "-0.25": one way for tables and for what people type. It is the reader that JSON
//! brings along; the standard library's own would add 14 kB of tables to the page's program.

/// The number a text is, exactly rounded; nothing where it is none. Signs, leading noughts and a bare point are taken as people
/// write them: "+05" is 5, ".5" is a half.
#[must_use]
pub fn read(text: &str) -> Option<f64> {
    let (minus, digits) = match text.strip_prefix('-') {
        Some(rest) => ("-", rest),
        None => ("", text.strip_prefix('+').unwrap_or(text)),
    };
    let (mantissa, exponent) = digits.split_once(['e', 'E']).map_or((digits, "0"), |(m, e)| (m, e));
    let (whole, part) = mantissa.split_once('.').unwrap_or((mantissa, ""));
    let all_digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
    if whole.len() + part.len() == 0 || !all_digits(whole) || !all_digits(part) {
        return None;
    }
    let whole = match whole.trim_start_matches('0') {
        "" => "0",
        some => some,
    };
    serde_json::from_str(&format!("{minus}{whole}.{part}0e{exponent}")).ok()
}

#[cfg(test)]
mod tests {
    use super::read;

    #[test]
    fn numbers_are_read_as_the_standard_library_reads_them() {
        for text in [
            "0",
            "-0",
            "12",
            "007",
            "-4.5",
            "0.1",
            ".5",
            "5.",
            "+2",
            "1e-3",
            "1.25E2",
            "9007199254740993",
            "0.30000000000000004",
        ] {
            assert_eq!(read(text).map(f64::to_bits), text.parse::<f64>().ok().map(f64::to_bits), "{text}");
        }
        for text in ["", "-", ".", "1.2.3", "1,5", "12 cm", "nan", "inf", "0x1", "1e", "--1"] {
            assert_eq!(read(text), None, "{text}");
        }
    }
}
