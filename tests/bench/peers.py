"""The column problem and the day's queue, solved by what else there is for Python: numpy, numba, scipy's stiff integrator, SimPy.

    peers.py LOADS [--json FILE]      LOADS is our own program (tests/bench/loads.rs); all run in one go, on one core

Every solver is handed our matrix, fluxes and steps, and is held to our answer before its time counts. numba is given its best: several
ways of writing the kernel, with and without fastmath, of which the fastest is taken. Times are
processor time, so that what else runs does not count. Ratios are their time over ours.
"""

import argparse
import json
import math
import subprocess
import time

import numba
import numpy
import scipy
import scipy.integrate
import simpy

GAMMA = 1.0 - 1.0 / math.sqrt(2.0)
REPEATS = 5
# Shares of the ten hours that the slow ones are given.
NUMPY_MINUTES = 20
SCIPY_MINUTES = 20


class Problem:
    """The column problem as ours states it, with its matrix eliminated from the back face forward."""

    def __init__(self, told):
        given = told["problem"]
        self.columns = given["columns"]
        self.capacity = numpy.array(given["capacity_j_m2_k"])
        self.shared_j = numpy.array(given["shared_j_m2_k"])
        self.conductance = numpy.array(given["conductance_w_m2_k"])
        self.film = given["back_film_w_m2_k"]
        self.cell_m2 = given["cell_m2"]
        self.start_k = given["start_k"]
        self.step_s = given["step_s"]
        self.held = given["steps_held"]
        self.minutes = told["minutes"]
        self.nodes = len(self.capacity)
        self.eliminate()

    def eliminate(self):
        per = 1.0 / (GAMMA * self.step_s)
        n = self.nodes
        self.shared = self.shared_j * per
        self.link = self.conductance - self.shared
        self.inertia = self.capacity * per
        self.inertia[:-1] -= self.shared
        self.inertia[1:] -= self.shared
        pivot = self.inertia.copy()
        pivot[:-1] += self.conductance
        pivot[1:] += self.conductance
        pivot[-1] += self.film
        self.upper = numpy.zeros(n)
        for i in range(n - 2, -1, -1):
            self.upper[i] = self.link[i] / pivot[i + 1]
            pivot[i] -= self.upper[i] * self.link[i]
        self.inverse = 1.0 / pivot

    def flux(self, minutes):
        """W/m2 by minute and column."""
        minute, column = numpy.arange(minutes)[:, None], numpy.arange(self.columns)[None, :]
        return -3000.0 + 250.0 * ((7 * column + 5 * minute) % 32)

    def start(self):
        return numpy.full((self.nodes, self.columns), self.start_k)

    def node_updates(self, minutes):
        return minutes * self.held * 2 * self.nodes * self.columns

    def coefficients(self):
        return self.inertia, self.shared, self.link, self.inverse, self.upper


def with_numpy(problem, minutes):
    """The same elimination, one row of columns at a time."""
    inertia, shared, link, inverse, upper = problem.coefficients()
    last = problem.nodes - 1

    def stage(old, new, flux):
        new[last] = inertia[last] * old[last] + shared[last - 1] * old[last - 1]
        for i in range(last - 1, -1, -1):
            row = inertia[i] * old[i] + shared[i] * old[i + 1] + upper[i] * new[i + 1]
            if i > 0:
                row += shared[i - 1] * old[i - 1]
            new[i] = row
        new[0] = (new[0] + flux) * inverse[0]
        for i in range(1, last + 1):
            new[i] = (new[i] + link[i - 1] * new[i - 1]) * inverse[i]

    over, new = problem.start(), problem.start()
    push = (1.0 - GAMMA) / GAMMA
    left = 0.0
    for flux in problem.flux(minutes):
        for _ in range(problem.held):
            stage(over, new, flux)
            first = new[last].sum()
            over = (1.0 - push) * over + push * new
            stage(over, new, flux)
            over, new = new, over
            left += (1.0 - GAMMA) * first + GAMMA * over[last].sum()
    return over[0].copy(), left * problem.film * problem.step_s * problem.cell_m2


