//! Owns radiation inside the oven: floor cells, dome patches, doorway and the smoke between them, solved as one net.
//!
//! Grey, diffuse surfaces, radiosities J = emission + reflectivity x H with H = F J (Oppenheim's network; Siegel & Howell,
//! Thermal Radiation Heat Transfer, ch. 5). The floor is flat, so its cells do not see each other: they are eliminated and a
//! small system over the dome's patches is left. The smoke is one grey gas: of what crosses the oven it takes its emissivity's
//! share and gives back its own. Sources (flame, coals) are handed in as power by surface. Every exchange is written once, so
//! what one surface loses the others gain to rounding.

use crate::numerics::linear::Lu;

/// View factors and areas of one oven.
#[derive(Clone, Debug, PartialEq)]
pub struct Net {
    /// Area of each floor cell, m2.
    pub cell_area_m2: Vec<f64>,
    /// Area of each dome patch, m2.
    pub patch_area_m2: Vec<f64>,
    /// Area of the doorway, m2.
    pub door_area_m2: f64,
    /// View factors from cells to patches, row by cell.
    pub cell_to_patch: Vec<f64>,
    /// View factors from cells to the doorway.
    pub cell_to_door: Vec<f64>,
    /// View factors from patch to patch, row by patch.
    pub patch_to_patch: Vec<f64>,
    /// View factors from patches to the doorway.
    pub patch_to_door: Vec<f64>,
    /// Emissivity of the dome.
    pub dome_emissivity: f64,
    /// Emissivity (and absorptivity) of the smoke over a crossing.
    pub smoke_emissivity: f64,
}

/// What each surface sends out by itself, W/m2 of its area.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Faces {
    /// Emission of each cell, bare floor and covered tops together.
    pub cell_emission_w_m2: Vec<f64>,
    /// Black emissive power of each patch.
    pub patch_black_w_m2: Vec<f64>,
    /// Black emissive power of the doorway.
    pub door_black_w_m2: f64,
    /// Flame and coals onto each cell.
    pub cell_source_w_m2: Vec<f64>,
    /// Flame and coals onto each patch.
    pub patch_source_w_m2: Vec<f64>,
    /// Flame and coals straight out of the doorway, W.
    pub door_source_w: f64,
}

/// What arrives at each surface.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Light {
    /// On each cell, W/m2.
    pub cell_w_m2: Vec<f64>,
    /// On each patch, W/m2.
    pub patch_w_m2: Vec<f64>,
    /// At the doorway, W/m2.
    pub door_w_m2: f64,
    /// Net gain of the smoke, W.
    pub smoke_w: f64,
}

/// The net with its matrix factored for the present tops.
#[derive(Clone, Debug, PartialEq)]
pub struct Enclosure {
    net: Net,
    /// View factors from patches to cells, row by patch.
    patch_to_cell: Vec<f64>,
    /// View factors from cells to patches, row by patch: cells lie side by side, so that sums over them run on vectors.
    cell_from_patch: Vec<f64>,
    /// Areas times view factors to the doorway, by cell, m2.
    cell_door_m2: Vec<f64>,
    /// Reflectivity of each cell with what lies on it.
    cell_reflectivity: Vec<f64>,
    /// From radiosity of a patch to what arrives at another, by way of the floor too.
    bounce: Vec<f64>,
    lu: Lu,
    /// Answer to smoke of unit emissive power alone.
    unit: Light,
}

impl Enclosure {
    /// Builds the net with all cells bare at `cell_absorptivity`.
    #[must_use]
    pub fn new(net: Net, cell_absorptivity: &[f64]) -> Self {
        let (cells, patches) = (net.cell_area_m2.len(), net.patch_area_m2.len());
        let mut patch_to_cell = vec![0.0; cells * patches];
        for i in 0..cells {
            for k in 0..patches {
                patch_to_cell[k * cells + i] =
                    net.cell_to_patch[i * patches + k] * net.cell_area_m2[i] / net.patch_area_m2[k];
            }
        }
        let mut cell_from_patch = vec![0.0; cells * patches];
        for i in 0..cells {
            for k in 0..patches {
                cell_from_patch[k * cells + i] = net.cell_to_patch[i * patches + k];
            }
        }
        let cell_door_m2 = net.cell_area_m2.iter().zip(&net.cell_to_door).map(|(a, f)| a * f).collect();
        let bounce = net.patch_to_patch.iter().map(|f| (1.0 - net.smoke_emissivity) * f).collect();
        let mut enclosure = Self {
            net,
            patch_to_cell,
            cell_from_patch,
            cell_door_m2,
            cell_reflectivity: vec![0.0; cells],
            bounce,
            lu: Lu::default(),
            unit: Light::default(),
        };
        enclosure.cover(cell_absorptivity);
        enclosure
    }

