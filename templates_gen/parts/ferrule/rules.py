"""The clearances of the ferrule."""

from templates_gen.checks.rule import Bound, Severity, at_least, at_most, rule
from templates_gen.parameters import Pattern
from templates_gen.parts.ferrule.dims import FerruleDims

PRACTICE = "common practice, no source"


@rule("ferrule.ribbon_fits", "the ribbon lies flat between the arch's walls", basis=PRACTICE)
def ribbon_fits(p: Pattern) -> Bound:
    d = p.derive(FerruleDims)
    return at_least(d.inside_width, d.hair.ribbon_width + 0.6)


@rule("ferrule.wedge_spreads", "the arch leaves the wedge its width above the hair", basis=PRACTICE)
def wedge_spreads(p: Pattern) -> Bound:
    d = p.derive(FerruleDims)
    return at_least(d.ribbon_room, d.hair.ribbon_width - 0.5)


@rule("ferrule.tongue_height", "the frog's tongue is thick enough to hold", basis=PRACTICE)
def tongue_height(p: Pattern) -> Bound:
    d = p.derive(FerruleDims)
    return at_least(d.tongue_height, 4.0 if d.bass else 2.4)


@rule(
    "ferrule.plate",
    "the plate is stiff enough for its width",
    severity=Severity.WARNING,
    basis=PRACTICE,
)
def plate(p: Pattern) -> Bound:
    d = p.derive(FerruleDims)
    return at_least(d.stated.plate_thickness, d.least_plate)


@rule("ferrule.tongue_slides", "the tongue goes in", basis=PRACTICE)
def tongue_slides(p: Pattern) -> Bound:
    return at_least(p.derive(FerruleDims).stated.tongue_fit, 0.05)


@rule("ferrule.tongue_holds", "the tongue does not rattle", basis=PRACTICE)
def tongue_holds(p: Pattern) -> Bound:
    return at_most(p.derive(FerruleDims).stated.tongue_fit, 0.15)


@rule("ferrule.taper_enters", "the tongue tapers enough to enter", basis=PRACTICE)
def taper_enters(p: Pattern) -> Bound:
    return at_least(p.derive(FerruleDims).stated.tongue_taper, 0.1)


@rule("ferrule.taper_holds", "the tongue tapers little enough to hold", basis=PRACTICE)
def taper_holds(p: Pattern) -> Bound:
    return at_most(p.derive(FerruleDims).stated.tongue_taper, 0.2)


RULES = (
    ribbon_fits,
    wedge_spreads,
    tongue_height,
    plate,
    tongue_slides,
    tongue_holds,
    taper_enters,
    taper_holds,
)
