//! Owns the squeezing of disks: points pushed apart and off the walls, from starts that never change, until all keep their distance.

use super::packing::Inner;

/// Points aim to stand this much farther apart than they must, so that a settled answer keeps the true distance.
const AIM: f64 = 1.0003;

/// Steps before a start is given up.
const STEPS: usize = 700;

/// Steps after which a start that is still this far from fitting (in distances, summed squares) is given up early.
const CHECK_EVERY: usize = 100;

/// Longest time step; springs have unit stiffness and points unit mass, so beyond about 0.8 it would ring.
const LONGEST: f64 = 0.5;

/// Where points begin.
#[derive(Clone, Copy, Debug)]
pub(super) enum Start<'a> {
    /// Spread over the region by the given turn of an even sequence.
    Spread(usize),
    /// The same, mirrored about the oven's middle line.
    Mirrored(usize),
    /// A packing that fits, and one point more dropped in somewhere.
    Added(&'a [(f64, f64)], usize),
}

/// Points that keep `d` apart inside, if this start leads to such; takes what it costs from `pairs`.
pub(super) fn relax(
    inner: &Inner,
    d: f64,
    wanted: usize,
    start: &Start<'_>,
    pairs: &mut usize,
) -> Option<Vec<(f64, f64)>> {
    let mut points = begin(inner, wanted, start)?;
    let mut speed = vec![(0.0, 0.0); wanted];
    let mut force = vec![(0.0, 0.0); wanted];
    let (mut step, mut blend, mut downhill) = (0.2, 0.1, 0);
    let mut last = f64::INFINITY;
    for turn in 1..=STEPS {
        let cost = inner.step_pairs(wanted);
        if *pairs < cost {
            *pairs = 0;
            return None;
        }
        *pairs -= cost;
        let energy = push_apart(inner, d, &points, &mut force);
        if turn % 10 == 0 && fits(inner, d, &points) {
            return settle(inner, d, points, start);
        }
        if turn % CHECK_EVERY == 0 {
            if energy > 0.7 * last {
                return None;
            }
            last = energy;
        }
        move_points(&mut points, &mut speed, &force, d, &mut step, &mut blend, &mut downhill);
    }
    None
}

/// One step of damped motion that turns its speed towards the force while it goes downhill and stops when it does not.
fn move_points(
    points: &mut [(f64, f64)],
    speed: &mut [(f64, f64)],
    force: &[(f64, f64)],
    d: f64,
    step: &mut f64,
    blend: &mut f64,
    downhill: &mut usize,
) {
    let dot = |p: &[(f64, f64)], q: &[(f64, f64)]| p.iter().zip(q).map(|(a, b)| a.0 * b.0 + a.1 * b.1).sum::<f64>();
    if dot(force, speed) > 0.0 {
        *downhill += 1;
        if *downhill > 5 {
            *step = (*step * 1.1).min(LONGEST);
            *blend *= 0.99;
        }
    } else {
        *downhill = 0;
        *step *= 0.5;
        *blend = 0.1;
        speed.fill((0.0, 0.0));
    }
    for (v, f) in speed.iter_mut().zip(force) {
        *v = (v.0 + *step * f.0, v.1 + *step * f.1);
    }
    let (vv, ff) = (dot(speed, speed), dot(force, force));
    let turn = if ff > 0.0 { *blend * (vv / ff).sqrt() } else { 0.0 };
    let limit = 0.1 * d;
    for ((p, v), f) in points.iter_mut().zip(speed.iter_mut()).zip(force) {
        *v = ((1.0 - *blend) * v.0 + turn * f.0, (1.0 - *blend) * v.1 + turn * f.1);
        p.0 += (*step * v.0).clamp(-limit, limit);
        p.1 += (*step * v.1).clamp(-limit, limit);
    }
}

