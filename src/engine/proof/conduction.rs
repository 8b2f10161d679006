//! Owns the checks of conduction: the semi-infinite solid (constant temperature, flux, film, trains of loads), the plane wall,
//! steady layers, and the cases integrated by scipy: a floor under a service, a burner's dead time, a dome warming up.

use super::bench::{Bench, Cut, FINE, Grain, MODES, USUAL};
use super::{Check, Outside, Row, Status, Table, Worst};
use crate::numerics::column::Slab;

const SEMI_INFINITE: &str = include_str!("../../../tests/reference/semi_infinite.csv");
const HEISLER: &str = include_str!("../../../tests/reference/heisler.csv");
const CARSLAW: &str = "Carslaw & Jaeger, Conduction of Heat in Solids, 2nd ed. 1959";
/// The hearth brick of cases H1 to H4, thick enough to be semi-infinite for ten minutes (and at 20 loads for an hour).
const BRICK: Slab = Slab { thickness_m: 0.4, k_w_m_k: 1.10, rho_c_j_m3_k: 2_150_000.0 };
const START_C: f64 = 400.0;

/// All of them.
pub fn checks() -> Vec<Check> {
    let table = Table::read(SEMI_INFINITE);
    let mut all = Vec::new();
    for grain in [USUAL, MODES, FINE] {
        all.extend(held_face(&table, grain));
        all.extend(fixed_flux(&table, grain));
        all.extend(film(&table, grain));
        all.extend(loads(&table, grain));
        all.extend(plane_wall(grain));
    }
    all
}

/// An id such as `conduction.held.heat.usual`.
fn id(kind: &str, grain: Grain) -> String {
    format!("conduction.{kind}.{}", grain.name.split(' ').next().unwrap_or_default())
}

/// A tolerance relative to a change that the table itself states, the source the table's section of Carslaw & Jaeger.
fn against(expected: f64, change: f64, grain: Grain, unit: &'static str, section: &str) -> Outside {
    let source = format!("{CARSLAW}, {section}");
    Outside::within(expected, grain.share * change.abs(), unit, Status::Published, &source)
}

/// The face of the brick at 400 degC held at 150 degC.
fn held_face(table: &Table, grain: Grain) -> Vec<Check> {
    const HELD_C: f64 = 150.0;
    let cut = Cut::new(&[BRICK], 0.0, grain, None);
    let mut bench = Bench::new(&cut, START_C, START_C);
    let (mut heat, mut flux, mut depth) = (Worst::default(), Worst::default(), Worst::default());
    // Steps grow with the time that has passed: a held face changes fastest at the start.
    let mut step_s = grain.step_s / 64.0;
    let mut at = f64::NAN;
    for row in table.rows_where("case", "H1") {
        at = if row.text("parameters").starts_with("same") { row.parameter("parameters", "t") } else { at };
        if row.text("parameters").starts_with("hearth") {
            at = row.parameter("parameters", "t");
        }
        if at < 4.0 {
            continue;
        }
        while bench.time_s < at - 1e-9 {
            step_s = (bench.time_s / 100.0).clamp(step_s, grain.step_s);
            let dt = step_s.min(at - bench.time_s);
            bench.hold(dt, HELD_C);
        }
        let value = row.number("value");
        let name = format!("at {at} s");
        match row.text("quantity").chars().next() {
            Some('q') => {
                // The flux of a held face over a short step to either side of the moment.
                let mut copy = bench.clone();
                let dt = at / 32.0;
                let ahead = copy.hold_over(dt, HELD_C);
                let exact = value * 2.0 * ((1.0 + dt / at).sqrt() - 1.0) / (dt / at);
                let outside = against(exact, exact, grain, "W/m2", "2.4");
                flux.add(outside.against(
                    &id("held.flux", grain),
                    &format!("{}: flux out of a held face {name}", grain.name),
                    -ahead,
                ));
            }
            Some('Q') => {
                let outside = against(value, value, grain, "kJ/m2", "2.4");
                let got = -bench.entered_j_m2 / 1000.0;
                heat.add(outside.against(
                    &id("held.heat", grain),
                    &format!("{}: heat out of a held face {name}", grain.name),
                    got,
                ));
            }
            _ => {
                let outside = against(value, START_C - HELD_C, grain, "degC", "2.4");
                let what = format!("{}: 10 mm under a held face {name}", grain.name);
                depth.add(outside.against(&id("held.depth", grain), &what, bench.at_c(0.01)));
            }
        }
    }
    [heat, flux, depth].into_iter().filter_map(Worst::into_check).collect()
}

