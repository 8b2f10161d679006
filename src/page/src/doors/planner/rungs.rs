//! Owns the table of rungs, on wood alone or with gas: each looked at with one press, opened as a scenario with another.

use super::{
    choice::{self, Choice},
    verdict::{money, money_words, named, size},
};
use crate::{
    charts::{Table, canvas::save_text, ladder::Held},
    figures as said,
    form::{Desk, shelf::title},
    route::{Door, Place},
    state::{Action, draft},
    words::{fill, print, words},
};
use hearthload::report::{FloorsReport, RungReport};
use serde_json::Value;
use std::rc::Rc;
use yew::prelude::*;

/// The table's properties.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
    /// The ladder.
    pub report: Rc<FloorsReport>,
    /// The rung that is looked at.
    pub chosen: Option<Choice>,
    /// Hears which rung is to be looked at.
    pub on_pick: Callback<Choice>,
}

/// The place of the gas among the figures: on wood alone there is none.
const GAS: usize = 4;

/// Whether a column is shown.
fn is_shown(place: usize, gas: bool) -> bool {
    gas || place != GAS
}

/// The figures of a rung, as its row has them behind the name.
fn cells(desk: &Desk, report: &FloorsReport, rung: &RungReport) -> Vec<String> {
    let say = words();
    let dash = || "–".to_owned();
    if rung.too_small {
        let mut cells = vec![say.rung_small.to_owned()];
        cells.extend((1..heads().len() - 1).map(|_| dash()));
        return cells;
    }
    let carries = match (rung.carries, rung.carries_grown) {
        (true, true) => say.rung_grown.to_owned(),
        (true, false) => say.rung_carries.to_owned(),
        _ => fill(say.rung_gives, &[&print(rung.gives_first.name())]),
    };
    let most = match choice::held(report, rung) {
        Held::Most(most) => said::number(most, 0),
        _ => said::number(0.0, 0),
    };
    vec![
        carries,
        most,
        rung.lowest_c.map_or_else(dash, |lowest_c| said::bare(lowest_c, 0, "°C")),
        said::bare(rung.wood_kg_week, 0, "kg"),
        said::bare(rung.gas_kwh_week, 0, "kWh"),
        money(desk, rung).map_or_else(dash, money_words),
        rung.light_up_min.map_or_else(dash, said::minutes),
        said::bare(rung.idle_kw, 1, "kW"),
        said::number(rung.preheat_mj, 0),
        said::bare(rung.capacity_kg_h, 1, "kg/h"),
        said::number(100.0 * rung.cooking_efficiency, 0),
    ]
}

fn heads() -> Vec<String> {
    words().rung_heads.split('|').map(said::head).collect()
}

/// All rungs, wood and gas, for a spreadsheet.
fn table(desk: &Desk, report: &FloorsReport) -> Table {
    let mut table = Table::with_head(&heads().iter().map(String::as_str).collect::<Vec<_>>());
    for rung in &report.rungs {
        table.row(std::iter::once(named(rung)).chain(cells(desk, report, rung)));
    }
    table
}

/// The table.
#[component]
pub(crate) fn Rungs(props: &Props) -> Html {
    let (say, report) = (words(), &props.report);
    // Follows the rung that is looked at until somebody turns it.
    let turned = use_state_eq(|| None::<bool>);
    let gas = turned.unwrap_or_else(|| props.chosen.is_some_and(|choice| choice.assist));
    let turn = |to: bool, says: &'static str| {
        let turned = turned.clone();
        let press = Callback::from(move |_: MouseEvent| turned.set(Some(to)));
        html! { <button type="button" onclick={press} aria-pressed={(gas == to).to_string()}>{ says }</button> }
    };
    let save = {
        let (desk, report) = (props.desk.clone(), report.clone());
        // The mark in front tells spreadsheets that the file is UTF-8.
        Callback::from(move |_: MouseEvent| {
            save_text(&format!("\u{feff}{}", table(&desk, &report).csv()), "text/csv", "floors.csv");
        })
    };
    let shown = report.rungs.iter().filter(|rung| rung.assist == gas);
    html! {
        <section class="slab rungs" aria-labelledby="rungs-title">
            <div class="group-head">
                <h2 id="rungs-title">{ if gas { say.rungs_gas } else { say.rungs_wood } }</h2>
                <div class="acts">{ turn(false, say.on_wood) }{ turn(true, say.with_gas) }</div>
            </div>
            <div class="frame" role="region" aria-labelledby="rungs-title" tabindex="0">
                <table>
                    <thead><tr>for (place, head) in heads().into_iter().enumerate().filter(|(place, _)| *place == 0 || is_shown(place - 1, gas)) { <th scope="col" key={head.clone()} class={class(place)}>{ head }</th> }<th scope="col"><span class="for-ears">{ say.rung_open }</span></th></tr></thead>
                    <tbody>for rung in shown { { row(props, rung) } }</tbody>
                </table>
            </div>
            <div class="same-save"><button type="button" class="quiet" onclick={save}>{ say.rungs_csv }</button></div>
            <details class="more">
                <summary>{ say.rungs_mean }</summary>
                <p class="how">{ print(&report.feeding_rule) }</p>
                for text in report.meanings.iter() { <p class="how" key={text.clone()}>{ print(text) }</p> }
            </details>
        </section>
    }
}

/// The column in words is set as words.
fn class(place: usize) -> Option<&'static str> {
    (place == 1).then_some("says")
}

fn row(props: &Props, rung: &RungReport) -> Html {
    let say = words();
    let mine = Choice::of(rung);
    let is_chosen = props.chosen == Some(mine);
    let pick = props.on_pick.reform(move |_: MouseEvent| mine);
    html! {
        <tr key={named(rung)} class={classes!(is_chosen.then_some("lit"))}>
            <th scope="row"><button type="button" class="quiet" onclick={pick} disabled={rung.too_small} aria-pressed={is_chosen.to_string()}
                aria-label={fill(say.rung_look, &[&named(rung)])}>{ size(rung) }</button></th>
            for (place, cell) in cells(&props.desk, &props.report, rung).into_iter().enumerate().filter(|(place, _)| is_shown(*place, rung.assist)) { <td key={place} class={class(place + 1)}>{ cell }</td> }
            <td>{ if rung.too_small { html! {} } else { open(&props.desk, rung) } }</td>
        </tr>
    }
}

/// The scenario of a rung: this one with the rung's floor, burner and feeding.
pub(crate) fn scenario_of(doc: &Value, rung: &RungReport) -> Value {
    let mut doc = doc.clone();
    for edit in &rung.edits {
        if edit.value.is_null() {
            draft::take(&mut doc, &edit.path);
        } else {
            draft::set(&mut doc, &edit.path, edit.value.clone());
        }
    }
    doc
}

fn open(desk: &Desk, rung: &RungReport) -> Html {
    let say = words();
    let name = fill(say.rung_name, &[title(draft::text(&desk.doc, "name")), &named(rung)]);
    let (send, says) = (desk.dispatcher(), fill(say.rung_opened, &[&named(rung)]));
    let mut doc = scenario_of(&desk.doc, rung);
    draft::set(&mut doc, "name", Value::from(name));
    let press = Callback::from(move |_: MouseEvent| {
        send.dispatch(Action::Spawn(doc.clone(), says.clone()));
        // Refused only where there is no history at all: then one stays where one is.
        let _ = gloo::utils::window().location().set_hash(&Place::at(Door::Chef).fragment());
    });
    html! { <button type="button" class="quiet" onclick={press} aria-label={fill(say.rung_open_this, &[&named(rung)])}>{ say.open }</button> }
}
