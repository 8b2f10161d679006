//! Reach, ways out, floors and nights: monotone facts, the same answer for the same seed, search against brute force.

use hearthload::ask::in_parts::InParts as _;
use hearthload::ask::reach::Reaching;
use hearthload::hearth::build::DEFAULT_ACCURACY;
use hearthload::plan::feeding_rule::{self, Rhythm, fed};
use hearthload::plan::floors::{self, Offer, Place};
use hearthload::plan::nights::{NIGHTS_ACCURACY, chance_of, fold, one, wilson};
use hearthload::plan::reach::{SEARCH_ACCURACY, STEPS_IN_ONE, Search, first_breach};
use hearthload::plan::rung::Rung;
use hearthload::plan::ways::Step;
use hearthload::report::floors_build::{self, Ladder};
use hearthload::scenario::{self, Scenario};
use hearthload::service::night::Ready;
use hearthload::sure::hypercube;
use hearthload::sure::unknowns::{UNKNOWNS, kitchen};

fn demo(name: &str) -> Scenario {
    let path = format!("{}/demo-data/{name}.json", env!("CARGO_MANIFEST_DIR"));
    scenario::read(&std::fs::read_to_string(path).unwrap()).unwrap().scenario
}

/// The demo's menu and oven for a shorter evening of orders alone.
fn short(start: &str, end: &str, covers: &[u32]) -> serde_json::Value {
    let path = format!("{}/demo-data/carries.json", env!("CARGO_MANIFEST_DIR"));
    let mut draft: serde_json::Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    draft["service"]["start"] = start.into();
    draft["service"]["end"] = end.into();
    draft["service"]["covers"] = serde_json::json!(covers);
    draft["service"]["batches"] = serde_json::json!([]);
    draft["service"]["wipes"] = serde_json::json!([]);
    draft["promise"] = serde_json::json!({});
    draft
}

/// What the door answers.
fn ask(request: &serde_json::Value) -> serde_json::Value {
    serde_json::from_str(&hearthload::ask::answer(&request.to_string())).unwrap()
}

/// Small enough to be searched by brute force.
fn small() -> Scenario {
    let mut small = demo("carries");
    small.service.covers.truncate(6);
    small.service.end = small.service.start + 6.0 * 900.0;
    small.service.batches.clear();
    small.promise.queue_gone_by = small.service.end + 1200.0;
    small
}

/// Puts an edit into a draft, as a page would.
fn put(draft: &mut serde_json::Value, edit: &hearthload::report::Edit) {
    let pointer = edit.path.replace(['.', '['], "/").replace(']', "");
    let (parent, name) = pointer.rsplit_once('/').unwrap();
    let parent = if parent.is_empty() { String::new() } else { format!("/{parent}") };
    draft.pointer_mut(&parent).unwrap()[name] = edit.value.clone();
}

#[test]
fn the_search_finds_what_brute_force_finds() {
    let ready = Ready::new(&small(), SEARCH_ACCURACY);
    let search = Search::new(&ready);
    let found = search.most(STEPS_IN_ONE);
    assert!(found.steps > 0 && found.breach.is_some(), "{found:?}");
    // Every second step of the range about it: all below hold, and none above it does within a tenth.
    for steps in (found.steps.saturating_sub(12)..=found.steps).step_by(3) {
        assert!(search.carries(steps), "{steps} of {}", found.steps);
    }
    assert!(!search.carries(found.steps + 1));
    assert!(!search.carries(found.steps + STEPS_IN_ONE / 4), "{found:?}");
}

