//! Owns the floor plan at a moment: which step of the heat ramp each tile takes, the key, the findings, what lies there.

use hearthload::numerics::order;
use hearthload::report::{Frame, Placement};

use super::answer::Answer;
use super::axis::fitted;
use super::grid::Grid;
use super::ink::{Ink, Type};
use super::plan_dishes::draw_dishes;
use super::plan_oven::{Outline, Tiles, draw_fire, draw_tiles, draw_wall};
use super::shapes::Rect;
use super::theme::HEAT_RAMP;
use super::words::{NBSP, capital, count, inside_sentence, plural};
use super::{Drawing, Table, View};

/// From this width on the key stands at the right of the plan.
const KEY_BESIDE_PX: f64 = 470.0;
/// Room for the key at the right.
const KEY_PX: f64 = 116.0;
/// Room for the key below.
const KEY_BELOW_PX: f64 = 66.0;
/// Tallest plan.
const MOST_PX: f64 = 470.0;
/// Room under the floor for the sill and its word.
pub(super) const SILL_PX: f64 = 44.0;
/// Degrees in a step of the ramp, K: the first that holds what is seen.
const STEPS_K: [f64; 5] = [10.0, 20.0, 25.0, 40.0, 50.0];

/// The floor plan.
pub struct Plan<'a>(pub &'a Answer);

/// The heat ramp as laid over this evening's temperatures.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ramp {
    /// Temperature at the foot of the first step, degC.
    pub from_c: f64,
    /// Degrees in a step, K.
    pub step_k: f64,
}

impl Ramp {
    /// Lays the ramp so that an edge of `band` falls on a step and most of `low..high` lies on it; ends beyond are clamped.
    #[must_use]
    pub fn over(band_c: [f64; 2], low_c: f64, high_c: f64) -> Self {
        let steps = HEAT_RAMP.len() as f64;
        let step_k = STEPS_K
            .into_iter()
            .find(|step| step * (steps - 1.0) >= high_c - low_c)
            .unwrap_or(STEPS_K[STEPS_K.len() - 1]);
        // The middle of what is seen comes to the middle of the ramp, to the nearest step.
        let middle = (low_c + high_c) / 2.0;
        let below = ((band_c[0] - middle) / step_k + steps / 2.0).round();
        Self { from_c: band_c[0] - below * step_k, step_k }
    }

    /// The step of a temperature, 0 the coolest.
    #[must_use]
    pub fn step(self, at_c: f64) -> usize {
        (((at_c - self.from_c) / self.step_k).floor().max(0.0) as usize).min(HEAT_RAMP.len() - 1)
    }
}

/// One line of the list of what lies on the floor.
#[derive(Clone, Debug, PartialEq)]
pub struct LyingRow {
    /// The dish and where it lies.
    pub name: String,
    /// Its spot at the moment, with unit.
    pub spot: String,
    /// In its band or how far under, and the time to go.
    pub state: String,
    /// Whether it stands on a spot under its band.
    pub under: bool,
}

/// What lies on the floor at the view's moment, worst first.
#[must_use]
pub fn lying_rows(answer: &Answer, view: &View) -> Vec<LyingRow> {
    Plan(answer).lying(view).into_iter().map(|lying| lying.row(view)).collect()
}

/// One piece on the floor, measured at the moment.
pub(super) struct Lying<'a> {
    pub piece: &'a Placement,
    pub name: &'a str,
    pub band_c: [f64; 2],
    /// Mean of the face under it at loading: what decided its bake.
    pub spot_c: f64,
    pub left_s: Option<f64>,
    where_: String,
}

impl Lying<'_> {
    pub(super) fn under(&self) -> bool {
        self.spot_c < self.band_c[0] - 0.05
    }

    fn off_k(&self) -> f64 {
        self.spot_c - self.band_c[0]
    }

    fn row(&self, view: &View) -> LyingRow {
        let band = if self.under() {
            format!("{} under its band", view.units.step(-self.off_k()))
        } else if self.spot_c > self.band_c[1] + 0.05 {
            format!("{} over its band", view.units.step(self.spot_c - self.band_c[1]))
        } else {
            "in band".to_owned()
        };
        let left = self
            .left_s
            .map_or_else(|| "still in at the end".to_owned(), |left| format!("{} to go", view.units.countdown(left)));
        LyingRow {
            name: format!("{}, {}", self.name, self.where_),
            spot: view.units.degrees(self.spot_c),
            state: format!("{band}, {left}"),
            under: self.under(),
        }
    }
}

impl<'a> Plan<'a> {
    pub(super) fn moment(&self, view: &View) -> f64 {
        view.moment_s.unwrap_or_else(|| self.0.telling_moment())
    }

