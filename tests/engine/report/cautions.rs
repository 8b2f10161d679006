//! Cautions stand where the act is planned, and only where it is.

use hearthload::report::{Caution, cautions::ACTS, cautions::for_first_firing, cautions::for_scenario};
use hearthload::scenario::{Carrier, Scenario, read};

/// A warm oven with one dish of dough: the least that needs cautions.
fn plain() -> Scenario {
    let draft = r#"{"hearthload": 1, "oven": {"width_cm": 120}, "service": {"start": "18:00", "end": "18:30", "covers": [8, 12]},
        "menu": [{"name": "Leek round", "ingredients": [{"food": "pizza_dough", "grams": 250}],
        "footprint": {"diameter_cm": 28}, "known_bake": {"minutes": 3.3, "floor_c": 330}}]}"#;
    let mut scenario = read(draft).unwrap().scenario;
    scenario.start.floor_c = 180.0;
    scenario.oven.assist = None;
    scenario.service.wipes.clear();
    scenario.feeding.spread_coals.clear();
    scenario.menu[0].needs_core_check = false;
    scenario
}

fn says(all: &[Caution], act: &str, words: &str) -> bool {
    all.iter().any(|caution| caution.act == act && caution.says.contains(words))
}

#[test]
fn a_fire_always_brings_its_own() {
    let all = for_scenario(&plain());
    for (act, words) in [
        ("feed", "stop feeding, do not add air"),
        ("light", "lighter fluid"),
        ("doorway", "No water on hot stone"),
        ("ash", "lidded metal bin standing on stone or concrete"),
        ("light", "Extraction on before the match, never off over live coals"),
        ("light", "CO alarm that all can hear"),
        ("close", "stand aside"),
        ("feed", "untreated wood"),
        ("feed", "NYC FC 609.5"),
        ("doorway", "burns in seconds"),
        ("light", "licensed people"),
        ("dish", "local food code"),
    ] {
        assert!(says(&all, act, words), "{act}: {words}");
    }
    assert!(all.iter().all(|c| ACTS.contains(&c.act.as_str()) && c.says.ends_with('.')));
    let places: Vec<_> = all.iter().map(|c| ACTS.iter().position(|act| *act == c.act)).collect();
    assert!(places.is_sorted(), "in the order of the day");
}

#[test]
fn others_come_only_where_they_apply() {
    let none = for_scenario(&plain());
    for act in ["first_firing", "carrier", "assist"] {
        assert!(!none.iter().any(|caution| caution.act == act), "{act}");
    }
    assert!(!says(&none, "dish", "core temperature") && !says(&none, "doorway", "Wipe"));

    let mut all = plain();
    all.start.floor_c = 18.0;
    all.menu[0].needs_core_check = true;
    all.menu[0].carrier = Some(Carrier { material: "cast_iron".to_owned(), mass_kg: 2.3, in_c: 20.0, out_s: 600.0 });
    all.service.wipes.push(64_800.0);
    let all = for_scenario(&all);
    assert!(says(&all, "first_firing", "steam splits"));
    assert!(says(&all, "dish", "Heat absorbed is not a core temperature") && says(&all, "dish", "Leek round"));
    assert!(says(&all, "carrier", "Leek round") && says(&all, "doorway", "Wipe"));
}

#[test]
fn a_first_firing_is_cautioned_even_when_the_floor_is_warm() {
    let cautions = for_first_firing(&plain());
    assert_eq!(cautions.iter().filter(|caution| caution.act == "first_firing").count(), 1);
}

#[test]
fn the_short_form_keeps_danger_and_act() {
    let all = for_scenario(&plain());
    for caution in all {
        let first = caution.says.split(". ").next().unwrap_or_default();
        assert!(first.split_whitespace().count() >= 5, "too short to help: {first}");
    }
}