#[test]
fn every_way_out_gains_when_its_edits_are_put_into_the_draft() {
    let draft = short("18:30", "19:30", &[14, 16, 18, 16]);
    let resolved = scenario::resolve(&draft).unwrap();
    let report = Reaching::new(&resolved).whole().unwrap().unwrap();
    assert!(report.reached.most_covers > 0.0 && !report.reached.ways_out.is_empty(), "{}", report.reached.reach_says);
    assert!(report.reached.ways_out.iter().all(|way| way.covers_gained > 0.0));
    // What is enough first, and never a dish off the menu before what the cook can do; dishes by the money they cost.
    let leaves = |way: &hearthload::report::WayOut| way.change.ends_with("leaves the hearth");
    let key = |way: &hearthload::report::WayOut| (!way.suffices, leaves(way));
    let lost = |way: &hearthload::report::WayOut| way.loses_money.expect("every dish of this menu has a margin");
    let mut dishes = 0;
    for two in report.reached.ways_out.windows(2) {
        assert!(key(&two[0]) <= key(&two[1]), "{:?}", report.reached.ways_out);
        if key(&two[0]) == key(&two[1]) && leaves(&two[0]) {
            dishes += 1;
            assert!(lost(&two[0]) <= lost(&two[1]) && lost(&two[0]) > 0.0, "{two:?}");
        }
    }
    assert!(dishes > 0, "{:?}", report.reached.ways_out);
    // The first and the last of them, put into the draft and played at the covers they promise.
    for way in [report.reached.ways_out.first(), report.reached.ways_out.last()].into_iter().flatten() {
        let mut changed = draft.clone();
        way.edits.iter().for_each(|edit| put(&mut changed, edit));
        let mut scenario = scenario::resolve(&changed).unwrap().scenario;
        let planned: f64 = scenario.service.covers.iter().sum();
        let steps = (way.most_covers / planned * f64::from(STEPS_IN_ONE) - 1e-6).ceil();
        scenario.service.covers.iter_mut().for_each(|c| *c *= steps / f64::from(STEPS_IN_ONE));
        let ready = Ready::new(&scenario, DEFAULT_ACCURACY);
        assert_eq!(first_breach(&ready), None, "{}", way.change);
    }
    let json = serde_json::to_value(&report).unwrap();
    for name in ["most_covers", "gives_first", "ways_out", "verdict"] {
        assert!(json.get(name).is_some(), "{name}");
    }
    assert!(hearthload::report::ladder_text::reach(&report).lines().all(|line| line.chars().count() <= 80));
}

#[test]
fn a_pan_that_stays_hot_asks_less_of_the_floor() {
    let scenario = demo("surprise");
    let ready = Ready::new(&scenario, SEARCH_ACCURACY);
    let pans = (0..scenario.menu.len()).filter(|&d| scenario.menu[d].carrier.is_some());
    for dish in pans {
        let hot = Step::HotCarrier(dish).apply(&ready);
        assert!(hot.laws[dish].need_j() < ready.laws[dish].need_j(), "{dish}");
    }
}

#[test]
fn a_night_is_the_same_however_the_nights_are_cut_up() {
    let mut scenario = small();
    scenario.service.covers.truncate(2);
    scenario.service.end = scenario.service.start + 1800.0;
    let ready = Ready::new(&scenario, NIGHTS_ACCURACY);
    let forward: Vec<_> = (0..6).map(|index| one(&ready, 7, index)).collect();
    let again = Ready::new(&scenario, NIGHTS_ACCURACY);
    let mut backward: Vec<_> = (3..6).rev().map(|index| one(&again, 7, index)).collect();
    backward.extend(forward[..3].iter().cloned());
    assert_eq!(fold(forward.clone()), fold(backward));
    assert_ne!(one(&ready, 8, 0), forward[0], "another seed is another night");
    assert_ne!(forward[0], forward[1]);
    let found = fold(forward);
    assert!(found.wood_kg[0] <= found.wood_kg[1] && found.wood_kg[1] <= found.wood_kg[2]);
    assert_eq!(found.breaks.iter().map(|b| b.1).sum::<u32>(), found.run - found.held);
}