/// Change of the face in a case of the table at the time of a row: what a depth's tolerance is a share of, whatever the engine makes of it.
fn face_change(table: &Table, case: &str, driven_by: (&str, f64), t: f64, start_c: f64) -> f64 {
    let (name, value) = driven_by;
    let at_face = |row: &Row<'_>| {
        let parameter = |name: &str| row.parameter("parameters", name);
        near(parameter(name), value) && near(parameter("t"), t) && near(parameter("x"), 0.0)
    };
    table.rows_where("case", case).find(at_face).map_or(f64::NAN, |row| row.number("value") - start_c)
}

/// Constant flux out of the brick, at the face and at two depths.
fn fixed_flux(table: &Table, grain: Grain) -> Vec<Check> {
    let mut all = Vec::new();
    let cut = Cut::new(&[BRICK], 0.0, grain, None);
    for flux in [-20_000.0, -50_000.0] {
        for depth_m in [0.0, 0.005, 0.02] {
            let mut worst = Worst::default();
            let mut bench = Bench::new(&cut, START_C, START_C);
            let same = |row: &Row<'_>| {
                near(row.parameter("parameters", "q"), flux) && near(row.parameter("parameters", "x"), depth_m)
            };
            for row in table.rows_where("case", "H2").filter(same) {
                let t = row.parameter("parameters", "t");
                bench.flux_until(t, grain.step_s, flux);
                let change = face_change(table, "H2", ("q", flux), t, START_C);
                let outside = against(row.number("value"), change, grain, "degC", "2.9");
                let what =
                    format!("{}: {} mm deep after {t} s of {} kW/m2", grain.name, 1000.0 * depth_m, flux / 1000.0);
                let name = format!("flux.{}kw.{}mm", -flux / 1000.0, 1000.0 * depth_m);
                worst.add(outside.against(&id(&name, grain), &what, bench.at_c(depth_m)));
            }
            all.extend(worst.into_check());
        }
    }
    all
}

/// A film to 700 degC on the brick at 250 degC.
fn film(table: &Table, grain: Grain) -> Vec<Check> {
    let mut all = Vec::new();
    let cut = Cut::new(&[BRICK], 0.0, grain, None);
    for h in [15.0, 60.0, 150.0] {
        for depth_m in [0.0, 0.01, 0.03] {
            let mut worst = Worst::default();
            let mut bench = Bench::new(&cut, 250.0, 250.0);
            let same = |row: &Row<'_>| {
                near(row.parameter("parameters", "h"), h) && near(row.parameter("parameters", "x"), depth_m)
            };
            for row in table.rows_where("case", "H3").filter(same) {
                let t = row.parameter("parameters", "t");
                bench.follow_until(t, grain.step_s, |face_c| h * (700.0 - face_c));
                let change = face_change(table, "H3", ("h", h), t, 250.0);
                let outside = against(row.number("value"), change, grain, "degC", "2.7");
                let what = format!("{}: {} mm deep after {t} s under {h} W/m2K", grain.name, 1000.0 * depth_m);
                let name = format!("film.{h}.{}mm", 1000.0 * depth_m);
                worst.add(outside.against(&id(&name, grain), &what, bench.at_c(depth_m)));
            }
            all.extend(worst.into_check());
        }
    }
    all
}

