//! Owns the details of one dish.

use super::{Desk, dishes::name_of, ingredients::Ingredients, leaf};
use crate::{
    figures as said,
    parts::notice,
    state::{Action, draft},
    words::{fill, words},
};
use hearthload::report::HeatParts;
use serde_json::{Value, json};
use yew::prelude::*;

/// A dish of the menu.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
    /// Its place in the menu.
    pub index: usize,
}

/// Its details.
#[component]
pub(crate) fn DishDetails(props: &Props) -> Html {
    let (desk, index) = (&props.desk, props.index);
    let at = |key: &str| format!("menu[{index}].{key}");
    let some = |keys: &[&str]| html! { <div class="fields">for key in keys.iter() { { leaf(desk, &at(key)) } }</div> };
    let say = words();
    let dish = draft::get(&desk.doc, &format!("menu[{index}]")).cloned().unwrap_or_default();
    let name = name_of(&dish);
    let round = draft::text(&dish, "footprint.shape") != "rectangle"
        && (draft::get(&dish, "footprint.width_cm").is_none() || draft::get(&dish, "footprint.diameter_cm").is_some());
    let print: &[&str] = if round {
        &["footprint.shape", "footprint.diameter_cm"]
    } else {
        &["footprint.shape", "footprint.width_cm", "footprint.depth_cm"]
    };
    let by_gun: &[&str] =
        if draft::text(&dish, "known_bake.seen") == "floor" { &["known_bake.floor_at_lift_c"] } else { &[] };
    let count = draft::list(&desk.doc, "menu").len();
    let go = |by: isize| {
        let desk = desk.clone();
        Callback::from(move |_: MouseEvent| {
            let to = index.saturating_add_signed(by);
            desk.dispatch(super::dishes::shift(&desk, index, to));
            desk.dispatch(Action::TurnDish(to));
        })
    };
    let send = desk.dispatcher();
    let remove = {
        let says = fill(say.dish_gone, &[&name]);
        Callback::from(move |_: MouseEvent| send.dispatch(Action::Take(format!("menu[{index}]"), says.clone())))
    };
    html! {
        <div class="dish-details">
            { some(&["name"]) }
            <Ingredients desk={desk.clone()} {index} />
            { heat(desk, index, &name) }
            <h3>{ say.known_bake }</h3>
            { some(&["known_bake.minutes", "known_bake.floor_c", "known_bake.dome_c", "known_bake.flame", "known_bake.seen"]) }
            { some(by_gun) }
            <h3>{ say.its_bands }</h3>
            { some(&["floor_min_c", "floor_max_c", "dome_min_c", "dome_max_c"]) }
            <h3>{ say.on_floor }</h3>
            { some(print) }
            { pan(desk, index, &dish) }
            <h3>{ say.in_and_out }</h3>
            { some(&["start_c", "end_c", "bake_loss_percent"]) }
            <h3>{ say.rest }</h3>
            { some(&["cap_per_quarter", "margin_each"]) }
            <div class="acts">
                <button type="button" disabled={index == 0} onclick={go(-1)}>{ say.dish_up }</button>
                <button type="button" disabled={index + 1 >= count} onclick={go(1)}>{ say.dish_down }</button>
            </div>
            <div class="acts"><button type="button" onclick={remove}>{ fill(say.remove_dish, &[&name]) }</button></div>
        </div>
    }
}

/// The pan or pot: there is one, or the dish lies on the stone.
fn pan(desk: &Desk, index: usize, dish: &Value) -> Html {
    let path = format!("menu[{index}].carrier");
    let there = dish.get("carrier").is_some_and(|pan| !pan.is_null());
    let (send, place) = (desk.dispatcher(), path.clone());
    let turn =
        Callback::from(move |_: MouseEvent| send.dispatch(Action::Set(place.clone(), (!there).then(|| json!({})))));
    html! {
        <div class="pan">
            <h3>{ words().pan }</h3>
            <div>
                if there {
                    <div class="fields">for key in ["material", "mass_kg", "in_c", "out_min"] { { leaf(desk, &format!("{path}.{key}")) } }</div>
                } else {
                    <p class="how">{ words().no_pan }</p>
                }
            </div>
            <div class="acts"><button type="button" class="quiet" onclick={turn}>{ if there { words().remove_pan } else { words().add_pan } }</button></div>
        </div>
    }
}

/// What takes its heat, from the last good answer, where that knows the dish.
fn heat(desk: &Desk, index: usize, name: &str) -> Html {
    let found =
        desk.answer.as_ref().and_then(|answer| answer.report.dishes.get(index)).filter(|dish| dish.name == name);
    let Some(dish) = found else { return html! { <div></div> } };
    html! {
        <div class="takes">
            <h3>{ fill(words().takes_heat, &[&said::kj(dish.heat_kj)]) }</h3>
            { bars(&dish.parts) }
            for finding in dish.findings.iter() { <div key={finding.clone()}>{ notice::warning(finding) }</div> }
        </div>
    }
}

fn bars(parts: &HeatParts) -> Html {
    let say = words();
    let rows = [
        (say.water_boiled, parts.water_boiled_kj),
        (say.water_warmed, parts.water_warmed_kj),
        (say.solids, parts.solids_kj),
        (say.fat, parts.fat_kj),
        (say.carrier, parts.carrier_kj),
    ];
    let most = rows.iter().map(|row| row.1).fold(1.0, f64::max);
    html! {
        <ul class="bars">
            for (what, kj) in rows {
                <li key={what}>
                    <span>{ what }</span>
                    <svg viewBox="0 0 100 8" preserveAspectRatio="none" aria-hidden="true"><rect width={(kj.max(0.0) / most * 100.0).to_string()} height="8" /></svg>
                    <strong>{ said::kj(kj) }</strong>
                </li>
            }
        </ul>
    }
}
