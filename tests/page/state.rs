//! What the page knows changes as its users expect: nothing typed is lost, everything can be taken back, old answers are dropped.

use hearthload::scenario::Problem;
use hearthload_page::{
    state::{Action, Computing, State, draft, kept::Kept},
    worker::Answer,
};
use serde_json::{Value, json};
use std::rc::Rc;
use yew::Reducible;

/// A scenario with all that only the kitchen knows.
fn right() -> Value {
    json!({
        "hearthload": 1, "name": "A", "oven": { "width_cm": 120 },
        "service": { "start": "18:00", "end": "18:30", "covers": [8, 12] },
        "menu": [dish("Leek round"), dish("Flatbread"), dish("Pear tin")],
    })
}

fn dish(name: &str) -> Value {
    json!({
        "name": name, "ingredients": [{ "food": "pizza_dough", "grams": 250 }], "footprint": { "diameter_cm": 28 },
        "known_bake": { "minutes": 3.3, "floor_c": 330 },
    })
}

fn page() -> Rc<State> {
    Rc::new(State::new(Kept::with(right())))
}

fn act(state: &Rc<State>, action: Action) -> Rc<State> {
    state.clone().reduce(action)
}

fn typed(state: &Rc<State>, path: &str, value: impl Into<Value>) -> Rc<State> {
    act(state, Action::Set(path.to_owned(), Some(value.into())))
}

fn names(state: &State) -> Vec<&str> {
    draft::list(&state.doc, "menu").iter().map(|dish| draft::text(dish, "name")).collect()
}

#[test]
fn a_right_scenario_is_asked_about_at_once() {
    let state = page();
    assert_eq!(state.computing, Computing::Running);
    assert!(state.problems.is_empty(), "{:?}", state.problems);
    assert!(state.assumed.contains_key("oven.dome_rise_cm"));
}

#[test]
fn what_cannot_be_right_is_kept_as_typed_and_named_at_its_field() {
    let state = typed(&page(), "oven.door_height_cm", 4);
    assert_eq!(state.computing, Computing::Mend);
    assert_eq!(draft::get(&state.doc, "oven.door_height_cm"), Some(&json!(4)));
    let says = state.problem_at("oven.door_height_cm").expect("a problem at the field");
    assert!(says.contains('4') && says.contains("10"), "{says}");
    let mended = typed(&state, "oven.door_height_cm", 28);
    assert_eq!(mended.computing, Computing::Running);
    assert!(mended.problems.is_empty());
}

#[test]
fn letters_of_one_number_are_one_step_back() {
    let mut state = page();
    for number in [1, 13, 130] {
        state = typed(&state, "oven.width_cm", number);
    }
    let state = act(&state, Action::Undo);
    assert_eq!(*state.doc, right());
    assert!(!state.can_undo());
}

#[test]
fn an_assumed_value_can_be_replaced_and_had_back() {
    let state = typed(&page(), "service.load_s", 9);
    assert!(state.replaced.contains("service.load_s"));
    assert!(!state.assumed.contains_key("service.load_s"));
    let back = act(&state, Action::Set("service.load_s".to_owned(), None));
    assert!(back.assumed.contains_key("service.load_s"));
    assert!(back.replaced.is_empty());
    // The way back by undo is the same.
    assert!(act(&state, Action::Undo).replaced.is_empty());
}

#[test]
fn dishes_are_taken_off_moved_and_put_back() {
    let state = act(&page(), Action::Take("menu[1]".to_owned(), "gone".to_owned()));
    assert_eq!(names(&state), ["Leek round", "Pear tin"]);
    assert_eq!(state.done.as_deref(), Some("gone"));
    let state = act(&state, Action::Shift("menu".to_owned(), 1, 0, "moved".to_owned()));
    assert_eq!(names(&state), ["Pear tin", "Leek round"]);
    let state = act(&act(&state, Action::Undo), Action::Undo);
    assert_eq!(*state.doc, right());
    let state = act(&state, Action::Insert("menu".to_owned(), 3, json!({ "name": "New" }), String::new()));
    assert_eq!(names(&state)[3], "New");
    assert_eq!(state.open_dish, Some(3));
}

#[test]
fn a_way_out_of_several_changes_is_one_step_back() {
    let edits =
        vec![("oven.assist".to_owned(), json!({ "rated_kw": 9 })), ("menu[0].per_100_covers".to_owned(), json!(12))];
    let state = act(&page(), Action::Apply(edits, "taken".to_owned()));
    assert_eq!(draft::get(&state.doc, "oven.assist.rated_kw"), Some(&json!(9)));
    assert_eq!(draft::get(&state.doc, "menu[0].per_100_covers"), Some(&json!(12)));
    assert_eq!(state.done.as_deref(), Some("taken"));
    assert_eq!(*act(&state, Action::Undo).doc, right());
}

#[test]
fn an_answer_to_an_older_question_is_dropped() {
    let old = page();
    let new = typed(&old, "oven.width_cm", 130);
    let heard = act(&new, Action::Heard(old.run, Answer::Fault("late".to_owned())));
    assert_eq!(heard.computing, Computing::Running);
    let heard = act(&new, Action::Heard(new.run, Answer::Fault("now".to_owned())));
    assert_eq!(heard.computing, Computing::Stopped("now".to_owned()));
}