    pub(super) fn frame(&self, view: &View) -> Option<&'a Frame> {
        self.0.frame(self.moment(view))
    }

    /// What lies there, the piece furthest under its band first.
    pub(super) fn lying(&self, view: &View) -> Vec<Lying<'a>> {
        let at = self.moment(view);
        let mut found: Vec<Lying<'a>> = self
            .0
            .lying(at)
            .into_iter()
            .filter_map(|piece| {
                let dish = self.0.report.dishes.get(piece.dish)?;
                Some(Lying {
                    piece,
                    name: &dish.name,
                    band_c: dish.floor_band_c,
                    spot_c: piece.at_load_c,
                    left_s: piece.to_s.map(|until| until - at),
                    where_: self.place_word(piece),
                })
            })
            .collect();
        order::by(&mut found, |a, b| a.off_k().total_cmp(&b.off_k()));
        found
    }

    /// "right front", by thirds of the floor.
    fn place_word(&self, piece: &Placement) -> String {
        let kitchen = &self.0.kitchen;
        let third = |at: f64, length: f64, words: [&'static str; 3]| {
            if at < -length / 6.0 {
                words[0]
            } else if at > length / 6.0 {
                words[2]
            } else {
                words[1]
            }
        };
        let across = third(piece.x_m, kitchen.width_m, ["left", "", "right"]);
        let along = third(piece.y_m, kitchen.depth_m, ["front", "middle", "rear"]);
        if across.is_empty() { along.to_owned() } else { format!("{across} {along}") }
    }

    pub(super) fn ramp(&self) -> Ramp {
        let band = self.0.limiting().map_or([300.0, 350.0], |dish| self.0.band(dish));
        let Some(map) = self.0.map() else { return Ramp { from_c: band[0] - 50.0, step_k: 10.0 } };
        let food: Vec<usize> = (0..map.cells.len()).filter(|&cell| !map.cells[cell].under_fire).collect();
        let service = self.0.kitchen.start_s..=self.0.kitchen.end_s;
        let mut seen: Vec<f64> = Vec::new();
        for frame in map.frames.iter().filter(|frame| service.contains(&frame.at_s)).step_by(15) {
            seen.extend(food.iter().filter_map(|&cell| frame.face_c.get(cell)));
        }
        order::rising(&mut seen);
        if seen.is_empty() {
            return Ramp { from_c: band[0] - 50.0, step_k: 10.0 };
        }
        // The coolest and hottest fiftieth may lie beyond the ends: a few tiles at the fire would flatten all others.
        let at = |share: f64| seen[((seen.len() - 1) as f64 * share).round() as usize];
        Ramp::over(band, at(0.02), at(0.98))
    }

    fn key_beside(&self, view: &View) -> bool {
        view.width_px >= KEY_BESIDE_PX
    }

    pub(super) fn outline(&self, view: &View) -> Outline {
        let room = view.width_px - if self.key_beside(view) { KEY_PX } else { 0.0 };
        Outline::fitted(&self.0.kitchen, room, MOST_PX)
    }

    fn draw_key(&self, ink: &mut Ink, view: &View, outline: &Outline) {
        let ramp = self.ramp();
        let count = HEAT_RAMP.len() as f64;
        let (bar, along) = if self.key_beside(view) {
            let height = (outline.height_px() - 96.0).clamp(180.0, 374.0);
            (Rect::new(outline.right_px() + 26.0, 44.0, 24.0, height), false)
        } else {
            (Rect::new(0.0, outline.height_px() + 34.0, view.width_px, 16.0), true)
        };
        let place = |at_c: f64| {
            let share = ((at_c - ramp.from_c) / (ramp.step_k * count)).clamp(0.0, 1.0);
            if along { bar.x + share * bar.w } else { bar.foot() - share * bar.h }
        };
        for (index, &colour) in HEAT_RAMP.iter().enumerate() {
            let (from, to) = (
                place(ramp.from_c + ramp.step_k * index as f64),
                place(ramp.from_c + ramp.step_k * (index + 1) as f64),
            );
            let tile =
                if along { Rect::new(from, bar.y, to - from, bar.h) } else { Rect::new(bar.x, to, bar.w, from - to) };
            ink.fill(&tile.corners(), colour);
        }
        ink.outline(&bar.corners(), view.theme.smoke, 1.25);
        draw_key_words(ink, view, ramp, bar, along, &place);
        self.draw_key_band(ink, view, bar, along, &place);
    }

    fn draw_key_band(&self, ink: &mut Ink, view: &View, bar: Rect, along: bool, place: &dyn Fn(f64) -> f64) {
        let Some(dish) = self.0.limiting() else { return };
        let (band, colour) = (self.0.band(dish), view.theme.soot);
        let word = format!("{}\u{2019}s band", inside_sentence(&self.0.report.dishes[dish].name));
        let (low, high) = (place(band[0]), place(band[1]));
        let kind = Type::note(colour).bold();
        if along {
            let y = bar.y - 9.0;
            ink.line((low, y), (high, y), colour, 4.0);
            for x in [low, high] {
                ink.line((x, y - 5.0), (x, y + 5.0), colour, 4.0);
            }
            let half = ink.width(&word, kind) / 2.0;
            ink.text(
                (((low + high) / 2.0).clamp(half, (view.width_px - half).max(half)), y - 10.0),
                &word,
                kind.middle(),
            );
        } else {
            let x = bar.right() + 44.0;
            ink.line((x, low), (x, high), colour, 4.0);
            for y in [low, high] {
                ink.line((x - 5.0, y), (x + 5.0, y), colour, 4.0);
            }
            let word = fitted(&|text| ink.width(text, kind), &word, bar.h);
            let half = ink.width(&word, kind) / 2.0;
            let y = ((low + high) / 2.0).clamp(bar.y + half, (bar.foot() - half).max(bar.y + half));
            ink.text((x + 18.0, y), &word, kind.upwards().middle());
        }
    }

    fn short_pieces(&self, view: &View) -> Vec<String> {
        self.lying(view).into_iter().filter(Lying::under).map(|lying| lying.name.to_owned()).collect()
    }
}

