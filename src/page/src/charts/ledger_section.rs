//! Owns the ledger as a section through the oven: the wood stands on the floor, each flow leaves where it really leaves.

use super::View;
use super::fills::{Fill, fill, fill_rect};
use super::glyphs;
use super::ink::{Ink, Point, Type};
use super::kitchen::Side;
use super::ledger::{Flow, Ledger, Way};
use super::shapes::{Rect, arc, bezier};

use std::f64::consts::PI;

/// Height of the picture, px.
pub const HEIGHT_PX: f64 = 378.0;
/// All the heat that came in is this high, px.
const IN_PX: f64 = 108.0;
/// The floor line's middle.
const FLOOR_Y: f64 = 262.0;
/// Width of the oven, px, at most.
const OVEN_PX: f64 = 530.0;
/// Room at the left for the wood's words, at the right for the doorway's arrow heads, before its words.
const LEFT_PX: f64 = 142.0;
const RIGHT_PX: f64 = 32.0;
/// What the doorway's words are given at least.
const WORDS_PX: f64 = 140.0;
const WALL_PX: f64 = 28.0;
const BLOCK_PX: f64 = 106.0;

/// The smoke leaves this much higher than it starts, px: room between the two arrow heads.
const SMOKE_RISE_PX: f64 = 14.0;

struct Section {
    left: f64,
    right: f64,
    px: f64,
}

impl Section {
    fn of(ledger: &Ledger, ink: &Ink, view: &View) -> Self {
        let out = |flow: &&Flow| matches!(flow.way, Way::Smoke | Way::Glow);
        let (_, outs) = ledger.flows();
        let words = outs.iter().filter(out).map(|flow| ink.width(flow.name, Type::value(view.theme.soot)));
        let room = view.width_px - LEFT_PX - RIGHT_PX - words.fold(WORDS_PX, f64::max);
        let left = LEFT_PX + ((room - OVEN_PX) / 2.0).max(0.0) * 0.6;
        Self { left, right: left + room.min(OVEN_PX), px: IN_PX / ledger.total_mj() }
    }

    fn block(&self) -> Rect {
        Rect::new(self.left + 60.0, FLOOR_Y - 3.0 - IN_PX, BLOCK_PX, IN_PX)
    }
}

/// Draws the section.
pub fn draw(ledger: &Ledger, ink: &mut Ink, view: &View) {
    let section = Section::of(ledger, ink, view);
    draw_floor(ink, view, &section);
    let shell_mj = ledger.flows().1.iter().filter(|flow| flow.way == Way::Shell).map(|flow| flow.heat_mj).sum::<f64>();
    draw_dome(ink, view, &section, shell_mj * section.px);
    draw_block(ledger, ink, view, &section);
    draw_outs(ledger, ink, view, &section);
    ink.line((section.left, FLOOR_Y), (section.right, FLOOR_Y), view.theme.soot, 5.0);
}

fn draw_floor(ink: &mut Ink, view: &View, section: &Section) {
    let wide = section.right - section.left;
    fill_rect(ink, &view.theme, Rect::new(section.left, FLOOR_Y + 2.0, wide, 28.0), Fill::Stone);
    fill_rect(ink, &view.theme, Rect::new(section.left, FLOOR_Y + 30.0, wide, 30.0), Fill::Insulation);
    let y = FLOOR_Y + 63.0;
    ink.line((section.left, y), (section.right, y), view.theme.smoke, 5.0);
}

fn draw_dome(ink: &mut Ink, view: &View, section: &Section, shell_px: f64) {
    let (left, right, foot) = (section.left + 6.0, section.right - 16.0, FLOOR_Y - 2.0);
    let crown = 48.0;
    let middle = left + (right - left) * 0.49;
    // The doorway is at the right: the shell ends at its lintel.
    let lintel = section.block().y + shell_px - SMOKE_RISE_PX - 6.0;
    let mut outer = bezier((left, foot), (left, 140.0), (left + 60.0, crown), (middle, crown));
    outer.extend(bezier((middle, crown), (right - 70.0, crown), (right - 2.0, 96.0), (right, lintel)));
    let inner = crown + WALL_PX;
    let mut back =
        bezier((right - WALL_PX, lintel), (right - WALL_PX - 6.0, 112.0), (right - 110.0, inner), (middle, inner));
    back.extend(bezier((middle, inner), (left + 80.0, inner), (left + WALL_PX, 160.0), (left + WALL_PX, foot)));
    outer.extend(back);
    fill(ink, &view.theme, &outer, Fill::Stone);
}

