//! Owns the picture of the ledger: what came in, where it went, to scale; as a section where there is room, as two columns on a phone.

use super::answer::Answer;
use super::fills::{Fill, fill_rect};
use super::ink::{Ink, Type};
use super::ledger_section;
use super::shapes::Rect;
use super::words::{capital, inside_sentence};
use super::{Drawing, Table, View};

/// From this width on the section through the oven is drawn.
const SECTION_FROM_PX: f64 = 620.0;
/// Height of the columns on a phone, px.
const COLUMN_PX: f64 = 380.0;
/// Least height of a part's words, px: two lines.
const WORDS_PX: f64 = 39.0;
/// Left of the words beside the columns, px.
const WORDS_X: f64 = 150.0;
/// A flow under this share of the whole is not drawn, only listed.
const LEAST_SHARE: f64 = 0.001;

/// The ledger.
pub struct Ledger<'a>(pub &'a Answer);

/// One flow of the ledger.
#[derive(Clone, Debug, PartialEq)]
pub struct Flow {
    /// What it is called.
    pub name: &'static str,
    /// How much, MJ, positive.
    pub heat_mj: f64,
    /// Its fill.
    pub fill: Fill,
    /// Where it goes.
    pub way: Way,
}

/// Ways heat takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Way {
    /// Wood, in.
    Wood,
    /// Gas, in.
    Gas,
    /// Out of the warm stone, in.
    FromStone,
    /// With the smoke.
    Smoke,
    /// Radiation from the doorway.
    Glow,
    /// Through the shell.
    Shell,
    /// Into the food.
    Food,
    /// Still in the stone.
    Stone,
}

impl Ledger<'_> {
    /// What came in and where it went; warmth taken out of the stone counts as coming in.
    pub(super) fn flows(&self) -> (Vec<Flow>, Vec<Flow>) {
        let sums = &self.0.report.ledger_mj;
        let flow = |name, heat_mj, fill, way| Flow { name, heat_mj, fill, way };
        let ins = [
            flow("Wood", sums.fire, Fill::Wood, Way::Wood),
            flow("Gas", sums.assist, Fill::Gas, Way::Gas),
            flow("Out of the warm stone", -sums.stored, Fill::Hearth, Way::FromStone),
        ];
        let outs = [
            flow("Out with the smoke", sums.doorway_flow, Fill::Chamber, Way::Smoke),
            flow("Doorway glow", sums.doorway_radiation, Fill::Glow, Way::Glow),
            flow("Through the shell", sums.shell, Fill::Shell, Way::Shell),
            flow("Into the food", sums.food, Fill::Food, Way::Food),
            flow("Still in the stone", sums.stored, Fill::Hearth, Way::Stone),
        ];
        let total: f64 = ins.iter().map(|flow| flow.heat_mj.max(0.0)).sum();
        let counts = |flow: &Flow| flow.heat_mj > LEAST_SHARE * total && flow.heat_mj > 0.0;
        (ins.into_iter().filter(counts).collect(), outs.into_iter().filter(counts).collect())
    }

    pub(super) fn total_mj(&self) -> f64 {
        self.flows().0.iter().map(|flow| flow.heat_mj).sum::<f64>().max(1e-9)
    }

    /// "253 MJ, 52 %".
    pub(super) fn amount(&self, flow: &Flow, view: &View) -> String {
        format!("{}, {}", view.units.megajoules(flow.heat_mj), view.units.percent(flow.heat_mj / self.total_mj()))
    }

    fn draw_columns(&self, ink: &mut Ink, view: &View) {
        let theme = &view.theme;
        let (ins, outs) = self.flows();
        let px = COLUMN_PX / self.total_mj();
        let mut y = 2.0;
        for flow in &ins {
            let high = flow.heat_mj * px;
            fill_rect(ink, theme, Rect::new(1.0, y, 46.0, (high - 2.0).max(1.0)), flow.fill);
            y += high;
        }
        let (mut y, mut words) = (2.0, 0.0);
        for (index, flow) in outs.iter().enumerate() {
            let high = flow.heat_mj * px;
            fill_rect(ink, theme, Rect::new(62.0, y, 74.0, (high - 2.0).max(1.0)), flow.fill);
            // Words stand beside their part, pushed on where parts are thin, but never below the column's foot.
            let below = (outs.len() - index) as f64 * WORDS_PX;
            let at = (y + high / 2.0 - WORDS_PX / 2.0).min(COLUMN_PX + 8.0 - below).max(words);
            if (at + 17.0 - (y + high / 2.0)).abs() > 12.0 {
                ink.path(&[(138.0, y + high / 2.0), (WORDS_X - 5.0, at + 15.0)], theme.edge, 1.0);
            }
            ink.text((WORDS_X, at + 14.0), flow.name, Type::value(theme.soot).start());
            ink.text((WORDS_X, at + 31.0), &self.amount(flow, view), Type::note(theme.soot).sized(14.0));
            words = at + WORDS_PX;
            y += high;
        }
        let foot = COLUMN_PX + 24.0;
        for (index, flow) in ins.iter().enumerate() {
            let text = format!("{} in: {}", flow.name, view.units.megajoules(flow.heat_mj));
            ink.text((0.0, foot + 19.0 * index as f64), &text, Type::value(theme.soot).start());
        }
    }

    fn largest(&self) -> Option<Flow> {
        self.flows().1.into_iter().max_by(|a, b| a.heat_mj.total_cmp(&b.heat_mj))
    }
}

