"""Invalid results of the kernel are rejected; errors without CadQuery are helpful."""

import sys

import pytest

from templates_gen.errors import EnvironmentFault, KernelError
from templates_gen.geometry import circle, rectangle
from templates_gen.kernel import open_kernel

pytestmark = pytest.mark.kernel


@pytest.fixture
def solids():
    from templates_gen.kernel import solids

    return solids


def test_rejects_fusing_separate_solids(solids):
    here = solids.prism(rectangle(0, 0, 1, 1), 0, 1)
    there = solids.prism(rectangle(5, 0, 6, 1), 0, 1)
    with pytest.raises(KernelError, match="glue: expected one valid solid, found 2"):
        solids.fused(here, there, step="glue")


def test_error_names_a_cut_that_leaves_no_or_two_solids(solids):
    block = solids.prism(rectangle(0, 0, 9, 1), 0, 1)
    with pytest.raises(KernelError, match=r"all: .* found 0"):
        solids.cut(block, solids.prism(rectangle(-1, -1, 10, 2), -1, 2), step="all")
    with pytest.raises(KernelError, match=r"saw: .* found 2"):
        solids.cut(block, solids.prism(rectangle(4, -1, 5, 2), -1, 2), step="saw")
    with pytest.raises(KernelError, match=r"far: .* found 0"):
        solids.intersection(block, solids.prism(rectangle(50, 0, 51, 1), 0, 1), step="far")


def test_fuses_touching_solids(solids):
    here = solids.prism(rectangle(0, 0, 1, 1), 0, 1)
    there = solids.prism(rectangle(1, 0, 3, 1), 0, 1)
    one = solids.fused(here, there, step="glue")
    assert solids.volume(one) == pytest.approx(3.0, rel=1e-9)


@pytest.mark.parametrize("axis", ["x", "y", "z"])
def test_outlines_are_in_the_parts_coordinates(solids, axis):
    """(u, v) of a path are (y, z) along x, (x, z) along y, (x, y) along z."""
    prism = solids.prism(rectangle(1, 10, 2, 13), 100, 107, axis, holes=(circle((1.5, 11), 0.2),))
    box = prism.BoundingBox(1e-9)
    spans = {
        "x": (box.xmin, box.xmax),
        "y": (box.ymin, box.ymax),
        "z": (box.zmin, box.zmax),
    }
    u, v = {"x": "yz", "y": "xz", "z": "xy"}[axis]
    assert spans[axis] == pytest.approx((100, 107), abs=1e-6)
    assert spans[u] == pytest.approx((1, 2), abs=1e-6)
    assert spans[v] == pytest.approx((10, 13), abs=1e-6)
    # A prism: (1 × 3 less a disc of radius 0.2) × 7.
    assert solids.volume(prism) == pytest.approx(7 * (3 - 3.141592653589793 * 0.04), rel=1e-9)


def test_error_without_cadquery_says_what_to_do(monkeypatch):
    # None in sys.modules makes Python refuse the import.
    monkeypatch.setitem(sys.modules, "cadquery", None)
    with pytest.raises(EnvironmentFault) as caught:
        open_kernel()
    assert "libgl1" in str(caught.value)
    assert "--plane" in str(caught.value)


def test_error_names_a_missing_library(monkeypatch):
    class Missing:
        """Stands before every finder, as a machine without libGL would."""

        @staticmethod
        def find_spec(name, path=None, target=None):
            if name == "cadquery":
                raise ImportError("libGL.so.1: cannot open shared object file")

    monkeypatch.delitem(sys.modules, "cadquery", raising=False)
    monkeypatch.setattr(sys, "meta_path", [Missing, *sys.meta_path])
    with pytest.raises(EnvironmentFault, match=r"libGL\.so\.1.*libgl1"):
        open_kernel()


def test_garbage_collection_is_on_again_after_the_import(monkeypatch):
    import gc

    monkeypatch.setitem(sys.modules, "cadquery", None)
    with pytest.raises(EnvironmentFault):
        open_kernel()
    assert gc.isenabled()
