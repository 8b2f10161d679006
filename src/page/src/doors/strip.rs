//! Owns the strips over the verdict: fields to mend, a computing that stopped, a file that could not be taken.

use crate::{
    form::Desk,
    parts::{focus_soon, id_of, marks},
    route::{Door, Place},
    state::{Action, Computing, State, draft},
    words::{fill, label, print, words},
};
use hearthload::scenario::{Problem, fields};
use yew::prelude::*;

/// Most fields linked at once.
const LINKED: usize = 6;

/// The strips' properties.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
}

/// The strips.
#[component]
pub(crate) fn Strip(props: &Props) -> Html {
    let desk = &props.desk;
    let send = desk.dispatcher();
    let again = {
        let send = send.clone();
        Callback::from(move |_: MouseEvent| send.dispatch(Action::Again))
    };
    let dismiss = Callback::from(move |_: MouseEvent| send.dispatch(Action::Dismiss));
    html! {
        <div class="strips" role="alert">
            <div>{ match &desk.computing {
                Computing::Mend => mend(desk),
                Computing::Stopped(why) => html! {
                    <div class="strip">{ marks::broken() }<p><strong>{ words().stopped }</strong>{ " " }{ words().safe }{ " " }<span class="why">{ print(why) }</span>
                            { if desk.answer.is_some() { format!(" {}", words().last_good) } else { String::new() } }</p>
                        <button type="button" onclick={again}>{ words().again }</button></div>
                },
                _ => html! { <span></span> },
            } }</div>
            <div>
                if let Some(says) = &desk.refused {
                    <div class="strip">{ marks::broken() }<p>{ says }</p><button type="button" onclick={dismiss}>{ words().dismiss }</button></div>
                }
            </div>
        </div>
    }
}

fn mend(desk: &Desk) -> Html {
    let problems = &desk.problems;
    let count = problems.len();
    let head = if count == 1 { words().mend_one.to_owned() } else { fill(words().mend_many, &[&count.to_string()]) };
    let tail = if desk.answer.is_some() { words().last_good } else { words().no_good };
    html! {
        <div class="strip">{ marks::broken() }
            <div>
                <p><strong>{ head }</strong>{ " " }
                    for problem in problems.iter().take(LINKED) { <span key={format!("{}{}", problem.field, problem.says)}>{ link(desk, problem) }{ " " }</span> }
                    { if count > LINKED { fill(words().and_more, &[&(count - LINKED).to_string()]) } else { String::new() } }
                </p>
                <p>{ tail }</p>
            </div>
        </div>
    }
}

/// Brings one to a field, through another door where it stands behind one.
pub(crate) fn show(send: &UseReducerDispatcher<State>, path: &str) {
    if gloo::utils::document().get_element_by_id(&id_of(path)).is_none() {
        let door = if path.starts_with("planning") { Door::Planner } else { Door::Chef };
        // Refused only where there is no history at all: then one stays where one is.
        let _ = gloo::utils::window().location().set_hash(&Place::at(door).fragment());
    }
    send.dispatch(Action::Show(path.to_owned()));
    focus_soon(id_of(path));
}

/// A link to the field; the sentence itself where the form has no field for it, with the way to take it out.
fn link(desk: &Desk, problem: &Problem) -> Html {
    let path = problem.field.clone();
    let send = desk.dispatcher();
    let Some(row) = fields::field(&fields::pattern_of(&path)) else {
        let there = !path.is_empty() && draft::get(&desk.doc, &path).is_some();
        let take = Callback::from(move |_: MouseEvent| send.dispatch(Action::Take(path.clone(), String::new())));
        return html! {
            <>{ print(&problem.says) }{ " " }{ if there { html! { <button type="button" class="link" onclick={take}>{ words().take_out }</button> } } else { html! {} } }</>
        };
    };
    let press = Callback::from(move |event: MouseEvent| {
        event.prevent_default();
        show(&send, &path);
    });
    html! { <a href={format!("#{}", id_of(&problem.field))} onclick={press}>{ label(row) }</a> }
}
