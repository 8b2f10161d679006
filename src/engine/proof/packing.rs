//! Owns the checks of packing: how many rounds fit a round floor and a rectangular one.

use super::{Check, Outside, Status, Table, Worst};
use crate::hearth::packing::pack;
use crate::hearth::shapes::{FloorOutline, Region};
use crate::scenario::Footprint;

const CIRCLE: &str = include_str!("../../../tests/reference/circle_in_circle.csv");
const RECTANGLE: &str = include_str!("../../../tests/reference/circle_in_rect.csv");
/// The floor is made larger than the tightest known one by this share: a hundredth, less than any peel needs,
/// and no cook lays rounds to a tenth of a millimetre.
const PLAY: f64 = 1e-2;
/// Half a disk: counts are whole.
const HALF: f64 = 0.5;

/// All of them.
pub fn checks() -> Vec<Check> {
    let mut all = round_floor();
    all.extend(rectangular_floor());
    all
}

/// Disks of unit diameter on a floor of the given half sides.
fn count(oval: bool, half_width_m: f64, half_depth_m: f64) -> f64 {
    let region = Region::whole(FloorOutline { oval, half_width_m, half_depth_m });
    pack(&region, &Footprint::Round { diameter_m: 1.0 }, 0.0).len() as f64
}

/// Round floors just large enough for N, in three groups of N.
fn round_floor() -> Vec<Check> {
    let table = Table::read(CIRCLE);
    let mut worst: [Worst; 3] = Default::default();
    for row in table.rows() {
        let n = row.number("N");
        // 6 and 7 need the same floor, and 18 and 19: the larger number fits.
        let expected = if matches!(row.text("N"), "6" | "18") { n + 1.0 } else { n };
        let radius = 0.5 * row.number("R_over_r") * (1.0 + PLAY);
        let source = "best known packings of equal circles in a circle (proved to 14 and for 19: Graham 1968, Pirl 1969, Melissen 1994, Fodor 1999-2003)";
        let group = if n < 8.0 {
            0
        } else if n < 15.0 {
            1
        } else {
            2
        };
        let outside = Outside::within(expected, HALF, "rounds", Status::Published, source);
        let id = format!("packing.round.{}", ["1-7", "8-14", "15-20"][group]);
        worst[group].add(outside.against(
            &id,
            &format!("rounds on a round floor just large enough for {n}"),
            count(true, radius, radius),
        ));
    }
    worst.into_iter().filter_map(Worst::into_check).collect()
}

/// Rectangular floors just large enough for N, by aspect.
fn rectangular_floor() -> Vec<Check> {
    let table = Table::read(RECTANGLE);
    let mut all = Vec::new();
    for (aspect, status) in [
        ("1", Status::Published),
        ("1.25", Status::ReferenceLibrary),
        ("1.5", Status::ReferenceLibrary),
        ("2", Status::ReferenceLibrary),
    ] {
        let mut worst = Worst::default();
        for row in table.rows_where("aspect", aspect) {
            let short = 0.5 * row.number("short_over_d") * (1.0 + PLAY);
            let (n, long) = (row.number("N"), short * row.number("aspect"));
            // Where more fit than the row's number because the next row needs no more room, the largest of them counts.
            let most = table
                .rows_where("aspect", aspect)
                .filter(|other| 0.5 * other.number("short_over_d") <= short)
                .map(|other| other.number("N"))
                .fold(n, f64::max);
            let source = "best known packings of equal circles in a square (Schaer, Peikert, Nurmela); other sides by scipy 1.17.1 from many starts";
            // In a square the best are known; elsewhere squeezing in the very last one may fail, never the other way.
            let outside = if aspect == "1" {
                Outside::within(most, HALF, "rounds", status, source)
            } else {
                Outside::between(most - 1.0 - 0.5 * HALF, most + 0.5 * HALF, "rounds", status, source)
            };
            worst.add(outside.against(
                &format!("packing.rectangle.{aspect}"),
                &format!("rounds on a floor 1 : {aspect} just large enough for {n}"),
                count(false, long, short),
            ));
        }
        all.extend(worst.into_check());
    }
    all
}
