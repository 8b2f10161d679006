//! Owns the checks of radiation: view factors, the oven's own table of them, the enclosure, and the open mouth.

use super::{Check, Outside, Row, Status, Table, Worst};
use crate::hearth::configuration::{
    cap_to_floor, coaxial_disks, disk_to_upright, disk_to_upright_by_rays, element_to_upright, parallel_rectangles,
    perpendicular_rectangles, within_sphere,
};
use crate::hearth::enclosure::{Enclosure, Faces, Light, Net};
use crate::units::{STEFAN_BOLTZMANN_W_M2_K4, ZERO_C_K};
use std::f64::consts::PI;

const FACTORS: &str = include_str!("../../../tests/reference/view_factors.csv");
const DOORWAY: &str = include_str!("../../../tests/reference/doorway_factor.csv");
const ENCLOSURE: &str = include_str!("../../../tests/reference/enclosure.csv");
const FLAME: &str = include_str!("../../../tests/reference/enclosure_flame.csv");
const MOUTH: &str = include_str!("../../../tests/reference/aperture_radiation.csv");
const HOWELL: &str = "Howell, A Catalog of Radiation Heat Transfer Configuration Factors (form recalled), checked by quadrature and rays";
/// Closed forms agree to this, relative.
const CLOSED: f64 = 1e-4;
/// Half a digit of what a library prints.
const PRINTED: f64 = 5e-5;
/// Rays agree to this, absolute.
const RAYS: f64 = 5e-4;
/// The network's answers agree to this, relative to the largest exchange.
const NETWORK: f64 = 1e-4;
/// The doorway's heat may be off by this share where the table's patch is curved and ours flat.
const CURVED: f64 = 1.5e-3;

/// All of them.
pub fn checks() -> Vec<Check> {
    let mut all = closed_forms();
    all.extend(doorway_elements());
    all.extend(networks());
    all.extend(flames());
    all.push(even_temperature());
    all.extend(mouth());
    all
}

/// All numbers in a text, in order.
fn numbers(text: &str) -> Vec<f64> {
    text.split(|c: char| !(c.is_ascii_digit() || c == '.')).filter_map(|part| part.parse().ok()).collect()
}

/// The engine's factor for a row of the table, where it has one.
fn ours(row: &Row<'_>) -> Option<(f64, &'static str)> {
    let (geometry, text) = (row.text("geometry"), row.text("parameters"));
    let n = numbers(text);
    match geometry {
        "parallel rectangles" if text.contains("a=b=c") => Some((parallel_rectangles(1.0, 1.0, 1.0), "parallel")),
        "parallel rectangles" if text.contains("gap") => Some((parallel_rectangles(n[0], n[0], n[1]), "parallel")),
        "parallel rectangles" => Some((parallel_rectangles(1.2, 0.9, 1.0), "parallel")),
        "floor -> flat crown (parallel rect)" => Some((parallel_rectangles(n[0], n[1], n[2]), "parallel")),
        "perpendicular rectangles, common edge" if text.contains("H=W") => {
            Some((perpendicular_rectangles(1.0, 1.0, 1.0), "perpendicular"))
        }
        "perpendicular rectangles, common edge" if text.contains("from W=2") => {
            Some((perpendicular_rectangles(2.0, 1.0, 1.0), "perpendicular"))
        }
        "perpendicular rectangles, common edge" => Some((perpendicular_rectangles(1.0, 2.0, 1.0), "perpendicular")),
        "coaxial disks" => Some((coaxial_disks(n[1], n[3], n[4]), "disks")),
        "spherical-cap dome -> its circular floor" => Some((cap_to_floor(n[0], n[1]), "cap")),
        "spherical-cap dome -> itself" => Some((1.0 - cap_to_floor(n[0], n[1]), "cap")),
        "within sphere: any patch -> patch A2" => {
            let (a, h) = (n[0], n[1]);
            Some((within_sphere(0.01, (a * a + h * h) / (2.0 * h)), "sphere"))
        }
        "disk on floor -> vertical door rectangle" => {
            Some((disk_to_upright(n[0], n[1], n[2], n[3], 24), "disk_to_door"))
        }
        "element on floor -> door (centred)" => Some((element_to_upright(0.6, -0.25, 0.25, 0.25), "element_to_door")),
        _ => None,
    }
}

