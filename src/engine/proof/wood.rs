//! Owns the checks of firewood: moisture, calorific value, density, air and heat by oxygen.

use super::{Check, Outside, Status, Table, Worst, published};
use crate::hearth::fire;
use crate::matter::wood;

const LHV: &str = include_str!("../../../tests/reference/wood_lhv.csv");
const DENSITY: &str = include_str!("../../../tests/reference/wood_density.csv");
const STOICH: &str = include_str!("../../../tests/reference/wood_stoich.csv");
const STEAM: &str = include_str!("../../../tests/reference/water_steam.csv");

/// All of them.
pub fn checks() -> Vec<Check> {
    let mut all = vec![moisture(), evaporation()];
    all.extend(published_values());
    all.extend(formula());
    all.extend(gravity());
    all.extend(air());
    all.extend(oxygen());
    all
}

/// What a meter shows from water over the whole.
fn moisture() -> Check {
    let table = Table::read(LHV);
    let mut worst = Worst::default();
    for row in table.rows().filter(|row| row.number("M_pct_wet_basis") > 0.0) {
        let wet = row.number("M_pct_wet_basis");
        let outside = Outside::within(
            row.number("u_pct_dry_basis"),
            5e-4,
            "%",
            Status::Consistency,
            "definition, u = 100 M/(100 - M)",
        );
        worst.add(outside.against(
            "wood.moisture",
            &format!("meter reading of wood with {wet} % water over the whole"),
            100.0 * wood::dry_basis(wet / 100.0),
        ));
    }
    worst.into_check().unwrap_or_else(|| {
        Outside::within(0.0, 0.0, "%", Status::Consistency, "").against("wood.moisture", "", f64::NAN)
    })
}

/// Heat that evaporates the water of wood, against the steam tables at 25 degC.
fn evaporation() -> Check {
    let table = Table::read(STEAM);
    let steam = table.rows_where("T_C", "25").next().map_or(f64::NAN, |row| row.number("h_fg_IF97"));
    let outside = Outside::relative(steam, 0.001, "kJ/kg", Status::Standard, "IAPWS-IF97 (iapws 1.5.5)");
    outside.against(
        "wood.evaporation",
        "heat of evaporation at 25 degC that ISO 18125's moisture term stands for",
        wood::EVAPORATION_J_KG / 1000.0,
    )
}

/// A printed list of calorific values by moisture.
struct Printed {
    /// Species of ours; empty for wood of 19 MJ/kg dry.
    key: &'static str,
    source: &'static str,
    unit: &'static str,
    /// One of the unit, J/kg.
    unit_j_kg: f64,
    share: f64,
    /// Water over the whole, %, and the value printed.
    rows: &'static [(f64, f64)],
}

/// The lists that were read.
const PRINTED: [Printed; 3] = [
    Printed {
        key: "beech",
        source: "TFZ Straubing, read second-hand as quoted in a boiler's papers",
        unit: "kWh/kg",
        unit_j_kg: 3.6e6,
        share: 0.01,
        rows: &[(10.0, 4.53), (20.0, 3.97), (30.0, 3.39), (40.0, 2.81), (50.0, 2.22)],
    },
    Printed {
        key: "oak",
        source: "TFZ Straubing, read second-hand as quoted in a boiler's papers",
        unit: "kWh/kg",
        unit_j_kg: 3.6e6,
        share: 0.015,
        rows: &[(0.0, 5.00), (10.0, 4.50), (20.0, 3.92), (30.0, 3.33), (50.0, 2.19)],
    },
    Printed {
        key: "",
        source: "public table of heat of combustion against humidity, 19.00 GJ/t dry",
        unit: "MJ/kg",
        unit_j_kg: 1e6,
        share: 0.005,
        rows: &[(15.0, 15.79), (20.0, 14.72), (30.0, 12.58), (35.0, 11.51), (40.0, 10.44), (60.0, 6.16)],
    },
];

/// The worst moisture of each printed list.
fn published_values() -> Vec<Check> {
    let mut all = Vec::new();
    for list in &PRINTED {
        let dry_j_kg = wood::find(list.key).map_or(19.0e6, |species| species.lhv_dry_j_kg);
        let name = if list.key.is_empty() { "any" } else { list.key };
        let mut worst = Worst::default();
        for &(wet, printed) in list.rows {
            let got = wood::lhv_as_received_j_kg(dry_j_kg, wet / 100.0) / list.unit_j_kg;
            let outside = Outside::relative(printed, list.share, list.unit, Status::Published, list.source);
            let what = format!("net calorific value with {wet} % water over the whole ({name})");
            worst.add(outside.against(&format!("wood.printed.{name}"), &what, got));
        }
        all.extend(worst.into_check());
    }
    all
}

/// The standard's formula, evaluated outside; its text is recalled.
fn formula() -> Option<Check> {
    let table = Table::read(LHV);
    let mut worst = Worst::default();
    for row in table.rows() {
        let (dry, wet) = (row.number("q_net_d_MJ_kg"), row.number("M_pct_wet_basis"));
        let source = "ISO 18125:2017, net calorific value at different bases (equation recalled)";
        let outside = Outside::relative(row.number("q_net_ar_MJ_kg"), 1e-6, "MJ/kg", Status::FromMemory, source);
        let got = wood::lhv_as_received_j_kg(1e6 * dry, wet / 100.0) / 1e6;
        worst.add(outside.against(
            "wood.formula",
            &format!("net calorific value of {dry} MJ/kg dry at {wet} % water"),
            got,
        ));
    }
    worst.into_check()
}

