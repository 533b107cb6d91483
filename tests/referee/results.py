"""Record the largest differences of the whole walk, by rule, in a file that the docs show.

``python -m referee.results FILES``, run in ``tests``, writes it from the results of the chunks.
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
#: A difference measured again equals the recorded one to within its last digit (mm).
SAME = 1.01e-4

#: Choices that no pattern of a family can have while it passes every check, whatever the cure.
IMPOSSIBLE: dict[str, tuple[walk.Target, ...]] = {}


def kept() -> dict[str, tuple[int, float, float]]:
    """Read, by rule, the number of patterns and the largest excess of closed form and of solid."""
    with KEPT.open(newline="", encoding="utf-8") as file:
        return {
            row["rule"]: (int(row["patterns"]), float(row[HEAD[2]]), float(row[HEAD[3]]))
            for row in csv.DictReader(file)
        }


def worse_than_kept(compared: Iterable[dict[str, Any]]) -> dict[str, tuple[float, float]]:
    """Return the rules with a larger difference than recorded, in either direction."""
    known = kept()
    found = {}
    for rule, row in worst(Compared(**c) for c in compared).items():
        _, over, under = known.get(rule, (0, 0.0, 0.0))
        if row["over"] > over + SAME or row["under"] > under + SAME:
            found[rule] = (row["over"], row["under"])
    return found


def write(files: Iterable[str]) -> None:
    """Record the largest differences of all chunks."""
    chunks = [json.loads(Path(file).read_text("utf-8")) for file in files]
    rows = worst(Compared(**c) for chunk in chunks for c in chunk["compared"])
    with KEPT.open("w", newline="", encoding="utf-8") as file:
        out = csv.writer(file, lineterminator="\n")
        out.writerow(HEAD)
        for rule, row in sorted(rows.items()):
            out.writerow((rule, row["patterns"], f"{row['over']:.4f}", f"{row['under']:.4f}"))


if __name__ == "__main__":
    write(sys.argv[1:])
