"""Imports run one way, and the test that says so can fail."""

import shutil
from pathlib import Path

import pytest
from architecture.house import faults, imports, sources

import templates_gen
from templates_gen import registry

ROOT = Path(templates_gen.__file__).parent

#: A file, a line put at its end, and a word of the complaint it must raise.
PLANTED = [
    ("errors.py", "from templates_gen.geometry import Path", "higher"),
    ("tolerances.py", "from templates_gen import errors", "same floor"),
    ("geometry/segment.py", "from templates_gen.shapes.arch import ArchKind", "higher"),
    ("geometry/segment.py", "from ..shapes import arch", "higher"),
    ("geometry/__init__.py", "from ..shapes import arch", "higher"),
    ("geometry/segment.py", "import templates_gen.registry", "higher"),
    ("geometry/segment.py", "import templates_gen", "higher"),
    ("shapes/arch.py", "def f():\n    from templates_gen.parameters import FloatOrArray", "higher"),
    ("checks/rule.py", "import templates_gen.drawing.sheet", "same floor"),
    ("drawing/sheet.py", "if False:\n    from templates_gen.parts.ferrule import dims", "higher"),
    ("writers/dxf.py", "from templates_gen.kernel import solids", "same floor"),
    ("pipeline/output.py", "from templates_gen.command import VERBS", "higher"),
    (
        "parts/hair/dims.py",
        "from templates_gen.parts.ferrule.dims import FerruleDims",
        "later part",
    ),
    ("parts/hair/dims.py", "from templates_gen.parts.hair import rules", "that way"),
    ("parts/ferrule/dims.py", "from templates_gen.parts.hair import rules", "only params and dims"),
    (
        "parts/ferrule/params.py",
        "from templates_gen.parts.hair.params import Hair",
        "only params and dims",
    ),
    ("parts/ferrule/params.py", "from templates_gen.parts.hair.dims import HairDims", "that way"),
    ("parts/hair/rules.py", "from templates_gen.parts.ferrule import outline", "only params and"),
    (
        "parts/ferrule/outline.py",
        "from templates_gen.parts.ferrule.sheets import wedge",
        "that way",
    ),
    ("parts/ferrule/sheets.py", "from . import rules", "that way"),
    ("parts/ferrule/helper.py", "from templates_gen.parts.ferrule import dims", "none of a part's"),
    ("parts/ferrule/dims.py", "from templates_gen.registry import PARTS", "higher"),
    ("parts/ferrule/dims.py", "from templates_gen.parts.ferrule import assembly", "that way"),
    ("parts/hair/assembly.py", "from templates_gen.parts.frog.dims import FrogDims", "later part"),
    ("parts/button/assembly.py", "from templates_gen.parts.frog import assembly", "only params"),
    ("parts/head/assembly.py", "from templates_gen.bow.dims.travel import Travel", "higher"),
    ("registry.py", "from templates_gen.bow import catalogue", "higher"),
    ("bow/catalogue.py", "from templates_gen.pipeline import judging", "higher"),
    ("parts/ferrule/solid.py", "import cadquery as cq", "only kernel"),
    ("pipeline/witness.py", "def f():\n    from OCP.gp import gp_Pnt", "only kernel"),
    ("drawing/sheet.py", "import ezdxf.units", "only writers.dxf"),
    ("geometry/offset.py", "import shapely", "only the tests"),
    ("writers/svg.py", "from reportlab.pdfgen import canvas", "only writers.pdf"),
    ("brandnew/__init__.py", "from templates_gen import errors", "no floor"),
    ("pipeline/output.py", "print('done')", "only the command prints"),
    ("drawing/sheet.py", "import sys\nsys.stderr.write('x')", "belongs to the command"),
    ("checks/rule.py", "import importlib\nimportlib.import_module('cadquery')", "hides"),
]


def test_imports_run_one_way():
    assert faults(ROOT, registry.PARTS) == []


def test_enough_is_read():
    # Else a reader that finds nothing would pass.
    read = sources(ROOT)
    assert {"cli", "geometry", "geometry.path", "parts.ferrule.dims", "__init__"} <= set(read)
    found = {i.target for i in imports("writers.dxf", read["writers.dxf"])}
    assert {"ezdxf", "templates_gen.drawing.sheet.Sheet"} <= found


@pytest.fixture(scope="module")
def copied(tmp_path_factory):
    """One copy of the sources for all that is planted; each test puts its file back."""
    copy = tmp_path_factory.mktemp("house") / "templates_gen"
    shutil.copytree(ROOT, copy, ignore=shutil.ignore_patterns("__pycache__"))
    return copy


@pytest.mark.parametrize(("file", "line", "complaint"), PLANTED)
def test_a_planted_import_is_found(copied, file, line, complaint):
    target = copied / file
    target.parent.mkdir(exist_ok=True)
    sound = faults(ROOT, registry.PARTS)
    before = target.read_text("utf-8") if target.exists() else None
    target.write_text(f"{before or ''}\n{line}\n", "utf-8")
    module = ".".join(Path(file).with_suffix("").parts).removesuffix(".__init__")
    try:
        found = [f for f in faults(copied, registry.PARTS) if f not in sound]
    finally:
        target.write_text(before, "utf-8") if before is not None else target.unlink()
    assert found, "nothing was found"
    assert all(f.startswith(f"{module}:") for f in found)
    assert any(complaint in f for f in found), found
