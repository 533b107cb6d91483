"""The straight stick as a solid: handle with nipple, bores and mortise, and the shaft.

It ends where the head's own length of stick begins. Along the blend a cone cuts the corners of the
octagon off, more and more; a D keeps its lower corners.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from templates_gen.geometry import Path, circle
from templates_gen.kernel import solids, walls
from templates_gen.parameters import Pattern
from templates_gen.parts.screw.params import Screw
from templates_gen.parts.stick import outline
from templates_gen.parts.stick.dims import WITH_HEAD, StickDims
from templates_gen.shapes.stick_section import SectionKind

#: Number of pieces of the stick ahead of its blend, and of the blend itself.
PIECES, BLEND = 24, 2
#: The cone of the blend begins this far (mm) behind the end of the handle, clear of the corners.
BEHIND = 1.0


@dataclass(frozen=True)
class Recipe:
    """Input of ``build``: sections at x, bores as circles with their lengths (mm)."""

    handle: tuple[tuple[float, Path], ...]
    discs: tuple[tuple[float, Path], ...]
    lower_kept: bool
    ahead: tuple[tuple[float, Path], ...]
    slot: tuple[tuple[float, Path], ...]
    nipple: tuple[Path, float]
    rear_bore: tuple[Path, float, float]
    front_bore: tuple[Path, float, float]
    sections: tuple[tuple[float, tuple[Path, ...]], ...]


def recipe(p: Pattern) -> Recipe:
    """Collect the outlines and lengths that the handle's solid is built from."""
    d = p.scalars(StickDims)
    s, depth = d.params, p[Screw].bearing_depth
    start, end = s.mortise_from_butt, d.mortise_front
    rear, front = (circle((0.0, 0.0), v / 2) for v in (s.rear_bore, s.front_bore))
    long = s.handle_length
    far, blended = d.face_rear - WITH_HEAD, d.blend_end
    blend = [long + (blended - long) * i / BLEND for i in range(BLEND + 1)]
    places = [blended + (far - blended) * i / PIECES for i in range(PIECES + 1)]
    return Recipe(
        tuple((x, outline.eight(p, x)) for x in (0.0, *blend)),
        () if s.section is SectionKind.OCTAGON else _discs(p, blend),
        s.section is SectionKind.D_SECTION,
        tuple((x, outline.ahead(p, x)) for x in places),
        tuple((x, outline.slot(p, x)) for x in (start, end)),
        (circle((0.0, 0.0), s.nipple_diameter / 2), s.nipple_length),
        (rear, -s.nipple_length - 1.0, start + 0.5),
        (front, end - 0.5, end + depth),
        (
            (start / 2, (outline.section(p, start / 2), rear)),
            ((start + end) / 2, (outline.slotted(p, (start + end) / 2),)),
            (end + depth / 2, (outline.section(p, end + depth / 2), front)),
            *((x, (outline.ahead(p, x),)) for x in (blend[BLEND // 2], places[PIECES // 2])),
        ),
    )


def _discs(p: Pattern, blend: list[float]) -> tuple[tuple[float, Path], ...]:
    """List the cone of the blend piece by piece; it begins a little behind the handle's end."""
    first, second = (outline.disc(p, x).box[2] for x in blend[:2])
    grown = first + BEHIND * (first - second) / (blend[1] - blend[0])
    behind = (blend[0] - BEHIND, circle((0.0, 0.0), grown))
    return (behind, *((x, outline.disc(p, x)) for x in blend[1:]))


def build(r: Recipe) -> solids.Built:
    """Build the solid, with the outlines its sections must show."""
    handle = solids.ruled_loft("x", dict(r.handle))
    if r.discs:
        handle = solids.cut(handle, _corners(r), step="blend")
    nipple = solids.prism(r.nipple[0], -r.nipple[1], 1.0, "x")
    ahead = solids.ruled_loft("x", dict(r.ahead))
    whole = solids.fused(handle, nipple, ahead, step="nipple and stick")
    bores = [solids.prism(path, a, b, "x") for path, a, b in (r.rear_bore, r.front_bore)]
    slot = solids.ruled_loft("x", dict(r.slot))
    stick = solids.cut(whole, *bores, slot, step="mortise and bores")
    sections = [solids.Section("x", x, paths) for x, paths in r.sections]
    groups = _outside(solids.ruled_loft("x", dict(r.handle)), nipple) | _inside(slot, *bores)
    return solids.Built(stick, sections, groups)


def _outside(handle: Any, nipple: Any) -> dict[str, list[Any]]:
    """Group the faces of handle, butt and nipple by name."""
    return {
        "flats": walls.faces_around(handle, "x"),
        "top facet": walls.toward(handle, "+z"),
        "side facets": walls.toward(handle, "+y", "-y"),
        "butt": walls.toward(handle, "-x"),
        "nipple": walls.faces_around(nipple, "x"),
        "nipple end": walls.toward(nipple, "-x"),
    }


def _inside(slot: Any, rear: Any, front: Any) -> dict[str, list[Any]]:
    """Group the faces of mortise and bores by name."""
    return {
        "slot roof": walls.toward(slot, "+z"),
        "slot sides": walls.toward(slot, "+y", "-y"),
        "slot rear": walls.toward(slot, "-x"),
        "slot front": walls.toward(slot, "+x"),
        "rear bore": walls.faces_around(rear, "x"),
        "front bore floor": walls.toward(front, "+x"),
    }


def _corners(r: Recipe) -> Any:
    """Build the tool round the cone of the blend; only its upper half for a D."""
    start, end = r.discs[0][0], r.discs[-1][0]
    wide = 2 * r.discs[0][1].box[2]
    around = solids.box((start, -wide, 0.0 if r.lower_kept else -wide), (end, wide, wide))
    return solids.cut(around, solids.ruled_loft("x", dict(r.discs)), step="blend's cone")
