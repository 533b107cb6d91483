"""Rules of the head."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from templates_gen.checks import Bound, Land, NotMeasured, Radius, at_least, at_most, gap, rule
from templates_gen.errors import Fault
from templates_gen.parameters import Pattern, fault_at
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.head.dims_walls import HeadWalls

PRACTICE = "common practice, no source"

#: Largest distance (mm) of a measured point ahead of the nose.
BEYOND_NOSE = 0.15


@rule(
    "head.mortise_sides",
    "enough wood remains on each side of the head mortise, over its whole length and depth",
    dims=HeadWalls,
    basis=PRACTICE,
    place=(
        "head-face",
        lambda w: (
            w.head.params.mortise_from_rear,
            w.head.half_width(w.head.params.mortise_from_rear),
        ),
    ),
    solid=gap("head: mortise sides", "head: cheeks"),
)
def mortise_sides(w: HeadWalls) -> Bound:
    return at_least(w.beside, 1.2)


@rule(
    "head.mortise_side_rear",
    "enough wood remains on each side of the head mortise at its rear end, at the face",
    dims=HeadWalls,
    basis=PRACTICE,
    place=(
        "head-face",
        lambda w: (
            w.head.params.mortise_from_rear,
            w.head.half_width(w.head.params.mortise_from_rear),
        ),
    ),
    solid=Land(("head: flat", "head: mortise rear", "head: cheeks")),
)
def mortise_side_rear(w: HeadWalls) -> Bound:
    d = w.head
    return at_least(w.beside_rear, (0.10 if d.family.bass else 0.16) * d.params.width)


@rule(
    "head.mortise_straight",
    "the curve of the nose begins ahead of the mortise",
    dims=HeadDims,
    basis="the walls are judged on the straight sides; geometry",
    place=("head-face", lambda d: (d.params.face_width_front_at, d.params.face_width_front / 2)),
    solid=NotMeasured("where a curve begins, not a wall"),
)
def mortise_straight(d: HeadDims) -> Bound:
    return at_least(d.params.face_width_front_at, d.mortise_front + 0.5)


@rule(
    "head.mortise_to_back",
    "enough wood remains between the mortise and the back of the head",
    dims=HeadDims,
    basis=PRACTICE,
    place=("head-side", lambda d: (d.params.mortise_from_rear / 2, d.params.mortise_depth / 2)),
    solid=gap("head: mortise rear", "head: back + head: back rounding"),
)
def mortise_to_back(d: HeadDims) -> Bound:
    """Less than the solid's: it extends the back's line below the face."""
    return at_least(d.to_back, 4.0)


@rule(
    "head.mortise_to_nose",
    "enough wood remains between the mortise and the nose",
    dims=HeadWalls,
    basis=PRACTICE,
    place=(
        "head-side",
        lambda w: ((w.head.mortise_front + w.head.params.face_length) / 2, w.head.params.nose_rise),
    ),
    solid=gap("head: mortise front", "head: nose"),
)
def mortise_to_nose(w: HeadWalls) -> Bound:
    return at_least(w.to_nose, 8.0)


@rule(
    "head.mortise_roof",
    "enough wood remains between the mortise and the top of the stick",
    dims=HeadDims,
    basis=PRACTICE,
    place=("head-side", lambda d: (d.params.mortise_from_rear, d.params.mortise_depth)),
    solid=gap("head: mortise roof", "head: top"),
)
def mortise_roof(d: HeadDims) -> Bound:
    """Less than the solid's: it takes the height at the face's rear; the stick's top rises."""
    return at_least(d.params.height - d.params.mortise_depth, 1.8 * d.stick.diameter_head)


@rule(
    "head.mortise_to_ridge",
    "enough wood remains between the mortise and the ridge",
    dims=HeadDims,
    basis=PRACTICE,
    place=("head-side", lambda d: (d.mortise_foot, d.params.mortise_depth)),
    solid=gap("head: mortise front + head: mortise roof", "head: ridge"),
)
def mortise_to_ridge(d: HeadDims) -> Bound:
    return at_least(d.to_ridge, 0.8 * d.stick.diameter_head)


@rule(
    "head.mortise_to_facets",
    "enough wood remains between the front corners of the mortise and the facets beside the ridge",
    dims=HeadDims,
    basis=PRACTICE,
    place=("head-side", lambda d: (d.mortise_foot, d.params.mortise_depth)),
    solid=gap("head: mortise front + head: mortise roof", "head: facets"),
)
def mortise_to_facets(d: HeadDims) -> Bound:
    """Less than the solid's: it lets a facet reach the lower cheek; the upper cuts it off."""
    return at_least(d.to_facets, 1.2)