fn draw_key_words(ink: &mut Ink, view: &View, ramp: Ramp, bar: Rect, along: bool, place: &dyn Fn(f64) -> f64) {
    let kind = Type::note(view.theme.smoke);
    let every = if along { 4 } else { 2 };
    // The band's foot lies on a step; the words count from it, so that it has one.
    for index in (1..HEAT_RAMP.len()).filter(|index| index % every == 1) {
        let at_c = ramp.from_c + ramp.step_k * index as f64;
        let text = view.units.bare_degrees(at_c);
        if along {
            ink.text((place(at_c), bar.foot() + 16.0), &text, kind.middle());
        } else {
            ink.text((bar.right() + 5.0, place(at_c) + 4.5), &text, kind);
        }
    }
    if along {
        ink.text((bar.right(), bar.foot() + 16.0), view.units.degree(), kind.end());
    } else {
        ink.text((bar.right() + 5.0, bar.foot() + 16.0), view.units.degree(), kind);
    }
}

impl Drawing for Plan<'_> {
    fn height_px(&self, view: &View) -> f64 {
        self.outline(view).height_px() + if self.key_beside(view) { 4.0 } else { KEY_BELOW_PX + 4.0 }
    }

    fn draw(&self, ink: &mut Ink, view: &View) {
        let outline = self.outline(view);
        let lying = self.lying(view);
        if let (Some(map), Some(frame)) = (self.0.map(), self.frame(view)) {
            let (grid, ramp) = (Grid::of(&self.0.kitchen, map), self.ramp());
            let places = lying_places(self.0, &lying);
            let tiles = Tiles { map, frame, grid: &grid, ramp, lying: &places };
            draw_tiles(ink, view, &outline, &tiles);
            draw_fire(ink, view, &outline, self.0.kitchen.fire_side, frame.fire_kw);
        }
        draw_wall(ink, view, &outline);
        draw_dishes(ink, view, &outline, &self.0.kitchen, &lying);
        self.draw_key(ink, view, &outline);
    }

    fn finding(&self, view: &View) -> String {
        if self.0.map().is_none() {
            return "The floor plan was not asked for.".to_owned();
        }
        let lying = self.lying(view).len();
        let at = view.units.clock(self.moment(view));
        let short = self.short_pieces(view);
        let first = short.first().map(String::as_str).unwrap_or_default();
        let one_kind = short.iter().all(|name| name == first);
        let here = match lying {
            0 => return format!("At {at} the floor is bare."),
            1 => "one piece lies here".to_owned(),
            // Digits after a clock time want a comma.
            many if many > 12 => format!("on this floor {many} pieces lie"),
            many => format!("{} pieces lie here", count(many)),
        };
        let tail = match short.len() {
            0 => "each went onto a spot that was hot enough".to_owned(),
            1 => format!("one {} went onto a spot too cool for it", inside_sentence(first)),
            many if many == lying => "all went onto spots too cool for them".to_owned(),
            many if one_kind => {
                format!("{} {} went onto spots too cool for them", count(many), inside_sentence(&plural(first)))
            }
            many => format!("{} went onto spots too cool for them", count(many)),
        };
        format!("At {at} {here}; {tail}.")
    }

    fn aria(&self, view: &View) -> String {
        let parts: Vec<String> = lying_rows(self.0, view)
            .into_iter()
            .map(|row| format!("{}: {}, {}", row.name, row.spot, row.state))
            .collect();
        let fire = self.frame(view).map_or_else(String::new, |frame| {
            format!(" Fire {}{NBSP}kW, dome {}.", view.units.number(frame.fire_kw, 0), view.units.degrees(frame.dome_c))
        });
        format!("Floor plan. {}{fire} {}", self.finding(view), capital(&parts.join("; ")))
    }

    fn table(&self, view: &View) -> Table {
        let mut table = Table::with_head(&["what lies here", "spot at loading", "state"]);
        for row in lying_rows(self.0, view) {
            table.row([row.name, row.spot, row.state]);
        }
        table
    }
}

/// Centre and half the reach of each piece, m, for leaving tiles under it without a number.
fn lying_places(answer: &Answer, lying: &[Lying]) -> Vec<(f64, f64, f64, f64)> {
    let place = |lying: &Lying| {
        let half = answer.kitchen.dishes.get(lying.piece.dish)?.half_m();
        Some((lying.piece.x_m, lying.piece.y_m, half.0, half.1))
    };
    lying.iter().filter_map(place).collect()
}
