//! Owns the list of dishes: how many of each, in which order, one opened for its details.

use super::{Desk, dish::DishDetails, labelled};
use crate::{
    app::demo,
    doors::notices::cautions_at,
    figures as said,
    parts::{focus_soon, id_of, marks},
    state::{Action, draft},
    words::{fill, words},
};
use serde_json::{Value, json};
use wasm_bindgen::JsCast;
use web_sys::{Element, HtmlSelectElement};
use yew::prelude::*;

/// The dishes.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
}

/// What a dish is called, also before it has a name.
pub(crate) fn name_of(dish: &Value) -> String {
    let name = dish.get("name").and_then(Value::as_str).unwrap_or_default().trim();
    if name.is_empty() { words().new_dish.to_owned() } else { name.to_owned() }
}

/// Its weight and outline in a line.
fn size_of(dish: &Value) -> String {
    let grams: f64 =
        draft::list(dish, "ingredients").iter().filter_map(|one| one.get("grams").and_then(Value::as_f64)).sum();
    let cm = |key: &str| dish.get("footprint").and_then(|print| print.get(key)).and_then(Value::as_f64);
    let outline = match (cm("diameter_cm"), cm("width_cm"), cm("depth_cm")) {
        (Some(across), _, _) => fill(words().round_of, &[&said::with_unit(across, 0, "cm")]),
        (_, Some(width), Some(depth)) => {
            fill(words().wide_by, &[&said::bare(width, 0, "cm"), &said::with_unit(depth, 0, "cm")])
        }
        _ => String::new(),
    };
    let parts = [said::with_unit(grams, 0, "g"), outline];
    parts.iter().filter(|part| !part.is_empty()).map(String::as_str).collect::<Vec<_>>().join(", ")
}

/// The list.
#[component]
pub(crate) fn Dishes(props: &Props) -> Html {
    let desk = &props.desk;
    let origin = use_state(|| None::<usize>);
    let dishes = draft::list(&desk.doc, "menu");
    let count = dishes.len();
    let send = desk.dispatcher();
    let add = Callback::from(move |_: MouseEvent| {
        let dish = json!({ "name": words().new_dish, "ingredients": [], "footprint": {}, "known_bake": {} });
        send.dispatch(Action::Insert("menu".to_owned(), count, dish, fill(words().dish_added, &[words().new_dish])));
        focus_soon(id_of(&format!("menu[{count}].name")));
    });
    let over = Callback::from(|event: DragEvent| event.prevent_default());
    html! {
        <div class="dishes" id={id_of("menu")} tabindex="-1">
            <ol class="dish-list">
                for (index, dish) in dishes.iter().enumerate() {
                    <li key={index} ondragover={over.clone()} ondrop={drop_at(desk, &origin, index)}><DishRow desk={desk.clone()} origin={origin.clone()} {index} {count} name={name_of(dish)} size={size_of(dish)} /></li>
                }
            </ol>
            <div class="acts"><button type="button" onclick={add}>{ words().add_dish }</button><Start desk={desk.clone()} {count} /></div>
            { cautions_at(desk, &["dish", "carrier"]) }
        </div>
    }
}

#[derive(Properties, PartialEq)]
struct RowProps {
    desk: Desk,
    /// Where the dish being moved was taken up.
    origin: UseStateHandle<Option<usize>>,
    index: usize,
    count: usize,
    name: String,
    size: String,
}

/// Laying down here the dish whose handle is dragged.
fn drop_at(desk: &Desk, origin: &UseStateHandle<Option<usize>>, to: usize) -> Callback<DragEvent> {
    let (desk, origin) = (desk.clone(), origin.clone());
    Callback::from(move |event: DragEvent| {
        event.prevent_default();
        if let Some(from) = origin.filter(|from| *from != to) {
            desk.dispatch(shift(&desk, from, to));
        }
        origin.set(None);
    })
}

/// Moving a dish, in words.
pub(super) fn shift(desk: &Desk, from: usize, to: usize) -> Action {
    let name = draft::list(&desk.doc, "menu").get(from).map(name_of).unwrap_or_default();
    Action::Shift("menu".to_owned(), from, to, fill(words().dish_moved, &[&name, &(to + 1).to_string()]))
}

