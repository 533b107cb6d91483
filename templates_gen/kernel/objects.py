"""Solids and outlines as CadQuery's own objects, for scripts."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from templates_gen.kernel import cq

if TYPE_CHECKING:
    from cadquery import Assembly, Wire, Workplane

__all__ = ["Assembly", "Wire", "Workplane", "assembly", "workplane"]


def workplane(solid: Any) -> Workplane:
    """Put a solid on a workplane, so that CadQuery's operations can be chained to it."""
    return cq.Workplane("XY").newObject([solid])


def assembly(name: str, solids: Mapping[str, Any]) -> Assembly:
    """Gather placed solids, each under its name."""
    whole = cq.Assembly(name=name)
    for part, solid in solids.items():
        whole.add(solid, name=part)
    return whole
