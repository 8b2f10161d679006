"""Owns the reference cases of our own making: each is a problem of the oven, solved by scipy on a grid far finer than the engine's."""

import numpy as np
from scipy.integrate import quad, solve_ivp
from scipy.sparse import diags
from scipy.special import erf

from radiation import SIGMA, oven_surfaces, solve_enclosure, to_door

# Materials of the cases: conductivity W/mK, density kg/m3, specific heat J/kgK; constant, so that only the numerics are compared.
FIRECLAY = (1.05, 2150.0, 956.0)
SAND = (0.35, 1600.0, 800.0)
CALCIUM_SILICATE = (0.087, 240.0, 840.0)
CONCRETE = (1.40, 2200.0, 900.0)
CASTABLE = (1.60, 2500.0, 1050.0)
BLANKET = (0.10, 128.0, 1100.0)
ROOM = 25.0


class Stack:
    """Layers as finite volumes, fine at every face of a layer."""

    def __init__(self, layers, per_layer=120, spread=2.6):
        widths, k, c = [], [], []
        for thickness, (lk, rho, cp) in layers:
            x = np.tanh(spread * np.linspace(-1, 1, per_layer + 1)) / np.tanh(spread)
            widths.append(np.diff(x) * thickness / 2)
            k.append(np.full(per_layer, lk))
            c.append(np.full(per_layer, rho * cp))
        self.dx, self.k = np.concatenate(widths), np.concatenate(k)
        self.heat = np.concatenate(c) * self.dx
        self.half = self.dx / (2 * self.k)
        self.between = 1 / (self.half[:-1] + self.half[1:])
        self.ends = np.cumsum([per_layer] * len(layers))
        self.depth = np.cumsum(self.dx) - self.dx / 2

    def rate(self, t, temperature, face_in, back_out, at=None, power=0.0):
        """dT/dt with heat entering the face, leaving the back, and a source between two cells."""
        flow = self.between * (temperature[:-1] - temperature[1:])
        gain = np.zeros_like(temperature)
        gain[0] += face_in
        gain[:-1] -= flow
        gain[1:] += flow
        gain[-1] -= back_out
        if at is not None:
            # The source sits on the joint: it splits as the two half cells let it.
            share = self.half[at] / (self.half[at - 1] + self.half[at])
            gain[at - 1] += power * share
            gain[at] += power * (1 - share)
        return gain / self.heat

    def run(self, start, seconds, face, back, at=None, power=0.0):
        """Integrates from `start` for `seconds`; `face` and `back` give flux in and out from the end cells' temperatures."""
        f = lambda t, y: self.rate(t, y, face(y[0]), back(y[-1]), at, power)
        size = len(self.dx)
        pattern = diags([np.ones(size - abs(o)) for o in (-1, 0, 1)], (-1, 0, 1))
        return solve_ivp(f, (0, seconds), start, method="Radau", jac_sparsity=pattern, rtol=1e-8, atol=1e-7).y[:, -1]

    def film(self, h, outside, end=0):
        """Heat in through a film, W/m2, from the cell's own temperature (its half width in series)."""
        u = 1 / (1 / h + self.half[end])
        return lambda cell: u * (outside - cell)

    def stored(self, temperature):
        return float((self.heat * temperature).sum())


def face_of(stack, temperature, flux_in):
    """Temperature of the face itself."""
    return temperature[0] + flux_in * stack.half[0]


# Moments at which a round is laid on the one spot of floor_service.csv, s after the first; a quiet start, a rush, a tail.
LOADS = [0, 420, 780, 1080, 1320, 1530, 1710, 1890, 2070, 2250, 2460, 2700, 3000, 3420, 3900, 4500]
LOAD_S, LOAD_W_M2, HEAT_S = 90.0, -22000.0, 4 * 3600.0
FLOOR = [(0.060, FIRECLAY), (0.010, SAND), (0.080, CALCIUM_SILICATE), (0.100, CONCRETE)]


def floor_service(rows):
    """The multi-layer floor: four hours under a film of 45 W/m2K at 470 degC, then loads of 22 kW/m2 for 90 s."""
    stack = Stack(FLOOR)
    hot, back = stack.film(45.0, 470.0), lambda cell: -stack.film(10.0, ROOM, -1)(cell)
    states = {}
    y = stack.run(np.full(len(stack.dx), ROOM), HEAT_S, hot, back)
    clock = 0.0

    def note(flux):
        states[round(clock)] = (face_of(stack, y, flux), float(np.interp(0.02, stack.depth, y)), stack.stored(y - ROOM) / 1e6)

    note(hot(y[0]))
    for i, start in enumerate(LOADS):
        if start > clock:
            y = stack.run(y, start - clock, hot, back)
            clock = start
            note(hot(y[0]))
        y = stack.run(y, LOAD_S, lambda cell: LOAD_W_M2, back)
        clock += LOAD_S
        note(LOAD_W_M2)
    y = stack.run(y, 6300 - clock, hot, back)
    clock = 6300.0
    note(hot(y[0]))
    return [dict(zip(("face_c", "at_20mm_c", "stored_mj_m2"), states[int(r["t_s"])])) for r in rows]


