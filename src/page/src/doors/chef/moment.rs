//! Owns the floor plan with its moment: a real slider, a quarter hour either way, play, and the list of what lies there.

use crate::{
    charts::{Answer, Picture, View, canvas::ChartCanvas, lying_rows},
    parts::marks,
    words::{translate::tr, words},
};
use gloo::timers::callback::Interval;
use hearthload::units::time::{MINUTE_S, QUARTER_S};
use wasm_bindgen::JsCast;
use web_sys::HtmlInputElement;
use yew::prelude::*;

/// How long a minute of the evening lasts in play, ms; a quarter hour where motion is to be reduced.
const PLAY_MS: u32 = 80;
const STILL_MS: u32 = 1200;

/// The plan's properties.
#[derive(Properties, PartialEq)]
pub(crate) struct Props {
    /// The answer drawn.
    pub answer: Answer,
    /// The chosen moment, s.
    pub at_s: f64,
    /// Told another moment.
    pub on_moment: Callback<f64>,
}

/// Runs the evening while `playing`; ends at its end.
#[hook]
fn use_play(props: &Props, playing: &UseStateHandle<bool>) {
    let still = gloo::utils::window()
        .match_media("(prefers-reduced-motion: reduce)")
        .ok()
        .flatten()
        .is_some_and(|query| query.matches());
    let (step_s, every_ms) = if still { (QUARTER_S, STILL_MS) } else { (MINUTE_S, PLAY_MS) };
    let (playing, end_s, tell) = (playing.clone(), props.answer.end_s(), props.on_moment.clone());
    use_effect_with((*playing, props.at_s), move |(runs, at_s)| {
        let at_s = *at_s;
        let beat = runs.then(|| {
            Interval::new(every_ms, move || {
                if at_s + step_s > end_s {
                    playing.set(false);
                } else {
                    tell.emit(at_s + step_s);
                }
            })
        });
        move || drop(beat)
    });
}

/// The plan at the moment.
#[component]
pub(crate) fn Plan(props: &Props) -> Html {
    let playing = use_state(|| false);
    use_play(props, &playing);
    let (answer, at_s) = (&props.answer, props.at_s);
    let view = View { moment_s: Some(at_s), units: crate::units::units(), ..View::wide(1.0) };
    let rows = lying_rows(answer, &view);
    let (start, end) = (answer.kitchen.start_s, answer.end_s());
    let by = |step: f64| {
        let tell = props.on_moment.clone();
        Callback::from(move |_: MouseEvent| tell.emit((at_s + step).clamp(start, end)))
    };
    let slide = {
        let tell = props.on_moment.clone();
        Callback::from(move |event: InputEvent| {
            if let Some(input) = event.target().and_then(|it| it.dyn_into::<HtmlInputElement>().ok()) {
                tell.emit(input.value_as_number());
            }
        })
    };
    let play = {
        let (playing, tell) = (playing.clone(), props.on_moment.clone());
        Callback::from(move |_: MouseEvent| {
            if !*playing && at_s + QUARTER_S > end {
                tell.emit(start);
            }
            playing.set(!*playing);
        })
    };
    let clock = crate::units::units().clock(at_s);
    let under = rows.iter().filter(|row| row.under).count();
    html! {
        <>
            <div class="plan">
                <ChartCanvas picture={Picture::Plan(answer.clone())} moment_s={at_s} />
                <ul class="lying" tabindex="0" aria-label={words().lies_here}>
                    for (place, row) in rows.iter().enumerate() {
                        <li key={place} class={classes!(row.under.then_some("under"))}>
                            <strong>{ tr(&row.name) }</strong><span class="spot">{ crate::words::fill(words().loaded_on, &[&row.spot]) }</span>
                            <span class="state">{ if row.under { marks::sag() } else { html! {} } }{ tr(&row.state) }</span>
                        </li>
                    }
                </ul>
            </div>
            <div class="slider">
                <button type="button" onclick={play} aria-pressed={playing.to_string()}>{ if *playing { words().pause } else { words().play } }</button>
                <button type="button" onclick={by(-QUARTER_S)} aria-label={words().earlier}>{ "\u{2212}15" }</button>
                <div class="rail">
                    <output for="moment">{ clock.clone() }</output>
                    <input id="moment" type="range" min={start.to_string()} max={end.to_string()} step={MINUTE_S.to_string()} value={at_s.to_string()} oninput={slide}
                        aria-label={words().moment} aria-valuetext={format!("{clock}, {}", crate::words::fill(words().under_band, &[&under.to_string(), &rows.len().to_string()]))} />
                </div>
                <button type="button" onclick={by(QUARTER_S)} aria-label={words().later}>{ "+15" }</button>
            </div>
        </>
    }
}