/// Closed forms by kind, and the disk to the doorway by the engine's own rays.
fn closed_forms() -> Vec<Check> {
    let table = Table::read(FACTORS);
    let mut kinds: Vec<(&str, Worst)> = Vec::new();
    let mut rays = Worst::default();
    for row in table.rows() {
        let Some((got, kind)) = ours(&row) else { continue };
        let what = format!("view factor, {}, {}", row.text("geometry"), row.text("parameters"));
        // The two printed values that were read are published; identities of the sphere are exact.
        let read = row.text("source").contains("READ") || row.text("geometry").contains("spher");
        let status = if read { Status::Published } else { Status::ReferenceLibrary };
        let outside = Outside::relative(row.number("F12"), CLOSED, "-", status, HOWELL);
        if !kinds.iter().any(|(name, _)| *name == kind) {
            kinds.push((kind, Worst::default()));
        }
        if let Some((_, worst)) = kinds.iter_mut().find(|(name, _)| *name == kind) {
            worst.add(outside.against(&format!("view.{kind}"), &what, got));
        }
        if kind == "disk_to_door" {
            let n = numbers(row.text("parameters"));
            let outside = Outside::within(row.number("F12"), RAYS, "-", Status::ReferenceLibrary, HOWELL);
            rays.add(outside.against(
                "view.disk_to_door.rays",
                &format!("{what}, by rays"),
                disk_to_upright_by_rays(n[0], n[1], n[2], n[3], 16_384),
            ));
        }
    }
    let printed =
        Outside::within(0.415_3, PRINTED, "-", Status::Published, "equation-solver library example F3D_14 (X = Y = 2)");
    let mut all: Vec<Check> = kinds.into_iter().filter_map(|(_, worst)| worst.into_check()).collect();
    all.extend(rays.into_check());
    all.push(printed.against(
        "view.printed.parallel",
        "view factor of two 0.1 m squares 0.05 m apart",
        parallel_rectangles(0.1, 0.1, 0.05),
    ));
    let printed = Outside::within(
        0.200,
        5e-4,
        "-",
        Status::Published,
        "printed table of view factors, unit squares with a common edge",
    );
    all.push(printed.against(
        "view.printed.perpendicular",
        "view factor of two unit squares at right angles",
        perpendicular_rectangles(1.0, 1.0, 1.0),
    ));
    all
}

/// A floor element to a doorway, aside and near.
fn doorway_elements() -> Option<Check> {
    let table = Table::read(DOORWAY);
    let mut worst = Worst::default();
    for row in table.rows() {
        let (across, ahead) = (row.number("across_m"), row.number("from_door_m"));
        let half = 0.5 * row.number("width_m");
        let got = element_to_upright(ahead, -half - across, half - across, row.number("height_m"));
        let outside = Outside::within(
            row.number("factor"),
            1e-6,
            "-",
            Status::ReferenceLibrary,
            "scipy 1.17.1 double quadrature, tests/reference/doorway_factor.csv",
        );
        worst.add(outside.against(
            "view.element_to_door.aside",
            &format!("view factor of a floor element {across} m aside and {ahead} m before the doorway"),
            got,
        ));
    }
    worst.into_check()
}

