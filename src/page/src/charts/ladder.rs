//! Owns the ladder of floors: the largest on top, two bars a rung against the post of what the menu asks.

use hearthload::scenario::{FireSide, FloorShape};

use super::axis::{fitted, wrapped};
use super::fills::{Fill, fill_rect};
use super::ink::{Ink, Point, Type};
use super::shapes::{Rect, arc, within};
use super::words::list;
use super::{Drawing, Table, View};
use crate::words::translate::tr;

use std::f64::consts::PI;

/// From this width on a rung has its floor, its name and its bars side by side.
const WIDE_FROM_PX: f64 = 620.0;
const WIDE_RUNG_PX: f64 = 62.0;
const NARROW_RUNG_PX: f64 = 70.0;
const HEAD_PX: f64 = 38.0;
const FOOT_PX: f64 = 42.0;
const BAR_PX: f64 = 9.0;
/// Left end of the bars where rungs are wide, px.
const BARS_X: f64 = 246.0;
/// Left end of a rung's name there, px.
const NAME_X: f64 = 74.0;
/// Room at the right for "203, 78 % to spare".
const VALUE_PX: f64 = 132.0;
const NARROW_VALUE_PX: f64 = 96.0;
/// Widest floor as drawn, px.
const FLOOR_PX: f64 = 58.0;

/// What a floor holds, fed one way.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Held {
    /// Not worked out yet.
    Awaited,
    /// A dish does not fit it.
    TooSmall,
    /// It does not carry at any pace.
    Nothing,
    /// The most it holds, in the ladder's unit.
    Most(f64),
}

impl Held {
    const fn most(self) -> Option<f64> {
        if let Self::Most(most) = self { Some(most) } else { None }
    }

    const fn without(self) -> &'static str {
        match self {
            Self::Awaited => "not worked out yet",
            Self::TooSmall => "a dish does not fit",
            _ => "does not carry at any pace",
        }
    }
}

/// One floor on offer.
#[derive(Clone, Debug, PartialEq)]
pub struct Rung {
    /// Inside width of the floor, m.
    pub width_m: f64,
    /// From doorway to rear, m.
    pub depth_m: f64,
    /// Share of the floor under the fire.
    pub bed_share: f64,
    /// What it holds on wood alone.
    pub on_wood: Held,
    /// What it holds with the burner.
    pub with_gas: Held,
}

/// What the ladder is drawn from: filled by the plan stage.
#[derive(Clone, Debug, PartialEq)]
pub struct Ladder {
    /// Shape of all floors.
    pub shape: FloorShape,
    /// Where the fire lies.
    pub fire_side: FireSide,
    /// Floors on offer, smallest first.
    pub rungs: Vec<Rung>,
    /// What the menu asks, in the ladder's unit.
    pub asks: f64,
    /// The unit: "pieces an hour" or "covers an hour".
    pub unit: String,
    /// The smallest that carries on wood, an index.
    pub smallest_on_wood: Option<usize>,
    /// The smallest that carries with gas, an index.
    pub smallest_with_gas: Option<usize>,
    /// The smallest that holds nine nights in ten on wood, an index.
    pub nine_in_ten: Option<usize>,
    /// The rung chosen by the reader, an index; the smallest on wood lies under the arch where absent.
    pub chosen: Option<usize>,
}

struct Frame {
    left: f64,
    right: f64,
    most: f64,
    wide: bool,
}

impl Frame {
    fn x(&self, value: f64) -> f64 {
        self.left + value / self.most * (self.right - self.left)
    }
}

impl Ladder {
    fn frame(&self, view: &View) -> Frame {
        let wide = view.width_px >= WIDE_FROM_PX;
        let held = self.rungs.iter().flat_map(|rung| [rung.on_wood, rung.with_gas]).filter_map(Held::most);
        let most = held.fold(self.asks, f64::max).max(1e-9);
        let (left, right) =
            if wide { (BARS_X, view.width_px - VALUE_PX) } else { (0.0, view.width_px - NARROW_VALUE_PX) };
        Frame { left, right, most: most * 1.02, wide }
    }

