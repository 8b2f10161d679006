//! Owns the two-way flow through the doorway and the height of the hot layer: plume, outflow and inflow solved together.
//!
//! out = 2/3 Cd W sqrt(2 g rho_g (rho_a - rho_g)) (H - z_n)^1.5,
//! in  = 2/3 Cd W sqrt(2 g rho_a (rho_a - rho_g)) (z_n - z_i)^0.5 (z_n + z_i/2) (Rockett, J. A. (1976) Combust. Sci. Technol.
//! 12:165-175, from memory), and the plume lifts what flows in: plume(z_i) = out. Plume: Heskestad's, below and above the
//! flame's tip (SFPE Handbook, Fire Plumes); a fire at a wall lifts half of what one twice as large would in the open.

use crate::matter::smoke::DENSITY_KELVIN_KG_K_M3;
use crate::numerics::root::bisect;
use crate::units::GRAVITY_M_S2;

/// Least difference to the room at which the doorway is taken to breathe, K.
const LEAST_RISE_K: f64 = 1.0;

/// The doorway and the room beyond it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Doorway {
    /// Width, m.
    pub width_m: f64,
    /// Height, m.
    pub height_m: f64,
    /// Discharge coefficient.
    pub cd: f64,
    /// Room, K.
    pub room_k: f64,
}

/// What drives the plume.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Plume {
    /// Convective heat of fire and hot floor, W.
    pub convective_w: f64,
    /// All heat of the flame, W: it sets the flame's length.
    pub flame_w: f64,
    /// Diameter of the bed taken as round, m.
    pub bed_diameter_m: f64,
    /// Factor on the entrainment.
    pub factor: f64,
}

/// The flow as it settles.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Flow {
    /// Into the oven, kg/s.
    pub in_kg_s: f64,
    /// Out of the oven, kg/s.
    pub out_kg_s: f64,
    /// Height of the layer's underside, m.
    pub interface_m: f64,
    /// Height of no flow in the doorway, m.
    pub neutral_m: f64,
}

/// Heskestad's plume over a fire in the open: what of it does not change with the height.
struct Rising {
    convective_kw: f64,
    flame_m: f64,
    origin_m: f64,
    cube: f64,
}

impl Rising {
    fn new(convective_w: f64, flame_w: f64, diameter_m: f64) -> Self {
        let (convective_kw, flame_kw) = (convective_w / 1000.0, flame_w / 1000.0);
        let power = libm::pow(flame_kw.max(0.0), 0.4);
        Self {
            convective_kw,
            flame_m: 0.235 * power - 1.02 * diameter_m,
            origin_m: 0.083 * power - 1.02 * diameter_m,
            cube: libm::cbrt(convective_kw),
        }
    }

    fn kg_s(&self, z_m: f64) -> f64 {
        if self.convective_kw <= 0.0 {
            return 0.0;
        }
        if z_m < self.flame_m {
            return 0.005_6 * self.convective_kw * z_m / self.flame_m;
        }
        let rise = (z_m - self.origin_m).max(0.0);
        0.071 * self.cube * libm::pow(rise, 5.0 / 3.0) + 0.001_92 * self.convective_kw
    }
}

/// Heskestad's plume over a fire in the open at height `z_m`, kg/s.
#[must_use]
pub fn open_plume_kg_s(z_m: f64, convective_w: f64, flame_w: f64, diameter_m: f64) -> f64 {
    Rising::new(convective_w, flame_w, diameter_m).kg_s(z_m)
}

impl Plume {
    /// It stands against a wall: half of one twice as large.
    fn rising(&self) -> Rising {
        Rising::new(2.0 * self.convective_w, 2.0 * self.flame_w, self.bed_diameter_m)
    }
}

/// The plume of a fire against a wall, with the entrainment factor, kg/s.
#[must_use]
pub fn wall_plume_kg_s(z_m: f64, plume: &Plume) -> f64 {
    0.5 * plume.factor * plume.rising().kg_s(z_m)
}

/// Outflow above the neutral height, kg/s.
#[must_use]
pub fn out_kg_s(door: &Doorway, gas_k: f64, neutral_m: f64) -> f64 {
    let (rho_a, rho_g) = (DENSITY_KELVIN_KG_K_M3 / door.room_k, DENSITY_KELVIN_KG_K_M3 / gas_k);
    let head = (door.height_m - neutral_m).max(0.0);
    2.0 / 3.0 * door.cd * door.width_m * (2.0 * GRAVITY_M_S2 * rho_g * (rho_a - rho_g)).sqrt() * head * head.sqrt()
}

