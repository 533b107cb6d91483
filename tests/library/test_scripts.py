"""The scripts in docs/scripts run as an editor of CadQuery runs them, and show what they say."""

import math
import runpy
from pathlib import Path

import pytest

import templates_gen as tg

SCRIPTS = Path(__file__).parents[2] / "docs" / "scripts"
pytestmark = pytest.mark.kernel


def shown_by(name):
    """Run a script with an editor's ``show_object``; what it shows, by name."""
    shown = {}

    def show_object(shape, name=None, options=None):
        shown[name] = shape

    runpy.run_path(str(SCRIPTS / f"{name}.py"), init_globals={"show_object": show_object})
    return shown


def test_every_script_is_tested():
    assert {f.stem for f in SCRIPTS.glob("*.py")} == {"frog", "heads", "jig_plate"}


def test_frog_has_the_stated_size():
    (frog,) = shown_by("frog").values()
    box = frog.val().BoundingBox()
    assert frog.solids().size() == 1 and frog.val().isValid()
    # The stated length counts the heel's sheet, at most 0.8 mm. The front is as wide as the
    # ferrule.
    assert 60.0 - 0.8 <= box.xlen <= 60.0
    assert box.ylen == pytest.approx(22.5, abs=1e-4)
    # Whatever its shape, it fills some of its box and not all of it.
    assert 0.2 < frog.val().Volume() / (box.xlen * box.ylen * box.zlen) < 0.7


def test_heads_stand_in_a_row_and_grow():
    """A double bass's head is larger than a violin's. Common practice, no source."""
    heads = shown_by("heads")
    assert [*heads] == ["violin", "viola", "cello", "bass-french", "bass-german"]
    boxes = [h.val().BoundingBox() for h in heads.values()]
    middles = [(b.ymin + b.ymax) / 2 for b in boxes]
    assert middles == pytest.approx([0.0, 40.0, 80.0, 120.0, 160.0], abs=1e-3)
    volumes = [h.val().Volume() for h in heads.values()]
    assert volumes[0] < volumes[1] < volumes[2] < min(volumes[3:])
    assert all(h.solids().size() == 1 and h.val().isValid() for h in heads.values())


def test_plate_holds_the_frogs_outline():
    """Box less four cylinders less the pocket.

    The pocket is the outline moved out by 0.1 mm, so its area grows by length × 0.1 and, over all
    the corners, by no more than 4π 0.1². Source: Steiner's formula for parallel curves, from
    memory.
    """
    (plate,) = shown_by("jig_plate").values()
    frog = tg.outline(tg.new("bass-french", "Dunlin"), "frog", "side")
    left, bottom, right, top = frog.box
    block = (right - left + 30) * (top - bottom + 30) * 12.0
    holes = 4 * math.pi * 2.1**2 * 12.0
    pocket = (frog.area + frog.length * 0.1) * 8.0
    assert plate.val().Volume() == pytest.approx(
        block - holes - pocket, abs=4 * math.pi * 0.1**2 * 8.0
    )
    assert plate.solids().size() == 1
