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
ROWS = {
    "diameter": (20, 30, 40),
    "hole": (4, 5, 6),
    "thickness": (1, 1.5, 2),
    "gap": (0, 1, 2),
}
#: π/4 (30² − 5²) × 1.5, a disc with a hole (mm³).
VOLUME = math.pi / 4 * (30**2 - 5**2) * 1.5


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
    torn.write_text(_with(bow, "hole", 29.9), "utf-8")
    done = command(shop, "check", "--json", "torn.toml")
    assert done.returncode == 1, done.stderr
    (check,) = [c for c in json.loads(done.stdout)["checks"] if c["part"] == "tassel"]
    assert check["verdict"] == "fail"
    assert set(check["cure"]["set"]) <= {"tassel.hole", "tassel.diameter"}


def _with(bow, key, value):
    """The bow's file with another number for the toy part."""
    lines = bow.read_text("utf-8").splitlines()
    (at,) = [i for i, line in enumerate(lines) if line.startswith(f"{key} ")]
    lines[at] = f"{key} = {value}"
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


#: Writes a starter for each family, then prints what the docs' generators make of them.
DOCS = """
import json, sys
from pathlib import Path
import _blocks, _reference
from templates_gen.parameters.starter import starter
from templates_gen.registry import SCHEMA
root = Path.cwd()
(root / "params").mkdir(exist_ok=True)
for family in ("violin", "viola", "cello", "bass-french", "bass-german"):
    (root / "params" / f"{family}.toml").write_text(starter(family, SCHEMA, "Toy"), "utf-8")
page = "".join(
    f"<!-- made: {kind} tassel -->\\n<!-- /made -->\\n"
    for kind in ("parameters", "checks", "templates")
)
made = _reference.pages(root) | {"page": _blocks.refreshed(page, "docs/tassel.md")}
print(json.dumps(made))
"""


def test_it_is_in_the_generated_docs(shop):
    """Parameters, checks and templates of the reference, and the tables of its own page."""
    docs = ROOT.parent / "docs"
    env = {**os.environ, "PYTHONPATH": os.pathsep.join([str(shop), str(docs)])}
    done = subprocess.run(
        [sys.executable, "-c", DOCS], cwd=shop, capture_output=True, text=True, check=False, env=env
    )
    assert done.returncode == 0, done.stderr
    made = json.loads(done.stdout)
    assert "\n## tassel\n" in made["parameters"] and "`tassel.hole`" in made["parameters"]
    assert "`tassel.rim`" in made["checks"]
    assert "### Tassel\n" in made["templates"] and "`tassel-disc`" in made["templates"]
    for word in ("`tassel.hole`", "`tassel.rim`", "`tassel-disc`"):
        assert word in made["page"]


def read(shop, *argv):
    """Return what a call of the command prints as JSON, and its status."""
    done = command(shop, *argv)
    assert done.returncode in (0, 1), done.stderr
    return json.loads(done.stdout), done.returncode


@pytest.mark.kernel
def test_it_has_weight(shop, bow):
    """Leather of 925 kg/m³; lighter by what a wider hole takes, and so is the whole bow."""
    weights = []
    for hole in (5, 15):
        bow.with_name("weighed.toml").write_text(_with(bow, "hole", hole), "utf-8")
        weighed, status = read(shop, "weigh", "--json", "weighed.toml")
        assert status == 0
        (row,) = [q for q in weighed["parts"] if q["name"] == "tassel"]
        volume = math.pi / 4 * (30**2 - hole**2) * 1.5
        assert row["mass_g"] == pytest.approx(volume * 925e-6, rel=1e-6)
        assert row["material"] == "leather"
        total = sum(q["mass_g"] for q in weighed["parts"])
        assert weighed["total_g"] == pytest.approx(total, rel=1e-12)
        # Behind the button, a millimetre away, half its own thickness on.
        (button,) = [q for q in weighed["parts"] if q["name"] == "button's metal"]
        assert row["x_mm"] == pytest.approx(2 * button["x_mm"] - 1 - 0.75, abs=1e-6)
        weights.append((row["mass_g"], weighed["total_g"]))
    (one, whole), (other, lighter) = weights
    assert whole - lighter == pytest.approx(one - other, rel=1e-9)


@pytest.mark.kernel
def test_it_stands_in_the_assembly(shop, bow):
    """Read from the STEP file by CadQuery's own importer: its volume, and where it stands."""
    import cadquery as cq

    done = command(shop, "draw", "bow.toml", "-o", "whole", "--format", "step")
    assert done.returncode == 0, done.stderr
    manifest = json.loads((shop / "whole" / "manifest.json").read_text("utf-8"))
    assert manifest["solids"]["tassel"]["volume_mm3"] == pytest.approx(VOLUME, rel=1e-6)
    (file,) = (shop / "whole").rglob("*--assembly.step")
    solids = {
        name.rpartition("/")[2].removesuffix("_part"): solid
        for solid, name, _, _ in cq.Assembly.importStep(str(file))
    }
    assert solids["tassel"].Volume(1e-9) == pytest.approx(VOLUME, rel=1e-6)
    disc, button = (solids[part].BoundingBox(1e-9) for part in ("tassel", "button"))
    assert (disc.xmax, disc.xlen) == pytest.approx((button.xmin - 1, 1.5), abs=1e-5)
    assert (disc.ymin, disc.zmax) == pytest.approx((-15, 15), abs=1e-4)


@pytest.mark.kernel
@pytest.mark.parametrize(("gap", "clear"), [(1, True), (-2, False)])
def test_it_may_not_stand_in_the_buttons_place(shop, bow, gap, clear):
    bow.with_name("near.toml").write_text(_with(bow, "gap", gap), "utf-8")
    found, status = read(shop, "check", "--solid", "--json", "near.toml")
    (overlap,) = [c for c in found["checks"] if c["id"] == "bow.overlap_stick"]
    assert status == (0 if clear else 1)
    # What an octagon 8.64 mm across its flats has round a hole of 5 for 1.5 mm; it tapers a little.
    shared = (2 * math.tan(math.pi / 8) * 8.64**2 - math.pi / 4 * 5**2) * 1.5
    assert overlap["measured"] == pytest.approx(0 if clear else shared, rel=0.02, abs=1e-3)
    assert [c for c in found["checks"] if c["id"] == "tassel.solid_section"]
