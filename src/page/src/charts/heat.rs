//! Owns the picture of heat per dish: from the chamber above the floor line, out of the hearth below it, of a piece and of a cover.

use super::answer::Answer;
use super::axis::{fitted, round_step, wrapped};
use super::fills::{Fill, fill_rect};
use super::glyphs;
use super::ink::{Ink, Type};
use super::kitchen::{DishShape, Side};
use super::measure::{ByTable, Measure};
use super::shapes::Rect;
use super::words::{capital, inside_sentence, is_plural, plural};
use super::{Drawing, Table, View};

/// From this width on the two panels stand side by side, px.
const BESIDE_PX: f64 = 640.0;
/// Room for the axis words at the left of a panel.
const AXIS_PX: f64 = 44.0;
/// Both bars together, the tallest of each, px.
const BARS_PX: f64 = 216.0;
/// Room on the line for the dish from the side.
const DISH_PX: f64 = 19.0;
/// The floor line.
const LINE_PX: f64 = 5.0;
/// Widest bar.
const BAR_PX: f64 = 42.0;
/// Words over the highest and under the lowest bar.
const WORDS_PX: f64 = 20.0;
/// Names under the bars: size, from line to line, how many lines.
const NAME_PX: f64 = 13.0;
const NAME_LINE_PX: f64 = 16.0;
const MOST_LINES: usize = 3;
/// Room for upright names.
const UPRIGHT_NAME_PX: f64 = 136.0;
/// A slot narrower than this carries its values upright, and they need this much more room.
const LEVEL_VALUE_PX: f64 = 32.0;
const UPRIGHT_VALUE_PX: f64 = 14.0;
/// A slot narrower than this carries its name upright.
const LEVEL_NAME_PX: f64 = 50.0;

/// Where every bar is smaller, a tenth is written, kJ.
const ALL_SMALL_KJ: f64 = 10.0;

/// Heat per dish.
pub struct Heat<'a>(pub &'a Answer);

struct Bar {
    name: String,
    side: Side,
    /// Its width against the widest dish, 0..1.
    across: f64,
    chamber_kj: f64,
    hearth_kj: f64,
}

struct Panel {
    title: &'static str,
    bars: Vec<Bar>,
}

impl Panel {
    fn most(&self) -> (f64, f64) {
        let most = |pick: fn(&Bar) -> f64| self.bars.iter().map(pick).fold(0.0, f64::max);
        (most(|bar| bar.chamber_kj), most(|bar| bar.hearth_kj))
    }
}

