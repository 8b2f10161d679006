//! Owns the picture of the wood by the hour: one log is one split, thin sticks are kindling, the kilograms on top.

use hearthload::report::WoodHour;
use hearthload::units::time::HOUR_S;

use super::answer::Answer;
use super::glyphs;
use super::ink::{Ink, Type};
use super::shapes::Rect;
use super::words::{count, seconds_of};
use super::{Drawing, Table, View};
use crate::words::translate::tr;

const LOG_PX: f64 = 21.0;
const STACK_PX: f64 = 170.0;
const LOG_LONG_PX: f64 = 64.0;
const LINE_PX: f64 = 5.0;
/// A bundle of kindling this heavy is drawn as one row of sticks, kg.
const STICK_ROW_KG: f64 = 0.8;
const STICK_PX: f64 = 4.5;
/// From this use on over the mean of the others, an hour is the hardest; kg.
const SAME_KG: f64 = 0.05;
/// Hours of a day.
const DAY_H: f64 = 24.0;

/// Wood by the hour.
pub struct Wood<'a>(pub &'a Answer);

impl Wood<'_> {
    fn hours(&self) -> &[WoodHour] {
        let hours = &self.0.report.wood.by_hour;
        let last = hours.iter().rposition(|hour| hour.fed_kg > SAME_KG).map_or(0, |last| last + 1);
        &hours[..last]
    }

    fn kindling_kg(&self, hour: &WoodHour) -> f64 {
        (hour.fed_kg - hour.pieces * self.0.report.wood.kg_piece).max(0.0)
    }

    /// Height of a log so that the tallest stack fits.
    fn log_px(&self) -> f64 {
        let most = self.hours().iter().map(|hour| hour.pieces).fold(0.0, f64::max);
        LOG_PX.min(STACK_PX / most.max(1.0))
    }

    fn stack_px(&self, hour: &WoodHour) -> f64 {
        hour.pieces.ceil() * (self.log_px() + 1.0) + self.stick_rows(hour) as f64 * STICK_PX
    }

    fn stick_rows(&self, hour: &WoodHour) -> usize {
        let kindling = self.kindling_kg(hour);
        if kindling > SAME_KG { (kindling / STICK_ROW_KG).ceil().min(6.0) as usize } else { 0 }
    }

    fn draw_hour(&self, ink: &mut Ink, view: &View, hour: &WoodHour, middle: f64, slot: f64, foot: f64) {
        let theme = &view.theme;
        let long = LOG_LONG_PX.min(slot * 0.84).max(self.log_px() * 1.3);
        let mut y = foot;
        for _ in 0..self.stick_rows(hour) {
            y -= STICK_PX;
            ink.line((middle - long * 0.46, y + 1.5), (middle + long * 0.46, y + 1.5), theme.oak_stick, 2.0);
        }
        let mut left = hour.pieces;
        while left > 0.01 {
            let share = left.min(1.0);
            y -= self.log_px() + 1.0;
            let wide = (long * share).max(self.log_px());
            glyphs::log(ink, theme, Rect::new(middle - long / 2.0, y, wide, self.log_px()));
            left -= 1.0;
        }
        ink.text((middle, y - 7.0), &view.units.bare_mass(hour.fed_kg), Type::value(theme.soot));
        let kind = Type::note(theme.smoke).middle();
        let word = hour_word(hour, view);
        let word = if ink.width(&word, kind) > slot - 2.0 {
            word.split('–').next().unwrap_or_default().to_owned()
        } else {
            word
        };
        ink.text((middle, foot + LINE_PX + 17.0), &word, kind);
    }

    fn floor_y(&self) -> f64 {
        self.hours().iter().map(|hour| self.stack_px(hour)).fold(0.0, f64::max) + 26.0
    }

    fn hardest(&self) -> Vec<&WoodHour> {
        let most = self.hours().iter().map(|hour| hour.fed_kg).fold(0.0, f64::max);
        self.hours().iter().filter(|hour| hour.fed_kg >= most - SAME_KG && most > 0.0).collect()
    }
}

