"""Owns queues and packing: M/M/c by Erlang's recursion, M/D/c by its embedded chain, disks in a circle by feasibility."""

import math

import numpy as np
from scipy.stats import poisson


def erlang_c(rows):
    """M/M/c in units of the mean service time, by the direct sum (not the recursion the table was made with)."""
    out = []
    for row in rows:
        try:
            c, a = int(row["c"]), float(row["a"])
        except ValueError:
            out.append({})
            continue
        if a >= c:
            out.append({})
            continue
        tail = a**c / math.factorial(c) * c / (c - a)
        wait = tail / (sum(a**k / math.factorial(k) for k in range(c)) + tail)
        out.append({"erlang_C_Pwait": wait, "Lq": wait * a / (c - a), "Wq_mu": wait / (c - a)} if row["kind"] == "grid" else {})
    return out


def mdc_wait(c, a, states=1500):
    """Mean wait of M/D/c in units of the service time: Q(t + D) = max(Q(t) - c, 0) + arrivals in D (Crommelin 1932)."""
    arrivals = poisson.pmf(np.arange(states), a)
    p = np.zeros(states)
    p[0] = 1.0
    for _ in range(200000):
        start = np.zeros(states)
        start[0] = p[: c + 1].sum()
        start[1 : states - c] = p[c + 1 :]
        new = np.convolve(start, arrivals)[:states]
        if np.abs(new - p).sum() < 1e-13:
            break
        p = new
    n = np.arange(states)
    return float((np.maximum(n - c, 0) * p).sum() / a)


def waiting_mdc(rows):
    """Every row of waiting_mdc.csv."""
    return [{"Wq": mdc_wait(int(r["c"]), int(r["c"]) * float(r["rho"]), 400)} for r in rows]


def circle_in_circle(rows):
    """Radii that have a closed form."""
    s, r = math.sin, math.pi
    ring = lambda n: 1 + 1 / s(r / n)
    closed = {1: 1, 2: 2, 3: 1 + 2 / math.sqrt(3), 4: 1 + math.sqrt(2), 5: 1 + math.sqrt(2 * (1 + 1 / math.sqrt(5))), 6: 3, 7: 3, 8: ring(7),
              9: 1 + math.sqrt(2 * (2 + math.sqrt(2))), 19: 1 + math.sqrt(2) + math.sqrt(6), 18: 1 + math.sqrt(2) + math.sqrt(6), 13: 2 + math.sqrt(5)}
    return [{"R_over_r": closed[int(row["N"])]} if int(row["N"]) in closed else {} for row in rows]
