//! Questions asked beside the live verdict: parts give the same answer in any order, a stop keeps what is there, old answers are
//! dropped, another scenario makes them stale.

use hearthload::ask;
use hearthload_page::{
    state::{
        Action, State,
        asked::{Found, Question, Stand, Subject},
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

fn nights(state: &State) -> &Question {
    state.asked.get(Subject::Nights).unwrap()
}

/// Lets the engine answer the job at a place of the list, as a worker would.
fn work(state: &Rc<State>, place: usize) -> Rc<State> {
    let jobs = nights(state).jobs();
    let (index, ask) = &jobs[place.min(jobs.len() - 1)];
    let answer = serde_json::from_str(&ask::answer_without_checks(&ask.write())).unwrap();
    act(state, Action::Part(nights(state).run, *index, answer))
}

fn finish(mut state: Rc<State>, place: usize) -> Rc<State> {
    for _ in 0..40 {
        if nights(&state).jobs().is_empty() {
            return state;
        }
        state = work(&state, place);
    }
    panic!("it never ends");
}

fn report(state: &State) -> Value {
    match &nights(state).found {
        Some(Found::Nights(report)) => serde_json::to_value(&**report).unwrap(),
        other => panic!("{other:?}"),
    }
}

#[test]
fn parts_in_any_order_give_the_answer_of_one_go() {
    let request = json!({ "question": "nights", "nights": 12, "scenario": &*page().doc });
    let whole: Value = serde_json::from_str(&ask::answer(&request.to_string())).unwrap();
    let first = finish(asked(12), 0);
    assert_eq!(nights(&first).stand, Stand::Answered);
    assert_eq!(report(&first), whole["ok"]);
    // The last that is wanted first: another order of parts, and sums over other parts on the way.
    assert_eq!(report(&finish(asked(12), usize::MAX)), whole["ok"]);
}

#[test]
fn a_stop_keeps_what_is_there_and_going_on_takes_up_from_it() {
    // What is wanted; one part; its sum.
    let state = work(&work(&work(&asked(12), 0), 0), 0);
    let stopped = act(&state, Action::Stop(Subject::Nights));
    assert_eq!(nights(&stopped).stand, Stand::Stopped);
    assert!(nights(&stopped).jobs().is_empty() && stopped.asked.awaited().is_empty());
    let run = report(&stopped)["nights"].as_u64().unwrap();
    assert!(run > 0 && run < 12, "{run}");
    assert!(nights(&stopped).share() > 0.0 && nights(&stopped).share() < 1.0);
    let done = finish(act(&stopped, Action::GoOn(Subject::Nights)), 0);
    assert_eq!(report(&done), report(&finish(asked(12), 0)));
    assert!((nights(&done).share() - 1.0).abs() < 1e-12);
}

#[test]
fn answers_to_an_older_asking_or_to_what_was_stopped_are_dropped() {
    let old = work(&asked(12), 0);
    let run = nights(&old).run;
    let new = act(&old, Action::Ask(Subject::Nights, json!({ "nights": 12 })));
    let late = |state: &Rc<State>| act(state, Action::Part(run, 0, Answer::Ok(json!({ "part": [] }))));
    assert_eq!(late(&new).asked, new.asked);
    let stopped = act(&old, Action::Stop(Subject::Nights));
    assert_eq!(late(&stopped).asked, stopped.asked);
}

#[test]
fn a_fault_keeps_what_was_found_and_can_be_tried_again() {
    let state = work(&work(&work(&asked(12), 0), 0), 0);
    let found = report(&state);
    let broken = act(&state, Action::Part(nights(&state).run, 1, Answer::Fault("out of memory".to_owned())));
    assert_eq!(nights(&broken).stand, Stand::Faulted("out of memory".to_owned()));
    assert_eq!(report(&broken), found);
    assert_eq!(report(&finish(act(&broken, Action::GoOn(Subject::Nights)), 0))["nights"], 12);
}

#[test]
fn what_the_engine_refuses_is_said() {
    let state = act(&page(), Action::Ask(Subject::Rest, json!({ "at": "25:00", "floor_c": 300 })));
    let rest = state.asked.get(Subject::Rest).unwrap();
    let answer = serde_json::from_str(&ask::answer_without_checks(&rest.jobs()[0].1.write())).unwrap();
    let state = act(&state, Action::Part(rest.run, 0, answer));
    let stand = &state.asked.get(Subject::Rest).unwrap().stand;
    assert!(matches!(stand, Stand::Mend(problems) if problems[0].field == "at"), "{stand:?}");
}

#[test]
fn an_answer_is_stale_once_the_scenario_differs_in_what_matters_and_gone_with_another_scenario() {
    let state = finish(asked(5), 0);
    let stale = |state: &State| nights(state).is_stale(&state.doc);
    assert!(!stale(&state));
    let set = |state: &Rc<State>, path: &str, value: Value| act(state, Action::Set(path.to_owned(), Some(value)));
    let renamed = set(&set(&state, "name", json!("Other")), "planning.wood_price_kg", json!(0.5));
    assert_eq!(draft::text(&renamed.doc, "name"), "Other");
    assert!(!stale(&renamed), "a name and a price change no night");
    let wider = set(&renamed, "oven.width_cm", json!(150));
    assert!(stale(&wider));
    assert!(!stale(&act(&wider, Action::Undo)), "back where it was asked");
    let asked_again = act(&wider, Action::Ask(Subject::Nights, json!({ "nights": 5 })));
    assert!(!stale(&asked_again), "the answer to this one is on its way");
    assert_eq!(report(&asked_again), report(&wider), "the old answer stays till then");
    let (first, other) = (asked_again.kept.open_id(), act(&asked_again, Action::Copy("Copy".to_owned())));
    assert_eq!(other.asked.get(Subject::Nights), None);
    // Back at the first its answers are there again; what ran was stopped.
    let back = act(&other, Action::Open(first));
    assert_eq!(report(&back), report(&wider));
    assert_eq!(nights(&back).stand, Stand::Stopped);
    let again = act(&back, Action::GoOn(Subject::Nights));
    assert!(nights(&again).run > nights(&asked_again).run, "numbers are not given twice");
}
