"""Rules of the heel plate."""

from __future__ import annotations

from collections.abc import Iterator

from templates_gen.checks import (
    Along,
    Bound,
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
from templates_gen.parts.heel.dims import HeelDims
from templates_gen.parts.heel.params import HeelKind

PRACTICE = "common practice, no source"


@rule(
    "heel.leg_least",
    "ferrule and slide leave enough length for the heel's bottom leg",
    dims=HeelDims,
    basis=PRACTICE,
    place=("frog-bottom", lambda d: (d.leg_zone / 2, 0.0)),
    solid=Along(("frog: heel + heel: outside", "slide: rear")),
)
def leg_least(d: HeelDims) -> Bound:
    return at_least(d.leg_zone, 4.0)


@rule(
    "heel.leg_most",
    "the slide reaches close enough to the heel",
    dims=HeelDims,
    basis=PRACTICE,
    place=("frog-bottom", lambda d: (d.leg_zone / 2, 0.0)),
    solid=Along(("frog: heel + heel: outside", "slide: rear")),
)
def leg_most(d: HeelDims) -> Bound:
    return at_most(d.leg_zone, 9.0)


@rule(
    "heel.meets_slide",
    "the leg of the plate reaches the slide",
    dims=HeelDims,
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=("heel-plate", lambda d: (0.0, 0.0)),
    applies=lambda d: d.plated,
    solid=Along(("heel: leg end", "slide: rear")),
)
def meets_slide(d: HeelDims) -> Bound:
    return at_most(d.leg_zone - d.params.leg_length, 0.3)


@rule(
    "heel.overlaps_slide",
    "the slide runs only a little way under the plate",
    dims=HeelDims,
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=("heel-plate", lambda d: (0.0, 0.0)),
    applies=lambda d: d.plated,
    solid=Along(("heel: leg end", "slide: rear"), times=-1.0),
)
def overlaps_slide(d: HeelDims) -> Bound:
    return at_most(d.params.leg_length - d.leg_zone, 1.5)


@rule(
    "heel.leg_straight",
    "the heel's rounding leaves a flat on the bottom leg",
    dims=HeelDims,
    basis=PRACTICE,
    place=("heel-plate", lambda d: (d.bottom_straight / 2, 0.0)),
    applies=lambda d: d.plated,
    solid=Land(("heel: bottom", "heel: rounding", "heel: leg end")),
)
def leg_straight(d: HeelDims) -> Bound:
    return at_least(d.bottom_straight, 1.5)


@rule(
    "heel.rear_straight",
    "the heel's rounding leaves a flat on the rear leg",
    dims=HeelDims,
    basis=PRACTICE,
    place=("frog-rear", lambda d: (0.0, d.params.rear_leg - d.rear_straight / 2)),
    applies=lambda d: d.plated,
    solid=Land(("heel: rear", "heel: rounding", "heel: top")),
)
def rear_straight(d: HeelDims) -> Bound:
    return at_least(d.rear_straight, 3.0)


@rule(
    "heel.rear_top",
    "the rear leg ends below the rounding at the top of the heel",
    dims=HeelDims,
    basis="the plate must lie on a flat; geometry",
    place=("frog-rear", lambda d: (0.0, d.params.rear_leg)),
    applies=lambda d: d.plated,
    solid=Land(("frog: rear", "frog: plate bed", "frog: heel rounding"), limit=0.0),
)
def rear_top(d: HeelDims) -> Bound:
    """Less than the solid's where the heel leans: it compares heights; the rounding takes less."""
    return at_least(d.frog.overall_height - d.params.top_radius, d.params.rear_leg)


@rule(
    "heel.pin_edge",
    "the pins are far enough from the edge of the plate",
    dims=HeelDims,
    basis=PRACTICE,
    place=("frog-rear", lambda d: (0.0, d.pin_heights[1])),
    applies=lambda d: d.plated,
    solid=gap("heel: pins", "heel: top"),
)
def pin_edge(d: HeelDims) -> Bound:
    edge = d.params.pin_from_edge - d.params.pin_diameter / 2
    return at_least(edge, 1.5)


@rule(
    "heel.pins_apart",
    "the rear leg is long enough for two pins with ebony between them",
    dims=HeelDims,
    basis=PRACTICE,
    place=("frog-rear", lambda d: (0.0, d.pin_heights[1])),
    applies=lambda d: d.plated,
    solid=NotMeasured("both pins' holes are one group of faces"),
)
def pins_apart(d: HeelDims) -> Bound:
    wood = d.pins_apart - d.params.pin_diameter
    return at_least(wood, 0.5)


@rule(
    "heel.pin_to_mortise",
    "the pins end before they reach the hair mortise",
    dims=HeelDims,
    basis=PRACTICE,
    place=("frog-rear", lambda d: (0.0, d.pin_heights[0])),
    applies=lambda d: d.plated,
    solid=gap("heel: pins", "frog: mortise"),
)
def pin_length(d: HeelDims) -> Bound:
    """Less than the solid's where a pin stands above the mortise."""
    return at_least(d.pin_to_mortise, 0.5)


def faults(p: Pattern) -> Iterator[Fault]:
    """Find a bend too sharp for its sheet."""
    s = p.scalars(HeelDims).params
    if s.kind is HeelKind.ONE_PIECE and s.bottom_radius < s.plate_thickness:
        yield fault_at(
            p,
            "heel.bottom_radius",
            f"{s.bottom_radius:g} mm is less than the {s.plate_thickness:g} mm of the sheet",
            'make it larger, or set kind = "two-piece"',
        )