impl Heat<'_> {
    fn panels(&self) -> [Panel; 2] {
        let piece = |index: usize| {
            let dish = &self.0.report.dishes[index];
            (dish.from_chamber_kj.max(0.0), dish.from_hearth_kj.max(0.0))
        };
        let share = |index: usize| self.0.kitchen.dishes.get(index).map_or(0.0, |dish| dish.per_100_covers / 100.0);
        let widest = self.0.kitchen.dishes.iter().map(DishShape::across_m).fold(0.01, f64::max);
        let bar = |index: usize, factor: f64| {
            let (chamber_kj, hearth_kj) = piece(index);
            Bar {
                name: self.0.report.dishes[index].name.clone(),
                side: self.0.kitchen.dishes.get(index).map_or(Side::Flat, |dish| dish.side),
                across: self.0.kitchen.dishes.get(index).map_or(1.0, |dish| dish.across_m() / widest),
                chamber_kj: chamber_kj * factor,
                hearth_kj: hearth_kj * factor,
            }
        };
        let all = 0..self.0.report.dishes.len();
        [
            Panel { title: "one piece", bars: all.clone().map(|index| bar(index, 1.0)).collect() },
            Panel { title: "for each cover, at your mix", bars: all.map(|index| bar(index, share(index))).collect() },
        ]
    }

    fn beside(&self, view: &View) -> bool {
        view.width_px >= BESIDE_PX
    }

    fn panel_width(&self, view: &View) -> f64 {
        if self.beside(view) { (view.width_px - 36.0) / 2.0 } else { view.width_px }
    }

    fn slot(&self, view: &View) -> f64 {
        (self.panel_width(view) - AXIS_PX) / (self.0.report.dishes.len() as f64).max(1.0)
    }

    /// Room over the highest and under the lowest bar.
    fn words_px(&self, view: &View) -> f64 {
        let more = self.slot(view) < LEVEL_VALUE_PX || view.pinned.is_some();
        WORDS_PX + if more { UPRIGHT_VALUE_PX } else { 0.0 }
    }

    /// Whether names stand upright: where slots are narrow, or a word is wider than its slot.
    fn is_upright(&self, slot: f64) -> bool {
        let wide = |word: &str| ByTable.width_px(word, NAME_PX, false) > slot;
        let mut names = self.0.report.dishes.iter();
        slot < LEVEL_NAME_PX || names.any(|dish| dish.name.split([' ', '-']).any(wide))
    }

    fn names_px(&self, view: &View) -> f64 {
        let slot = self.slot(view);
        if self.is_upright(slot) {
            return UPRIGHT_NAME_PX;
        }
        // Measured by the table here and by the canvas when drawn: a word more or less changes one line, not the picture.
        let lines = |name: &str| wrapped(&|text: &str| ByTable.width_px(text, NAME_PX, false), name, slot - 4.0).len();
        let most = self.0.report.dishes.iter().map(|dish| lines(&dish.name)).max().unwrap_or(1).min(MOST_LINES);
        8.0 + NAME_LINE_PX * most as f64
    }

    fn panel_height(&self, view: &View) -> f64 {
        self.words_px(view) * 2.0 + BARS_PX + DISH_PX + LINE_PX + self.names_px(view) + 32.0
    }

    fn draw_panel(&self, ink: &mut Ink, view: &View, panel: &Panel, pinned: Option<&Panel>, place: Rect) {
        let (chamber, hearth) = panel.most();
        let before = pinned.map_or((0.0, 0.0), Panel::most);
        let (chamber, hearth) = (chamber.max(before.0), hearth.max(before.1));
        let px = BARS_PX / (chamber + hearth).max(1e-9);
        let line_y = place.y + self.words_px(view) + chamber * px + DISH_PX;
        let foot = line_y + LINE_PX;
        self.draw_grid(ink, view, place, (line_y - DISH_PX, foot), px, (chamber, hearth));
        self.draw_sides(ink, view, place, (line_y - DISH_PX, foot), px, panel);
        let slot = (place.w - AXIS_PX) / (panel.bars.len() as f64).max(1.0);
        let decimals = usize::from(chamber.max(hearth) < ALL_SMALL_KJ);
        for (index, bar) in panel.bars.iter().enumerate() {
            let middle = place.x + AXIS_PX + slot * (index as f64 + 0.5);
            draw_bar(ink, view, bar, (middle, slot), (line_y - DISH_PX, foot), px, decimals);
            if let Some(before) = pinned.and_then(|panel| panel.bars.iter().find(|before| before.name == bar.name)) {
                draw_pinned(ink, view, (bar, before), (middle, slot), (line_y - DISH_PX, foot), px);
            }
            self.draw_name(
                ink,
                view,
                &bar.name,
                (middle, slot),
                place.y + self.words_px(view) * 2.0 + BARS_PX + DISH_PX + LINE_PX,
            );
        }
        ink.line(
            (place.x + AXIS_PX, line_y + LINE_PX / 2.0),
            (place.right(), line_y + LINE_PX / 2.0),
            view.theme.soot,
            LINE_PX,
        );
        for (index, bar) in panel.bars.iter().enumerate() {
            let middle = place.x + AXIS_PX + slot * (index as f64 + 0.5);
            glyphs::dish(
                ink,
                &view.theme,
                (middle, line_y + 0.5),
                (slot * 0.6).min(BAR_PX - 2.0) * (0.35 + 0.65 * bar.across),
                bar.side,
            );
        }
        let title = Type::value(view.theme.soot);
        ink.text((place.x + AXIS_PX + (place.w - AXIS_PX) / 2.0, place.foot() - 14.0), panel.title, title);
    }

    fn draw_grid(&self, ink: &mut Ink, view: &View, place: Rect, zero: (f64, f64), px: f64, most: (f64, f64)) {
        let theme = &view.theme;
        let (chamber, hearth) = most;
        let step = round_step(chamber.max(hearth), 2.6);
        let kind = Type::note(theme.smoke).end();
        ink.text((place.x + AXIS_PX - 7.0, zero.1 + 2.0), "kJ", kind);
        let decimals = usize::from(step < 1.0);
        for (most, from, up) in [(chamber, zero.0, -1.0), (hearth, zero.1, 1.0)] {
            let mut value = step;
            while value <= most {
                let y = from + up * value * px;
                ink.line((place.x + AXIS_PX, y), (place.right(), y), theme.hair, 1.0);
                ink.text((place.x + AXIS_PX - 7.0, y + 4.5), &view.units.number(value, decimals), kind);
                value += step;
            }
        }
    }

    /// "from the chamber" and "out of the hearth", each over the widest stretch that its bars leave free.
    fn draw_sides(&self, ink: &mut Ink, view: &View, place: Rect, zero: (f64, f64), px: f64, panel: &Panel) {
        let slot = (place.w - AXIS_PX) / (panel.bars.len() as f64).max(1.0);
        let (chamber, hearth) = panel.most();
        for (text, most, up, pick) in [
            ("from the chamber", chamber, true, (|bar: &Bar| bar.chamber_kj) as fn(&Bar) -> f64),
            ("out of the hearth", hearth, false, (|bar: &Bar| bar.hearth_kj) as fn(&Bar) -> f64),
        ] {
            let kind = Type::note(view.theme.smoke);
            let slots = ((ink.width(text, kind) + 12.0) / slot).ceil() as usize;
            let free_px = |bars: &[Bar]| (most - bars.iter().map(pick).fold(0.0, f64::max)) * px;
            let windows = panel.bars.windows(slots.clamp(1, panel.bars.len().max(1)));
            let best =
                windows.enumerate().map(|(index, bars)| (index, free_px(bars))).max_by(|a, b| a.1.total_cmp(&b.1));
            // Sixteen pixels of words and as many for the value of the bar below them.
            if let Some((index, free)) = best.filter(|best| best.1 >= 34.0) {
                let x = place.x + AXIS_PX + slot * index as f64 + 6.0;
                let y = if up {
                    zero.0 - most * px + (free - 20.0).min(18.0)
                } else {
                    zero.1 + most * px - (free - 34.0).min(6.0)
                };
                ink.cased((x, y), text, kind, view.theme.slab, 2.0);
            }
        }
    }

    fn draw_name(&self, ink: &mut Ink, view: &View, name: &str, at: (f64, f64), top: f64) {
        let (middle, slot) = at;
        if self.is_upright(slot) {
            let kind = Type::note(view.theme.soot).upwards().end();
            let short = fitted(&|text| ink.width(text, kind), name, UPRIGHT_NAME_PX - 14.0);
            ink.text((middle + 5.0, top + 6.0), &short, kind);
            return;
        }
        let kind = Type::note(view.theme.soot).middle();
        let lines = wrapped(&|text: &str| ink.width(text, kind), name, slot - 4.0);
        for (line, text) in lines.iter().take(MOST_LINES).enumerate() {
            ink.text((middle, top + NAME_LINE_PX * (line + 1) as f64), text, kind);
        }
    }

    fn rank(&self) -> Option<(usize, usize)> {
        let [piece, cover] = self.panels();
        let most = |panel: &Panel| {
            let hearths = panel.bars.iter().map(|bar| bar.hearth_kj).enumerate();
            hearths.max_by(|a, b| a.1.total_cmp(&b.1)).map(|(index, _)| index)
        };
        Some((most(&piece)?, most(&cover)?))
    }
}

