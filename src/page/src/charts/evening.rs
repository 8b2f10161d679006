//! Owns the evening on one strip: phases in words, pieces of wood, the floor with its band, gas, covers, and now in blue.

use super::answer::Reading;
use super::axis::{TimeScale, ValueScale};
use super::evening_down;
use super::fills::{Fill, fill_rect, plates};
use super::ink::{Ink, Point, Type};
use super::shapes::{Rect, smooth};
use super::words::capital;
use super::{Drawing, Table, View};
use hearthload::units::time::QUARTER_S;

/// From this width on the strip runs to the right; below it runs down the page.
pub(super) const ACROSS_FROM_PX: f64 = 560.0;
/// The floor's share of what phases, pieces and gas leave; covers take the rest.
const FLOOR_SHARE: f64 = 0.64;

/// What became of a piece of wood, or will.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PieceState {
    /// Fed and ticked.
    Fed,
    /// The next one.
    Next,
    /// Still to come.
    ToCome,
}

/// One feed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Piece {
    /// When, seconds since midnight.
    pub at_s: f64,
    /// How many pieces.
    pub count: u32,
    /// What became of it.
    pub state: PieceState,
}

/// A stretch with one rhythm, said in words.
#[derive(Clone, Debug, PartialEq)]
pub struct Phase {
    /// From its first piece, seconds since midnight.
    pub from_s: f64,
    /// To its last piece, seconds since midnight.
    pub to_s: f64,
    /// "every 12 min", "fed".
    pub words: String,
}

/// What the strip is drawn from: filled by the plan stage and by what the cook ticked.
#[derive(Clone, Debug, PartialEq)]
pub struct Evening {
    /// Left end, seconds since midnight.
    pub from_s: f64,
    /// Right end, seconds since midnight.
    pub to_s: f64,
    /// Phases in words.
    pub phases: Vec<Phase>,
    /// Pieces of the plan that holds.
    pub pieces: Vec<Piece>,
    /// Pieces of the plan it replaced, where a reading changed it.
    pub old_pieces_s: Vec<f64>,
    /// The floor as far as it is known, oldest first.
    pub floor_so_far: Vec<Reading>,
    /// The floor as planned from now.
    pub floor_planned: Vec<Reading>,
    /// The floor of the plan that was replaced.
    pub floor_old: Vec<Reading>,
    /// The band to keep, degC.
    pub band_c: [f64; 2],
    /// Whose band it is, as it stands in a sentence: "the leek round".
    pub band_of: String,
    /// Stretches in which the burner burns, seconds since midnight.
    pub gas_s: Vec<[f64; 2]>,
    /// What stands beside the gas: "gas, 9 kW".
    pub gas_words: String,
    /// Covers by quarter hour.
    pub covers: Vec<f64>,
    /// When the covers begin, seconds since midnight.
    pub covers_from_s: f64,
    /// The cook's last reading.
    pub reading: Option<Reading>,
    /// Now, seconds since midnight.
    pub now_s: Option<f64>,
    /// A remark on the floor ahead, "in the band by 20:07".
    pub remark: String,
    /// Whether it is read at arm's length: 20 px words.
    pub at_arms_length: bool,
}

impl Evening {
    /// Size of axis words: at arm's length 20 px.
    pub(super) fn words_px(&self) -> f64 {
        if self.at_arms_length { 20.0 } else { 13.0 }
    }

    fn label_px(&self) -> f64 {
        if self.at_arms_length { 20.0 } else { 14.0 }
    }

    /// Height of the gas's row.
    fn gas_px(&self) -> f64 {
        if self.gas_s.is_empty() { 0.0 } else { self.words_px() + 5.0 }
    }

    fn time(&self, view: &View) -> TimeScale {
        TimeScale { left: 2.0, right: view.width_px - 2.0, from_s: self.from_s, to_s: self.to_s }
    }

    /// The share of the height that goes to each part, from the top: phases, pieces, floor, covers, axis.
    fn parts(&self, view: &View) -> Parts {
        let words = self.words_px();
        let height = view.height_px.unwrap_or(if self.at_arms_length { 290.0 } else { 180.0 } + self.gas_px());
        let (phases, axis) = (words + 18.0, words + 12.0);
        let pieces = if self.old_pieces_s.is_empty() { 38.0 } else { 56.0 };
        let gas = self.gas_px();
        let rest = (height - phases - pieces - gas - axis - 6.0).max(44.0);
        Parts {
            pieces_y: phases,
            floor_y: phases + pieces,
            floor_px: rest * FLOOR_SHARE,
            gas_y: phases + pieces + rest * FLOOR_SHARE,
            line_y: phases + pieces + rest + gas,
        }
    }

    pub(super) fn values(&self, top: f64, foot: f64) -> ValueScale {
        let all = self.floor_so_far.iter().chain(&self.floor_planned).chain(&self.floor_old).chain(&self.reading);
        let seen: Vec<f64> = all.map(|reading| reading.at_c).chain([self.band_c[0]]).collect();
        let low = seen.iter().copied().fold(f64::INFINITY, f64::min);
        let high = seen.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        ValueScale { top, foot, low: low - 6.0, high: high.max(self.band_c[0] + 20.0) + 4.0 }
    }