    /// The net.
    #[must_use]
    pub fn net(&self) -> &Net {
        &self.net
    }

    /// One cell sends back more of what falls on it: by way of it the patches see more of each other.
    fn bounce_more(&mut self, cell: usize, more: f64) {
        let (cells, patches) = (self.net.cell_area_m2.len(), self.net.patch_area_m2.len());
        let to_patch = &self.net.cell_to_patch[cell * patches..(cell + 1) * patches];
        for (k, row) in self.bounce.chunks_exact_mut(patches).enumerate() {
            let weight = more * self.patch_to_cell[k * cells + cell];
            row.iter_mut().zip(to_patch).for_each(|(bounce, f)| *bounce += weight * f);
        }
    }

    /// Takes note of new absorptivities of the cells, of those that changed, and factors the matrix anew.
    pub fn cover(&mut self, cell_absorptivity: &[f64]) {
        let (cells, patches) = (self.net.cell_area_m2.len(), self.net.patch_area_m2.len());
        let clear = 1.0 - self.net.smoke_emissivity;
        for i in 0..cells {
            let more = 1.0 - cell_absorptivity[i] - self.cell_reflectivity[i];
            if more.abs() > 0.0 {
                self.cell_reflectivity[i] = 1.0 - cell_absorptivity[i];
                self.bounce_more(i, clear * clear * more);
            }
        }
        let dull = 1.0 - self.net.dome_emissivity;
        let mut matrix: Vec<f64> = self.bounce.iter().map(|b| -dull * b).collect();
        for k in 0..patches {
            matrix[k * patches + k] += 1.0;
        }
        self.lu = Lu::new(patches, &matrix);
        let dark = Faces {
            cell_emission_w_m2: vec![0.0; cells],
            patch_black_w_m2: vec![0.0; patches],
            door_black_w_m2: 0.0,
            cell_source_w_m2: vec![0.0; cells],
            patch_source_w_m2: vec![0.0; patches],
            door_source_w: 0.0,
        };
        self.unit = self.light(&dark, 1.0);
    }

    /// Solves with dark smoke; the answer to smoke of emissive power `e` is this plus `e` times [`Enclosure::unit`].
    #[must_use]
    pub fn dark(&self, faces: &Faces) -> Light {
        self.light(faces, 0.0)
    }

    /// The answer to smoke of unit emissive power (1 W/m2) and nothing else.
    #[must_use]
    pub fn unit(&self) -> &Light {
        &self.unit
    }

    /// Radiosity of the cells for what arrives at them.
    fn send(&self, from_cell: &mut [f64], emission: &[f64], at_cell: &[f64]) {
        for (((j, e), r), h) in from_cell.iter_mut().zip(emission).zip(&self.cell_reflectivity).zip(at_cell) {
            *j = e + r * h;
        }
    }

    fn light(&self, faces: &Faces, smoke_black: f64) -> Light {
        let net = &self.net;
        let (cells, patches) = (net.cell_area_m2.len(), net.patch_area_m2.len());
        let (clear, glow) = (1.0 - net.smoke_emissivity, net.smoke_emissivity * smoke_black);
        // What arrives at each cell from all but the dome, and what the cell would send out for it alone.
        let through_door = clear * faces.door_black_w_m2;
        let mut at_cell: Vec<f64> = net
            .cell_to_door
            .iter()
            .zip(&faces.cell_source_w_m2)
            .map(|(f, source)| through_door * f + glow + source)
            .collect();
        let mut from_cell = vec![0.0; cells];
        self.send(&mut from_cell, &faces.cell_emission_w_m2, &at_cell);
        let mut right = vec![0.0; patches];
        for (k, r) in right.iter_mut().enumerate() {
            let from_floor = lane_dot(&self.patch_to_cell[k * cells..(k + 1) * cells], &from_cell);
            let from_dome: f64 = self.bounce[k * patches..(k + 1) * patches]
                .iter()
                .zip(&faces.patch_black_w_m2)
                .map(|(b, e)| b * net.dome_emissivity * e)
                .sum();
            let direct = through_door * net.patch_to_door[k] + glow + faces.patch_source_w_m2[k];
            *r = clear * from_floor + from_dome + direct;
        }
        let at_patch = self.lu.solve(&right);
        let from_patch: Vec<f64> = at_patch
            .iter()
            .zip(&faces.patch_black_w_m2)
            .map(|(h, e)| net.dome_emissivity * e + (1.0 - net.dome_emissivity) * h)
            .collect();
        // Two patches at a time: half the way through memory.
        for (k, sent) in from_patch.chunks(2).enumerate() {
            let views = &self.cell_from_patch[2 * k * cells..];
            let (near, far) = (clear * sent[0], clear * sent.get(1).copied().unwrap_or(0.0));
            let next = if sent.len() > 1 { &views[cells..2 * cells] } else { &views[..cells] };
            for ((h, f), g) in at_cell.iter_mut().zip(&views[..cells]).zip(next) {
                *h += near * f + far * g;
            }
        }
        self.send(&mut from_cell, &faces.cell_emission_w_m2, &at_cell);
        let floor_to_door = lane_dot(&self.cell_door_m2, &from_cell);
        let dome_to_door: f64 = (0..patches).map(|k| net.patch_area_m2[k] * net.patch_to_door[k] * from_patch[k]).sum();
        let door_w_m2 = (clear * (floor_to_door + dome_to_door) + faces.door_source_w) / net.door_area_m2 + glow;
        let floor_area: f64 = net.cell_area_m2.iter().sum();
        let sent = lane_dot(&net.cell_area_m2, &from_cell) - floor_area * smoke_black
            + net.patch_area_m2.iter().zip(&from_patch).map(|(a, j)| a * (j - smoke_black)).sum::<f64>()
            + net.door_area_m2 * (faces.door_black_w_m2 - smoke_black);
        Light { cell_w_m2: at_cell, patch_w_m2: at_patch, door_w_m2, smoke_w: net.smoke_emissivity * sent }
    }
}