#[test]
fn nights_in_parts_through_the_door_are_nights_in_one_go() {
    let draft = short("18:00", "18:30", &[6, 8]);
    let base = |extra: serde_json::Value| {
        let mut request = serde_json::json!({ "question": "nights", "scenario": draft, "nights": 4, "seed": 3 });
        extra.as_object().unwrap().iter().for_each(|(name, value)| request[name] = value.clone());
        request
    };
    let whole = ask(&base(serde_json::json!({})));
    let first = ask(&base(serde_json::json!({ "from": 0, "count": 3 })));
    let so_far = first["ok"]["nights_run"].clone();
    assert_eq!(so_far.as_array().unwrap().len(), 3);
    let second = ask(&base(serde_json::json!({ "from": 3, "count": 3, "so_far": so_far })));
    assert_eq!(whole["ok"], second["ok"]["report"]);
    let wrong = ask(&base(serde_json::json!({ "nights": "many" })));
    assert_eq!(wrong["problems"][0]["field"], "nights");
}

/// Goes round as a page would: fold, work out what is wanted (last first), until nothing is.
fn in_parts(mut request: serde_json::Value) -> serde_json::Value {
    let ok = |request: &serde_json::Value| {
        let answer = ask(request);
        assert!(answer.get("ok").is_some(), "{answer}");
        answer["ok"].clone()
    };
    let mut parts = Vec::new();
    loop {
        request["parts"] = serde_json::Value::Array(parts.clone());
        request["part"] = serde_json::Value::Null;
        let folded = ok(&request);
        assert_eq!(folded["done"].as_u64().unwrap() as usize, parts.len());
        let wants = folded["wants"].as_array().unwrap().clone();
        if wants.is_empty() {
            return folded["report"].clone();
        }
        for want in wants.iter().rev() {
            request["part"] = want.clone();
            parts.push(ok(&request)["part"].clone());
        }
    }
}

#[test]
fn a_long_question_in_parts_is_the_question_in_one_go() {
    let mut draft = short("18:00", "18:30", &[6, 8]);
    draft["menu"].as_array_mut().unwrap().truncate(2);
    draft["planning"] = serde_json::json!({ "floor_smallest_cm": 90, "floor_largest_cm": 110, "floor_step_cm": 20 });
    for question in ["sure", "floors", "reach", "nights"] {
        let request = serde_json::json!({ "question": question, "scenario": draft, "nights": 8 });
        assert_eq!(ask(&request)["ok"], in_parts(request), "{question}");
    }
    for (name, sent) in [("part", serde_json::json!({ "floor": 99 })), ("parts", serde_json::json!([{}]))] {
        let mut request = serde_json::json!({ "question": "floors", "scenario": draft });
        request[name] = sent;
        let answer = ask(&request);
        assert_eq!(answer["problems"][0]["field"], name, "{answer}");
    }
}

#[test]
fn two_ovens_under_one_seed_meet_the_same_guests() {
    let one = small();
    let mut other = one.clone();
    other.oven.width_m = 1.5;
    other.feeding.phases.clear();
    for index in 0..5 {
        let (a, b) = (chance_of(&one, 11, index), chance_of(&other, 11, index));
        assert_eq!(a.service, b.service);
        assert_eq!(a.menu, b.menu);
        assert_eq!(a.wood, b.wood);
    }
}

