"""The clearances of the ferrule."""

from __future__ import annotations

from collections.abc import Iterator

from templates_gen.checks.rule import Bound, Severity, at, at_least, at_most, rule
from templates_gen.checks.solid import Extent, NotMeasured, gap
from templates_gen.errors import Fault
from templates_gen.parameters import Pattern
from templates_gen.parameters.faults import fault_at
from templates_gen.parts.ferrule.dims import FerruleDims
from templates_gen.shapes.arch import ArchKind

PRACTICE = "common practice, no source"
#: Least inside radius (mm) of a corner of the arch: strip is not bent to a sharp edge. Our choice.
INSIDE_CORNER = 0.1


@rule(
    "ferrule.ribbon_fits",
    "the ribbon lies flat between the arch's walls",
    basis=PRACTICE,
    place=at("ferrule-mandrel", FerruleDims, lambda d: (d.inside_width / 2, 0.0)),
    solid=Extent(("ferrule: plate top",), axis="x"),
)
def ribbon_fits(p: Pattern) -> Bound:
    d = p.derive(FerruleDims)
    return at_least(d.inside_width, d.hair.ribbon_width + 0.6)


@rule(
    "ferrule.wedge_spreads",
    "the arch leaves the wedge its width above the hair",
    basis=PRACTICE,
    place=at("ferrule-mandrel", FerruleDims, lambda d: (d.ribbon_room / 2, d.hair.thickness)),
    solid=NotMeasured("at the height of the hair, which is not built as a solid"),
)
def wedge_spreads(p: Pattern) -> Bound:
    d = p.derive(FerruleDims)
    return at_least(d.ribbon_room, d.hair.ribbon_width - 0.5)


@rule(
    "ferrule.wedge_thin_end",
    "the spread wedge's thin end is thick enough to cut from wood",
    basis=PRACTICE,
    place=at("ferrule-spread-wedge", FerruleDims, lambda d: (0.0, 0.0)),
    solid=NotMeasured("the wedge is not built as a solid"),
)
def wedge_thin_end(p: Pattern) -> Bound:
    return at_least(p.derive(FerruleDims).wedge_thin, 0.15)


@rule(
    "ferrule.tongue_height",
    "the frog's tongue is thick enough to hold",
    basis=PRACTICE,
    place=at(
        "ferrule-mandrel",
        FerruleDims,
        lambda d: (0.0, d.rebate_step - d.params.plate_thickness + d.tongue_height / 2),
    ),
    solid=Extent(("frog: tongue end",), axis="z"),
)
def tongue_height(p: Pattern) -> Bound:
    """Less than the solid's: it keeps 0.1 clear under the arch, whatever the tongue's fit."""
    d = p.derive(FerruleDims)
    return at_least(d.tongue_height, 4.0 if d.bass else 2.4)


@rule(
    "ferrule.plate",
    "the plate is stiff enough for its width",
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=at("ferrule-mandrel", FerruleDims, lambda d: (0.0, -d.params.plate_thickness / 2)),
    solid=gap("ferrule: plate top", "ferrule: plate bottom"),
)
def plate(p: Pattern) -> Bound:
    d = p.derive(FerruleDims)
    return at_least(d.params.plate_thickness, d.least_plate)


@rule(
    "ferrule.tongue_slides",
    "the tongue goes in",
    basis=PRACTICE,
    place=at(
        "ferrule-mandrel", FerruleDims, lambda d: (0.0, d.arch_height - d.params.arch_thickness)
    ),
    solid=gap("frog: tongue", "ferrule: opening", times=2.0),
)
def tongue_slides(p: Pattern) -> Bound:
    return at_least(p.derive(FerruleDims).params.tongue_fit, 0.05)


@rule(
    "ferrule.tongue_holds",
    "the tongue does not rattle",
    basis=PRACTICE,
    place=at(
        "ferrule-mandrel", FerruleDims, lambda d: (0.0, d.arch_height - d.params.arch_thickness)
    ),
    solid=gap("frog: tongue", "ferrule: opening", times=2.0),
)
def tongue_holds(p: Pattern) -> Bound:
    return at_most(p.derive(FerruleDims).params.tongue_fit, 0.15)


@rule(
    "ferrule.taper_enters",
    "the tongue tapers enough to enter",
    basis=PRACTICE,
    place=at("ferrule-mandrel", FerruleDims, lambda d: (d.inside_width / 2, 0.5)),
    solid=NotMeasured("a taper, not a wall"),
)
def taper_enters(p: Pattern) -> Bound:
    return at_least(p.derive(FerruleDims).params.tongue_taper, 0.1)


@rule(
    "ferrule.taper_holds",
    "the tongue tapers little enough to hold",
    basis=PRACTICE,
    place=at("ferrule-mandrel", FerruleDims, lambda d: (d.inside_width / 2, 0.5)),
    solid=NotMeasured("a taper, not a wall"),
)
def taper_holds(p: Pattern) -> Bound:
    return at_most(p.derive(FerruleDims).params.tongue_taper, 0.2)


@rule(
    "ferrule.flush",
    "the plate comes flush with the slide when wedge and hair press the arch onto the tongue",
    basis=PRACTICE,
    place=at(
        "ferrule-mandrel", FerruleDims, lambda d: (d.inside_width / 4, -d.params.plate_thickness)
    ),
    solid=gap("frog: tongue", "ferrule: opening"),
)
def flush(p: Pattern) -> Bound:
    return at_most(p.derive(FerruleDims).params.tongue_fit / 2, 0.05)


RULES = (
    ribbon_fits,
    wedge_spreads,
    wedge_thin_end,
    tongue_height,
    plate,
    tongue_slides,
    tongue_holds,
    taper_enters,
    taper_holds,
    flush,
)


def faults(p: Pattern) -> Iterator[Fault]:
    """A curve of the arch that these dimensions do not allow."""
    d = p.derive(FerruleDims)
    kind, rise, half = d.params.arch_kind, float(d.arch_height), float(d.half_width)
    corner, wall = float(d.params.arch_corner_radius), float(d.params.arch_thickness)

    def wrong(why: str, cure: str) -> Fault:
        return fault_at(p, "ferrule.arch_kind", f'"{kind}" {why}', cure)

    told = f"the arch rises {rise:g} mm over half a width of {half:g}"
    if kind is ArchKind.HALF_CIRCLE and rise < half:
        yield wrong(f"needs to rise half its width; {told}", 'choose "half-ellipse" or "segment"')
    if kind is ArchKind.SEGMENT and rise > half:
        yield wrong(f"rises at most half its width; {told}", 'choose "half-circle"')
    if kind is ArchKind.FLAT_TOP and not (wall + INSIDE_CORNER <= corner <= min(rise, half)):
        least = wall + INSIDE_CORNER
        yield wrong(
            f"does not go with a corner radius of {corner:g} mm",
            f"make arch_corner_radius at least {least:g} and at most {min(rise, half):g}",
        )
