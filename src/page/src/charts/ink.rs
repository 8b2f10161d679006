//! Owns the pen all pictures draw with: CSS pixels in, device pixels out, on any plotters backend.

use crate::words::translate::tr;
use plotters_backend::text_anchor::{HPos, Pos, VPos};
use plotters_backend::{
    BackendColor, BackendCoord, BackendStyle, BackendTextStyle, DrawingBackend, FontFamily, FontStyle, FontTransform,
};

use super::measure::Measure;
use super::theme::Colour;

/// A point in CSS pixels, x to the right, y down.
pub type Point = (f64, f64);

/// The faces the page uses, for canvas and SVG alike.
pub const FONTS: &str =
    "-apple-system, BlinkMacSystemFont, \"Segoe UI\", Roboto, \"Noto Sans\", \"Liberation Sans\", Arial, sans-serif";

/// How a backend treats size and text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Grain {
    /// Device pixels in a CSS pixel. Backends count in whole pixels, so 2 or more keeps curves smooth.
    pub scale: f64,
    /// What the backend divides font sizes by (plotters' SVG backend: 1.24).
    pub font_divisor: f64,
    /// Where the backend's bottom anchor lies under the baseline, in font sizes.
    pub drop_em: f64,
}

impl Grain {
    /// For a canvas whose backing store has `scale` pixels in a CSS pixel.
    #[must_use]
    pub const fn canvas(scale: f64) -> Self {
        Self { scale, font_divisor: 1.0, drop_em: 0.22 }
    }

    /// For the SVG backend at four units in a CSS pixel.
    pub const SVG: Self = Self { scale: 4.0, font_divisor: 1.24, drop_em: 0.26 };
}

struct Stroke {
    colour: BackendColor,
    width: u32,
}

impl BackendStyle for Stroke {
    fn color(&self) -> BackendColor {
        self.colour
    }

    fn stroke_width(&self) -> u32 {
        self.width
    }
}

/// Text style of our own: plotters' own one measures with a style attribute, which a strict content policy forbids.
struct Lettering {
    colour: BackendColor,
    size: f64,
    bold: bool,
    across: HPos,
    turn: FontTransform,
}

/// The error of a text style that never draws by itself.
#[derive(Debug)]
pub struct NoOutlines;

impl std::fmt::Display for NoOutlines {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str("this text is drawn by the backend, not by outlines")
    }
}

impl std::error::Error for NoOutlines {}

impl BackendTextStyle for Lettering {
    type FontError = NoOutlines;

    fn color(&self) -> BackendColor {
        self.colour
    }

    fn size(&self) -> f64 {
        self.size
    }

    fn transform(&self) -> FontTransform {
        self.turn.clone()
    }

    fn style(&self) -> FontStyle {
        if self.bold { FontStyle::Bold } else { FontStyle::Normal }
    }

    fn anchor(&self) -> Pos {
        Pos::new(self.across, VPos::Bottom)
    }

    fn family(&self) -> FontFamily<'_> {
        FontFamily::Name(FONTS)
    }

    fn layout_box(&self, _text: &str) -> Result<((i32, i32), (i32, i32)), NoOutlines> {
        Err(NoOutlines)
    }

    fn draw<E, D: FnMut(i32, i32, BackendColor) -> Result<(), E>>(
        &self,
        _text: &str,
        _at: BackendCoord,
        _draw: D,
    ) -> Result<Result<(), E>, NoOutlines> {
        Err(NoOutlines)
    }
}

/// Where a text's given point lies in it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Align {
    /// At its start.
    Start,
    /// At its middle.
    Middle,
    /// At its end.
    End,
}

/// Size, weight, colour and alignment of a text.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Type {
    /// Font size, CSS px; at least 13.
    pub size: f64,
    /// Whether it is bold.
    pub bold: bool,
    /// Its colour.
    pub colour: Colour,
    /// Which end the point is.
    pub align: Align,
    /// Whether it runs upwards.
    pub upwards: bool,
}

impl Type {
    /// Axis words and notes: the least size.
    #[must_use]
    pub const fn note(colour: Colour) -> Self {
        Self { size: 13.0, bold: false, colour, align: Align::Start, upwards: false }
    }

