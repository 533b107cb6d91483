"""A new part is a folder of its own, one line in the registry, and its rows in the table."""

import json
import math
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from architecture.house import faults

import templates_gen
from templates_gen import registry

ROOT = Path(templates_gen.__file__).parent
FAMILIES = 5
ROWS = {"diameter": (20, 30, 40), "hole": (4, 5, 6), "thickness": (1, 1.5, 2)}


@pytest.fixture(scope="module")
def shop(tmp_path_factory):
    """A copy of the package with the toy part added, as a maker of parts would add it."""
    shop = tmp_path_factory.mktemp("shop")
    package = shop / "templates_gen"
    shutil.copytree(ROOT, package, ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copytree(Path(__file__).parent / "tassel", package / "parts" / "tassel")
    _add_line(package / "registry.py")
    with (package / "parameters" / "families.csv").open("a", encoding="utf-8") as table:
        for name, band in ROWS.items():
            cells = ",".join(str(n) for n in band)
            table.write(f"\ntassel.{name},{','.join([cells] * FAMILIES)},O")
    return shop


def _add_line(source):
    """One line, at the end of the list of parts; nothing else of the registry is touched."""
    before = source.read_text("utf-8").splitlines()
    start = next(i for i, line in enumerate(before) if line.startswith("PARTS = ("))
    end = before.index(")", start)
    source.write_text("\n".join([*before[:end], '    "tassel",', *before[end:], ""]), "utf-8")


def command(shop, *argv):
    """The copied command, run as a maker runs it."""
    env = {**os.environ, "PYTHONPATH": str(shop), "XDG_CACHE_HOME": str(shop / "cache")}
    call = [sys.executable, "-m", "templates_gen", *argv]
    return subprocess.run(call, cwd=shop, capture_output=True, text=True, check=False, env=env)


@pytest.fixture(scope="module")
def bow(shop):
    done = command(shop, "new", "viola", "-o", "bow.toml")
    assert done.returncode == 0, done.stderr
    return shop / "bow.toml"


def test_the_house_takes_the_new_part(shop):
    assert faults(shop / "templates_gen", (*registry.PARTS, "tassel")) == []


def test_its_parameters_are_in_the_starter_with_their_meaning(bow):
    text = bow.read_text("utf-8")
    assert "[tassel]" in text
    assert "# Diameter of its hole, d_t; usually 4 to 6 mm [O]" in text


def test_it_is_checked_and_cured(shop, bow):
    """A disc of 30 with a hole of 5 leaves a rim of 12.5, and 12.45 at ±0.05 each."""
    done = command(shop, "check", "--json", "bow.toml")
    assert done.returncode == 0, done.stderr
    (check,) = [c for c in json.loads(done.stdout)["checks"] if c["part"] == "tassel"]
    assert check["id"] == "tassel.rim"
    assert check["verdict"] == "pass"
    assert check["measured"] == pytest.approx(12.45, abs=1e-9)

    torn = bow.with_name("torn.toml")
    torn.write_text(_with_hole(bow, 29.9), "utf-8")
    done = command(shop, "check", "--json", "torn.toml")
    assert done.returncode == 1, done.stderr
    (check,) = [c for c in json.loads(done.stdout)["checks"] if c["part"] == "tassel"]
    assert check["verdict"] == "fail"
    assert set(check["cure"]["set"]) <= {"tassel.hole", "tassel.diameter"}


def _with_hole(bow, hole):
    lines = bow.read_text("utf-8").splitlines()
    (at,) = [i for i, line in enumerate(lines) if line.startswith("hole ")]
    lines[at] = f"hole = {hole}"
    return "\n".join(lines) + "\n"


def test_it_is_listed_and_drawn(shop, bow):
    done = command(shop, "list", "--json", "bow.toml")
    assert done.returncode == 0, done.stderr
    (row,) = [t for t in json.loads(done.stdout)["templates"] if t["part"] == "tassel"]
    assert row["name"] == "tassel-disc"
    assert row["width_mm"] >= 30 - 1e-9

    done = command(shop, "draw", "--plane", "bow.toml", "-o", "out", "--only", "tassel-disc")
    assert done.returncode == 0, done.stderr
    drawn = {p.name for p in (shop / "out").iterdir()}
    assert {f"bow--tassel-disc.{form}" for form in ("dxf", "svg", "pdf")} <= drawn


def test_it_is_explained(shop):
    done = command(shop, "explain", "tassel.hole")
    assert done.returncode == 0, done.stderr
    assert "Diameter of its hole" in done.stdout


@pytest.mark.kernel
def test_its_solid_is_confirmed(shop, bow):
    """The volume of a disc with a hole: π/4 (30² − 5²) × 1.5."""
    done = command(shop, "draw", "bow.toml", "-o", "whole", "--format", "svg")
    assert done.returncode == 0, done.stderr
    manifest = json.loads((shop / "whole" / "manifest.json").read_text("utf-8"))
    volume = manifest["solids"]["tassel"]["volume_mm3"]
    assert volume == pytest.approx(math.pi / 4 * (30**2 - 5**2) * 1.5, rel=1e-6)