#[test]
fn the_draws_have_the_means_and_spreads_they_claim() {
    let scenario = small();
    let planned: f64 = scenario.service.covers.iter().sum();
    let nights: Vec<Scenario> = (0..400).map(|index| chance_of(&scenario, 5, index)).collect();
    let mean = |f: &dyn Fn(&Scenario) -> f64| nights.iter().map(f).sum::<f64>() / 400.0;
    let covers = mean(&|n| n.service.covers.iter().sum());
    // Poisson parties: the mean's own error is the square root of covers by party size by nights.
    let error = (planned * scenario.service.party_mean / 400.0).sqrt();
    assert!((covers - planned).abs() < 4.0 * error + 0.5, "{covers} {planned}");
    let meter = mean(&|n| n.wood.meter_dry_basis);
    assert!((meter - scenario.wood.meter_dry_basis).abs() < 0.004, "{meter}");
    let late = |n: &Scenario| n.feeding.phases[0].from - scenario.feeding.phases[0].from;
    assert!((mean(&late) - 180.0).abs() < 40.0, "{}", mean(&late));
    assert!(nights.iter().all(|n| n.feeding.phases.windows(2).all(|w| w[0].from < w[1].from)));
    let wood =
        |s: &Scenario| s.feeding.phases.iter().map(|p| p.pieces * ((p.to - p.from) / p.every_s).ceil()).sum::<f64>();
    assert!((mean(&wood) / wood(&scenario) - 1.0).abs() < 0.02, "{} {}", mean(&wood), wood(&scenario));
}

#[test]
fn wilson_is_wilson() {
    // Brown, Cai & DasGupta (2001) Stat. Sci. 16:101, and by hand: 0 of 10 gives 0 to 0.2775; 15 of 20 gives 0.531 to 0.888.
    let close = |got: [f64; 2], low: f64, high: f64| {
        assert!((got[0] - low).abs() < 1e-3 && (got[1] - high).abs() < 1e-3, "{got:?}");
    };
    close(wilson(0, 10), 0.0, 0.2775);
    close(wilson(15, 20), 0.5313, 0.8881);
    assert!(wilson(0, 0)[0].abs() < 1e-12 && (wilson(0, 0)[1] - 1.0).abs() < 1e-12);
}

/// An hour and a half of few guests, on two sizes of floor.
fn two_floors() -> Scenario {
    let mut scenario = small();
    // Long enough for the rule, which stops feeding half an hour before the last order, to have a rhythm at all.
    scenario.service.covers.iter_mut().for_each(|c| *c = 10.0);
    scenario.service.wipes.clear();
    scenario.planning.floor_smallest_m = 1.0;
    scenario.planning.floor_largest_m = 1.4;
    scenario.planning.floor_step_m = 0.4;
    scenario.planning.wood_price_kg = Some(0.5);
    scenario
}

#[test]
fn a_larger_floor_holds_more_and_costs_more_to_keep() {
    let scenario = two_floors();
    let places: Vec<Place> = floors::places(&scenario, &Offer::default()).into_iter().filter(|p| !p.assist).collect();
    assert_eq!(places.len(), 2);
    let rungs: Vec<Rung> =
        places.iter().filter_map(|p| floors::rung_at(&scenario, &Offer::default(), *p).unwrap()).collect();
    let [small, large] = &rungs[..] else { panic!("both floors take all dishes") };
    assert!(large.steps >= small.steps && large.pieces_per_h >= small.pieces_per_h, "{} {}", large.steps, small.steps);
    assert!(large.idle_w > small.idle_w, "{} {}", large.idle_w, small.idle_w);
    assert!(large.heating.energy_j > small.heating.energy_j);
    assert!(large.house.hood_kg_s > small.house.hood_kg_s);
    for rung in &rungs {
        assert!(rung.breach.is_none(), "{:?}", rung.breach);
        assert!((0.005..0.5).contains(&rung.cooking_efficiency), "{}", rung.cooking_efficiency);
        // Whole ovens of these sizes idle on one to five kilograms an hour, some 4 kWh each.
        assert!((3_000.0..25_000.0).contains(&rung.idle_w), "{}", rung.idle_w);
        assert!((2.0..20.0).contains(&(rung.house.floor_pa / 1000.0)), "{}", rung.house.floor_pa);
        // A week: each morning follows from the night before, and the closed days leave less.
        let closed_c = rung.week.after_closed_c.expect("a closed day");
        assert!(
            closed_c < rung.week.after_open_c && rung.week.after_open_c < rung.lowest_c.unwrap(),
            "{:?}",
            rung.week
        );
        let open = scenario.planning.days_open_per_week;
        assert!((0.5..1.5).contains(&(rung.week.wood_kg / (open * rung.wood_kg_day))), "{:?}", rung.week);
        // What the rule promises, played at its rhythm, holds.
        let ready = fed(&Ready::new(&rung.scenario, SEARCH_ACCURACY), &rung.rhythm);
        assert_eq!(first_breach(&ready), None);
    }
    let ladder = Ladder {
        rungs: places.iter().zip(&rungs).map(|(place, rung)| floors_build::rung(&scenario, *place, rung)).collect(),
        of: 2,
        ..Ladder::default()
    };
    assert_eq!(ladder.smallest(), Some(0));
    let report = floors_build::floors(&scenario, ladder);
    let json = serde_json::to_value(&report).unwrap();
    let asked = "floor_cm assist carries pieces_per_h lowest_c wood_kg_week gas_kwh_week light_up_min idle_kw preheat_mj \
                 capacity_kg_h cooking_efficiency hood_kg_s hood_kw";
    for name in asked.split_whitespace() {
        assert!(json["rungs"][0].get(name).is_some(), "{name}");
    }
    assert!(json["rungs"][0]["fuel_money_week"].as_f64().unwrap() > 0.0);
    assert!(hearthload::report::ladder_text::floors(&report).lines().all(|line| line.chars().count() <= 80));
}