/// A dish to start from: those of the demonstration.
#[component]
fn Start(props: &StartProps) -> Html {
    let dishes = use_memo((), |()| demo().iter().flat_map(|doc| draft::list(doc, "menu").to_vec()).collect::<Vec<_>>());
    let (send, count, all) = (props.desk.dispatcher(), props.count, dishes.clone());
    let choose = Callback::from(move |event: Event| {
        let Some(select) = event.target().and_then(|it| it.dyn_into::<HtmlSelectElement>().ok()) else { return };
        if let Some(dish) = select.value().parse::<usize>().ok().and_then(|place| all.get(place)) {
            let says = fill(words().dish_added, &[&name_of(dish)]);
            send.dispatch(Action::Insert("menu".to_owned(), count, dish.clone(), says));
        }
        select.set_value("");
    });
    html! {
        <select class="start" aria-label={words().start_dish} onchange={choose}>
            <option value="" selected=true>{ words().start_dish }</option>
            for (place, dish) in dishes.iter().enumerate() { <option key={place} value={place.to_string()}>{ name_of(dish) }</option> }
        </select>
    }
}

#[derive(Properties, PartialEq)]
struct StartProps {
    desk: Desk,
    count: usize,
}

/// The handle's keys: arrows move, Escape puts back where it was taken up.
fn handle_keys(props: &RowProps) -> Callback<KeyboardEvent> {
    let (send, index, count, name) = (props.desk.dispatcher(), props.index, props.count, props.name.clone());
    let origin = props.origin.clone();
    Callback::from(move |event: KeyboardEvent| {
        let to = match (event.key().as_str(), *origin) {
            ("ArrowUp", _) if index > 0 => index - 1,
            ("ArrowDown", _) if index + 1 < count => index + 1,
            ("Escape", Some(from)) if from < count && from != index => from,
            _ => return,
        };
        event.prevent_default();
        origin.set(if event.key() == "Escape" { None } else { origin.or(Some(index)) });
        let says = fill(words().dish_moved, &[&name, &(to + 1).to_string()]);
        send.dispatch(Action::Shift("menu".to_owned(), index, to, says));
        focus_soon(format!("handle-{to}"));
    })
}

/// Leaving the handles puts the dish down for good; going from one to the other is the moving itself.
fn put_down(origin: &UseStateHandle<Option<usize>>) -> Callback<FocusEvent> {
    let origin = origin.clone();
    Callback::from(move |event: FocusEvent| {
        let next = event.related_target().and_then(|next| next.dyn_into::<Element>().ok());
        if origin.is_some() && next.is_some_and(|next| !next.id().starts_with("handle-")) {
            origin.set(None);
        }
    })
}

/// One dish.
#[component]
fn DishRow(props: &RowProps) -> Html {
    let (desk, index) = (&props.desk, props.index);
    let (keys, leave) = (handle_keys(props), put_down(&props.origin));
    let take = {
        let origin = props.origin.clone();
        Callback::from(move |_: DragEvent| origin.set(Some(index)))
    };
    let open = desk.open_dish == Some(index);
    let send = desk.dispatcher();
    let turn = Callback::from(move |_: MouseEvent| send.dispatch(Action::TurnDish(index)));
    let path = format!("menu[{index}]");
    let wrong = desk.problems.iter().any(|problem| problem.field.starts_with(&path));
    html! {
        <>
            <div class={classes!("dish-row", wrong.then_some("mend"))}>
                <button type="button" class="quiet handle" draggable="true" ondragstart={take} id={format!("handle-{index}")} onkeydown={keys} onblur={leave} aria-label={fill(words().move_dish, &[&props.name])}>{ marks::handle() }</button>
                <div class="dish-name"><strong>{ &props.name }</strong><span>{ &props.size }</span></div>
                { labelled(desk, &format!("{path}.per_100_covers"), Some(fill(words().for_100, &[&props.name])), true) }
                <button type="button" class="quiet turn" onclick={turn} aria-expanded={open.to_string()} aria-label={fill(words().edit_dish, &[&props.name])}>{ marks::arrow(open) }</button>
            </div>
            <div>{ if open { html! { <DishDetails desk={desk.clone()} {index} /> } } else { html! {} } }</div>
        </>
    }
}
