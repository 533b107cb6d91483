"""Place parts in the assembly and measure their overlaps."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import combinations
from typing import Any

from templates_gen.errors import KernelError
from templates_gen.kernel import cq
from templates_gen.mechanics import Frame

#: Grid points along each side of the common box, and how far inside (mm) they must be.
#: Grid points along each side of the common box, and how far inside counts (mm).
_GRID, _INSIDE = 4, 1e-6
#: Boxes that overlap by less (mm) only touch: the kernel's boxes are a little too large.
_TOUCH = 1e-5


def placed(solid: Any, frame: Frame) -> Any:
    """Move a solid from its own frame into another."""
    plane = cq.Plane(*(tuple(map(float, v)) for v in (frame.origin, frame.x, frame.z)))
    return solid.moved(cq.Location(plane))


def overlap_volume(one: Any, other: Any) -> float:
    """Calculate the volume (mm³) two solids share.

    Raises:
        KernelError: the solids overlap but the kernel finds no common volume.
    """
    a, b = one.BoundingBox(), other.BoundingBox()
    apart = (
        a.xmax < b.xmin or b.xmax < a.xmin or a.ymax < b.ymin or b.ymax < a.ymin
        or a.zmax < b.zmin or b.zmax < a.zmin
    )  # fmt: skip
    if apart:
        return 0.0
    shared = sum(float(s.Volume()) for s in one.intersect(other).Solids())
    if not shared and _share_a_point(one, other, a, b):
        raise KernelError("two parts overlap but the kernel finds no common volume")
    return shared


def _share_a_point(one: Any, other: Any, a: Any, b: Any) -> bool:
    """Report whether a point of a grid in both boxes is well inside both solids.

    The kernel's intersection can be empty where faces nearly coincide.
    """
    spans = [
        (max(a.xmin, b.xmin), min(a.xmax, b.xmax)),
        (max(a.ymin, b.ymin), min(a.ymax, b.ymax)),
        (max(a.zmin, b.zmin), min(a.zmax, b.zmax)),
    ]
    if min(high - low for low, high in spans) < _TOUCH:
        return False
    rows = [[low + (high - low) * (i + 0.5) / _GRID for i in range(_GRID)] for low, high in spans]
    # Half the grid is enough: every part is symmetric about the mid-plane.
    right = [y for y in rows[1] if y > 0] or rows[1]
    places = (cq.Vector(x, y, z) for x in rows[0] for y in right for z in rows[2])
    return any(one.isInside(p, _INSIDE) and other.isInside(p, _INSIDE) for p in places)


def overlap_volumes(solids: Mapping[str, Any]) -> dict[str, float]:
    """Calculate the volume (mm³) shared by each pair of placed solids."""
    return {
        f"{a}-{b}": overlap_volume(solids[a], solids[b]) for a, b in combinations(sorted(solids), 2)
    }


def overlap_volumes_between(some: Mapping[str, Any], others: Mapping[str, Any]) -> dict[str, float]:
    """Calculate the volume (mm³) each of some placed solids shares with each of others."""
    pairs: Iterable[tuple[str, str]] = ((a, b) for a in sorted(some) for b in sorted(others))
    return {f"{a}-{b}": overlap_volume(some[a], others[b]) for a, b in pairs}
