//! The cook's plan and the ladder at their edges: gas that is none, a feeding only the user knew, wet wood, what is said before the match.

use hearthload::ask;
use hearthload::plan::fire::plan;
use hearthload::plan::floors::Place;
use hearthload::report::floors_build::{leave_burners_off, too_small};
use hearthload::report::{FireReport, RungReport, fire_text};
use serde_json::{Value, json};

#[path = "plans_kit.rs"]
mod kit;
use kit::{demo, fed_as_planned, kg, small, with};

/// A demo with so many times its covers.
fn times(name: &str, times: f64) -> Value {
    let mut draft = demo(name);
    for covers in draft["service"]["covers"].as_array_mut().expect("covers") {
        *covers = json!(covers.as_f64().expect("a number") * times);
    }
    draft
}

#[test]
fn a_burner_that_never_burns_is_no_burner() {
    // A rhythm that was found over a burner of 1.5 kW held this evening with the burner off.
    let resolved = with(times("assist", 1.6), |_| ());
    let report = ask::fire(&resolved, None);
    let assist = report.assist.expect("a burner's part");
    if let Some(least) = assist.least {
        assert!(least.kwh > 0.0 && least.hours > 0.0, "{least:?}");
    }
    assert_eq!(assist.needed, assist.kwh > 0.0, "{}", assist.says);
    assert!(report.no_plan.is_none() && !assist.says.contains('\u{2212}'), "{} {}", report.says, assist.says);
}

#[test]
fn the_feeding_that_was_typed_is_a_candidate() {
    let mut draft = times("carries", 370.0 / 250.0);
    let covers: f64 = draft["service"]["covers"].as_array().expect("covers").iter().filter_map(Value::as_f64).sum();
    draft["service"]["covers"] = draft["service"]["covers"]
        .as_array()
        .expect("covers")
        .iter()
        .map(|each| json!((each.as_f64().unwrap_or(0.0) * 370.0 / covers * 100.0).round() / 100.0))
        .collect();
    draft["feeding"] = json!({"light_at": "14:45", "kindling_kg": 2.5, "phases": [
        {"from": "15:05", "to": "18:00", "every_min": 12, "pieces": 1},
        {"from": "18:00", "to": "21:15", "every_min": 13.6, "pieces": 1}]});
    let resolved = with(draft.clone(), |_| ());
    assert!(ask::carry(&resolved, false).verdict.carries, "the typed feeding was to carry");
    let report = ask::fire(&resolved, None);
    assert!(report.no_plan.is_none(), "{}", report.says);
    assert!(ask::carry(&fed_as_planned(draft, &report), false).verdict.carries, "{}", report.says);
}

#[test]
fn wood_by_the_meter_carries_as_its_row_says() {
    for meter in [17.0, 22.0] {
        let resolved = with(demo("carries"), |draft| draft["wood"]["meter_percent_dry"] = json!(meter));
        let planned = plan(&resolved.scenario, None).expect("something is ordered");
        let carried = planned.outcome.as_ref().expect("a plan");
        let mut before_kg = 0.0;
        let mut rows = 0;
        for row in &carried.moisture {
            let Some((cadence, wood_kg)) = &row.fed else { continue };
            let mut other = resolved.clone();
            other.scenario.wood.meter_dry_basis = row.meter;
            other.scenario.feeding = cadence.feeding(&other.scenario.feeding);
            let played = ask::carry(&other, false);
            assert!(played.verdict.carries, "{meter} {}: {}", row.meter, played.verdict.says);
            let burnt_kg = played.wood.kg_light_up + played.wood.kg_service;
            assert!((burnt_kg - wood_kg).abs() < 1e-6 && burnt_kg >= before_kg, "{meter} {row:?} {burnt_kg}");
            before_kg = burnt_kg;
            rows += 1;
        }
        assert!(rows >= 2, "{meter}: {:?}", carried.moisture);
        assert!(carried.moisture.windows(2).all(|two| two[0].meter < two[1].meter));
    }
}