    fn rung_px(frame: &Frame) -> f64 {
        if frame.wide { WIDE_RUNG_PX } else { NARROW_RUNG_PX }
    }

    fn lit(&self) -> Option<usize> {
        self.chosen.or(self.smallest_on_wood)
    }

    fn tags(&self, index: usize) -> String {
        let both = self.smallest_on_wood.filter(|at| self.smallest_with_gas == Some(*at));
        let alone = |at: Option<usize>| at.filter(|_| both.is_none());
        let tags = [
            (both, "smallest, wood or gas"),
            (alone(self.smallest_on_wood), "smallest on wood"),
            (alone(self.smallest_with_gas), "smallest with gas"),
            (self.nine_in_ten, "nine nights in ten"),
        ];
        let mine: Vec<String> = tags.iter().filter(|(at, _)| *at == Some(index)).map(|(_, tag)| tr(tag)).collect();
        list(&mine)
    }

    fn says(&self, held: f64, view: &View) -> String {
        let off = held - self.asks;
        if off < 0.0 {
            format!("{} short", view.units.number((-off).ceil(), 0))
        } else {
            format!("{} to spare", view.units.percent(off / self.asks.max(1e-9)))
        }
    }

    /// Top of a rung's upper bar.
    fn bars_y(frame: &Frame, top: f64) -> f64 {
        if frame.wide { top + WIDE_RUNG_PX / 2.0 - 12.0 - BAR_PX / 2.0 } else { top + 24.0 }
    }

    fn draw_words(&self, ink: &mut Ink, view: &View, frame: &Frame, index: usize, top: f64) {
        let theme = &view.theme;
        let rung = &self.rungs[index];
        let (name, tags) = (view.units.length(rung.width_m), self.tags(index));
        if frame.wide {
            let middle = top + WIDE_RUNG_PX / 2.0;
            self.draw_floor(ink, view, rung, (32.0, middle));
            let note = Type::note(theme.smoke).end();
            let kind = Type::note(theme.soot);
            let room = BARS_X - 16.0 - NAME_X - ink.width("with gas", note).max(ink.width("on wood", note));
            let lines = if tags.is_empty() { Vec::new() } else { wrapped(&|text| ink.width(text, kind), &tags, room) };
            let lift = 6.0 - 8.0 * lines.len() as f64;
            ink.text((NAME_X, middle + lift), &name, Type::value(theme.soot).start().sized(18.0));
            for (place, line) in lines.iter().enumerate() {
                ink.text((NAME_X, middle + lift + 17.0 + 15.0 * place as f64), line, kind);
            }
            ink.text((BARS_X - 8.0, middle - 7.5), "on wood", note);
            ink.text((BARS_X - 8.0, middle + 15.5), "with gas", note);
        } else {
            let label = if tags.is_empty() { name } else { format!("{name}, {tags}") };
            let kind = Type::value(theme.soot).start();
            // What finds no room stands in the table.
            let label = fitted(&|text| ink.width(text, kind), &label, view.width_px - 4.0);
            ink.cased((0.0, top + 16.0), &label, kind, self.ground(view, index), 2.5);
        }
        let y = Self::bars_y(frame, top);
        self.draw_value(ink, view, frame, index, rung.on_wood, y);
        self.draw_value(ink, view, frame, index, rung.with_gas, y + 23.0);
    }

    fn ground(&self, view: &View, index: usize) -> super::theme::Colour {
        if self.lit() == Some(index) { view.theme.lit_wash } else { view.theme.slab }
    }

    fn draw_bar(&self, ink: &mut Ink, view: &View, frame: &Frame, held: Held, kind: Fill, y: f64) {
        let Some(held) = held.most() else { return };
        let (x, post) = (frame.x(held), frame.x(self.asks));
        fill_rect(ink, &view.theme, Rect::new(frame.left, y, (x - frame.left).max(1.0), BAR_PX), kind);
        if x < post - 6.0 {
            ink.dotted(&[(x + 4.0, y + BAR_PX / 2.0), (post - 4.0, y + BAR_PX / 2.0)], view.theme.edge, 2.0);
        }
    }

