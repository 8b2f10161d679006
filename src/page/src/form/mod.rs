//! Owns the form: six parts, driven by the engine's field table. What stands in front is chosen here; a field the table gains
//! appears under "More" by itself.

mod covers;
mod dish;
mod dishes;
mod gas;
mod ingredients;
mod rows;
pub(crate) mod shelf;

pub(crate) use dishes::name_of;

use crate::{
    figures as said,
    parts::{field::FieldBox, section::Section},
    state::{State, draft},
    words::{fill, key_words, label, label_inside, print, unit_name, words},
};
use hearthload::{
    scenario::{
        Field,
        fields::{self, Fallback, Kind},
    },
    units::decimal,
};
use serde_json::Value;
use yew::prelude::*;

/// What the page knows, and where changes go.
pub(crate) type Desk = UseReducerHandle<State>;

/// What stands in front in each part, in order; the rest of its group follows under "More".
const OVEN: &[&str] = &[
    "oven.shape",
    "oven.width_cm",
    "oven.depth_cm",
    "oven.dome_rise_cm",
    "oven.door_width_cm",
    "oven.door_height_cm",
    "oven.fire_side",
    "oven.reading",
];
const MORNING: &[&str] = &["start.floor_c", "start.dome_c"];
const WOOD: &[&str] = &["wood.species", "wood.meter_percent_dry", "wood.piece_diameter_cm", "wood.piece_length_cm"];
const FEEDING: &[&str] = &["feeding.light_at", "feeding.kindling_kg"];
const SERVICE: &[&str] = &["service.start", "service.end"];
const HANDS: &[&str] = &["service.hands", "service.load_s", "service.turn_s", "service.lift_s"];
const PROMISE: &[&str] = &[
    "promise.wait_p90_s",
    "promise.bake_slower_max_percent",
    "promise.share_in_band_percent",
    "promise.queue_gone_by",
];

/// A field of the form.
pub(crate) fn leaf(desk: &Desk, path: &str) -> Html {
    labelled(desk, path, None, false)
}

/// A field under another name, or one whose name is for ears only.
pub(crate) fn labelled(desk: &Desk, path: &str, label: Option<String>, quiet: bool) -> Html {
    html! {
        <FieldBox key={path.to_owned()} path={path.to_owned()} label={label.map(AttrValue::from)} {quiet}
            value={draft::get(&desk.doc, path).cloned()} assumed={assumed(desk, path).map(AttrValue::from)}
            problem={desk.problem_at(path).map(|says| AttrValue::from(says.to_owned()))}
            replaced={desk.replaced.contains(path)} first_order={first_order(desk, path)} send={desk.dispatcher()} />
    }
}

/// The first order, for a field whose time comes after it.
fn first_order(desk: &Desk, path: &str) -> Option<AttrValue> {
    let after = matches!(path, "service.end" | "promise.queue_gone_by");
    after.then(|| AttrValue::from(draft::text(&desk.doc, "service.start").to_owned()))
}

/// The value taken where nothing was given: as the engine took it last, else as the field table has it.
pub(crate) fn assumed(desk: &Desk, path: &str) -> Option<String> {
    if let Some(taken) = desk.assumed.get(path) {
        return Some(bare(&taken.value));
    }
    match fields::field(&fields::pattern_of(path))?.fallback {
        Fallback::Fixed(typed) => Some(bare(typed)),
        _ => None,
    }
}

/// A value as it would be typed, without the marks JSON puts about it: no quotes, no `.0`.
pub(crate) fn bare(typed: &str) -> String {
    let text = typed.trim_matches('"');
    let whole = text.strip_suffix(".0").filter(|_| decimal::read(text).is_some());
    whole.unwrap_or(text).to_owned()
}

/// Several fields side by side.
pub(crate) fn leaves(desk: &Desk, paths: &[&str]) -> Html {
    html! { <div class="fields">for path in paths.iter() { { leaf(desk, path) } }</div> }
}

/// The rest of a group, folded away: every plain field of the table that does not stand in front.
fn more(desk: &Desk, of: &'static str, groups: &[&str], front: &[&[&str]]) -> Html {
    let plain = |row: &&Field| !matches!(row.kind, Kind::Group | Kind::List { .. });
    let rest: Vec<&str> = groups
        .iter()
        .flat_map(|group| fields::children(group))
        .filter(plain)
        .map(|row| row.path)
        .filter(|path| !front.iter().any(|front| front.contains(path)))
        .collect();
    html! {
        <details class="more">
            <summary>{ fill(words().more, &[of]) }</summary>
            { leaves(desk, &rest) }
        </details>
    }
}

/// What the fields of some groups mean, as the field table says it.
fn meanings(groups: &[&str]) -> Html {
    let rows = groups.iter().flat_map(|group| fields::children(group)).filter(|row| !row.note.is_empty());
    html! {
        <details class="more">
            <summary>{ words().what_they_mean }</summary>
            <dl class="meanings">
                for row in rows {
                    <div key={row.path}><dt>{ label(row) }</dt><dd>{ print(row.note) }</dd></div>
                }
            </dl>
        </details>
    }
}

