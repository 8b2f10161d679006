//! The rest of an evening from a reading: that it agrees with the plan where the reading does, waits where the oven is hot, and never
//! asks for a fire the oven does not bear.

use hearthload::ask::{self, Typed};
use hearthload::hearth::build::DEFAULT_ACCURACY;
use hearthload::hearth::oven::Hearth;
use hearthload::plan::cadence::feeds_of;
use hearthload::plan::fire;
use hearthload::plan::from_now::{FromNow, Now, from_now};
use hearthload::plan::light_up::keenest;
use hearthload::plan::reading::{shown_c, take};
use hearthload::plan::replan::Course;
use hearthload::plan::trial::Bench;
use hearthload::report::{FireNow, FireReport, fire_text};
use hearthload::scenario::{Resolved, clock};
use hearthload::service::night::{Keep, Ready, run_until};
use serde_json::{Value, json};

#[path = "plans_kit.rs"]
mod kit;
use kit::{demo, small, with};

fn seconds(typed: &str) -> f64 {
    clock::read(typed).expect("a time")
}

fn asked(resolved: &Resolved, at: &str, floor_c: f64, fed: &[&str]) -> FireReport {
    let fed = fed.iter().map(|at| seconds(at)).collect();
    ask::fire(resolved, Some(&Now { at: seconds(at), floor_c, fed, skipped: Vec::new() }))
}

fn rest(resolved: &Resolved, at: &str, floor_c: f64, fed: &[&str]) -> FireNow {
    asked(resolved, at, floor_c, fed).now.expect("a replan")
}

/// What the plan expects then.
fn expected_c(resolved: &Resolved, at: &str) -> f64 {
    rest(resolved, at, 300.0, &[]).expected_c
}

fn feeds(now: &FireNow) -> u32 {
    now.phases.iter().map(|phase| phase.feeds).sum()
}

/// Every feed of the rest, s.
fn times(now: &FireNow) -> Vec<f64> {
    let of = |phase: &hearthload::report::FirePhase| {
        let (from, every_s) = (seconds(&phase.from), 60.0 * phase.every_min);
        (0..phase.feeds).map(move |n| from + f64::from(n) * every_s).collect::<Vec<f64>>()
    };
    now.phases.iter().flat_map(of).collect()
}

#[test]
fn a_replan_agrees_when_the_reading_agrees() {
    let resolved = with(small(), |_| ());
    for at in ["17:00", "18:20", "18:50"] {
        let report = asked(&resolved, at, expected_c(&resolved, at), &[]);
        let same = report.now.as_ref().expect("a replan");
        assert!(same.keeps_plan && same.carries, "{at}: {}", same.because);
        let later: Vec<f64> = report.pieces.iter().map(|p| seconds(&p.at)).filter(|t| *t >= seconds(at)).collect();
        assert_eq!(times(same), later, "{at}");
    }
}

#[test]
fn a_colder_floor_is_fed_sooner_and_a_hotter_one_waits_and_carries() {
    let resolved = with(small(), |_| ());
    let at = "18:05";
    let planned_c = expected_c(&resolved, at);
    let agrees = rest(&resolved, at, planned_c, &[]);
    let cold = rest(&resolved, at, planned_c - 50.0, &[]);
    assert!(!cold.keeps_plan && feeds(&cold) > feeds(&agrees), "{cold:?}");
    assert!(times(&cold).first() <= times(&agrees).first(), "{cold:?}");
    let mut before = feeds(&agrees);
    for over_k in [8.0, 20.0, 40.0, 70.0] {
        let hot = rest(&resolved, at, planned_c + over_k, &[]);
        assert!(hot.carries, "{over_k}: {} {}", hot.says, hot.because);
        assert_eq!(hot.runs_hot, hot.acts.iter().any(|act| act.contains("hotter than planned")), "{:?}", hot.acts);
        assert!(feeds(&hot) <= before, "{over_k}: {} {before}", feeds(&hot));
        assert!(hot.margins.in_band + 1 >= agrees.margins.in_band, "{over_k}: {:?} {:?}", hot.margins, agrees.margins);
        before = feeds(&hot);
    }
    assert!(before < feeds(&agrees), "70 K over, some wood is left out");
}

