"""Measure the time from a saved edit to the new page on disk, with CadQuery loaded. Run it by hand:

    .venv/bin/python tests/page/measure_watch.py

It runs ``draw --watch``, saves edits of one part each and polls the page every few milliseconds:
when does it show the new numbers, and when are all files written and confirmed by the solids?
"""

from __future__ import annotations

import os
import signal
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from templates_gen.parameters.rewrite import set_values
from templates_gen.pipeline import rendering

PATTERN = Path(__file__).parents[2] / "params" / "bass-french.toml"
#: A number of one part each, and its change in each round (mm).
EDITS = {
    "stick.nipple_length": -0.011,
    "heel.rear_leg": 0.013,
    "slide.length": -0.017,
    "frog.hair_mortise_depth": 0.019,
}
ROUNDS = 4
STAMP = "SOLIDS NOT CONFIRMED"


def times(file: Path, page: Path, key: str, by: float) -> tuple[float, float]:
    """Measure the seconds from the save to the new page, and to the whole set."""
    before = page.read_text("utf-8")
    was = float(rendering.read(str(file)).values[key])
    file.write_text(set_values(file.read_text("utf-8"), {key: round(was + by, 4)}), "utf-8")
    start, shown, stamp = time.perf_counter(), 0.0, page.stat().st_mtime_ns
    while time.perf_counter() - start < 60:
        time.sleep(0.005)
        # Read the page only when it changed: reading would slow what is measured.
        if page.stat().st_mtime_ns == stamp:
            continue
        now, stamp = page.read_text("utf-8"), page.stat().st_mtime_ns
        if now != before:
            shown = shown or time.perf_counter() - start
            if STAMP not in now:
                return shown, time.perf_counter() - start
    raise RuntimeError(f"{key}: the page does not change; does a check fail?")


def measured(folder: Path) -> Iterator[tuple[str, list[tuple[float, float]]]]:
    """Yield the times of each edit, round by round; a first round, not counted, warms up."""
    file, page = folder / "measured.toml", folder / "out" / "index.html"
    file.write_text(PATTERN.read_text("utf-8"), "utf-8")
    env = {**os.environ, "XDG_CACHE_HOME": str(folder / "cache"), "PYTHONUNBUFFERED": "1"}
    command = [sys.executable, "-m", "templates_gen", "draw", "--watch", str(file)]
    with subprocess.Popen(
        [*command, "-o", str(page.parent)], env=env, stdout=subprocess.PIPE, text=True
    ) as watching:
        assert watching.stdout is not None
        while "Ctrl-C" not in watching.stdout.readline():
            pass
        try:
            for key, by in EDITS.items():
                yield key, [times(file, page, key, by) for _ in range(ROUNDS + 1)][1:]
        finally:
            watching.send_signal(signal.SIGINT)


def main() -> None:
    """Measure and print."""
    with tempfile.TemporaryDirectory() as folder:
        print("seconds from save (median, worst)        page         all files")
        for key, rounds in measured(Path(folder)):
            told = [
                f"{statistics.median(column):5.2f} {max(column):5.2f}"
                for column in zip(*rounds, strict=True)
            ]
            print(f"{key:<38} {told[0]}   {told[1]}")


if __name__ == "__main__":
    main()
