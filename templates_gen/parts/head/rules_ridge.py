"""The clearances of the ridge, measured on the arcs that are drawn. Part of ``rules``."""

from __future__ import annotations

from collections.abc import Iterator

from templates_gen.checks.rule import Bound, at_least, at_most, rule
from templates_gen.checks.solid import NotMeasured, Radius
from templates_gen.errors import Fault
from templates_gen.parameters import Pattern
from templates_gen.parameters.faults import fault_at
from templates_gen.parts.head.dims import HeadDims

PRACTICE = "common practice, no source"

#: A measured point may lie so far (mm) ahead of the nose that is stated.
STATED_APART = 0.15


@rule(
    "head.ridge_radii",
    "the ridge can be filed: no arc of it, convex or hollow, is tighter than a round file",
    dims=HeadDims,
    basis=PRACTICE,
    place=("head-side", lambda d: d.ridge.sharpest[1:]),
    solid=Radius(("head: ridge",)),
)
def ridge_radii(d: HeadDims) -> Bound:
    return at_least(d.ridge.sharpest[0], 4.0)


@rule(
    "head.ridge_ends_at_nose",
    "the ridge is nowhere steeper than upright, so it neither overhangs nor crosses itself",
    dims=HeadDims,
    basis="geometry: steeper than upright it would come back from beyond the nose",
    unit="°",
    place=("head-side", lambda d: d.ridge.steepest[1:]),
    solid=NotMeasured("an angle, not a wall"),
)
def ridge_ends_at_nose(d: HeadDims) -> Bound:
    return at_most(d.ridge.steepest[0], 90.0)


@rule(
    "head.ridge_above_nose",
    "the ridge stays above the face: some wood is left over the nose's lower edge",
    dims=HeadDims,
    basis=PRACTICE,
    place=("head-side", lambda d: d.ridge.lowest[1:]),
    solid=NotMeasured(
        "a height of the line itself; the solid's section is compared with the whole outline"
    ),
)
def ridge_above_nose(d: HeadDims) -> Bound:
    return at_least(d.ridge.lowest[0] - d.params.nose_rise, 0.2)


def faults(p: Pattern) -> Iterator[Fault]:
    """Measured points that lie beyond the nose."""
    s = p.derive(HeadDims).params
    length = float(s.face_length)
    if s.ridge_points and s.ridge_points[-1][0] > length + STATED_APART:
        last = s.ridge_points[-1][0]
        problem = f"the last point is at {last:g} mm, beyond the nose: face_length says {length:g}"
        cure = f"leave out the points beyond the nose, or state face_length = {last:g}"
        yield fault_at(p, "head.ridge_points", problem, cure)