fn draw_block(ledger: &Ledger, ink: &mut Ink, view: &View, section: &Section) {
    let theme = &view.theme;
    let block = section.block();
    let (ins, _) = ledger.flows();
    let mut y = block.y;
    let mut word_y = block.y - 4.0;
    for flow in &ins {
        let high = flow.heat_mj * section.px;
        fill_rect(ink, theme, Rect::new(block.x, y, block.w, high.max(1.5)), flow.fill);
        let middle = y + high / 2.0;
        word_y = word_y.max(middle - 24.0);
        ink.line((section.left - 34.0, word_y + 24.0), (block.x - 3.0, middle), theme.smoke, 1.25);
        ink.text((0.0, word_y + 9.0), flow.name, Type::value(theme.soot).start());
        ink.text(
            (0.0, word_y + 28.0),
            &format!("{} in", view.units.megajoules(flow.heat_mj)),
            Type::note(theme.soot).sized(14.0),
        );
        if let Some(note) = in_note(ledger, flow, view) {
            ink.text((0.0, word_y + 46.0), &note, Type::note(theme.smoke).sized(14.0));
            word_y += 18.0;
        }
        word_y += 52.0;
        y += high;
    }
}

fn in_note(ledger: &Ledger, flow: &Flow, view: &View) -> Option<String> {
    let report = &ledger.0.report;
    match flow.way {
        Way::Wood => {
            let burnt: f64 = report.wood.by_hour.iter().map(|hour| hour.burnt_kg).sum();
            Some(format!("{} burnt", view.units.mass(burnt)))
        }
        Way::Gas => Some(format!("{}\u{a0}kWh", view.units.number(report.assist.kwh, 0))),
        _ => None,
    }
}

fn draw_outs(ledger: &Ledger, ink: &mut Ink, view: &View, section: &Section) {
    let (_, outs) = ledger.flows();
    let block = section.block();
    let find = |way: Way| outs.iter().find(|flow| flow.way == way);
    let mut y = block.y;
    let mut word_y = 0.0;
    // From the top of the block down: shell, smoke, glow, food, stone.
    for way in [Way::Shell, Way::Smoke, Way::Glow, Way::Food, Way::Stone] {
        let Some(flow) = find(way) else { continue };
        let thick = flow.heat_mj * section.px;
        let from = (block.right() + 1.0, y);
        match way {
            Way::Shell => draw_shell(ledger, ink, view, flow, from, thick),
            Way::Smoke | Way::Glow => word_y = draw_out_of_door(ledger, ink, view, section, flow, from, thick, word_y),
            Way::Food => draw_food(ledger, ink, view, section, flow, from, thick),
            _ => draw_stone(ledger, ink, view, flow, from, thick),
        }
        y += thick;
    }
}

fn draw_shell(ledger: &Ledger, ink: &mut Ink, view: &View, flow: &Flow, from: Point, thick: f64) {
    let theme = &view.theme;
    let turn = from.0 + 122.0;
    let radius = 14.0;
    let outer = radius + thick;
    // Along the roof of the flows, then straight up through the dome.
    let mut body = vec![(from.0, from.1), (turn - radius, from.1)];
    body.extend(arc((turn - radius, from.1 - radius), (radius, radius), PI / 2.0, 0.0));
    body.extend([
        (turn, 34.0),
        (turn - 6.0, 34.0),
        (turn + thick / 2.0, 20.0),
        (turn + thick + 6.0, 34.0),
        (turn + thick, 34.0),
    ]);
    body.extend(arc((turn - radius, from.1 - radius), (outer, outer), 0.0, PI / 2.0));
    body.push((from.0, from.1 + thick));
    fill(ink, theme, &body, Fill::Shell);
    words(ledger, ink, view, flow, (turn + thick + 14.0, 28.0), true);
}

