//! Owns the checks of built-up floors and domes: bodies brought into contact, steady layers, and three cases integrated by
//! scipy: a floor under a service's loads, a burner's dead time, a dome warming up.

use super::bench::{Bench, Cut, FINE, Grain, MODES, USUAL};
use super::{Check, Outside, Status, Table, Worst, published};
use crate::numerics::column::{Fineness, Slab};
use crate::units::{STEFAN_BOLTZMANN_W_M2_K4, ZERO_C_K};

const CONTACT: &str = include_str!("../../../tests/reference/contact.csv");
const STEADY: &str = include_str!("../../../tests/reference/steady_layers.csv");
const SERVICE: &str = include_str!("../../../tests/reference/floor_service.csv");
const BURNER: &str = include_str!("../../../tests/reference/assist_dead_time.csv");
const DOME: &str = include_str!("../../../tests/reference/dome_heating.csv");
const ROOM_C: f64 = 25.0;
const OUTER_FILM_W_M2_K: f64 = 10.0;

/// A layer by thickness, conductivity, density and heat capacity.
const fn slab(thickness_m: f64, k_w_m_k: f64, rho_kg_m3: f64, c_j_kg_k: f64) -> Slab {
    Slab { thickness_m, k_w_m_k, rho_c_j_m3_k: rho_kg_m3 * c_j_kg_k }
}

/// The layers of the scipy cases, as their headers state them.
const FLOOR: [Slab; 4] = [
    slab(0.060, 1.05, 2150.0, 956.0),
    slab(0.010, 0.35, 1600.0, 800.0),
    slab(0.080, 0.087, 240.0, 840.0),
    slab(0.100, 1.40, 2200.0, 900.0),
];
const VAULT: [Slab; 2] = [slab(0.080, 1.60, 2500.0, 1050.0), slab(0.100, 0.10, 128.0, 1100.0)];

/// All of them.
pub fn checks() -> Vec<Check> {
    let mut all = contact();
    all.extend(seen_contact());
    all.extend(steady());
    for grain in [USUAL, MODES, FINE] {
        all.extend(service(grain));
        all.extend(burner(grain));
        all.extend(dome(grain));
    }
    all
}

/// The last word of an id.
fn tail(grain: Grain) -> &'static str {
    grain.name.split(' ').next().unwrap_or_default()
}

/// Two thick bodies of effusivities `e1`, `e2` brought together: temperature of the joint after a minute and heat over it.
fn touch(t1: f64, e1: f64, t2: f64, e2: f64) -> (f64, f64) {
    // Equal diffusivities; the joint lies where the cells are fine, since they are equal throughout.
    let diffusivity: f64 = 5e-7;
    let body =
        |e: f64| Slab { thickness_m: 0.04, k_w_m_k: e * diffusivity.sqrt(), rho_c_j_m3_k: e / diffusivity.sqrt() };
    let even = Fineness { first_m: 0.000_2, growth: 1.0, coarsest_m: 0.000_2 };
    let mut bench = Bench::two_bodies(&[body(e2), body(e1)], even, t2, t1);
    let mut step_s = 0.002;
    while bench.time_s < 60.0 - 1e-9 {
        step_s = (0.02 * bench.time_s).clamp(step_s, 0.5);
        bench.push(step_s.min(60.0 - bench.time_s), 0.0, None);
    }
    (bench.joint_c(0), bench.layer_j_m2(t2))
}

/// Contact temperature and heat of a minute, for the table's pairs.
fn contact() -> Vec<Check> {
    let table = Table::read(CONTACT);
    let (mut joint, mut heat) = (Worst::default(), Worst::default());
    for row in table.rows() {
        let (t1, e1) = (row.number("T1_degC"), row.number("e1_Ws0.5_m2K"));
        let (t2, e2) = (row.number("T2_degC"), row.number("e2"));
        let (got_c, got_j) = touch(t1, e1, t2, e2);
        let source = "Carslaw & Jaeger, 2nd ed. 1959, 2.15";
        let outside =
            Outside::within(row.number("T_contact"), 0.002 * (t1 - t2).abs(), "degC", Status::Published, source);
        joint.add(outside.against("contact.temperature", &format!("contact temperature: {}", row.text("case")), got_c));
        let expected = row.number("Q_60s_kJ_m2");
        let outside = Outside::relative(expected, 0.005, "kJ/m2", Status::Published, source);
        heat.add(outside.against(
            "contact.heat",
            &format!("heat over a minute of contact: {}", row.text("case")),
            got_j / 1000.0,
        ));
    }
    [joint, heat].into_iter().filter_map(Worst::into_check).collect()
}

