//! Owns the planner's door, which floor to buy: the smallest that carries, the ladder as a picture and as a table, what the
//! building must bear, bad nights on the chosen floor.

mod building;
mod choice;
mod form;
mod rungs;
mod verdict;

use super::{Found, nights::Nights, sure::sure};
use crate::{
    asking::use_fresh,
    charts::{Picture, canvas::ChartCanvas},
    form::Desk,
    state::asked::Subject,
};
use choice::Choice;
use hearthload::report::FloorsReport;
use serde_json::json;
use std::rc::Rc;
use yew::prelude::*;

/// The ladder as far as it is worked out.
pub(crate) fn found(desk: &Desk) -> Option<Rc<FloorsReport>> {
    match &desk.asked.get(Subject::Floors)?.found {
        Some(Found::Floors(report)) => Some(report.clone()),
        _ => None,
    }
}

/// The planner's door.
#[component]
pub(crate) fn Planner(props: &super::Props) -> Html {
    let desk = &props.desk;
    use_fresh(desk, Subject::Floors, json!({}), None);
    let picked = use_state_eq(|| None::<Choice>);
    let report = found(desk);
    let chosen = report.as_ref().and_then(|report| choice::chosen(report, *picked));
    let pick = {
        let picked = picked.clone();
        Callback::from(move |choice: Choice| picked.set(Some(choice)))
    };
    html! {
        <main class="planner">
            <verdict::Verdict desk={desk.clone()} report={report.clone()} {chosen} />
            { form::form(desk) }
            <div class="pictures" id="pictures" tabindex="-1">
                if let (Some(report), Some(answer)) = (&report, &desk.answer) {
                    <section class="slab"><ChartCanvas picture={Picture::Ladder(Rc::new(choice::ladder(report, &answer.scenario, chosen)))} /></section>
                    if let Some(rung) = chosen.and_then(|choice| choice.rung(report)) {
                        <Nights desk={desk.clone()} subject={Subject::FloorNights} about={verdict::named(rung)} scenario={Some(Rc::new(rungs::scenario_of(&desk.doc, rung)))} />
                        { sure(desk, Subject::FloorSure, Some((&verdict::named(rung), rungs::scenario_of(&desk.doc, rung)))) }
                        { building::building(report, rung) }
                    }
                    <rungs::Rungs desk={desk.clone()} report={report.clone()} {chosen} on_pick={pick} />
                }
            </div>
        </main>
    }
}