#[test]
fn no_fire_is_planned_with_green_wood() {
    let wet = |meter: f64| {
        let resolved = with(small(), |draft| draft["wood"]["meter_percent_dry"] = json!(meter));
        ask::fire(&resolved, None)
    };
    let green = wet(35.0);
    let says = green.no_plan.as_ref().expect("a refusal").says.replace('\u{a0}', " ");
    assert!(says.contains("35 % on the meter is green") && says.contains("flue catches fire"), "{says}");
    assert!(green.phases.is_empty() && green.pieces.is_empty() && green.light_at.is_none() && green.sheet.is_none());
    let unfit = |report: &FireReport| report.cautions.iter().any(|c| c.says.contains("is unfit"));
    assert!(unfit(&green) && unfit(&wet(28.0)) && !unfit(&wet(18.0)));
}

#[test]
fn doors_and_extraction_come_before_the_match() {
    let report = ask::fire(&with(small(), |_| ()), None);
    let sheet = report.sheet.expect("a sheet");
    assert!(sheet.lighting[0].starts_with("Extraction on first. Doors open"), "{:?}", sheet.lighting);
    assert!(sheet.acts[0].says.contains("doors open") && sheet.acts[1].says.contains("match"), "{:?}", sheet.acts);
}

#[test]
fn the_kindling_of_a_first_firing_is_said() {
    let report = ask::first_firing(&with(small(), |_| ()), None);
    let days = &report.first_firing.as_ref().expect("a schedule").days;
    assert!(days.iter().all(|day| day.kindling_kg > 0.0 && day.kindling_kg <= day.wood_kg), "{days:?}");
    let text = fire_text::fire(&report).replace('\u{a0}', " ");
    assert!(text.contains("Lit with 0.5 kg of kindling each day"), "{text}");
    assert!(text.lines().all(|line| line.chars().count() <= 80), "{text}");
}

#[test]
fn the_underside_is_said_with_the_burner_on() {
    let draft = with_burner();
    let resolved = with(draft.clone(), |_| ());
    let report = ask::fire(&resolved, None);
    let assist = report.assist.as_ref().expect("a burner's part");
    assert!(!assist.needed && kg(&report) > 0.0, "{}", assist.says);
    // Fed as planned, the burner on all the same.
    let bare = FireReport { assist: None, ..report.clone() };
    let on = ask::carry(&fed_as_planned(draft, &bare), false).assist;
    assert!(on.kwh > 0.0, "it was to burn");
    assert!(assist.underside_most_c >= on.underside_most_c.expect("an underside") - 1e-9, "{}", assist.says);
}

/// The small oven over a burner that it does not need, set to burn.
fn with_burner() -> Value {
    let mut draft = small();
    draft["oven"]["assist"] = json!({
        "rated_kw": 16, "delivered_percent": 45, "control": "on_off", "probe_across": 0.3, "probe_along": 0.5,
        "probe_depth_cm": 2, "set_c": 400, "dead_band_k": 10, "on_at": "16:00", "off_at": "19:00"
    });
    draft
}

#[test]
fn a_floor_with_a_burner_never_holds_less_than_without() {
    let rung = |assist: bool, carries: bool, covers_times: f64, capacity_kg_h: f64| RungReport {
        too_small: false,
        carries,
        covers_times,
        capacity_kg_h,
        gas_kwh_week: if assist { 90.0 } else { 0.0 },
        ..too_small(Place { floor_m: 1.0, assist })
    };
    let mut less = vec![rung(false, true, 1.5, 20.0), rung(true, true, 1.25, 17.0)];
    leave_burners_off(&mut less);
    assert!(less[1].assist && less[1].burner_off && less[1].gas_kwh_week == 0.0, "{less:?}");
    assert!(less[1].covers_times >= 1.5 && less[1].capacity_kg_h >= 20.0 && !less[0].assist, "{less:?}");
    let mut alike = vec![rung(false, true, 1.5, 20.0), rung(true, true, 1.5, 19.0)];
    leave_burners_off(&mut alike);
    assert!(!alike[1].burner_off && alike[1].gas_kwh_week == 90.0 && alike[1].capacity_kg_h == 20.0, "{alike:?}");
    let mut more = vec![rung(false, false, 0.5, 9.0), rung(true, true, 1.5, 19.0)];
    let as_was = more.clone();
    leave_burners_off(&mut more);
    assert_eq!(more, as_was);
}