    fn line(&self, view: &View, values: &ValueScale, readings: &[Reading]) -> Vec<Point> {
        let time = self.time(view);
        let points: Vec<Point> =
            readings.iter().map(|reading| (time.x(reading.at_s), values.y(reading.at_c))).collect();
        smooth(&points)
    }

    fn draw_phases(&self, ink: &mut Ink, view: &View, foot: f64) {
        let (theme, time) = (&view.theme, self.time(view));
        let kind = Type::value(theme.soot).sized(self.label_px());
        for phase in &self.phases {
            let (left, right) =
                (time.x(phase.from_s) - 3.0, (time.x(phase.to_s) + 3.0).max(time.x(phase.from_s) + 9.0));
            let y = foot - 12.0;
            ink.path(&[(left, y + 7.0), (left, y), (right, y), (right, y + 7.0)], theme.smoke, 2.0);
            // Words that do not fit over their bracket drop all but their number.
            let room = right - left + 30.0;
            let short: String = phase
                .words
                .split(' ')
                .find(|word| word.starts_with(|sign: char| sign.is_ascii_digit()))
                .unwrap_or("")
                .to_owned();
            let text = if ink.width(&phase.words, kind) <= room { phase.words.clone() } else { short };
            ink.text(((left + right) / 2.0, y - 8.0), &text, kind);
        }
    }

    fn draw_pieces(&self, ink: &mut Ink, view: &View, top: f64) {
        let (theme, time) = (&view.theme, self.time(view));
        const HIGH: f64 = 30.0;
        const WIDE: f64 = 9.0;
        for piece in &self.pieces {
            for count in 0..piece.count.max(1) {
                let x = time.x(piece.at_s) - WIDE / 2.0 + f64::from(count) * (WIDE + 2.0);
                let place = Rect::new(x, top + 2.0, WIDE, HIGH);
                match piece.state {
                    PieceState::Fed => ink.fill(&place.corners(), theme.soot),
                    PieceState::ToCome => fill_rect(ink, theme, place, Fill::Wood),
                    PieceState::Next => {
                        fill_rect(ink, theme, place, Fill::Wood);
                        ink.outline(&place.corners(), theme.soot, 3.5);
                    }
                }
            }
        }
        for &at_s in &self.old_pieces_s {
            let square = Rect::new(time.x(at_s) - 4.0, top + 37.0, 8.0, 8.0).corners();
            let mut around = square.to_vec();
            around.push(square[0]);
            ink.dashed(&around, theme.smoke, 1.5, (2.0, 2.0));
        }
    }

    fn draw_floor(&self, ink: &mut Ink, view: &View, parts: &Parts) {
        let (theme, time) = (&view.theme, self.time(view));
        let values = self.values(parts.floor_y + 6.0, parts.floor_y + parts.floor_px - 10.0);
        let (foot, top) = (values.y(self.band_c[0]), values.y(self.band_c[1]).max(parts.floor_y));
        let left = time.x(self.covers_from_s);
        ink.fill(&Rect::new(left, top, time.right - left, (foot - top).max(0.0)).corners(), theme.zone);
        ink.line((left, foot), (time.right, foot), theme.zone_edge, 1.5);
        ink.dotted(&self.line(view, &values, &self.floor_old), theme.smoke, 2.0);
        ink.dashed(&self.line(view, &values, &self.floor_so_far), theme.soot, 2.0, (9.0, 5.0));
        ink.dashed(&self.line(view, &values, &self.floor_planned), theme.hearth, 4.0, (11.0, 6.0));
        self.draw_floor_words(ink, view, &values, foot);
    }

    fn draw_floor_words(&self, ink: &mut Ink, view: &View, values: &ValueScale, foot: f64) {
        let (theme, time) = (&view.theme, self.time(view));
        let size = self.words_px();
        let least = if self.at_arms_length {
            view.units.degrees(self.band_c[0])
        } else {
            format!("{}, {}\u{2019}s least", view.units.degrees(self.band_c[0]), self.band_of)
        };
        let note = Type::note(theme.smoke).sized(size);
        ink.cased((time.x(self.covers_from_s) + 8.0, foot + size + 3.0), &least, note, theme.slab, 2.0);
        if let Some(reading) = self.reading {
            let at = (time.x(reading.at_s), values.y(reading.at_c));
            let bold = Type::note(theme.soot).bold().sized(self.label_px()).end();
            ink.cased((at.0 - 14.0, at.1 + size * 0.8), &view.units.degrees(reading.at_c), bold, theme.slab, 2.0);
        }
        if let Some(lowest) = self.floor_planned.iter().min_by(|a, b| a.at_c.total_cmp(&b.at_c)) {
            let kind = Type::note(theme.soot).bold().sized(self.label_px());
            let half = ink.width(&self.remark, kind) / 2.0;
            let x = (time.x(lowest.at_s) + half + 60.0).clamp(half, (view.width_px - half).max(half));
            ink.cased((x, foot + size + 3.0), &self.remark, kind.middle(), theme.slab, 2.0);
        }
    }