/// The two published contact temperatures, from the engine's own conduction.
fn seen_contact() -> Vec<Check> {
    let source = "Varlamov, Glatz, Grasso (2018) Phys. Educ. 53:065011, arXiv:1806.08790";
    let brick = published::measured("V18-contact-brick", "degC", Status::Published, source);
    let steel = published::measured("V18-contact-steel", "degC", Status::Published, source);
    vec![
        brick.against(
            "contact.brick",
            "dough of 20 degC on brick of 330 degC, effusivities 0.65 to 1",
            touch(330.0, 1538.46, 20.0, 1000.0).0,
        ),
        steel.against(
            "contact.steel",
            "dough of 20 degC on steel of 330 degC, effusivities 0.10 to 1",
            touch(330.0, 10_000.0, 20.0, 1000.0).0,
        ),
    ]
}

/// Steady flux through built-up walls.
fn steady() -> Vec<Check> {
    let table = Table::read(STEADY);
    let walls: [(&str, &str, [Slab; 2]); 3] = [
        ("floor 50 mm", "floor", [slab(0.05, 1.05, 2150.0, 956.0), slab(0.05, 0.087, 240.0, 840.0)]),
        ("60 mm fireclay", "brick", [slab(0.06, 1.05, 2150.0, 956.0), slab(0.10, 0.14, 490.0, 942.0)]),
        ("dome", "dome", [slab(0.08, 1.6, 2500.0, 1050.0), slab(0.10, 0.13, 128.0, 1100.0)]),
    ];
    /// So long a step leaves nothing but the steady state.
    const LONG_S: f64 = 1e7;
    let mut all = Vec::new();
    for (begins, name, slabs) in walls {
        let mut worst = Worst::default();
        for row in table.rows().filter(|row| row.text("wall").starts_with(begins)) {
            let inside = row.number("Th_C");
            let cut = Cut::new(&slabs, OUTER_FILM_W_M2_K, USUAL, None);
            let mut bench = Bench::new(&cut, ROOM_C, ROOM_C);
            let flux = (0..4).map(|_| bench.hold(LONG_S, inside)).last().unwrap_or(f64::NAN);
            let outside = Outside::relative(
                row.number("q_W_m2"),
                1e-6,
                "W/m2",
                Status::ReferenceLibrary,
                "ht 1.2.0 (layers in series)",
            );
            worst.add(outside.against(
                &format!("layers.{name}"),
                &format!("steady flux through {} at {inside} degC inside", row.text("wall")),
                flux,
            ));
        }
        all.extend(worst.into_check());
    }
    all
}

