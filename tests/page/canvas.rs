//! Checks of the pictures' canvas in a browser: as sharp as the screen, as wide as its place, spoken, with its table.
#![cfg(target_arch = "wasm32")]

mod kit;

use gloo::timers::future::TimeoutFuture;
use hearthload_page::charts::Picture;
use hearthload_page::charts::canvas::{ChartCanvas, ChartProps};
use wasm_bindgen::JsCast;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};
use web_sys::{CanvasRenderingContext2d, Element, HtmlCanvasElement, HtmlElement};

wasm_bindgen_test_configure!(run_in_browser);

/// How long a browser may take to lay out and draw once, ms.
const DRAWN_MS: u32 = 150;

/// A picture in a place of a width.
async fn shown(picture: Picture, width_px: u32) -> (HtmlElement, HtmlCanvasElement) {
    let document = gloo::utils::document();
    let place: HtmlElement = document.create_element("div").expect("a place").unchecked_into();
    place.style().set_property("width", &format!("{width_px}px")).expect("a width");
    gloo::utils::body().append_child(&place).expect("a body");
    let props = ChartProps {
        picture,
        units: Default::default(),
        moment_s: None,
        height_px: None,
        pinned: None,
        on_moment: None,
        titled: true,
        tabled: true,
    };
    yew::Renderer::<ChartCanvas>::with_root_and_props(place.clone().unchecked_into::<Element>(), props).render();
    TimeoutFuture::new(DRAWN_MS).await;
    let canvas = place.query_selector("canvas").expect("a selector").expect("a canvas").unchecked_into();
    (place, canvas)
}

/// Pixels of a colour on a canvas.
fn pixels_of(canvas: &HtmlCanvasElement, colour: (u8, u8, u8)) -> usize {
    let context = canvas.get_context("2d").expect("2d").expect("2d").unchecked_into::<CanvasRenderingContext2d>();
    let image = context.get_image_data(0.0, 0.0, canvas.width().into(), canvas.height().into()).expect("pixels").data();
    image.chunks_exact(4).filter(|pixel| (pixel[0], pixel[1], pixel[2]) == colour).count()
}

#[wasm_bindgen_test]
async fn a_canvas_is_sharp_spoken_and_follows_its_place() {
    let (place, canvas) = shown(Picture::Heat(kit::answer()), 780).await;
    let density = gloo::utils::window().device_pixel_ratio().clamp(2.0, 3.0);
    // A browser's own margins about a figure take some of the place.
    let room = |canvas: &HtmlCanvasElement| canvas.parent_element().expect("its place").client_width();
    assert!(room(&canvas) > 560);
    assert_eq!(canvas.client_width(), room(&canvas));
    assert_eq!(f64::from(canvas.width()), f64::from(room(&canvas)) * density, "backing pixels");
    // Hearth heat is solid in its colour: the half hen's bar alone is forty px wide and over a hundred high.
    assert!(pixels_of(&canvas, (0x64, 0x20, 0x5A)) > 8_000, "hearth bars");
    assert_eq!(canvas.get_attribute("role").as_deref(), Some("img"));
    let label = canvas.get_attribute("aria-label").expect("a spoken label");
    assert!(label.contains("half hen in clay") && label.contains("214"), "{label}");
    let high = canvas.client_height();
    place.style().set_property("width", "390px").expect("a width");
    TimeoutFuture::new(DRAWN_MS).await;
    assert!(room(&canvas) <= 390);
    assert_eq!(canvas.client_width(), room(&canvas));
    assert!(canvas.client_height() > high, "the two panels stand one over the other");
}

#[wasm_bindgen_test]
async fn no_style_attribute_is_written_for_measuring() {
    let (place, _) = shown(Picture::Floor(kit::answer()), 700).await;
    let spans = gloo::utils::body().query_selector_all("body > span").expect("a selector").length();
    assert_eq!(spans, 0, "plotters measures with styled spans; these pictures do not");
    let styled = place.query_selector_all("[style]").expect("a selector");
    // The canvas's own size is set by the object model, which a content policy allows; nothing else is styled.
    assert_eq!(styled.length(), 1);
}

#[wasm_bindgen_test]
async fn the_table_is_there_once_it_is_opened() {
    let (place, _) = shown(Picture::Wood(kit::answer()), 700).await;
    let details = place.query_selector("details").expect("a selector").expect("details");
    assert_eq!(details.query_selector_all("td").expect("a selector").length(), 0);
    details.set_attribute("open", "").expect("opened");
    TimeoutFuture::new(DRAWN_MS).await;
    assert_eq!(details.query_selector_all("tbody tr").expect("a selector").length(), 8, "an hour a row");
}
