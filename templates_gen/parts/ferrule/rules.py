"""Rules of the ferrule."""

from __future__ import annotations

from collections.abc import Iterator

from templates_gen.checks import Bound, Extent, NotMeasured, Severity, at_least, at_most, gap, rule
from templates_gen.errors import Fault
from templates_gen.parameters import Pattern, fault_at
from templates_gen.parts.ferrule.dims import FerruleDims
from templates_gen.shapes.arch import ArchKind

PRACTICE = "common practice, no source"
#: Least inside radius (mm) of a corner of the arch: strip is not bent to a sharp edge. Our choice.
INSIDE_CORNER = 0.1


@rule(
    "ferrule.ribbon_fits",
    "the ribbon lies flat between the walls of the arch",
    dims=FerruleDims,
    basis=PRACTICE,
    place=("ferrule-mandrel", lambda d: (d.inside_width / 2, 0.0)),
    solid=Extent(("ferrule: plate top",), axis="x"),
)
def ribbon_fits(d: FerruleDims) -> Bound:
    return at_least(d.inside_width, d.hair.ribbon_width + 0.6)


@rule(
    "ferrule.wedge_spreads",
    "the arch is wide enough for the wedge above the hair",
    dims=FerruleDims,
    basis=PRACTICE,
    place=("ferrule-mandrel", lambda d: (d.ribbon_room / 2, d.hair.thickness)),
    solid=NotMeasured("at the height of the hair, which is not built as a solid"),
)
def wedge_spreads(d: FerruleDims) -> Bound:
    return at_least(d.ribbon_room, d.hair.ribbon_width - 0.5)


@rule(
    "ferrule.wedge_thin_end",
    "the thin end of the spread wedge is thick enough to cut from wood",
    dims=FerruleDims,
    basis=PRACTICE,
    place=("ferrule-spread-wedge", lambda d: (0.0, 0.0)),
    solid=NotMeasured("the wedge is not built as a solid"),
)
def wedge_thin_end(d: FerruleDims) -> Bound:
    return at_least(d.wedge_thin, 0.15)


@rule(
    "ferrule.tongue_height",
    "the tongue of the frog is thick enough to be strong",
    dims=FerruleDims,
    basis=PRACTICE,
    place=(
        "ferrule-mandrel",
        lambda d: (0.0, d.rebate_step - d.params.plate_thickness + d.tongue_height / 2),
    ),
    solid=Extent(("frog: tongue end",), axis="z"),
)
def tongue_height(d: FerruleDims) -> Bound:
    """Less than the solid's: it keeps 0.1 clear under the arch, whatever the fit of the tongue."""
    return at_least(d.tongue_height, 4.0 if d.family.bass else 2.4)


@rule(
    "ferrule.plate",
    "the plate is stiff enough for its width",
    dims=FerruleDims,
    severity=Severity.WARNING,
    basis=PRACTICE,
    place=("ferrule-mandrel", lambda d: (0.0, -d.params.plate_thickness / 2)),
    solid=gap("ferrule: plate top", "ferrule: plate bottom"),
)
def plate(d: FerruleDims) -> Bound:
    return at_least(d.params.plate_thickness, d.least_plate)


@rule(
    "ferrule.tongue_slides",
    "the tongue has enough play to slide into the ferrule",
    dims=FerruleDims,
    basis=PRACTICE,
    place=("ferrule-mandrel", lambda d: (0.0, d.arch_height - d.params.arch_thickness)),
    solid=gap("frog: tongue", "ferrule: opening", times=2.0),
)
def tongue_slides(d: FerruleDims) -> Bound:
    return at_least(d.params.tongue_fit, 0.05)


@rule(
    "ferrule.tongue_holds",
    "the tongue has too little play to rattle",
    dims=FerruleDims,
    basis=PRACTICE,
    place=("ferrule-mandrel", lambda d: (0.0, d.arch_height - d.params.arch_thickness)),
    solid=gap("frog: tongue", "ferrule: opening", times=2.0),
)
def tongue_holds(d: FerruleDims) -> Bound:
    return at_most(d.params.tongue_fit, 0.15)


@rule(
    "ferrule.taper_enters",
    "the tongue tapers enough to start easily",
    dims=FerruleDims,
    basis=PRACTICE,
    place=("ferrule-mandrel", lambda d: (d.inside_width / 2, 0.5)),
    solid=NotMeasured("a taper, not a wall"),
)
def taper_enters(d: FerruleDims) -> Bound:
    return at_least(d.params.tongue_taper, 0.1)


@rule(
    "ferrule.taper_holds",
    "the taper of the tongue is slight enough for it to sit firmly",
    dims=FerruleDims,
    basis=PRACTICE,
    place=("ferrule-mandrel", lambda d: (d.inside_width / 2, 0.5)),
    solid=NotMeasured("a taper, not a wall"),
)
def taper_holds(d: FerruleDims) -> Bound:
    return at_most(d.params.tongue_taper, 0.2)


@rule(
    "ferrule.flush",
    "the plate stays flush with the slide when wedge and hair press the arch onto the tongue",
    dims=FerruleDims,
    basis=PRACTICE,
    place=("ferrule-mandrel", lambda d: (d.inside_width / 4, -d.params.plate_thickness)),
    solid=gap("frog: tongue", "ferrule: opening"),
)
def flush(d: FerruleDims) -> Bound:
    return at_most(d.params.tongue_fit / 2, 0.05)


def faults(p: Pattern) -> Iterator[Fault]:
    """Find an arch curve that these dimensions do not allow."""
    d = p.scalars(FerruleDims)
    kind, rise, half = d.params.arch_kind, d.arch_height, d.half_width
    corner, wall = d.params.arch_corner_radius, d.params.arch_thickness

    def wrong(why: str, cure: str) -> Fault:
        return fault_at(p, "ferrule.arch_kind", f'"{kind}" {why}', cure)

    size = f"the arch rises {rise:g} mm over half a width of {half:g}"
    if kind is ArchKind.HALF_CIRCLE and rise < half:
        yield wrong(f"needs to rise half its width; {size}", 'choose "half-ellipse" or "segment"')
    if kind is ArchKind.SEGMENT and rise > half:
        yield wrong(f"rises at most half its width; {size}", 'choose "half-circle"')
    least = wall + INSIDE_CORNER
    if kind is ArchKind.FLAT_TOP and not (least <= corner <= min(rise, half)):
        yield wrong(
            f"does not fit a corner radius of {corner:g} mm",
            f"make arch_corner_radius at least {least:g} and at most {min(rise, half):g}",
        )