#[test]
fn a_hotter_floor_than_planned_never_has_a_rest_that_fails_where_a_slower_one_holds() {
    let resolved = with(demo("carries"), |_| ());
    let plan = fire::plan(&resolved.scenario, None).expect("something is ordered");
    let carried = plan.outcome.as_ref().expect("a plan");
    let course = Course::planned(&carried.trial.cadence);
    let read = |floor_c: f64| {
        let now = Now { at: seconds("19:20"), floor_c, fed: Vec::new(), skipped: Vec::new() };
        from_now(&plan.bench, plan.keen, &course, &now)
    };
    let wood = |now: &FromNow| now.evening.iter().map(|m| feeds_of(&m.phase.feed).len()).sum::<usize>();
    let agrees = read(read(300.0).expected_c);
    assert!(agrees.keeps_plan && !agrees.runs_hot);
    for over_k in [10.0, 15.0, 35.0, 75.0, 115.0] {
        let now = read(agrees.expected_c + over_k);
        assert!(now.holds, "{over_k}: {:?}", now.gives);
        assert!(wood(&now) <= wood(&agrees), "{over_k}");
        assert_eq!(now.runs_hot, wood(&now) == wood(&agrees), "{over_k}");
        // By dropping the next piece the last bakes of the evening lost their flame; by feeding more slowly they keep it.
        assert!(over_k < 75.0 || wood(&now) < wood(&agrees), "{over_k}");
    }
    // Hotter than its dish bears.
    let resolved = with(small(), |draft| draft["menu"][0]["floor_max_c"] = json!(330));
    let hot = rest(&resolved, "18:05", 360.0, &[]);
    let until = hot.too_hot.first().and_then(|hot| hot.until.clone()).expect("too hot until then");
    assert!(until.as_str() > "18:05", "{until}");
    assert!(
        hot.acts.iter().any(|act| act.contains("Too hot for Leek round") || act.contains("Hold the tickets")),
        "{:?}",
        hot.acts
    );
}

#[test]
fn no_replan_asks_for_more_than_the_oven_bears_or_for_wood_that_comes_too_late() {
    let resolved = with(small(), |_| ());
    let least_s = 60.0 * f64::from(keenest(&Bench::new(&resolved.scenario, DEFAULT_ACCURACY)).every_min);
    for at in ["17:40", "18:10", "18:25", "18:40", "19:00"] {
        for floor_c in [120.0, 220.0, 270.0] {
            let report = asked(&resolved, at, floor_c, &[]);
            let now = report.now.as_ref().expect("a replan");
            let before = report.pieces.iter().map(|p| seconds(&p.at)).filter(|t| *t < seconds(at)).fold(0.0, f64::max);
            let fed: Vec<f64> = std::iter::once(before).chain(times(now)).collect();
            let plan_s = report.phases.iter().map(|p| 60.0 * p.every_min).fold(least_s, f64::min);
            assert!(fed.windows(2).all(|pair| pair[1] - pair[0] >= plan_s - 1.0), "{at} {floor_c}: {fed:?}");
            assert!(times(now).iter().all(|t| *t < seconds("18:30")), "{at} {floor_c}: {fed:?}");
            assert!(
                now.phases.iter().all(|phase| 60.0 * phase.every_min >= plan_s),
                "{at} {floor_c}: {:?}",
                now.phases
            );
            if at > "18:30" {
                assert!(now.phases.is_empty() && now.feed_next.is_empty(), "{at} {floor_c}: {now:?}");
                let says = &now.acts[0];
                assert!(says.contains("No feeding helps any more") || now.margins.loads == 0, "{says}");
            }
            if floor_c < 200.0 && at > "18:00" && now.margins.loads > 0 {
                assert!(!now.carries && !now.hold.is_empty(), "{at} {floor_c}: {now:?}");
            }
        }
    }
}

