"""The clearances of the underslide."""

from templates_gen.checks.rule import Bound, at, at_least, at_most, nothing_asked, rule
from templates_gen.checks.solid import Land, NotMeasured
from templates_gen.parameters import Pattern
from templates_gen.parts.underslide.dims import UnderslideDims


@rule(
    "underslide.corner",
    "the stick's corners stand clear of the rounding in the lining's bends",
    basis="geometry: the bend must not reach the corner of the least facet",
    place=at("underslide", UnderslideDims, lambda d: (d.start, d.bend_line(d.start))),
    solid=NotMeasured("the lining's solid has sharp bends"),
)
def corner(p: Pattern) -> Bound:
    d = p.derive(UnderslideDims)
    if not d.lined:
        return nothing_asked()
    return at_most(d.bend_setback, d.frog.land_relief / 2**0.5)


@rule(
    "underslide.wings",
    "the lining's wings reach far enough up the diagonals to carry",
    basis="common practice, no source",
    place=at("underslide", UnderslideDims, lambda d: (d.start, d.flat_width(d.start) / 2)),
    solid=Land(("underslide: wings", "underslide: land", "underslide: tops"), times=0.5**0.5),
)
def wings(p: Pattern) -> Bound:
    d = p.derive(UnderslideDims)
    return at_least(d.least_stop, 1.0)


RULES = (corner, wings)
