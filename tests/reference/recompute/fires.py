"""Owns the room with a fire near its wall, the smoke's emissivity and the grey gas in a grey enclosure."""

import numpy as np

from pathlib import Path

from table import Table

SIGMA = 5.670374419e-8
HERE = Path(__file__).resolve().parent.parent
STRIPS = 16


def profile(test):
    """Rows of one test by falling height: height, room, temperatures and speeds across the doorway."""
    rows = [row for row in Table(HERE / "room_fire_profiles.csv").rows if row["test"] == test]
    listed = lambda text: np.array([float(part) for part in text.split(";")]) if text else np.array([])
    return [(float(row["height_m"]), float(row["room_c"]), listed(row["doorway_c"]), listed(row["speed_m_s"])) for row in rows]


def room_fire(rows):
    """Flow out and in, the height of no flow, the layer's underside and the upper temperature."""
    out = []
    for row in rows:
        width, high, levels = float(row["width_m"]), float(row["height_m"]), profile(row["test"])
        doorway = [level for level in levels if len(level[2])]
        strip = width * high / STRIPS
        flows = []
        for height, _, hot, speed in doorway:
            # Cold inflow is cold across: a reading far from its row's median is a slip.
            hot = np.where((speed < 0) & (abs(hot - np.median(hot)) > 100), np.median(hot), hot)
            flows.append((height, 353 / (hot + 273.15) * speed))
        means = [(height, flow.mean()) for height, flow in flows]
        neutral = next(a + (b - a) * u / (u - v) for (a, u), (b, v) in zip(means, means[1:]) if u > 0 >= v)
        room = sorted((height, t) for height, t, _, _ in levels)
        upper = np.mean([t for height, t in room if height > 1.45])
        lower = np.mean([t for height, t in room if height < 1.0])
        half = 0.5 * (upper + lower)
        layer = next(a + (b - a) * (half - t) / (u - t) for (a, t), (b, u) in zip(room, room[1:]) if t < half <= u)
        out.append({"out_kg_s": sum(np.maximum(f, 0).mean() for _, f in flows) * strip,
                    "in_kg_s": sum(np.maximum(-f, 0).mean() for _, f in flows) * strip,
                    "neutral_m": neutral, "layer_m": layer, "upper_c": upper})
    return out


# Absorption, 1/(m atm), and weights in powers of kelvin, for equal pressures of water vapour and carbon dioxide.
GREY = [(0.4303, (5.150e-1, -2.303e-4, 0.9779e-7, -1.494e-11)),
        (7.055, (0.7749e-1, 3.399e-4, -2.297e-7, 3.770e-11)),
        (178.1, (1.907e-1, -1.824e-4, 0.5608e-7, -0.5122e-11))]


def smoke_emissivity(rows):
    """The smoke of wood over the mean beam of a cap."""
    burnt = {row["lambda"]: row for row in Table(HERE / "wood_stoich.csv").rows
             if row["fuel"].startswith("deciduous wood typical (C49 H6.2 O44") and row["M_wet_frac"] == "0.15"}
    out = []
    for row in rows:
        a, h, t = 0.5 * float(row["width_m"]), float(row["rise_m"]), float(row["gas_k"])
        volume = np.pi * h * (3 * a * a + h * h) / 6
        surface = np.pi * a * a + np.pi * (a * a + h * h)
        beam = 3.6 * volume / surface
        gas = burnt[row["lambda"]]
        water = float(gas["H2O_wet"])
        carbon = float(gas["CO2_dry"]) * (1 - water)
        path = (water + carbon) * beam
        emitted = sum(np.polyval(b[::-1], t) * (1 - np.exp(-k * path)) for k, b in GREY)
        out.append({"beam_m": beam, "co2_atm": carbon, "h2o_atm": water, "emissivity": emitted})
    return out


def grey_gas(rows):
    """One gas zone, one grey surface: by summing the bounces, not by the closed form."""
    out = []
    for row in rows:
        gas, wall, tg, tw = (float(row[c]) for c in ("gas_emissivity", "wall_emissivity", "gas_k", "wall_k"))
        clear, sent, arriving = 1 - gas, wall * SIGMA * tw**4, 0.0
        for _ in range(500):
            arriving = gas * SIGMA * tg**4 + clear * (sent + (1 - wall) * arriving)
        out.append({"flux_w_m2": wall * (arriving - SIGMA * tw**4)})
    return out