/// Inflow below the neutral height under a layer whose underside is at `interface_m`, kg/s.
#[must_use]
pub fn in_kg_s(door: &Doorway, gas_k: f64, neutral_m: f64, interface_m: f64) -> f64 {
    let (rho_a, rho_g) = (DENSITY_KELVIN_KG_K_M3 / door.room_k, DENSITY_KELVIN_KG_K_M3 / gas_k);
    let shape = (neutral_m - interface_m).max(0.0).sqrt() * (neutral_m + 0.5 * interface_m);
    2.0 / 3.0 * door.cd * door.width_m * (2.0 * GRAVITY_M_S2 * rho_a * (rho_a - rho_g)).sqrt() * shape
}

/// Height of the layer's underside that lets `wanted_kg_s` in. With x = z_i/z_n, (1 - x)(1 + x/2)^2 = r^2 is a cubic whose root in
/// 0..1 is x = 2 cos(acos(1 - 2 r^2)/3) - 1.
fn interface_m(door: &Doorway, gas_k: f64, neutral_m: f64, wanted_kg_s: f64) -> f64 {
    let most = in_kg_s(door, gas_k, neutral_m, 0.0);
    let r = (wanted_kg_s / most).clamp(0.0, 1.0);
    let x = 2.0 * libm::cos(libm::acos(1.0 - 2.0 * r * r) / 3.0) - 1.0;
    neutral_m * x.clamp(0.0, 1.0)
}

/// Height of no flow when the oven is hot to the floor: where inflow and outflow balance with no layer.
#[must_use]
pub fn mixed_neutral_m(door: &Doorway, gas_k: f64, fuel_kg_s: f64) -> f64 {
    let balance = |z: f64| in_kg_s(door, gas_k, z, 0.0) + fuel_kg_s - out_kg_s(door, gas_k, z);
    bisect(0.0, door.height_m, 1e-7 * door.height_m, balance)
}

/// Solves plume, outflow and inflow together for a layer at `gas_k`.
#[must_use]
pub fn settle(door: &Doorway, gas_k: f64, plume: &Plume, fuel_kg_s: f64) -> Flow {
    let gas_k = gas_k.max(door.room_k + LEAST_RISE_K);
    let least_m = mixed_neutral_m(door, gas_k, fuel_kg_s);
    let interface_at = |z_n: f64| interface_m(door, gas_k, z_n, (out_kg_s(door, gas_k, z_n) - fuel_kg_s).max(0.0));
    let rising = plume.rising();
    let risen = |z_m: f64| 0.5 * plume.factor * rising.kg_s(z_m);
    let lacking = |z_n: f64| risen(interface_at(z_n)) - out_kg_s(door, gas_k, z_n);
    let neutral_m =
        if lacking(least_m) >= 0.0 { least_m } else { bisect(least_m, door.height_m, 1e-7 * door.height_m, lacking) };
    let out = out_kg_s(door, gas_k, neutral_m);
    Flow {
        in_kg_s: (out - fuel_kg_s).max(0.0),
        out_kg_s: out.max(fuel_kg_s),
        interface_m: interface_at(neutral_m),
        neutral_m,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const DOOR: Doorway = Doorway { width_m: 0.5, height_m: 0.25, cd: 0.68, room_k: 293.15 };

    #[test]
    fn a_well_mixed_oven_breathes_as_the_closed_form_says() {
        // Half a metre by a quarter at 400 degC: 0.0321 kg/s (tests/reference/opening_flow.csv, Karlsson & Quintiere form).
        let z = mixed_neutral_m(&DOOR, 673.15, 0.0);
        assert!((in_kg_s(&DOOR, 673.15, z, 0.0) - 0.0321).abs() < 0.000_1, "{} at {z}", in_kg_s(&DOOR, 673.15, z, 0.0));
        assert!((z / 0.25 - 0.4312).abs() < 0.001);
    }

    #[test]
    fn a_small_fire_lets_less_air_through_than_the_doorway_could() {
        let plume = Plume { convective_w: 8_000.0, flame_w: 12_000.0, bed_diameter_m: 0.35, factor: 0.6 };
        let flow = settle(&DOOR, 650.0, &plume, 0.0008);
        assert!(flow.interface_m > 0.0 && flow.interface_m < flow.neutral_m && flow.neutral_m < 0.25);
        assert!(flow.in_kg_s < 0.0321);
        assert!((wall_plume_kg_s(flow.interface_m, &plume) / flow.out_kg_s - 1.0).abs() < 1e-4);
        assert!((in_kg_s(&DOOR, 650.0, flow.neutral_m, flow.interface_m) / flow.in_kg_s - 1.0).abs() < 1e-4);
    }

    #[test]
    fn with_no_fire_the_hot_floor_still_draws_air() {
        let plume = Plume { convective_w: 1_500.0, flame_w: 0.0, bed_diameter_m: 0.4, factor: 0.6 };
        let flow = settle(&DOOR, 520.0, &plume, 0.0);
        assert!((0.005..0.02).contains(&flow.in_kg_s), "{flow:?}");
    }
}
