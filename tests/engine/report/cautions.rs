//! Cautions stand where the act is planned, and only where it is.

use hearthload::report::Caution;
use hearthload::report::cautions::{ACTS, Does, for_first_firing, for_plan, for_scenario, for_the_rest};
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

    let mut wet = plain();
    wet.wood.meter_dry_basis = 0.25;
    assert!(!says(&for_scenario(&wet), "feed", "unfit"));
    wet.wood.meter_dry_basis = 0.28;
    let first = for_scenario(&wet).into_iter().find(|caution| caution.act == "feed").unwrap().says;
    assert!(first.contains("28\u{a0}% on the meter is unfit") && first.contains("flue catches fire"), "{first}");
    let mut all = plain();
    all.start.floor_c = 18.0;
    all.menu[0].needs_core_check = true;
    all.menu[0].carrier = Some(Carrier { material: "cast_iron".to_owned(), mass_kg: 2.3, in_c: 20.0, out_s: 600.0 });
    all.service.wipes.push(64_800.0);
    let all = for_scenario(&all);
    assert!(says(&all, "light", "steam splits") && !all.iter().any(|caution| caution.act == "first_firing"));
    assert!(says(&all, "dish", "Heat absorbed is not a core temperature") && says(&all, "dish", "Leek round"));
    assert!(says(&all, "carrier", "Leek round") && says(&all, "doorway", "Wipe"));
}

#[test]
fn a_first_firing_is_cautioned_and_cooks_nothing() {
    let cautions = for_first_firing();
    assert_eq!(cautions.iter().filter(|caution| caution.act == "first_firing").count(), 1);
    assert!(!cautions.iter().any(|caution| ["dish", "carrier", "assist"].contains(&caution.act.as_str())));
    assert!(says(&cautions, "light", "CO alarm") && says(&cautions, "ash", "lidded metal bin"));
}

#[test]
fn a_plan_is_cautioned_of_what_it_does() {
    let scenario = plain();
    let (bare, full) = (Does::default(), Does { gas: true, spreads: true });
    assert!(!says(&for_plan(&scenario, bare), "feed", "sparks") && says(&for_plan(&scenario, full), "feed", "sparks"));
    assert!(!says(&for_plan(&scenario, bare), "assist", "gas") && says(&for_plan(&scenario, full), "assist", "gas"));
    let rest = for_the_rest(&scenario, bare);
    assert!(!says(&rest, "light", "match") || says(&rest, "light", "Extraction"));
    assert!(!says(&rest, "light", "lighter fluid") && says(&rest, "feed", "stop feeding"));
}

#[test]
fn the_short_form_keeps_danger_and_act() {
    let all = for_scenario(&plain());
    for caution in all {
        let first = caution.says.split(". ").next().unwrap_or_default();
        assert!(first.split_whitespace().count() >= 5, "too short to help: {first}");
    }
}
