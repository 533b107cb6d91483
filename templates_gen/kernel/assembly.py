"""Parts put together: where they overlap, and the whole as one STEP file."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from itertools import combinations
from typing import Any

from templates_gen.kernel import open_kernel

open_kernel()
import cadquery as cq  # noqa: E402

Vector = tuple[float, float, float]


def placed(solid: Any, origin: Vector, x: Vector, z: Vector) -> Any:
    """A solid moved from its own frame into another."""
    return solid.moved(cq.Location(cq.Plane(origin=origin, xDir=x, normal=z)))


def overlap(one: Any, other: Any) -> float:
    """Volume (mm³) two solids share; nothing where their boxes stand apart."""
    a, b = one.BoundingBox(), other.BoundingBox()
    apart = (
        a.xmax < b.xmin or b.xmax < a.xmin or a.ymax < b.ymin or b.ymax < a.ymin
        or a.zmax < b.zmin or b.zmax < a.zmin
    )  # fmt: skip
    if apart:
        return 0.0
    return sum(float(s.Volume()) for s in one.intersect(other).Solids())


def overlaps(solids: Mapping[str, Any]) -> dict[str, float]:
    """Volume (mm³) shared by each pair of placed solids."""
    return {f"{a}-{b}": overlap(solids[a], solids[b]) for a, b in combinations(sorted(solids), 2)}


def between(some: Mapping[str, Any], others: Mapping[str, Any]) -> dict[str, float]:
    """Volume (mm³) shared by each of some placed solids with each of others."""
    pairs: Iterable[tuple[str, str]] = ((a, b) for a in sorted(some) for b in sorted(others))
    return {f"{a}-{b}": overlap(some[a], others[b]) for a, b in pairs}