/// The floor under a service's loads.
fn service(grain: Grain) -> Vec<Check> {
    /// Film and its temperature between loads, load and its length, hours of heating before.
    const FILM: (f64, f64) = (45.0, 470.0);
    const LOAD: (f64, f64) = (-22_000.0, 90.0);
    const HEATING_S: f64 = 4.0 * 3600.0;
    const LOADS_S: [f64; 16] = [
        0.0, 420.0, 780.0, 1080.0, 1320.0, 1530.0, 1710.0, 1890.0, 2070.0, 2250.0, 2460.0, 2700.0, 3000.0, 3420.0,
        3900.0, 4500.0,
    ];
    let film = |face_c: f64| FILM.0 * (FILM.1 - face_c);
    let cut = Cut::new(&FLOOR, OUTER_FILM_W_M2_K, grain, None);
    let mut bench = Bench::new(&cut, ROOM_C, ROOM_C);
    bench.follow_until(HEATING_S, grain.step_s, film);
    bench.time_s = 0.0;
    let (mut face, mut deep, mut stored) = (Worst::default(), Worst::default(), Worst::default());
    let mut load = 0;
    for row in Table::read(SERVICE).rows() {
        let t = row.number("t_s");
        while bench.time_s < t - 1e-9 {
            let begun = LOADS_S[load..].first().is_some_and(|&at| at <= bench.time_s + 1e-9);
            if begun {
                bench.flux_until(bench.time_s + LOAD.1, grain.step_s, LOAD.0);
                load += 1;
            } else {
                let next = LOADS_S[load..].first().map_or(t, |&at| at.min(t));
                bench.follow_evenly(next, 2.0 * grain.step_s, film);
            }
        }
        let source = "scipy 1.17.1 Radau on a fine grid, tests/reference/floor_service.csv";
        let library = Status::ReferenceLibrary;
        let name = |part: &str| format!("floor.service.{part}.{}", tail(grain));
        let what = |part: &str| format!("{}: {part} of a floor of four layers, {t} s into a service", grain.name);
        // The face falls by some 170 K under a load; the warm-up before is 420 K.
        let outside = Outside::within(row.number("face_c"), grain.share * 420.0, "degC", library, source);
        face.add(outside.against(&name("face"), &what("face"), bench.face_c()));
        let outside = Outside::within(row.number("at_20mm_c"), grain.share * 420.0, "degC", library, source);
        deep.add(outside.against(&name("20mm"), &what("20 mm below the face"), bench.at_c(0.02)));
        let outside = Outside::relative(row.number("stored_mj_m2"), grain.share, "MJ/m2", library, source);
        stored.add(outside.against(&name("stored"), &what("heat"), bench.stored_j_m2() / 1e6));
    }
    [face, deep, stored].into_iter().filter_map(Worst::into_check).collect()
}

/// A burner's heat, W/m2.
const FLUX_W_M2: f64 = 5000.0;
/// What a front costs on the usual grid, in shares of the grid's own.
const FRONT_USUAL: f64 = 1.5;
/// The same by modes where nothing lies below: a flux into the very last node bends its profile at once from node to node, which
/// stores no heat and is left out of the modes: 1.1 K too little there, of 67 after five minutes. No oven has a burner so.
const FRONT_BARE_MODES: f64 = 4.0;

/// What thin stone costs on the usual grid, in shares of the grid's own.
const DEAD_USUAL: f64 = 2.0;

/// How late a face answers a burner below: once the wave has passed, rise = q (t - dead) / (rho c L) with dead = L^2/(6 a).
fn dead_times(grain: Grain) -> Vec<Check> {
    /// So many times L^2/a after lighting all but a millionth of the beginning is gone.
    const PASSED: f64 = 1.5;
    let source = "Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959, 3.8: L^2/(6 a)";
    let mut worst = Worst::default();
    for thickness_m in [0.03, 0.06, 0.08, 0.10] {
        let stone = slab(thickness_m, 1.05, 2150.0, 956.0);
        let diffusion_s = thickness_m * thickness_m * stone.rho_c_j_m3_k / stone.k_w_m_k;
        let cut = Cut::new(&[stone], 0.0, grain, Some(0));
        let mut bench = Bench::new(&cut, 0.0, 0.0);
        let step_s = 40.0 * grain.step_s;
        while bench.time_s < PASSED * diffusion_s {
            bench.push(step_s, 0.0, Some((0, FLUX_W_M2)));
        }
        let got_s = bench.time_s - bench.face_c() * stone.rho_c_j_m3_k * thickness_m / FLUX_W_M2;
        // Thin stone lies wholly in the coarse end, and loses most: 0.9 % at 3 cm, 0.2 % or less from 6 cm on.
        let share = if grain.share > FINE.share { DEAD_USUAL } else { 1.0 } * grain.share;
        let outside = Outside::relative(diffusion_s / 6.0, share, "s", Status::Published, source);
        worst.add(outside.against(
            &format!("burner.dead_time.{}", tail(grain)),
            &format!("{}: how late the face of {thickness_m} m of stone answers a burner below", grain.name),
            got_s,
        ));
    }
    worst.into_check().into_iter().collect()
}

