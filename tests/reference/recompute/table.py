"""Owns the reading and writing of a reference table: a header of `#` lines, a line of column names, rows of text."""

import csv
import io


class Table:
    """A table that keeps its header and its cells as they were written."""

    def __init__(self, path):
        text = path.read_text(encoding="utf-8")
        self.path = path
        self.header = [line for line in text.splitlines() if line.startswith("#")]
        body = [line for line in text.splitlines() if line and not line.startswith("#")]
        reader = csv.DictReader(body)
        self.columns = reader.fieldnames
        self.rows = list(reader)

    def write(self):
        out = io.StringIO()
        for line in self.header:
            out.write(line + "\n")
        writer = csv.DictWriter(out, self.columns, lineterminator="\n")
        writer.writeheader()
        writer.writerows(self.rows)
        self.path.write_text(out.getvalue(), encoding="utf-8")


def parameters(text):
    """`hearth brick;Ti=400;q=-20000;t=10 s` as a dict of numbers (what is no number is left out)."""
    found = {}
    for part in text.replace("(", ";").split(";"):
        if "=" not in part:
            continue
        key, value = part.split("=", 1)
        try:
            found[key.strip().split(" ")[-1]] = float(value.strip().split(" ")[0])
        except ValueError:
            pass
    return found
