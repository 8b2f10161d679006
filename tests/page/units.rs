//! Units at the edge: what is read and typed in others comes back as the scenario's own.

use hearthload_page::charts::{Units, words::Gas};
use hearthload_page::units::{choose, meant, name, read, said, shown, write};
use serde_json::json;

fn us() -> Units {
    Units {
        fahrenheit: true,
        pounds: true,
        inches: true,
        btu: true,
        gas: Gas::Therms,
        twelve_hours: true,
        comma: false,
    }
}

fn plain(text: &str) -> String {
    text.replace('\u{a0}', " ")
}

#[test]
fn sentences_are_put_into_the_readers_units() {
    choose(us());
    // 300 degC is 572 degF, a step of 20 K one of 36 degF (NIST SP 811); 10 kg are 22.0 lb; 9 kW are 30 700 Btu/h.
    let says = said("From 20:05 the floor is 300\u{a0}°C, 20\u{a0}K under; 10.0\u{a0}kg, 9\u{a0}kW, a 30\u{a0}cm tin.");
    assert_eq!(plain(&says), "From 8:05 pm the floor is 572 °F, 36 °F under; 22.0 lb, 30700 Btu/h, a 11.8 in tin.");
    assert_eq!(
        plain(&said("300 to 350\u{a0}°C, 1.2\u{a0}kW/m² and 84 covers")),
        "572 to 662 °F, 1.2 kW/m² and 84 covers"
    );
    choose(Units { comma: true, ..Units::default() });
    assert_eq!(plain(&said("1.9\u{a0}kg at 20:45")), "1,9 kg at 20:45");
    choose(Units::default());
    assert_eq!(said("300\u{a0}°C"), "300\u{a0}°C");
}

#[test]
fn fields_are_typed_in_the_readers_units_and_kept_in_the_scenarios() {
    choose(us());
    assert_eq!((shown("300", "degC").as_str(), name("degC")), ("572", "°F"));
    assert_eq!(meant(Some(json!(572)), "degC"), Some(json!(300.0)));
    assert_eq!(shown("120", "cm"), "47.24");
    let back = meant(Some(json!(47.24)), "cm").and_then(|value| value.as_f64()).unwrap();
    assert!((back - 120.0).abs() < 0.02, "{back}");
    assert_eq!(meant(Some(json!("soon")), "cm"), Some(json!("soon")));
    assert_eq!(meant(None, "cm"), None);
    assert_eq!(shown("45", "s"), "45");
    choose(Units::default());
}

#[test]
fn units_are_remembered() {
    assert_eq!(read(&write(us())), us());
    assert_eq!(read(&json!({ "fahrenheit": "yes" })), Units::default());
}
