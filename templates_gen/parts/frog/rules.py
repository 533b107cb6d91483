"""Rules of the frog's outline and seat."""

import numpy as np

from templates_gen.checks import (
    Bound,
    Extent,
    Land,
    NotMeasured,
    Radius,
    Severity,
    at_least,
    at_most,
    gap,
    rule,
)
from templates_gen.parts.frog.dims import RUN_OUT, FrogDims
from templates_gen.parts.frog.dims_walls import FrogWalls

PRACTICE = "common practice, no source"


@rule(
    "frog.does_not_rock",
    "the land is narrower than every facet it rests on, so that the frog does not rock",
    dims=FrogDims,
    basis=PRACTICE,
    place=(
        "frog-seat-gauge",
        lambda d: (d.seat.land_at(d.seat.eyelet.from_heel) / 2, d.seat.land_drop),
    ),
    solid=NotMeasured("widths of facets over the whole travel, not a wall"),
)
def does_not_rock(d: FrogDims) -> Bound:
    return at_least(d.seat.stick.least_facet - d.seat.land, 0.05)


@rule(
    "frog.seat_over_travel",
    "the seat fits the taper of the handle at both ends of the frog's travel",
    dims=FrogDims,
    basis=PRACTICE,
    place=(
        "frog-side",
        lambda d: (d.params.length_top / 2, d.seat.land_height(d.params.length_top / 2)),
    ),
    solid=NotMeasured("a taper over the whole travel, not a wall"),
)
def seat_over_travel(d: FrogDims) -> Bound:
    stick = d.seat.stick
    reach = (stick.eyelet_front - stick.eyelet_rear) / 4
    return at_most(np.abs(stick.taper) * reach, 0.05)


@rule(
    "frog.edges_height",
    "the top edges stay below the upper end of the diagonal facets",
    dims=FrogDims,
    basis=PRACTICE,
    place=("frog-side", lambda d: (d.params.length_top / 2, d.params.overall_height)),
    solid=NotMeasured("the difference of two given heights, not a wall"),
)
def edges_height(d: FrogDims) -> Bound:
    rise = d.params.overall_height - d.params.clear_height
    return at_most(rise, 0.27 * d.seat.stick.least_across_flats)


@rule(
    "frog.edges_thickness",
    "the top edges are thick enough",
    dims=FrogWalls,
    basis=PRACTICE,
    place=("frog-rear", lambda w: (w.frog.params.width_top / 2, w.frog.params.overall_height)),
    solid=Land(("frog: top", "frog: seat", "frog: flank + frog: cone")),
)
def edges_thickness(w: FrogWalls) -> Bound:
    """Less than the solid's: it includes the roundings at heel and tip."""
    return at_least(w.edge_thickness, 0.3)


@rule(
    "frog.edges_in_block",
    "the top edges are no wider than the frog is at the bottom",
    dims=FrogDims,
    basis="geometry: they are cut from the same block, whose sides are upright",
    place=("frog-rear", lambda d: (d.params.width_top / 2, d.params.overall_height)),
    solid=NotMeasured("widths of the block, not a wall"),
)
def edges_in_block(d: FrogDims) -> Bound:
    narrowest = np.minimum(d.half_width(0.0), d.half_width(d.params.length_top))
    return at_least(2 * narrowest, d.params.width_top)


@rule(
    "frog.edges_rise",
    "the top edges rise above the facet",
    dims=FrogDims,
    basis="geometry",
    place=("frog-side", lambda d: (d.params.length_top / 2, d.params.clear_height)),
    solid=NotMeasured("the difference of two given heights, not a wall"),
)
def edges_rise(d: FrogDims) -> Bound:
    s = d.params
    return at_least(s.overall_height - s.clear_height, 0.0)


@rule(
    "frog.seat_over_plate",
    "enough ebony remains between the upper edge of the heel plate and the seat",
    dims=FrogWalls,
    basis=f"{PRACTICE}: the stick rests in the seat, and a plate that reaches it marks the stick",
    place=(
        "frog-rear",
        lambda w: (
            0.0,
            w.frog.heel.params.rear_leg * np.cos(np.radians(w.frog.heel.params.lean_deg)),
        ),
    ),
    applies=lambda w: w.frog.heel.plated,
    solid=gap("heel: top", "frog: seat"),
)
def seat_over_plate(w: FrogWalls) -> Bound:
    """Less than the solid's where the heel leans: it is measured upright."""
    return at_least(w.seat_over_plate, 0.3)


