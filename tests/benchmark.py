"""Time ``draw`` of a whole bass bow against a plain CadQuery script, and judge the ratios.

    .venv/bin/python tests/benchmark.py             # fails if a ratio is worse by a third
    .venv/bin/python tests/benchmark.py --record    # writes the ratios to tests/benchmark.json

Three whole processes take turns:

- ``plain``: a script that builds one frog with CadQuery and exports four views with CadQuery's own
  exporter, as one would without this package;
- ``cold``: `draw` of every template of a pattern in every format, with the page and the manifest;
  each part is built as a solid and measured;
- ``known``: the same after an edit of the file that changes no solid.

A ratio is the median of a run's times divided by the median of the plain script's, so that it
depends little on the machine. Two times are judged: CPU seconds (user and system, children
included), which other work on the machine disturbs little, and wall seconds, the time the maker
waits, which alone reveal a process that sleeps. A worse ratio is timed again before it fails.
"""

from __future__ import annotations

import argparse
import json
import os
import re
import subprocess
import sys
import tempfile
import time
from collections.abc import Mapping, Sequence
from pathlib import Path
from statistics import median

HERE = Path(__file__).parent
STARTER = HERE.parent / "params" / "bass-french.toml"
RECORD = HERE / "benchmark.json"
ROUNDS = 3
#: A ratio fails when it is larger than the recorded one by more than this factor.
WORSE = 4 / 3
MEANING = (
    "Seconds of `draw` on the whole bass-french set divided by those of a plain CadQuery script: "
    "cold, and with known solids; medians of three. tests/benchmark.py --record writes them."
)

PLAIN = """
import sys
import cadquery as cq

side = (
    cq.Workplane("XZ").moveTo(5, 0).lineTo(46, 0).lineTo(46, 10.5)
    .threePointArc((40.9, 13.1), (39, 18)).threePointArc((40.7, 21.9), (43.8, 23.5))
    .lineTo(55, 25.1).lineTo(55, 30.5).lineTo(0, 30.5).lineTo(0, 5)
    .threePointArc((1.46, 1.46), (5, 0)).close().extrude(11.25, both=True)
)
tongue = cq.Workplane("YZ", origin=(45, 0, 3)).moveTo(-10, 0).lineTo(10, 0)
tongue = tongue.threePointArc((0, 6.6), (-10, 0)).close().extrude(14.7)
frog = side.union(tongue)
for way in (1, -1):
    flank = cq.Workplane("YZ", origin=(-1, way * 54.5, 24.7)).circle(48.65).extrude(42)
    frog = frog.cut(flank)
    thumb = cq.Workplane("YZ", origin=(40, way * 54.5, 24.7)).circle(48.65).extrude(20)
    frog = frog.cut(thumb.intersect(cq.Workplane().box(60, 200, 30).translate((50, 0, 33))))
    eye = cq.Workplane("XZ", origin=(19.5, way * 6.4, 13.5)).circle(5).extrude(-way * 5)
    frog = frog.cut(eye)
seat = cq.Workplane("YZ", origin=(-1, 0, 0)).polyline(
    [(-2.4, 27), (2.4, 27), (6.4, 31), (-6.4, 31)]
).close().extrude(60)
channel = cq.Workplane("YZ", origin=(8, 0, 0)).polyline(
    [(-6.3, 0), (6.3, 0), (6.8, 2), (-6.8, 2)]
).close().extrude(40)
mortise = cq.Workplane("XY").box(16, 11, 12.5, centered=(False, True, False)).translate((11, 0, 0))
bore = cq.Workplane("XY", origin=(26, 0, 16)).circle(2).extrude(12)
frog = frog.cut(seat).cut(channel).cut(mortise).cut(bore)
assert frog.val().isValid()
ways = {"side": (0, -1, 0), "top": (0, 0, 1), "front": (1, 0, 0), "iso": (1, -1, 1)}
for name, way in ways.items():
    cq.exporters.export(frog, f"{sys.argv[1]}/{name}.svg", opt={"projectionDir": way})
"""

#: Name of a run and its unit, and the seconds or the ratio.
Figures = dict[str, float]


def timed(command: Sequence[str], cache: Path) -> tuple[float, float]:
    """Run a command as a process of its own.

    Args:
        command: program and arguments.
        cache: folder for the package's cache of solids.

    Returns:
        Wall and CPU seconds, those of its children included.

    Raises:
        RuntimeError: the command failed.
    """
    env = {**os.environ, "XDG_CACHE_HOME": str(cache)}
    with tempfile.TemporaryFile() as output:
        start = time.perf_counter()
        process = subprocess.Popen(command, env=env, stdout=output, stderr=output)
        _, status, used = os.wait4(process.pid, 0)
        wall = time.perf_counter() - start
        process.returncode = os.waitstatus_to_exitcode(status)
        if process.returncode:
            output.seek(0)
            raise RuntimeError(f"{command} failed: {output.read().decode(errors='replace')}")
    return wall, used.ru_utime + used.ru_stime


