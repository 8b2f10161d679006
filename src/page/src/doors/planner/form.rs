//! Owns the planner's form: the floors on offer, the burner tried under each, prices, the night all doors share.

use crate::{
    doors::strip,
    form::{Desk, leaves, menu_summary, shelf::Shelf, summary},
    parts::{notice, section::Section},
    words::{print, words},
};
use hearthload::plan::floors::SCALING;
use yew::prelude::*;

const FLOORS: &[&str] =
    &["planning.floor_smallest_cm", "planning.floor_largest_cm", "planning.floor_step_cm", "oven.shape"];
const BURNER: &[&str] = &["planning.assist_rated_kw"];
const PRICES: &[&str] =
    &["planning.wood_price_kg", "planning.gas_price_kwh", "planning.days_open_per_week", "planning.growth_percent"];

/// A part of the shared night in a line, with the way to where it is changed.
fn shared(desk: &Desk, title: &'static str, says: String, path: &'static str) -> Html {
    let send = desk.dispatcher();
    let change = Callback::from(move |_: MouseEvent| strip::show(&send, path));
    html! {
        <div class="group-head shared">
            <div><h3>{ title }</h3><p class="summary-here">{ says }</p></div>
            <button type="button" onclick={change} aria-label={format!("{}: {title}", words().change)}>{ words().change }</button>
        </div>
    }
}

/// The form.
pub(crate) fn form(desk: &Desk) -> Html {
    let say = words();
    let open = |group: &str| desk.open_group.as_deref() == Some(group);
    let send = desk.dispatcher();
    html! {
        <div class="form" id="form" tabindex="-1">
            <h2 class="built-on">{ say.built_on }</h2>
            <Section group="floors" title={say.on_offer} summary={summary(desk, "", FLOORS)} open={open("floors")} send={send.clone()}>
                { leaves(desk, FLOORS) }
                <p class="how">{ print(SCALING) }</p>
            </Section>
            <Section group="burner" title={say.gas} summary={summary(desk, "", BURNER)} open={open("burner")} send={send.clone()}>
                { leaves(desk, BURNER) }
                <div class="notices">{ notice::warning(say.gas_never_alone) }{ notice::caution(say.act_assist, &[say.gas_licensed]) }</div>
            </Section>
            <Section group="planning" title={say.prices} how={say.prices_how} summary={summary(desk, "", PRICES)} open={open("planning")} send={send.clone()}>
                { leaves(desk, PRICES) }
            </Section>
            <Section group="night" title={say.night} how={say.night_how} summary={menu_summary(desk)} open={open("night")} send={send.clone()}>
                { shared(desk, say.menu, menu_summary(desk), "menu[0].per_100_covers") }
                { shared(desk, say.service, summary(desk, "service", &["service.start", "service.end", "service.hands"]), "service.start") }
                { shared(desk, say.oven, summary(desk, "oven", &["oven.width_cm", "oven.fire_side"]), "oven.width_cm") }
                { shared(desk, say.wood, summary(desk, "wood", &["wood.species", "wood.meter_percent_dry"]), "wood.species") }
                { shared(desk, say.promise, summary(desk, "promise", &["promise.wait_p90_s", "promise.queue_gone_by"]), "promise.wait_p90_s") }
            </Section>
            <Shelf desk={desk.clone()} />
        </div>
    }
}