/// A share in words a cook uses: "half", "a third", else "52 %".
fn share_words(share: f64, view: &View) -> String {
    const WORDS: [(f64, &str); 9] = [
        (0.75, "three quarters"),
        (0.667, "two thirds"),
        (0.5, "half"),
        (0.4, "two fifths"),
        (0.333, "a third"),
        (0.25, "a quarter"),
        (0.2, "a fifth"),
        (0.1, "a tenth"),
        (0.05, "a twentieth"),
    ];
    let near = WORDS.iter().find(|(value, _)| (share - value).abs() <= 0.025_f64.min(value * 0.12));
    near.map_or_else(|| view.units.percent(share), |(_, words)| (*words).to_owned())
}

impl Drawing for Ledger<'_> {
    fn height_px(&self, view: &View) -> f64 {
        if view.width_px >= SECTION_FROM_PX {
            ledger_section::HEIGHT_PX
        } else {
            COLUMN_PX + 12.0 + 19.0 * self.flows().0.len() as f64 + 4.0
        }
    }

    fn draw(&self, ink: &mut Ink, view: &View) {
        if view.width_px >= SECTION_FROM_PX {
            ledger_section::draw(self, ink, view);
        } else {
            self.draw_columns(ink, view);
        }
    }

    fn finding(&self, view: &View) -> String {
        let Some(largest) = self.largest() else { return "No heat came in.".to_owned() };
        let total = self.total_mj();
        let share = share_words(largest.heat_mj / total, view);
        let food = self.0.report.ledger_mj.food.max(0.0) / total;
        let most = match largest.way {
            Way::Smoke => format!("{share} of the heat leaves with the smoke"),
            Way::Glow => format!("{share} of the heat shines out of the doorway"),
            Way::Shell => format!("{share} of the heat goes through the shell"),
            Way::Stone => format!("{share} of the heat is still in the stone"),
            _ => return capital(&format!("{share} of the heat goes into the food.")),
        };
        if food < 0.005 {
            return capital(&format!("{most}; no food took any."));
        }
        capital(&format!("{most}; the food takes {}.", share_words(food, view)))
    }

    fn how(&self, view: &View) -> String {
        let (ins, outs) = self.flows();
        let sum = |flows: &[Flow]| {
            flows.iter().map(|flow| view.units.number(flow.heat_mj, 0)).collect::<Vec<_>>().join(" + ")
        };
        let residual = self.0.report.ledger_mj.residual;
        let rest = if residual.abs() < 0.5 {
            "nothing is left over".to_owned()
        } else {
            format!("{} is left over", view.units.megajoules(residual))
        };
        format!("From lighting to the end: {} = {}\u{a0}MJ; {rest}.", sum(&ins), sum(&outs))
    }

    fn aria(&self, view: &View) -> String {
        let (ins, outs) = self.flows();
        let part = |flow: &Flow| format!("{}: {}", inside_sentence(flow.name), self.amount(flow, view));
        let join = |flows: &[Flow]| flows.iter().map(part).collect::<Vec<_>>().join("; ");
        format!("{} In: {}. Out: {}.", self.finding(view), join(&ins), join(&outs))
    }

    fn table(&self, view: &View) -> Table {
        let mut table = Table::with_head(&["flow", "MJ", "share"]);
        let sums = &self.0.report.ledger_mj;
        let total = self.total_mj();
        for (name, heat_mj) in [
            ("wood, in", sums.fire),
            ("gas, in", sums.assist),
            ("into the food", sums.food),
            ("out with the smoke", sums.doorway_flow),
            ("doorway glow", sums.doorway_radiation),
            ("through the shell", sums.shell),
            ("still in the stone", sums.stored),
            ("left over", sums.residual),
        ] {
            table.row([capital(name), view.units.number(heat_mj, 1), view.units.percent(heat_mj / total)]);
        }
        table
    }
}
