"""What the modeller must never get away with, and what a machine without it is told."""

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


def test_two_solids_apart_are_not_one(solids):
    here = solids.prism(rectangle(0, 0, 1, 1), 0, 1)
    there = solids.prism(rectangle(5, 0, 6, 1), 0, 1)
    with pytest.raises(KernelError, match="glue: expected one valid solid, found 2"):
        solids.fused(here, there, step="glue")


def test_a_cut_that_leaves_nothing_or_two_is_named(solids):
    block = solids.prism(rectangle(0, 0, 9, 1), 0, 1)
    with pytest.raises(KernelError, match=r"all: .* found 0"):
        solids.cut(block, solids.prism(rectangle(-1, -1, 10, 2), -1, 2), step="all")
    with pytest.raises(KernelError, match=r"saw: .* found 2"):
        solids.cut(block, solids.prism(rectangle(4, -1, 5, 2), -1, 2), step="saw")
    with pytest.raises(KernelError, match=r"far: .* found 0"):
        solids.intersection(block, solids.prism(rectangle(50, 0, 51, 1), 0, 1), step="far")


def test_solids_that_touch_become_one(solids):
    here = solids.prism(rectangle(0, 0, 1, 1), 0, 1)
    there = solids.prism(rectangle(1, 0, 3, 1), 0, 1)
    one = solids.fused(here, there, step="glue")
    assert solids.volume(one) == pytest.approx(3.0, rel=1e-9)


@pytest.mark.parametrize("axis", ["x", "y", "z"])
def test_an_outline_is_read_in_the_parts_own_coordinates(solids, axis):
    """Along x a path's own (u, v) are (y, z), along y (x, z), along z (x, y)."""
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


def test_a_machine_without_the_modeller_is_told_what_to_do(monkeypatch):
    # A None among the modules is how Python itself marks one that must not be imported.
    monkeypatch.setitem(sys.modules, "cadquery", None)
    with pytest.raises(EnvironmentFault) as caught:
        open_kernel()
    assert "libgl1" in str(caught.value)
    assert "--plane" in str(caught.value)


def test_a_missing_library_is_named(monkeypatch):
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


def test_garbage_is_collected_again_afterwards(monkeypatch):
    import gc

    monkeypatch.setitem(sys.modules, "cadquery", None)
    with pytest.raises(EnvironmentFault):
        open_kernel()
    assert gc.isenabled()
