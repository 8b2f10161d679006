//! Owns ovens for the tests of this stage's geometry.

use crate::scenario::{FireSide, FloorReading, FloorShape, Oven};

/// An oven with a doorway of 0.5 x 0.25 m and a bed on a fifth of its floor.
pub(crate) fn oven(shape: FloorShape, width_m: f64, depth_m: f64, dome_rise_m: f64, fire_side: FireSide) -> Oven {
    Oven {
        shape,
        width_m,
        depth_m,
        reading: FloorReading::Gun,
        dome_rise_m,
        door_width_m: 0.5,
        door_height_m: 0.25,
        floor_layers: Vec::new(),
        dome_layers: Vec::new(),
        fire_side,
        bed_share: 0.2,
        emissivity: 0.9,
        smoke_emissivity: 0.2,
        film_factor: 1.0,
        radiant_factor: 1.0,
        stone_k_factor: 1.0,
        entrainment_factor: 1.0,
        door_cd: 0.68,
        room_c: 25.0,
        door_leak_kg_s: 0.004,
        assist: None,
    }
}

/// One of each shape with each fire side.
pub(crate) fn all() -> Vec<Oven> {
    let mut ovens = Vec::new();
    for side in [FireSide::Left, FireSide::Right, FireSide::Rear] {
        ovens.push(oven(FloorShape::Round, 1.4, 1.4, 0.45, side));
        ovens.push(oven(FloorShape::Round, 1.05, 1.05, 0.38, side));
        ovens.push(oven(FloorShape::DeepOval, 1.1, 1.5, 0.45, side));
        ovens.push(oven(FloorShape::Rectangle, 0.9, 1.25, 0.4, side));
    }
    ovens
}
