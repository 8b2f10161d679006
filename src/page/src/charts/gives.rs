//! Owns the picture of what gives first: each resource as a bar against one post; the one that fails bends past it.

use hearthload::numerics::order;
use hearthload::report::{Gives as What, Load};

use super::answer::Answer;
use super::ink::{Ink, Type};
use super::shapes::Rect;
use super::words::capital;
use super::{Drawing, Table, View};

const ROW_PX: f64 = 48.0;
const HEAD_PX: f64 = 26.0;
const BAR_PX: f64 = 9.0;
/// The post stands this share of the way, so that a failing bar has room to bend past it.
const POST_SHARE: f64 = 0.84;
/// Longest stretch past the post, share of the width.
const PAST_SHARE: f64 = 0.15;

/// What gives first.
pub struct Gives<'a>(pub &'a Answer);

/// What a resource is called.
#[must_use]
pub const fn name(what: What) -> &'static str {
    match what {
        What::FloorHeat => "floor heat",
        What::TopHeat => "top heat",
        What::FloorSpace => "floor space",
        What::Hands => "hands",
        What::Fire => "fire",
        What::DoorwayAir => "doorway air",
        What::Cap => "a dish's own cap",
        What::None => "nothing",
    }
}

/// "the hands give", for what gives; none when nothing does.
#[must_use]
pub const fn gives_words(what: What) -> Option<&'static str> {
    match what {
        What::FloorHeat => Some("floor heat gives"),
        What::TopHeat => Some("top heat gives"),
        What::FloorSpace => Some("floor space gives"),
        What::Hands => Some("hands give"),
        What::Fire => Some("the fire gives"),
        What::DoorwayAir => Some("doorway air gives"),
        What::Cap => Some("a dish's own cap gives"),
        What::None => None,
    }
}

impl Gives<'_> {
    /// The loads, the one that gives on top, then by use.
    fn rows(&self) -> Vec<&Load> {
        let first = self.0.report.verdict.gives_first;
        let mut rows: Vec<&Load> = self
            .0
            .report
            .verdict
            .loads
            .iter()
            .filter(|load| load.what != What::None && load.used.is_finite())
            .collect();
        order::by(&mut rows, |a, b| (b.what == first).cmp(&(a.what == first)).then(b.used.total_cmp(&a.used)));
        rows
    }

    fn fails(&self, load: &Load) -> bool {
        load.used > 1.0
    }

    fn says(&self, load: &Load, view: &View) -> String {
        let off = load.used - 1.0;
        if off.abs() < 0.005 {
            "just holds".to_owned()
        } else if off > 0.0 {
            // Past twice, a cook thinks in times.
            if off > 1.0 {
                format!("{} times too much", view.units.number(load.used, 1))
            } else {
                format!("{} too much", view.units.percent(off))
            }
        } else {
            format!("{} to spare", view.units.percent(-off))
        }
    }

    fn draw_row(&self, ink: &mut Ink, view: &View, load: &Load, top: f64) {
        let theme = &view.theme;
        let post = view.width_px * POST_SHARE;
        let fails = self.fails(load);
        ink.text((0.0, top + 14.0), &capital(name(load.what)), Type::value(theme.soot).start());
        let value = Type::note(if fails { theme.short } else { theme.smoke }).end();
        let value = if fails { value.bold().sized(14.0) } else { value };
        ink.text((post - 8.0, top + 14.0), &self.says(load, view), value);
        let (y, colour) = (top + 22.0, if fails { theme.soot } else { theme.smoke });
        let long = load.used.clamp(0.0, 1.0) * post;
        ink.fill(&Rect::new(0.0, y, long.max(1.0), BAR_PX).corners(), colour);
    }

    /// The end of a bar that bends past the post.
    fn draw_bend(ink: &mut Ink, view: &View, load: &Load, top: f64) {
        let post = view.width_px * POST_SHARE;
        let past = ((load.used - 1.0) * post).clamp(10.0, view.width_px * PAST_SHARE);
        let (y, drop) = (top + 22.0, past * 0.27);
        let bend = [(post, y), (post + past, y + drop), (post + past, y + drop + BAR_PX), (post, y + BAR_PX)];
        ink.fill(&bend, view.theme.short);
    }
}

impl Drawing for Gives<'_> {
    fn height_px(&self, _view: &View) -> f64 {
        HEAD_PX + ROW_PX * self.rows().len() as f64
    }

    fn draw(&self, ink: &mut Ink, view: &View) {
        let post = view.width_px * POST_SHARE;
        let words = Type::note(view.theme.smoke).end();
        let over = ink.width("all it can bear", words) / 2.0;
        ink.text(((post + over).min(view.width_px), 14.0), "all it can bear", words);
        for (index, load) in self.rows().into_iter().enumerate() {
            self.draw_row(ink, view, load, HEAD_PX + ROW_PX * index as f64);
        }
        ink.line((post, HEAD_PX - 6.0), (post, self.height_px(view) - 4.0), view.theme.soot, 3.0);
        // The bent end lies over the post.
        for (index, load) in self.rows().into_iter().enumerate().filter(|(_, load)| load.used > 1.0) {
            Self::draw_bend(ink, view, load, HEAD_PX + ROW_PX * index as f64);
        }
    }

    fn finding(&self, _view: &View) -> String {
        let rows = self.rows();
        let Some(top) = rows.first() else { return "Nothing was measured against its limit.".to_owned() };
        match gives_words(self.0.report.verdict.gives_first) {
            Some(what) => match rows.iter().skip(1).find(|load| load.used > 1.0) {
                Some(next) => capital(&format!("{what} first, then {}.", name(next.what))),
                None => capital(&format!("{what} first; the rest holds.")),
            },
            None => format!("All hold; {} would give next.", name(top.what)),
        }
    }

    fn aria(&self, view: &View) -> String {
        let parts: Vec<String> =
            self.rows().into_iter().map(|load| format!("{}, {}", name(load.what), self.says(load, view))).collect();
        format!("{} {}.", self.finding(view), capital(&parts.join("; ")))
    }

    fn table(&self, view: &View) -> Table {
        let mut table = Table::with_head(&["what", "used, %", "to spare", "why"]);
        for load in self.rows() {
            table.row([
                capital(name(load.what)),
                view.units.number(load.used * 100.0, 0),
                self.says(load, view),
                crate::units::said(&load.says),
            ]);
        }
        table
    }
}
