//! Owns view factors in closed form: the ones the engine uses at the doorway, and the ones its rays are checked against.
//!
//! Forms as in J. R. Howell, A Catalog of Radiation Heat Transfer Configuration Factors, there numbered B-5, C-11, C-14, C-41.

use core::f64::consts::PI;

use super::views::directions;

/// Between two equal rectangles `a` by `b` face to face at a distance `c` (C-11), all m.
#[must_use]
pub fn parallel_rectangles(a: f64, b: f64, c: f64) -> f64 {
    let (x, y) = (a / c, b / c);
    let (xx, yy) = (1.0 + x * x, 1.0 + y * y);
    let (sx, sy) = (xx.sqrt(), yy.sqrt());
    2.0 / (PI * x * y)
        * (libm::log((xx * yy / (1.0 + x * x + y * y)).sqrt())
            + x * sy * libm::atan(x / sy)
            + y * sx * libm::atan(y / sx)
            - x * libm::atan(x)
            - y * libm::atan(y))
}

/// From a rectangle reaching `w` from a common edge of length `l` to one at right angles reaching `h` (C-14), all m.
#[must_use]
pub fn perpendicular_rectangles(w: f64, h: f64, l: f64) -> f64 {
    let (w, h) = (w / l, h / l);
    let (ww, hh) = (w * w, h * h);
    let s = ww + hh;
    let root = s.sqrt();
    let edge = (1.0 + ww) * (1.0 + hh) / (1.0 + s);
    let one = ww * (1.0 + s) / ((1.0 + ww) * s);
    let two = hh * (1.0 + s) / ((1.0 + hh) * s);
    let logs = libm::log(edge) + ww * libm::log(one) + hh * libm::log(two);
    (w * libm::atan(1.0 / w) + h * libm::atan(1.0 / h) - root * libm::atan(1.0 / root) + logs / 4.0) / (PI * w)
}

/// From a disk of radius `r1` to a coaxial one of radius `r2` at a distance `h` (C-41), all m.
#[must_use]
pub fn coaxial_disks(r1: f64, r2: f64, h: f64) -> f64 {
    let (a, b) = (r1 / h, r2 / h);
    let x = 1.0 + (1.0 + b * b) / (a * a);
    (x - (x * x - 4.0 * b * b / (a * a)).sqrt()) / 2.0
}

/// From a spherical-cap dome of rise `h` to its round floor of radius `a`; the floor sees nothing but the dome, so
/// reciprocity gives a^2 / (a^2 + h^2) exactly.
#[must_use]
pub fn cap_to_floor(a: f64, h: f64) -> f64 {
    a * a / (a * a + h * h)
}

/// From any patch to a patch of area `patch_m2` on the same sphere of radius `radius_m`: its share of the sphere.
#[must_use]
pub fn within_sphere(patch_m2: f64, radius_m: f64) -> f64 {
    patch_m2 / (4.0 * PI * radius_m * radius_m)
}

/// From a floor element to an upright rectangle standing on the floor `ahead` of it, from `x0` to `x1` beside it and `h` tall
/// (B-5 for each side of the foot, with sign), all m.
#[must_use]
pub fn element_to_upright(ahead: f64, x0: f64, x1: f64, h: f64) -> f64 {
    if ahead <= 0.0 {
        return 0.0;
    }
    let slant = (h * h + ahead * ahead).sqrt();
    let corner = |x: f64| libm::atan(x / ahead) - ahead / slant * libm::atan(x / slant);
    (corner(x1) - corner(x0)) / (2.0 * PI)
}

/// From a disk lying on the floor, its middle `ahead` of the plane, to an upright rectangle centred before it: the closed
/// element form averaged over `rings` equal-area rings of `4 rings` points; error falls with the square of `rings`.
#[must_use]
pub fn disk_to_upright(radius: f64, ahead: f64, width: f64, height: f64, rings: usize) -> f64 {
    let points = 4 * rings;
    let mut sum = 0.0;
    for i in 0..rings {
        let r = radius * ((i as f64 + 0.5) / rings as f64).sqrt();
        for k in 0..points {
            let (s, c) = libm::sincos((k as f64 + 0.5) * 2.0 * PI / points as f64);
            sum += element_to_upright(ahead + r * c, -width / 2.0 - r * s, width / 2.0 - r * s, height);
        }
    }
    sum / (rings * points) as f64
}