/// A floor disk under a spherical cap with a doorway that is a patch of its sphere, one dome patch.
fn cap(a: f64, h: f64, door_m2: f64, floor_emissivity: f64, dome_emissivity: f64) -> Enclosure {
    let (floor, whole_cap, radius) = (PI * a * a, PI * (a * a + h * h), (a * a + h * h) / (2.0 * h));
    let (dome, sphere) = (whole_cap - door_m2, 4.0 * PI * radius * radius);
    let net = Net {
        cell_area_m2: vec![floor],
        patch_area_m2: vec![dome],
        door_area_m2: door_m2,
        cell_to_patch: vec![dome / whole_cap],
        cell_to_door: vec![door_m2 / whole_cap],
        patch_to_patch: vec![dome / sphere],
        patch_to_door: vec![door_m2 / sphere],
        dome_emissivity,
        smoke_emissivity: 0.0,
    };
    Enclosure::new(net, &[floor_emissivity])
}

/// Black emissive power, W/m2.
fn black(t_k: f64) -> f64 {
    STEFAN_BOLTZMANN_W_M2_K4 * (t_k * t_k) * (t_k * t_k)
}

/// Faces of one cell, one patch and the doorway at given temperatures.
fn faces(floor_emissivity: f64, floor_k: f64, dome_k: f64, door_k: f64) -> Faces {
    Faces {
        cell_emission_w_m2: vec![floor_emissivity * black(floor_k)],
        patch_black_w_m2: vec![black(dome_k)],
        door_black_w_m2: black(door_k),
        cell_source_w_m2: vec![0.0],
        patch_source_w_m2: vec![0.0],
        door_source_w: 0.0,
    }
}

/// What leaves cell, patch and doorway, W.
fn leaving(enclosure: &Enclosure, faces: &Faces, floor_emissivity: f64, light: &Light) -> [f64; 3] {
    let net = enclosure.net();
    [
        (faces.cell_emission_w_m2[0] - floor_emissivity * light.cell_w_m2[0]) * net.cell_area_m2[0],
        net.dome_emissivity * (faces.patch_black_w_m2[0] - light.patch_w_m2[0]) * net.patch_area_m2[0],
        (faces.door_black_w_m2 - light.door_w_m2) * net.door_area_m2,
    ]
}

/// Networks of the table that have the oven's form: three ovens, an oven with an adiabatic floor, a cylinder, two plates.
fn networks() -> Vec<Check> {
    let table = Table::read(ENCLOSURE);
    let mut all = Vec::new();
    for (number, row) in table.rows_where("case", "O1").enumerate() {
        let n = numbers(row.text("parameters"));
        let (floor_e, floor_k, dome_e, dome_k) = (n[1], n[2], n[4], n[5]);
        let enclosure = cap(0.6, 0.45, 0.125, floor_e, dome_e);
        let faces = faces(floor_e, floor_k, dome_k, 293.15);
        let got = leaving(&enclosure, &faces, floor_e, &enclosure.dark(&faces));
        let name = format!("oven{}", number + 1);
        all.extend(compare(&row, &name, &format!("floor {floor_k} K, dome {dome_k} K"), &got));
    }
    if let Some(row) = table.rows_where("case", "O2").next() {
        let enclosure = cap(0.6, 0.45, 0.125, 0.0, 0.9);
        let faces = faces(0.0, 293.15, 723.15, 293.15);
        let got = leaving(&enclosure, &faces, 0.0, &enclosure.dark(&faces));
        all.extend(compare(&row, "adiabatic_floor", "floor that gives back all it gets, dome 723.15 K", &got));
    }
    if let Some(row) = table.rows_where("case", "E1").next() {
        all.extend(compare(&row, "cylinder", "top 700 K, base 500 K, side 400 K", &cylinder()));
    }
    all.extend(plates());
    all
}

