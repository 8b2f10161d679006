//! Owns the picture of the floor through the service: mean and coolest used spot against the bands, and where each dish finds a spot.

use hearthload::report::CarryReport;

use super::answer::{Answer, Reading, SpotFind};
use super::axis::{TimeScale, ValueScale, fitted, round_step};
use super::fills::{Fill, fill};
use super::floor_parts::{below, crossed, draw_row, free_place, row_words, spot_word};
use super::ink::{Ink, Point, Type};
use super::measure::{ByTable, Measure};
use super::shapes::{Rect, smooth};
use super::words::{capital, inside_sentence, plural};
use super::{Drawing, Table, View};

/// From this width on the bands stand as brackets at the right.
const BRACKETS_FROM_PX: f64 = 640.0;
const BRACKET_PX: f64 = 44.0;
const MOST_BRACKETS: usize = 6;
const AXIS_PX: f64 = 46.0;
const PLOT_TOP: f64 = 24.0;
const PLOT_PX: f64 = 236.0;
const AXIS_FOOT_PX: f64 = 30.0;
/// Most room for a dish's words beside its line, px.
const ROW_WORDS_PX: f64 = 262.0;
/// The floor through the service.
pub struct Floor<'a>(pub &'a Answer);

impl Floor<'_> {
    fn wide(&self, view: &View) -> bool {
        view.width_px >= BRACKETS_FROM_PX
    }

    fn brackets(&self, view: &View) -> Vec<usize> {
        let limiting = self.0.limiting();
        let mut order: Vec<usize> = limiting.into_iter().collect();
        order.extend((0..self.report().dishes.len()).filter(|&dish| Some(dish) != limiting));
        order.truncate(if self.wide(view) { MOST_BRACKETS } else { 0 });
        order
    }

    fn time(&self, view: &View) -> TimeScale {
        let right = if self.wide(view) {
            // Room for the brackets, and under them for the dishes' words.
            let kind = |text: &str| ByTable.width_px(text, 13.0, false);
            let words = self.report().dishes.iter().map(|dish| kind(&row_words(dish, view))).fold(0.0, f64::max) + 16.0;
            view.width_px - (self.brackets(view).len() as f64 * BRACKET_PX).max(words.min(ROW_WORDS_PX)) - 10.0
        } else {
            view.width_px - 4.0
        };
        TimeScale { left: AXIS_PX, right, from_s: self.0.kitchen.start_s, to_s: self.0.end_s() }
    }

    fn report(&self) -> &CarryReport {
        &self.0.report
    }

    fn values(&self, view: &View) -> ValueScale {
        let band = self.0.limiting().map(|dish| self.0.band(dish));
        let pinned = view.pinned.as_ref().map(Answer::coolest).unwrap_or_default();
        let readings = [self.0.mean(), self.0.coolest(), pinned].concat();
        let mut seen: Vec<f64> = readings.iter().map(|reading| reading.at_c).collect();
        seen.extend(band.into_iter().flatten());
        let low = seen.iter().copied().fold(f64::INFINITY, f64::min);
        let high = seen.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        let (low, high) = if low.is_finite() { (low, high) } else { (0.0, 100.0) };
        let ends = [view.units.scale(low), view.units.scale(high)];
        let step = round_step(ends[1] - ends[0], 6.0);
        // A point near an end gets a step of room for its label.
        let foot = (ends[0] / step - 0.4).floor() * step;
        let top = (ends[1] / step + 0.1).ceil() * step;
        ValueScale { top: PLOT_TOP, foot: PLOT_TOP + PLOT_PX, low: foot, high: top }
    }

    fn line(&self, view: &View, readings: &[Reading]) -> Vec<Point> {
        let (time, values) = (self.time(view), self.values(view));
        let points: Vec<Point> =
            readings.iter().map(|reading| (time.x(reading.at_s), values.y(view.units.scale(reading.at_c)))).collect();
        smooth(&points)
    }

    fn draw_axis(&self, ink: &mut Ink, view: &View) {
        let (theme, values) = (&view.theme, self.values(view));
        let kind = Type::note(theme.smoke).end();
        ink.text((AXIS_PX - 7.0, 12.0), view.units.degree(), kind);
        let step = round_step(values.high - values.low, 7.0);
        let mut value = values.low;
        while value <= values.high + 1e-6 {
            let y = values.y(value);
            ink.text((AXIS_PX - 7.0, y + 4.5), &view.units.number(value, 0), kind);
            ink.line((AXIS_PX - 4.0, y), (AXIS_PX, y), theme.edge, 1.5);
            value += step;
        }
        self.time(view).ticks(ink, view, PLOT_TOP + PLOT_PX + 2.0);
    }

    fn draw_zone(&self, ink: &mut Ink, view: &View) {
        let Some(dish) = self.0.limiting() else { return };
        let (theme, time, values) = (&view.theme, self.time(view), self.values(view));
        let band = self.0.band(dish);
        let y = |at_c: f64| values.y(view.units.scale(at_c)).clamp(values.top, values.foot);
        let (top, foot) = (y(band[1]), y(band[0]));
        ink.fill(&Rect::new(time.left, top, time.right - time.left, foot - top).corners(), theme.zone);
        for edge in [top, foot] {
            ink.line((time.left, edge), (time.right, edge), theme.zone_edge, 1.5);
        }
    }

    /// Names the zone at its right end, where no line runs through the words; returns where they stand.
    fn draw_zone_word(&self, ink: &mut Ink, view: &View, lines: &[&[Point]]) -> Option<Rect> {
        let dish = self.0.limiting()?;
        let (time, values) = (self.time(view), self.values(view));
        let text = format!("{}\u{2019}s band", inside_sentence(&self.0.dish(dish)?.name));
        let kind = Type::note(view.theme.smoke).end();
        let width = ink.width(&text, kind);
        let y = |at_c: f64| values.y(view.units.scale(at_c)).clamp(values.top, values.foot);
        let (top, foot) = (y(self.0.band(dish)[1]), y(self.0.band(dish)[0]));
        // Under the upper edge, over the lower one, over the upper one.
        let places = [top + 5.0, foot - 21.0, top - 20.0].map(|y| Rect::new(time.right - 8.0 - width, y, width, 16.0));
        let clear = |place: &&Rect| !lines.iter().any(|line| crossed(place, line));
        let place = *places.iter().find(clear).unwrap_or(&places[0]);
        ink.cased((time.right - 8.0, place.y + 12.0), &text, kind, view.theme.zone, 2.0);
        Some(place)
    }

    fn draw_lines(&self, ink: &mut Ink, view: &View) {
        let (theme, time, values) = (&view.theme, self.time(view), self.values(view));
        let coolest = self.line(view, &self.0.coolest());
        if let Some(dish) = self.0.limiting() {
            let foot = values.y(view.units.scale(self.0.band(dish)[0]));
            for shape in below(&coolest, foot) {
                fill(ink, theme, &shape, Fill::Short);
            }
        }
        if let Some(pinned) = &view.pinned {
            self.draw_pinned(ink, view, pinned);
        }
        let mean = self.line(view, &self.0.mean());
        ink.dashed(&mean, theme.soot, 2.0, (9.0, 5.0));
        ink.path(&coolest, theme.hearth, 4.0);
        time.moment(ink, view, 4.0, self.foot(view));
        self.draw_words(ink, view, &mean, &coolest);
    }

    fn draw_words(&self, ink: &mut Ink, view: &View, mean: &[Point], coolest: &[Point]) {
        let theme = &view.theme;
        let wide = self.wide(view);
        let pinned = view.pinned.as_ref().map(|pinned| self.line(view, &pinned.coolest())).unwrap_or_default();
        let mut taken = Vec::new();
        taken.extend(self.draw_zone_word(ink, view, &[mean, coolest, &pinned]));
        taken.extend(self.draw_lowest(ink, view));
        let (time, values) = (self.time(view), self.values(view));
        let plot = Rect::new(time.left + 8.0, values.top, time.right - time.left - 16.0, values.foot - values.top);
        let words = Type::note(theme.soot).bold();
        let mean_words = if wide { "floor, mean of what may carry food" } else { "floor, mean" };
        let cool_words = if wide { "coolest spot in use" } else { "coolest spot" };
        for (text, line, others, up) in
            [(mean_words, mean, [coolest, &pinned], true), (cool_words, coolest, [mean, &pinned], false)]
        {
            let width = ink.width(text, words);
            // On the line's other side where there is no room on its own.
            let place = free_place(width, line, &others, up, plot, &taken)
                .or_else(|| free_place(width, line, &others, !up, plot, &taken));
            if let Some(place) = place {
                ink.cased((place.x, place.y + 12.0), text, words, theme.slab, 2.5);
                taken.push(place);
            }
        }
    }

    /// The pinned answer's coolest spot, as round dots named at its lowest.
    fn draw_pinned(&self, ink: &mut Ink, view: &View, pinned: &Answer) {
        let line = self.line(view, &pinned.coolest());
        ink.dotted(&line, view.theme.smoke, 2.0);
        let Some(&lowest) = line.iter().max_by(|a, b| a.1.total_cmp(&b.1)) else { return };
        let (text, kind) = ("pinned: coolest spot", Type::note(view.theme.smoke));
        let x = (lowest.0 + 8.0).min(self.time(view).right - ink.width(text, kind));
        ink.cased((x, lowest.1 + 17.0), text, kind, view.theme.slab, 2.0);
    }

    /// The lowest point with its degrees; returns where the degrees stand.
    fn draw_lowest(&self, ink: &mut Ink, view: &View) -> Option<Rect> {
        let theme = &view.theme;
        let lowest = self.0.coolest().into_iter().min_by(|a, b| a.at_c.total_cmp(&b.at_c))?;
        let at = (self.time(view).x(lowest.at_s), self.values(view).y(view.units.scale(lowest.at_c)));
        ink.disc(at, 6.5, theme.soot);
        ink.disc(at, 3.5, theme.slab);
        let short = self.0.coolest_margin().is_some_and(|margin| margin < 0.0);
        let kind = Type::value(if short { theme.short } else { theme.soot });
        let text = view.units.degrees(lowest.at_c);
        let width = ink.width(&text, kind);
        let left = if at.0 - width - 10.0 > AXIS_PX { at.0 - 10.0 - width } else { at.0 + 10.0 };
        ink.cased((left, at.1 + 17.0), &text, kind.start(), theme.slab, 2.5);
        Some(Rect::new(left, at.1 + 4.0, width, 17.0))
    }

    fn draw_brackets(&self, ink: &mut Ink, view: &View) {
        let (theme, values) = (&view.theme, self.values(view));
        for (index, dish) in self.brackets(view).into_iter().enumerate() {
            let x = self.time(view).right + 26.0 + BRACKET_PX * index as f64;
            let band = self.0.band(dish);
            let (low, high) = (values.y(view.units.scale(band[0])), values.y(view.units.scale(band[1])));
            let decides = Some(dish) == self.0.limiting();
            let (colour, width, cap) = if decides { (theme.soot, 4.0, 5.0) } else { (theme.smoke, 2.0, 5.0) };
            let (top, foot) = (high.clamp(values.top, values.foot), low.clamp(values.top, values.foot));
            ink.line((x, top), (x, foot), colour, width);
            // An end beyond the axis has no cap.
            for (y, drawn) in [(high, top), (low, foot)] {
                if (y - drawn).abs() < 0.5 {
                    ink.line((x - cap, drawn), (x + cap, drawn), colour, width);
                }
            }
            let kind = Type::note(if decides { theme.soot } else { theme.smoke }).upwards().middle();
            let kind = if decides { kind.bold() } else { kind };
            let name = fitted(&|text| ink.width(text, kind), &self.report().dishes[dish].name, PLOT_PX - 8.0);
            let half = ink.width(&name, kind) / 2.0;
            let y = ((top + foot) / 2.0).clamp(values.top + half, (values.foot - half).max(values.top + half));
            ink.text((x + 17.0, y), &name, kind);
        }
    }

    fn rows_top(&self, view: &View) -> f64 {
        PLOT_TOP + PLOT_PX + AXIS_FOOT_PX + if self.wide(view) { 30.0 } else { 16.0 }
    }

    fn row_px(&self, view: &View) -> f64 {
        if self.wide(view) { 25.0 } else { 34.0 }
    }

    fn foot(&self, view: &View) -> f64 {
        if self.0.map().is_none() {
            return PLOT_TOP + PLOT_PX + 4.0;
        }
        self.rows_top(view) + self.row_px(view) * self.report().dishes.len() as f64 + 4.0
    }

    fn draw_rows(&self, ink: &mut Ink, view: &View) {
        if self.0.map().is_none() {
            return;
        }
        let (theme, time) = (&view.theme, self.time(view));
        if self.wide(view) {
            let note = Type::note(theme.smoke);
            ink.text((time.left, self.rows_top(view) - 6.0), "Where each dish finds a spot in its band", note);
        }
        for (index, dish) in self.report().dishes.iter().enumerate() {
            let top = self.rows_top(view) + self.row_px(view) * index as f64;
            let y = if self.wide(view) { top + 12.0 } else { top + 20.0 };
            let (at, room) = if self.wide(view) {
                ((time.right + 14.0, y + 4.5), view.width_px - time.right - 14.0)
            } else {
                ((time.left, y - 7.0), time.right - time.left)
            };
            let kind = Type::note(theme.soot);
            // The band is worth more than the end of a long name.
            let band = format!(", {}", view.units.band(dish.floor_band_c));
            let name = fitted(&|text| ink.width(text, kind), &dish.name, room - ink.width(&band, kind));
            let words = name + &band;
            draw_row(ink, view, &self.0.finds(index), &time, y);
            ink.text(at, &words, kind);
        }
    }
}