/// Trains of loads on the brick, nothing given back between them.
fn loads(table: &Table, grain: Grain) -> Vec<Check> {
    let cut = Cut::new(&[BRICK], 0.0, grain, None);
    let (mut all, mut bench) = (Vec::new(), Bench::new(&cut, 0.0, 0.0));
    let (mut q, mut on, mut period, mut done) = (f64::NAN, f64::NAN, f64::NAN, 0);
    let (mut end, mut before) = (Worst::default(), Worst::default());
    for row in table.rows_where("case", "H4") {
        let parameters = row.text("parameters");
        let pulse: usize = parameters.rsplit("pulse ").next().and_then(|n| n.parse().ok()).unwrap_or(0);
        if parameters.starts_with("hearth") {
            (q, on, period) = (
                row.parameter("parameters", "q"),
                row.parameter("parameters", "ton"),
                row.parameter("parameters", "P"),
            );
            if pulse == 1 {
                bench = Bench::new(&cut, 0.0, 0.0);
                done = 0;
                all.extend(std::mem::take(&mut end).into_check());
                all.extend(std::mem::take(&mut before).into_check());
            }
        }
        // Run the loads that come before this one whole, then this one to its end, then to the next.
        while done + 1 < pulse {
            bench.flux_until(done as f64 * period + on, grain.step_s, -q);
            done += 1;
            bench.flux_until(done as f64 * period, grain.step_s, 0.0);
        }
        let name = format!("loads.{}kw.{on}s.{period}s", q / 1000.0);
        let outside = against(row.number("value"), row.number("value"), grain, "K", "2.9, by superposition");
        if row.text("quantity") == "drop at end of pulse" {
            bench.flux_until(done as f64 * period + on, grain.step_s, -q);
            let what = format!("{}: face at the end of load {pulse} of a train", grain.name);
            end.add(outside.against(&id(&format!("{name}.end"), grain), &what, -bench.face_c()));
        } else {
            done += 1;
            bench.flux_until(done as f64 * period, grain.step_s, 0.0);
            let what = format!("{}: face just before the load after load {pulse} of a train", grain.name);
            before.add(outside.against(&id(&format!("{name}.before"), grain), &what, -bench.face_c()));
        }
    }
    all.extend(end.into_check());
    all.extend(before.into_check());
    all
}

/// A plane wall behind a film, its far face insulated: middle, face and share of heat, by Biot number.
fn plane_wall(grain: Grain) -> Vec<Check> {
    // 60 mm of fireclay; only Biot and Fourier numbers matter.
    const WALL: Slab = Slab { thickness_m: 0.06, k_w_m_k: 1.05, rho_c_j_m3_k: 2150.0 * 956.0 };
    let diffusivity = WALL.k_w_m_k / WALL.rho_c_j_m3_k;
    let table = Table::read(HEISLER);
    let mut all = Vec::new();
    let cut = Cut::new(&[WALL], 0.0, grain, None);
    for bi in ["0.1", "0.2", "0.5", "1", "2", "5", "10"] {
        let mut worst = Worst::default();
        let h = bi.parse::<f64>().unwrap_or(f64::NAN) * WALL.k_w_m_k / WALL.thickness_m;
        let mut bench = Bench::new(&cut, 1.0, 0.0);
        for row in
            table.rows_where("case", "SER").filter(|row| row.text("parameters").starts_with(&format!("Bi={bi};")))
        {
            let fo = row.parameter("parameters", "Fo");
            let t = fo * WALL.thickness_m * WALL.thickness_m / diffusivity;
            bench.follow_until(t, grain.step_s, |face| -h * face);
            let got = match row.text("quantity") {
                "theta(0)" => bench.joint_c(0),
                "theta(L)" => bench.face_c(),
                _ => 1.0 - bench.mean_c(),
            };
            let outside = Outside::within(
                row.number("value"),
                grain.share,
                "-",
                Status::Published,
                &format!("{CARSLAW}, 3.11 (series of 60 terms)"),
            );
            let what =
                format!("{}: wall of Biot number {bi}, {} at Fourier number {fo}", grain.name, row.text("quantity"));
            worst.add(outside.against(&id(&format!("wall.bi{bi}"), grain), &what, got));
        }
        all.extend(worst.into_check());
    }
    all
}

/// Equal to a millionth.
fn near(a: f64, b: f64) -> bool {
    (a - b).abs() <= 1e-6 * b.abs().max(1e-3)
}