/// Forces of the overlaps, in units of length, and their energy.
fn push_apart(inner: &Inner, d: f64, points: &[(f64, f64)], force: &mut [(f64, f64)]) -> f64 {
    let aim = AIM * d;
    let mut energy = 0.0;
    for (f, p) in force.iter_mut().zip(points) {
        // Walls are twice as stiff: a point at the wall gives way only one way.
        let (wx, wy) = inner.push(p.0, p.1);
        *f = (2.0 * wx, 2.0 * wy);
        energy += wx * wx + wy * wy;
    }
    for i in 1..points.len() {
        for j in 0..i {
            let (dx, dy) = (points[i].0 - points[j].0, points[i].1 - points[j].1);
            let r2 = dx * dx + dy * dy;
            if r2 < aim * aim {
                let r = r2.sqrt().max(1e-9);
                let by = (aim - r) / r;
                energy += (aim - r) * (aim - r);
                force[i].0 += by * dx;
                force[i].1 += by * dy;
                force[j].0 -= by * dx;
                force[j].1 -= by * dy;
            }
        }
    }
    energy
}

/// Whether all are apart and, once brought inside, still are.
fn fits(inner: &Inner, d: f64, points: &[(f64, f64)]) -> bool {
    let slack = (AIM - 1.0) * d / 2.0;
    let near_inside = points.iter().all(|p| {
        let (x, y) = inner.push(p.0, p.1);
        x.abs() <= slack && y.abs() <= slack
    });
    near_inside && apart(d, points)
}

fn apart(d: f64, points: &[(f64, f64)]) -> bool {
    (1..points.len()).all(|i| {
        (0..i).all(|j| {
            let (dx, dy) = (points[i].0 - points[j].0, points[i].1 - points[j].1);
            dx * dx + dy * dy >= d * d * (1.0 - 1e-12)
        })
    })
}

/// Brings points wholly inside, makes a mirrored answer mirrored to the bit, and checks both again.
fn settle(inner: &Inner, d: f64, mut points: Vec<(f64, f64)>, start: &Start<'_>) -> Option<Vec<(f64, f64)>> {
    if let Start::Mirrored(_) = start {
        mirror_exactly(&mut points);
    }
    for p in &mut points {
        for _ in 0..20 {
            let (x, y) = inner.push(p.0, p.1);
            *p = (p.0 + x, p.1 + y);
        }
    }
    (apart(d, &points) && points.iter().all(|p| inner.contains(p.0, p.1))).then_some(points)
}

/// Mirrored starts hold their pairs side by side after the points on the middle line.
fn mirror_exactly(points: &mut [(f64, f64)]) {
    let on_line = points.len() % 2;
    for p in points.iter_mut().take(on_line) {
        p.0 = 0.0;
    }
    for pair in points[on_line..].chunks_exact_mut(2) {
        let (x, y) = ((pair[0].0 - pair[1].0) / 2.0, (pair[0].1 + pair[1].1) / 2.0);
        pair[0] = (x, y);
        pair[1] = (-x, y);
    }
}

fn begin(inner: &Inner, wanted: usize, start: &Start<'_>) -> Option<Vec<(f64, f64)>> {
    match *start {
        Start::Spread(turn) => spread(inner, wanted, turn),
        Start::Added(best, turn) => {
            let mut points = best.to_vec();
            points.extend(spread(inner, 1, turn)?);
            Some(points)
        }
        Start::Mirrored(turn) => {
            let [x0, x1, ..] = inner.bounds();
            // Only where left and right are alike.
            if (x0 + x1).abs() > 1e-9 {
                return None;
            }
            let mut points: Vec<(f64, f64)> = spread(inner, wanted % 2, turn)?.iter().map(|p| (0.0, p.1)).collect();
            for p in spread(inner, wanted / 2, turn + 1)? {
                points.push((p.0.abs(), p.1));
                points.push((-p.0.abs(), p.1));
            }
            Some(points)
        }
    }
}

/// Points inside from an even sequence (R2: inverse powers of the root of g^3 = g + 1), a stretch further on for each turn.
fn spread(inner: &Inner, count: usize, turn: usize) -> Option<Vec<(f64, f64)>> {
    let [x0, x1, y0, y1] = inner.bounds();
    let mut points = Vec::with_capacity(count);
    for i in 0..200 + 40 * count {
        if points.len() == count {
            break;
        }
        let n = (1 + i + 977 * turn) as f64;
        let (u, v) = (0.754_877_666_246_692_8 * n, 0.569_840_290_998_053_3 * n);
        let (x, y) = (x0 + (u - u.floor()) * (x1 - x0), y0 + (v - v.floor()) * (y1 - y0));
        if inner.contains(x, y) {
            points.push((x, y));
        }
    }
    (points.len() == count).then_some(points)
}
