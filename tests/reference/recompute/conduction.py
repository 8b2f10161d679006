"""Owns the closed forms of conduction: semi-infinite solid, contact, plane wall (Heisler), steady layers."""

import numpy as np
from mpmath import cos, erf, erfc, exp, findroot, mp, mpf, pi, sin, sqrt, tan
from scipy.optimize import brentq

from table import parameters

mp.dps = 30
# The hearth brick of the cases H1 to H4.
K, RHO, CP = mpf("1.10"), mpf(2150), mpf(1000)
ALPHA = K / (RHO * CP)
EFFUSIVITY = sqrt(K * RHO * CP)


def flux_rise(q, k, alpha, x, t):
    """Rise at depth x after a constant flux q has entered for t."""
    x, t = mpf(x), mpf(t)
    return 2 * q / k * sqrt(alpha * t / pi) * exp(-x * x / (4 * alpha * t)) - q * x / k * erfc(x / (2 * sqrt(alpha * t)))


def film_share(k, alpha, h, x, t):
    """(T - Ti) / (Tinf - Ti) at depth x behind a film h."""
    x, t, h = mpf(x), mpf(t), mpf(h)
    root = sqrt(alpha * t)
    return erfc(x / (2 * root)) - exp(h * x / k + h * h * alpha * t / (k * k)) * erfc(x / (2 * root) + h * root / k)


def pulse_drop(q, on, period, n, at):
    """Fall of the face at time `at` after n loads of flux q."""
    total = mpf(0)
    for i in range(n):
        start = mpf(i) * period
        if at > start:
            total += sqrt(at - start)
        if at > start + on:
            total -= sqrt(at - start - on)
    return 2 * q / (EFFUSIVITY * sqrt(pi)) * total


def textbook(case):
    """The textbook cases, inputs as in the table's parameters."""
    if case == "TB1":
        eta = findroot(lambda z: erf(z) - mpf(10) / 25, 0.37)
        return 2 * eta * sqrt(mpf("0.15e-6") * 90 * 86400)
    if case == "TB2":
        eta = findroot(lambda z: erf(z) - mpf(15) / 35, 0.4)
        return 2 * eta * sqrt(mpf("0.52") / (2050 * 1840) * 60 * 86400)
    if case == "TB3":
        return 20 + flux_rise(1250, mpf("0.159"), mpf("1.75e-7"), 0, 1200)
    if case == "TB4":
        return 20 + flux_rise(1250, mpf(237), mpf("9.71e-5"), 0, 1200)
    if case == "TB5":
        return erfc(mpf("0.5")) - exp(mpf(1) + 1) * erfc(mpf("1.5"))
    if case == "TB6":
        return 1 - exp(mpf(1)) * erfc(mpf(1))
    if case == "TB7":
        return 250 + (35 - 250) * erf(mpf("0.025") / (2 * sqrt(mpf("1.4e-5") * 30)))
    if case == "TB8":
        return 35 + flux_rise(mpf("3.2e5"), mpf(45), mpf("1.4e-5"), "0.025", 30)
    if case == "TB9":
        share = mpf(200 - 120) / (200 - 70)
        return findroot(lambda t: film_share(mpf(215), mpf("8.4e-5"), 525, "0.04", t) - share, (3000, 4000), solver="anderson")
    return None


def semi_infinite(rows):
    """Every row of semi_infinite.csv."""
    out, last = [], {}
    for row in rows:
        p = parameters(row["parameters"])
        last = {**last, **p} if row["parameters"].startswith("same") else p
        case, what = row["case"], row["quantity"]
        if case.startswith("TB"):
            value = textbook(case)
        elif case == "H1":
            t = mpf(last["t"])
            value = {
                'q"(t)': K * 250 / sqrt(pi * ALPHA * t),
                "Q": 2 * EFFUSIVITY * 250 * sqrt(t / pi) / 1000,
                "T": 150 + 250 * erf(mpf("0.01") / (2 * sqrt(ALPHA * t))),
            }['q"(t)' if what.startswith('q"') else what[0]]
        elif case == "H2":
            value = 400 + flux_rise(mpf(p["q"]), K, ALPHA, p["x"], p["t"])
        elif case == "H3":
            value = 250 + 450 * film_share(K, ALPHA, p["h"], p["x"], p["t"])
        else:
            n = int(row["parameters"].split("pulse ")[1])
            start = (n - 1) * last["P"]
            at = start + last["ton"] if what == "drop at end of pulse" else start + last["P"]
            value = pulse_drop(last["q"], last["ton"], last["P"], n, at)
        out.append({"value": float(value)})
    return out


def contact(rows):
    """Contact temperature, flux after a second and heat in a minute of two semi-infinite bodies."""
    out = []
    for row in rows:
        t1, e1, t2, e2 = (float(row[c]) for c in ("T1_degC", "e1_Ws0.5_m2K", "T2_degC", "e2"))
        q = (t1 - t2) * e1 * e2 / (e1 + e2) / np.sqrt(np.pi)
        out.append({"T_contact": (e1 * t1 + e2 * t2) / (e1 + e2), "q_at_1s_W_m2": q, "Q_60s_kJ_m2": 2 * q * np.sqrt(60) / 1000})
    return out


def wall(bi, fo, terms=60):
    """theta at the middle, at the face, and the share of heat gone, of a plane wall."""
    zetas = [brentq(lambda z: z * np.tan(z) - bi, n * np.pi + 1e-12, n * np.pi + np.pi / 2 - 1e-12, xtol=1e-14) for n in range(terms)]
    z = np.array(zetas)
    c = 4 * np.sin(z) / (2 * z + np.sin(2 * z))
    decay = c * np.exp(-z * z * fo)
    return {"theta(0)": decay.sum(), "theta(L)": (decay * np.cos(z)).sum(), "Q/Qmax": 1 - (decay * np.sin(z) / z).sum()}


def heisler(rows):
    """The series rows of heisler.csv (the eigenvalues enter them)."""
    out = []
    for row in rows:
        if row["case"] == "SER":
            p = parameters(row["parameters"])
            out.append({"value": wall(p["Bi"], p["Fo"])[row["quantity"]]})
        else:
            out.append({})
    return out


# Thickness and conductivity of the layers of steady_layers.csv, by its names.
LAYERS = {
    "floor 50": [(0.050, 1.05), (0.050, 0.087)],
    "60 mm": [(0.060, 1.05), (0.100, 0.14)],
    "dome": [(0.080, 1.6), (0.100, 0.13)],
}


def steady_layers(rows):
    """Steady flux and interface temperatures, when the layers are known."""
    out = []
    for row in rows:
        layers = next(v for k, v in LAYERS.items() if row["wall"].startswith(k))
        inside = float(row["Th_C"])
        resistance = sum(l / k for l, k in layers) + 0.1
        out.append({"R_m2K_W": resistance, "q_W_m2": (inside - 25) / resistance})
    return out
