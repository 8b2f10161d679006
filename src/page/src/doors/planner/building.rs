//! Owns what the building must bear with the chosen floor: what goes up the hood, into the room and onto the floor beneath, what
//! has to be stored and carried away.

use super::verdict::named;
use crate::figures as said;
use crate::words::{fill, words};
use hearthload::report::{FloorsReport, RungReport};
use yew::prelude::*;

/// What the building must bear with a rung of the ladder.
pub(crate) fn building(report: &FloorsReport, rung: &RungReport) -> Html {
    let say = words();
    let deliveries = rung.delivery_days.map_or_else(String::new, |days| {
        fill(say.build_delivery, &[&said::number(report.delivery_m3, 0), &said::number(days, 0)])
    });
    let mut all = vec![
        (
            say.build_hood,
            format!("{}, {}", said::with_unit(rung.hood_kg_s, 3, "kg/s"), said::with_unit(rung.hood_kw, 1, "kW")),
            say.build_hood_how.to_owned(),
        ),
        (say.build_room, said::with_unit(rung.room_kw, 1, "kW"), say.build_room_how.to_owned()),
        (say.build_weight, said::with_unit(rung.floor_kn_m2, 1, "kN/m²"), say.build_weight_how.to_owned()),
        (say.build_stack, said::with_unit(rung.wood_stack_m3, 2, "m³"), deliveries),
        (say.build_ash, said::with_unit(rung.ash_kg_week, 1, "kg"), say.build_ash_how.to_owned()),
        (say.build_preheat, said::with_unit(rung.preheat_mj, 0, "MJ"), say.build_preheat_how.to_owned()),
    ];
    if let Some(after_c) = rung.after_closed_c {
        all.push((say.build_closed, said::degrees(after_c), say.build_closed_how.to_owned()));
    }
    if let Some(two_cm) = report.two_small_cm {
        let two = fill(say.build_two_of, &[&said::with_unit(two_cm, 0, "cm")]);
        let both =
            report.two_small_wood_kg_week.zip(report.two_small_hood_kw).map_or_else(String::new, |(wood, hood)| {
                fill(say.build_two_both, &[&said::with_unit(wood, 0, "kg"), &said::with_unit(hood, 1, "kW")])
            });
        all.push((say.build_two, two, format!("{}{both}", say.build_two_how)));
    }
    html! {
        <section class="slab" aria-labelledby="building-title">
            <h2 id="building-title">{ fill(say.building, &[&named(rung)]) }</h2>
            <dl class="facts three">
                for (name, value, when) in all {
                    <div key={name}><dt>{ name }</dt><dd><strong>{ value }</strong><span>{ when }</span></dd></div>
                }
            </dl>
        </section>
    }
}