def assist_dead_time(rows):
    """A burner of 5 kW/m2 under a slab at rest, its face insulated: how late the face rises."""
    out, cache = [], {}
    for row in rows:
        slab, backed, t = float(row["slab_m"]), row["below"] == "insulation", float(row["t_s"])
        key = (slab, backed)
        if key not in cache:
            stack = Stack([(slab, FIRECLAY)] + ([(0.080, CALCIUM_SILICATE)] if backed else []))
            at = stack.ends[0] if backed else None
            cache[key] = (stack, at, np.zeros(len(stack.dx)), 0.0)
        stack, at, y, clock = cache[key]
        none = lambda cell: 0.0
        if backed:
            back = lambda cell, s=stack: -s.film(10.0, 0.0, -1)(cell)
            y = stack.run(y, t - clock, none, back, at, 5000.0)
            near, far = stack.half[at - 1], stack.half[at]
            under = (5000.0 + y[at - 1] / near + y[at] / far) / (1 / near + 1 / far)
        else:
            y = stack.run(y, t - clock, none, lambda cell: -5000.0)
            under = y[-1] + 5000.0 * stack.half[-1]
        cache[key] = (stack, at, y, t)
        out.append({"face_rise_k": float(y[0]), "underside_rise_k": under})
    return out


def lateral_spread(rows):
    """Heat under a load spreads sideways: a row of 0.1 m cells (flat) or rings about a round (round), 60 mm of fireclay."""
    results = {}
    for shape in ("flat", "round"):
        results[shape] = spread(shape)
    return [{"face_rise_k": results[r["shape"]][(int(r["t_s"]), r["part"])], "column_rise_k": results[r["shape"]][(int(r["t_s"]), r["part"], 0)]} for r in rows]


TIMES = [90, 300, 900, 1800, 3600]


def spread(shape):
    """Finite volumes 2.5 mm wide over 0.6 m; fluxes off the load and all outer faces are nothing."""
    k, rho, cp = FIRECLAY
    nx, wide = 240, 0.0025
    stack = Stack([(0.060, FIRECLAY)], 48, 2.2)
    nz, dz = len(stack.dx), stack.dx
    edges = np.arange(nx + 1) * wide
    area = np.full(nx, wide) if shape == "flat" else np.pi * np.diff(edges**2)
    side = np.ones(nx - 1) if shape == "flat" else 2 * np.pi * edges[1:-1]
    reach = 0.15 if shape == "flat" else 0.165
    heat = np.outer(area, stack.heat)
    loaded = edges[1:] <= reach + 1e-9

    def rate(t, y, flux):
        temperature = y.reshape(nx, nz)
        gain = np.zeros_like(temperature)
        down = stack.between * (temperature[:, :-1] - temperature[:, 1:]) * area[:, None]
        gain[:, :-1] -= down
        gain[:, 1:] += down
        along = k / wide * (temperature[:-1] - temperature[1:]) * side[:, None] * dz[None, :]
        gain[:-1] -= along
        gain[1:] += along
        gain[:, 0] += flux * loaded * area
        return (gain / heat).ravel()

    size = nx * nz
    offsets = [-nz, -1, 0, 1, nz]
    pattern = diags([np.ones(size - abs(o)) for o in offsets], offsets)
    found, y, clock = {}, np.zeros(size), 0
    for t in TIMES:
        flux = -20000.0 if t <= 90 else 0.0
        y = solve_ivp(rate, (clock, t), y, method="BDF", jac_sparsity=pattern, args=(flux,), rtol=1e-6, atol=1e-6).y[:, -1]
        clock = t
        temperature = y.reshape(nx, nz)
        face = temperature[:, 0] + flux * loaded * stack.half[0]
        column = temperature @ dz / dz.sum()
        bands = {f"cell{i}": (0.05 + 0.1 * (i - 1), 0.05 + 0.1 * i) for i in range(1, 5)} | {"cell0": (0, 0.05)} if shape == "flat" else {
            "footprint": (0, 0.165), "ring": (0.165, 0.265)}
        for name, (low, high) in bands.items():
            inside = (edges[:-1] >= low - 1e-9) & (edges[1:] <= high + 1e-9)
            found[(t, name)] = float((face * area)[inside].sum() / area[inside].sum())
            found[(t, name, 0)] = float((column * area)[inside].sum() / area[inside].sum())
    return found