    /// Values at bars.
    #[must_use]
    pub const fn value(colour: Colour) -> Self {
        Self { size: 14.0, bold: true, colour, align: Align::Middle, upwards: false }
    }

    /// Bold.
    #[must_use]
    pub const fn bold(mut self) -> Self {
        self.bold = true;
        self
    }

    /// In another size.
    #[must_use]
    pub const fn sized(mut self, size: f64) -> Self {
        self.size = size;
        self
    }

    /// Aligned by its middle.
    #[must_use]
    pub const fn middle(mut self) -> Self {
        self.align = Align::Middle;
        self
    }

    /// Aligned by its end.
    #[must_use]
    pub const fn end(mut self) -> Self {
        self.align = Align::End;
        self
    }

    /// Aligned by its start.
    #[must_use]
    pub const fn start(mut self) -> Self {
        self.align = Align::Start;
        self
    }

    /// Running upwards.
    #[must_use]
    pub const fn upwards(mut self) -> Self {
        self.upwards = true;
        self
    }
}

/// What a pen needs of a backend; the drawing functions then compile once for all backends.
trait Sheet {
    fn path(&mut self, points: &[BackendCoord], style: &Stroke);
    fn polygon(&mut self, points: &[BackendCoord], style: &Stroke);
    fn circle(&mut self, centre: BackendCoord, radius: u32, style: &Stroke, fill: bool);
    fn text(&mut self, at: BackendCoord, text: &str, style: &Lettering);
    fn finish(&mut self) -> Result<(), ChartError>;
}

/// A picture that could not be drawn: what the backend said.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ChartError(pub String);

impl std::fmt::Display for ChartError {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        write!(out, "The picture could not be drawn: {}", self.0)
    }
}

impl std::error::Error for ChartError {}

/// A backend and the first error it met; later strokes are still tried.
struct On<DB> {
    backend: DB,
    failed: Option<ChartError>,
}

impl<DB> On<DB> {
    fn note<E: std::fmt::Display>(&mut self, outcome: Result<(), E>) {
        if let Err(error) = outcome {
            self.failed.get_or_insert(ChartError(error.to_string()));
        }
    }
}

impl<DB: DrawingBackend> Sheet for On<DB> {
    fn path(&mut self, points: &[BackendCoord], style: &Stroke) {
        let outcome = self.backend.draw_path(points.iter().copied(), style);
        self.note(outcome);
    }

    fn polygon(&mut self, points: &[BackendCoord], style: &Stroke) {
        let outcome = self.backend.fill_polygon(points.iter().copied(), style);
        self.note(outcome);
    }

    fn circle(&mut self, centre: BackendCoord, radius: u32, style: &Stroke, fill: bool) {
        let outcome = self.backend.draw_circle(centre, radius, style, fill);
        self.note(outcome);
    }

    fn text(&mut self, at: BackendCoord, text: &str, style: &Lettering) {
        let outcome = self.backend.draw_text(text, style, at);
        self.note(outcome);
    }

    fn finish(&mut self) -> Result<(), ChartError> {
        let outcome = self.backend.present();
        self.note(outcome);
        self.failed.take().map_or(Ok(()), Err)
    }
}

/// The pen.
pub struct Ink<'a> {
    sheet: Box<dyn Sheet + 'a>,
    grain: Grain,
    measure: &'a dyn Measure,
}