#[test]
fn what_is_taken_as_fed_is_said() {
    let resolved = with(small(), |_| ());
    let report = asked(&resolved, "18:05", 290.0, &[]);
    let planned: Vec<&String> = report.pieces.iter().map(|p| &p.at).filter(|at| at.as_str() < "18:05").collect();
    let now = report.now.expect("a replan");
    assert_eq!(now.fed.assumed.iter().collect::<Vec<_>>(), planned);
    assert!(now.fed.told.is_empty() && now.taken[0].contains("nobody said otherwise"), "{:?}", now.taken);
    // The last three are left out, and one is fed instead.
    let from = planned[planned.len() - 3];
    let told = rest(&resolved, "18:05", 290.0, &[from.as_str()]);
    assert_eq!(told.fed.told, std::slice::from_ref(from));
    assert_eq!(told.fed.left_out.len(), 2, "{:?}", told.fed);
    assert!(told.taken[0].contains("taken as not fed"), "{:?}", told.taken);
    assert!(told.expected_c < now.expected_c, "{} {}", told.expected_c, now.expected_c);
}

#[test]
fn what_was_skipped_is_never_taken_as_burnt() {
    let resolved = with(small(), |_| ());
    let (at, floor_c) = ("18:05", 290.0);
    let report = asked(&resolved, at, floor_c, &[]);
    let planned: Vec<f64> = report.pieces.iter().map(|p| seconds(&p.at)).filter(|t| *t < seconds(at)).collect();
    let [.., before, last] = planned[..] else { panic!("{planned:?}") };
    let now = |fed: &[f64], skipped: &[f64]| {
        let now = Now { at: seconds(at), floor_c, fed: fed.to_vec(), skipped: skipped.to_vec() };
        ask::fire(&resolved, Some(&now)).now.expect("a replan")
    };
    let all = report.now.expect("a replan");
    let skipped = now(&[], &[last]);
    assert_eq!(skipped.fed.skipped, [clock::write(last)]);
    assert!(skipped.expected_c < all.expected_c - 1.0, "{} {}", skipped.expected_c, all.expected_c);
    assert!(skipped.taken[0].contains("Planned and not fed then"), "{:?}", skipped.taken);
    // What is still to come stays as planned, where nothing else is called for.
    assert!(times(&skipped).iter().all(|t| *t >= seconds(at)));
    // Before what was fed, and by a time that is not quite the plan's, it is out as well; what was fed late is fed once.
    let early = now(&[last], &[before + 120.0]);
    assert_eq!((early.fed.skipped, early.fed.told), (vec![clock::write(before)], vec![clock::write(last)]));
    for late in [now(&[last + 120.0], &[]), now(&[last + 240.0], &[last])] {
        assert_eq!(late.fed.assumed.len() + late.fed.told.len(), planned.len(), "{:?}", late.fed);
        assert!(!late.fed.assumed.contains(&clock::write(last)), "{:?}", late.fed);
    }
    let request = json!({"question": "fire", "scenario": small(), "at": at, "floor_c": floor_c, "skipped": ["18:10"]});
    let answer = ask::answer(&request.to_string());
    assert!(answer.contains("planned anew with it"), "not skipped yet: {answer}");
}

