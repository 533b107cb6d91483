"""The frog as a solid: a block, its flanks, throat and shoulder shaped, its pockets cut."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from templates_gen.geometry import Path
from templates_gen.parameters import Pattern
from templates_gen.parts.frog import outline
from templates_gen.parts.frog import outline_tools as tools
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.parts.frog.outline_walls import walls
from templates_gen.shapes.wall import Wall

if TYPE_CHECKING:
    from templates_gen.kernel.solids import Built

#: Tools reach this far beyond the block (mm).
CLEAR = 1.0


@dataclass(frozen=True)
class Recipe:
    """All the builder gets, in the frog's frame (mm)."""

    block: Path
    plan: Path
    hollow: tools.Hollow
    shoulder: tools.Shoulder
    tongue: tools.Tongue
    pockets: tools.Pockets
    middle: Path
    across: tuple[tuple[float, Path], ...]
    walls: tuple[Wall, ...]


def recipe(p: Pattern) -> Recipe:
    """What the frog's solid is built from."""
    return Recipe(
        tools.block(p),
        tools.plan(p),
        tools.hollow(p),
        tools.shoulder(p),
        tools.tongue(p),
        tools.pockets(p),
        outline.middle(p),
        tuple((x, outline.across(p, x)) for x in stations(p)),
        walls(p),
    )


def stations(p: Pattern) -> tuple[float, ...]:
    """Where the frog is cut across to confirm it: through mortise, shank and behind them."""
    d = p.derive(FrogDims)
    rear, front = float(d.stated.hair_mortise_from_heel), float(d.mortise_front)
    limit = float(min(d.run_out, d.throat.deepest))
    # Ahead of the heel plate's leg, of the channel's closed end and of the heel's top rounding.
    leg = float(max(d.heel.stated.leg_length, d.channel_rear))
    wanted = ((leg + rear) / 2, (rear + front) / 2, (front + limit) / 2)
    low = max(leg, float(d.seat.start))
    # Not where a plane only grazes a wall, the eye's rim or the shank's.
    grazed = [front]
    for middle, wide, there in (
        (d.eye[0], d.stated.eye_diameter, d.has_eye),
        (d.seat.eyelet.from_heel, d.seat.eyelet.shank_diameter, True),
    ):
        grazed += [float(middle + way * wide / 2) for way in (-1, 1) if there]
    clear = (x for x in wanted if min(abs(x - g) for g in grazed) > 0.01)
    return tuple(x for x in clear if low < x < limit)


def build(r: Recipe) -> Built:
    """One valid solid and the outlines its sections must show."""
    from templates_gen.kernel import solids

    wide = r.hollow.wide + 2 * CLEAR
    _, _, end, top = r.block.box
    block = solids.prism(r.block, -wide, wide, "y")
    tapered = solids.common(block, solids.prism(r.plan, -CLEAR, top + CLEAR, "z"), step="plan")
    shaped = solids.cut(
        tapered, *_hollows(r.hollow, end), _beyond_shoulder(r.shoulder, wide), step="flanks"
    )
    held = solids.joined(shaped, _tongue(r.tongue), step="tongue")
    frog = solids.cut(held, *_pockets(r.pockets, wide), step="pockets")
    sections = [solids.Section("y", 0.0, (r.middle,))]
    sections += [solids.Section("x", x, (path,)) for x, path in r.across]
    return solids.Built(frog, sections, r.walls)


def _hollows(h: tools.Hollow, end: float) -> list[Any]:
    """Both flanks: straight, run out round an upright axis below the throat, on along the thumb."""
    from templates_gen.kernel import solids

    right = [
        solids.prism(h.section, -CLEAR - 1.0, h.run_out, "x"),
        solids.turned_out(h.below, h.run_out, h.outside, "x"),
        solids.prism(h.above, h.run_out, end + CLEAR, "x"),
    ]
    return right + [solids.mirrored(tool, "y") for tool in right]


def _beyond_shoulder(s: tools.Shoulder, wide: float) -> Any:
    """All round the shoulder, outside a cone that ends in the ferrule's own D."""
    from templates_gen.kernel import solids

    cone = solids.ruled("x", {s.start: s.at_start, s.end: s.at_end})
    beyond = solids.box((s.start, -wide, -CLEAR), (s.end, wide, s.top))
    return solids.cut(beyond, cone, step="shoulder")


def _tongue(t: tools.Tongue) -> Any:
    from templates_gen.kernel import solids

    whole = solids.prism(t.section, t.start - CLEAR, t.end, "x")
    sides = solids.prism(t.plan, t.low - CLEAR, t.high + CLEAR, "z")
    return solids.common(whole, sides, step="tongue")


def _pockets(k: tools.Pockets, wide: float) -> list[Any]:
    from templates_gen.kernel import solids

    tools_ = [
        solids.ruled("x", dict(k.trench)),
        solids.ruled("x", dict(k.channel)),
        solids.prism(k.mortise, 0.0, k.mortise_top, "z"),
        solids.prism(k.lip, -k.lip_half_width, k.lip_half_width, "y"),
        solids.prism(k.bore, k.bore_end, k.bore_top, "z"),
    ]
    if k.heel_plate is not None:
        tools_.append(solids.prism(k.heel_plate, -wide, wide, "y"))
    for e in k.eyes:
        tools_.append(solids.cylinder(e.floor, e.outward, e.radius, 4.0))
    return tools_