/// Species of ours and of the table, and the column that was read.
const SPECIES: [(&str, &str, &str); 12] = [
    ("oak_white", "white oak (Quercus alba)", "G_b_FIA"),
    ("oak_red", "northern red oak (Quercus rubra)", "G_b_FIA"),
    ("oak_holm", "holm oak (Quercus ilex)", "G_b_GWDD2"),
    ("beech", "European beech (Fagus sylvatica)", "G_b_GWDD2"),
    ("ash", "European ash (Fraxinus excelsior)", "G_b_GWDD2"),
    ("hornbeam", "hornbeam (Carpinus betulus)", "G_b_GWDD2"),
    ("maple_sugar", "sugar maple (Acer saccharum)", "G_b_FIA"),
    ("hickory", "shagbark hickory (Carya ovata)", "G_b_FIA"),
    ("birch", "silver birch (Betula pendula)", "G_b_GWDD2"),
    ("apple", "apple (Malus spp. / Malus domestica)", "G_b_FIA"),
    ("olive", "olive (Olea europaea)", "G_b_GWDD2"),
    ("robinia", "black locust (Robinia pseudoacacia)", "G_b_FIA"),
];

/// Basic specific gravity as kept, and density at 12 % as worked out.
fn gravity() -> Vec<Check> {
    let table = Table::read(DENSITY);
    let (mut kept, mut worked, mut handbook) = (Worst::default(), Worst::default(), Worst::default());
    for (key, species, column) in SPECIES {
        let (Some(ours), Some(row)) = (wood::find(key), table.rows_where("species", species).next()) else { continue };
        let source =
            "USDA FS Res. Note NRS-38 (Miles & Smith 2009); Global Wood Density Database v2 (Fischer et al. 2026)";
        let outside = Outside::within(row.number(column), 0.005, "-", Status::Consistency, source);
        kept.add(outside.against("wood.gravity", &format!("basic specific gravity of {species}"), ours.gravity));
        let density = ours.density_kg_m3(0.12);
        let source = "Wood Handbook ch. 4 shrinkage rule by script (rule recalled)";
        let outside = Outside::relative(row.number("rho_12pct_kg_m3"), 0.005, "kg/m3", Status::FromMemory, source);
        worked.add(outside.against("wood.density", &format!("density of {species} at 12 % on the meter"), density));
        if !row.text("G_12_WH").is_empty() {
            let source = "Wood Handbook FPL-GTR-282 Table 5-3 (recalled)";
            let outside = Outside::relative(1120.0 * row.number("G_12_WH"), 0.08, "kg/m3", Status::FromMemory, source);
            handbook.add(outside.against(
                "wood.density.handbook",
                &format!("density of {species} at 12 % on the meter"),
                density,
            ));
        }
    }
    [kept, worked, handbook].into_iter().filter_map(Worst::into_check).collect()
}

/// Stoichiometric air by moisture, for the typical composition of broadleaved wood.
fn air() -> Option<Check> {
    let table = Table::read(STOICH);
    let mut worst = Worst::default();
    let typical = |fuel: &str| fuel.starts_with("deciduous wood typical (C49 H6.2 O44");
    for row in table.rows().filter(|row| typical(row.text("fuel")) && row.text("lambda") == "1") {
        let wet = row.number("M_wet_frac");
        let source =
            "element balance by script for C 49, H 6.2, O 44, N 0.1, ash 0.5 % (EN ISO 17225-1 Annex B, recalled)";
        let outside = Outside::relative(row.number("Lmin_kg_kg"), 5e-4, "kg/kg", Status::ReferenceLibrary, source);
        worst.add(outside.against(
            "wood.air",
            &format!("stoichiometric air at {} % water", 100.0 * wet),
            wood::AIR_KG_KG_DRY * (1.0 - wet),
        ));
    }
    worst.into_check()
}

/// Heat by oxygen: the engine's constant, and what its wood's calorific value and air together imply.
fn oxygen() -> Vec<Check> {
    /// Oxygen in dry air by mass.
    const OXYGEN_SHARE: f64 = 0.231_4;
    let wood_source = "Dietenberger (2002) Fire Mater. 26:255-267, wood";
    let own = published::within_share("DIETENBERGER", 0.05, "MJ/kg O2", Status::Published, wood_source);
    let lhv = wood::species_or_default("oak_white").lhv_dry_j_kg;
    let implied = lhv / (wood::AIR_KG_KG_DRY * OXYGEN_SHARE) / 1e6;
    let used = published::within_share("DIETENBERGER", 0.02, "MJ/kg O2", Status::Published, wood_source);
    vec![
        own.against(
            "wood.oxygen.implied",
            "heat by oxygen that calorific value and stoichiometric air of dry wood imply",
            implied,
        ),
        used.against(
            "wood.oxygen.used",
            "heat by oxygen with which the fire's air is reckoned",
            fire::HEAT_PER_AIR_J_KG / OXYGEN_SHARE / 1e6,
        ),
    ]
}
