//! Owns air and smoke: smoke is taken as air, whose nitrogen it mostly is (at twice the air it needs, within 3 % in density).
//!
//! Density from the ideal gas, rho T = 353.1 kg K/m3 at 101.325 kPa; the rest straight between the rows of a reference table
//! (Lemmon et al. 2000; Lemmon & Jacobsen 2004), held beyond 20 and 1000 degC.

use crate::units::ZERO_C_K;

/// Density times absolute temperature of air at 101.325 kPa, kg K/m3: the reference rows give 352.89 to 353.13.
pub const DENSITY_KELVIN_KG_K_M3: f64 = 353.0;
/// What the properties of air are from.
pub const SOURCE: &str = "lemmon_2000";

/// One row of the table.
struct Row {
    t_c: f64,
    cp_j_kg_k: f64,
    k_w_m_k: f64,
    viscosity_upa_s: f64,
    prandtl: f64,
    enthalpy_j_kg: f64,
}

const fn row(t_c: f64, cp_j_kg_k: f64, k_w_m_k: f64, viscosity_upa_s: f64, prandtl: f64, enthalpy_j_kg: f64) -> Row {
    Row { t_c, cp_j_kg_k, k_w_m_k, viscosity_upa_s, prandtl, enthalpy_j_kg }
}

/// Dry air at 101.325 kPa; enthalpy above 25 degC.
const AIR: [Row; 14] = [
    row(20.0, 1_006.144_032, 0.025_873_828_3, 18.205_675_18, 0.707_955_978_4, -5_031.122_161),
    row(50.0, 1_007.430_58, 0.028_082_863_47, 19.635_247_89, 0.704_385_049_1, 25_170.677_01),
    row(100.0, 1_011.233_123, 0.031_619_889_07, 21.896_472_7, 0.700_269_327_8, 75_628.495_46),
    row(150.0, 1_017.128_844, 0.035_000_7, 24.026_903_7, 0.698_227_657_9, 126_328.990_7),
    row(200.0, 1_024.965_476, 0.038_248_616_87, 26.046_118_94, 0.697_969_622_9, 177_373.822_5),
    row(250.0, 1_034.426_637, 0.041_382_465_4, 27.969_789_39, 0.699_153_491_8, 228_852.661_4),
    row(300.0, 1_045.109_091, 0.044_417_606_08, 29.810_633_96, 0.701_419_264, 280_836.846_4),
    row(350.0, 1_056.596_733, 0.047_366_707_41, 31.579_107_03, 0.704_426_867_6, 333_376.967_9),
    row(400.0, 1_068.510_895, 0.050_240_324_57, 33.283_900_33, 0.707_881_775_2, 386_503.592_3),
    row(500.0, 1_092.425_834, 0.055_795_271_67, 36.530_539_74, 0.715_238_122_6, 494_554.889_9),
    row(600.0, 1_115.139_067, 0.061_138_790_27, 39.596_853_43, 0.722_225_578_8, 604_947.693_4),
    row(700.0, 1_135.829_596, 0.066_312_590_16, 42.517_115_71, 0.728_250_822_9, 717_514.649_8),
    row(800.0, 1_154.253_082, 0.071_348_356_99, 45.317_388_56, 0.733_131_604_3, 832_037.709_7),
    row(1000.0, 1_184.717_911, 0.081_099_056_58, 50.634_832_25, 0.739_687_925_4, 1_066_067.152),
];

/// Properties of air at one temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Air {
    /// Density, kg/m3.
    pub density_kg_m3: f64,
    /// Heat capacity, J/(kg K).
    pub cp_j_kg_k: f64,
    /// Conductivity, W/(m K).
    pub k_w_m_k: f64,
    /// Dynamic viscosity, Pa s.
    pub viscosity_pa_s: f64,
    /// Prandtl number.
    pub prandtl: f64,
}

impl Air {
    /// Kinematic viscosity, m2/s.
    #[must_use]
    pub fn kinematic_m2_s(&self) -> f64 {
        self.viscosity_pa_s / self.density_kg_m3
    }
}

/// The row below a temperature and how far on it lies towards the next, 0..1 within the table.
fn place(t_c: f64) -> (usize, f64) {
    let i = AIR[1..AIR.len() - 1].iter().take_while(|row| row.t_c <= t_c).count();
    (i, (t_c - AIR[i].t_c) / (AIR[i + 1].t_c - AIR[i].t_c))
}

/// Density of air or smoke, kg/m3, by the ideal gas.
#[must_use]
pub fn density_kg_m3(t_c: f64) -> f64 {
    DENSITY_KELVIN_KG_K_M3 / (t_c + ZERO_C_K)
}

/// Air at a temperature and 101.325 kPa.
///
/// ```
/// let air = hearthload::matter::smoke::air(300.0);
/// assert!((air.density_kg_m3 - 0.6157).abs() < 0.0005);
/// ```
#[must_use]
pub fn air(t_c: f64) -> Air {
    let (i, share) = place(t_c);
    let share = share.clamp(0.0, 1.0);
    let (low, high) = (&AIR[i], &AIR[i + 1]);
    let between = |a: f64, b: f64| a + share * (b - a);
    Air {
        density_kg_m3: density_kg_m3(t_c),
        cp_j_kg_k: between(low.cp_j_kg_k, high.cp_j_kg_k),
        k_w_m_k: between(low.k_w_m_k, high.k_w_m_k),
        viscosity_pa_s: 1e-6 * between(low.viscosity_upa_s, high.viscosity_upa_s),
        prandtl: between(low.prandtl, high.prandtl),
    }
}

/// Enthalpy above 25 degC, J/kg: straight between the rows, carried on beyond them with the slope of the last two.
fn above_25_j_kg(t_c: f64) -> f64 {
    let (i, share) = place(t_c);
    AIR[i].enthalpy_j_kg + share * (AIR[i + 1].enthalpy_j_kg - AIR[i].enthalpy_j_kg)
}

/// Enthalpy of air or smoke at one temperature above that at another, J/kg. Rises with `t_c` everywhere.
#[must_use]
pub fn enthalpy_j_kg(t_c: f64, above_c: f64) -> f64 {
    above_25_j_kg(t_c) - above_25_j_kg(above_c)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn density_agrees_with_the_reference_rows() {
        // CoolProp 8.0.0, dry air at 101.325 kPa.
        for (t_c, rho) in
            [(20.0, 1.204_575_182), (100.0, 0.945_869_027_1), (400.0, 0.524_188_578_7), (1000.0, 0.277_182_583_1)]
        {
            assert!((density_kg_m3(t_c) / rho - 1.0).abs() < 5e-4, "{t_c}");
        }
    }

    #[test]
    fn enthalpy_is_what_cp_adds_up_to_and_keeps_rising() {
        assert!(enthalpy_j_kg(350.0, 350.0).abs() < 1e-9);
        let mean_cp = enthalpy_j_kg(400.0, 20.0) / 380.0;
        assert!((1020.0..1045.0).contains(&mean_cp), "{mean_cp}");
        let mut last = f64::MIN;
        for t in -20..2000 {
            let now = enthalpy_j_kg(f64::from(t), 20.0);
            assert!(now > last);
            last = now;
        }
    }

    #[test]
    fn air_is_held_outside_its_table() {
        assert_eq!(air(-30.0).k_w_m_k.to_bits(), AIR[0].k_w_m_k.to_bits());
        assert_eq!(air(1500.0).prandtl.to_bits(), AIR[13].prandtl.to_bits());
    }
}
