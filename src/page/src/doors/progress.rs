//! Owns how a long question is seen on its way: the floor line filling, what is there so far, a stop, and a way on.

use crate::{
    form::Desk,
    parts::marks,
    state::{
        Action,
        asked::{Question, Stand, Subject},
    },
    words::{fill, words},
};
use serde_json::Value;
use yew::prelude::*;

/// What it is made of.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
    /// Which question.
    pub subject: Subject,
    /// What is asked for beside the scenario, when it is asked anew.
    #[prop_or_default]
    pub with: Value,
    /// How far it is, in words.
    pub says: AttrValue,
    /// What the button says that asks for the first time.
    pub act: AttrValue,
    /// Whether what was asked for is no longer what is wanted, though the scenario is.
    #[prop_or_default]
    pub other: bool,
}

/// The way of a question.
#[component]
pub(crate) fn Progress(props: &Props) -> Html {
    let desk = &props.desk;
    let question = desk.asked.get(props.subject);
    html! { <div class="progress-part">{ match question {
        None => ask(props, &props.act),
        Some(question) if question.is_running() => running(props, question),
        Some(question) if props.other || question.is_stale(&desk.doc) => html! {
            <div class="going"><p>{ words().stale }</p>{ ask(props, words().ask_again) }</div>
        },
        Some(question) => ended(props, question),
    } }</div> }
}

fn press(props: &Props, action: impl Fn() -> Action + 'static, says: &str, class: &'static str) -> Html {
    let send = props.desk.dispatcher();
    let press = Callback::from(move |_: MouseEvent| send.dispatch(action()));
    html! { <button type="button" {class} onclick={press}>{ says.to_owned() }</button> }
}

fn ask(props: &Props, says: &str) -> Html {
    let (subject, with) = (props.subject, props.with.clone());
    if !props.desk.problems.is_empty() {
        return html! { <p class="how">{ words().ask_mend }</p> };
    }
    press(props, move || Action::Ask(subject, with.clone()), says, "act")
}

fn running(props: &Props, question: &Question) -> Html {
    let share = question.share();
    let subject = props.subject;
    // Spoken at each tenth, not at each part.
    let tenth = format!("{:.0}", (share * 10.0).floor() * 10.0);
    html! {
        <>
            <progress max="1" value={format!("{share:.3}")} aria-label={words().progress}></progress>
            <div class="going">
                <p>{ &props.says }</p>
                { press(props, move || Action::Stop(subject), words().stop_keep, "") }
            </div>
            <p class="for-ears" role="status">{ fill(words().progress_says, &[&tenth]) }</p>
        </>
    }
}

fn ended(props: &Props, question: &Question) -> Html {
    let subject = props.subject;
    let on = |says: &str| press(props, move || Action::GoOn(subject), says, "");
    match &question.stand {
        Stand::Stopped => html! {
            <>
                <progress max="1" value={format!("{:.3}", question.share())} aria-label={words().progress}></progress>
                <div class="going"><p>{ words().stopped_here }{ " " }{ &props.says }</p>{ on(words().go_on) }</div>
            </>
        },
        Stand::Faulted(why) => html! {
            <div class="strip" role="alert">{ marks::broken() }
                <p><strong>{ words().stopped }</strong>{ " " }{ words().safe }{ " " }<span class="why">{ why }</span></p>
                { on(words().again) }
            </div>
        },
        Stand::Mend(problems) => html! {
            <div class="strip" role="alert">{ marks::broken() }<p>for problem in problems.iter() { { format!("{} ", problem.says) } }</p></div>
        },
        Stand::Running | Stand::Answered => html! {},
    }
}
