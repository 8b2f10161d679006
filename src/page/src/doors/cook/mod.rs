//! Owns the cook's door, how to fire tonight: the next piece against the clock, the reading, what to do until then, the evening on
//! one strip, and the sheet for the wall.

mod awake;
mod clock;
mod more;
mod next;
pub(crate) mod night;
mod orders;
mod reading;
mod sheet;

pub(crate) use clock::WallClock;

use super::Strip;
use crate::{
    asking::use_fresh,
    charts::{Picture, canvas::ChartCanvas},
    doors::chef::use_answer,
    form::Desk,
    parts::marks,
    state::{
        Action,
        asked::{Found, Question, Stand, Subject},
        tonight::{Read, Tonight},
    },
    storage,
    words::{fill, print, words},
};
use clock::use_now;
use gloo::events::EventListener;
use hearthload::{
    report::{FireNow, FireReport, words::clock_typed},
    scenario::Problem,
};
use night::{Night, last_s};
use serde_json::{Value, json};
use std::rc::Rc;
use yew::prelude::*;

/// How long the scenario must be still before the plan is worked out again, ms.
const STILL_MS: u32 = 600;

/// What the cook told, and the way to tell more.
pub(crate) type Told = (Rc<Tonight>, Callback<Tonight>);

/// What was told and could not be kept, and what was last known to be kept.
type Unkept = Option<(Tonight, Tonight)>;

/// What was told tonight, kept in this browser.
#[hook]
fn use_tonight(key: String) -> Told {
    let told = use_state(|| Rc::new(Tonight::default()));
    // What the browser had no room for: it is nowhere but here.
    let unkept = use_mut_ref(Unkept::default);
    {
        let (told, unkept) = (told.setter(), unkept.clone());
        use_effect_with((), move |()| {
            // Told in another tab: read anew.
            let heard = EventListener::new(&gloo::utils::window(), "storage", move |_| {
                let mut unkept = unkept.borrow_mut();
                match unkept.take() {
                    Some((tonight, known)) => {
                        let kept = storage::keep_tonight(&tonight, &known);
                        told.set(Rc::new(kept.clone().unwrap_or_else(|alone| alone)));
                        *unkept = kept.err().map(|alone| (alone, known));
                    }
                    None => told.set(Rc::default()),
                }
            });
            move || drop(heard)
        });
    }
    let current = if told.key == key { (*told).clone() } else { Rc::new(storage::tonight(&key)) };
    let change = {
        let (told, current) = (told.setter(), current.clone());
        Callback::from(move |next: Tonight| {
            let waiting = unkept.borrow_mut().take().filter(|(_, known)| known.key == next.key);
            let known = waiting.map_or_else(|| (*current).clone(), |(_, known)| known);
            let kept = storage::keep_tonight(&next, &known);
            told.set(Rc::new(kept.clone().unwrap_or_else(|alone| alone)));
            *unkept.borrow_mut() = kept.err().map(|alone| (alone, known));
        })
    };
    (current, change)
}

/// The request's fields for the rest of an evening.
pub(crate) fn rest_request(read: Read, tonight: &Tonight) -> Value {
    let (fed, skipped) = (tonight.fed(read.at_s), tonight.skipped(read.at_s));
    json!({ "at": clock_typed(read.at_s), "floor_c": read.floor_c, "fed": fed, "skipped": skipped })
}

fn found(question: Option<&Question>) -> Option<Rc<FireReport>> {
    match question?.found.as_ref()? {
        Found::Fire(report) => Some(report.clone()),
        _ => None,
    }
}

/// The rest of the evening that belongs to a reading.
pub(crate) fn rest_of(desk: &Desk, read: Option<Read>) -> Option<FireNow> {
    let (read, report) = (read?, found(desk.asked.get(Subject::Rest))?);
    let same = |now: &FireNow| now.at == clock_typed(read.at_s) && (now.floor_c - read.floor_c).abs() < 0.01;
    report.now.clone().filter(same)
}

/// Asks for the rest of the evening as long as it is not that of the reading that holds.
#[hook]
fn use_rest(desk: &Desk, tonight: &Rc<Tonight>, wanted: bool) {
    let question = desk.asked.get(Subject::Rest);
    let busy = question.is_some_and(|question| question.stand != Stand::Answered);
    let missing = wanted && tonight.reading.is_some() && !busy && rest_of(desk, tonight.reading).is_none();
    let (send, tonight) = (desk.dispatcher(), tonight.clone());
    use_effect_with((missing, desk.run), move |(missing, _)| {
        if let Some(read) = tonight.reading.filter(|_| *missing) {
            send.dispatch(Action::Ask(Subject::Rest, rest_request(read, &tonight)));
        }
    });
}

