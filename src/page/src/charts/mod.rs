//! Owns the pictures: each drawn from plain data on any plotters backend, with its finding, its spoken label and its table.
//!
//! A picture is drawn at its real width in CSS pixels; the pen ([`ink::Ink`]) turns them into the backend's pixels, so the same
//! code gives a sharp canvas ([`canvas::ChartCanvas`]) and an SVG ([`svg`]) for print, saving and tests. Nothing here measures
//! with plotters' own text layout, which needs a style attribute that the page's content policy forbids.

pub mod answer;
mod axis;
mod beam;
pub mod canvas;
pub mod evening;
mod evening_down;
mod fills;
mod floor;
mod floor_parts;
mod gives;
mod glyphs;
mod grid;
mod heat;
pub mod ink;
pub mod kitchen;
pub mod ladder;
mod ledger;
mod ledger_section;
pub mod measure;
pub mod nights;
mod plan;
mod plan_dishes;
mod plan_oven;
mod shapes;
pub mod table;
pub mod theme;
mod wood;
pub mod wood_spread;
pub mod words;

use crate::words::translate::{capital, tr};
use std::rc::Rc;

use plotters_backend::DrawingBackend;

pub use answer::{Answer, Reading};
pub use evening::Evening;
pub use ink::{ChartError, Grain, Ink};
pub use kitchen::Kitchen;
pub use ladder::Ladder;
pub use nights::Nights;
pub use plan::{LyingRow, lying_rows};
pub use table::Table;
pub use theme::Theme;
pub use wood_spread::WoodSpread;
pub use words::Units;

use measure::{ByTable, Measure};

/// How a picture is looked at.
#[derive(Clone, Debug, PartialEq)]
pub struct View {
    /// Width, CSS px.
    pub width_px: f64,
    /// Height to fill, CSS px, where the place sets it; else the picture's own.
    pub height_px: Option<f64>,
    /// Colours.
    pub theme: Theme,
    /// Units.
    pub units: Units,
    /// The chosen moment, seconds since midnight; it stands in every picture of time.
    pub moment_s: Option<f64>,
    /// The pinned answer, drawn as round dots and dotted boxes beside the present one.
    pub pinned: Option<Answer>,
}

impl View {
    /// A light view of a width, metric, no moment chosen.
    #[must_use]
    pub fn wide(width_px: f64) -> Self {
        Self { width_px, height_px: None, theme: Theme::light(), units: Units::default(), moment_s: None, pinned: None }
    }
}

/// What every picture can do.
pub trait Drawing {
    /// Its own height at a width, CSS px.
    fn height_px(&self, view: &View) -> f64;
    /// Draws itself.
    fn draw(&self, ink: &mut Ink, view: &View);
    /// Its finding: the sentence over it.
    fn finding(&self, view: &View) -> String;
    /// One line that says how to read it; may be empty.
    fn how(&self, _view: &View) -> String {
        String::new()
    }
    /// What is spoken in its place: the finding and the numbers that matter.
    fn aria(&self, view: &View) -> String;
    /// The same as a table.
    fn table(&self, view: &View) -> Table;
    /// The moment under a place, where the picture has a time axis: seconds since midnight for x in CSS px.
    fn moment_at(&self, _x: f64, _view: &View) -> Option<f64> {
        None
    }
}

/// A drawing whose words are the reader's.
struct Said<T>(T);

impl<T: Drawing> Drawing for Said<T> {
    fn height_px(&self, view: &View) -> f64 {
        self.0.height_px(view)
    }

    fn draw(&self, ink: &mut Ink, view: &View) {
        self.0.draw(ink, view);
    }

    fn finding(&self, view: &View) -> String {
        // A clause that began with a figure may begin with a word in another language.
        capital(&tr(&self.0.finding(view)))
    }

    fn how(&self, view: &View) -> String {
        tr(&self.0.how(view))
    }

    fn aria(&self, view: &View) -> String {
        capital(&tr(&self.0.aria(view)))
    }

    fn table(&self, view: &View) -> Table {
        self.0.table(view).said()
    }

    fn moment_at(&self, x: f64, view: &View) -> Option<f64> {
        self.0.moment_at(x, view)
    }
}

/// A drawing that lives elsewhere.
struct Borrowed<'a, T>(&'a T);

impl<T: Drawing> Drawing for Borrowed<'_, T> {
    fn height_px(&self, view: &View) -> f64 {
        self.0.height_px(view)
    }

    fn draw(&self, ink: &mut Ink, view: &View) {
        self.0.draw(ink, view);
    }

    fn finding(&self, view: &View) -> String {
        self.0.finding(view)
    }

    fn how(&self, view: &View) -> String {
        self.0.how(view)
    }

    fn aria(&self, view: &View) -> String {
        self.0.aria(view)
    }

    fn table(&self, view: &View) -> Table {
        self.0.table(view)
    }

    fn moment_at(&self, x: f64, view: &View) -> Option<f64> {
        self.0.moment_at(x, view)
    }
}

