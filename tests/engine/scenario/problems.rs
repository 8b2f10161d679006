//! What single fields get wrong: which field, what was typed, what is allowed, in which unit, and a good guess.

use crate::{least, put, with};
use hearthload::scenario::{self, Problem};
use serde_json::{Value, json};

fn problems(draft: &Value) -> Vec<Problem> {
    scenario::resolve(draft).expect_err("a draft with problems")
}

fn only(draft: &Value) -> Problem {
    let mut found = problems(draft);
    assert_eq!(found.len(), 1, "{found:#?}");
    found.remove(0)
}

#[test]
fn a_doorway_typed_in_the_wrong_place_of_the_point() {
    let problem = only(&with("/oven/door_height_cm", json!(4)));
    assert_eq!(problem.says, "You typed 4 cm. A doorway is 10 to 60 cm high. Did you mean 40?");
    assert_eq!((problem.field.as_str(), problem.unit.as_str()), ("oven.door_height_cm", "cm"));
    assert_eq!((problem.given.as_str(), problem.allowed.as_str()), ("4", "10 to 60"));
}

#[test]
fn fahrenheit_is_asked_about() {
    for (pointer, typed, celsius) in [
        ("/menu/0/known_bake/floor_c", 626, 330),
        ("/oven/room_c", 75, 24),
        ("/menu/0/end_c", 203, 95),
        ("/start/floor_c", 500, 260),
    ] {
        let problem = only(&with(pointer, json!(typed)));
        let guess = format!("Did you mean degF? {typed} degF is {celsius} degC.");
        assert!(problem.says.contains(&guess), "{}", problem.says);
    }
}

#[test]
fn shares_typed_for_percentages_and_grams_for_kilograms() {
    let share = only(&with("/oven/bed_share_percent", json!(0.2)));
    assert!(share.says.ends_with("Did you mean 20?"), "{}", share.says);
    let pan = only(&with("/menu/0/carrier", json!({"material": "cast_iron", "mass_kg": 2300})));
    assert!(pan.says.ends_with("Did you mean 2.3?"), "{}", pan.says);
}

#[test]
fn whole_numbers_get_whole_guesses() {
    let hands = only(&with("/service/hands", json!(25))).says;
    assert!(!hands.contains("Did you mean"), "{hands}");
    let hands = only(&with("/service/hands", json!(20))).says;
    assert!(hands.ends_with("Did you mean 2?"), "{hands}");
    let nought = only(&with("/oven/width_cm", json!(0))).says;
    assert!(!nought.contains("Did you mean"), "{nought}");
}

#[test]
fn all_problems_come_at_once() {
    let mut draft = with("/oven/door_height_cm", json!(4));
    put(&mut draft, "/oven/widht_cm", json!(100));
    put(&mut draft, "/menu/0/known_bake/minutes", json!("three"));
    put(&mut draft, "/wood/species", json!("oakk"));
    draft["service"].as_object_mut().expect("a group").remove("covers");
    let fields: Vec<String> = problems(&draft).into_iter().map(|problem| problem.field).collect();
    for field in
        ["oven.door_height_cm", "oven.widht_cm", "menu[0].known_bake.minutes", "wood.species", "service.covers"]
    {
        assert!(fields.iter().any(|found| found == field), "{field} in {fields:?}");
    }
    assert_eq!(fields.len(), 5, "{fields:?}");
}

#[test]
fn unknown_names_get_the_nearest_known_one() {
    for (pointer, nearest) in [
        ("/oven/widht_cm", "width_cm"),
        ("/oven/dome_rise", "dome_rise_cm"),
        ("/servise", "service"),
        ("/menu/0/known_bake/minuets", "minutes"),
        ("/room_c", "oven.room_c"),
    ] {
        let says = only(&with(pointer, json!(1))).says;
        assert!(says.contains(&format!("Did you mean \"{nearest}\"?")), "{says}");
    }
    for (pointer, typed, nearest) in [
        ("/wood/species", "Oak", "oak"),
        ("/menu/0/ingredients/0/food", "piza dough", "pizza_dough"),
        ("/oven/shape", "rectangel", "rectangle"),
    ] {
        let says = only(&with(pointer, json!(typed))).says;
        assert!(says.contains(&format!("Did you mean \"{nearest}\"?")), "{says}");
    }
    let far = only(&with("/oven/colour_of_the_tiles", json!("green"))).says;
    assert!(!far.contains("Did you mean"), "{far}");
}