impl<'a> Ink<'a> {
    /// A pen on a backend.
    pub fn on<DB: DrawingBackend + 'a>(backend: DB, grain: Grain, measure: &'a dyn Measure) -> Self {
        Self { sheet: Box::new(On { backend, failed: None }), grain, measure }
    }

    /// Ends the picture.
    ///
    /// # Errors
    /// The first thing the backend refused.
    pub fn finish(mut self) -> Result<(), ChartError> {
        self.sheet.finish()
    }

    fn device(&self, at: Point) -> BackendCoord {
        ((at.0 * self.grain.scale).round() as i32, (at.1 * self.grain.scale).round() as i32)
    }

    fn stroke(&self, colour: Colour, width: f64) -> Stroke {
        let rgb = (colour.0, colour.1, colour.2);
        let width = (width * self.grain.scale).round().max(1.0) as u32;
        Stroke { colour: BackendColor { alpha: 1.0, rgb }, width }
    }

    fn all(&self, points: &[Point]) -> Vec<BackendCoord> {
        points.iter().map(|&point| self.device(point)).collect()
    }

    /// A line through points.
    pub fn path(&mut self, points: &[Point], colour: Colour, width: f64) {
        if points.len() > 1 {
            let (points, style) = (self.all(points), self.stroke(colour, width));
            self.sheet.path(&points, &style);
        }
    }

    /// A straight line.
    pub fn line(&mut self, from: Point, to: Point, colour: Colour, width: f64) {
        self.path(&[from, to], colour, width);
    }

    /// A closed outline.
    pub fn outline(&mut self, points: &[Point], colour: Colour, width: f64) {
        let mut closed = points.to_vec();
        closed.extend(points.iter().take(2));
        self.path(&closed, colour, width);
    }

    /// A dashed line through points; `pattern` is on, off in px.
    pub fn dashed(&mut self, points: &[Point], colour: Colour, width: f64, pattern: (f64, f64)) {
        for dash in super::shapes::dashes(points, pattern) {
            self.path(&dash, colour, width);
        }
    }

    /// A dotted line of round dots.
    pub fn dotted(&mut self, points: &[Point], colour: Colour, width: f64) {
        for dash in super::shapes::dashes(points, (0.1, width * 2.0 + 0.9)) {
            if let Some(&at) = dash.first() {
                self.disc(at, width / 2.0, colour);
            }
        }
    }

    /// A filled polygon.
    pub fn fill(&mut self, points: &[Point], colour: Colour) {
        if points.len() > 2 {
            let (points, style) = (self.all(points), self.stroke(colour, 1.0));
            self.sheet.polygon(&points, &style);
        }
    }

    /// A filled disc.
    pub fn disc(&mut self, centre: Point, radius: f64, colour: Colour) {
        let (at, style) = (self.device(centre), self.stroke(colour, 1.0));
        self.sheet.circle(at, (radius * self.grain.scale).round().max(1.0) as u32, &style, true);
    }

    /// A circle's line.
    pub fn ring(&mut self, centre: Point, radius: f64, colour: Colour, width: f64) {
        let (at, style) = (self.device(centre), self.stroke(colour, width));
        self.sheet.circle(at, (radius * self.grain.scale).round().max(1.0) as u32, &style, false);
    }

    /// A text; `at` is on its baseline.
    pub fn text(&mut self, at: Point, text: &str, kind: Type) {
        let text = &tr(text);
        let drop = self.grain.drop_em * kind.size;
        let foot = if kind.upwards { (at.0 + drop, at.1) } else { (at.0, at.1 + drop) };
        let across = match kind.align {
            Align::Start => HPos::Left,
            Align::Middle => HPos::Center,
            Align::End => HPos::Right,
        };
        let style = Lettering {
            colour: BackendColor { alpha: 1.0, rgb: (kind.colour.0, kind.colour.1, kind.colour.2) },
            size: kind.size * self.grain.scale * self.grain.font_divisor,
            bold: kind.bold,
            across,
            turn: if kind.upwards { FontTransform::Rotate270 } else { FontTransform::None },
        };
        let foot = self.device(foot);
        self.sheet.text(foot, text, &style);
    }

    /// A text in a casing of another colour, so that it reads on any ground.
    pub fn cased(&mut self, at: Point, text: &str, kind: Type, casing: Colour, width: f64) {
        let slant = width * std::f64::consts::FRAC_1_SQRT_2;
        for (dx, dy) in [
            (width, 0.0),
            (-width, 0.0),
            (0.0, width),
            (0.0, -width),
            (slant, slant),
            (slant, -slant),
            (-slant, slant),
            (-slant, -slant),
        ] {
            self.text((at.0 + dx, at.1 + dy), text, Type { colour: casing, ..kind });
        }
        self.text(at, text, kind);
    }

    /// Width of a text, CSS px.
    #[must_use]
    pub fn width(&self, text: &str, kind: Type) -> f64 {
        self.measure.width_px(&tr(text), kind.size, kind.bold)
    }
}
