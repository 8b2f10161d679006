//! Questions asked beside the live verdict: parts fold to the same answer in any order, a stop keeps what is there, old answers are
//! dropped, another scenario makes them stale.

use hearthload_page::{
    state::{
        Action, State,
        asked::{Found, Stand, Subject},
        draft,
        kept::Kept,
    },
    worker::Answer,
};
use serde_json::{Value, json};
use std::rc::Rc;
use yew::Reducible;

fn page() -> Rc<State> {
    let demo = include_str!("../../demo-data/carries.json");
    Rc::new(State::new(Kept::with(serde_json::from_str(demo).unwrap())))
}

fn act(state: &Rc<State>, action: Action) -> Rc<State> {
    state.clone().reduce(action)
}

fn asked(nights: u64) -> Rc<State> {
    act(&page(), Action::Ask(Subject::Nights, json!({ "nights": nights })))
}

/// What a worker would say to a part, with nights made up for speed: which broke is told by their number.
fn said(state: &State, index: usize) -> Value {
    let request: Value = serde_json::from_str(&state.asked.get(Subject::Nights).unwrap().parts[index].request).unwrap();
    let (from, count) = (request["from"].as_u64().unwrap(), request["count"].as_u64().unwrap());
    let nights: Vec<Value> = (from..(from + count).min(request["nights"].as_u64().unwrap()))
        .map(|index| {
            let holds = index % 3 != 0;
            json!({ "index": index, "broke": if holds { "" } else { "wait_p90_s" }, "gave": if holds { "" } else { "floor_heat" },
                "broke_s": if holds { Value::Null } else { json!(72_000.0 + 60.0 * index as f64) }, "wait_p90_s": 10.0 * index as f64,
                "wood_kg": 30.0 + index as f64, "lowest_c": 280.0, "covers": 100.0 })
        })
        .collect();
    json!({ "report": {}, "nights_run": nights })
}

fn hear(state: &Rc<State>, index: usize) -> Rc<State> {
    let run = state.asked.get(Subject::Nights).unwrap().run;
    act(state, Action::Part(run, index, Answer::Ok(said(state, index))))
}

fn report(state: &State) -> Value {
    match &state.asked.get(Subject::Nights).unwrap().found {
        Some(Found::Nights(report)) => serde_json::to_value(&**report).unwrap(),
        other => panic!("{other:?}"),
    }
}

#[test]
fn parts_in_any_order_give_the_same_answer_and_count_up_on_the_way() {
    let state = asked(35);
    assert_eq!(state.asked.get(Subject::Nights).unwrap().progress(), (0, 4));
    let (mut forth, mut back) = (state.clone(), state);
    for index in 0..4 {
        (forth, back) = (hear(&forth, index), hear(&back, 3 - index));
        assert_eq!(back.asked.get(Subject::Nights).unwrap().progress(), (index + 1, 4));
    }
    assert_eq!(report(&forth), report(&back));
    assert_eq!(report(&forth)["nights"], 35);
    assert_eq!(forth.asked.get(Subject::Nights).unwrap().stand, Stand::Answered);
}

#[test]
fn a_stop_keeps_what_is_there_and_going_on_takes_up_from_it() {
    let state = hear(&asked(30), 1);
    let stopped = act(&state, Action::Stop(Subject::Nights));
    let question = stopped.asked.get(Subject::Nights).unwrap();
    assert_eq!(question.stand, Stand::Stopped);
    assert!(stopped.asked.awaited().is_empty());
    assert_eq!((report(&stopped)["nights"].as_u64(), report(&stopped)["asked"].as_u64()), (Some(10), Some(30)));
    // A late answer to what was stopped is not taken.
    assert_eq!(hear(&stopped, 0).asked, stopped.asked);
    let on = act(&stopped, Action::GoOn(Subject::Nights));
    let question = on.asked.get(Subject::Nights).unwrap();
    assert_eq!(question.open_parts().iter().map(|part| part.0).collect::<Vec<_>>(), [0, 2]);
    let done = hear(&hear(&on, 0), 2);
    assert_eq!(report(&done)["nights"], 30);
}

#[test]
fn answers_to_an_older_asking_are_dropped() {
    let old = asked(20);
    let run = old.asked.get(Subject::Nights).unwrap().run;
    let new = act(&old, Action::Ask(Subject::Nights, json!({ "nights": 20 })));
    let heard = act(&new, Action::Part(run, 0, Answer::Ok(said(&new, 0))));
    assert_eq!(heard.asked, new.asked);
}

#[test]
fn a_fault_keeps_what_was_found_and_can_be_tried_again() {
    let state = hear(&asked(20), 0);
    let run = state.asked.get(Subject::Nights).unwrap().run;
    let broken = act(&state, Action::Part(run, 1, Answer::Fault("out of memory".to_owned())));
    assert_eq!(broken.asked.get(Subject::Nights).unwrap().stand, Stand::Faulted("out of memory".to_owned()));
    assert_eq!(report(&broken)["nights"], 10);
    let again = hear(&act(&broken, Action::GoOn(Subject::Nights)), 1);
    assert_eq!(report(&again)["nights"], 20);
}

#[test]
fn an_answer_is_stale_once_the_scenario_differs_in_what_matters_and_gone_with_another_scenario() {
    let mut state = asked(10);
    state = hear(&state, 0);
    let stale = |state: &State| state.asked.get(Subject::Nights).unwrap().is_stale(&state.doc);
    assert!(!stale(&state));
    let set = |state: &Rc<State>, path: &str, value: Value| act(state, Action::Set(path.to_owned(), Some(value)));
    let renamed = set(&set(&state, "name", json!("Other")), "planning.wood_price_kg", json!(0.5));
    assert_eq!(draft::text(&renamed.doc, "name"), "Other");
    assert!(!stale(&renamed), "a name and a price change no night");
    let wider = set(&renamed, "oven.width_cm", json!(150));
    assert!(stale(&wider));
    assert!(!stale(&act(&wider, Action::Undo)), "back where it was asked");
    let asked_again = act(&wider, Action::Ask(Subject::Nights, json!({ "nights": 10 })));
    assert!(!stale(&asked_again), "the answer to this one is on its way");
    assert_eq!(report(&asked_again), report(&wider), "the old answer stays till then");
    let other = act(&asked_again, Action::Copy("Copy".to_owned()));
    assert_eq!(other.asked.get(Subject::Nights), None);
}
