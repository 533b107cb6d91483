"""Rules of the handle, its mortise and its nipple."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from templates_gen.checks import (
    Along,
    Bound,
    Extent,
    Land,
    NotMeasured,
    Severity,
    at_least,
    at_most,
    gap,
    rule,
)
from templates_gen.errors import Fault
from templates_gen.parameters import Pattern, fault_at
from templates_gen.parts.stick.dims import StickDims
from templates_gen.shapes import octagon
from templates_gen.shapes.camber import CamberKind, reversed_bend
from templates_gen.shapes.graduation import GraduationKind, first_thickening, interpolated_diameter

PRACTICE = "common practice, no source"

#: Largest difference (mm) between a table and a single value of the same place.
TABLE_TOLERANCE = 0.15


@rule(
    "stick.mortise_roof",
    "enough wood remains above the stick mortise",
    dims=StickDims,
    basis=PRACTICE,
    place=(
        "stick-handle",
        lambda d: (d.mortise_front, -d.across_flats(d.mortise_front) / 2 + d.params.mortise_depth),
    ),
    solid=gap("stick: slot roof", "stick: top facet"),
)
def mortise_roof(d: StickDims) -> Bound:
    a = d.over_mortise[0]
    return at_least(a - d.params.mortise_depth, 0.22 * a)


@rule(
    "stick.mortise_cheeks",
    "enough wood remains on each side of the stick mortise",
    dims=StickDims,
    basis=PRACTICE,
    place=(
        "stick-mortise-card",
        lambda d: (
            d.params.mortise_from_butt + d.params.mortise_length / 2,
            d.params.mortise_width / 2,
        ),
    ),
    solid=gap("stick: slot sides", "stick: side facets"),
)
def mortise_cheeks(d: StickDims) -> Bound:
    a = d.over_mortise[0]
    return at_least((a - d.params.mortise_width) / 2, 0.25 * a)


@rule(
    "stick.mortise_mouth",
    "the mouth of the mortise is not much wider than the bottom facet",
    dims=StickDims,
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=("stick-mortise-card", lambda d: (d.mortise_front, d.params.mortise_width / 2)),
    solid=Extent(("stick: slot roof",), axis="y"),
)
def mortise_mouth(d: StickDims) -> Bound:
    a = d.across_flats(d.mortise_front)
    return at_most(d.params.mortise_width, octagon.facet(a) + 0.06 * a)


@rule(
    "stick.facet_planed",
    "the bottom facet is not planed much wider than the other facets of the octagon",
    dims=StickDims,
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=("stick-butt", lambda d: (0.0, -d.params.across_flats_butt / 2)),
    solid=NotMeasured("the facet is measured on the wood; the solid's octagon is regular"),
)
def facet_planed(d: StickDims) -> Bound:
    s = d.params
    return at_most(s.bottom_facet, 1.1 * octagon.facet(s.across_flats_butt))


@rule(
    "stick.wood_behind_mortise",
    "enough wood remains between the mortise and the butt",
    dims=StickDims,
    basis=PRACTICE,
    place=("stick-handle", lambda d: (d.params.mortise_from_butt / 2, 0.0)),
    solid=Along(("stick: butt", "stick: slot rear")),
)
def wood_behind_mortise(d: StickDims) -> Bound:
    s = d.params
    return at_least(s.mortise_from_butt, 2 * s.across_flats_butt)


@rule(
    "stick.nipple_wall",
    "enough wood remains round the bore in the nipple",
    dims=StickDims,
    basis=PRACTICE,
    place=("stick-butt", lambda d: ((d.params.nipple_diameter + d.params.rear_bore) / 4, 0.0)),
    solid=gap("stick: rear bore", "stick: nipple"),
)
def nipple_wall(d: StickDims) -> Bound:
    s = d.params
    return at_least((s.nipple_diameter - s.rear_bore) / 2, 0.85)


@rule(
    "stick.nipple_shoulder",
    "the butt leaves a shoulder round the nipple for the button to bear on",
    dims=StickDims,
    basis=PRACTICE,
    place=(
        "stick-butt",
        lambda d: ((d.params.across_flats_butt + d.params.nipple_diameter) / 4, 0.0),
    ),
    solid=Land(("stick: butt", "stick: nipple", "stick: flats")),
)
def nipple_shoulder(d: StickDims) -> Bound:
    s = d.params
    return at_least((s.across_flats_butt - s.nipple_diameter) / 2, 1.0)


@rule(
    "stick.never_thickens",
    "the stick gets no thicker anywhere toward the head",
    dims=StickDims,
    basis=f"{PRACTICE}: 0 as drawn; 0.1 allows for the tolerances at both ends",
    solid=NotMeasured("thicknesses at three places, not a wall"),
)
def never_thickens(d: StickDims) -> Bound:
    s = d.params
    falls = np.minimum(
        s.across_flats_butt - s.across_flats_handle_end, s.across_flats_handle_end - s.diameter_head
    )
    # A cylindrical handle within its tolerance does not count as thickening.
    return at_least(falls, -0.1)


@rule(
    "stick.camber_even",
    "the bend changes gently along the stick",
    dims=StickDims,
    severity=Severity.WARNING,
    basis=f"{PRACTICE}; a change of 10 % in 25 mm, 40 % by the tension law",
    unit="1",
    solid=NotMeasured("the solid is the straight stick"),
)
def camber_even(d: StickDims) -> Bound:
    return at_most(d.camber.unevenness, 0.4 if d.params.camber is CamberKind.TENSION else 0.1)


@rule(
    "stick.bend_radius",
    "the bend is gentle enough for the thickness at which the stick is bent",
    dims=StickDims,
    basis=PRACTICE,
    solid=NotMeasured("the solid is the straight stick"),
)
def bend_radius(d: StickDims) -> Bound:
    thickest = d.params.across_flats_handle_end + d.params.bent_oversize
    return at_least(d.bent_to, 33 * thickest)


def faults(p: Pattern) -> Iterator[Fault]:
    """Find measured tables that no stick can have, and tables that are chosen but missing."""
    s = p.scalars(StickDims).params
    if s.graduation is GraduationKind.STATIONS:
        if s.stations:
            yield from _station_faults(p)
        else:
            yield fault_at(
                p, "stick.graduation", '"stations" needs [stick] stations', "add them as a list"
            )
    if s.camber is CamberKind.STATIONS:
        if s.camber_points:
            yield from _camber_faults(p)
        else:
            yield fault_at(
                p, "stick.camber", '"stations" needs [stick] camber_points', "add them as a list"
            )


def _station_faults(p: Pattern) -> Iterator[Fault]:
    d = p.scalars(StickDims)
    s = d.params
    if (at := first_thickening(s.stations)) is not None:
        problem = f"the stick thickens toward the head at {at:g} mm"
        yield fault_at(p, "stick.stations", problem, "measure again, or plane the stick first")
    for name, value, x in (
        ("across_flats_handle_end", s.across_flats_handle_end, s.handle_length),
        ("diameter_head", s.diameter_head, d.face_rear),
    ):
        measured = float(interpolated_diameter(x, s.stations))
        if abs(measured - value) > TABLE_TOLERANCE:
            problem = f"they give {measured:.2f} at {x:.0f} mm, but {name} is {value:g}"
            cure = f"set {name} = {measured:.2f}, or measure again"
            yield fault_at(p, "stick.stations", problem, cure)


def _camber_faults(p: Pattern) -> Iterator[Fault]:
    d = p.scalars(StickDims)
    s = d.params
    if (at := reversed_bend(s.camber_points, d.chord)) is not None:
        problem = f"the camber bends the other way near {at:.0f} mm from the ferrule"
        yield fault_at(p, "stick.camber_points", problem, "measure there again")
    deepest, depth = max(y for _, y in s.camber_points), s.camber_depth
    if abs(deepest - depth) > 2 * TABLE_TOLERANCE:
        problem = f"their greatest depth is {deepest:g}, but camber_depth is {depth:g}"
        yield fault_at(p, "stick.camber_points", problem, f"set camber_depth = {deepest:g}")
