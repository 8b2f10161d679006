//! Owns the picture of how the wood swings over many nights: what eight nights in ten lie between, and where the plan lies.

use super::axis::round_step;
use super::fills::{Fill, fill_rect};
use super::ink::{Align, Ink, Type};
use super::shapes::Rect;
use super::{Drawing, Table, View};
use hearthload::units::trade::POUND_KG;

const TOP_PX: f64 = 44.0;
const BAR_PX: f64 = 38.0;
const LINE_PX: f64 = 5.0;
/// Room at either side of what is marked, as a share of it.
const ROOM: f64 = 0.6;
/// Most parts of the axis; room of one, px.
const PARTS: f64 = 8.0;
const PART_PX: f64 = 64.0;
/// Half of the words under the bar lie this far apart at least, px.
const APART_PX: f64 = 14.0;

/// What the picture is drawn from.
#[derive(Clone, Debug, PartialEq)]
pub struct WoodSpread {
    /// One night in ten takes less, kg.
    pub p10_kg: f64,
    /// The middle night, kg.
    pub p50_kg: f64,
    /// One night in ten takes more, kg.
    pub p90_kg: f64,
    /// What the evening takes as it is planned, kg; not known for another floor's.
    pub planned_kg: Option<f64>,
}

impl WoodSpread {
    /// The scale's ends, kg.
    fn ends_kg(&self) -> [f64; 2] {
        let planned = self.planned_kg.unwrap_or(self.p50_kg);
        let [least, most] = [self.p10_kg.min(planned), self.p90_kg.max(planned)];
        let room = (most - least).max(1.0) * ROOM;
        [(least - room).max(0.0), most + room]
    }

    fn x(&self, view: &View, kg: f64) -> f64 {
        let [from, to] = self.ends_kg();
        (kg - from) / (to - from) * view.width_px
    }

    /// Ticks at round numbers of the reader's unit.
    fn axis(&self, ink: &mut Ink, view: &View, y: f64) {
        let each = if view.units.pounds { POUND_KG } else { 1.0 };
        let parts = PARTS.min((view.width_px / PART_PX).floor()).max(2.0);
        let [from, to] = self.ends_kg().map(|kg| kg / each);
        let step = round_step(to - from, parts);
        let kind = Type::note(view.theme.smoke);
        let mut at = (from / step).ceil() * step;
        let first = at;
        while at <= to {
            let x = self.x(view, at * each);
            ink.line((x, y), (x, y + 6.0), view.theme.edge, 1.5);
            let number = view.units.number(at, usize::from(step < 1.0));
            let text = if at > first { number } else { format!("{number}\u{a0}{}", view.units.mass_unit()) };
            let half = ink.width(&text, kind) / 2.0;
            let align = match x {
                x if x < half => Align::Start,
                x if x + half > view.width_px => Align::End,
                _ => Align::Middle,
            };
            ink.text((x, y + 21.0), &text, Type { align, ..kind });
            at += step;
        }
    }

    /// The three nights' words over the bar, pushed apart where they would touch.
    fn words(&self, ink: &mut Ink, view: &View) {
        let kind = Type::value(view.theme.soot);
        let all = [self.p10_kg, self.p50_kg, self.p90_kg];
        let texts = all.map(|kg| view.units.mass(kg));
        let wide = [0, 1, 2].map(|place| ink.width(&texts[place], kind));
        let mut at = all.map(|kg| self.x(view, kg));
        let apart = |a: usize, b: usize| (wide[a] + wide[b]) / 2.0 + APART_PX;
        at[0] = at[0].min(at[1] - apart(0, 1)).max(wide[0] / 2.0);
        at[1] = at[1].max(at[0] + apart(0, 1));
        at[2] = at[2].max(at[1] + apart(1, 2)).min(view.width_px - wide[2] / 2.0);
        at[1] = at[1].min(at[2] - apart(1, 2));
        at[0] = at[0].min(at[1] - apart(0, 1));
        for place in 0..all.len() {
            ink.text((at[place], TOP_PX - 8.0), &texts[place], kind.middle());
        }
    }
}

impl Drawing for WoodSpread {
    fn height_px(&self, _view: &View) -> f64 {
        TOP_PX + BAR_PX + LINE_PX + 28.0
    }

    fn draw(&self, ink: &mut Ink, view: &View) {
        let theme = &view.theme;
        let foot = TOP_PX + BAR_PX;
        let [left, middle, right] = [self.p10_kg, self.p50_kg, self.p90_kg].map(|kg| self.x(view, kg));
        fill_rect(ink, theme, Rect::new(left, TOP_PX, (right - left).max(2.0), BAR_PX), Fill::Wood);
        ink.line((middle, TOP_PX - 4.0), (middle, foot), theme.soot, 4.0);
        if let Some(planned) = self.planned_kg {
            let x = self.x(view, planned);
            ink.dashed(&[(x, 22.0), (x, foot)], theme.press, 2.0, (6.0, 4.0));
            let kind = Type::note(theme.press);
            let half = ink.width("as planned", kind) / 2.0;
            let at = x.clamp(half, (view.width_px - half).max(half));
            ink.text((at, 14.0), "as planned", kind.middle());
        }
        self.words(ink, view);
        let y = foot + LINE_PX / 2.0;
        ink.line((0.0, y), (view.width_px, y), theme.soot, LINE_PX);
        self.axis(ink, view, foot + LINE_PX);
    }

    fn finding(&self, view: &View) -> String {
        format!(
            "Eight nights in ten take {} to {} of wood.",
            view.units.mass(self.p10_kg),
            view.units.mass(self.p90_kg)
        )
    }

    fn how(&self, _view: &View) -> String {
        "The bar runs from the night that one in ten stays under to the one that one in ten goes over; the line in it is the middle night."
            .to_owned()
    }

    fn aria(&self, view: &View) -> String {
        let planned = self
            .planned_kg
            .map_or_else(String::new, |kg| format!(" The evening as planned takes {}.", view.units.mass(kg)));
        let middle = format!("The middle night takes {}.", view.units.mass(self.p50_kg));
        format!("{} {middle}{planned}", self.finding(view))
    }

    fn table(&self, view: &View) -> Table {
        let mut table = Table::with_head(&["night", &format!("wood, {}", view.units.mass_unit())]);
        let rows = [
            ("one in ten stays under", self.p10_kg),
            ("the middle one", self.p50_kg),
            ("one in ten goes over", self.p90_kg),
        ];
        for (night, kg) in rows.into_iter().chain(self.planned_kg.map(|kg| ("as planned", kg))) {
            table.row([night.to_owned(), view.units.bare_mass(kg)]);
        }
        table
    }
}
