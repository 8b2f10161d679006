//! Owns the component that puts a picture on the page: a canvas as wide as its place and as sharp as the screen, its spoken
//! label, the same as a table, and its saving.

use gloo::timers::callback::Timeout;
use plotters_canvas::CanvasBackend;
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{
    Blob, BlobPropertyBag, CanvasRenderingContext2d, Element, HtmlAnchorElement, HtmlCanvasElement, HtmlElement, Url,
};
use yew::prelude::*;

use super::ink::FONTS;
use super::measure::Measure;
use super::{Answer, Grain, Picture, Table, Theme, Units, View, draw, svg};
use crate::words::translate::tr;

/// Fewest backing pixels in a CSS pixel: plotters counts in whole pixels, so one alone would leave steps in every curve.
const LEAST_SCALE: f64 = 2.0;
/// Most: beyond it nothing is gained and phones run short of memory.
const MOST_SCALE: f64 = 3.0;
/// Width of the drawing that is printed, px: an A4 sheet less its margins.
const PRINT_PX: f64 = 680.0;

/// What a picture on the page needs.
#[derive(Clone, PartialEq, Properties)]
pub struct ChartProps {
    /// The picture with its data.
    pub picture: Picture,
    /// The reader's units.
    #[prop_or_else(crate::units::units)]
    pub units: Units,
    /// The chosen moment, seconds since midnight.
    #[prop_or_default]
    pub moment_s: Option<f64>,
    /// Height to fill, CSS px; its own where absent.
    #[prop_or_default]
    pub height_px: Option<f64>,
    /// The pinned answer, for pictures that show the difference.
    #[prop_or_default]
    pub pinned: Option<Answer>,
    /// Told the moment under the finger when a picture of time is pressed or dragged; not drawn as draggable where absent.
    #[prop_or_default]
    pub on_moment: Option<Callback<f64>>,
    /// Whether the finding stands over it as a heading, with the line on how to read it.
    #[prop_or(true)]
    pub titled: bool,
    /// Whether the table and the saving stand under it.
    #[prop_or(true)]
    pub tabled: bool,
}

/// A picture on the page.
#[component]
pub fn ChartCanvas(props: &ChartProps) -> Html {
    let place = use_node_ref();
    let canvas = use_node_ref();
    let print = use_node_ref();
    let width_px = use_width(&place);
    let theme = use_theme();
    let view = View {
        width_px: *width_px,
        height_px: props.height_px,
        theme: (*theme).clone(),
        units: props.units,
        moment_s: props.moment_s,
        pinned: props.pinned.clone(),
    };
    {
        let canvas = canvas.clone();
        use_effect_with((props.picture.clone(), view.clone()), move |(picture, view)| {
            // Each in a task of its own, after the words: nobody waits for the last picture to read the first line, and a finger is
            // felt between two.
            let canvas = canvas.cast::<HtmlCanvasElement>().filter(|_| view.width_px >= 1.0);
            let (picture, view) = (picture.clone(), view.clone());
            let wait = canvas.map(|canvas| Timeout::new(0, move || paint(&canvas, &picture, &view)));
            move || drop(wait)
        });
    }
    use_print(&print, &props.picture, &view);

    let drawing = props.picture.drawing();
    let how = drawing.how(&view);
    let on_press = follow(props, &view, true);
    let on_drag = follow(props, &view, false);
    html! {
        <figure class={classes!("chart", format!("chart-{}", props.picture.key()))}>
            <div class="chart-head">
                if props.titled {
                    <h2 class="finding">{ drawing.finding(&view) }</h2>
                    <p class="how" hidden={how.is_empty()}>{ how }</p>
                }
            </div>
            <div class={classes!("chart-place", props.on_moment.is_some().then_some("chart-drag"))} ref={place}>
                <canvas ref={canvas.clone()} role="img" aria-label={drawing.aria(&view)} onpointerdown={on_press} onpointermove={on_drag} />
            </div>
            <div class="chart-print" ref={print} aria-hidden="true"></div>
            <div class="chart-foot">
                if props.tabled {
                    <SameAsTable picture={props.picture.clone()} view={view.clone()} canvas={canvas} />
                }
            </div>
        </figure>
    }
}

#[derive(Clone, PartialEq, Properties)]
struct SameProps {
    picture: Picture,
    view: View,
    canvas: NodeRef,
}