fn draw_bar(ink: &mut Ink, view: &View, bar: &Bar, at: (f64, f64), zero: (f64, f64), px: f64, decimals: usize) {
    let (middle, slot) = at;
    let theme = &view.theme;
    let wide = (slot * 0.62).min(BAR_PX);
    let (up, down) = (bar.chamber_kj * px, bar.hearth_kj * px);
    fill_rect(ink, theme, Rect::new(middle - wide / 2.0, zero.0 - up, wide, up.max(1.0)), Fill::Chamber);
    fill_rect(ink, theme, Rect::new(middle - wide / 2.0, zero.1, wide, down.max(1.0)), Fill::Hearth);
    let kind = Type::value(theme.soot);
    // The value stands on the slab even where a grid line runs through it.
    let (above, below) = (view.units.number(bar.chamber_kj, decimals), view.units.number(bar.hearth_kj, decimals));
    if slot < LEVEL_VALUE_PX {
        let (up_kind, down_kind) = (kind.upwards().start(), kind.upwards().end());
        ink.cased((middle + 5.0, zero.0 - up - 5.0), &above, up_kind, theme.slab, 2.0);
        ink.cased((middle + 5.0, zero.1 + down + 5.0), &below, down_kind, theme.slab, 2.0);
    } else {
        ink.cased((middle, zero.0 - up - 6.0), &above, kind, theme.slab, 2.0);
        ink.cased((middle, zero.1 + down + 16.0), &below, kind, theme.slab, 2.0);
    }
}

