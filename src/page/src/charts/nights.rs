//! Owns the picture of bad nights: how many nights break in each quarter hour.

use super::axis::TimeScale;
use super::fills::{Fill, fill_rect};
use super::ink::{Ink, Type};
use super::shapes::Rect;
use super::{Drawing, Table, View};
use hearthload::units::time::QUARTER_S;

const BARS_PX: f64 = 110.0;
const TOP_PX: f64 = 40.0;
const LINE_PX: f64 = 5.0;
/// A bar lower than this carries no number, px.
const NUMBERED_PX: f64 = 20.0;

/// What the picture of nights is drawn from: filled by the plan stage, also while it still runs.
#[derive(Clone, Debug, PartialEq)]
pub struct Nights {
    /// First order, seconds since midnight.
    pub from_s: f64,
    /// End of the evening, seconds since midnight.
    pub to_s: f64,
    /// Nights that broke in each quarter hour from `from_s`.
    pub broken_by_quarter: Vec<u32>,
    /// Nights run so far.
    pub run: u32,
    /// Nights asked for.
    pub asked: u32,
    /// Nights that held all promises.
    pub held: u32,
    /// Half the width of the 95 % interval of the share held, 0..1 (Wilson).
    pub share_error: f64,
    /// What is looked at, as it stands in the finding: "130 cm".
    pub what: String,
}

impl Nights {
    fn scale(&self, view: &View) -> TimeScale {
        TimeScale { left: 2.0, right: view.width_px - 2.0, from_s: self.from_s, to_s: self.to_s }
    }

    fn most(&self) -> u32 {
        self.broken_by_quarter.iter().copied().max().unwrap_or(0)
    }

    fn share(&self) -> f64 {
        f64::from(self.held) / f64::from(self.run.max(1))
    }

    fn worst(&self) -> Option<f64> {
        let most = self.most();
        let at = self.broken_by_quarter.iter().position(|&broken| broken == most)?;
        (most > 0).then_some(self.from_s + QUARTER_S * at as f64)
    }
}

impl Nights {
    /// The quarter hour that breaks most often, in words.
    fn breaks(&self, view: &View) -> String {
        self.worst().map_or_else(
            || "No night breaks.".to_owned(),
            |at| format!("Most that break, {}, do so in the quarter hour from {}.", self.most(), view.units.clock(at)),
        )
    }
}

impl Drawing for Nights {
    fn height_px(&self, _view: &View) -> f64 {
        TOP_PX + BARS_PX + LINE_PX + 26.0
    }

    fn draw(&self, ink: &mut Ink, view: &View) {
        let theme = &view.theme;
        let scale = self.scale(view);
        let foot = TOP_PX + BARS_PX;
        ink.text((0.0, 14.0), "nights that break in this quarter hour", Type::note(theme.smoke));
        let px = BARS_PX / f64::from(self.most().max(1));
        for (index, &broken) in self.broken_by_quarter.iter().enumerate().filter(|(_, broken)| **broken > 0) {
            let from = self.from_s + QUARTER_S * index as f64;
            let (left, right) = (scale.x(from) + 1.25, scale.x(from + QUARTER_S) - 1.25);
            let high = f64::from(broken) * px;
            let bar = Rect::new(left, foot - high, right - left, high);
            if self.worst() == Some(from) {
                fill_rect(ink, theme, bar, Fill::Short);
                ink.outline(&bar.corners(), theme.short, 1.5);
            } else {
                ink.fill(&bar.corners(), theme.smoke);
            }
            let text = broken.to_string();
            let kind = Type::value(theme.soot).sized(13.0);
            if high >= NUMBERED_PX && ink.width(&text, kind) <= right - left + 4.0 {
                ink.text(((left + right) / 2.0, foot - high - 5.0), &text, kind);
            }
        }
        let y = foot + LINE_PX / 2.0;
        ink.line((scale.left, y), (scale.right, y), theme.soot, LINE_PX);
        scale.ticks(ink, view, foot + LINE_PX);
    }

    fn finding(&self, view: &View) -> String {
        let share = view.units.number(self.share() * 100.0, 0);
        let error = view.units.number((self.share_error * 100.0).ceil(), 0);
        let so_far = if self.run < self.asked { "so far it holds" } else { "it holds" };
        format!("{}: {so_far} on {share} of 100 nights, ±\u{a0}{error}.", self.what)
    }

    fn how(&self, view: &View) -> String {
        let run = view.units.number(f64::from(self.run), 0);
        let asked = view.units.number(f64::from(self.asked), 0);
        let run =
            if self.run < self.asked { format!("{run} of {asked} nights run.") } else { format!("{run} nights run.") };
        format!("{run} {}", self.breaks(view))
    }

    fn aria(&self, view: &View) -> String {
        format!("{} {}", self.finding(view), self.breaks(view))
    }

    fn table(&self, view: &View) -> Table {
        let mut table = Table::with_head(&["quarter hour from", "nights that break"]);
        for (index, broken) in self.broken_by_quarter.iter().enumerate() {
            table.row([view.units.clock(self.from_s + QUARTER_S * index as f64), broken.to_string()]);
        }
        table
    }

    fn moment_at(&self, x: f64, view: &View) -> Option<f64> {
        Some(self.scale(view).at(x))
    }
}
