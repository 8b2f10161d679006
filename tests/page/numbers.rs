//! Numbers are read as people type them, and every field keeps what was typed and says what is wrong with it.

use hearthload::scenario::{
    self, Field,
    fields::{Kind, fields},
};
use hearthload_page::{
    charts::Units,
    number::{amount, clock, clock_after, read, shown, typed},
    state::{Action, Computing, State, draft, kept::Kept},
    units,
};
use serde_json::{Value, json};
use std::rc::Rc;
use yew::Reducible;

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

/// Every field of the form that takes a number, with the path of one.
fn numeric() -> impl Iterator<Item = (&'static Field, [f64; 2], String)> {
    fields().filter(|row| row.path != "hearthload").filter_map(|row| match row.kind {
        Kind::Number { min, max, .. } => Some((row, [min, max], row.path.replace("[]", "[0]"))),
        _ => None,
    })
}

/// What the page makes of letters typed into a field.
fn typed_into(page: &Rc<State>, path: &str, text: &str) -> Rc<State> {
    page.clone().reduce(Action::Set(path.to_owned(), typed(text)))
}

fn page() -> Rc<State> {
    let demo: Value = serde_json::from_str(include_str!("../../demo-data/assist.json")).unwrap();
    Rc::new(State::new(Kept::with(demo)))
}

#[test]
fn every_field_keeps_what_was_typed_and_says_what_is_wrong_with_it() {
    let page = page();
    assert!(numeric().count() > 70);
    for (row, [min, max], path) in numeric() {
        let beyond = [min - 1.0, max + 1.0, min.next_down(), max.next_up(), -1e15, 1e15];
        let within = [min, max].map(|number| (format!("{number}"), false));
        let without = beyond.map(|number| (format!("{number}"), !(min..=max).contains(&number)));
        let long = "9".repeat(400);
        let none =
            ["NaN", "inf", "1e308", "12 F", "\u{663}", "½", "--1", "soon", &long].map(|text| (text.to_owned(), true));
        let other = ["0", "-0", "-1", "−2,5", "0,000001"].map(|text| (text.to_owned(), false));
        for (text, is_wrong) in within.into_iter().chain(without).chain(none).chain(other) {
            let next = typed_into(&page, &path, &text);
            let value = draft::get(&next.doc, &path);
            assert_eq!(value, typed(&text).as_ref(), "{path}: {text}");
            assert!(value.is_some_and(|value| !value.is_null()), "{path}: {text}");
            assert_eq!(*next.kept.open_doc(), *next.doc, "{path}: {text}");
            // Judged by the engine, word for word, at the field itself.
            let problems = scenario::resolve(&next.doc).err().unwrap_or_default();
            assert_eq!(*next.problems, problems, "{path}: {text}");
            assert_eq!(next.computing == Computing::Mend, !problems.is_empty(), "{path}: {text}");
            if is_wrong {
                let says = next.problem_at(&path).unwrap_or_else(|| panic!("{path} takes {text}"));
                assert!(says.contains(row.label) || says.contains("You typed"), "{path}: {says}");
            }
        }
    }
}

#[test]
fn every_field_in_celsius_asks_whether_fahrenheit_was_meant() {
    let page = page();
    let mut asked = 0;
    for (row, [min, max], path) in numeric().filter(|(row, ..)| row.unit() == "degC") {
        let celsius = (min + 0.9 * (max - min)).round();
        let fahrenheit = celsius * 1.8 + 32.0;
        if fahrenheit > max {
            asked += 1;
            let next = typed_into(&page, &path, &fahrenheit.to_string());
            let says = next.problem_at(&path).unwrap();
            assert!(
                says.contains(&format!("Did you mean degF? {fahrenheit} degF is {celsius} degC.")),
                "{}: {says}",
                row.path
            );
        }
    }
    assert!(asked > 8, "{asked}");
}

#[test]
fn in_other_units_nothing_typed_turns_into_nothing() {
    units::choose(units::read(&json!({ "fahrenheit": true, "pounds": true, "inches": true, "btu": true })));
    for (row, ..) in numeric() {
        for text in ["0", "-1", "1,5", "-460", "soon", &"9".repeat(305), &"9".repeat(400)] {
            let meant = units::meant(typed(text), row.unit());
            assert!(meant.is_some_and(|value| !value.is_null()), "{}: {text}", row.path);
        }
    }
    units::choose(Units::default());
}

#[test]
fn clock_times_with_am_and_pm() {
    for (text, time) in [
        ("5:30 pm", "17:30"),
        ("5:30pm", "17:30"),
        ("5.30 PM", "17:30"),
        ("530 pm", "17:30"),
        ("5 pm", "17:00"),
        ("12:15 am", "00:15"),
        ("12 p.m.", "12:00"),
        ("1:30\u{a0}am +1", "25:30"),
    ] {
        assert_eq!(clock(text), Some(json!(time)), "{text}");
    }
    for text in ["13:00 pm", "0:30 am", "pm", "5:3 pm"] {
        assert_eq!(clock(text), Some(json!(text)), "{text}");
    }
}

#[test]
fn the_small_hours_behind_an_evening_are_the_night_after_it() {
    assert_eq!(clock_after("00:30", "18:00"), Some(json!("24:30")));
    assert_eq!(clock_after("1:30 am", "18:00"), Some(json!("25:30")));
    // In the afternoon it is a slip to be told of, and beside a breakfast no night is meant.
    assert_eq!(clock_after("17:00", "18:00"), Some(json!("17:00")));
    assert_eq!(clock_after("05:30", "05:00"), Some(json!("05:30")));
    assert_eq!(clock_after("soon", "18:00"), Some(json!("soon")));
}

#[test]
fn spoons_and_cups_in_halves_and_quarters() {
    for (text, count) in [("2", 2.0), ("0,5", 0.5), ("1/2", 0.5), ("1 1/2", 1.5), ("½", 0.5), ("2½", 2.5), ("1¾", 1.75)]
    {
        assert_eq!(amount(text), Some(count), "{text}");
    }
    for text in ["", "a", "1/0", "1 2 3", "-1"] {
        assert_eq!(amount(text), None, "{text}");
    }
}

#[test]
fn a_number_is_taken_with_its_unit() {
    let width = Field::clone(fields().find(|row| row.path == "oven.width_cm").expect("the floor's width"));
    let floor = Field::clone(fields().find(|row| row.path == "menu[].known_bake.floor_c").expect("a known floor"));
    let none = Units::default();
    let reader = Units { inches: true, fahrenheit: true, ..none };
    for (units, row, text, meant) in [
        (none, &width, "120cm", 120.0),
        (none, &width, "120 CM", 120.0),
        (none, &width, "1,2 m", 120.0),
        (none, &width, "48 in", 121.92),
        (none, &floor, "330°", 330.0),
        (none, &floor, "330 °C", 330.0),
        (none, &floor, "626 °F", 330.0),
        (reader, &width, "50in", 127.0),
        (reader, &width, "120 cm", 120.0),
        (reader, &floor, "626°F", 330.0),
        (reader, &floor, "626", 330.0),
    ] {
        units::choose(units);
        assert_eq!(units::typed_into(row, text).and_then(|value| value.as_f64()), Some(meant), "{text}");
    }
    units::choose(none);
    assert_eq!(units::typed_into(&width, "120 hands"), Some(json!("120 hands")), "what is no number stays as typed");
    assert_eq!(units::typed_into(&width, " "), None);
}