/// "15–16", or "3–4\u{a0}pm", for the hour that begins at three in the afternoon.
fn hour_word(hour: &WoodHour, view: &View) -> String {
    let from = (seconds_of(&hour.time).unwrap_or(0.0) / HOUR_S).floor();
    let [from, to] = [from % DAY_H, (from + 1.0) % DAY_H];
    if !view.units.twelve_hours {
        return format!("{from:.0}–{to:.0}");
    }
    let half = |hour: f64| if hour < DAY_H / 2.0 { "am" } else { "pm" };
    // Noon and midnight are twelve.
    let of_twelve = |hour: f64| (hour + DAY_H / 2.0 - 1.0) % (DAY_H / 2.0) + 1.0;
    let first = if half(from) == half(to) { String::new() } else { format!("\u{a0}{}", half(from)) };
    format!("{:.0}{first}–{:.0}\u{a0}{}", of_twelve(from), of_twelve(to), half(to))
}

impl Drawing for Wood<'_> {
    fn height_px(&self, _view: &View) -> f64 {
        self.floor_y() + LINE_PX + 26.0
    }

    fn draw(&self, ink: &mut Ink, view: &View) {
        let foot = self.floor_y();
        let slot = view.width_px / (self.hours().len() as f64).max(1.0);
        for (index, hour) in self.hours().iter().enumerate() {
            self.draw_hour(ink, view, hour, slot * (index as f64 + 0.5), slot, foot);
        }
        let y = foot + LINE_PX / 2.0;
        ink.line((0.0, y), (view.width_px, y), view.theme.soot, LINE_PX);
    }

    fn finding(&self, view: &View) -> String {
        let hardest = self.hardest();
        let Some(first) = hardest.first() else { return "No wood is fed.".to_owned() };
        let splits = first.pieces.round() as usize;
        let what = format!("{} {}", count(splits), tr(if splits == 1 { "split" } else { "splits" }));
        let kindling = self.kindling_kg(first);
        let what =
            if kindling > SAME_KG { format!("{what} and {} of kindling", view.units.mass(kindling)) } else { what };
        let mass = view.units.mass(first.fed_kg);
        if hardest.len() > 1 {
            format!("The hardest hours take {what} each, {mass}.")
        } else {
            format!("The hardest hour, {}, takes {what}, {mass}.", hour_word(first, view))
        }
    }

    fn how(&self, view: &View) -> String {
        let sticks = if self.hours().iter().any(|hour| self.stick_rows(hour) > 0) {
            "; the thin sticks are kindling"
        } else {
            ""
        };
        let unit = if view.units.pounds { "Pounds" } else { "Kilograms" };
        format!(
            "{unit} fed in the hour. One log is one split of {}{sticks}.",
            view.units.mass(self.0.report.wood.kg_piece)
        )
    }

    fn aria(&self, view: &View) -> String {
        let parts: Vec<String> = self
            .hours()
            .iter()
            .map(|hour| format!("{} {}", hour_word(hour, view), view.units.mass(hour.fed_kg)))
            .collect();
        format!("{} Fed by the hour: {}.", self.finding(view), parts.join(", "))
    }

    fn table(&self, view: &View) -> Table {
        let unit = view.units.mass_unit();
        let mut table = Table::with_head(&[
            "hour",
            "splits fed",
            &format!("kindling, {unit}"),
            &format!("fed, {unit}"),
            &format!("burnt, {unit}"),
        ]);
        for hour in &self.0.report.wood.by_hour {
            table.row([
                hour_word(hour, view),
                view.units.number(hour.pieces, usize::from((hour.pieces - hour.pieces.round()).abs() > 0.05)),
                view.units.bare_mass(self.kindling_kg(hour)),
                view.units.bare_mass(hour.fed_kg),
                view.units.bare_mass(hour.burnt_kg),
            ]);
        }
        table
    }
}