    fn draw_value(&self, ink: &mut Ink, view: &View, frame: &Frame, index: usize, held: Held, y: f64) {
        let theme = &view.theme;
        let Some(held) = held.most() else {
            let (at, ground) = ((frame.left + 4.0, y + 9.5), self.ground(view, index));
            ink.cased(at, held.without(), Type::note(theme.smoke), ground, 2.0);
            return;
        };
        let value = Type::note(theme.soot).bold().sized(14.0);
        let words = Type::note(theme.soot).sized(14.0);
        let (at, ground) = (frame.x(held.max(self.asks)) + 7.0, self.ground(view, index));
        let (number, says) = (view.units.number(held, 0), self.says(held, view));
        // On a phone a bar over the post has room for its number only.
        let with_comma = format!("{number},");
        let next = at + ink.width(&with_comma, value) + 4.0;
        if next + ink.width(&says, words) <= view.width_px {
            ink.cased((at, y + 9.5), &with_comma, value, ground, 2.0);
            ink.cased((next, y + 9.5), &says, words, ground, 2.0);
        } else {
            ink.cased((at, y + 9.5), &number, value, ground, 2.0);
        }
    }

    fn draw_floor(&self, ink: &mut Ink, view: &View, rung: &Rung, centre: Point) {
        let theme = &view.theme;
        let largest = self.rungs.iter().map(|rung| rung.width_m.max(rung.depth_m)).fold(0.1, f64::max);
        let px = FLOOR_PX / largest;
        let half = (rung.width_m * px / 2.0, rung.depth_m * px / 2.0);
        let shape = if self.shape == FloorShape::Rectangle {
            Rect::new(centre.0 - half.0, centre.1 - half.1, 2.0 * half.0, 2.0 * half.1).corners().to_vec()
        } else {
            arc(centre, half, 0.0, 2.0 * PI)
        };
        ink.fill(&shape, theme.inset);
        // The bed as a strip along its wall; on a round floor a strip of the same share is a little wider.
        let deep = if self.shape == FloorShape::Rectangle { rung.bed_share } else { rung.bed_share * 0.9 + 0.05 };
        let all = Rect::new(centre.0 - half.0, centre.1 - half.1, 2.0 * half.0, 2.0 * half.1);
        let bed = match self.fire_side {
            FireSide::Left => Rect { w: all.w * deep, ..all },
            FireSide::Right => Rect { x: all.right() - all.w * deep, w: all.w * deep, ..all },
            FireSide::Rear => Rect { h: all.h * deep, ..all },
        };
        ink.fill(&within(&shape, &bed.corners()), theme.smoke);
        ink.outline(&shape, theme.soot, 2.0);
    }

    fn draw_axis(&self, ink: &mut Ink, view: &View, frame: &Frame, y: f64) {
        let theme = &view.theme;
        let kind = Type::note(theme.smoke);
        if !frame.wide {
            ink.text((0.0, y + 20.0), &format!("{} held", self.unit), kind);
            return;
        }
        let step = super::axis::round_step(frame.most, 5.0);
        let mut value = 0.0;
        let mut last = frame.left;
        while value <= frame.most {
            let x = frame.x(value);
            ink.line((x, y), (x, y + 5.0), theme.edge, 1.5);
            ink.text((x, y + 20.0), &view.units.number(value, 0), kind.middle());
            last = x;
            value += step;
        }
        ink.text((last + 22.0, y + 20.0), &self.unit, kind);
    }
}

/// The chosen rung lies under a lit arch.
fn draw_arch(ink: &mut Ink, view: &View, top: f64, high: f64) {
    const RISE: f64 = 9.0;
    let (wide, foot) = (view.width_px, top + high);
    let mut arch = super::shapes::bezier(
        (0.0, top + RISE),
        (wide * 0.25, top - 1.0),
        (wide * 0.75, top - 1.0),
        (wide, top + RISE),
    );
    arch.extend([(wide, foot), (0.0, foot)]);
    ink.fill(&arch, view.theme.lit_wash);
}

impl Drawing for Ladder {
    fn height_px(&self, view: &View) -> f64 {
        HEAD_PX + Self::rung_px(&self.frame(view)) * self.rungs.len() as f64 + FOOT_PX
    }

