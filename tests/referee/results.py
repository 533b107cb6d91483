"""The worst differences the whole walk found, by rule: kept in a file the docs show.

Written again from the chunks' findings by ``python -m referee.results FILES``, run in ``tests``.
"""

from __future__ import annotations

import csv
import json
import sys
from collections.abc import Iterable
from pathlib import Path
from typing import Any

from referee import walk
from referee.campaign import Compared, worst

KEPT = Path(__file__).parents[2] / "docs" / "referee.csv"
HEAD = ("rule", "patterns", "closed_form_more", "solid_more")
#: Measured again, a difference equals the kept one to within its last figure (mm).
SAME = 1.01e-4

#: Choices a family's bow cannot have with numbers that pass every check, and that no cure reaches.
IMPOSSIBLE: dict[str, tuple[walk.Target, ...]] = {}


def kept() -> dict[str, tuple[int, float, float]]:
    """By rule: how many patterns, by how much the closed form was more at most, and the solid."""
    with KEPT.open(newline="", encoding="utf-8") as file:
        return {
            row["rule"]: (int(row["patterns"]), float(row[HEAD[2]]), float(row[HEAD[3]]))
            for row in csv.DictReader(file)
        }


def worse_than_kept(compared: Iterable[dict[str, Any]]) -> dict[str, tuple[float, float]]:
    """Rules with a greater difference than is kept, either way."""
    known = kept()
    found = {}
    for rule, row in worst(Compared(**c) for c in compared).items():
        _, over, under = known.get(rule, (0, 0.0, 0.0))
        if row["over"] > over + SAME or row["under"] > under + SAME:
            found[rule] = (row["over"], row["under"])
    return found


def write(files: Iterable[str]) -> None:
    """Keep the worst of all chunks."""
    chunks = [json.loads(Path(file).read_text("utf-8")) for file in files]
    rows = worst(Compared(**c) for chunk in chunks for c in chunk["compared"])
    with KEPT.open("w", newline="", encoding="utf-8") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(HEAD)
        for rule, row in sorted(rows.items()):
            out.writerow((rule, row["patterns"], f"{row['over']:.4f}", f"{row['under']:.4f}"))


if __name__ == "__main__":
    write(sys.argv[1:])
