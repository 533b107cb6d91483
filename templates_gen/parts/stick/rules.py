"""The clearances of the handle, its mortise and its nipple."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np

from templates_gen.checks.rule import Bound, Severity, at, at_least, at_most, rule
from templates_gen.checks.solid import Along, Extent, Land, NotMeasured, gap
from templates_gen.errors import Fault
from templates_gen.parameters import Pattern
from templates_gen.parameters.faults import fault_at
from templates_gen.parts.stick.dims import StickDims
from templates_gen.shapes import octagon
from templates_gen.shapes.camber import CamberKind, reversed_bend
from templates_gen.shapes.graduation import GraduationKind, first_thickening, interpolated_diameter

PRACTICE = "common practice, no source"

#: A table and a single figure of one place agree within this (mm).
STATED_APART = 0.15


@rule(
    "stick.mortise_roof",
    "wood above the stick mortise",
    basis=PRACTICE,
    place=at(
        "stick-handle",
        StickDims,
        lambda d: (d.mortise_front, -d.across_flats(d.mortise_front) / 2 + d.params.mortise_depth),
    ),
    solid=gap("stick: slot roof", "stick: top facet"),
)
def mortise_roof(p: Pattern) -> Bound:
    d = p.derive(StickDims)
    a = d.over_mortise[0]
    return at_least(a - d.params.mortise_depth, 0.22 * a)


@rule(
    "stick.mortise_cheeks",
    "wood beside the stick mortise",
    basis=PRACTICE,
    place=at(
        "stick-mortise-card",
        StickDims,
        lambda d: (
            d.params.mortise_from_butt + d.params.mortise_length / 2,
            d.params.mortise_width / 2,
        ),
    ),
    solid=gap("stick: slot sides", "stick: side facets"),
)
def mortise_cheeks(p: Pattern) -> Bound:
    d = p.derive(StickDims)
    a = d.over_mortise[0]
    return at_least((a - d.params.mortise_width) / 2, 0.25 * a)


@rule(
    "stick.mortise_mouth",
    "the mortise's mouth is hardly wider than the facet",
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=at(
        "stick-mortise-card", StickDims, lambda d: (d.mortise_front, d.params.mortise_width / 2)
    ),
    solid=Extent(("stick: slot roof",), axis="y"),
)
def mortise_mouth(p: Pattern) -> Bound:
    d = p.derive(StickDims)
    a = d.across_flats(d.mortise_front)
    return at_most(d.params.mortise_width, octagon.facet(a) + 0.06 * a)


@rule(
    "stick.facet_planed",
    "the lower facet is not planed much wider than an eighth of the octagon",
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=at("stick-butt", StickDims, lambda d: (0.0, -d.params.across_flats_butt / 2)),
    solid=NotMeasured("the facet is measured on the wood; the solid's octagon is regular"),
)
def facet_planed(p: Pattern) -> Bound:
    s = p.derive(StickDims).params
    return at_most(s.bottom_facet, 1.1 * octagon.facet(s.across_flats_butt))


@rule(
    "stick.wood_behind_mortise",
    "wood between the mortise and the butt",
    basis=PRACTICE,
    place=at("stick-handle", StickDims, lambda d: (d.params.mortise_from_butt / 2, 0.0)),
    solid=Along(("stick: butt", "stick: slot rear")),
)
def wood_behind_mortise(p: Pattern) -> Bound:
    s = p.derive(StickDims).params
    return at_least(s.mortise_from_butt, 2 * s.across_flats_butt)


@rule(
    "stick.nipple_wall",
    "wood round the bore in the nipple",
    basis=PRACTICE,
    place=at(
        "stick-butt",
        StickDims,
        lambda d: ((d.params.nipple_diameter + d.params.rear_bore) / 4, 0.0),
    ),
    solid=gap("stick: rear bore", "stick: nipple"),
)
def nipple_wall(p: Pattern) -> Bound:
    s = p.derive(StickDims).params
    return at_least((s.nipple_diameter - s.rear_bore) / 2, 0.85)


@rule(
    "stick.nipple_shoulder",
    "the button bears on a shoulder round the nipple",
    basis=PRACTICE,
    place=at(
        "stick-butt",
        StickDims,
        lambda d: ((d.params.across_flats_butt + d.params.nipple_diameter) / 4, 0.0),
    ),
    solid=Land(("stick: butt", "stick: nipple", "stick: flats")),
)
def nipple_shoulder(p: Pattern) -> Bound:
    s = p.derive(StickDims).params
    return at_least((s.across_flats_butt - s.nipple_diameter) / 2, 1.0)


@rule(
    "stick.never_thickens",
    "the stick never thickens toward the head",
    basis=f"{PRACTICE}: never as drawn; 0.1 here, for the tolerances at both ends",
    solid=NotMeasured("thicknesses at three places, not a wall"),
)
def never_thickens(p: Pattern) -> Bound:
    s = p.derive(StickDims).params
    falls = np.minimum(
        s.across_flats_butt - s.across_flats_handle_end, s.across_flats_handle_end - s.diameter_head
    )
    # A cylindrical handle within its tolerance does not count as thickening.
    return at_least(falls, -0.1)


@rule(
    "stick.camber_even",
    "the bend changes gently along the stick, by no more than a tenth in 25 mm",
    severity=Severity.WARNING,
    basis=f"{PRACTICE}; by the tension law four tenths, as a thickness that changes by a tenth",
    unit="1",
    solid=NotMeasured("the solid is the straight stick"),
)
def camber_even(p: Pattern) -> Bound:
    d = p.derive(StickDims)
    return at_most(d.camber.unevenness, 0.4 if d.params.camber is CamberKind.TENSION else 0.1)


@rule(
    "stick.bend_radius",
    "the wood can be bent so sharply at the thickness it is bent at",
    basis=PRACTICE,
    solid=NotMeasured("the solid is the straight stick"),
)
def bend_radius(p: Pattern) -> Bound:
    d = p.derive(StickDims)
    thickest = d.params.across_flats_handle_end + d.params.bent_oversize
    return at_least(d.bent_to, 33 * thickest)


RULES = (
    mortise_roof,
    mortise_cheeks,
    mortise_mouth,
    facet_planed,
    wood_behind_mortise,
    nipple_wall,
    nipple_shoulder,
    never_thickens,
    camber_even,
    bend_radius,
)


def faults(p: Pattern) -> Iterator[Fault]:
    """Measured tables that a stick cannot have, or that are asked for and missing."""
    s = p.derive(StickDims).params
    if s.graduation is GraduationKind.STATIONS:
        if s.stations:
            yield from _station_faults(p)
        else:
            yield fault_at(
                p, "stick.graduation", '"stations" needs [stick] stations', "state them as a list"
            )
    if s.camber is CamberKind.STATIONS:
        if s.camber_points:
            yield from _camber_faults(p)
        else:
            yield fault_at(
                p, "stick.camber", '"stations" needs [stick] camber_points', "state them as a list"
            )


def _station_faults(p: Pattern) -> Iterator[Fault]:
    d = p.derive(StickDims)
    s = d.params
    if (at := first_thickening(s.stations)) is not None:
        problem = f"the stick thickens toward the head at {at:g} mm"
        yield fault_at(p, "stick.stations", problem, "measure there again, or plane it first")
    for name, figure, x in (
        ("across_flats_handle_end", float(s.across_flats_handle_end), float(s.handle_length)),
        ("diameter_head", float(s.diameter_head), float(d.face_rear)),
    ):
        told = float(interpolated_diameter(x, s.stations))
        if abs(told - figure) > STATED_APART:
            problem = f"they say {told:.2f} at {x:.0f} mm, {name} says {figure:g}"
            yield fault_at(p, "stick.stations", problem, f"state {name} = {told:.2f}, or measure")


def _camber_faults(p: Pattern) -> Iterator[Fault]:
    d = p.derive(StickDims)
    s = d.params
    if (at := reversed_bend(s.camber_points, float(d.chord))) is not None:
        problem = f"the camber bends the other way near {at:.0f} mm from the ferrule"
        yield fault_at(p, "stick.camber_points", problem, "measure there again")
    deepest, told = max(depth for _, depth in s.camber_points), float(s.camber_depth)
    if abs(deepest - told) > 2 * STATED_APART:
        problem = f"they are {deepest:g} deep at most, camber_depth says {told:g}"
        yield fault_at(p, "stick.camber_points", problem, f"state camber_depth = {deepest:g}")