#[test]
fn a_reading_goes_as_deep_as_heat_does_and_stays_for_the_evening() {
    let resolved = with(small(), |draft| {
        draft["feeding"] =
            json!({"light_at": "15:40", "phases": [{"from": "16:00", "to": "18:30", "every_min": 12, "pieces": 1}]});
    });
    let ready = Ready::new(&resolved.scenario, DEFAULT_ACCURACY);
    let at = seconds("18:00");
    let stand = || {
        let mut hearth = Hearth::new(&ready.build, &ready.scenario);
        run_until(&ready, &mut hearth, Vec::new(), Keep::default(), at);
        hearth
    };
    let planned_c = shown_c(&ready, &stand());
    for off_k in [-60.0, 30.0] {
        let mut hearth = stand();
        let differs = take(&ready, &mut hearth, planned_c + off_k, seconds("15:40"));
        assert!((shown_c(&ready, &hearth) - planned_c - off_k).abs() < 0.5, "{off_k}");
        // Within two hours and more most of it has reached the underside of a floor of some centimetres, and never more than the face.
        let share = differs.underside_k / off_k;
        assert!((0.3..1.0).contains(&share), "{share}");
        assert!((hearth.dome_c() - stand().dome_c() - off_k).abs() < 0.1 * off_k.abs(), "the dome with it");
        // An hour on, by the same feeding, a good part is still there.
        let mut planned = stand();
        for oven in [&mut hearth, &mut planned] {
            oven.open_ledger();
            run_until(&ready, oven, Vec::new(), Keep::default(), at + 2400.0);
        }
        let left = (shown_c(&ready, &hearth) - shown_c(&ready, &planned)) / off_k;
        assert!((0.4..1.0).contains(&left), "{off_k}: {left}");
    }
    // The coldest reading there may be is no fault.
    let mut out = stand();
    take(&ready, &mut out, 20.0, seconds("15:40"));
    assert!(out.faces_over_k().iter().all(|k| *k > -20.0));
    let cold = rest(&resolved, "18:05", 20.0, &[]);
    assert!(!cold.carries && cold.hold.iter().all(|hold| hold.dish == "Leek round"), "{cold:?}");
}

#[test]
fn an_evening_without_a_plan_is_answered_from_here_on() {
    let resolved = with(small(), |draft| {
        draft["service"]["load_s"] = json!(50);
        draft["service"]["lift_s"] = json!(50);
        draft["service"]["covers"] = json!([14, 14, 14, 14]);
        draft["feeding"] =
            json!({"light_at": "15:40", "phases": [{"from": "16:00", "to": "18:45", "every_min": 1, "pieces": 1}]});
    });
    let report = asked(&resolved, "18:10", 290.0, &[]);
    assert!(report.no_plan.is_some() && report.phases.is_empty());
    let now = report.now.as_ref().expect("an answer from here on");
    assert!(!now.planned && now.taken[0].contains("as your scenario has it"), "{:?}", now.taken);
    assert!(now.because.contains("No feeding carries the whole evening"), "{}", now.because);
    // Typed denser than the oven bears: not gone on with.
    let least_s = 60.0 * f64::from(keenest(&Bench::new(&resolved.scenario, DEFAULT_ACCURACY)).every_min);
    assert!(times(now).windows(2).all(|pair| pair[1] - pair[0] >= least_s - 1.0), "{:?}", now.phases);
    assert!(fire_text::fire(&report).contains("Now, 18:10"));
}

#[test]
fn what_to_do_now_stands_first_and_margins_beside_the_rest() {
    let resolved = with(small(), |_| ());
    let report = asked(&resolved, "18:05", 270.0, &[]);
    let now = report.now.as_ref().expect("a replan");
    assert!(report.says.starts_with(&now.acts[0]) && !report.says.contains("Light at"), "{}", report.says);
    assert!(
        report.because.contains("still to come") && report.because.contains("of the doorway's air"),
        "{}",
        report.because
    );
    let text = fire_text::fire(&report);
    assert!(text.contains("Stretch") && text.contains("Read again at"), "{text}");
    assert!(text.lines().all(|line| line.chars().count() <= 80), "{text}");
}

#[test]
fn before_the_match_a_reading_that_is_off_moves_it() {
    let resolved = with(small(), |_| ());
    let planned = ask::fire(&resolved, None).light_at.expect("a match");
    let cold = rest(&resolved, "15:35", 60.0, &[]);
    let lit = cold.light_at.clone().expect("still to be lit");
    assert!(lit < planned && lit.as_str() >= "15:35", "{lit} {planned}");
    assert!(cold.acts[0].starts_with("Not lit yet"), "{:?}", cold.acts);
    let agrees = rest(&resolved, "15:35", expected_c(&resolved, "15:35"), &[]);
    assert_eq!((agrees.light_at, agrees.keeps_plan), (Some(planned), true));
}

