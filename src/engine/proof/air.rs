//! Owns the checks of the air in the oven: films over hot plates, and the radiation of the smoke.

use super::{Check, Outside, Status, Table, Worst, ovens};
use crate::hearth::chamber::free_film_w_m2_k;
use crate::hearth::enclosure::{Enclosure, Faces, Net};
use crate::matter::smoke;
use crate::sure::unknowns::{Range, UNKNOWNS};
use crate::units::{GRAVITY_M_S2, STEFAN_BOLTZMANN_W_M2_K4, ZERO_C_K};

const FILMS: &str = include_str!("../../../tests/reference/ht_free_convection.csv");
const EMISSIVITY: &str = include_str!("../../../tests/reference/smoke_emissivity.csv");
const GREY: &str = include_str!("../../../tests/reference/grey_gas.csv");

/// All of them.
pub fn checks() -> Vec<Check> {
    let mut all = films();
    all.extend(smoke_alone());
    all.extend(grey_gas());
    all
}

/// Nusselt number of the engine's film at a Rayleigh number: the plate's length is chosen to give it.
fn nusselt(rayleigh: f64, surface_c: f64, air_c: f64) -> f64 {
    let film_k = 0.5 * (surface_c + air_c) + ZERO_C_K;
    let air = smoke::air(film_k - ZERO_C_K);
    let nu = air.kinematic_m2_s();
    let by_cube = GRAVITY_M_S2 / film_k * (surface_c - air_c) * air.prandtl / (nu * nu);
    let length_m = libm::cbrt(rayleigh / by_cube);
    free_film_w_m2_k(surface_c + ZERO_C_K, air_c + ZERO_C_K) * length_m / air.k_w_m_k
}

/// McAdams' rule for a hot plate facing up, and how far other rules lie from it: the range that is shown for it must hold them.
fn films() -> Vec<Check> {
    let table = Table::read(FILMS);
    let (mut own, mut others) = (Worst::default(), Worst::default());
    // From here on the rule is the turbulent one, which the engine takes throughout.
    for row in table.rows().filter(|row| row.number("Ra") > 1e7) {
        let rayleigh = row.number("Ra");
        let got = nusselt(rayleigh, 350.0, 60.0);
        let source = "McAdams, Heat Transmission, 3rd ed. 1954, by ht 1.2.0, tests/reference/ht_free_convection.csv";
        let outside = Outside::relative(row.number("Nu_hor_McAdams"), 1e-4, "-", Status::Published, source);
        own.add(outside.against("film.mcadams", &format!("Nusselt number over a hot plate at Ra {rayleigh:.0e}"), got));
        for (column, name) in [("Nu_hor_VDI", "VDI Heat Atlas"), ("Nu_hor_Rohsenow", "Rohsenow")] {
            let range = UNKNOWNS.iter().find(|unknown| unknown.key == "film").map(|unknown| unknown.range);
            let Some(Range::Times(low, high)) = range else { continue };
            let ratio = row.number(column) / got;
            let source = format!("{name}'s rule by ht 1.2.0 over the engine's film: the range of --sure is to hold it");
            let outside = Outside::between(low, high, "-", Status::ReferenceLibrary, &source);
            others.add(outside.against("film.range", &format!("{name}'s film over ours at Ra {rayleigh:.0e}"), ratio));
        }
    }
    [own, others].into_iter().filter_map(Worst::into_check).collect()
}

/// The smoke's emissivity that is taken where nothing is said, against smoke without soot and with some.
fn smoke_alone() -> Option<Check> {
    /// What soot may add. From memory (thin, not quite clean smoke).
    const SOOT: f64 = 0.1;
    let taken = ovens::measured_oven()?.oven.smoke_emissivity;
    let table = Table::read(EMISSIVITY);
    let mut worst = Worst::default();
    for row in table.rows() {
        let gas = row.number("emissivity");
        let source =
            "gases by Smith, Shen, Friedman (1982) over Hottel's mean beam, soot up to 0.1 more (all recalled)";
        let outside = Outside::between(gas, gas + SOOT, "-", Status::FromMemory, source);
        let what = format!(
            "emissivity taken for smoke under a dome {} m wide at {} times the air it needs",
            row.text("width_m"),
            row.text("lambda")
        );
        worst.add(outside.against("smoke.emissivity", &what, taken));
    }
    worst.into_check()
}

/// Grey smoke in a grey oven whose walls are all of one temperature.
fn grey_gas() -> Option<Check> {
    let table = Table::read(GREY);
    let mut worst = Worst::default();
    for row in table.rows() {
        let (wall, gas) = (row.number("wall_emissivity"), row.number("gas_emissivity"));
        let black = |column: &str| {
            let square = row.number(column) * row.number(column);
            STEFAN_BOLTZMANN_W_M2_K4 * square * square
        };
        let got = flux_to_walls(gas, wall, black("gas_k"), black("wall_k"));
        let source = "one gas zone in one grey surface (Hottel & Sarofim 1967), bounces summed by numpy";
        let outside = Outside::relative(row.number("flux_w_m2"), 1e-6, "W/m2", Status::ReferenceLibrary, source);
        let what = format!("net flux from smoke of emissivity {gas} to walls of {wall}");
        worst.add(outside.against("smoke.grey_gas", &what, got));
    }
    worst.into_check()
}

/// Net flux to the walls of a closed oven, W/m2: a flat floor and a dome twice its size, no doorway to speak of.
fn flux_to_walls(gas: f64, wall: f64, gas_black_w_m2: f64, wall_black_w_m2: f64) -> f64 {
    let net = Net {
        cell_area_m2: vec![1.0],
        patch_area_m2: vec![2.0],
        door_area_m2: 1e-9,
        cell_to_patch: vec![1.0],
        cell_to_door: vec![0.0],
        patch_to_patch: vec![0.5],
        patch_to_door: vec![0.0],
        dome_emissivity: wall,
        smoke_emissivity: gas,
    };
    let enclosure = Enclosure::new(net, &[wall]);
    let faces = Faces {
        cell_emission_w_m2: vec![wall * wall_black_w_m2],
        patch_black_w_m2: vec![wall_black_w_m2],
        door_black_w_m2: wall_black_w_m2,
        cell_source_w_m2: vec![0.0],
        patch_source_w_m2: vec![0.0],
        door_source_w: 0.0,
    };
    let (dark, unit) = (enclosure.dark(&faces), enclosure.unit());
    let arriving = |dark: f64, unit: f64| dark + gas_black_w_m2 * unit;
    let at_floor = arriving(dark.cell_w_m2[0], unit.cell_w_m2[0]);
    let at_dome = arriving(dark.patch_w_m2[0], unit.patch_w_m2[0]);
    wall * ((at_floor + 2.0 * at_dome) / 3.0 - wall_black_w_m2)
}