def rows(over, new, coefficients, fluxes, held, push, gamma):
    """Row by row over all columns, columns innermost; both stages of a step. Returns the weighted sum of the back."""
    inertia, shared, link, inverse, upper = coefficients
    n, width = over.shape
    last = n - 1
    left = 0.0
    for minute in range(fluxes.shape[0]):
        flux = fluxes[minute]
        for _ in range(held):
            for second in range(2):
                if second == 1:
                    for i in range(n):
                        for j in range(width):
                            over[i, j] = (1.0 - push) * over[i, j] + push * new[i, j]
                a, b = inertia[last], shared[last - 1]
                for j in range(width):
                    new[last, j] = a * over[last, j] + b * over[last - 1, j]
                for i in range(last - 1, 0, -1):
                    a, b, c, d = inertia[i], shared[i - 1], shared[i], upper[i]
                    for j in range(width):
                        new[i, j] = a * over[i, j] + b * over[i - 1, j] + c * over[i + 1, j] + d * new[i + 1, j]
                a, c, d, e = inertia[0], shared[0], upper[0], inverse[0]
                for j in range(width):
                    new[0, j] = (a * over[0, j] + c * over[1, j] + d * new[1, j] + flux[j]) * e
                for i in range(1, n):
                    a, b = link[i - 1], inverse[i]
                    for j in range(width):
                        new[i, j] = (new[i, j] + a * new[i - 1, j]) * b
                total = 0.0
                for j in range(width):
                    total += new[last, j]
                left += total * (gamma if second == 1 else 1.0 - gamma)
            over, new = new, over
    return over, left


def lanes_of(lanes):
    """Writes the kernel that takes so many columns at a time through both sweeps, the row before held in scalars (which is how
    numba is brought to keep it in registers), over one step after another of all columns."""

    def each(text):
        return "\n".join(text.replace("@", str(k)) for k in range(lanes))

    def indent(text, by):
        return "\n".join(" " * by + line for line in text.splitlines())

    source = f"""
def lanes(over, new, coefficients, fluxes, held, push, gamma):
    inertia, shared, link, inverse, upper = coefficients
    n, width = over.shape
    last = n - 1
    left = 0.0
    keep = 1.0 - push
    for minute in range(fluxes.shape[0]):
        flux = fluxes[minute]
        for _ in range(held):
            for j in range(0, width, {lanes}):
                for second in range(2):
                    a, b = inertia[last], shared[last - 1]
{indent(each("o@ = over[last, j + @]; m@ = over[last - 1, j + @]; r@ = a * o@ + b * m@; new[last, j + @] = r@"), 20)}
                    for i in range(last - 1, 0, -1):
                        a, b, c, d = inertia[i], shared[i - 1], shared[i], upper[i]
{indent(each("p@ = over[i - 1, j + @]; r@ = a * m@ + b * p@ + c * o@ + d * r@; o@ = m@; m@ = p@; new[i, j + @] = r@"), 24)}
                    a, c, d, e = inertia[0], shared[0], upper[0], inverse[0]
{indent(each("r@ = (a * m@ + c * o@ + d * r@ + flux[j + @]) * e"), 20)}
                    if second == 0:
{indent(each("over[0, j + @] = keep * over[0, j + @] + push * r@"), 24)}
                        for i in range(1, n):
                            a, b = link[i - 1], inverse[i]
{indent(each("r@ = (new[i, j + @] + a * r@) * b; over[i, j + @] = keep * over[i, j + @] + push * r@"), 28)}
                        weight = 1.0 - gamma
                    else:
{indent(each("over[0, j + @] = r@"), 24)}
                        for i in range(1, n):
                            a, b = link[i - 1], inverse[i]
{indent(each("r@ = (new[i, j + @] + a * r@) * b; over[i, j + @] = r@"), 28)}
                        weight = gamma
                    total = 0.0
{indent(each("total += r@"), 20)}
                    left += total * weight
    return over, left
"""
    made = {}
    exec(source, made)
    return made["lanes"]


