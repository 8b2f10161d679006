//! Numbers are read as people type them.

use hearthload_page::number::{clock, read, shown, typed};
use serde_json::json;

#[test]
fn commas_points_spaces_and_signs() {
    for (text, number) in [
        ("4,5", 4.5),
        ("4.5", 4.5),
        (" 1 200 ", 1200.0),
        ("1\u{202f}200,5", 1200.5),
        ("-3", -3.0),
        ("\u{2212}3", -3.0),
        (".5", 0.5),
    ] {
        assert_eq!(read(text), Some(number), "{text}");
    }
    for text in ["", "-", ".", "1.2.3", "1,200.5", "4 cm", "1e5", "inf", "NaN", "--3", "3-"] {
        assert_eq!(read(text), None, "{text}");
    }
}

#[test]
fn what_is_no_number_stays_as_typed() {
    assert_eq!(typed("12"), Some(json!(12)));
    assert_eq!(typed("12,50"), Some(json!(12.5)));
    assert_eq!(typed("12 cm"), Some(json!("12 cm")));
    assert_eq!(typed("  "), None);
    assert_eq!(shown(&json!(12.5)), "12.5");
    assert_eq!(shown(&json!(12.0)), "12");
    assert_eq!(shown(&json!("12 cm")), "12 cm");
}

#[test]
fn clock_times_in_many_hands() {
    for (text, time) in
        [("17:30", "17:30"), ("17.30", "17:30"), ("1730", "17:30"), ("7h05", "07:05"), ("25:30", "25:30")]
    {
        assert_eq!(clock(text), Some(json!(time)), "{text}");
    }
    // Still being typed, or no time: left as it is.
    for text in ["1", "17", "173", "17:3", "ä:30", "half past"] {
        assert_eq!(clock(text), Some(json!(text)), "{text}");
    }
}
