"""The clearances of the frog's outline and seat."""

import numpy as np

from templates_gen.checks.rule import Bound, Severity, at, at_least, at_most, nothing_asked, rule
from templates_gen.checks.solid import Extent, Land, NotMeasured, Radius, gap
from templates_gen.parameters import Pattern
from templates_gen.parts.frog import rules_eye, rules_pockets
from templates_gen.parts.frog.dims import RUN_OUT, FrogDims
from templates_gen.parts.frog.dims_walls import FrogWalls

PRACTICE = "common practice, no source"


@rule(
    "frog.does_not_rock",
    "the land is narrower than every facet it meets",
    basis=PRACTICE,
    place=at(
        "frog-seat-gauge",
        FrogDims,
        lambda d: (d.seat.land_at(d.seat.eyelet.from_heel) / 2, d.seat.land_drop),
    ),
    solid=NotMeasured("widths of facets over the whole travel, not a wall"),
)
def does_not_rock(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    return at_least(d.seat.stick.least_facet - d.seat.land, 0.05)


@rule(
    "frog.seat_over_travel",
    "the seat fits the handle's taper at both ends of the frog's travel",
    basis=PRACTICE,
    place=at(
        "frog-side",
        FrogDims,
        lambda d: (d.params.length_top / 2, d.seat.land_height(d.params.length_top / 2)),
    ),
    solid=NotMeasured("a taper over the whole travel, not a wall"),
)
def seat_over_travel(p: Pattern) -> Bound:
    stick = p.derive(FrogDims).seat.stick
    reach = (stick.eyelet_front - stick.eyelet_rear) / 4
    return at_most(np.abs(stick.taper) * reach, 0.05)


@rule(
    "frog.edges_height",
    "the edges do not climb past the diagonal facets",
    basis=PRACTICE,
    place=at("frog-side", FrogDims, lambda d: (d.params.length_top / 2, d.params.overall_height)),
    solid=NotMeasured("the difference of two heights that are stated, not a wall"),
)
def edges_height(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    rise = d.params.overall_height - d.params.clear_height
    return at_most(rise, 0.27 * d.seat.stick.least_across_flats)


@rule(
    "frog.edges_thickness",
    "the edges are thick enough at their tops",
    basis=PRACTICE,
    place=at("frog-rear", FrogDims, lambda d: (d.params.width_top / 2, d.params.overall_height)),
    solid=Land(("frog: top", "frog: seat", "frog: flank + frog: cone")),
)
def edges_thickness(p: Pattern) -> Bound:
    """Less than the solid's: it includes the places of the roundings at heel and tip."""
    return at_least(p.derive(FrogWalls).edge_thickness, 0.3)


@rule(
    "frog.edges_in_block",
    "the top edges are no wider than the frog is at the bottom",
    basis="geometry: they are cut from the same block, whose sides stand upright",
    place=at("frog-rear", FrogDims, lambda d: (d.params.width_top / 2, d.params.overall_height)),
    solid=NotMeasured("widths of the block, no wall"),
)
def edges_in_block(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    narrowest = np.minimum(d.half_width(0.0), d.half_width(d.params.length_top))
    return at_least(2 * narrowest, d.params.width_top)


@rule(
    "frog.edges_rise",
    "the edges stand above the facet",
    basis="geometry",
    place=at("frog-side", FrogDims, lambda d: (d.params.length_top / 2, d.params.clear_height)),
    solid=NotMeasured("the difference of two heights that are stated, not a wall"),
)
def edges_rise(p: Pattern) -> Bound:
    s = p.derive(FrogDims).params
    return at_least(s.overall_height - s.clear_height, 0.0)


@rule(
    "frog.seat_over_plate",
    "ebony between the heel plate's upper edge and the seat",
    basis=f"{PRACTICE}: the stick lies in the seat, and a plate that reaches it marks the stick",
    place=at(
        "frog-rear",
        FrogDims,
        lambda d: (0.0, d.heel.params.rear_leg * np.cos(np.radians(d.heel.params.lean_deg))),
    ),
    solid=gap("heel: top", "frog: seat"),
)
def seat_over_plate(p: Pattern) -> Bound:
    """Less than the solid's where the heel leans: it is measured upright."""
    if not p.derive(FrogDims).heel.plated:
        return nothing_asked()
    return at_least(p.derive(FrogWalls).seat_over_plate, 0.3)


@rule(
    "frog.throat_undercut",
    "the throat does not undercut the ferrule's seat",
    basis="geometry",
    place=at("frog-side", FrogDims, lambda d: (d.shoulder, d.ferrule.params.height)),
    solid=NotMeasured("the throat's shape, not a wall"),
)
def throat_undercut(p: Pattern) -> Bound:
    t = p.derive(FrogDims).throat
    return at_least(t.rise, t.depth)


@rule(
    "frog.throat_arcs",
    "both arcs of the throat can be cut and polished",
    basis=PRACTICE,
    place=at("frog-side", FrogDims, lambda d: (d.throat.deepest, d.throat.height)),
    solid=Radius(("frog: throat",)),
)
def throat_arcs(p: Pattern) -> Bound:
    t = p.derive(FrogDims).throat
    return at_least(np.minimum(t.lower_radius, t.upper_radius), 2.0)


@rule(
    "frog.thumb_line",
    "the thumb projection has a straight line under it",
    basis="the player's thumb rests on it; common practice, no source",
    place=at(
        "frog-side",
        FrogDims,
        lambda d: (
            (d.throat.joins_thumb[0] + d.throat.tip) / 2,
            (d.throat.joins_thumb[1] + d.throat.tip_height) / 2,
        ),
    ),
    solid=Extent(("frog: thumb",), axis="x"),
)
def thumb_line(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    return at_least(p.derive(FrogWalls).thumb_straight, 1.5 * d.params.thumb_tip_thickness)


@rule(
    "frog.waist_behind_throat",
    "ebony between the throat and the heel",
    basis=PRACTICE,
    place=at(
        "frog-side",
        FrogDims,
        lambda d: ((d.throat.deepest + d.heel_lean) / 2, d.params.throat_centre_height),
    ),
    solid=gap("frog: throat", "frog: rear + frog: plate rear"),
)
def waist_behind_throat(p: Pattern) -> Bound:
    """Less than the solid's: it takes the heel's lean at the height of the edges."""
    d = p.derive(FrogDims)
    ebony = d.throat.deepest - d.heel_lean - d.heel.sheet
    return at_least(ebony, np.maximum(8.0, d.params.throat_depth))


@rule(
    "frog.waist_to_top",
    "the waist is narrower than the top edges",
    basis="geometry: with less than 0.1 there is no hollow",
    place=at(
        "frog-section-waist", FrogDims, lambda d: (d.params.width_top / 2, d.params.overall_height)
    ),
    solid=NotMeasured("two widths that are stated, not a wall"),
)
def waist_to_top(p: Pattern) -> Bound:
    s = p.derive(FrogDims).params
    return at_least(s.width_top, s.width_waist + 0.1)


@rule(
    "frog.waist_to_heel",
    "the waist is narrower than the heel",
    basis="geometry: with less than 0.1 there is no hollow",
    place=at(
        "frog-section-waist", FrogDims, lambda d: (d.params.width_waist / 2, d.flank.waist_height)
    ),
    solid=NotMeasured("two widths that are stated, not a wall"),
)
def waist_to_heel(p: Pattern) -> Bound:
    s = p.derive(FrogDims).params
    return at_least(s.width_heel, s.width_waist + 0.1)


@rule(
    "frog.band",
    "the flank's straight band, at the heel, stands higher than the slide's dovetail",
    basis=PRACTICE,
    place=at("frog-rear", FrogDims, lambda d: (d.params.width_heel / 2, d.params.flank_band)),
    solid=NotMeasured("a height stated at the heel; the wood there is frog.dovetail_wall's"),
)
def band(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    return at_least(d.params.flank_band, d.slide.params.thickness + 0.8)


@rule(
    "frog.hollow_runs_out",
    "the flank's hollow runs out behind the shoulder, ahead of the throat's deepest place",
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=at("frog-side", FrogDims, lambda d: (d.run_out, d.ferrule.params.height)),
    solid=NotMeasured("where a curve begins, not a wall"),
)
def hollow_runs_out(p: Pattern) -> Bound:
    d = p.derive(FrogDims)
    return at_least(d.run_out + RUN_OUT, d.throat.deepest)


RULES = (
    does_not_rock,
    seat_over_travel,
    edges_height,
    edges_thickness,
    edges_in_block,
    edges_rise,
    seat_over_plate,
    throat_undercut,
    throat_arcs,
    thumb_line,
    waist_behind_throat,
    waist_to_top,
    waist_to_heel,
    band,
    hollow_runs_out,
    *rules_pockets.RULES,
    *rules_eye.RULES,
)