/// The present values of some fields in a line, and how many of their group were assumed.
pub(crate) fn summary(desk: &Desk, group: &str, parts: &[&str]) -> String {
    let value = |path: &&str| {
        let given = draft::get(&desk.doc, path).filter(|value| !value.is_null()).map(crate::number::shown);
        let row = fields::field(path)?;
        let unit = unit_name(row.unit());
        let text = given.or_else(|| assumed(desk, path))?;
        let text = if matches!(row.kind, Kind::Number { .. }) {
            crate::units::shown(&text, row.unit())
        } else if matches!(row.kind, Kind::Clock) {
            crate::units::clock_shown(&text)
        } else {
            key_words(&text)
        };
        Some(format!("{} {text}{}{unit}", label_inside(row), if unit.is_empty() { "" } else { "\u{a0}" }))
    };
    let mut all: Vec<String> = parts.iter().filter_map(value).collect();
    let taken = desk.assumed.keys().filter(|path| path.starts_with(&format!("{group}."))).count();
    if taken > 0 {
        all.push(format!("○ {}", fill(words().sum_assumed, &[&taken.to_string()])));
    }
    all.join(", ")
}

/// What one piece weighs, by the last good answer.
fn weighs(desk: &Desk) -> String {
    let answer = desk.answer.as_ref();
    answer.map(|answer| fill(words().piece_weighs, &[&said::kg(answer.report.wood.kg_piece)])).unwrap_or_default()
}

/// The menu in a line.
pub(crate) fn menu_summary(desk: &Desk) -> String {
    let dishes = draft::list(&desk.doc, "menu");
    let pieces: f64 = dishes.iter().filter_map(|dish| dish.get("per_100_covers").and_then(Value::as_f64)).sum();
    fill(words().sum_menu, &[&dishes.len().to_string(), &said::number(pieces, 0)])
}

/// The form's properties.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// What the page knows.
    pub desk: Desk,
}

/// The whole form.
#[component]
pub(crate) fn Form(props: &Props) -> Html {
    let desk = &props.desk;
    let say = words();
    let open = |group: &str| desk.open_group.as_deref() == Some(group);
    let send = desk.dispatcher();
    html! {
        <div class="form" id="form" tabindex="-1">
            <h2 class="built-on">{ say.built_on }</h2>
            <Section group="menu" title={say.menu} how={say.menu_how} summary={menu_summary(desk)} open={open("menu")} send={send.clone()}>
                <dishes::Dishes desk={desk.clone()} />
            </Section>
            <Section group="oven" title={say.oven} summary={summary(desk, "oven", &["oven.width_cm", "oven.fire_side"])} open={open("oven")} send={send.clone()}>
                { leaves(desk, OVEN) }
                <rows::Rows desk={desk.clone()} path="oven.floor_layers" />
                <rows::Rows desk={desk.clone()} path="oven.dome_layers" />
                <h3>{ say.morning }</h3>
                { leaves(desk, MORNING) }
                <gas::Gas desk={desk.clone()} />
                { more(desk, say.oven_in, &["oven", "start"], &[OVEN, MORNING]) }
                { meanings(&["oven", "start"]) }
            </Section>
            <Section group="wood" title={say.wood} summary={summary(desk, "wood", &["wood.species", "wood.meter_percent_dry"])} open={open("wood")} send={send.clone()}>
                { leaves(desk, WOOD) }
                <p class="how weighs">{ weighs(desk) }</p>
                { meanings(&["wood"]) }
            </Section>
            <Section group="feeding" title={say.feeding} summary={summary(desk, "feeding", &["feeding.light_at", "feeding.kindling_kg"])} open={open("feeding")} send={send.clone()}>
                { leaves(desk, FEEDING) }
                <rows::Rows desk={desk.clone()} path="feeding.phases" />
                <rows::Rows desk={desk.clone()} path="feeding.spread_coals" />
                { crate::doors::notices::cautions_at(desk, &["light", "feed"]) }
            </Section>
            <Section group="service" title={say.service} summary={summary(desk, "service", &["service.start", "service.end", "service.hands"])} open={open("service")} send={send.clone()}>
                { leaves(desk, SERVICE) }
                <covers::Covers desk={desk.clone()} />
                { leaves(desk, HANDS) }
                <rows::Rows desk={desk.clone()} path="service.batches" />
                <rows::Rows desk={desk.clone()} path="service.wipes" />
                { more(desk, say.service_in, &["service"], &[SERVICE, HANDS]) }
                { meanings(&["service"]) }
            </Section>
            <Section group="promise" title={say.promise} how={say.promise_how} summary={summary(desk, "promise", &["promise.wait_p90_s", "promise.queue_gone_by"])} open={open("promise")} send={send.clone()}>
                { leaves(desk, PROMISE) }
                { meanings(&["promise"]) }
            </Section>
            <shelf::Shelf desk={desk.clone()} />
        </div>
    }
}
