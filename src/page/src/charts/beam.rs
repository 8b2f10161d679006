//! Owns the picture under the verdict: covers as plates on the floor line, and how far it sags under them.

use super::answer::{Answer, Reading};
use super::axis::TimeScale;
use super::fills::{Fill, fill, plates};
use super::ink::{Ink, Point, Type};
use super::shapes::{Rect, smooth};
use super::words::inside_sentence;
use super::{Drawing, Table, View};
use hearthload::report::Gives;

/// Sag drawn for each degree under the band, px.
const PX_PER_K: f64 = 1.75;
/// Deepest sag drawn, px; a deeper one is drawn to a smaller scale.
const DEEPEST_PX: f64 = 90.0;
/// Tallest stack of plates, px.
const STACK_PX: f64 = 62.0;
/// One plate, px, where there is room.
const PLATE_PX: f64 = 5.0;
/// From the top to the foot of the plates: a line of words and the stack.
const FLOOR_Y: f64 = 92.0;
/// The floor line.
const LINE_PX: f64 = 6.0;

/// The beam.
pub struct Beam<'a>(pub &'a Answer);

impl Beam<'_> {
    fn scale(&self, view: &View) -> TimeScale {
        let kitchen = &self.0.kitchen;
        TimeScale { left: 3.0, right: view.width_px - 3.0, from_s: kitchen.start_s, to_s: self.0.end_s() }
    }

    /// The reading that lies lowest against the limiting band, and its margin, K (negative: under the band).
    fn deepest(&self) -> Option<(Reading, f64)> {
        let least = self.0.band(self.0.limiting()?)[0];
        let lowest = self.0.coolest().into_iter().min_by(|a, b| a.at_c.total_cmp(&b.at_c))?;
        Some((lowest, lowest.at_c - least))
    }

    fn sags(&self) -> bool {
        self.0.floor_gives()
    }

    /// How far the line gives at its deepest, K.
    fn depth_k(&self) -> f64 {
        if self.sags() { self.deepest().map_or(0.0, |(_, margin)| -margin) } else { 0.0 }
    }

    fn px_per_k(&self) -> f64 {
        if self.depth_k() * PX_PER_K > DEEPEST_PX { DEEPEST_PX / self.depth_k() } else { PX_PER_K }
    }

    fn depth_px(&self) -> f64 {
        self.depth_k() * self.px_per_k()
    }

    /// What the line tells, in full and short for a phone, and when it lies deepest, where it does.
    ///
    /// An evening that carries is told by the verdict's own measure, what is left of the resource that would give first: a spot's
    /// margin in degrees beside it would be another measure, and seem to contradict it.
    fn label(&self, view: &View) -> Option<(Option<f64>, String, String)> {
        let verdict = &self.0.report.verdict;
        if verdict.carries {
            let limits = verdict.loads.iter().filter(|load| load.what != Gives::None && load.used.is_finite());
            let tightest = limits.reduce(|a, b| if b.used > a.used { b } else { a })?;
            let spare = view.units.percent((1.0 - tightest.used).max(0.0));
            let text = format!("{spare} to spare on {}", super::gives::name(tightest.what));
            return Some((None, text.clone(), text));
        }
        let dish = self.0.dish(self.0.limiting()?)?;
        let (at, margin) = self.deepest()?;
        let (step, name) = (view.units.step(margin.abs()), inside_sentence(&dish.name));
        let (full, short) = match (margin < 0.0, self.sags()) {
            (true, true) => (format!("{step} under the {name}\u{2019}s band"), format!("{step} under its band")),
            // Under it and yet not what gives: said, not bent.
            (true, false) => (
                format!("coolest load {step} under the {name}\u{2019}s band"),
                format!("coolest load {step} under its band"),
            ),
            _ => (
                format!("coolest load {step} over the {name}\u{2019}s least"),
                format!("coolest load {step} over its least"),
            ),
        };
        Some((Some(at.at_s), full, short))
    }

    /// Other causes than floor heat, said where they break.
    fn other_cause(&self, view: &View) -> Option<(f64, String)> {
        let verdict = &self.0.report.verdict;
        let what = super::gives::gives_words(verdict.gives_first)?;
        let at_s = super::words::seconds_of(&verdict.broke.as_ref()?.at)?;
        (verdict.gives_first != Gives::FloorHeat).then(|| (at_s, format!("{what} from {}", view.units.clock(at_s))))
    }

    fn draw_plates(&self, ink: &mut Ink, view: &View, scale: TimeScale) {
        let covers = &self.0.kitchen.covers;
        let most = covers.iter().copied().fold(0.0, f64::max);
        if most <= 0.0 {
            return;
        }
        let each = PLATE_PX.min(STACK_PX / most);
        for (index, &count) in covers.iter().enumerate() {
            let from = scale.from_s + index as f64 * hearthload::units::time::QUARTER_S;
            let (left, right) =
                (scale.x(from) + 1.25, scale.x((from + hearthload::units::time::QUARTER_S).min(scale.to_s)) - 1.25);
            plates(ink, &view.theme, Rect::new(left, 0.0, right - left, FLOOR_Y - 4.0), count, each);
        }
        let peak: Vec<usize> = (0..covers.len()).filter(|&index| covers[index] >= most - 0.05).collect();
        let middle =
            (peak[0] + peak[peak.len() - 1] + 1) as f64 / 2.0 * hearthload::units::time::QUARTER_S + scale.from_s;
        let (text, kind) = (
            format!("{} covers in the quarter hour", view.units.number(most, 0)),
            Type::note(view.theme.smoke).middle(),
        );
        let half = ink.width(&text, kind) / 2.0;
        let x = scale.x(middle).clamp(half, (view.width_px - half).max(half));
        ink.text((x, FLOOR_Y - 4.0 - each * most.ceil() - 7.0), &text, kind);
    }

    fn sag_points(&self, scale: TimeScale, y: f64) -> Vec<Point> {
        let least = self.0.limiting().map_or(0.0, |dish| self.0.band(dish)[0]);
        let px = self.px_per_k();
        let mut points = vec![(scale.left, y)];
        if let Some((from, to)) = self.0.under().filter(|_| self.sags()) {
            points.push((scale.x(from), y));
            let depth = |reading: &Reading| (scale.x(reading.at_s), y + (least - reading.at_c).max(0.0) * px);
            points.extend(self.0.coolest().iter().filter(|r| r.at_s > from + 1.0 && r.at_s < to - 1.0).map(depth));
            points.push((scale.x(to), y));
        }
        points.push((scale.right, y));
        smooth(&points)
    }

    /// The pinned line as round dots, where it sags otherwise.
    fn draw_pinned(&self, ink: &mut Ink, view: &View, scale: TimeScale) {
        let Some(pinned) = view.pinned.as_ref().map(Beam).filter(Beam::sags) else { return };
        let y = FLOOR_Y + LINE_PX / 2.0;
        ink.dotted(&pinned.sag_points(scale, y), view.theme.smoke, 2.0);
        if let Some((at, margin)) = pinned.deepest() {
            let text = format!("pinned: {} under", view.units.step(-margin));
            let kind = Type::note(view.theme.smoke).middle();
            let half = ink.width(&text, kind) / 2.0;
            let x = scale.x(at.at_s).clamp(half, (view.width_px - half).max(half));
            ink.cased((x, y + pinned.depth_px() + 17.0), &text, kind, view.theme.slab, 2.0);
        }
    }

    fn draw_line(&self, ink: &mut Ink, view: &View, scale: TimeScale) {
        let theme = &view.theme;
        let y = FLOOR_Y + LINE_PX / 2.0;
        let line = self.sag_points(scale, y);
        if self.sags() {
            fill(ink, theme, &line, Fill::Short);
            if let Some((from, to)) = self.0.under() {
                ink.dashed(&[(scale.x(from), y - 1.0), (scale.x(to), y - 1.0)], theme.edge, 1.5, (4.0, 4.0));
            }
        }
        ink.path(&line, theme.soot, LINE_PX);
        for x in [scale.left, scale.right] {
            ink.line((x, FLOOR_Y), (x, FLOOR_Y + 16.0), theme.soot, LINE_PX);
        }
    }

    fn draw_label(&self, ink: &mut Ink, view: &View, scale: TimeScale) {
        let theme = &view.theme;
        let foot = FLOOR_Y + LINE_PX + self.depth_px();
        let mut place = |at_s: f64, full: &str, short: &str, kind: Type, y: f64| {
            let text = if ink.width(full, kind) <= view.width_px - 4.0 { full } else { short };
            let half = ink.width(text, kind) / 2.0;
            let x = scale.x(at_s).clamp(half + 2.0, (view.width_px - half - 2.0).max(half + 2.0));
            ink.cased((x, y), text, kind, theme.slab, 2.5);
        };
        let floor_kind = Type::value(if self.sags() { theme.short } else { theme.soot });
        let label = self.label(view);
        if let Some((at_s, full, short)) = &label {
            place(at_s.unwrap_or((scale.from_s + scale.to_s) / 2.0), full, short, floor_kind, foot + 28.0);
        }
        if let Some((at_s, text)) = self.other_cause(view) {
            place(at_s, &text, &text, Type::value(theme.short), foot + 46.0);
        }
        if let Some((Some(at_s), ..)) = label {
            ink.line((scale.x(at_s), foot + 4.0), (scale.x(at_s), foot + 14.0), theme.edge, 2.0);
        }
    }

    fn axis_y(&self, view: &View) -> f64 {
        let pinned = view.pinned.as_ref().map(Beam).filter(Beam::sags).map_or(0.0, |pinned| pinned.depth_px());
        FLOOR_Y + LINE_PX + self.depth_px().max(pinned) + if self.other_cause(view).is_some() { 54.0 } else { 36.0 }
    }
}

