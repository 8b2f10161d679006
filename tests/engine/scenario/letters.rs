//! Letters that cannot be seen or turn others about are refused in names, named in the sentence, and never said again as they are.

use crate::{dish, with};
use hearthload::scenario::{self, letters};
use serde_json::json;

/// One of each sort: an override of direction, an isolate, a control that steers terminals, a line separator, a noncharacter.
const MISLEADING: [char; 7] = ['\u{202e}', '\u{2067}', '\u{1b}', '\u{0}', '\u{2028}', '\u{feff}', '\u{1ffff}'];

#[test]
fn names_with_letters_that_mislead_are_refused_with_the_letters_name() {
    for letter in MISLEADING {
        let name = format!("Leek{letter}round");
        for (pointer, field) in [("/name", "name"), ("/menu/0/name", "menu[0].name"), ("/note", "note")] {
            let found = scenario::resolve(&with(pointer, json!(name))).expect_err(field);
            let named = letters::name(letter);
            assert!(found.len() == 1 && found[0].field == field && found[0].says.contains(&named), "{found:?}");
            assert!(!found[0].says.contains(letter) && !found[0].given.contains(letter), "{found:?}");
        }
    }
}

#[test]
fn every_sentence_is_free_of_them_wherever_they_were_typed() {
    for letter in MISLEADING {
        let odd = format!("a{letter}b");
        let places = ["/oven/shape", "/oven/width_cm", "/service/start", "/wood/species", "/menu/0/ingredients/0/food"];
        for pointer in places.map(str::to_owned).into_iter().chain([format!("/oven/{odd}"), format!("/{odd}")]) {
            for problem in scenario::resolve(&with(&pointer, json!(odd))).expect_err("an odd value") {
                for told in [&problem.says, &problem.given, &problem.field, &problem.allowed] {
                    assert!(!told.contains(letter), "{pointer}: {problem:?}");
                }
            }
        }
        let batch = json!([{"dish": odd, "at": "17:00", "pieces": 4}]);
        for problem in scenario::resolve(&with("/service/batches", batch)).expect_err("an odd name") {
            assert!(!problem.says.contains(letter) && !problem.given.contains(letter), "{problem:?}");
        }
    }
}

#[test]
fn what_scripts_and_kitchens_need_stays() {
    // Accents, other scripts with joiners and marks of direction, an emoji of several letters.
    for name in ["Crème brûlée", "می\u{200c}خواهم", "\u{200f}خبز", "👩\u{200d}🍳 special", "Knäckebröd (½)", "麺"]
    {
        let mut draft = with("/menu/0/name", json!(name));
        draft["name"] = json!(name);
        assert!(scenario::resolve(&draft).is_ok_and(|read| read.scenario.menu[0].name == name), "{name}");
    }
    assert!(scenario::resolve(&with("/note", json!("two\nlines\tand a tab"))).is_ok());
    // The blanks about a name are nobody's wish.
    let blank = scenario::resolve(&with("/menu", json!([dish("  Leek round\n")]))).expect("a name");
    assert_eq!(blank.scenario.menu[0].name, "Leek round");
}
