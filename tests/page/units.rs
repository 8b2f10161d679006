//! Units at the edge: what is read and typed in others comes back as the scenario's own.

use hearthload_page::charts::{Units, words::Gas};
use hearthload_page::units::{choose, clock_shown, meant, name, read, said, shown, write};
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
        "572 to 662 °F, 380 Btu/h·ft² and 84 covers"
    );
    choose(Units { comma: true, ..Units::default() });
    assert_eq!(plain(&said("1.9\u{a0}kg at 20:45")), "1,9 kg at 20:45");
    // The number of a rule is its name.
    assert_eq!(said("(NYC FC 609.5 among them); 2.5 more"), "(NYC FC 609.5 among them); 2,5 more");
    choose(Units::default());
    assert_eq!(said("300\u{a0}°C"), "300\u{a0}°C");
    // A step too is read off a thermometer.
    assert_eq!(plain(&said("Within 5\u{a0}K: go on at 0.8\u{a0}W/(m\u{a0}K).")), "Within 5 °C: go on at 0.8 W/(m K).");
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
fn rates_lengths_prices_and_clocks_follow_too() {
    choose(us());
    // 3 kg/h are 6.6 lb/h; 60 g 2.1 oz; 0.6 m 2.0 ft; a hood's kg/s as well; m³ of stacked wood stay.
    let says = said("3.0\u{a0}kg/h, 60\u{a0}g, 0.6\u{a0}m, 0.100\u{a0}kg/s, 2.5\u{a0}m³");
    assert_eq!(plain(&says), "6.6 lb/h, 2.1 oz, 2.0 ft, 0.220 lb/s, 2.5 m³");
    // A price by the kilogram is 0.4536 of it by the pound; by the therm it is 29.31 times that of a kilowatt hour.
    assert_eq!((shown("1", "money/kg").as_str(), name("money/kg")), ("0.454", "money/lb"));
    assert_eq!((shown("0.1", "money/kWh").as_str(), name("money/kWh")), ("2.931", "money/therm"));
    assert_eq!(
        (plain(&clock_shown("18:05")).as_str(), plain(&clock_shown("25:30")).as_str()),
        ("6:05 pm", "1:30 am +1")
    );
    assert_eq!(clock_shown("soon"), "soon");
    choose(Units::default());
    assert_eq!(clock_shown("25:30"), "25:30");
}

#[test]
fn units_are_remembered() {
    assert_eq!(read(&write(us())), us());
    assert_eq!(read(&json!({ "fahrenheit": "yes" })), Units::default());
}
