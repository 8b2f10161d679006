//! Owns the checks of stone, insulation and air.

use super::{Check, Outside, Status, Table, Worst};
use crate::matter::{smoke, stone};

const REFRACTORY: &str = include_str!("../../../tests/reference/refractory.csv");
const AIR_BETWEEN: &str = include_str!("../../../tests/reference/air_between.csv");

/// Rows of the table and the material of ours they belong to. Ours were copied from the same sources: what is shown is that they
/// were copied well, not that the sources are right.
const ROWS: [(&str, &str, Status, &str); 10] = [
    ("VDI: Fireclay", "fireclay_dense", Status::Consistency, "VDI Heat Atlas, 2nd ed. 2010, refractories"),
    (
        "VDI: High-duty fireclay",
        "fireclay_high_duty",
        Status::Consistency,
        "VDI Heat Atlas, 2nd ed. 2010, refractories",
    ),
    ("VDI: Mullite", "mullite_brick", Status::Consistency, "VDI Heat Atlas, 2nd ed. 2010, refractories"),
    ("VDI: L1260", "insulating_brick", Status::Consistency, "VDI Heat Atlas, 2nd ed. 2010, refractories"),
    ("ASHRAE fired-clay brick 1600", "fired_clay_tile", Status::Consistency, "ASHRAE Handbook - Fundamentals, masonry"),
    (
        "ASHRAE fired-clay brick 1920",
        "fired_clay_brick",
        Status::Consistency,
        "ASHRAE Handbook - Fundamentals, masonry",
    ),
    ("DIN EN 12524: Tiles, ceramic or porcelain", "ceramic_tile", Status::Consistency, "DIN EN 12524:2000"),
    ("DIN EN 12524: Stone, granite", "granite", Status::Consistency, "DIN EN 12524:2000"),
    ("dense high-alumina castable 60-70 % Al2O3", "castable_dense", Status::FromMemory, "typical of data sheets"),
    (
        "insulating castable (vermiculite/perlite + cement)",
        "castable_insulating",
        Status::FromMemory,
        "typical of data sheets",
    ),
];

/// All of them.
pub fn checks() -> Vec<Check> {
    let mut all = materials();
    all.push(calcium_silicate());
    all.extend(air());
    all
}

/// Effusivity, which decides what a load does to a face, at every temperature of the table.
fn materials() -> Vec<Check> {
    let table = Table::read(REFRACTORY);
    let mut all = Vec::new();
    for (name, key, status, source) in ROWS {
        let Some(ours) = stone::find(key) else { continue };
        let mut worst = Worst::default();
        for row in table.rows_where("material", name) {
            let t = row.number("T_degC");
            let share = if status == Status::FromMemory { 0.05 } else { 5e-4 };
            let outside = Outside::relative(row.number("effusivity"), share, "W s^0.5/(m2 K)", status, source);
            worst.add(outside.against(
                &format!("stone.effusivity.{key}"),
                &format!("effusivity of {} at {t} degC", ours.name),
                ours.effusivity(t),
            ));
        }
        all.extend(worst.into_check());
    }
    all
}

/// Calcium silicate is taken as conductive as the standard allows its type I, to the figures it is kept with.
fn calcium_silicate() -> Check {
    let board = stone::material_or_default("calcium_silicate");
    let most = 0.059_133_48;
    let outside = Outside::relative(
        most,
        0.005,
        "W/(m K)",
        Status::Consistency,
        "ASTM C533, type I at 38 degC mean (most allowed)",
    );
    outside.against("stone.calcium_silicate", "conductivity of calcium silicate board at 38 degC", board.k_w_m_k(38.0))
}

/// Air between the rows it is kept in.
fn air() -> Vec<Check> {
    let table = Table::read(AIR_BETWEEN);
    let names = ["density", "heat capacity", "conductivity", "viscosity", "Prandtl number", "enthalpy above 25 degC"];
    let mut worst: [Worst; 6] = Default::default();
    for row in table.rows() {
        let t = row.number("T_C");
        let air = smoke::air(t);
        let columns = [
            ("rho", "kg/m3", air.density_kg_m3),
            ("cp", "kJ/(kg K)", air.cp_j_kg_k / 1000.0),
            ("k", "W/(m K)", air.k_w_m_k),
            ("mu_uPas", "uPa s", air.viscosity_pa_s * 1e6),
            ("Pr", "-", air.prandtl),
            ("h_above_25C", "kJ/kg", smoke::enthalpy_j_kg(t, 25.0) / 1000.0),
        ];
        for ((slot, name), (column, unit, got)) in worst.iter_mut().zip(names).zip(columns) {
            let source = "CoolProp 8.0.0, dry air (Lemmon 2000; Lemmon & Jacobsen 2004)";
            let outside = Outside::relative(row.number(column), 1e-3, unit, Status::ReferenceLibrary, source);
            slot.add(outside.against(
                &format!("air.{}", name.replace(' ', "_")),
                &format!("{name} of air at {t} degC"),
                got,
            ));
        }
    }
    worst.into_iter().filter_map(Worst::into_check).collect()
}