/// A burner under a slab, with nothing and with insulation below.
fn burner(grain: Grain) -> Vec<Check> {
    let table = Table::read(BURNER);
    let mut all = dead_times(grain);
    for below in ["nothing", "insulation"] {
        let front = match (grain.rates.is_some(), below) {
            (true, "nothing") => FRONT_BARE_MODES,
            _ if grain.share > FINE.share => FRONT_USUAL,
            _ => 1.0,
        };
        let (mut face, mut under) = (Worst::default(), Worst::default());
        for thickness in ["0.03", "0.06", "0.08", "0.1"] {
            let stone = slab(thickness.parse().unwrap_or(f64::NAN), 1.05, 2150.0, 956.0);
            let cut = if below == "nothing" {
                Cut::new(&[stone], 0.0, grain, Some(0))
            } else {
                Cut::new(&[stone, FLOOR[2]], OUTER_FILM_W_M2_K, grain, Some(0))
            };
            let mut bench = Bench::new(&cut, 0.0, 0.0);
            for row in table.rows_where("below", below).filter(|row| row.text("slab_m") == thickness) {
                let t = row.number("t_s");
                while bench.time_s < t - 1e-9 {
                    bench.push((4.0 * grain.step_s).min(t - bench.time_s), 0.0, Some((0, FLUX_W_M2)));
                }
                let source = "scipy 1.17.1 Radau on a fine grid, tests/reference/assist_dead_time.csv";
                // The underside runs furthest: the tolerance is a share of its rise, at the face as well. What the usual grid is
                // off there is the first heat to arrive: intervals of 1 cm at the coarse end, where the burner enters, smear the
                // front of the wave, by 0.4 K of 6 K five minutes on (7 % of what little has come, 0.6 % of what is under way);
                // on the fine grid it is 0.02 K, and when the front has passed nothing of it is left (see the dead times).
                let within = front * grain.share * row.number("underside_rise_k");
                let name = |part: &str| format!("burner.{part}.{below}.{}", tail(grain));
                let what = |part: &str| {
                    format!(
                        "{}: rise of the {part} of {thickness} m of stone, {t} s after lighting, {below} below",
                        grain.name
                    )
                };
                let outside = Outside::within(row.number("face_rise_k"), within, "K", Status::ReferenceLibrary, source);
                face.add(outside.against(&name("face"), &what("face"), bench.face_c()));
                let outside =
                    Outside::within(row.number("underside_rise_k"), within, "K", Status::ReferenceLibrary, source);
                under.add(outside.against(&name("underside"), &what("underside"), bench.joint_c(0)));
            }
        }
        all.extend(face.into_check());
        all.extend(under.into_check());
    }
    all
}

/// A dome warming up under gas and hot surfaces.
fn dome(grain: Grain) -> Vec<Check> {
    const GAS: (f64, f64) = (12.0, 500.0);
    const EMISSIVITY: f64 = 0.85;
    const SURROUNDINGS_C: f64 = 450.0;
    let fourth = |t_c: f64| {
        let square = (t_c + ZERO_C_K) * (t_c + ZERO_C_K);
        square * square
    };
    let heat = |face_c: f64| {
        GAS.0 * (GAS.1 - face_c) + EMISSIVITY * STEFAN_BOLTZMANN_W_M2_K4 * (fourth(SURROUNDINGS_C) - fourth(face_c))
    };
    let cut = Cut::new(&VAULT, OUTER_FILM_W_M2_K, grain, None);
    let mut bench = Bench::new(&cut, ROOM_C, ROOM_C);
    let mut worst: [Worst; 3] = Default::default();
    for row in Table::read(DOME).rows() {
        let t = row.number("t_s");
        bench.follow_until(t, grain.step_s, heat);
        let columns = [
            ("face", "face_c", "degC", grain.share * 420.0, bench.face_c()),
            ("joint", "interface_c", "degC", grain.share * 420.0, bench.joint_c(0)),
            ("stored", "stored_mj_m2", "MJ/m2", grain.share * row.number("stored_mj_m2"), bench.stored_j_m2() / 1e6),
        ];
        for (slot, (part, column, unit, within, got)) in worst.iter_mut().zip(columns) {
            let source = "scipy 1.17.1 Radau on a fine grid, tests/reference/dome_heating.csv";
            let outside = Outside::within(row.number(column), within, unit, Status::ReferenceLibrary, source);
            slot.add(outside.against(
                &format!("dome.{part}.{}", tail(grain)),
                &format!("{}: {part} of a dome of two layers after {t} s", grain.name),
                got,
            ));
        }
    }
    worst.into_iter().filter_map(Worst::into_check).collect()
}
