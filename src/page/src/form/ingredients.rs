//! Owns what a dish is made of: foods found by name, grams beside them.

use super::{Desk, labelled};
use crate::{
    number,
    parts::{focus_soon, id_of, marks},
    state::{Action, State, draft},
    units,
    words::{fill, key_words, print, translate::tr, words},
};
use hearthload::{matter::food, units::decimal};
use serde_json::{Value, json};
use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// Most foods offered at once.
const OFFERED: usize = 8;

/// A dish of the menu.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
    /// Its place in the menu.
    pub index: usize,
}

/// Its ingredients.
#[component]
pub(crate) fn Ingredients(props: &Props) -> Html {
    let (desk, index) = (&props.desk, props.index);
    let list = format!("menu[{index}].ingredients");
    let foods: Vec<String> =
        draft::list(&desk.doc, &list).iter().map(|one| draft::text(one, "food").to_owned()).collect();
    html! {
        <div class="ingredients" id={id_of(&list)} tabindex="-1">
            <h3>{ words().made_of }</h3>
            for (place, food) in foods.iter().enumerate() {
                <div class="ingredient" key={place}>{ ingredient(desk, &list, place, food) }</div>
            }
            <div>
                if let Some(problem) = desk.problem_at(&list) {
                    <p class="problem">{ marks::cross() }<span>{ print(problem) }</span></p>
                }
            </div>
            <Search desk={desk.clone()} list={list.clone()} count={foods.len()} />
        </div>
    }
}

fn ingredient(desk: &Desk, list: &str, place: usize, food: &str) -> Html {
    let item = format!("{list}[{place}]");
    let name = name_of(food);
    let measure = food::find(food).map_or("", |food| food.measure);
    let grams = draft::get(&desk.doc, &format!("{item}.grams")).and_then(Value::as_f64);
    let (send, gone, says) = (desk.dispatcher(), item.clone(), fill(words().ingredient_gone, &[&name]));
    let remove = Callback::from(move |_: MouseEvent| send.dispatch(Action::Take(gone.clone(), says.clone())));
    html! {
        <>
            { labelled(desk, &format!("{item}.food"), None, true) }
            { labelled(desk, &format!("{item}.grams"), Some(fill(words().grams_of, &[&name])), true) }
            <button type="button" class="quiet remove" onclick={remove} aria-label={fill(words().remove_ingredient, &[&name])}>{ marks::cross() }</button>
            <Measure path={format!("{item}.grams")} {name} measure={measure} grams={grams} send={desk.dispatcher()} />
        </>
    }
}

#[derive(Properties, PartialEq)]
struct MeasureProps {
    /// Where the grams stand.
    path: String,
    name: String,
    /// The table's household measure, "1 tbsp = 14 g".
    measure: &'static str,
    grams: Option<f64>,
    send: UseReducerDispatcher<State>,
}

/// The same amount by spoons, cups or pieces, typed instead of weighed.
#[component]
fn Measure(props: &MeasureProps) -> Html {
    let typing = use_state(|| None::<String>);
    let Some((what, each_g)) = measure(props.measure) else { return html! { <div></div> } };
    let what = &tr(what);
    let input = {
        let (typing, send, path) = (typing.clone(), props.send.clone(), props.path.clone());
        Callback::from(move |event: InputEvent| {
            let Some(input) = event.target().and_then(|it| it.dyn_into::<HtmlInputElement>().ok()) else { return };
            let text = input.value();
            if let Some(count) = number::amount(&text) {
                send.dispatch(Action::Set(path.clone(), number::typed(&units::plain(count * each_g))));
            }
            typing.set(Some(text));
        })
    };
    let leave = {
        let typing = typing.clone();
        Callback::from(move |_: FocusEvent| typing.set(None))
    };
    let count = props.grams.map_or_else(String::new, |grams| units::shown(&units::plain(grams / each_g), ""));
    let shown = (*typing).clone().unwrap_or(count);
    html! {
        <p class="measure"><label>
            <input type="text" inputmode="decimal" autocomplete="off" value={shown} oninput={input} onblur={leave} aria-label={fill(words().measured, &[&props.name, what])} />
            <span>{ format!("{what}, {}", units::said(&format!("{}\u{a0}g", units::plain(each_g)))) }</span>
        </label></p>
    }
}

/// What a kitchen measures a food by, and the grams of one: "1 tbsp = 14 g".
pub(super) fn measure(text: &str) -> Option<(&str, f64)> {
    let (what, grams) = text.split_once(" = ")?;
    let (count, what) = what.split_once(' ')?;
    let grams = decimal::read(grams.strip_suffix(" g")?)?;
    Some((what, grams / decimal::read(count).filter(|count| *count > 0.0)?))
}

#[derive(Properties, PartialEq)]
struct SearchProps {
    desk: Desk,
    list: String,
    count: usize,
}

/// What a food is called.
fn name_of(key: &str) -> String {
    food::find(key).map_or_else(|| key_words(key), |food| tr(food.name))
}

/// Foods whose name or shelf holds every word typed.
fn found(typed: &str) -> Vec<&'static str> {
    let wanted: Vec<String> = typed.to_ascii_lowercase().split_whitespace().map(str::to_owned).collect();
    if wanted.is_empty() {
        return Vec::new();
    }
    let fits = |food: &&food::Food| {
        let text = [&tr(food.name), &tr(food.category), food.name, food.key]
            .map(|text| text.to_ascii_lowercase())
            .join(" ")
            .replace('_', " ");
        wanted.iter().all(|word| text.contains(word.as_str()))
    };
    food::all().iter().filter(fits).map(|food| food.key).take(OFFERED).collect()
}

/// The way to another ingredient.
#[component]
fn Search(props: &SearchProps) -> Html {
    let typed = use_state(String::new);
    let hits = found(&typed);
    let add = {
        let (typed, send, list, count) = (typed.clone(), props.desk.dispatcher(), props.list.clone(), props.count);
        Callback::from(move |food: &'static str| {
            send.dispatch(Action::Insert(list.clone(), count, json!({ "food": food }), String::new()));
            focus_soon(id_of(&format!("{list}[{count}].grams")));
            typed.set(String::new());
        })
    };
    let input = {
        let typed = typed.clone();
        Callback::from(move |event: InputEvent| {
            if let Some(input) = event.target().and_then(|it| it.dyn_into::<HtmlInputElement>().ok()) {
                typed.set(input.value());
            }
        })
    };
    let enter = {
        let (add, first) = (add.clone(), hits.first().copied());
        Callback::from(move |event: KeyboardEvent| {
            if let Some(food) = first.filter(|_| event.key() == "Enter") {
                event.prevent_default();
                add.emit(food);
            }
        })
    };
    let id = format!("{}-search", id_of(&props.list));
    html! {
        <div class="search">
            <div class="field text given">
                <label for={id.clone()}>{ words().add_ingredient }</label>
                <div class="control"><input {id} type="search" autocomplete="off" value={(*typed).clone()} oninput={input} onkeydown={enter} /></div>
            </div>
            <ul class="hits" aria-label={words().food_search}>
                for food in hits.iter().copied() {
                    <li key={food}><button type="button" class="quiet" onclick={add.reform(move |_: MouseEvent| food)}>{ name_of(food) }</button></li>
                }
            </ul>
            <p class="how" role="status">{ if hits.is_empty() && !typed.trim().is_empty() { words().food_none } else { "" } }</p>
        </div>
    }
}