def overlap(half, apart, width):
    """Mean over an interval of half length `half`, its middle `apart` from another's, of that other smeared by a bell curve of `width`."""
    share = lambda x: 0.5 * (erf((half + x) / (width * np.sqrt(2))) + erf((half - x) / (width * np.sqrt(2))))
    return quad(share, apart - half, apart + half, epsabs=1e-12, limit=200, points=[p for p in (half, -half) if abs(p - apart) < half])[0] / (2 * half)


def beside_box(rows):
    """Mean rise of the face under a box that took 20 kW/m2 for 90 s, and under an equal box beside it, on 60 mm of closed stone."""
    k, rho, cp = FIRECLAY
    alpha, thick, effusivity = k / (rho * cp), 0.060, np.sqrt(k * rho * cp)
    # Face after a unit pulse into the face of a closed slab: images of the pulse in both faces (Carslaw & Jaeger, 14.3).
    pulse = lambda t: (1 + 2 * sum(np.exp(-((n * thick) ** 2) / (alpha * t)) for n in range(1, 12))) / (effusivity * np.sqrt(np.pi * t))
    out = []
    for row in rows:
        w, d, apart, t = (float(row[c]) for c in ("width_m", "depth_m", "apart_m", "t_s"))
        along = lambda age: overlap(d / 2, 0.0, np.sqrt(2 * alpha * age))
        across = lambda age, off: overlap(w / 2, off, np.sqrt(2 * alpha * age))
        # Over the root of the age, in which the pulse is even.
        total = lambda off: quad(lambda u: 2 * u * pulse(u * u) * across(u * u, off) * along(u * u), np.sqrt(max(t - 90.0, 1e-9)), np.sqrt(t), epsabs=1e-12)[0]
        out.append({"own_k": -20000.0 * total(0.0), "beside_k": -20000.0 * total(apart)})
    return out


def enclosure_flame(rows):
    """Floor disk, dome cap and doorway with a flame whose radiant heat falls on each in given shares: net heat leaving each."""
    out = []
    for row in rows:
        v = {key: float(row[key]) for key in ("a_m", "rise_m", "door_w_m", "door_h_m", "eps", "floor_c", "dome_c", "room_c", "flame_w", "to_floor", "to_dome")}
        areas, f = oven_surfaces(v["a_m"], v["rise_m"], v["door_w_m"] * v["door_h_m"])
        shares = [v["to_floor"], v["to_dome"], 1 - v["to_floor"] - v["to_dome"]]
        kelvin = [v[n] + 273.15 for n in ("floor_c", "dome_c", "room_c")]
        q = solve_enclosure(areas, f, [v["eps"], v["eps"], 1.0], kelvin, v["flame_w"] * np.array(shares))
        out.append({"floor_gains_w": -q[0], "dome_gains_w": -q[1], "doorway_gains_w": -q[2]})
    return out


def dome_heating(rows):
    """A two-layer dome warmed from inside by gas at 500 degC (12 W/m2K) and by surfaces at 450 degC (emissivity 0.85)."""
    stack = Stack([(0.080, CASTABLE), (0.100, BLANKET)])

    def inside(cell):
        face = cell
        for _ in range(6):
            q = 12.0 * (500.0 - face) + 0.85 * SIGMA * (723.15**4 - (face + 273.15) ** 4)
            face = cell + q * stack.half[0]
        return q

    y, clock, out = np.full(len(stack.dx), ROOM), 0.0, []
    for row in rows:
        t = float(row["t_s"])
        y = stack.run(y, t - clock, inside, lambda cell: -stack.film(10.0, ROOM, -1)(cell))
        clock = t
        shell = -stack.film(10.0, ROOM, -1)(y[-1])
        out.append({"face_c": face_of(stack, y, inside(y[0])), "interface_c": float(y[stack.ends[0] - 1]), "outside_c": ROOM + shell / 10.0,
                    "stored_mj_m2": stack.stored(y - ROOM) / 1e6})
    return out