/// The cylindrical furnace: its top as the floor, its base as the dome, its black side as the doorway.
fn cylinder() -> [f64; 3] {
    let across = coaxial_disks(1.0, 1.0, 1.0);
    let net = Net {
        cell_area_m2: vec![PI],
        patch_area_m2: vec![PI],
        door_area_m2: 2.0 * PI,
        cell_to_patch: vec![across],
        cell_to_door: vec![1.0 - across],
        patch_to_patch: vec![0.0],
        patch_to_door: vec![1.0 - across],
        dome_emissivity: 0.4,
        smoke_emissivity: 0.0,
    };
    let enclosure = Enclosure::new(net, &[0.8]);
    let faces = faces(0.8, 700.0, 500.0, 400.0);
    let [top, base, _] = leaving(&enclosure, &faces, 0.8, &enclosure.dark(&faces));
    // The side sees itself, which a flat doorway does not: what leaves it is what the others gain.
    [top, base, -top - base]
}

/// Infinite parallel plates, 800 K at 0.8 and 500 K at 0.6, W/m2.
fn plates() -> Option<Check> {
    let table = Table::read(ENCLOSURE);
    let row = table.rows_where("case", "2S").next()?;
    let net = Net {
        cell_area_m2: vec![1.0],
        patch_area_m2: vec![1.0],
        door_area_m2: 1.0,
        cell_to_patch: vec![1.0],
        cell_to_door: vec![0.0],
        patch_to_patch: vec![0.0],
        patch_to_door: vec![0.0],
        dome_emissivity: 0.6,
        smoke_emissivity: 0.0,
    };
    let enclosure = Enclosure::new(net, &[0.8]);
    let faces = faces(0.8, 800.0, 500.0, 300.0);
    let got = leaving(&enclosure, &faces, 0.8, &enclosure.dark(&faces))[0];
    let outside = Outside::relative(
        signed(&row)[0],
        NETWORK,
        "W/m2",
        Status::Published,
        "Siegel & Howell, two infinite parallel plates",
    );
    Some(outside.against("enclosure.plates", "exchange of two infinite plates, 800 K and 500 K", got))
}

/// The numbers of `Q_i_W`.
fn signed(row: &Row<'_>) -> Vec<f64> {
    row.text("Q_i_W").split(';').filter_map(|part| part.parse().ok()).collect()
}

/// Floor, dome and doorway of one network, the worst of the three.
fn compare(row: &Row<'_>, name: &str, what: &str, got: &[f64; 3]) -> Option<Check> {
    let expected = signed(row);
    let largest = expected.iter().fold(0.0, |most: f64, q| most.max(q.abs()));
    let mut worst = Worst::default();
    for (surface, (expected, got)) in ["floor", "dome", "doorway"].iter().zip(expected.iter().zip(got)) {
        // A flat doorway does not see itself, the table's curved patch does a little: a share of its own heat.
        let within_w = if *surface == "doorway" { CURVED * expected.abs() } else { NETWORK * largest };
        let source =
            "Oppenheim's network (Siegel & Howell, ch. 5), solved by numpy 2.4.6, tests/reference/enclosure.csv";
        let outside = Outside::within(*expected, within_w, "W", Status::ReferenceLibrary, source);
        worst.add(outside.against(
            &format!("enclosure.{name}"),
            &format!("net heat leaving the {surface}: {what}"),
            *got,
        ));
    }
    worst.into_check()
}

