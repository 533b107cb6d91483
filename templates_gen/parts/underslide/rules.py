"""Rules of the underslide."""

from templates_gen.checks import Bound, Land, NotMeasured, at_least, at_most, rule
from templates_gen.parts.underslide.dims import UnderslideDims


@rule(
    "underslide.corner",
    "the corners of the stick clear the inside radius of the lining's bends",
    dims=UnderslideDims,
    basis="geometry: the bend must not reach the corner of the narrowest facet",
    place=("underslide", lambda d: (d.start, d.bend_line(d.start))),
    applies=lambda d: d.lined,
    solid=NotMeasured("the lining's solid has sharp bends"),
)
def corner(d: UnderslideDims) -> Bound:
    return at_most(d.bend_setback, d.frog.land_relief / 2**0.5)


@rule(
    "underslide.wings",
    "the lining's wings reach far enough up the diagonal facets to carry the stick",
    dims=UnderslideDims,
    basis="common practice, no source",
    place=("underslide", lambda d: (d.start, d.flat_width(d.start) / 2)),
    solid=Land(("underslide: wings", "underslide: land", "underslide: tops"), times=0.5**0.5),
)
def wings(d: UnderslideDims) -> Bound:
    return at_least(d.least_stop, 1.0)
