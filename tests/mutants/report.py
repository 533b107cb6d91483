"""Write the report on the mutants: ``python -m mutants.report ROWS.jsonl... -o result.txt``.

A mutant that was caught once counts as caught: a survivor is judged again when a test has been
written for it, or with more time.
"""

from __future__ import annotations

import argparse
import json
import sys
from collections import Counter
from collections.abc import Sequence
from pathlib import Path

from mutants.run import ASIDE, CAUGHT, STUCK, SURVIVES, Row


def read(files: Sequence[Path]) -> list[Row]:
    """Return one row per mutant, by number: the one that caught it, else the last."""
    found: dict[int, Row] = {}
    for line in (line for file in files for line in file.read_text("utf-8").splitlines()):
        row = Row(**json.loads(line))
        if row.number not in found or found[row.number].verdict != CAUGHT or row.verdict == ASIDE:
            found[row.number] = row
    return [row for _, row in sorted(found.items())]


def report(rows: Sequence[Row], seed: int, count: int) -> str:
    """Return the share caught, in all and by package, the survivors, and those set aside."""
    count_of = Counter(row.verdict for row in rows)
    caught, judged = count_of[CAUGHT] + count_of[STUCK], len(rows) - count_of[ASIDE]
    lines = [
        f"{count} mutants drawn with seed {seed}; {len(rows)} judged: see DEVELOPERS.md, Mutants.",
        "No test that reads a golden file took part. A survivor is one that the tests tried within",
        "their budget of seconds did not catch; more seconds (--budget) may still catch it.",
        "",
        f"{count_of[ASIDE]} set aside: they change nothing a user could see",
        f"{caught} of {judged} others caught ({100 * caught / judged:.0f} %)"
        f", {count_of[STUCK]} of them because the tests never end",
        "",
        "caught, of all but those set aside, by package:",
    ]
    packages = sorted({_package(row) for row in rows})
    for package in packages:
        own = [row for row in rows if _package(row) == package and row.verdict != ASIDE]
        lines.append(f"  {package:<10} {sum(r.verdict != SURVIVES for r in own):3} of {len(own):3}")
    lines += ["", "Survivors:"]
    lines += [line for row in rows if row.verdict == SURVIVES for line in _entry(row)]
    lines += ["", "Set aside:"]
    for row in rows:
        if row.verdict == ASIDE:
            lines += [*_entry(row), f"      because {row.reason}"]
    return "\n".join(lines) + "\n"


def _package(row: Row) -> str:
    return row.file.split("/")[1]


def _entry(row: Row) -> list[str]:
    where = f"{row.number:3} {row.file}:{row.line} ({row.operator})"
    return [where, f"      {row.before}", f"   -> {row.after}"]


def main(argv: Sequence[str]) -> int:
    """Read rows and write the report."""
    parser = argparse.ArgumentParser(description="write the report on the mutants")
    parser.add_argument("rows", type=Path, nargs="+", help="written by mutants.run, oldest first")
    parser.add_argument("--seed", type=int, required=True)
    parser.add_argument("--count", type=int, default=300)
    parser.add_argument("-o", "--output", type=Path, required=True)
    args = parser.parse_args(argv)
    args.output.write_text(report(read(args.rows), args.seed, args.count), "utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
