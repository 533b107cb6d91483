"""How long the whole frog set takes, beside a plain CadQuery script. Run it by hand:

    .venv/bin/python tests/benchmark.py

The plain script builds one bass frog as one would without this package and exports four views with
CadQuery's own exporter. Both run as whole processes, turn about, and the best of each is told.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from pathlib import Path

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


#: The frog on its stick, all sheets; head, form and the bench's cards are not what is compared.
FROG_SET = ",".join(
    (
        "ferrule", "slide", "heel", "underslide", "frog", "stick-handle", "stick-mortise-card",
        "stick-butt", "bow-frog-on-stick",
    )
)  # fmt: skip


def timed(command: list[str], env: dict[str, str]) -> float:
    """Seconds a whole process takes."""
    start = time.perf_counter()
    subprocess.run(command, env=env, check=True, capture_output=True)
    return time.perf_counter() - start


def main(rounds: int = 3) -> None:
    """Time the three turn about and print the best of each."""
    pattern = Path(__file__).parents[1] / "params" / "bass-french.toml"
    best: dict[str, float] = {}
    for _ in range(rounds):
        with tempfile.TemporaryDirectory() as folder:
            env = {**os.environ, "XDG_CACHE_HOME": f"{folder}/cache"}
            ours = [sys.executable, "-m", "templates_gen", "draw", str(pattern), "-o", folder]
            ours += ["--only", FROG_SET]
            runs = {
                "plain script": [sys.executable, "-c", PLAIN, folder],
                "cold": ours,
                "solids known": ours,
            }
            for name, command in runs.items():
                best[name] = min(best.get(name, 1e9), timed(command, env))
    for name, seconds in best.items():
        print(f"{name:<13} {seconds:6.2f} s  {seconds / best['plain script']:5.2f} ×")


if __name__ == "__main__":
    main()