#[test]
fn the_rule_feeds_what_it_says() {
    let scenario = small();
    let rhythm = Rhythm { light_at: scenario.service.start - 7200.0, heat_kg_h: 6.0, serve_kg_h: 3.0 };
    let feeding = feeding_rule::feeding(&scenario, &rhythm);
    let piece_kg = hearthload::matter::wood::Fuel::new(&scenario.wood).piece_mass_kg;
    for (phase, kg_h) in feeding.phases.iter().zip([6.0, 3.0]) {
        let fed = phase.pieces * piece_kg * 3600.0 / phase.every_s;
        // Intervals are whole half minutes.
        assert!((fed / kg_h - 1.0).abs() < 0.03, "{fed} {kg_h}");
        assert!(phase.every_s >= 570.0);
    }
    let aim = feeding_rule::aim_c(&scenario);
    assert!(
        scenario.menu.iter().filter(|d| d.per_100_covers > 0.0).all(|d| (d.floor_min_c..d.floor_max_c).contains(&aim))
    );
}

#[test]
fn every_slice_of_every_range_is_drawn_once() {
    let draws = hypercube(9, 16);
    for unknown in 0..UNKNOWNS.len() {
        let mut slices: Vec<u32> = draws.iter().map(|draw| (draw[unknown] * 16.0) as u32).collect();
        slices.sort_unstable();
        assert_eq!(slices, (0..16).collect::<Vec<u32>>());
    }
    assert_eq!(draws, hypercube(9, 16));
    assert_ne!(draws, hypercube(10, 16));
}

#[test]
fn unknowns_push_the_floor_the_way_physics_does() {
    let mut scenario = small();
    scenario.service.covers.truncate(2);
    scenario.service.end = scenario.service.start + 1800.0;
    let lowest = |key: &str, share: f64| {
        let unknown = *UNKNOWNS.iter().find(|u| u.key == key).unwrap();
        let ready = kitchen(&scenario, SEARCH_ACCURACY, &[(unknown, share)]);
        hearthload::service::night::play(&ready, hearthload::service::night::Keep::default()).start_c
    };
    // More air drawn in cools, wetter wood cools, heavier pieces heat, a warmer morning heats, a cleaner burn heats.
    assert!(lowest("entrainment", 1.0) < lowest("entrainment", 0.0));
    assert!(lowest("moisture", 1.0) < lowest("moisture", 0.0));
    assert!(lowest("piece", 1.0) > lowest("piece", 0.0));
    assert!(lowest("morning", 1.0) > lowest("morning", 0.0));
    assert!(lowest("burnt", 1.0) > lowest("burnt", 0.0));
}
