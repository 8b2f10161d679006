//! Owns how a long question is seen on its way: the floor line filling, what is there so far, a stop, and a way on.

use crate::{
    form::Desk,
    parts::marks,
    state::{
        Action,
        asked::{Question, Stand, Subject},
    },
    words::{fill, print, words},
};
use serde_json::Value;
use yew::prelude::*;

/// The way of a question. Not a component: it has nothing of its own to remember.
pub(crate) struct Progress<'a> {
    desk: &'a Desk,
    subject: Subject,
    says: String,
    act: &'a str,
    with: Value,
    other: bool,
}

impl<'a> Progress<'a> {
    /// The way of a question: `says` is how far it is, in words, `act` what the button says that asks for the first time.
    pub fn of(desk: &'a Desk, subject: Subject, says: String, act: &'a str) -> Self {
        Self { desk, subject, says, act, with: Value::Null, other: false }
    }

    /// The same with what is asked for beside the scenario, and whether that differs from what was asked for before.
    pub fn with(self, with: Value, other: bool) -> Self {
        Self { with, other, ..self }
    }

    /// As it is seen.
    pub fn show(&self) -> Html {
        let question = self.desk.asked.get(self.subject);
        html! { <div class="progress-part">{ match question {
            None => ask(self, self.act),
            Some(question) if question.is_running() => running(self, question),
            // What broke is said even where an older answer still stands there.
            Some(question) if !self.other && question.refused(&self.desk.doc).is_some() => html! {
                <>
                    <div>{ ended(self, question) }</div>
                    <div>{ if question.shows_old(&self.desk.doc) { html! { <p>{ words().stale }</p> } } else { html! {} } }</div>
                </>
            },
            Some(question) if self.other || question.is_stale(&self.desk.doc) => html! {
                <div class="going"><p>{ words().stale }</p>{ ask(self, words().ask_again) }</div>
            },
            Some(question) => ended(self, question),
        } }</div> }
    }
}

fn press(way: &Progress, action: impl Fn() -> Action + 'static, says: &str, class: &'static str) -> Html {
    let send = way.desk.dispatcher();
    let press = Callback::from(move |_: MouseEvent| send.dispatch(action()));
    html! { <button type="button" {class} onclick={press}>{ says.to_owned() }</button> }
}

fn ask(way: &Progress, says: &str) -> Html {
    let (subject, with) = (way.subject, way.with.clone());
    if !way.desk.problems.is_empty() {
        return html! { <p class="how">{ words().ask_mend }</p> };
    }
    press(way, move || Action::Ask(subject, with.clone()), says, "act")
}

fn running(way: &Progress, question: &Question) -> Html {
    let say = words();
    if question.is_whole() {
        let subject = way.subject;
        return html! {
            <div class="going">
                <p role="status">{ &way.says }{ " " }{ say.whole }</p>
                { press(way, move || Action::Stop(subject), say.stop_whole, "") }
            </div>
        };
    }
    let share = question.share();
    let subject = way.subject;
    // Spoken at each tenth, not at each part.
    let tenth = format!("{:.0}", (share * 10.0).floor() * 10.0);
    html! {
        <>
            <progress max="1" value={format!("{share:.3}")} aria-label={words().progress}></progress>
            <div class="going">
                <p>{ &way.says }</p>
                { press(way, move || Action::Stop(subject), words().stop_keep, "") }
            </div>
            <p class="for-ears" role="status">{ fill(words().progress_says, &[&tenth]) }</p>
        </>
    }
}

fn ended(way: &Progress, question: &Question) -> Html {
    let subject = way.subject;
    let on = |says: &str| press(way, move || Action::GoOn(subject), says, "");
    match &question.stand {
        Stand::Stopped if question.is_whole() => html! {
            <div class="going"><p>{ words().stopped_whole }</p>{ on(words().again) }</div>
        },
        Stand::Stopped => html! {
            <>
                <progress max="1" value={format!("{:.3}", question.share())} aria-label={words().progress}></progress>
                <div class="going"><p>{ words().stopped_here }{ " " }{ &way.says }</p>{ on(words().go_on) }</div>
            </>
        },
        Stand::Faulted(why) => html! {
            <div class="strip" role="alert">{ marks::broken() }
                <p><strong>{ words().stopped }</strong>{ " " }{ words().safe }{ " " }<span class="why">{ print(why) }</span></p>
                { on(words().again) }
            </div>
        },
        Stand::Mend(problems) => html! {
            <div class="strip" role="alert">{ marks::broken() }<p>for problem in problems.iter() { { format!("{} ", print(&problem.says)) } }</p></div>
        },
        Stand::Running | Stand::Answered => html! {},
    }
}