/// The cook's door.
#[component]
pub(crate) fn Cook(props: &super::Props) -> Html {
    let desk = &props.desk;
    awake::use_awake();
    use_fresh(desk, Subject::Fire, json!({}), Some(STILL_MS));
    let report = found(desk.asked.get(Subject::Fire));
    let now = use_now(report.as_ref().map_or(0.0, |report| last_s(report)));
    let (tonight, change) = use_tonight(format!("{} {}", now.day, desk.kept.open_id()));
    let types = props.place.within == "reading";
    use_rest(desk, &tonight, !types && report.is_some());
    let answer = use_answer(desk);
    // A fire that burns wants an answer, whether the evening has a plan or not.
    if props.place.within == "reading" && report.is_some() {
        return html! { <main class="cook"><reading::Typing desk={desk.clone()} now_s={now.s} {tonight} {change} /></main> };
    }
    let report = report.filter(|report| report.no_plan.is_none() && report.light_at.is_some());
    if props.place.within == "more" {
        return html! {
            <main class="cook cook-paper cook-more"><div class="strips" role="alert">{ old_plan(desk) }</div>
                <more::More desk={desk.clone()} {report} />{ caution() }</main>
        };
    }
    let Some(report) = report else {
        let why = found(desk.asked.get(Subject::Fire));
        return html! { <main class="cook cook-none">{ none(desk, why.as_deref(), tonight.reading) }</main> };
    };
    let rest = rest_of(desk, tonight.reading);
    let old = old_plan(desk);
    let night = Night { report: &report, rest: rest.as_ref(), tonight: &tonight, now_s: now.s };
    match props.place.within.as_str() {
        "sheet" => {
            html! { <main class="cook cook-paper"><div class="strips" role="alert">{ old }</div>{ sheet::on_screen(&night, answer.as_ref().as_ref()) }</main> }
        }
        _ => html! {
            <main class="cook">
                <div class="strips" role="alert">{ old }</div>
                <div class="cook-top">
                    <next::Next stage={night.stage()} now_s={now.s} report={report.clone()} tonight={tonight.clone()} change={change.clone()} broken={rest.as_ref().is_some_and(|rest| !rest.carries)} />
                    { orders::panel(desk, &night, &(tonight.clone(), change)) }
                </div>
                <section class="cook-strip" aria-label={words().cook_evening}>
                    <p class="cook-name"><strong>{ &report.name }</strong>{ " " }<a href="#tonight/sheet">{ words().cook_sheet }</a>{ " " }<a href="#tonight/more">{ words().cook_more }</a>{ " " }<span>{ words().cook_fed }{ ", " }<a href="#menu">{ words().cook_fed_menu }</a></span></p>
                    <EveningStrip now_s={now.s} picture={Picture::Evening(Rc::new(night.strip(answer.as_ref().as_ref(), true)))} />
                </section>
                { caution() }
                <div class="paper">{ sheet::paper(&night, answer.as_ref().as_ref()) }</div>
            </main>
        },
    }
}

/// That the plan shown is that of an earlier scenario, and why there is none of this one; nothing where it is this one's.
fn old_plan(desk: &Desk) -> Html {
    let say = words();
    let Some(question) = desk.asked.get(Subject::Fire).filter(|question| question.shows_old(&desk.doc)) else {
        return html! {};
    };
    let why = match question.refused(&desk.doc) {
        Some(Stand::Faulted(why)) => format!("{} {}", say.stopped, print(why)),
        Some(Stand::Mend(problems)) => all_of(problems),
        _ if !desk.problems.is_empty() => say.cook_mend.to_owned(),
        _ => say.cook_running.to_owned(),
    };
    html! { <div class="strip">{ marks::broken() }<p><strong>{ say.stale }</strong>{ " " }{ why }</p></div> }
}

fn all_of(problems: &[Problem]) -> String {
    problems.iter().map(|problem| print(&problem.says)).collect::<Vec<_>>().join(" ")
}