@rule(
    "frog.throat_undercut",
    "the throat does not undercut the shoulder behind the ferrule",
    dims=FrogDims,
    basis="geometry",
    place=("frog-side", lambda d: (d.shoulder, d.ferrule.params.height)),
    solid=NotMeasured("the throat's shape, not a wall"),
)
def throat_undercut(d: FrogDims) -> Bound:
    t = d.throat
    return at_least(t.rise, t.depth)


@rule(
    "frog.throat_arcs",
    "both arcs of the throat are wide enough to cut and polish",
    dims=FrogDims,
    basis=PRACTICE,
    place=("frog-side", lambda d: (d.throat.deepest, d.throat.height)),
    solid=Radius(("frog: throat",)),
)
def throat_arcs(d: FrogDims) -> Bound:
    t = d.throat
    return at_least(np.minimum(t.lower_radius, t.upper_radius), 2.0)


@rule(
    "frog.thumb_line",
    "the underside of the thumb projection has a straight part",
    dims=FrogWalls,
    basis="the player's thumb rests on it; common practice, no source",
    place=(
        "frog-side",
        lambda w: (
            (w.frog.throat.joins_thumb[0] + w.frog.throat.tip) / 2,
            (w.frog.throat.joins_thumb[1] + w.frog.throat.tip_height) / 2,
        ),
    ),
    solid=Extent(("frog: thumb",), axis="x"),
)
def thumb_line(w: FrogWalls) -> Bound:
    d = w.frog
    return at_least(w.thumb_straight, 1.5 * d.params.thumb_tip_thickness)


@rule(
    "frog.waist_behind_throat",
    "enough ebony remains between the throat and the heel",
    dims=FrogDims,
    basis=PRACTICE,
    place=(
        "frog-side",
        lambda d: ((d.throat.deepest + d.heel_lean) / 2, d.params.throat_centre_height),
    ),
    solid=gap("frog: throat", "frog: rear + frog: plate rear"),
)
def waist_behind_throat(d: FrogDims) -> Bound:
    """Less than the solid's: it takes the heel's lean at the height of the edges."""
    ebony = d.throat.deepest - d.heel_lean - d.heel.sheet
    return at_least(ebony, np.maximum(8.0, d.params.throat_depth))


@rule(
    "frog.waist_to_top",
    "the waist is narrower than the frog at its top edges",
    dims=FrogDims,
    basis="geometry: with less than 0.1 there is no hollow",
    place=("frog-section-waist", lambda d: (d.params.width_top / 2, d.params.overall_height)),
    solid=NotMeasured("two given widths, not a wall"),
)
def waist_to_top(d: FrogDims) -> Bound:
    s = d.params
    return at_least(s.width_top, s.width_waist + 0.1)


@rule(
    "frog.waist_to_heel",
    "the waist is narrower than the heel",
    dims=FrogDims,
    basis="geometry: with less than 0.1 there is no hollow",
    place=("frog-section-waist", lambda d: (d.params.width_waist / 2, d.flank.waist_height)),
    solid=NotMeasured("two given widths, not a wall"),
)
def waist_to_heel(d: FrogDims) -> Bound:
    s = d.params
    return at_least(s.width_heel, s.width_waist + 0.1)


@rule(
    "frog.band",
    "the straight band of the flank, at the heel, is higher than the slide's dovetail",
    dims=FrogDims,
    basis=PRACTICE,
    place=("frog-rear", lambda d: (d.params.width_heel / 2, d.params.flank_band)),
    solid=NotMeasured("a height given at the heel; frog.dovetail_wall measures the wood there"),
)
def band(d: FrogDims) -> Bound:
    return at_least(d.params.flank_band, d.slide.params.thickness + 0.8)


@rule(
    "frog.hollow_runs_out",
    "the hollow of the flank runs out between the deepest point of the throat and the shoulder",
    dims=FrogDims,
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=("frog-side", lambda d: (d.run_out, d.ferrule.params.height)),
    solid=NotMeasured("where a curve begins, not a wall"),
)
def hollow_runs_out(d: FrogDims) -> Bound:
    return at_least(d.run_out + RUN_OUT, d.throat.deepest)