/// The pinned bars as dotted boxes, where they differ by a kilojoule or more, named under the hearth's.
fn draw_pinned(ink: &mut Ink, view: &View, bars: (&Bar, &Bar), at: (f64, f64), zero: (f64, f64), px: f64) {
    let (bar, before) = bars;
    let (theme, (middle, slot)) = (&view.theme, at);
    let wide = (slot * 0.62).min(BAR_PX) + 6.0;
    let left = middle - wide / 2.0;
    let differs = |now: f64, then: f64| (now.round() - then.round()).abs() >= 1.0;
    let mut dotted = |rect: Rect| {
        let mut around = rect.corners().to_vec();
        around.push(around[0]);
        ink.dotted(&around, theme.smoke, 1.75);
    };
    if differs(bar.chamber_kj, before.chamber_kj) {
        let high = before.chamber_kj * px;
        dotted(Rect::new(left, zero.0 - high, wide, high));
    }
    if differs(bar.hearth_kj, before.hearth_kj) {
        let high = before.hearth_kj * px;
        dotted(Rect::new(left, zero.1, wide, high));
        let text = format!("pinned {}", view.units.number(before.hearth_kj, 0));
        let kind = Type::note(theme.smoke).middle();
        if ink.width(&text, kind) <= slot {
            let below = high.max(bar.hearth_kj * px + 18.0);
            ink.cased((middle, zero.1 + below + 14.0), &text, kind, theme.slab, 2.0);
        }
    }
}

impl Drawing for Heat<'_> {
    fn height_px(&self, view: &View) -> f64 {
        let panel = self.panel_height(view);
        if self.beside(view) { panel } else { panel * 2.0 + 20.0 }
    }

    fn draw(&self, ink: &mut Ink, view: &View) {
        let (width, height) = (self.panel_width(view), self.panel_height(view));
        let pinned = view.pinned.as_ref().map(|pinned| Heat(pinned).panels());
        for (index, panel) in self.panels().iter().enumerate() {
            let before = pinned.as_ref().map(|panels| &panels[index]);
            let shift = index as f64;
            let place = if self.beside(view) {
                Rect::new(shift * (width + 36.0), 0.0, width, height)
            } else {
                Rect::new(0.0, shift * (height + 20.0), width, height)
            };
            self.draw_panel(ink, view, panel, before, place);
        }
    }

    fn finding(&self, _view: &View) -> String {
        let Some((piece, cover)) = self.rank() else { return "There is no dish on the menu.".to_owned() };
        let name = |index: usize| inside_sentence(&self.0.report.dishes[index].name);
        let verb = if is_plural(&name(piece)) { "pull" } else { "pulls" };
        if piece == cover {
            format!("The {} {verb} most out of the hearth, by the piece and over the service.", name(piece))
        } else {
            let many = plural(&name(cover));
            format!("The {} {verb} most by the piece; the {many} pull most over the service.", name(piece))
        }
    }

    fn how(&self, _view: &View) -> String {
        "Above the line: heat from the chamber. Below it: heat out of the hearth floor.".to_owned()
    }

    fn aria(&self, view: &View) -> String {
        let [piece, cover] = self.panels();
        let parts: Vec<String> = piece
            .bars
            .iter()
            .zip(&cover.bars)
            .map(|(one, each)| {
                format!(
                    "{}: {} from the hearth and {} from the chamber a piece, {} from the hearth a cover",
                    inside_sentence(&one.name),
                    view.units.kilojoules(one.hearth_kj),
                    view.units.kilojoules(one.chamber_kj),
                    view.units.kilojoules(each.hearth_kj)
                )
            })
            .collect();
        format!("{} {}.", self.finding(view), capital(&parts.join("; ")))
    }

    fn table(&self, view: &View) -> Table {
        let mut table = Table::with_head(&[
            "dish",
            "hearth, kJ a piece",
            "chamber, kJ a piece",
            "hearth, kJ a cover",
            "chamber, kJ a cover",
            "pieces by 100 covers",
        ]);
        let [piece, cover] = self.panels();
        for (index, (one, each)) in piece.bars.iter().zip(&cover.bars).enumerate() {
            let mix = self.0.kitchen.dishes.get(index).map_or(0.0, |dish| dish.per_100_covers);
            table.row([
                one.name.clone(),
                view.units.number(one.hearth_kj, 0),
                view.units.number(one.chamber_kj, 0),
                view.units.number(each.hearth_kj, 1),
                view.units.number(each.chamber_kj, 1),
                view.units.number(mix, 0),
            ]);
        }
        table
    }
}