/// Three surfaces with a flame between them.
fn flames() -> Vec<Check> {
    let table = Table::read(FLAME);
    let mut worst: [Worst; 3] = Default::default();
    for row in table.rows() {
        let n = |column: &str| row.number(column);
        let enclosure = cap(n("a_m"), n("rise_m"), n("door_w_m") * n("door_h_m"), n("eps"), n("eps"));
        let net = enclosure.net();
        let mut faces = faces(n("eps"), n("floor_c") + ZERO_C_K, n("dome_c") + ZERO_C_K, n("room_c") + ZERO_C_K);
        faces.cell_source_w_m2[0] = n("flame_w") * n("to_floor") / net.cell_area_m2[0];
        faces.patch_source_w_m2[0] = n("flame_w") * n("to_dome") / net.patch_area_m2[0];
        faces.door_source_w = n("flame_w") * (1.0 - n("to_floor") - n("to_dome"));
        let got = leaving(&enclosure, &faces, n("eps"), &enclosure.dark(&faces));
        let columns = [("floor", "floor_gains_w"), ("dome", "dome_gains_w"), ("doorway", "doorway_gains_w")];
        let largest = columns.iter().fold(0.0, |most: f64, (_, column)| most.max(n(column).abs()));
        for ((slot, (surface, column)), left) in worst.iter_mut().zip(columns).zip(got) {
            let within_w = if surface == "doorway" { CURVED * n(column).abs() } else { NETWORK * largest };
            let source = "radiosity network with a flame, numpy 2.4.6, tests/reference/enclosure_flame.csv";
            let outside = Outside::within(n(column), within_w, "W", Status::ReferenceLibrary, source);
            let what = format!(
                "gain of the {surface}: floor {} degC, dome {} degC, flame {} W",
                n("floor_c"),
                n("dome_c"),
                n("flame_w")
            );
            slot.add(outside.against(&format!("enclosure.flame.{surface}"), &what, -left));
        }
    }
    worst.into_iter().filter_map(Worst::into_check).collect()
}

/// Everything at one temperature, smoke too: nothing flows.
fn even_temperature() -> Check {
    let net = Net { smoke_emissivity: 0.2, ..cap(0.6, 0.45, 0.125, 0.9, 0.85).net().clone() };
    let enclosure = Enclosure::new(net, &[0.9]);
    let faces = faces(0.9, 600.0, 600.0, 600.0);
    let (dark, unit) = (enclosure.dark(&faces), enclosure.unit());
    let at_dome = dark.patch_w_m2[0] + black(600.0) * unit.patch_w_m2[0];
    let outside = Outside::within(
        0.0,
        1e-6 * black(600.0),
        "W/m2",
        Status::Consistency,
        "second law (Kirchhoff 1860): no exchange at one temperature",
    );
    outside.against(
        "enclosure.even",
        "net heat of the dome when floor, dome, doorway and smoke are all at 600 K",
        black(600.0) - at_dome,
    )
}

/// The same oven with a flat doorway, which sees nothing of itself: what it would have seen of itself it sees of the dome.
fn flat_door(net: &Net) -> Net {
    let to_floor = net.cell_area_m2[0] * net.cell_to_door[0];
    let to_dome = net.door_area_m2 - to_floor;
    let dome_m2 = net.patch_area_m2[0];
    let floor_m2 = net.cell_area_m2[0] * net.cell_to_patch[0];
    Net {
        patch_to_door: vec![to_dome / dome_m2],
        patch_to_patch: vec![1.0 - (to_dome + floor_m2) / dome_m2],
        ..net.clone()
    }
}

/// The open mouth of a grey cavity, floor and dome at one temperature.
fn mouth() -> Vec<Check> {
    let table = Table::read(MOUTH);
    let mut all = Vec::new();
    for eps in ["0.6", "0.8", "0.95"] {
        let mut worst = Worst::default();
        for row in table.rows_where("eps", eps) {
            let (t, e, door) = (row.number("Tc_K"), row.number("eps"), row.number("W_m") * row.number("H_m"));
            let enclosure = Enclosure::new(flat_door(cap(0.6, 0.45, door, e, e).net()), &[e]);
            let faces = faces(e, t, t, 293.15);
            let light = enclosure.dark(&faces);
            let out = (light.door_w_m2 - faces.door_black_w_m2) * door;
            let source = "two-surface enclosure with a black aperture (Siegel & Howell, ch. 5)";
            // The closed form takes the light in the cavity as even; floor and dome differ a little.
            let outside = Outside::relative(row.number("Q_W"), 0.008, "W", Status::Published, source);
            worst.add(outside.against(
                &format!("enclosure.mouth.eps{eps}"),
                &format!("radiated from a {} x {} m mouth at {t} K", row.text("W_m"), row.text("H_m")),
                out,
            ));
        }
        all.extend(worst.into_check());
    }
    all
}