#[test]
fn times_of_an_evening_past_midnight_and_out_of_it() {
    let night = |draft: &mut Value| {
        draft["start"]["read_at"] = json!("21:30");
        draft["service"]["start"] = json!("24:00");
        draft["service"]["end"] = json!("25:00");
        draft["feeding"] = json!({"light_at": "21:40", "phases": []});
    };
    let resolved = with(small(), night);
    let late = rest(&resolved, "24:10", expected_c(&resolved, "24:10"), &[]);
    assert!(late.keeps_plan && late.carries && late.at == "24:10", "{late:?}");
    // As a clock on the wall shows it.
    let read = {
        let fed = ["23:58".to_owned()];
        let typed = Typed { at: Some("00:10"), floor_c: Some(290.0), fed: &fed, skipped: &[] };
        ask::read_now(&resolved, &typed).expect("tonight").expect("now")
    };
    assert_eq!((read.at, read.fed), (seconds("24:10"), vec![seconds("23:58")]));
    for (at, says) in [("21:00", "start.floor_c"), ("25:30", "nothing is left")] {
        let typed = Typed { at: Some(at), floor_c: Some(290.0), ..Typed::default() };
        let problems = ask::read_now(&resolved, &typed).expect_err("out of the evening");
        assert!(problems[0].field == "at" && problems[0].says.contains(says), "{problems:?}");
    }
    // The very end of the evening is answered.
    let end = rest(&resolved, "25:00", 250.0, &[]);
    assert!(end.phases.is_empty(), "{end:?}");
}

#[test]
fn a_reading_that_cannot_be_is_named() {
    let answer = ask::answer(&json!({"question": "fire", "scenario": small(), "at": "7pm", "floor_c": 5}).to_string());
    let answer: Value = serde_json::from_str(&answer).expect("JSON");
    let fields: Vec<&str> =
        answer["problems"].as_array().expect("problems").iter().filter_map(|p| p["field"].as_str()).collect();
    assert_eq!(fields, ["at", "floor_c"]);
}

#[test]
fn what_is_said_of_now_in_the_wrong_way_is_named_and_never_passed_over() {
    let wrong = [
        (json!({"at": 1805, "floor_c": 290}), "at"),
        (json!({"at": "18:05", "floor_c": "290"}), "floor_c"),
        (json!({"at": "18:05", "floor_c": 290, "fed": 18.05}), "fed"),
        (json!({"at": "18:05", "floor_c": 290, "fed": ["18:00", 1801]}), "fed"),
        (json!({"at": "18:05", "floor_c": 290, "skipped": {"at": "18:00"}}), "skipped"),
        (json!({"rough_nights": "40"}), "rough_nights"),
        (json!({"rough_nights": 2.5}), "rough_nights"),
        (json!({"rough_nights": 100_000}), "rough_nights"),
        (json!({"first_firing": "yes"}), "first_firing"),
        (json!({"At": "18:05"}), "At"),
        (json!({"floor": 290}), "floor"),
        (json!({"feed": ["18:05"]}), "feed"),
        (json!({"rough_night": 4}), "rough_night"),
    ];
    for (more, field) in wrong {
        let mut request = json!({"question": "fire", "scenario": small()});
        more.as_object().expect("fields").iter().for_each(|(name, value)| request[name] = value.clone());
        let answer: Value = serde_json::from_str(&ask::answer(&request.to_string())).expect("JSON");
        let fields: Vec<&str> =
            answer["problems"].as_array().into_iter().flatten().filter_map(|p| p["field"].as_str()).collect();
        assert_eq!(fields, [field], "{more}: {answer}");
    }
}