    fn draw(&self, ink: &mut Ink, view: &View) {
        let theme = &view.theme;
        let frame = self.frame(view);
        let foot = HEAD_PX + Self::rung_px(&frame) * self.rungs.len() as f64;
        let post = frame.x(self.asks);
        // Under the bars, so that a bar over the post crosses it.
        if let Some(lit) = self.lit() {
            draw_arch(
                ink,
                view,
                HEAD_PX + Self::rung_px(&frame) * (self.rungs.len() - 1 - lit) as f64,
                Self::rung_px(&frame),
            );
        }
        let top = |index: usize| HEAD_PX + Self::rung_px(&frame) * (self.rungs.len() - 1 - index) as f64;
        for (index, rung) in self.rungs.iter().enumerate() {
            let y = Self::bars_y(&frame, top(index));
            self.draw_bar(ink, view, &frame, rung.on_wood, Fill::Food, y);
            self.draw_bar(ink, view, &frame, rung.with_gas, Fill::Gas, y + 23.0);
        }
        ink.line((post, HEAD_PX - 12.0), (post, foot + 4.0), theme.soot, 3.0);
        // Words last: their casing keeps them legible where the post runs through.
        for index in 0..self.rungs.len() {
            self.draw_words(ink, view, &frame, index, top(index));
        }
        let words = format!("your menu asks {} {}", view.units.number(self.asks, 0), self.unit);
        let kind = Type::value(theme.soot);
        let half = ink.width(&words, kind) / 2.0;
        ink.text((post.clamp(half, (view.width_px - half).max(half)), 16.0), &words, kind);
        self.draw_axis(ink, view, &frame, foot + 4.0);
    }

    fn finding(&self, view: &View) -> String {
        let is_awaited = |rung: &Rung| [rung.on_wood, rung.with_gas].contains(&Held::Awaited);
        if self.rungs.iter().any(is_awaited) {
            return "A rung must reach the post; not all are worked out yet.".to_owned();
        }
        let size =
            |index: usize| self.rungs.get(index).map_or_else(String::new, |rung| view.units.length(rung.width_m));
        match (self.smallest_on_wood, self.smallest_with_gas) {
            (Some(wood), _) => {
                format!("A rung must reach the post; the {} floor is the first to do so on wood.", size(wood))
            }
            (None, Some(gas)) => {
                format!("No floor on offer reaches the post on wood; the {} floor does with gas.", size(gas))
            }
            (None, None) => "No floor on offer reaches the post.".to_owned(),
        }
    }

    fn how(&self, _view: &View) -> String {
        let unit = super::words::capital(&self.unit);
        format!("{unit} held, each floor with its own best feeding. Floors drawn to scale, fire bed dark.")
    }

    fn aria(&self, view: &View) -> String {
        let part = |rung: &Rung| {
            let held = |held: Held| {
                held.most().map_or_else(
                    || held.without().to_owned(),
                    |held| format!("{}, {}", view.units.number(held, 0), self.says(held, view)),
                )
            };
            format!(
                "{}: on wood {}; with gas {}",
                view.units.length(rung.width_m),
                held(rung.on_wood),
                held(rung.with_gas)
            )
        };
        let parts: Vec<String> = self.rungs.iter().map(part).collect();
        format!(
            "{} The menu asks {} {}. {}.",
            self.finding(view),
            view.units.number(self.asks, 0),
            self.unit,
            parts.join(". ")
        )
    }

    fn table(&self, view: &View) -> Table {
        let mut table = Table::with_head(&[
            "floor",
            &format!("on wood, {}", self.unit),
            &format!("with gas, {}", self.unit),
            "remarks",
        ]);
        let cell = |held: Held| {
            held.most().map_or_else(
                || held.without().to_owned(),
                |held| format!("{}, {}", view.units.number(held, 0), self.says(held, view)),
            )
        };
        for (index, rung) in self.rungs.iter().enumerate() {
            table.row([view.units.length(rung.width_m), cell(rung.on_wood), cell(rung.with_gas), self.tags(index)]);
        }
        table
    }
}