#[test]
fn the_wrong_sort_of_value_is_told_with_a_hint() {
    for (pointer, typed, hint) in [
        ("/oven/width_cm", json!("120"), "Take the quotes away: 120."),
        ("/oven/width_cm", json!("120,5"), "Did you mean 120.5, without quotes and with a point?"),
        ("/oven/width_cm", json!("120 cm"), "A number stands alone, without letters or quotes."),
        ("/service/start", json!("6 pm"), "Did you mean \"18:00\"?"),
        ("/service/start", json!(17.5), "Did you mean \"17:30\"?"),
        ("/service/start", json!("17h45"), "Did you mean \"17:45\"?"),
        ("/menu/0/name", json!(12), "Put it in quotes."),
        ("/feeding/phases", json!({"from": "16:00"}), "Put it in square brackets."),
        ("/oven/width_cm", json!(true), "needs 50 to 300 cm."),
        ("/oven", json!([1, 2]), "needs fields in braces"),
        ("/service/hands", json!(1.5), "a whole number, 1 to 12"),
    ] {
        let found = problems(&with(pointer, typed));
        assert!(found.iter().any(|problem| problem.says.contains(hint)), "{hint}: {found:#?}");
    }
}

#[test]
fn what_only_the_kitchen_knows_is_asked_for() {
    let found = problems(&json!({"hearthload": 1, "menu": [{}]}));
    let fields: Vec<&str> = found.iter().map(|problem| problem.field.as_str()).collect();
    for field in [
        "oven.width_cm",
        "service.start",
        "service.end",
        "service.covers",
        "menu[0].name",
        "menu[0].ingredients",
        "menu[0].footprint.diameter_cm",
        "menu[0].known_bake.minutes",
        "menu[0].known_bake.floor_c",
    ] {
        assert!(fields.contains(&field), "{field} in {fields:?}");
    }
    assert_eq!(fields.len(), 9, "{fields:?}");
}

#[test]
fn a_file_that_is_not_ours_or_not_json_or_too_new() {
    let one = |text: &str| {
        let mut found = scenario::read(text).expect_err(text);
        assert_eq!(found.len(), 1, "{found:#?}");
        found.remove(0).says
    };
    assert!(one("{}").contains("\"hearthload\" is missing"));
    assert!(one("[1, 2]").contains("begins with a brace"));
    assert!(one(r#"{"hearthload": 2, "anything": 1}"#).contains("written for format 2"));
    let broken = one("{\n  \"hearthload\": 1,\n  \"name\": \"x\" \"oven\"\n}");
    assert!(broken.contains("line 3, column 15"), "{broken}");
    assert!(one(r#"{"hearthload": 1e999}"#).contains("larger than any computer holds"));
    assert!(one("<html>hello</html>").contains("line 1"));
    assert!(one("").contains("not JSON"));
    assert!(one(&"[".repeat(100_000)).contains("recursion limit"));
    assert!(one(&" ".repeat(scenario::LARGEST_BYTES + 1)).contains("at most"));
}

#[test]
fn a_field_that_stands_twice_is_asked_about() {
    let text = least().to_string().replacen("\"width_cm\":120", "\"width_cm\":120,\"width_cm\":140", 1);
    let found = scenario::read(&text).expect_err("two widths");
    assert_eq!(found.len(), 1, "{found:#?}");
    assert!(found[0].field == "oven.width_cm" && found[0].says.contains("stands twice"), "{found:#?}");
    let text = least().to_string().replacen("\"grams\":60", "\"grams\":60,\"grams\":70", 1);
    let found = scenario::read(&text).expect_err("two weights");
    assert_eq!(found[0].field, "menu[0].ingredients[1].grams");
}

#[test]
fn heaps_of_problems_are_cut() {
    let keys: String = (0..40_000).map(|n| format!(",\"key_{n}\":{n}")).collect();
    let text = format!("{{\"hearthload\":1{keys}}}");
    let found = scenario::read(&text).expect_err("unknown fields");
    assert!(found.len() <= 201, "{}", found.len());
    assert!(found.last().is_some_and(|last| last.says.contains("more problems")));
}