/// The table equal of a picture, and its saving.
#[component]
fn SameAsTable(props: &SameProps) -> Html {
    let key = props.picture.key();
    let save_svg = {
        let (picture, view) = (props.picture.clone(), props.view.clone());
        Callback::from(move |_: MouseEvent| {
            let view = View { theme: Theme::light(), ..view.clone() };
            if let Ok(text) = svg(&picture, &view) {
                save_text(&text, "image/svg+xml", &format!("{key}.svg"));
            }
        })
    };
    let save_png = {
        let canvas = props.canvas.clone();
        Callback::from(move |_: MouseEvent| {
            let address = canvas.cast::<HtmlCanvasElement>().and_then(|canvas| canvas.to_data_url().ok());
            if let Some(address) = address {
                save_address(&address, &format!("{key}.png"));
            }
        })
    };
    let save_csv = {
        let (picture, view) = (props.picture.clone(), props.view.clone());
        Callback::from(move |_: MouseEvent| {
            let table = picture.drawing().table(&view);
            // The mark in front tells spreadsheets that the file is UTF-8.
            save_text(&format!("\u{feff}{}", table.csv()), "text/csv", &format!("{key}.csv"));
        })
    };
    let open = use_state(|| false);
    let on_toggle = {
        let open = open.clone();
        Callback::from(move |event: Event| {
            let details = event.target().and_then(|target| target.dyn_into::<Element>().ok());
            open.set(details.is_some_and(|details| details.has_attribute("open")));
        })
    };
    // Counted out only while it is looked at: during play a picture changes many times a second.
    let table = if *open {
        table_html(&props.picture.drawing().table(&props.view))
    } else {
        html! { <table></table> }
    };
    html! {
        <details class="same" ontoggle={on_toggle}>
            <summary>{ tr("The same as a table") }</summary>
            <div class="same-scroll" tabindex="0" role="region" aria-label={tr("Table")}>{ table }</div>
            <div class="same-save">
                <button type="button" class="quiet" onclick={save_csv}>{ tr("Save as CSV") }</button>
                <button type="button" class="quiet" onclick={save_svg}>{ tr("Save as SVG") }</button>
                <button type="button" class="quiet" onclick={save_png}>{ tr("Save as PNG") }</button>
            </div>
        </details>
    }
}

/// A table as HTML; the first cell of each row heads it.
pub fn table_html(table: &Table) -> Html {
    let heads = table.head.iter().map(|cell| html! { <th scope="col">{ cell }</th> });
    let rows = table.rows.iter().enumerate().map(|(index, row)| {
        let cells = row.iter().enumerate().map(|(column, cell)| {
            if column == 0 {
                html! { <th scope="row" key={column}>{ cell }</th> }
            } else {
                html! { <td key={column}>{ cell }</td> }
            }
        });
        html! { <tr key={index}>{ for cells }</tr> }
    });
    html! {
        <table>
            <thead><tr>{ for heads }</tr></thead>
            <tbody>{ for rows }</tbody>
        </table>
    }
}

/// The width of a place, kept up with by an observer.
#[hook]
fn use_width(place: &NodeRef) -> UseStateHandle<f64> {
    let width = use_state(|| 0.0_f64);
    {
        let (place, width) = (place.clone(), width.clone());
        use_effect_with((), move |()| {
            let element = place.cast::<Element>();
            let measured = element.clone();
            let update = move || {
                let now = measured.as_ref().map_or(0.0, |element| f64::from(element.client_width()));
                // Only a new width: the picture's own height changes the place too and must not start a round.
                if (now - *width).abs() > 0.5 {
                    width.set(now);
                }
            };
            update();
            let on_size = Closure::<dyn FnMut()>::new(update);
            let observer = web_sys::ResizeObserver::new(on_size.as_ref().unchecked_ref()).ok();
            if let (Some(observer), Some(element)) = (&observer, &element) {
                observer.observe(element);
            }
            move || {
                if let Some(observer) = observer {
                    observer.disconnect();
                }
                drop(on_size);
            }
        });
    }
    width
}

/// The colours of the page, read again when the screen turns light or dark.
#[hook]
fn use_theme() -> UseStateHandle<Theme> {
    let theme = use_state(page_theme);
    {
        let theme = theme.clone();
        use_effect_with((), move |()| {
            let query = dark_query();
            let listener =
                query.map(|query| gloo::events::EventListener::new(&query, "change", move |_| theme.set(page_theme())));
            move || drop(listener)
        });
    }
    theme
}

fn dark_query() -> Option<web_sys::MediaQueryList> {
    web_sys::window()?.match_media("(prefers-color-scheme: dark)").ok()?
}