def changed(text: str) -> str:
    """Change the starter's revision and the density of the frog, which changes no solid."""
    for key, value in (("revision", '"B"'), ("frog_wood", '"measured"'), ("frog_density", "1100")):
        text, found = re.subn(rf"(?m)^{key}( *)= .*$", rf"{key}\1= {value}", text)
        assert found == 1, f"{key} occurs {found} times in {STARTER.name}"
    return text


def one_round(folder: Path) -> Figures:
    """Time the three processes once, in an empty folder."""
    cache, pattern = folder / "cache", folder / "pattern.toml"
    script, out = folder / "plain.py", folder / "out"
    draw = [sys.executable, "-m", "templates_gen", "draw", str(pattern), "-o", str(out)]
    seconds: Figures = {}

    def note(name: str, command: Sequence[str]) -> None:
        seconds[f"{name}_wall"], seconds[f"{name}_cpu"] = timed(command, cache)

    script.write_text(PLAIN, "utf-8")
    note("plain", [sys.executable, str(script), str(folder)])
    pattern.write_text(STARTER.read_text("utf-8"), "utf-8")
    note("cold", draw)
    before, sheet = _solids(cache), (out / "manifest.json").read_bytes()
    assert before, "the cold run left no solids behind"
    pattern.write_text(changed(STARTER.read_text("utf-8")), "utf-8")
    note("known", draw)
    assert _solids(cache) == before, "a solid was built, although the edit changes none"
    assert (out / "manifest.json").read_bytes() != sheet, "the change changed no file"
    return seconds


def _solids(cache: Path) -> set[str]:
    return {file.name for file in (cache / "templates-gen").glob("*.json")}


def rounds(count: int = ROUNDS) -> list[Figures]:
    """Time several rounds, each in its own folder."""
    done = []
    for _ in range(count):
        with tempfile.TemporaryDirectory() as folder:
            done.append(one_round(Path(folder)))
    return done


def ratios(done: Sequence[Figures]) -> Figures:
    """Return the medians of the rounds, each divided by the plain script's."""
    middle = {name: median(r[name] for r in done) for name in done[0]}
    return {
        f"{run}_{unit}": middle[f"{run}_{unit}"] / middle[f"plain_{unit}"]
        for run in ("cold", "known")
        for unit in ("wall", "cpu")
    }


def worse(now: Mapping[str, float], recorded: Mapping[str, float]) -> list[str]:
    """Return the names of the ratios that are worse than recorded by more than a third.

    Raises:
        KeyError: a ratio was never recorded.
    """
    return [name for name, ratio in now.items() if not ratio <= WORSE * recorded[name]]


def report(done: Sequence[Figures], recorded: Mapping[str, float]) -> None:
    """Print the medians, and the ratios beside the recorded ones."""
    middle = {name: median(r[name] for r in done) for name in done[0]}
    for unit in ("wall", "cpu"):
        print(f"plain_{unit:<6} {middle[f'plain_{unit}']:6.2f} s")
    for name, ratio in ratios(done).items():
        before = f"recorded {recorded[name]:.2f}" if name in recorded else "not recorded"
        print(f"{name:<12} {middle[name]:6.2f} s  {ratio:5.2f} x plain, {before}")


def main(argv: Sequence[str]) -> int:
    """Time, then record or judge; return 1 if a ratio is worse by more than a third."""
    parser = argparse.ArgumentParser(description="time draw against a plain CadQuery script")
    parser.add_argument("--record", action="store_true", help=f"write {RECORD.name}")
    record = parser.parse_args(argv).record
    recorded = json.loads(RECORD.read_text("utf-8"))["ratios"] if RECORD.is_file() else {}
    done = rounds()
    report(done, recorded)
    if record:
        now = {name: round(ratio, 2) for name, ratio in ratios(done).items()}
        written = json.dumps({"meaning": MEANING, "ratios": now}, indent=2) + "\n"
        RECORD.write_text(written, "utf-8")
        return 0
    if worse(ratios(done), recorded):
        print("worse by more than a third: timing again")
        done += rounds()
        report(done, recorded)
    slower = worse(ratios(done), recorded)
    for name in slower:
        print(f"{name}: worse than recorded by more than a third", file=sys.stderr)
    return 1 if slower else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
