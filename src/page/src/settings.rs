//! Owns the choice of units: one row of presses for each kind, kept in this browser.

use crate::{
    charts::{Units, words::Gas},
    words::words,
};
use yew::prelude::*;

/// The choice's properties.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// The units in use.
    pub units: Units,
    /// Takes others.
    pub choose: Callback<Units>,
}

/// The choice.
#[component]
pub(crate) fn Settings(props: &Props) -> Html {
    let (say, now) = (words(), props.units);
    let row = |what: &'static str, choices: Vec<(&'static str, Units)>| {
        html! {
            <div class="unit-row" role="group" aria-label={what}>
                <span>{ what }</span>
                for (says, units) in choices { { choice(props, says, units) } }
            </div>
        }
    };
    html! {
        <div class="share units">
            <p class="how">{ say.units_how }</p>
            { row(say.units_heat, vec![("°C", Units { fahrenheit: false, ..now }), ("°F", Units { fahrenheit: true, ..now })]) }
            { row(say.units_mass, vec![("kg", Units { pounds: false, ..now }), ("lb", Units { pounds: true, ..now })]) }
            { row(say.units_length, vec![("cm", Units { inches: false, ..now }), ("in", Units { inches: true, ..now })]) }
            { row(say.units_power, vec![("kW", Units { btu: false, ..now }), ("Btu/h", Units { btu: true, ..now })]) }
            { row(say.units_gas, vec![
                ("kWh", Units { gas: Gas::KilowattHours, ..now }),
                ("m³", Units { gas: Gas::CubicMetres, ..now }),
                ("therms", Units { gas: Gas::Therms, ..now }),
            ]) }
            { row(say.units_clock, vec![("20:45", Units { twelve_hours: false, ..now }), ("8:45 pm", Units { twelve_hours: true, ..now })]) }
            { row(say.units_point, vec![("1.9", Units { comma: false, ..now }), ("1,9", Units { comma: true, ..now })]) }
        </div>
    }
}

fn choice(props: &Props, says: &'static str, units: Units) -> Html {
    let choose = props.choose.reform(move |_: MouseEvent| units);
    html! { <button type="button" key={says} onclick={choose} aria-pressed={(units == props.units).to_string()}>{ says }</button> }
}