/// What to do when it gets dangerous; it cannot be closed.
fn caution() -> Html {
    html! { <p class="cook-caution" role="note"><strong>{ words().cook_flames }</strong></p> }
}

/// Where there is no plan: why, where to mend it, and what to do with a fire that burns already. No rhythm is shown for a plan beyond
/// a limit.
fn none(desk: &Desk, report: Option<&FireReport>, read: Option<Read>) -> Html {
    let say = words();
    let question = desk.asked.get(Subject::Fire);
    let (title, why) =
        match (report.and_then(|report| report.no_plan.as_ref()), question.map(|question| &question.stand)) {
            (Some(no_plan), _) => (say.cook_no_plan, print(&no_plan.says)),
            (None, Some(Stand::Faulted(why))) => (say.stopped, print(why)),
            (None, Some(Stand::Mend(problems))) => (say.cook_no_plan, all_of(problems)),
            _ if !desk.problems.is_empty() => (say.cook_mend, String::new()),
            _ => (say.cook_running, String::new()),
        };
    let waits = title == say.cook_running;
    html! {
        <>
            <section class={classes!("slab", "cook-why", waits.then_some("running"))} aria-busy={waits.to_string()}>
                <div>{ if waits { html! { <div class="line"></div> } } else { marks::broken() } }</div>
                <h1 role="status">{ title }</h1>
                <p class="because">{ why }</p>
                <div>{ if waits { html! {} } else { html! { <p class="cook-ways"><a class="cook-act" href="#menu">{ say.cook_to_menu }</a><a class="cook-leave" href="#tonight/more">{ say.first_title }</a></p> } } }</div>
                <div>{ if report.is_some() { burning(desk, read) } else { html! {} } }</div>
            </section>
            <Strip desk={desk.clone()} />
            { caution() }
        </>
    }
}

/// What to do with a fire that burns already, once its reading is typed.
fn burning(desk: &Desk, read: Option<Read>) -> Html {
    let (say, units) = (words(), crate::units::units());
    let told = read.map(|read| {
        let at = fill(say.cook_read_at, &[units.degree(), &units.clock(read.at_s)]);
        let rest = rest_of(desk, Some(read));
        html! {
            <>
                <p>{ format!("{} {at}", units.bare_degrees(read.floor_c)) }</p>
                <div class="cook-becomes" aria-live="polite">{ reading::becomes(desk, Some(read), rest.as_ref()) }</div>
            </>
        }
    });
    html! {
        <section class="cook-burning" aria-label={say.cook_burning}>
            <p class="cook-ways"><strong>{ say.cook_burning }</strong>{ " " }<a class="cook-act" href="#tonight/reading">{ say.cook_type }</a></p>
            <div>{ told.unwrap_or_default() }</div>
        </section>
    }
}

#[derive(Properties, PartialEq)]
struct StripProps {
    picture: Picture,
    /// The strip is drawn again with each beat of the clock.
    now_s: f64,
}

/// The strip, as high as its place leaves it where the view does not scroll.
#[component]
fn EveningStrip(props: &StripProps) -> Html {
    /// From this width on the view is as high as the window, CSS px; what stands over and under the strip there.
    const ACROSS_PX: f64 = 900.0;
    let (place, height) = (use_node_ref(), use_state(|| None::<f64>));
    {
        let (place, height) = (place.clone(), height.clone());
        // After each drawing: the orders above take more room or less, and the window may have turned.
        use_effect(move || {
            let Some(element) = place.cast::<web_sys::Element>() else { return };
            let wide = f64::from(gloo::utils::document_element().client_width()) >= ACROSS_PX;
            let now = wide.then(|| f64::from(element.client_height()).max(150.0));
            if *height != now {
                height.set(now);
            }
        });
    }
    html! {
        <div class="cook-strip-place" ref={place}>
            <div class="cook-strip-fit"><ChartCanvas picture={props.picture.clone()} height_px={*height} titled={false} tabled={false} /></div>
        </div>
    }
}

/// "15 °C under the plan."
pub(crate) fn off_plan(off_k: f64) -> String {
    let step = crate::units::units().step(off_k.abs());
    match off_k.round() {
        off if off < 0.0 => fill(words().cook_under, &[&step]),
        off if off > 0.0 => fill(words().cook_over_plan, &[&step]),
        _ => words().cook_as_planned.to_owned(),
    }
}