    fn draw_gas(&self, ink: &mut Ink, view: &View, y: f64) {
        let (theme, time) = (&view.theme, self.time(view));
        for stretch in &self.gas_s {
            let (left, right) = (time.x(stretch[0]), time.x(stretch[1]));
            fill_rect(ink, theme, Rect::new(left, y + self.gas_px() - 15.0, right - left, 11.0), Fill::Gas);
        }
        if let Some(first) = self.gas_s.first() {
            let kind = Type::note(theme.soot).sized(self.words_px()).end();
            ink.cased((time.x(first[0]) - 6.0, y + self.gas_px() - 4.0), &self.gas_words, kind, theme.slab, 2.0);
        }
    }

    fn draw_covers(&self, ink: &mut Ink, view: &View, top: f64, foot: f64) {
        let time = self.time(view);
        let most = self.covers.iter().copied().fold(0.0, f64::max);
        if most <= 0.0 {
            return;
        }
        // One plate stands for two covers on so small a strip.
        let each = ((foot - top - 2.0) / (most / 2.0)).min(4.0);
        for (index, &covers) in self.covers.iter().enumerate() {
            let from = self.covers_from_s + QUARTER_S * index as f64;
            let (left, right) = (time.x(from) + 1.5, time.x((from + QUARTER_S).min(self.to_s)) - 1.5);
            plates(ink, &view.theme, Rect::new(left, top, right - left, foot - top), covers / 2.0, each);
        }
    }
}

/// Where each part of the strip stands, px.
struct Parts {
    pieces_y: f64,
    floor_y: f64,
    floor_px: f64,
    gas_y: f64,
    line_y: f64,
}

impl Drawing for Evening {
    fn height_px(&self, view: &View) -> f64 {
        if view.width_px < ACROSS_FROM_PX {
            return evening_down::height_px(self);
        }
        self.parts(view).line_y + self.words_px() + 20.0
    }

    fn draw(&self, ink: &mut Ink, view: &View) {
        if view.width_px < ACROSS_FROM_PX {
            evening_down::draw(self, ink, view);
            return;
        }
        let (theme, time, parts) = (&view.theme, self.time(view), self.parts(view));
        time.grid(ink, view, parts.pieces_y, parts.line_y);
        self.draw_floor(ink, view, &parts);
        self.draw_gas(ink, view, parts.gas_y);
        self.draw_covers(ink, view, parts.gas_y + self.gas_px(), parts.line_y - 3.0);
        ink.line((time.left, parts.line_y), (time.right, parts.line_y), theme.soot, 5.0);
        self.draw_phases(ink, view, parts.pieces_y);
        self.draw_pieces(ink, view, parts.pieces_y);
        if let Some(now) = self.now_s {
            ink.line((time.x(now), parts.pieces_y - 12.0), (time.x(now), parts.line_y), theme.press, 3.0);
        }
        if let Some(reading) = self.reading {
            let values = self.values(parts.floor_y + 6.0, parts.floor_y + parts.floor_px - 10.0);
            let at = (time.x(reading.at_s), values.y(reading.at_c));
            ink.disc(at, 9.5, theme.soot);
            ink.disc(at, 5.5, theme.slab);
        }
        time.ticks_sized(ink, view, parts.line_y + 3.0, self.words_px());
    }

    fn finding(&self, view: &View) -> String {
        let to_come =
            self.pieces.iter().filter(|piece| piece.state != PieceState::Fed).map(|piece| piece.count).sum::<u32>();
        let last = self
            .pieces
            .last()
            .map_or_else(String::new, |piece| format!(", the last at {}", view.units.clock(piece.at_s)));
        format!("{to_come} pieces to come{last}.")
    }

    fn aria(&self, view: &View) -> String {
        let phases: Vec<String> = self
            .phases
            .iter()
            .map(|phase| {
                format!("{} from {} to {}", phase.words, view.units.clock(phase.from_s), view.units.clock(phase.to_s))
            })
            .collect();
        let lowest =
            self.floor_planned.iter().min_by(|a, b| a.at_c.total_cmp(&b.at_c)).map_or_else(String::new, |reading| {
                format!(" Floor lowest {} at {}.", view.units.degrees(reading.at_c), view.units.clock(reading.at_s))
            });
        let phases = if phases.is_empty() { String::new() } else { format!(" {}.", capital(&phases.join("; "))) };
        format!("The evening: {}{phases}{lowest}", self.finding(view))
    }

    fn table(&self, view: &View) -> Table {
        let mut table = Table::with_head(&["at", "pieces", "state"]);
        for piece in &self.pieces {
            let state = match piece.state {
                PieceState::Fed => "fed",
                PieceState::Next => "next",
                PieceState::ToCome => "to come",
            };
            table.row([view.units.clock(piece.at_s), piece.count.to_string(), state.to_owned()]);
        }
        table
    }
}