#[allow(clippy::too_many_arguments, reason = "one flow's place, thickness and the words above it")]
fn draw_out_of_door(
    ledger: &Ledger,
    ink: &mut Ink,
    view: &View,
    section: &Section,
    flow: &Flow,
    from: Point,
    thick: f64,
    word_y: f64,
) -> f64 {
    let theme = &view.theme;
    let head = section.right + 2.0;
    // Room between the two arrow heads.
    let rise = if flow.way == Way::Smoke { -SMOKE_RISE_PX } else { 0.0 };
    let mut body = bezier(from, (from.0 + 180.0, from.1), (head - 160.0, from.1 + rise), (head, from.1 + rise));
    let wing = (thick * 0.12).clamp(3.5, 8.0);
    let tip = (thick * 0.32).clamp(9.0, 22.0);
    body.extend([
        (head, from.1 + rise - wing),
        (head + tip, from.1 + rise + thick / 2.0),
        (head, from.1 + rise + thick + wing),
        (head, from.1 + rise + thick),
    ]);
    let mut back = bezier(
        (from.0, from.1 + thick),
        (from.0 + 180.0, from.1 + thick),
        (head - 160.0, from.1 + rise + thick),
        (head, from.1 + rise + thick),
    );
    back.reverse();
    body.extend(back);
    fill(ink, theme, &body, flow.fill);
    let at = (from.1 + rise + thick / 2.0 - 5.0).max(word_y);
    words(ledger, ink, view, flow, (head + 30.0, at), false);
    at + 46.0
}

fn draw_food(ledger: &Ledger, ink: &mut Ink, view: &View, section: &Section, flow: &Flow, from: Point, thick: f64) {
    let theme = &view.theme;
    let dish_x = section.left + (section.right - section.left) * 0.695;
    let end = (dish_x - 22.0, FLOOR_Y - 12.0 - thick / 2.0);
    let mut body = bezier(from, (from.0 + 90.0, from.1), (end.0 - 90.0, end.1), end);
    let mut back = bezier(
        (from.0, from.1 + thick),
        (from.0 + 90.0, from.1 + thick),
        (end.0 - 90.0, end.1 + thick),
        (end.0, end.1 + thick),
    );
    back.reverse();
    body.extend(back);
    fill(ink, theme, &body, Fill::Food);
    glyphs::dish(ink, theme, (dish_x, FLOOR_Y - 2.0), 54.0, Side::Clay);
    ink.line((dish_x, FLOOR_Y + 4.0), (dish_x, FLOOR_Y + 76.0), theme.smoke, 1.25);
    below(ledger, ink, view, flow, dish_x);
}

fn draw_stone(ledger: &Ledger, ink: &mut Ink, view: &View, flow: &Flow, from: Point, thick: f64) {
    let theme = &view.theme;
    let left = from.0 + 20.0;
    let wide = thick.max(2.0);
    let foot = FLOOR_Y + 12.0;
    // A quarter turn down through the floor line, with an arrow head in the stone.
    let mut body = vec![(from.0, from.1), (left + wide * 0.2, from.1)];
    body.extend(arc((left + wide * 0.2, from.1 + wide * 0.8), (wide * 0.8, wide * 0.8), -PI / 2.0, 0.0));
    body.extend([
        (left + wide, foot),
        (left + wide + 6.0, foot),
        (left + wide / 2.0, foot + 14.0),
        (left - 6.0, foot),
        (left, foot),
    ]);
    body.extend([(left, from.1 + thick), (from.0, from.1 + thick)]);
    fill(ink, theme, &body, Fill::Hearth);
    let x = left + wide / 2.0;
    ink.line((x, foot + 16.0), (x, FLOOR_Y + 76.0), theme.smoke, 1.25);
    below(ledger, ink, view, flow, x);
}

fn words(ledger: &Ledger, ink: &mut Ink, view: &View, flow: &Flow, at: Point, one_line: bool) {
    let (name, amount) = (Type::value(view.theme.soot).start(), Type::note(view.theme.soot).sized(14.0));
    ink.text(at, flow.name, name);
    let second = if one_line { (at.0 + ink.width(flow.name, name) + 6.0, at.1) } else { (at.0, at.1 + 18.0) };
    ink.text(second, &ledger.amount(flow, view), amount);
}

fn below(ledger: &Ledger, ink: &mut Ink, view: &View, flow: &Flow, x: f64) {
    ink.text((x, FLOOR_Y + 94.0), flow.name, Type::value(view.theme.soot));
    ink.text((x, FLOOR_Y + 112.0), &ledger.amount(flow, view), Type::note(view.theme.soot).sized(14.0).middle());
}
