//! Owns the checks of the doorway: two-way flow with and without a layer, and what an opening lets burn.

use super::{Check, Outside, Row, Status, Table, Worst, published};
use crate::hearth::fire::doorway_limit_kg_s;
use crate::hearth::flow::{Doorway, in_kg_s, mixed_neutral_m, out_kg_s};
use crate::units::ZERO_C_K;

const MIXED: &str = include_str!("../../../tests/reference/opening_flow.csv");
const LAYERS: &str = include_str!("../../../tests/reference/doorway_layers.csv");
/// The room of the table, K.
const ROOM_K: f64 = 293.15;

/// All of them.
pub fn checks() -> Vec<Check> {
    let mut all = mixed();
    all.extend(mouths());
    all.extend(layers());
    all.extend(limits());
    all
}

/// What flows in when the oven is hot to the floor, kg/s, and the neutral height, m.
fn well_mixed(door: &Doorway, gas_k: f64) -> (f64, f64) {
    let z = mixed_neutral_m(door, gas_k, 0.0);
    (in_kg_s(door, gas_k, z, 0.0), z)
}

/// The factor C of m = C A sqrt(H) and the neutral height, by discharge coefficient.
fn mixed() -> Vec<Check> {
    let table = Table::read(MIXED);
    let source = "Karlsson & Quintiere, Enclosure Fire Dynamics, ch. 5; profile integrated by scipy";
    let mut all = Vec::new();
    for cd in ["0.6", "0.68", "0.7"] {
        let (mut flow, mut neutral) = (Worst::default(), Worst::default());
        let rows = table.rows_where("item", "factor C in m=C*A*sqrt(H)");
        for row in rows.filter(|row| row.text("Cd") == cd) {
            let door = Doorway { width_m: 1.0, height_m: 1.0, cd: row.number("Cd"), room_k: ROOM_K };
            let gas_k = row.number("Tg_K");
            let (got, z) = well_mixed(&door, gas_k);
            let outside =
                Outside::relative(row.number("m_in_kg_s_or_C"), 1e-4, "kg/(s m^2.5)", Status::Published, source);
            flow.add(outside.against(
                &format!("doorway.mixed.cd{cd}"),
                &format!("inflow over A sqrt(H) at {gas_k} K"),
                got,
            ));
            let outside = Outside::relative(row.number("zn_over_H"), 1e-4, "-", Status::Published, source);
            neutral.add(outside.against(
                &format!("doorway.neutral.cd{cd}"),
                &format!("neutral height over H at {gas_k} K"),
                z,
            ));
        }
        all.extend(flow.into_check());
        all.extend(neutral.into_check());
    }
    all
}

/// Three doorways.
fn mouths() -> Vec<Check> {
    let table = Table::read(MIXED);
    let mut all = Vec::new();
    for (name, width_m, height_m) in [("0.5x0.25", 0.5, 0.25), ("0.6x0.3", 0.6, 0.3), ("0.8x0.35", 0.8, 0.35)] {
        let mut worst = Worst::default();
        for row in table.rows_where("item", &format!("mouth {name}")) {
            let door = Doorway { width_m, height_m, cd: row.number("Cd"), room_k: ROOM_K };
            let gas_k = row.number("Tg_K");
            let source = "Karlsson & Quintiere, Enclosure Fire Dynamics, ch. 5; profile integrated by scipy";
            let outside = Outside::relative(row.number("m_in_kg_s_or_C"), 1e-4, "kg/s", Status::Published, source);
            worst.add(outside.against(
                &format!("doorway.mouth.{name}"),
                &format!("inflow of a {name} m doorway at {gas_k} K"),
                well_mixed(&door, gas_k).0,
            ));
        }
        all.extend(worst.into_check());
    }
    all
}

/// Out and in with a cold layer on the floor.
fn layers() -> Vec<Check> {
    let table = Table::read(LAYERS);
    let (mut out, mut into) = (Worst::default(), Worst::default());
    for row in table.rows() {
        let (door, gas_k) = door_of(&row);
        let (neutral, layer) = (row.number("neutral_m"), row.number("interface_m"));
        let source = "scipy 1.17.1 quadrature of the velocity profile, tests/reference/doorway_layers.csv";
        let outside = Outside::relative(row.number("out_kg_s"), 1e-6, "kg/s", Status::ReferenceLibrary, source);
        let what = format!("doorway {} m high, neutral at {neutral} m, layer at {layer} m", door.height_m);
        out.add(outside.against("doorway.layers.out", &format!("outflow, {what}"), out_kg_s(&door, gas_k, neutral)));
        let outside = Outside::relative(row.number("in_kg_s"), 1e-6, "kg/s", Status::ReferenceLibrary, source);
        into.add(outside.against(
            "doorway.layers.in",
            &format!("inflow, {what}"),
            in_kg_s(&door, gas_k, neutral, layer),
        ));
    }
    [out, into].into_iter().filter_map(Worst::into_check).collect()
}

/// Doorway and gas of a row.
fn door_of(row: &Row<'_>) -> (Doorway, f64) {
    let door = Doorway {
        width_m: row.number("width_m"),
        height_m: row.number("height_m"),
        cd: row.number("cd"),
        room_k: row.number("room_c") + ZERO_C_K,
    };
    (door, row.number("gas_c") + ZERO_C_K)
}

/// Kawagoe: the most air, the most wood.
fn limits() -> Vec<Check> {
    let most = (300..1600)
        .map(|k| well_mixed(&Doorway { width_m: 1.0, height_m: 1.0, cd: 0.68, room_k: ROOM_K }, f64::from(k)).0)
        .fold(0.0, f64::max);
    let air = published::within_share(
        "KAWAGOE-air",
        0.05,
        "kg/(s m^2.5)",
        Status::Published,
        "Kawagoe's 0.5 A sqrt(H), quoted in PD 7974-1:2019 eq 31 and Prog. Energy Combust. Sci. (2023)",
    );
    let wood = |width: f64, height: f64| 3600.0 * doorway_limit_kg_s(width, height);
    let source = "Kawagoe's 0.09 A sqrt(H), Fire Technology (2022) doi 10.1007/s10694-022-01218-1, worked by hand";
    vec![
        air.against("doorway.kawagoe.air", "most air an opening takes in at any temperature, over A sqrt(H)", most),
        Outside::within(published::figure("MOUTH-45x22").value, 0.1, "kg/h", Status::Published, source).against(
            "doorway.kawagoe.45x22",
            "most wood a 0.45 x 0.22 m doorway lets burn",
            wood(0.45, 0.22),
        ),
        Outside::within(published::figure("MOUTH-60x25").value, 0.1, "kg/h", Status::Published, source).against(
            "doorway.kawagoe.60x25",
            "most wood a 0.60 x 0.25 m doorway lets burn",
            wood(0.60, 0.25),
        ),
    ]
}
