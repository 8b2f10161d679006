//! Ovens at the ends of what the field table allows: each gives a sane night or is refused in words, and says here what is sane.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "a test may stop where it likes")]

#[path = "../../fuzz/finite.rs"]
mod finite;
mod lines;
mod questions;
#[path = "../../fuzz/reason.rs"]
mod reason;

use finite::broken_number;
use hearthload::hearth::build::DEFAULT_ACCURACY;
use hearthload::plan::nights::NIGHTS_ACCURACY;
use hearthload::plan::trial::coarse;
use hearthload::report::{build::from_trace, text};
use hearthload::scenario::{self, Resolved};
use hearthload::service::judge::judge;
use hearthload::service::night::{Keep, Ready, play};
use lines::{Line, Sane, builds, days, dish, fires, ordinary, service, sizes};
use reason::{out_of_reason, temperatures};
use serde_json::{Value, json};

fn draft_of(changes: &[(&str, Value)]) -> Value {
    let mut draft = ordinary();
    for (pointer, value) in changes {
        let mut place = &mut draft;
        for key in pointer.trim_start_matches('/').split('/') {
            place = match key.parse::<usize>() {
                Ok(index) => &mut place[index],
                Err(_) => &mut place[key],
            };
        }
        *place = value.clone();
    }
    draft
}

/// Plays a night and holds it against what is sane; gives what is not.
fn held_against(resolved: &Resolved, start_c: [f64; 2], floor_c: [f64; 2], over_by_h: f64) -> Vec<String> {
    let ready = Ready::new(&resolved.scenario, DEFAULT_ACCURACY);
    let trace = play(&ready, Keep::default());
    let mut wrong = Vec::new();
    let mut hold = |is_so: bool, says: String| {
        if !is_so {
            wrong.push(says);
        }
    };
    let within = |value: f64, [least, most]: [f64; 2]| (least..=most).contains(&value);
    hold(trace.fault.is_none(), format!("{:?}", trace.fault));
    hold(
        within(trace.start_c, start_c),
        format!("floor {:.0} for the first order, {start_c:?} is sane", trace.start_c),
    );
    for quarter in &trace.quarters {
        let (mean, dome) = (quarter.mean_c, quarter.dome_c);
        hold(within(mean, floor_c), format!("floor {mean:.0} at {:.2} h, {floor_c:?} is sane", quarter.at_s / 3600.0));
        hold(within(dome, [-15.0, 1500.0]), format!("dome {dome:.0} at {:.2} h", quarter.at_s / 3600.0));
    }
    // Deep-frozen food and the flame of dry wood are the ends of what stone can come to.
    let [coldest, hottest] = [-31.0, 2000.0];
    for bake in &trace.bakes {
        let (load, lift) = (bake.at_load_c, bake.at_lift_c.unwrap_or(bake.at_load_c));
        let is_so = within(load, [coldest, hottest]) && within(lift, [coldest, hottest]);
        hold(is_so, format!("a place of {load:.0} at loading and {lift:.0} at lifting"));
    }
    let (read, under, face) = (trace.reading_lowest_c, trace.underside_most_c, trace.face_most_c);
    hold(read >= coldest, format!("read down to {read:.0}"));
    hold(under <= hottest && face <= hottest, format!("underside up to {under:.0}, face up to {face:.0}"));
    let open = trace.ledger.residual_j().abs() / trace.ledger.throughput_j().max(1.0);
    hold(open < 1e-9, format!("the ledger leaves {open:e} open"));
    hold(trace.ended_s <= over_by_h * 3600.0, format!("over at {:.2} h, {over_by_h} is sane", trace.ended_s / 3600.0));
    let (ordered, never): (u32, u32) = (trace.ordered.iter().sum(), trace.never_started.iter().sum());
    // When the kitchen gives up, each hand may be on its way with a piece.
    let on_the_way = (ordered as usize).abs_diff(trace.bakes.len() + never as usize);
    let hands = resolved.scenario.service.hands as usize;
    hold(on_the_way <= hands, format!("{ordered} ordered, {} begun, {never} never", trace.bakes.len()));
    let judgement = judge(&ready, &trace);
    let report = from_trace(&resolved.assumed, &ready, &trace, &judgement, false);
    let broken = broken_number(&format!("{report:?}"));
    hold(broken.is_none(), format!("a number that is none in the report, after {broken:?}"));
    let wild = out_of_reason(&json!(report));
    hold(wild.is_none(), format!("{wild:?}"));
    let said = text::carry(&report);
    hold(!said.contains("NaN") && !said.contains("inf "), format!("a number that is none in the text: {said}"));
    wrong
}

