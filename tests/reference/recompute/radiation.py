"""Owns view factors, the grey enclosure, the open mouth and the flow through it."""

import re

import numpy as np
from scipy.integrate import dblquad, quad

SIGMA = 5.670374419e-8


def parallel(a, b, c):
    """Two equal parallel rectangles a x b at distance c (Howell C-11)."""
    x, y = a / c, b / c
    first = np.log(np.sqrt((1 + x * x) * (1 + y * y) / (1 + x * x + y * y)))
    along = x * np.sqrt(1 + y * y) * np.arctan(x / np.sqrt(1 + y * y)) + y * np.sqrt(1 + x * x) * np.arctan(y / np.sqrt(1 + x * x))
    return 2 / (np.pi * x * y) * (first + along - x * np.arctan(x) - y * np.arctan(y))


def perpendicular(h, w):
    """Rectangle 1 of length w to rectangle 2 of height h, a common edge of 1 (Howell C-14)."""
    hh, ww = h * h, w * w
    root = np.sqrt(hh + ww)
    log = np.log(
        (1 + ww) * (1 + hh) / (1 + ww + hh)
        * (ww * (1 + ww + hh) / ((1 + ww) * (ww + hh))) ** ww
        * (hh * (1 + hh + ww) / ((1 + hh) * (hh + ww))) ** hh
    )
    return (w * np.arctan(1 / w) + h * np.arctan(1 / h) - root * np.arctan(1 / root) + log / 4) / (np.pi * w)


def coaxial(r1, r2, h):
    """Disk to coaxial parallel disk (Howell C-41)."""
    a, b = r1 / h, r2 / h
    x = 1 + (1 + b * b) / (a * a)
    return 0.5 * (x - np.sqrt(x * x - 4 * (b / a) ** 2))


def to_rectangle(x, y, wide, deep, gap):
    """Floor element at (x, y) from the middle of a parallel rectangle above, by quadrature."""
    f = lambda v, u: gap * gap / (np.pi * ((u - x) ** 2 + (v - y) ** 2 + gap * gap) ** 2)
    return dblquad(f, -wide / 2, wide / 2, -deep / 2, deep / 2, epsabs=1e-9)[0]


def corner_vertical(width, height, distance):
    """Floor element in line with the foot corner of a vertical rectangle at a distance (Howell B-5)."""
    a, b = width / distance, height / distance
    return (np.arctan(a) - np.arctan(a / np.sqrt(1 + b * b)) / np.sqrt(1 + b * b)) / (2 * np.pi)


def to_door(across, distance, wide, high):
    """Floor element to a doorway that stands on the floor, its middle `across` aside, at a distance from its plane."""
    left, right = wide / 2 + across, wide / 2 - across
    part = lambda w: np.sign(w) * corner_vertical(abs(w), high, distance) if w else 0.0
    return part(left) + part(right)


def over_disk(factor, radius):
    """Mean of a factor over a disk, the factor given as f(x, y) from the middle."""
    f = lambda phi, r: r * factor(r * np.cos(phi), r * np.sin(phi))
    return dblquad(f, 0, radius, 0, 2 * np.pi, epsabs=1e-8)[0] / (np.pi * radius * radius)


def numbers(text):
    return [float(n) for n in re.findall(r"\d+(?:\.\d+)?", text)]


def one_factor(geometry, text):
    n = numbers(text)
    if geometry == "parallel rectangles":
        return parallel(1, 1, 1) if "a=b=c" in text else parallel(2, 2, 1) if "gap" in text else parallel(1.2, 0.9, 1)
    if geometry.startswith("floor -> flat crown"):
        return parallel(*n[:3])
    if geometry.startswith("perpendicular"):
        return perpendicular(1, 1) if "H=W" in text else perpendicular(1, 2) if "from W=2" in text else perpendicular(2, 1)
    if geometry == "coaxial disks":
        return coaxial(n[1], n[3], n[4])
    if geometry.startswith("element -> coaxial"):
        return n[0] ** 2 / (n[0] ** 2 + n[1] ** 2)
    if geometry.startswith("spherical-cap dome -> its circular"):
        a, h = n[:2]
        return a * a / (a * a + h * h)
    if geometry.startswith("spherical-cap dome -> itself"):
        a, h = n[:2]
        return h * h / (a * a + h * h)
    if geometry.startswith("within sphere"):
        a, h = n[:2]
        return 0.01 / (4 * np.pi * ((a * a + h * h) / (2 * h)) ** 2)
    if geometry.startswith("disk -> coaxial parallel rectangle"):
        r, wide, deep, gap = n
        spot = lambda u, v: sum(
            np.sign(su * sv) * corner_parallel(abs(su), abs(sv), gap)
            for su in (wide / 2 - u, wide / 2 + u) for sv in (deep / 2 - v, deep / 2 + v))
        return over_disk(spot, r)
    if geometry.startswith("disk on floor -> vertical"):
        r, centre, wide, high = n
        return over_disk(lambda u, v: to_door(u, centre + v, wide, high), r)
    if geometry.startswith("element on floor -> door"):
        return to_door(0.0, 0.6, 0.5, 0.25)
    if geometry.startswith("2-D"):
        w, h = n
        return (np.sqrt(w * w + h * h) - h) / w
    return None


