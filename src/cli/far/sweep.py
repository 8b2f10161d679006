"""Prints a sweep of an oven as requests for `hearthload batch`: floors by covers by moisture by the morning's warmth.

    python3 src/cli/far/sweep.py demo-data/carries.json 10000 > requests.ndjson
"""

import itertools
import json
import sys

# Ten of each: ten thousand in all.
WIDTHS_CM = range(110, 160, 5)
COVERS = [0.5 + 0.1 * k for k in range(10)]
MOISTURES_PERCENT = range(10, 30, 2)
MORNINGS_C = range(60, 260, 20)


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        base = file.read()
    count = int(sys.argv[2]) if len(sys.argv) > 2 else 10_000
    # The innermost changes fastest: the first few of a sweep already differ in all but the floor.
    sweep = itertools.product(WIDTHS_CM, COVERS, MOISTURES_PERCENT, MORNINGS_C)
    for width_cm, covers, moisture, morning_c in itertools.islice(sweep, count):
        scenario = json.loads(base)
        scenario["oven"]["width_cm"] = width_cm
        scenario["wood"]["meter_percent_dry"] = moisture
        scenario["start"] |= {"floor_c": morning_c, "dome_c": morning_c + 5}
        service = scenario["service"]
        service["covers"] = [round(covers * c, 2) for c in service["covers"]]
        name = f"{width_cm}cm-x{covers:.1f}-{moisture}pc-{morning_c}C"
        print(json.dumps({"id": name, "question": "carry", "scenario": scenario}, separators=(",", ":")))


if __name__ == "__main__":
    main()