# Heat of melting at 0 degC, kJ/kg (ASHRAE Handbook - Fundamentals; 333.55 in IAPWS-06).
LATENT = 333.6
# Specific heat of the components, kJ/kgK, in degC: Choi & Okos (1986), read in choi_okos.csv.
CP = {
    "protein": (2.0082, 1.2089e-3, -1.3129e-6), "fat": (1.9842, 1.4733e-3, -4.8008e-6), "carbohydrate": (1.5488, 1.9625e-3, -5.9399e-6),
    "fibre": (1.8459, 1.8306e-3, -4.6509e-6), "ash": (1.0926, 1.8896e-3, -3.6817e-6), "water": (4.1762, -9.0864e-5, 5.4731e-6),
    "cold_water": (4.0817, -5.3062e-3, 9.9516e-4), "ice": (2.0623, 6.0769e-3, 0.0),
}


def cp_of(name, t):
    a, b, c = CP[name]
    return a + b * t + c * t * t


def ice_share(t, freezing, water, protein):
    """Ice over all mass: (water - bound water) (1 - tf/t), bound water 0.4 of the protein (ASHRAE after Miles 1974)."""
    return max(0.0, (water - 0.4 * protein) * (1 - freezing / t)) if t < freezing else 0.0


def ice_tchigeov(t, freezing, water, protein):
    """Ice over all mass after Tchigeov (1979), as the ASHRAE Handbook gives it; no more than all the water."""
    return water * min(1.0, 1.105 / (1 + 0.7138 / np.log(freezing - t + 1))) if t < freezing else 0.0


def frozen_dish(rows):
    """Heat to bring a kilogram from one temperature to another across freezing, with either law of ice."""
    out = []
    for row in rows:
        tchigeov, miles = (frozen_heat(row, law) for law in (ice_tchigeov, ice_share))
        out.append({"heat_tchigeov_kj_kg": tchigeov, "heat_miles_kj_kg": miles})
    return out


def frozen_heat(row, law):
    """Quadrature of the specific heat of what is liquid, frozen and dry, and of the heat of melting at the temperature of melting."""
    x = {n: float(row[n]) for n in ("water", "protein", "fat", "carbohydrate", "fibre", "ash")}
    freezing, low, high = (float(row[n]) for n in ("freezing_c", "from_c", "to_c"))
    ice = lambda t: law(t, freezing, x["water"], x["protein"])
    liquid = lambda t: cp_of("cold_water" if t < 0 else "water", t)
    dry = lambda t: sum(x[n] * cp_of(n, t) for n in ("protein", "fat", "carbohydrate", "fibre", "ash"))
    melting = lambda t: LATENT + quad(lambda u: liquid(u) - cp_of("ice", u), 0, t, epsabs=1e-10)[0]  # Kirchhoff's law
    step = 1e-6
    rate = lambda t: (ice(t - step) - ice(min(t + step, freezing))) / (step + min(step, freezing - t))
    stops = sorted({low, high, *(p for p in (freezing, 0.0) if low < p < high)})
    warming = sum(quad(lambda t: dry(t) + ice(t) * cp_of("ice", t) + (x["water"] - ice(t)) * liquid(t), u, v, epsabs=1e-9)[0]
                  for u, v in zip(stops, stops[1:]))
    last = min(high, freezing - 1e-9)
    thaw = quad(lambda t: rate(t) * melting(t), low, last, epsabs=1e-8, limit=400, points=[freezing - 0.01])[0] if low < freezing else 0.0
    return warming + thaw


def doorway_layers(rows):
    """Out above the neutral plane, in between the interface and the neutral plane and below the interface, by quadrature of the velocity."""
    out = []
    for row in rows:
        cd, w, h, gas, room, neutral, layer = (float(row[c]) for c in ("cd", "width_m", "height_m", "gas_c", "room_c", "neutral_m", "interface_m"))
        rho_g, rho_a = 353 / (gas + 273.15), 353 / (room + 273.15)
        pressure = lambda z: 9.80665 * (rho_a - rho_g) * (z - neutral if z > layer else layer - neutral)
        up = quad(lambda z: np.sqrt(2 * max(pressure(z), 0) / rho_g), neutral, h, epsabs=1e-12)[0]
        down = quad(lambda z: np.sqrt(2 * max(-pressure(z), 0) / rho_a), 0, neutral, points=[layer], epsabs=1e-12)[0]
        out.append({"out_kg_s": cd * w * rho_g * up, "in_kg_s": cd * w * rho_a * down})
    return out


def doorway_factor(rows):
    """Floor element to the doorway, by quadrature over the doorway (not by the closed form)."""
    from scipy.integrate import dblquad

    out = []
    for row in rows:
        x, y, w, h = (float(row[c]) for c in ("across_m", "from_door_m", "width_m", "height_m"))
        f = lambda z, u: y * z / (np.pi * ((u - x) ** 2 + y * y + z * z) ** 2)
        out.append({"factor": dblquad(f, -w / 2, w / 2, 0, h, epsabs=1e-10)[0]})
    return out
