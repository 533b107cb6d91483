"""The clearances of the heel plate."""

from __future__ import annotations

from collections.abc import Iterator

from templates_gen.checks.rule import Bound, Severity, at, at_least, at_most, nothing_asked, rule
from templates_gen.checks.solid import Along, Land, NotMeasured, gap
from templates_gen.errors import Fault
from templates_gen.parameters import Pattern
from templates_gen.parameters.faults import fault_at
from templates_gen.parts.heel.dims import HeelDims
from templates_gen.parts.heel.params import HeelKind

PRACTICE = "common practice, no source"


@rule(
    "heel.leg_least",
    "ferrule and slide leave room for the heel's leg",
    basis=PRACTICE,
    place=at("frog-bottom", HeelDims, lambda d: (d.leg_zone / 2, 0.0)),
    solid=Along(("frog: heel + heel: outside", "slide: rear")),
)
def leg_least(p: Pattern) -> Bound:
    return at_least(p.derive(HeelDims).leg_zone, 4.0)


@rule(
    "heel.leg_most",
    "the slide reaches far enough to the heel",
    basis=PRACTICE,
    place=at("frog-bottom", HeelDims, lambda d: (d.leg_zone / 2, 0.0)),
    solid=Along(("frog: heel + heel: outside", "slide: rear")),
)
def leg_most(p: Pattern) -> Bound:
    return at_most(p.derive(HeelDims).leg_zone, 9.0)


@rule(
    "heel.meets_slide",
    "the plate's leg reaches the slide",
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=at("heel-plate", HeelDims, lambda d: (0.0, 0.0)),
    solid=Along(("heel: leg end", "slide: rear")),
)
def meets_slide(p: Pattern) -> Bound:
    d = p.derive(HeelDims)
    if not d.plated:
        return nothing_asked()
    return at_most(d.leg_zone - d.params.leg_length, 0.3)


@rule(
    "heel.overlaps_slide",
    "the slide runs no more than a little beneath the plate",
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=at("heel-plate", HeelDims, lambda d: (0.0, 0.0)),
    solid=Along(("heel: leg end", "slide: rear"), times=-1.0),
)
def overlaps_slide(p: Pattern) -> Bound:
    d = p.derive(HeelDims)
    if not d.plated:
        return nothing_asked()
    return at_most(d.params.leg_length - d.leg_zone, 1.5)


@rule(
    "heel.leg_straight",
    "the heel's rounding leaves the bottom leg a flat",
    basis=PRACTICE,
    place=at("heel-plate", HeelDims, lambda d: (d.bottom_straight / 2, 0.0)),
    solid=Land(("heel: bottom", "heel: rounding", "heel: leg end")),
)
def leg_straight(p: Pattern) -> Bound:
    d = p.derive(HeelDims)
    return at_least(d.bottom_straight, 1.5) if d.plated else nothing_asked()


@rule(
    "heel.rear_straight",
    "the heel's rounding leaves the rear leg a flat",
    basis=PRACTICE,
    place=at("frog-rear", HeelDims, lambda d: (0.0, d.params.rear_leg - d.rear_straight / 2)),
    solid=Land(("heel: rear", "heel: rounding", "heel: top")),
)
def rear_straight(p: Pattern) -> Bound:
    d = p.derive(HeelDims)
    return at_least(d.rear_straight, 3.0) if d.plated else nothing_asked()


@rule(
    "heel.rear_top",
    "the rear leg ends below the heel's upper rounding",
    basis="the plate must lie on a flat; geometry",
    place=at("frog-rear", HeelDims, lambda d: (0.0, d.params.rear_leg)),
    solid=Land(("frog: rear", "frog: plate bed", "frog: heel rounding"), limit=0.0),
)
def rear_top(p: Pattern) -> Bound:
    """Less than the solid's where the heel leans: it compares heights; the rounding takes less."""
    d = p.derive(HeelDims)
    if not d.plated:
        return nothing_asked()
    return at_least(d.frog.overall_height - d.params.top_radius, d.params.rear_leg)


@rule(
    "heel.pin_edge",
    "the pins stand clear of the plate's edge",
    basis=PRACTICE,
    place=at("frog-rear", HeelDims, lambda d: (0.0, d.pin_heights[1])),
    solid=gap("heel: pins", "heel: top"),
)
def pin_edge(p: Pattern) -> Bound:
    d = p.derive(HeelDims)
    edge = d.params.pin_from_edge - d.params.pin_diameter / 2
    return at_least(edge, 1.5) if d.plated else nothing_asked()


@rule(
    "heel.pins_apart",
    "the rear leg is long enough for its two pins, with wood between them",
    basis=PRACTICE,
    place=at("frog-rear", HeelDims, lambda d: (0.0, d.pin_heights[1])),
    solid=NotMeasured("both pins' holes are one group of faces"),
)
def pins_apart(p: Pattern) -> Bound:
    d = p.derive(HeelDims)
    wood = d.pins_apart - d.params.pin_diameter
    return at_least(wood, 0.5) if d.plated else nothing_asked()


@rule(
    "heel.pin_length",
    "the pins end before they reach the hair mortise",
    basis=PRACTICE,
    place=at("frog-rear", HeelDims, lambda d: (0.0, d.pin_heights[0])),
    solid=gap("heel: pins", "frog: mortise"),
)
def pin_length(p: Pattern) -> Bound:
    """Less than the solid's where a pin stands above the mortise."""
    d = p.derive(HeelDims)
    if not d.plated:
        return nothing_asked()
    return at_least(d.pin_to_mortise, 0.5)


RULES = (
    leg_least,
    leg_most,
    meets_slide,
    overlaps_slide,
    leg_straight,
    rear_straight,
    rear_top,
    pin_edge,
    pins_apart,
    pin_length,
)


def faults(p: Pattern) -> Iterator[Fault]:
    """A bend no sheet can make."""
    s = p.derive(HeelDims).params
    if s.kind is HeelKind.ONE_PIECE and s.bottom_radius < s.plate_thickness:
        yield fault_at(
            p,
            "heel.bottom_radius",
            f"{s.bottom_radius:g} mm round is less than the {s.plate_thickness:g} mm sheet",
            'make it larger, or state kind = "two-piece"',
        )