def corner_parallel(a, b, c):
    """Element under the corner of a parallel rectangle a x b at distance c (Howell B-3)."""
    x, y = a / c, b / c
    px, py = np.sqrt(1 + x * x), np.sqrt(1 + y * y)
    return (x / px * np.arctan(y / px) + y / py * np.arctan(x / py)) / (2 * np.pi)


def view_factors(rows):
    """Every row of view_factors.csv."""
    out = []
    for row in rows:
        value = one_factor(row["geometry"], row["parameters"])
        out.append({} if value is None else {"F12": value})
    return out


def aperture_radiation(rows):
    """Heat through the open mouth of a grey cavity."""
    out = []
    for row in rows:
        t, w, h, e, cavity = (float(row[c]) for c in ("Tc_K", "W_m", "H_m", "eps", "A_cav_m2"))
        effective = 1 / (1 + (1 / e - 1) * w * h / cavity)
        black = SIGMA * (t**4 - 293.15**4)
        out.append({"eps_eff": effective, "q_black_W_m2": black, "Q_W": effective * black * w * h})
    return out


def solve_enclosure(areas, factors, emissivities, temperatures, arriving=None):
    """Net heat leaving each grey surface, W. `arriving` is heat from a source that falls on each surface, W."""
    a, f, e = (np.array(v, float) for v in (areas, factors, emissivities))
    eb = SIGMA * np.array(temperatures, float) ** 4
    source = np.zeros(len(a)) if arriving is None else np.array(arriving, float) / a
    j = np.linalg.solve(np.eye(len(a)) - (1 - e)[:, None] * f, e * eb + (1 - e) * source)
    return a * (j - (f @ j + source))


def oven_surfaces(a, h, door):
    """Areas and factors of floor disk, spherical-cap dome and a door that is a patch of the cap."""
    floor, cap = np.pi * a * a, np.pi * (a * a + h * h)
    sphere = 4 * np.pi * ((a * a + h * h) / (2 * h)) ** 2
    areas = np.array([floor, cap - door, door])
    f = np.zeros((3, 3))
    f[0] = [0.0, (cap - door) / cap, door / cap]
    for i in (1, 2):
        f[i] = [areas[0] * f[0][i] / areas[i], areas[1] / sphere, areas[2] / sphere]
    return areas, f


def enclosure(rows):
    """The rows of enclosure.csv whose surfaces are all at known temperatures; compared as first net heat."""
    out = []
    for row in rows:
        n = numbers(row["parameters"])
        if row["case"] == "O1":
            areas, f = oven_surfaces(0.6, 0.45, 0.5 * 0.25)
            q = solve_enclosure(areas, f, [n[1], n[4], 1.0], [n[2], n[5], 293.15])
            out.append({"Q_i_W": ";".join(f"{v:.10g}" for v in q)})
        elif row["case"] == "E1":
            f12 = coaxial(1, 1, 1)
            areas = np.array([np.pi, np.pi, 2 * np.pi])
            f = np.array([[0, f12, 1 - f12], [f12, 0, 1 - f12], [(1 - f12) / 2, (1 - f12) / 2, f12]])
            q = solve_enclosure(areas, f, [0.8, 0.4, 1.0], [700, 500, 400])
            out.append({"Q_i_W": ";".join(f"{v:.10g}" for v in q)})
        elif row["case"] == "2S" and "plates" in row["parameters"]:
            q = SIGMA * (800**4 - 500**4) / (1 / 0.8 + 1 / 0.6 - 1)
            out.append({"Q_i_W": f"{q:.10g};{-q:.10g}"})
        else:
            out.append({})
    return out


def opening_flow(rows):
    """Air in through a mouth, by integrating the profile of velocity, not by the closed form the table was made with."""
    out = []
    for row in rows:
        if not row["item"].startswith(("factor", "mouth")):
            out.append({})
            continue
        cd, tg = float(row["Cd"]), float(row["Tg_K"])
        w, h = (1.0, 1.0) if row["item"].startswith("factor") else numbers(row["item"])[:2]
        inflow, neutral = mouth(cd, w, h, 353 / tg, 353 / 293.15)
        out.append({"m_in_kg_s_or_C": inflow, "zn_over_H": neutral / h})
    return out


def mouth(cd, w, h, rho_g, rho_a):
    """Inflow and height of the neutral plane where in and out balance, by quadrature and bisection."""
    g = 9.80665
    low, high = 0.0, h
    for _ in range(80):
        z = 0.5 * (low + high)
        into = flow(cd, w, rho_a, 2 * g * (rho_a - rho_g) / rho_a, z)
        out = flow(cd, w, rho_g, 2 * g * (rho_a - rho_g) / rho_g, h - z)
        low, high = (z, high) if into < out else (low, z)
    return into, z


def flow(cd, w, rho, twice, reach):
    """Mass through a strip in which the square of the velocity grows in proportion to the distance from the neutral plane."""
    return cd * w * rho * quad(lambda s: np.sqrt(twice * s), 0, reach)[0]
