//! Owns the parts of the picture of the floor: a dish's line, the shapes under a level, free places for words.

use hearthload::report::DishReport;

use super::View;
use super::answer::SpotFind;
use super::axis::TimeScale;
use super::ink::{Ink, Point};
use super::shapes::{Rect, smooth};

/// Sag of a dish's line for each degree its best spot is off, px, and the most.
const LINE_PX_PER_K: f64 = 0.5;
const LINE_SAG_PX: f64 = 10.0;

/// One dish's line: straight where a spot is in its band, sagging where all are too cool, dotted where all are too hot.
pub fn draw_row(ink: &mut Ink, view: &View, finds: &[SpotFind], time: &TimeScale, y: f64) {
    let theme = &view.theme;
    let sag = |find: &SpotFind| (time.x(find.at_s), y + (find.off_k.max(0.0) * LINE_PX_PER_K).min(LINE_SAG_PX));
    let mut from = 0;
    while from + 1 < finds.len() {
        let hot = finds[from].off_k < 0.0;
        let length = finds[from..].iter().take_while(|find| (find.off_k < 0.0) == hot).count();
        let to = (from + length).min(finds.len() - 1);
        let stretch: Vec<Point> = finds[from..=to].iter().map(sag).collect();
        if hot {
            ink.dotted(&[(stretch[0].0, y), (stretch[stretch.len() - 1].0, y)], theme.smoke, 2.0);
        } else {
            if stretch.iter().any(|point| point.1 > y) {
                ink.dotted(&[(stretch[0].0, y), (stretch[stretch.len() - 1].0, y)], theme.smoke, 1.5);
            }
            ink.path(&smooth(&stretch), theme.soot, 4.0);
        }
        from = to;
        if length == 0 {
            break;
        }
    }
}

/// The shapes between a line and a level above it, where the line lies below that level on screen.
#[must_use]
pub fn below(line: &[Point], level: f64) -> Vec<Vec<Point>> {
    let mut shapes = Vec::new();
    let mut current: Vec<Point> = Vec::new();
    for pair in line.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let crossing = || (a.0 + (b.0 - a.0) * (level - a.1) / (b.1 - a.1), level);
        match (a.1 > level, b.1 > level) {
            (false, true) => current = vec![crossing(), b],
            (true, true) => {
                if current.is_empty() {
                    current.extend([(a.0, level), a]);
                }
                current.push(b);
            }
            (true, false) => {
                current.push(crossing());
                shapes.push(std::mem::take(&mut current));
            }
            (false, false) => {}
        }
    }
    if let Some(&last) = current.last() {
        current.push((last.0, level));
        shapes.push(current);
    }
    shapes
}

/// Whether a line runs through a place for words.
#[must_use]
pub fn crossed(place: &Rect, line: &[Point]) -> bool {
    let (left, right) = (place.x - 6.0, place.right() + 6.0);
    let (top, foot) = (place.y - 3.0, place.foot() + 3.0);
    let through = |pair: &[Point]| {
        let beside = pair[0].0.max(pair[1].0) < left || pair[0].0.min(pair[1].0) > right;
        !beside && pair[0].1.min(pair[1].1) < foot && pair[0].1.max(pair[1].1) > top
    };
    line.windows(2).any(through)
}

/// A place for words of a width along a line, above it or below it, clear of the other lines and of what is taken; the first
/// from the left that is clear, none where there is no such place.
#[must_use]
pub fn free_place(
    width: f64,
    line: &[Point],
    others: &[&[Point]],
    up: bool,
    plot: Rect,
    taken: &[Rect],
) -> Option<Rect> {
    const HIGH: f64 = 16.0;
    const GAP: f64 = 5.0;
    const STEP: f64 = 12.0;
    let clear = |place: &Rect| {
        let (top, foot) = (place.y - 3.0, place.foot() + 3.0);
        let beside = |rect: &Rect| {
            place.right() < rect.x - 6.0 || rect.right() < place.x - 6.0 || foot < rect.y || rect.foot() < top
        };
        let within = place.y >= plot.y && place.foot() <= plot.foot();
        within && taken.iter().all(beside) && !others.iter().any(|other| crossed(place, other))
    };
    let steps = ((plot.w - width) / STEP).floor().max(0.0) as usize;
    (0..=steps).find_map(|step| {
        let x = plot.x + step as f64 * STEP;
        let along = line.iter().filter(|point| (x - 6.0..=x + width + 6.0).contains(&point.0)).map(|point| point.1);
        let y = if up { along.reduce(f64::min)? - GAP - HIGH } else { along.reduce(f64::max)? + GAP };
        Some(Rect::new(x, y, width, HIGH)).filter(clear)
    })
}

/// "Leek round, 300 to 350 °C".
#[must_use]
pub fn row_words(dish: &DishReport, view: &View) -> String {
    format!("{}, {}", dish.name, view.units.band(dish.floor_band_c))
}

/// Whether a dish finds a spot at a time, in words for the table.
#[must_use]
pub fn spot_word(finds: &[SpotFind], at_s: f64, view: &View) -> String {
    match finds.iter().find(|find| (find.at_s - at_s).abs() < 1.0) {
        None => String::new(),
        Some(find) if find.off_k > 0.5 => format!("{} under", view.units.step(find.off_k)),
        Some(find) if find.off_k < -0.5 => format!("{} over", view.units.step(-find.off_k)),
        Some(_) => "yes".to_owned(),
    }
}