fn try_all(lines: Vec<Line>) {
    let mut wrong = Vec::new();
    for (name, changes, sane) in lines {
        let found = match (scenario::resolve(&draft_of(&changes)), sane) {
            (Ok(resolved), Sane::Night { start_c, floor_c, over_by_h }) => {
                held_against(&resolved, start_c, floor_c, over_by_h)
            }
            (Err(problems), Sane::Refused(field, says)) => {
                let is_told = problems.iter().any(|problem| problem.field == field && problem.says.contains(says));
                if is_told { Vec::new() } else { vec![format!("refused otherwise: {problems:?}")] }
            }
            (Ok(_), Sane::Refused(..)) => vec!["taken, and should be refused".to_owned()],
            (Err(problems), Sane::Night { .. }) => {
                vec![format!("refused, and should be played: {problems:?}")]
            }
        };
        wrong.extend(found.into_iter().take(6).map(|says| format!("{name}: {says}")));
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn sizes_from_the_smallest_to_the_largest() {
    try_all(sizes());
}

#[test]
fn fires_from_none_to_far_too_much() {
    try_all(fires());
}

#[test]
fn ovens_as_nobody_should_build_them() {
    try_all(builds());
}

#[test]
fn days_as_short_and_as_long_as_can_be_written() {
    try_all(days());
}

#[test]
fn every_question_about_an_odd_oven_gets_an_answer_or_a_refusal() {
    let odd = [
        draft_of(&[("/menu", json!([]))]),
        draft_of(&[("/feeding", json!({"kindling_kg": 0, "phases": []}))]),
        draft_of(&[
            ("/oven/width_cm", json!(50)),
            ("/menu", json!([dish(0, 15.0)])),
            ("/service", service("47:00", "47:59", 4, 1.0)),
        ]),
    ];
    for (number, mut draft) in odd.into_iter().enumerate() {
        // Two floors on the ladder are enough here.
        draft["planning"] = json!({"floor_smallest_cm": 100, "floor_largest_cm": 120, "floor_step_cm": 20});
        for question in ["carry", "fire", "reach", "nights", "sure", "floors"] {
            let request = json!({"question": question, "scenario": draft, "nights": 2, "map": true}).to_string();
            let answer = hearthload::ask::answer(&request);
            let answer: Value = serde_json::from_str(&answer).expect("JSON");
            assert!(
                answer.get("ok").is_some() || answer.get("problems").is_some(),
                "{question} about {number}: {answer}"
            );
        }
    }
}

/// Found by fuzzing and by search: on so light, thin or hot a stone what pieces leave once came out colder than all that touched
/// it, for their traces lost heat by a tangent at the cold end; and a burner far too strong for its floor was driven on without end.
fn once_unsettled() -> [(&'static str, Value); 5] {
    let on_a_hot_start = |layers: Value, minutes: f64| {
        let mut oven = json!({"width_cm": 50, "dome_layers": [{"material": "concrete", "thickness_cm": 3}]});
        if !layers.is_null() {
            oven["floor_layers"] = layers;
        }
        json!({
            "hearthload": 1, "oven": oven, "start": {"floor_c": 200},
            "feeding": {"kindling_kg": 17},
            "service": {"start": "18:00", "end": "18:30", "covers": [20, 20]},
            "menu": [{"name": "Frozen", "ingredients": [{"food": "mozzarella_fresh", "grams": 400}],
                "footprint": {"diameter_cm": 8}, "start_c": -20, "known_bake": {"minutes": minutes, "floor_c": 500}}]
        })
    };
    let layer = |material: &str, cm: f64| json!({"material": material, "thickness_cm": cm});
    [
        (
            "a floor of insulating castable under sixteen times the fire its doorway bears",
            json!({
                "hearthload": 1,
                "oven": {"shape": "rectangle", "width_cm": 63, "depth_cm": 124,
                    "floor_layers": [layer("castable_insulating", 3.5)]},
                "feeding": {"kindling_kg": 17, "light_at": "12:27", "phases": []},
                "service": {"start": "13:45", "end": "14:00", "covers": [52]},
                "menu": [{"name": "Carrots", "ingredients": [{"food": "carrots", "grams": 200}],
                    "footprint": {"diameter_cm": 20}, "start_c": -15, "end_c": 34,
                    "known_bake": {"minutes": 20, "floor_c": 535}}]
            }),
        ),
        ("frozen cheese as tall as wide, an hour and a half on fireclay", on_a_hot_start(Value::Null, 90.0)),
        (
            "the same on a finger of soapstone",
            on_a_hot_start(json!([layer("soapstone", 1.0), layer("insulating_brick", 1.0)]), 90.0),
        ),
        ("the same on castable over tile, with gas", {
            let mut draft =
                on_a_hot_start(json!([layer("castable_insulating", 6.0), layer("ceramic_tile", 3.0)]), 90.0);
            draft["oven"]["assist"] = json!({"rated_kw": 100});
            draft
        }),
        ("gas of 100 kW under half a metre, no wood", {
            let mut draft = draft_of(&[
                ("/oven/width_cm", json!(50)),
                ("/menu", json!([dish(0, 15.0)])),
                ("/oven/assist", json!({"rated_kw": 100, "delivered_percent": 90, "set_c": 500, "on_at": "12:00"})),
            ]);
            draft["feeding"] = json!({"kindling_kg": 0, "phases": []});
            draft
        }),
    ]
}

#[test]
fn what_once_did_not_settle_does_on_any_cut() {
    for (name, draft) in once_unsettled() {
        let resolved = scenario::resolve(&draft).expect("it is taken");
        for cut in [DEFAULT_ACCURACY, NIGHTS_ACCURACY, coarse()] {
            let trace = play(&Ready::new(&resolved.scenario, cut), Keep::default());
            assert!(trace.fault.is_none(), "{name}, {cut:?}: {:?}", trace.fault);
        }
        let request = json!({"question": "carry", "scenario": draft, "map": true}).to_string();
        for answer in [hearthload::ask::answer(&request), hearthload::ask::Live::default().answer(&request)] {
            let answer: Value = serde_json::from_str(&answer).expect("JSON");
            assert!(temperatures(&answer) > 20, "{name}: {answer}");
            assert_eq!(out_of_reason(&answer), None, "{name}");
        }
    }
}