#[test]
fn a_lost_worker_loses_nothing_and_can_be_started_again() {
    let state = act(&typed(&page(), "oven.width_cm", 130), Action::Lost("out of memory".to_owned()));
    assert_eq!(draft::get(&state.doc, "oven.width_cm"), Some(&json!(130)));
    let again = act(&state, Action::Again);
    assert_eq!(again.computing, Computing::Running);
    assert!(again.run > state.run, "the question is a new one");
}

#[test]
fn problems_the_worker_finds_are_shown_too() {
    let says = Problem {
        field: "oven.width_cm".to_owned(),
        given: "120".to_owned(),
        allowed: String::new(),
        unit: "cm".to_owned(),
        says: "It does not fit.".to_owned(),
    };
    let state = page();
    let state = act(&state, Action::Heard(state.run, Answer::Problems(vec![says])));
    assert_eq!(state.problem_at("oven.width_cm"), Some("It does not fit."));
    assert_eq!(state.computing, Computing::Mend);
}

#[test]
fn a_link_to_a_field_opens_the_part_it_stands_in() {
    let state = act(&page(), Action::Show("menu[2].known_bake.minutes".to_owned()));
    assert_eq!((state.open_group.as_deref(), state.open_dish), (Some("menu"), Some(2)));
    let state = act(&state, Action::Show("start.floor_c".to_owned()));
    assert_eq!(state.open_group.as_deref(), Some("oven"));
}

#[test]
fn scenarios_are_copied_opened_taken_away_and_had_back() {
    let state = act(&page(), Action::Copy("B".to_owned()));
    let (first, copy) = (state.kept.list()[0].id, state.kept.open_id());
    assert_eq!(state.kept.list().len(), 2);
    let state = typed(&state, "oven.width_cm", 140);
    let state = act(&state, Action::Open(first));
    assert_eq!(*state.doc, right(), "the copy's change is not the original's");
    assert!(!state.can_undo(), "steps belong to the scenario they were made in");
    let state = act(&state, Action::Forget(copy, "gone".to_owned()));
    assert_eq!(state.kept.list().len(), 1);
    let state = act(&state, Action::Undo);
    assert_eq!(state.kept.list().len(), 2);
    assert_eq!(state.kept.open_id(), first);
    // The last one stays.
    let state = act(&act(&page(), Action::Forget(1, String::new())), Action::Forget(1, String::new()));
    assert_eq!(state.kept.list().len(), 1);
}

#[test]
fn covers_follow_the_hours_and_come_back_with_them() {
    let covers = |state: &Rc<State>| draft::get(&state.doc, "service.covers").cloned();
    // As a time is typed, letter by letter: nothing is lost on the way.
    let mut state = page();
    for end in ["1", "19:0", "19:00"] {
        state = typed(&state, "service.end", end);
    }
    assert_eq!(covers(&state), Some(json!([8, 12, 0, 0])));
    assert!(state.problems.is_empty(), "{:?}", state.problems);
    assert!(state.done.as_deref().is_some_and(|says| says.contains('2')), "{:?}", state.done);
    state = typed(&state, "service.end", "18:15");
    assert_eq!(covers(&state), Some(json!([8])));
    assert!(state.done.as_deref().is_some_and(|says| says.contains("12")), "{:?}", state.done);
    state = typed(&state, "service.start", "17:45");
    assert_eq!(covers(&state), Some(json!([0, 8])));
    state = typed(&state, "service.end", "18:30");
    assert_eq!(covers(&state), Some(json!([0, 8, 12])));
    // One step back for each field, the covers with it.
    state = act(&state, Action::Undo);
    assert_eq!(covers(&state), Some(json!([0, 8])));
    let state = act(&act(&state, Action::Undo), Action::Undo);
    assert_eq!(*state.doc, right());
    // What the cook typed into the covers themselves is what counts from then on.
    let state = typed(&typed(&page(), "service.end", "18:45"), "service.covers[2]", 5);
    assert_eq!(covers(&typed(&state, "service.start", "18:15")), Some(json!([12, 5])));
    // Covers that never were as many as the quarter hours are left alone.
    let state = typed(&typed(&page(), "service.covers", json!([1, 2, 3])), "service.end", "19:15");
    assert_eq!(covers(&state), Some(json!([1, 2, 3])));
}

#[test]
fn the_demonstration_is_told_in_another_language_where_nobody_touched_it() {
    let told = |name: &str| {
        let mut doc = right();
        draft::set(&mut doc, "menu[0].name", Value::from(name));
        doc
    };
    let pairs = || vec![(told("Leek round"), told("Lauchfladen"))];
    let there = act(&page(), Action::Retell(pairs()));
    assert_eq!(names(&there)[0], "Lauchfladen");
    assert_eq!(there.computing, Computing::Running);
    assert_eq!(there.kept.open_doc(), there.doc);
    let own = act(&typed(&page(), "oven.width_cm", 130), Action::Retell(pairs()));
    assert_eq!(names(&own)[0], "Leek round", "a scenario that was changed is its owner's");
}
