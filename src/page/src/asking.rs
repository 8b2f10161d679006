//! Owns what goes to the workers: the live verdict to one of its own, every other question in parts to the pool.

use crate::{
    golden::{CHECKS, WORKER},
    state::{
        Action, Computing, State,
        asked::{Ask, Subject},
    },
    worker::{
        Answer, Run,
        client::{Client, Heard},
        pool::{Came, Job, Pool, workers},
    },
};
use gloo::timers::callback::Timeout;
use hearthload::ask::read::read;
use serde_json::{Value, json};
use std::rc::Rc;
use yew::prelude::*;

/// How long the form must be still before its question goes out, ms.
const STILL_MS: u32 = 60;

/// A worker whose answers become actions.
#[hook]
fn use_worker(desk: &UseReducerHandle<State>) -> Rc<Client> {
    let send = desk.dispatcher();
    use_memo((), move |()| {
        Client::new(WORKER, move |heard| {
            send.dispatch(match heard {
                Heard::Answer { run, text } => match read(&text) {
                    Ok(answer) => Action::Heard(run, answer),
                    Err(error) => Action::Heard(run, Answer::Fault(error.to_string())),
                },
                Heard::Lost(why) => Action::Lost(why),
            });
        })
    })
}

/// Asks for the live verdict whenever the scenario has changed and stood still.
#[hook]
pub(crate) fn use_carrying(desk: &UseReducerHandle<State>) {
    let client = use_worker(desk);
    let running = desk.computing == Computing::Running;
    let doc = desk.doc.clone();
    use_effect_with((desk.run, running), move |(run, running)| {
        let run = *run;
        let wait = running.then(|| {
            // The first question of a visit need not wait for more typing.
            Timeout::new(if run == 1 { 0 } else { STILL_MS }, move || {
                client.ask(run, "carry", json!({ "question": "carry", "scenario": &*doc, "map": true }).to_string());
            })
        });
        move || drop(wait)
    });
}

/// Hands the pool the parts of all questions whose answers are awaited, the newest question first.
#[hook]
pub(crate) fn use_asking(desk: &UseReducerHandle<State>) {
    let send = desk.dispatcher();
    let pool = use_memo((), move |()| {
        Pool::new(CHECKS, workers(), move |run, index, came| {
            let answer = match came {
                Came::Answer(text) => read(&text).unwrap_or_else(|error| Answer::Fault(error.to_string())),
                Came::Lost(why) => Answer::Fault(why),
            };
            send.dispatch(Action::Part(run, index, answer));
        })
    });
    let parts: Vec<(Run, usize)> = next(desk).map(|(run, index, _)| (run, index)).collect();
    let desk = desk.clone();
    use_effect_with(parts, move |_| {
        pool.want(next(&desk).map(|(run, index, ask)| Job { run, index, request: ask.write().into() }).collect());
    });
}

/// How many of a question's requests are handed in at a time: enough for every worker, and some to follow.
const AHEAD: usize = 8;

/// What the workers are to do next.
fn next(state: &State) -> impl Iterator<Item = (Run, usize, Ask<'_>)> {
    let questions = state.asked.awaited().into_iter();
    questions.flat_map(move |question| {
        question.jobs().into_iter().take(AHEAD).map(|(index, ask)| (question.run, index, ask))
    })
}

/// Asks about a subject by itself: as long as it was never asked about this scenario, and, where `again` says so, each time the
/// scenario has changed and stood still for `still_ms`.
#[hook]
pub(crate) fn use_fresh(desk: &UseReducerHandle<State>, subject: Subject, with: Value, again: Option<u32>) {
    let question = desk.asked.get(subject);
    let ready = desk.problems.is_empty();
    let wanted = ready
        && match (question, again) {
            (None, _) => true,
            (Some(question), Some(_)) => question.is_stale(&desk.doc),
            (Some(_), None) => false,
        };
    let wait_ms = if question.is_none() { 0 } else { again.unwrap_or_default() };
    let send = desk.dispatcher();
    use_effect_with((wanted, desk.run, with), move |(wanted, _, with)| {
        let with = with.clone();
        let wait = wanted.then(|| Timeout::new(wait_ms, move || send.dispatch(Action::Ask(subject, with))));
        move || drop(wait)
    });
}