/// The same factor as [`disk_to_upright`] by the rays the engine casts for the floor: it measures what those rays are worth.
#[must_use]
pub fn disk_to_upright_by_rays(radius: f64, ahead: f64, width: f64, height: f64, rays: usize) -> f64 {
    let points = 512;
    // Turns of the golden angle spread the points evenly over the disk.
    let golden = PI * (3.0 - 5.0_f64.sqrt());
    let mut hits = 0_usize;
    for k in 0..points {
        let r = radius * ((k as f64 + 0.5) / points as f64).sqrt();
        let (s, c) = libm::sincos(k as f64 * golden);
        let (px, py) = (r * s, ahead + r * c);
        // Each point sees the directions turned by its own angle, lest all points share their gaps.
        let (ts, tc) = libm::sincos(k as f64 * 1.7);
        for ray in directions(rays) {
            let (dx, dy) = (ray.to[0] * tc - ray.to[1] * ts, ray.to[0] * ts + ray.to[1] * tc);
            if dy < 0.0 {
                let way = -py / dy;
                let inside = (px + way * dx).abs() <= width / 2.0 && way * ray.to[2] <= height;
                hits += usize::from(inside);
            }
        }
    }
    hits as f64 / (points * rays) as f64
}

#[cfg(test)]
mod tests {
    use super::*;

    fn near(value: f64, printed: f64, within: f64) {
        assert!((value - printed).abs() < within, "{value} {printed}");
    }

    #[test]
    fn closed_forms_give_the_published_values() {
        // Howell's catalogue and the tables of Incropera; EES library example for the second.
        near(parallel_rectangles(1.0, 1.0, 1.0), 0.199_824_895_7, 1e-10);
        near(parallel_rectangles(0.1, 0.1, 0.05), 0.415_253_283_6, 1e-10);
        near(parallel_rectangles(1.2, 1.2, 0.45), 0.510_122_239_2, 1e-10);
        near(parallel_rectangles(0.8, 1.2, 0.35), 0.518_708_685_9, 1e-7);
        near(perpendicular_rectangles(1.0, 1.0, 1.0), 0.200_043_776_1, 1e-10);
        near(perpendicular_rectangles(2.0, 1.0, 1.0), 0.116_426_301_4, 1e-10);
        near(perpendicular_rectangles(1.0, 2.0, 1.0), 0.232_852_602_8, 1e-10);
        near(coaxial_disks(1.0, 1.0, 1.0), (3.0 - 5.0_f64.sqrt()) / 2.0, 1e-14);
        near(coaxial_disks(1.0, 2.0, 1.0), 0.763_932_022_5, 1e-10);
        near(coaxial_disks(0.15, 0.6, 0.4), 0.682_938_453_4, 1e-10);
        near(cap_to_floor(0.6, 0.6), 0.5, 1e-15);
        near(cap_to_floor(0.5, 0.3), 0.735_294_117_6, 1e-10);
        near(within_sphere(0.01, 0.625), 0.002_037_183_272, 1e-12);
        near(element_to_upright(0.6, -0.25, 0.25, 0.25), 0.017_781_244_45, 1e-11);
    }

    /// (radius, ahead, width, height, factor): integrated on its own and by four million random rays to 3e-4.
    const DISK_ROWS: [(f64, f64, f64, f64, f64); 4] = [
        (0.15, 0.3, 0.5, 0.25, 0.088_962_003_28),
        (0.15, 0.6, 0.5, 0.25, 0.018_588_958_13),
        (0.15, 0.9, 0.6, 0.3, 0.010_149_933_34),
        (0.165, 0.5, 0.8, 0.35, 0.066_510_947_6),
    ];

    #[test]
    fn disk_to_doorway_agrees_with_double_integration() {
        for (r, ahead, w, h, f) in DISK_ROWS {
            near(disk_to_upright(r, ahead, w, h, 64), f, 2e-6);
            near(disk_to_upright_by_rays(r, ahead, w, h, 1024), f, 3e-4);
        }
    }
}
