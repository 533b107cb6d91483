"""The stick as a solid, unbent: its handle with nipple, bores and mortise, and what lies ahead.

It ends where the head's own length of stick begins. The corners of the octagon end at the handle's
end; the maker runs them out by hand.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from templates_gen.geometry import Path, circle
from templates_gen.parameters import Pattern
from templates_gen.parts.screw.params import Screw
from templates_gen.parts.stick import outline
from templates_gen.parts.stick.dims import WITH_HEAD, StickDims

if TYPE_CHECKING:
    from templates_gen.kernel.solids import Built


#: The stick ahead of its handle is reckoned in this many pieces.
PIECES = 24


@dataclass(frozen=True)
class Recipe:
    """All the builder gets: sections by their place, bores as circles with their reach (mm)."""

    handle: tuple[tuple[float, Path], ...]
    ahead: tuple[tuple[float, Path], ...]
    slot: tuple[tuple[float, Path], ...]
    nipple: tuple[Path, float]
    rear_bore: tuple[Path, float, float]
    front_bore: tuple[Path, float, float]
    sections: tuple[tuple[float, tuple[Path, ...]], ...]


def recipe(p: Pattern) -> Recipe:
    """What the handle's solid is built from."""
    d = p.derive(StickDims)
    s, depth = d.stated, float(p[Screw].bearing_depth)
    start, end = float(s.mortise_from_butt), float(d.mortise_front)
    rear, front = (circle((0.0, 0.0), float(v) / 2) for v in (s.rear_bore, s.front_bore))
    long = float(s.handle_length)
    far = float(d.face_rear) - WITH_HEAD
    places = [long + (far - long) * i / PIECES for i in range(PIECES + 1)]
    return Recipe(
        tuple((x, outline.section(p, x)) for x in (0.0, long)),
        tuple((x, outline.ahead(p, x)) for x in places),
        tuple((x, outline.slot(p, x)) for x in (start, end)),
        (circle((0.0, 0.0), float(s.nipple_diameter) / 2), float(s.nipple_length)),
        (rear, -float(s.nipple_length) - 1.0, start + 0.5),
        (front, end - 0.5, end + depth),
        (
            (start / 2, (outline.section(p, start / 2), rear)),
            ((start + end) / 2, (outline.slotted(p, (start + end) / 2),)),
            (end + depth / 2, (outline.section(p, end + depth / 2), front)),
            (places[PIECES // 2], (outline.ahead(p, places[PIECES // 2]),)),
        ),
    )


def build(r: Recipe) -> Built:
    """One valid solid and the outlines its sections must show."""
    from templates_gen.kernel import solids

    handle = solids.ruled("x", dict(r.handle))
    nipple = solids.prism(r.nipple[0], -r.nipple[1], 1.0, "x")
    ahead = solids.ruled("x", dict(r.ahead))
    whole = solids.joined(handle, nipple, ahead, step="nipple and stick")
    bores = [solids.prism(path, a, b, "x") for path, a, b in (r.rear_bore, r.front_bore)]
    stick = solids.cut(whole, *bores, solids.ruled("x", dict(r.slot)), step="mortise and bores")
    return solids.Built(stick, [solids.Section("x", x, paths) for x, paths in r.sections])
