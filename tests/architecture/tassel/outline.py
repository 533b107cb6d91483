"""The tassel's outlines."""

from __future__ import annotations

from templates_gen.parts.tassel.dims import TasselDims

from templates_gen.geometry import Path, circle
from templates_gen.parameters import Pattern


def edge(p: Pattern) -> Path:
    return circle((0.0, 0.0), p.scalars(TasselDims).params.diameter / 2)


def hole(p: Pattern) -> Path:
    return circle((0.0, 0.0), p.scalars(TasselDims).params.hole / 2)