/// Every picture, with its data.
#[derive(Clone, Debug, PartialEq)]
pub enum Picture {
    /// Covers on the floor line, the sag below it.
    Beam(Answer),
    /// What gives first: six bars against a post.
    Gives(Answer),
    /// Heat per dish, of a piece and of a cover.
    Heat(Answer),
    /// The floor through the service.
    Floor(Answer),
    /// The floor plan at a moment.
    Plan(Answer),
    /// Where the heat went.
    Ledger(Answer),
    /// Wood by the hour.
    Wood(Answer),
    /// The ladder of floors.
    Ladder(Rc<Ladder>),
    /// The evening on one strip.
    Evening(Rc<Evening>),
    /// Bad nights.
    Nights(Rc<Nights>),
    /// How the wood swings over them.
    WoodSpread(Rc<WoodSpread>),
}

impl Picture {
    /// The drawing of this picture.
    #[must_use]
    pub fn drawing(&self) -> Box<dyn Drawing + '_> {
        match self {
            Self::Beam(answer) => Box::new(Said(beam::Beam(answer))),
            Self::Gives(answer) => Box::new(Said(gives::Gives(answer))),
            Self::Heat(answer) => Box::new(Said(heat::Heat(answer))),
            Self::Floor(answer) => Box::new(Said(floor::Floor(answer))),
            Self::Plan(answer) => Box::new(Said(plan::Plan(answer))),
            Self::Ledger(answer) => Box::new(Said(ledger::Ledger(answer))),
            Self::Wood(answer) => Box::new(Said(wood::Wood(answer))),
            Self::Ladder(ladder) => Box::new(Said(Borrowed(&**ladder))),
            Self::Evening(evening) => Box::new(Said(Borrowed(&**evening))),
            Self::Nights(nights) => Box::new(Said(Borrowed(&**nights))),
            Self::WoodSpread(spread) => Box::new(Said(Borrowed(&**spread))),
        }
    }

    /// A short name for files and ids.
    #[must_use]
    pub const fn key(&self) -> &'static str {
        match self {
            Self::Beam(_) => "beam",
            Self::Gives(_) => "gives-first",
            Self::Heat(_) => "heat-per-dish",
            Self::Floor(_) => "floor",
            Self::Plan(_) => "floor-plan",
            Self::Ledger(_) => "ledger",
            Self::Wood(_) => "wood-by-the-hour",
            Self::Ladder(_) => "ladder",
            Self::Evening(_) => "evening",
            Self::Nights(_) => "nights",
            Self::WoodSpread(_) => "wood-spread",
        }
    }

    /// Its height in a view, CSS px.
    #[must_use]
    pub fn height_px(&self, view: &View) -> f64 {
        view.height_px.unwrap_or_else(|| self.drawing().height_px(view)).max(1.0)
    }
}

/// Draws a picture on a plotters backend, ground included. The backend's size must be `width_px` by [`Picture::height_px`],
/// times the grain's scale.
///
/// # Errors
/// The first thing the backend refused.
pub fn draw<DB: DrawingBackend>(
    picture: &Picture,
    view: &View,
    backend: DB,
    grain: Grain,
    measure: &dyn Measure,
) -> Result<(), ChartError> {
    let mut ink = Ink::on(backend, grain, measure);
    let ground = shapes::Rect::new(0.0, 0.0, view.width_px, picture.height_px(view));
    ink.fill(&ground.corners(), view.theme.slab);
    picture.drawing().draw(&mut ink, view);
    ink.finish()
}

/// A picture as an SVG document of its own: titled with its finding, described by its spoken label, without style attributes.
///
/// # Errors
/// The first thing the backend refused.
pub fn svg(picture: &Picture, view: &View) -> Result<String, ChartError> {
    let (width, height) = (view.width_px, picture.height_px(view));
    let units = |px: f64| (px * Grain::SVG.scale).round() as u32;
    let mut text = String::new();
    let size = (units(width), units(height));
    draw(picture, view, plotters::backend::SVGBackend::with_string(&mut text, size), Grain::SVG, &ByTable)?;
    let drawing = picture.drawing();
    let head = format!(
        "<svg width=\"{width:.0}\" height=\"{height:.0}\" viewBox=\"0 0 {} {}\" xmlns=\"http://www.w3.org/2000/svg\" role=\"img\">\n\
         <title>{}</title>\n<desc>{}</desc>\n",
        size.0,
        size.1,
        escaped(&drawing.finding(view)),
        escaped(&drawing.aria(view)),
    );
    let body = text.split_once(">\n").map_or("", |(_, body)| body);
    Ok(head + body)
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}