@rule(
    "head.mortise_holds_knot",
    "the mortise is deep enough for the knot under its plug",
    dims=HeadDims,
    basis=PRACTICE,
    place=("head-side", lambda d: (d.params.mortise_from_rear, d.params.mortise_depth)),
    solid=NotMeasured("the mortise less plate and liner, which are not built as solids"),
)
def mortise_depth(d: HeadDims) -> Bound:
    return at_least(d.plug_room, d.hair.knot + 1.5)


@rule(
    "head.mortise_over_knot",
    "the mortise is wider than the knot over its whole length",
    dims=HeadDims,
    basis=PRACTICE,
    place=("head-face", lambda d: (d.params.mortise_from_rear, d.params.mortise_width / 2)),
    solid=gap("head: mortise left", "head: mortise right"),
)
def mortise_width(d: HeadDims) -> Bound:
    narrowest = np.minimum(d.params.mortise_width, d.mortise_foot_width)
    return at_least(narrowest, d.hair.knot + 1.0)


@rule(
    "head.ridge_radii",
    "no arc of the ridge, convex or hollow, is too tight for a round file",
    dims=HeadDims,
    basis=PRACTICE,
    place=("head-side", lambda d: d.ridge.sharpest[1:]),
    solid=Radius(("head: ridge",)),
)
def ridge_radii(d: HeadDims) -> Bound:
    return at_least(d.ridge.sharpest[0], 4.0)


@rule(
    "head.ridge_ends_at_nose",
    "the ridge is nowhere steeper than vertical, so that it neither overhangs nor crosses itself",
    dims=HeadDims,
    basis="geometry: steeper than vertical, it would return from beyond the nose",
    unit="°",
    place=("head-side", lambda d: d.ridge.steepest[1:]),
    solid=NotMeasured("an angle, not a wall"),
)
def ridge_ends_at_nose(d: HeadDims) -> Bound:
    return at_most(d.ridge.steepest[0], 90.0)


@rule(
    "head.ridge_above_nose",
    "the ridge stays above the lower edge of the nose, so that wood remains there",
    dims=HeadDims,
    basis=PRACTICE,
    place=("head-side", lambda d: d.ridge.lowest[1:]),
    solid=NotMeasured(
        "a height of the line; the solid's section is compared with the whole outline"
    ),
)
def ridge_above_nose(d: HeadDims) -> Bound:
    return at_least(d.ridge.lowest[0] - d.params.nose_rise, 0.2)


@rule(
    "head.back_straight",
    "the back of the head has a straight length before it rounds into the stick",
    dims=HeadDims,
    basis="geometry: otherwise the rounding does not fit under the stick",
    place=("head-side", lambda d: (0.0, 0.0)),
    solid=Land(("head: back", "head: back rounding", "head: face")),
)
def back_straight(d: HeadDims) -> Bound:
    return at_least(d.back_straight, 1.0)


@rule(
    "head.nose_curve",
    "the face has room for a curve between its straight sides and the nose",
    dims=HeadDims,
    basis="geometry",
    place=("head-face", lambda d: (d.params.face_width_front_at, d.params.face_width_front / 2)),
    solid=NotMeasured("where a curve begins, not a wall"),
)
def nose_curve(d: HeadDims) -> Bound:
    s = d.params
    return at_least(s.face_length - s.face_width_front_at, 3.0)


@rule(
    "head.nose_narrows",
    "the nose is narrower than the straight sides extended to it, so that its curve bulges",
    dims=HeadDims,
    basis="geometry",
    place=("head-face", lambda d: (d.params.face_length, d.params.nose_width / 2)),
    solid=NotMeasured("two given widths, not a wall"),
)
def nose_narrows(d: HeadDims) -> Bound:
    return at_least(2 * d.half_width(d.params.face_length) - d.params.nose_width, 0.5)


def faults(p: Pattern) -> Iterator[Fault]:
    """Find measured points beyond the nose."""
    s = p.scalars(HeadDims).params
    length = s.face_length
    if s.ridge_points and s.ridge_points[-1][0] > length + BEYOND_NOSE:
        last = s.ridge_points[-1][0]
        problem = f"the last point is at {last:g} mm, beyond the nose: face_length is {length:g}"
        cure = f"remove the points beyond the nose, or set face_length = {last:g}"
        yield fault_at(p, "head.ridge_points", problem, cure)