/// The page's CSS variables over the built-in set that fits the screen.
fn page_theme() -> Theme {
    let base = if dark_query().is_some_and(|query| query.matches()) { Theme::dark() } else { Theme::light() };
    let style = web_sys::window().and_then(|window| {
        let root = window.document()?.document_element()?;
        window.get_computed_style(&root).ok()?
    });
    match style {
        Some(style) => base.read(|name| style.get_property_value(name).ok().filter(|value| !value.is_empty())),
        None => base,
    }
}

struct ByCanvas(CanvasRenderingContext2d);

impl Measure for ByCanvas {
    fn width_px(&self, text: &str, size: f64, bold: bool) -> f64 {
        self.0.set_font(&format!("{} {size}px {FONTS}", if bold { "bold" } else { "normal" }));
        self.0.measure_text(text).map_or(0.0, |metrics| metrics.width())
    }
}

/// Sizes the canvas to its place and draws.
fn paint(canvas: &HtmlCanvasElement, picture: &Picture, view: &View) {
    let density = web_sys::window().map_or(1.0, |window| window.device_pixel_ratio());
    let scale = density.clamp(LEAST_SCALE, MOST_SCALE);
    let height_px = picture.height_px(view);
    canvas.set_width((view.width_px * scale).round() as u32);
    canvas.set_height((height_px * scale).round() as u32);
    let style = canvas.style();
    for (property, value) in [
        ("display", "block".to_owned()),
        ("width", format!("{}px", view.width_px)),
        ("height", format!("{height_px}px")),
    ] {
        // A browser that refuses one of these shows the picture in another size, no more.
        let _ = style.set_property(property, &value);
    }
    let context =
        canvas.get_context("2d").ok().flatten().and_then(|context| context.dyn_into::<CanvasRenderingContext2d>().ok());
    let (Some(context), Some(backend)) = (context, CanvasBackend::with_canvas_object(canvas.clone())) else { return };
    let measure = ByCanvas(context);
    if let Err(error) = draw(picture, view, backend, Grain::canvas(scale), &measure) {
        web_sys::console::error_1(&error.to_string().into());
    }
}

/// Puts an SVG in the print place while the page prints: a canvas prints as blurred pixels, and dark on paper.
#[hook]
fn use_print(place: &NodeRef, picture: &Picture, view: &View) {
    let place = place.clone();
    use_effect_with((picture.clone(), view.clone()), move |(picture, view)| {
        let (picture, place_after) = (picture.clone(), place.clone());
        let view = View { theme: Theme::light(), width_px: PRINT_PX, height_px: None, ..view.clone() };
        let window = web_sys::window();
        let before = window.clone().map(|window| {
            gloo::events::EventListener::new(&window, "beforeprint", move |_| {
                if let (Some(place), Ok(text)) = (place.cast::<Element>(), svg(&picture, &view)) {
                    place.set_inner_html(&text);
                }
            })
        });
        let after = window.map(|window| {
            gloo::events::EventListener::new(&window, "afterprint", move |_| {
                if let Some(place) = place_after.cast::<Element>() {
                    place.set_inner_html("");
                }
            })
        });
        move || drop((before, after))
    });
}

/// The callback that follows a finger or mouse: a press at once, a move only while a button is down.
fn follow(props: &ChartProps, view: &View, press: bool) -> Option<Callback<PointerEvent>> {
    let tell = props.on_moment.clone()?;
    let (picture, view) = (props.picture.clone(), view.clone());
    Some(Callback::from(move |event: PointerEvent| {
        if !press && event.buttons() == 0 {
            return;
        }
        if let Some(at_s) = picture.drawing().moment_at(f64::from(event.offset_x()), &view) {
            tell.emit(at_s);
        }
    }))
}

/// Offers a text as a file.
pub fn save_text(text: &str, kind: &str, name: &str) {
    let options = BlobPropertyBag::new();
    options.set_type(kind);
    let parts = js_sys::Array::of1(&text.into());
    let address = Blob::new_with_str_sequence_and_options(&parts, &options)
        .and_then(|blob| Url::create_object_url_with_blob(&blob));
    if let Ok(address) = address {
        save_address(&address, name);
        // The browser reads the address after the press has ended.
        Timeout::new(10_000, move || {
            let _ = Url::revoke_object_url(&address);
        })
        .forget();
    }
}

fn save_address(address: &str, name: &str) {
    let anchor = web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.create_element("a").ok())
        .and_then(|element| element.dyn_into::<HtmlAnchorElement>().ok());
    if let Some(anchor) = anchor {
        anchor.set_href(address);
        anchor.set_download(name);
        anchor.unchecked_ref::<HtmlElement>().click();
    }
}