def timed(run, repeats=REPEATS):
    best, answer = math.inf, None
    for _ in range(repeats):
        began = time.process_time()
        answer = run()
        best = min(best, time.process_time() - began)
    return best, answer


def numba_kernels():
    # The code is made from text, and so cannot be cached between runs.
    kernels = {"rows": rows, "8 lanes": lanes_of(8), "16 lanes": lanes_of(16)}
    for fast in (False, True):
        for name, kernel in kernels.items():
            yield f"{name}, fastmath {'on' if fast else 'off'}", numba.njit(fastmath=fast, parallel=False)(kernel)


def with_numba(problem, kernel, minutes):
    width = -(-problem.columns // 16) * 16
    fluxes = numpy.zeros((minutes, width))
    fluxes[:, : problem.columns] = problem.flux(minutes)
    push = (1.0 - GAMMA) / GAMMA
    arguments = (problem.coefficients(), fluxes, problem.held, push, GAMMA)

    def run():
        over = numpy.zeros((problem.nodes, width))
        over[:, : problem.columns] = problem.start_k
        return kernel(over, over.copy(), *arguments)

    run()
    seconds, (over, left) = timed(run)
    # Columns that are padding lose nothing and are given nothing, so the sum is that of the real ones.
    return seconds, over[0, : problem.columns], left * problem.film * problem.step_s * problem.cell_m2


def with_scipy(problem, minutes):
    """LSODA, banded, one minute of held flux after another. The heat of an interval lies at its ends there (the lumped form), which
    makes the matrix of the unknowns banded; with ours it would be full."""
    lumped = problem.capacity
    n, width = problem.nodes, problem.columns
    size = n * width
    # Unknowns column by column, so that the band is one wide.
    slope = numpy.zeros((3, size))
    to_next = problem.conductance
    own = numpy.zeros(n)
    own[:-1] -= to_next
    own[1:] -= to_next
    own[-1] -= problem.film
    up = numpy.concatenate(([0.0], to_next)) / numpy.concatenate(([1.0], lumped[:-1]))
    down = numpy.concatenate((to_next, [0.0])) / numpy.concatenate((lumped[1:], [1.0]))
    slope[0], slope[1], slope[2] = numpy.tile(up, width), numpy.tile(own / lumped, width), numpy.tile(down, width)
    links = numpy.append(to_next, 0.0)
    state = numpy.full(size, problem.start_k)
    for flux in problem.flux(minutes):

        def change(_, y):
            t = y.reshape(width, n)
            flow = numpy.empty((width, n))
            flow[:, :-1] = links[:-1] * (t[:, :-1] - t[:, 1:])
            flow[:, -1] = problem.film * t[:, -1]
            gain = -flow
            gain[:, 1:] += flow[:, :-1]
            gain[:, 0] += flux
            return (gain / lumped).ravel()

        done = scipy.integrate.solve_ivp(
            change, (0.0, problem.held * problem.step_s), state, method="LSODA", jac=lambda *_: slope,
            lband=1, uband=1, rtol=1e-6, atol=1e-4, t_eval=[problem.held * problem.step_s],
        )
        state = done.y[:, -1]
    return state.reshape(width, n)[:, 0]


def with_simpy(queue):
    """The day's orders on hands and spots alone: load, bake (turned half way), lift. No heat."""
    world = simpy.Environment()
    hands, spots = simpy.Resource(world, queue["hands"]), simpy.Resource(world, queue["spots"])
    waits = []

    def served(at, bake_s, load_s):
        yield world.timeout(at - world.now)
        with spots.request() as spot:
            yield spot
            with hands.request() as hand:
                yield hand
                waits.append(world.now - at)
                yield world.timeout(load_s)
            turned = queue["turn_s"] > 0.0
            yield world.timeout(bake_s / 2 if turned else bake_s)
            if turned:
                with hands.request() as hand:
                    yield hand
                    yield world.timeout(queue["turn_s"])
                yield world.timeout(bake_s / 2)
            with hands.request() as hand:
                yield hand
                yield world.timeout(queue["lift_s"])

    for at, dish, load_s in queue["orders"]:
        world.process(served(at, queue["bake_s"][dish], load_s))
    world.run()
    return len(waits), sum(waits) / len(waits)


def ours(loads, name):
    return json.loads(subprocess.run([loads, name], check=True, capture_output=True, text=True).stdout)


def same(told, faces, what, within_k):
    off = numpy.abs(faces - told).max()
    if not off <= within_k:
        raise SystemExit(f"peers: {what} is {off:.3g} K off, more than {within_k} K: not the same problem")
    return off


def compare(loads):
    told = ours(loads, "column")
    problem = Problem(told)
    rate = told["node_updates"] / told["seconds"] / 1e9
    found = {"ours_gnode_s": rate}
    print(f"column problem: {problem.columns} columns of {problem.nodes} nodes, {problem.minutes} min in steps of {problem.step_s} s")
    print(f"  {'ours':34} {told['seconds']:9.4f} s  {rate:7.3f} G node updates/s")
    best = math.inf
    for name, kernel in numba_kernels():
        seconds, faces, left = with_numba(problem, kernel, problem.minutes)
        same(numpy.array(told["faces_k"]), faces, f"numba ({name})", 1e-6)
        if not math.isclose(left, told["left_j"], rel_tol=1e-9):
            raise SystemExit(f"peers: numba ({name}) lets {left} J out by the back, we {told['left_j']}")
        best = min(best, seconds)
        line(f"numba, {name}", seconds, problem.node_updates(problem.minutes), told["seconds"])
    found["numba_gnode_s"] = problem.node_updates(problem.minutes) / best / 1e9
    found["numba"] = best / told["seconds"]
    scale = problem.minutes / NUMPY_MINUTES
    # What the shares should come to is what the first numba kernel says after as many minutes.
    _, early, _ = with_numba(problem, numba.njit(rows), NUMPY_MINUTES)
    seconds, (faces, _) = timed(lambda: with_numpy(problem, NUMPY_MINUTES), 2)
    same(early, faces, "numpy", 1e-6)
    line(f"numpy, {NUMPY_MINUTES} min scaled", scale * seconds, problem.node_updates(problem.minutes), told["seconds"])
    found["numpy"] = scale * seconds / told["seconds"]
    scale = problem.minutes / SCIPY_MINUTES
    seconds, faces = timed(lambda: with_scipy(problem, SCIPY_MINUTES), 1)
    off = same(early, faces, "scipy", 1.0)
    line(f"scipy LSODA, {SCIPY_MINUTES} min scaled", scale * seconds, None, told["seconds"])
    print(f"  scipy's faces, lumped and at its own steps, are within {off:.2f} K of ours")
    found["scipy"] = scale * seconds / told["seconds"]
    found.update(queue(loads))
    return found


def queue(loads):
    told = ours(loads, "queue")
    seconds, (count, wait) = timed(lambda: with_simpy(told))
    print(f"the day's queue: {count} orders; SimPy, hands and spots alone {1e3 * seconds:.1f} ms, mean wait {wait:.0f} s")
    print(
        f"  our whole night, {told['our_cells']} cells of stone and the fire beside the queue, {1e3 * told['our_seconds']:.1f} ms in "
        f"{told['our_steps']} steps, mean wait {told['our_mean_wait_s']:.0f} s: {seconds / told['our_seconds']:.2f} x"
    )
    return {"simpy": seconds / told["our_seconds"], "night_ms": 1e3 * told["our_seconds"]}


def line(name, seconds, updates, ours_s):
    rate = f"{updates / seconds / 1e9:7.3f} G node updates/s" if updates else " " * 24
    print(f"  {name:34} {seconds:9.4f} s  {rate}  {seconds / ours_s:9.2f} x ours")


def main():
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("loads", help="our own program")
    arguments.add_argument("--json", help="where the ratios are written")
    asked = arguments.parse_args()
    print(f"numpy {numpy.__version__}, numba {numba.__version__}, scipy {scipy.__version__}, SimPy {simpy.__version__}")
    found = compare(asked.loads)
    if asked.json:
        with open(asked.json, "w", encoding="utf-8") as file:
            json.dump(found, file)


main()