impl Drawing for Beam<'_> {
    fn height_px(&self, view: &View) -> f64 {
        self.axis_y(view) + 26.0
    }

    fn draw(&self, ink: &mut Ink, view: &View) {
        let scale = self.scale(view);
        self.draw_plates(ink, view, scale);
        self.draw_pinned(ink, view, scale);
        self.draw_line(ink, view, scale);
        scale.moment(ink, view, 24.0, self.axis_y(view));
        self.draw_label(ink, view, scale);
        scale.ticks(ink, view, self.axis_y(view));
    }

    fn finding(&self, _view: &View) -> String {
        self.0.report.verdict.says.clone()
    }

    fn aria(&self, view: &View) -> String {
        let covers = &self.0.kitchen.covers;
        let most = covers.iter().copied().fold(0.0, f64::max);
        let shape = if self.sags() { "sags" } else { "stays straight" };
        let label = self.label(view).map_or_else(String::new, |(at, text, _)| match at {
            Some(at_s) => format!(": {text} at {}", view.units.clock(at_s)),
            None => format!(": {text}"),
        });
        let other =
            self.other_cause(view).map_or_else(String::new, |(_, text)| format!(" {}.", super::words::capital(&text)));
        format!(
            "Covers by quarter hour, at most {}, standing on the floor line. The line {shape}{label}.{other}",
            view.units.number(most, 0)
        )
    }

    fn table(&self, view: &View) -> Table {
        let unit = view.units.degree();
        let margin = format!("over (+) or under (\u{2212}) the limiting band, {unit}");
        let mut table = Table::with_head(&["from", "covers", &format!("coolest spot at loading, {unit}"), &margin]);
        let least = self.0.limiting().map_or(0.0, |dish| self.0.band(dish)[0]);
        let readings = self.0.coolest();
        for (index, &covers) in self.0.kitchen.covers.iter().enumerate() {
            let from = self.0.kitchen.start_s + index as f64 * hearthload::units::time::QUARTER_S;
            let here = readings
                .iter()
                .find(|reading| (from..from + hearthload::units::time::QUARTER_S).contains(&reading.at_s));
            let signed = |k: f64| {
                format!(
                    "{}{}",
                    if k > 0.0 { "+" } else { "" },
                    view.units.number(if view.units.fahrenheit { k * 1.8 } else { k }, 0)
                )
            };
            table.row([
                view.units.clock(from),
                view.units.number(covers, 0),
                here.map_or_else(|| "none loaded".to_owned(), |reading| view.units.bare_degrees(reading.at_c)),
                here.map_or_else(String::new, |reading| signed(reading.at_c - least)),
            ]);
        }
        table
    }

    fn moment_at(&self, x: f64, view: &View) -> Option<f64> {
        Some(self.scale(view).at(x))
    }
}
