"""Recomputes the reference tables and compares them with the committed ones; `--write` writes them."""

import argparse
import importlib.metadata as metadata
import pathlib
import sys
import time

import conduction
import fires
import matter
import oven
import radiation
import waiting
from table import Table

HERE = pathlib.Path(__file__).resolve().parent.parent

# Table, function, relative tolerance, absolute tolerance (in the column's own unit).
JOBS = [
    ("semi_infinite", conduction.semi_infinite, 1e-8, 1e-9),
    ("contact", conduction.contact, 1e-4, 5e-3),
    ("heisler", conduction.heisler, 1e-7, 1e-9),
    ("steady_layers", conduction.steady_layers, 1e-8, 0),
    ("view_factors", radiation.view_factors, 1e-6, 1e-9),
    ("aperture_radiation", radiation.aperture_radiation, 1e-8, 0),
    ("enclosure", radiation.enclosure, 1e-5, 1e-3),
    ("opening_flow", radiation.opening_flow, 1e-6, 1e-9),
    ("choi_okos_values", matter.choi_okos_values, 1e-6, 0),
    ("water_steam", matter.water_steam, 1e-6, 0),
    ("air", matter.air, 1e-6, 1e-6),
    ("air_between", matter.air, 1e-6, 1e-6),
    ("wood_lhv", matter.wood_lhv, 1e-4, 0),
    ("wood_stoich", matter.wood_stoich, 1e-3, 1e-5),
    ("gas_heating_value", matter.gas_heating_value, 1e-5, 0),
    ("flame", matter.flame, 1e-3, 0),
    ("ht_free_convection", matter.ht_free_convection, 1e-8, 0),
    ("erlang_c", waiting.erlang_c, 1e-8, 0),
    ("circle_in_circle", waiting.circle_in_circle, 1e-8, 0),
    ("waiting_mdc", waiting.waiting_mdc, 1e-6, 0),
    ("floor_service", oven.floor_service, 1e-5, 0),
    ("assist_dead_time", oven.assist_dead_time, 1e-4, 1e-3),
    ("lateral_spread", oven.lateral_spread, 1e-3, 2e-3),
    ("beside_box", oven.beside_box, 1e-6, 1e-9),
    ("enclosure_flame", oven.enclosure_flame, 1e-8, 0),
    ("dome_heating", oven.dome_heating, 1e-5, 0),
    ("frozen_dish", oven.frozen_dish, 1e-6, 0),
    ("doorway_layers", oven.doorway_layers, 1e-6, 1e-9),
    ("doorway_factor", oven.doorway_factor, 1e-6, 1e-10),
    ("room_fire", fires.room_fire, 1e-6, 0),
    ("smoke_emissivity", fires.smoke_emissivity, 1e-6, 0),
    ("grey_gas", fires.grey_gas, 1e-8, 0),
]


def numbers(cell):
    return [float(part) for part in str(cell).split(";")]


def compare(table, found, relative, absolute):
    """How many cells were compared, and sentences about those that differ."""
    count, wrong = 0, []
    for at, (row, values) in enumerate(zip(table.rows, found, strict=True)):
        for column, value in values.items():
            given, made = row[column], numbers(value)
            if given == "":
                continue
            count += 1
            for a, b in zip(numbers(given), made, strict=True):
                if abs(a - b) > relative * abs(a) + absolute:
                    wrong.append(f"row {at + 1} {column}: committed {a:.10g}, recomputed {b:.10g}")
    return count, wrong


def main():
    ask = argparse.ArgumentParser()
    ask.add_argument("--write", action="store_true")
    ask.add_argument("--only")
    arguments = ask.parse_args()
    print(", ".join(f"{n} {metadata.version(n)}" for n in ("numpy", "scipy", "mpmath", "CoolProp", "ht", "cantera")))
    failed = 0
    for name, work, relative, absolute in JOBS:
        if arguments.only and arguments.only.removesuffix(".csv") != name:
            continue
        table, began = Table(HERE / f"{name}.csv"), time.monotonic()
        found = work(table.rows)
        if arguments.write:
            for row, values in zip(table.rows, found, strict=True):
                row.update({c: v if isinstance(v, str) else f"{v:.10g}" for c, v in values.items()})
            table.write()
        count, wrong = compare(table, found, relative, absolute)
        failed += bool(wrong) or count == 0
        print(f"{name}: {count} cells, {len(wrong)} differ, {time.monotonic() - began:.1f} s")
        for line in wrong[:5]:
            print("  " + line)
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