/// Sum of products over eight running sums: the order is fixed, so every build adds alike, and it runs on vectors.
fn lane_dot(a: &[f64], b: &[f64]) -> f64 {
    let mut sums = [0.0; 8];
    let (a8, b8) = (a.chunks_exact(8), b.chunks_exact(8));
    let rest: f64 = a8.remainder().iter().zip(b8.remainder()).map(|(x, y)| x * y).sum();
    for (x, y) in a8.zip(b8) {
        for lane in 0..8 {
            sums[lane] += x[lane] * y[lane];
        }
    }
    sums.iter().sum::<f64>() + rest
}

#[cfg(test)]
mod tests {
    use super::*;

    const SIGMA: f64 = 5.670_374_419e-8;

    /// A floor disk under a spherical cap with a black doorway that is a patch of the same sphere: all factors are closed
    /// forms (see tests/reference/enclosure.csv, case O1).
    fn cap(floor_emissivity: f64, dome_emissivity: f64) -> Enclosure {
        let (a, h): (f64, f64) = (0.6, 0.45);
        let floor = std::f64::consts::PI * a * a;
        let sphere = std::f64::consts::PI * (a * a + h * h);
        let radius = (a * a + h * h) / (2.0 * h);
        let whole = 4.0 * std::f64::consts::PI * radius * radius;
        let door = 0.125;
        let dome = sphere - door;
        let net = Net {
            cell_area_m2: vec![floor],
            patch_area_m2: vec![dome],
            door_area_m2: door,
            cell_to_patch: vec![dome / sphere],
            cell_to_door: vec![door / sphere],
            patch_to_patch: vec![dome / whole],
            patch_to_door: vec![door / whole],
            dome_emissivity,
            smoke_emissivity: 0.0,
        };
        Enclosure::new(net, &[floor_emissivity])
    }

    #[test]
    fn three_surfaces_exchange_what_the_network_says() {
        // tests/reference/enclosure.csv, O1: Oppenheim network for 673.15 K, 723.15 K and 293.15 K, emissivity 0.9.
        let enclosure = cap(0.9, 0.9);
        let black = |t: f64| SIGMA * t * t * t * t;
        let faces = Faces {
            cell_emission_w_m2: vec![0.9 * black(673.15)],
            patch_black_w_m2: vec![black(723.15)],
            door_black_w_m2: black(293.15),
            cell_source_w_m2: vec![0.0],
            patch_source_w_m2: vec![0.0],
            door_source_w: 0.0,
        };
        let light = enclosure.dark(&faces);
        let floor = 0.9 * (black(673.15) - light.cell_w_m2[0]) * enclosure.net().cell_area_m2[0];
        let door = (faces.door_black_w_m2 - light.door_w_m2) * enclosure.net().door_area_m2;
        // The door's own sphere patch does not see itself in our oven (it is flat): the table's curved one does, a little.
        assert!((floor / -2583.08 - 1.0).abs() < 0.01, "floor {floor}");
        assert!((door / -1537.51 - 1.0).abs() < 0.02, "door {door}");
    }
}
