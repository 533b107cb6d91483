"""The frog as a solid: a block with shaped flanks, throat and shoulder, and pockets."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from templates_gen.geometry import Path, Pen
from templates_gen.kernel import solids, walls
from templates_gen.parameters import Pattern
from templates_gen.parts.frog import outline
from templates_gen.parts.frog import outline_tools as tools
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.parts.frog.outline_walls import Outside, outside

#: Tools extend this far beyond the block (mm).
CLEAR = 1.0


@dataclass(frozen=True)
class Recipe:
    """Input of ``build``, in the frog's frame (mm)."""

    block: Path
    plan: Path
    hollow: tools.Hollow
    shoulder: tools.Shoulder
    tongue: tools.Tongue
    pockets: tools.Pockets
    middle: Path
    across: tuple[tuple[float, Path], ...]
    outside: Outside


def recipe(p: Pattern) -> Recipe:
    """Collect the outlines and lengths that the frog's solid is built from."""
    return Recipe(
        tools.block(p),
        tools.plan(p),
        tools.hollow(p),
        tools.shoulder(p),
        tools.tongue(p),
        tools.pockets(p),
        outline.middle(p),
        tuple((x, outline.across(p, x)) for x in stations(p)),
        outside(p),
    )


def stations(p: Pattern) -> tuple[float, ...]:
    """List where the solid is sectioned to confirm it: behind, in and ahead of the mortise."""
    d = p.scalars(FrogDims)
    rear, front = d.params.hair_mortise_from_heel, d.mortise_front
    limit = min(d.run_out, d.throat.deepest)
    # Ahead of the heel plate's leg, the closed end of the channel and the heel's top rounding.
    leg = max(d.heel.params.leg_length, d.channel_rear)
    wanted = ((leg + rear) / 2, (rear + front) / 2, (front + limit) / 2)
    low = max(leg, d.seat.start)
    # Not where the plane grazes a wall, the rim of the eye or the shank.
    grazed = [front]
    for middle, wide, there in (
        (d.eye[0], d.params.eye_diameter, d.has_eye),
        (d.seat.eyelet.from_heel, d.seat.eyelet.shank_diameter, True),
    ):
        grazed += [middle + way * wide / 2 for way in (-1, 1) if there]
    clear = (x for x in wanted if min(abs(x - g) for g in grazed) > 0.01)
    return tuple(x for x in clear if low < x < limit)


def build(r: Recipe) -> solids.Built:
    """Build the solid, with the outlines of its sections and the tools that cut its faces."""
    wide = r.hollow.wide + 2 * CLEAR
    _, _, end, top = r.block.box
    block = solids.prism(r.block, -wide, wide, "y")
    plan = solids.prism(r.plan, -CLEAR, top + CLEAR, "z")
    tapered = solids.intersection(block, plan, step="plan")
    hollows, beyond = _hollows(r.hollow, end), _beyond_shoulder(r.shoulder, wide)
    shaped = solids.cut(tapered, *hollows, beyond, step="flanks")
    tongue = _tongue(r.tongue)
    held = solids.fused(shaped, tongue, step="tongue")
    pockets = _pockets(r.pockets, wide)
    frog = solids.cut(held, *(tool for tools in pockets.values() for tool in tools), step="pockets")
    sections = [solids.Section("y", 0.0, (r.middle,))]
    sections += [solids.Section("x", x, (path,)) for x, path in r.across]
    groups = _outside(r.outside, wide, top) | _inside(pockets)
    groups |= _sides(plan, hollows, beyond) | _on_tongue(tongue)
    # Below the floor of the channel the mortise is part of the channel.
    groups["heel over floor"] = [*groups["rear"], *groups["foot"]]
    groups["heel over floor"] += [*groups.get("plate rear", ()), *groups.get("plate bend", ())]
    over = {"heel over floor": r.pockets.floor}
    return solids.Built(frog, sections, groups, over=over)


def _sides(plan: Any, hollows: list[Any], beyond: Any) -> dict[str, list[Any]]:
    """Group the faces of the sides: the tapering block, the hollows, the cone at the shoulder."""
    hollow = [f for tool in hollows for f in tool.Faces()]
    flank = [*walls.faces_around(plan, "z"), *hollow]
    return {"flank": flank, "hollow": hollow, "cone": walls.faces_around(beyond, "x")}