impl Drawing for Floor<'_> {
    fn height_px(&self, view: &View) -> f64 {
        if self.0.map().is_some() { self.foot(view) + 4.0 } else { PLOT_TOP + PLOT_PX + AXIS_FOOT_PX }
    }

    fn draw(&self, ink: &mut Ink, view: &View) {
        self.draw_zone(ink, view);
        self.draw_axis(ink, view);
        self.draw_rows(ink, view);
        self.draw_brackets(ink, view);
        self.draw_lines(ink, view);
    }

    fn finding(&self, view: &View) -> String {
        let Some(dish) = self.0.limiting().and_then(|dish| self.0.dish(dish)) else {
            return "The floor through the service.".to_owned();
        };
        let name = inside_sentence(&dish.name);
        let (share, many) = (view.units.percent(dish.share_in_band), plural(&name));
        match (self.0.under(), self.0.over_hot()) {
            _ if self.0.coolest().is_empty() => "Nothing was laid on this floor.".to_owned(),
            (Some((from, to)), _) if self.0.floor_gives() => {
                format!(
                    "The floor is under the {name}\u{2019}s band from {} to {}.",
                    view.units.clock(from),
                    view.units.clock(to)
                )
            }
            (Some(_), _) => {
                let under = view.units.step(-self.0.coolest_margin().unwrap_or(0.0));
                format!("{share} of the {many} go onto a spot in their band; the coolest spot is {under} under it.")
            }
            (None, Some(hot)) => format!(
                "{share} of the {many} go onto a spot in their band; the hottest spot is {} over it, at {}.",
                view.units.step(hot.at_c - dish.floor_band_c[1]),
                view.units.clock(hot.at_s)
            ),
            (None, None) => format!("Every {name} goes onto a spot in its band."),
        }
    }

    fn aria(&self, view: &View) -> String {
        let lowest = self.0.coolest().into_iter().min_by(|a, b| a.at_c.total_cmp(&b.at_c));
        let lowest = lowest.map_or_else(String::new, |reading| {
            format!(" Coolest spot in use {} at {}.", view.units.degrees(reading.at_c), view.units.clock(reading.at_s))
        });
        let mean = self.0.mean();
        let ends = match (mean.first(), mean.last()) {
            (Some(first), Some(last)) => {
                format!(
                    " Mean {} at the first order, {} at the last.",
                    view.units.degrees(first.at_c),
                    view.units.degrees(last.at_c)
                )
            }
            _ => String::new(),
        };
        let bands: Vec<String> = self
            .0
            .report
            .dishes
            .iter()
            .map(|dish| format!("{}: {}", inside_sentence(&dish.name), view.units.band(dish.floor_band_c)))
            .collect();
        format!("{}{lowest}{ends} Bands: {}.", self.finding(view), capital(&bands.join("; ")))
    }

    fn table(&self, view: &View) -> Table {
        let unit = view.units.degree();
        let mut head = vec!["at".to_owned(), format!("mean, {unit}"), format!("coolest spot in use, {unit}")];
        head.extend(self.report().dishes.iter().map(|dish| format!("{}: spot in band", dish.name)));
        let mut table = Table { head, rows: Vec::new() };
        let finds: Vec<Vec<SpotFind>> = (0..self.report().dishes.len()).map(|dish| self.0.finds(dish)).collect();
        let coolest = self.0.coolest();
        for mean in self.0.mean() {
            let quarter = mean.at_s..mean.at_s + hearthload::units::time::QUARTER_S;
            let cool = coolest.iter().find(|reading| quarter.contains(&reading.at_s));
            let mut row = vec![
                view.units.clock(mean.at_s),
                view.units.bare_degrees(mean.at_c),
                cool.map_or_else(|| "none loaded".to_owned(), |reading| view.units.bare_degrees(reading.at_c)),
            ];
            row.extend(finds.iter().map(|finds| spot_word(finds, mean.at_s, view)));
            table.row(row);
        }
        table
    }

    fn moment_at(&self, x: f64, view: &View) -> Option<f64> {
        Some(self.time(view).at(x))
    }
}
