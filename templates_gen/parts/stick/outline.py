"""The stick's outlines across, in the frame of ``dims``."""

from __future__ import annotations

from templates_gen.geometry import Path, circle, rectangle
from templates_gen.parameters import Pattern
from templates_gen.parts.stick.dims import StickDims
from templates_gen.shapes.octagon import octagon
from templates_gen.shapes.stick_section import between, disc_radius
from templates_gen.tolerances import SAME_POINT


def section(p: Pattern, x: float) -> Path:
    """Draw the handle across at x (mm from the butt's shoulder), without mortise and bores."""
    return octagon(p.scalars(StickDims).across_flats(x))


def ahead(p: Pattern, x: float) -> Path:
    """Draw the stick across ahead of its handle, at x (mm from the butt's shoulder)."""
    d = p.scalars(StickDims)
    return between(d.params.section, d.diameter(x), d.roundness(x))


def eight(p: Pattern, x: float) -> Path:
    """Draw the handle across, and ahead of it the octagon from which the blend is cut."""
    return octagon(_flats(p.scalars(StickDims), x))


def disc(p: Pattern, x: float) -> Path:
    """Draw the section to which the corners of the blend are cut back, at x."""
    d = p.scalars(StickDims)
    return circle((0.0, 0.0), disc_radius(_flats(d, x), d.roundness(x)))


def _flats(d: StickDims, x: float) -> float:
    return d.across_flats(x) if x <= d.params.handle_length else d.diameter(x)


def slot(p: Pattern, x: float) -> Path:
    """Draw the stick mortise across at x: from below the facet up to its roof."""
    d = p.scalars(StickDims)
    half, facet = d.params.mortise_width / 2, -d.across_flats(x) / 2
    return rectangle(-half, facet - 1.0, half, facet + d.params.mortise_depth)


def slotted(p: Pattern, x: float) -> Path:
    """Draw the handle across at x, where the mortise is; its mouth may be wider than the facet."""
    d = p.scalars(StickDims)
    half, facet = d.params.mortise_width / 2, -d.across_flats(x) / 2
    roof = facet + d.params.mortise_depth
    corners = [v[:2] for v in section(p, x).vertices]
    side = max(q[0] for q in corners if abs(q[1] - facet) < SAME_POINT)
    # Beyond the facet the sides leave the wood on the diagonal facets, which rise at 45°.
    mouth = facet + max(0.0, half - side)
    kept = [q for q in corners if q[1] > facet + SAME_POINT or half < side]
    first = kept.index(min((q for q in kept if q[0] > 0), key=lambda q: q[1]))
    ring = kept[first:] + kept[:first]
    slot_ = [(-half, mouth), (-half, roof), (half, roof), (half, mouth)]
    return Path(tuple((u, v, 0.0) for u, v in [*ring, *slot_])).oriented()