def _on_tongue(tongue: Any) -> dict[str, list[Any]]:
    return {
        "tongue": walls.faces_around(tongue, "x"),
        "tongue end": walls.toward(tongue, "+x"),
        "tongue step": walls.toward(tongue, "-z"),
    }


def _outside(o: Outside, wide: float, top: float) -> dict[str, list[Any]]:
    """Group the outside faces of the block by name."""
    drawn = {"throat": o.throat, "thumb": o.thumb, "top": o.top, "rear": o.rear}
    drawn |= {"heel rounding": o.heel_rounding, "foot": o.foot}
    found = {name: walls.swept_faces(path, -wide, wide, "y") for name, path in drawn.items()}
    found["heel"] = [*found["heel rounding"], *found["rear"], *found["foot"]]
    low, high = (o.shoulder, 0.0), (o.shoulder, top)
    shoulder = walls.swept_faces(Pen(low).line_to(*high).open(), -wide, wide, "y")
    bottom = walls.swept_faces(Pen((0.0, 0.0)).line_to(*low).open(), -wide, wide, "y")
    return {**found, "shoulder": shoulder, "bottom": bottom}


def _inside(pockets: dict[str, list[Any]]) -> dict[str, list[Any]]:
    """Group the faces of the pockets by name."""
    (mortise,), (channel,) = pockets["mortise"], pockets["channel"]
    found = {
        "mortise": [*walls.faces_around(mortise, "z"), *walls.toward(mortise, "+z")],
        "mortise front": walls.toward(mortise, "+x"),
        "mortise rear": walls.toward(mortise, "-x"),
        "mortise sides": walls.toward(mortise, "+y", "-y"),
        "mortise roof": walls.toward(mortise, "+z"),
        "channel sides": walls.toward(channel, "+y", "-y"),
        "channel floor": walls.toward(channel, "+z"),
        "channel rear": walls.toward(channel, "-x"),
        "seat": walls.faces_around(pockets["seat"][0], "x"),
        "lip": walls.faces_around(pockets["lip"][0], "y"),
        "shank": pockets["shank"][0].Faces(),
        "eye": [f for tool in pockets["eye"] for f in tool.Faces()],
    }
    for plate in pockets["plate bed"]:
        found["plate bed"] = plate.Faces()
        (leg,) = walls.lowest_face(walls.toward(plate, "+x"))
        found["plate rear"] = [f for f in walls.toward(plate, "+x") if not f.isSame(leg)]
        found["plate bend"] = walls.round_faces(plate)
    return found


def _hollows(h: tools.Hollow, end: float) -> list[Any]:
    """Build both flank tools: straight, revolved outward below the throat, straight again."""
    right = [
        solids.prism(h.section, -CLEAR - 1.0, h.run_out, "x"),
        solids.quarter_revolution(h.below, h.run_out, h.outside, "x"),
        solids.prism(h.above, h.run_out, end + CLEAR, "x"),
    ]
    return right + [solids.mirrored(tool, "y") for tool in right]


def _beyond_shoulder(s: tools.Shoulder, wide: float) -> Any:
    """Build the tool round the shoulder: outside a cone that ends in the D of the ferrule."""
    cone = solids.ruled_loft("x", {s.start: s.at_start, s.end: s.at_end})
    beyond = solids.box((s.start, -wide, -CLEAR), (s.end, wide, s.top))
    return solids.cut(beyond, cone, step="shoulder")


def _tongue(t: tools.Tongue) -> Any:
    whole = solids.prism(t.section, t.start - CLEAR, t.end, "x")
    sides = solids.prism(t.plan, t.low - CLEAR, t.high + CLEAR, "z")
    return solids.intersection(whole, sides, step="tongue")


def _pockets(k: tools.Pockets, wide: float) -> dict[str, list[Any]]:
    plate = k.heel_plate
    return {
        "seat": [solids.ruled_loft("x", dict(k.trench))],
        "channel": [solids.ruled_loft("x", dict(k.channel))],
        "mortise": [solids.prism(k.mortise, 0.0, k.mortise_top, "z")],
        "lip": [solids.prism(k.lip, -k.lip_half_width, k.lip_half_width, "y")],
        "shank": [solids.prism(k.bore, k.bore_end, k.bore_top, "z")],
        "plate bed": [] if plate is None else [solids.prism(plate, -wide, wide, "y")],
        "eye": [solids.cylinder(e.floor, e.outward, e.radius, 4.0) for e in k.eyes],
    }
