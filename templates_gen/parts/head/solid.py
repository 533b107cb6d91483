"""The head as a solid: its side extruded, cheeks and ridge cut, joined to a length of stick."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Any

from templates_gen.errors import KernelError
from templates_gen.geometry import Path, Pen, Point
from templates_gen.kernel import solids, walls
from templates_gen.parameters import Pattern
from templates_gen.parts.head import outline
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.head.dims_neck import neck
from templates_gen.parts.head.dims_volume import RUNS_ON
from templates_gen.parts.head.outline_walls import Outside, outside
from templates_gen.shapes.trapezoid import trapezoid

#: Least width (mm) of the mortise's plan where it is extended ahead of the mortise.
THIN = 0.1

#: Largest difference (mm³) between the two sides of the head.
UNLIKE = 0.05
#: Places closer than this (mm) count as one where the kernel cuts nothing otherwise.
FUZZY = 1e-3

#: Below this half width (mm) the ridge is an edge, not a face.
SHARP = 1e-3


@dataclass(frozen=True)
class Recipe:
    """Input of ``build``, in the head's frame (mm)."""

    block: Path
    cheek: Path
    lean: float
    upper: Path
    upper_lean: float
    length: float
    stick_half_width: float
    bevel: Path
    ridge_half_width: float
    facet: float
    mortise: Path
    mortise_depth: float
    undercut: Path
    stick: tuple[tuple[float, Path], ...]
    centre: Point
    under: float
    top: float
    middle: Path
    outside: Outside


def recipe(p: Pattern) -> Recipe:
    """Collect the outlines and lengths that the head's solid is built from."""
    d = p.scalars(HeadDims)
    n = neck(p)
    return Recipe(
        block=outline.block(p),
        cheek=_cheek(p),
        lean=d.cheek_lean,
        upper=_cheek(p).moved(0.0, (d.upper_lean - d.cheek_lean) * d.cheek_top),
        upper_lean=d.upper_lean,
        length=d.params.face_length,
        stick_half_width=RUNS_ON * (n.under - n.top),
        bevel=_bevel(p),
        ridge_half_width=d.params.ridge_width / 2,
        facet=d.facet_fall,
        mortise=_mortise(d),
        mortise_depth=d.params.mortise_depth,
        undercut=outline.mortise_side(p),
        stick=outline.stick(p),
        centre=n.centre,
        under=n.under,
        top=d.params.height + 40.0,
        middle=_middle(p),
        outside=outside(p),
    )


def _mortise(d: HeadDims) -> Path:
    """Draw the plan of the mortise, extended ahead for the undercut and behind."""
    s = d.params
    start, long = s.mortise_from_rear, s.mortise_length
    slope = (s.mortise_width_front - s.mortise_width) / long
    # A mortise that narrows fast is extended only as far as it has a width.
    wide = s.mortise_width
    ahead = start + (wide - THIN) / -slope if slope < 0 else math.inf
    ends = (start - 3.0, min(start + long + 6.0, ahead))
    return trapezoid(*ends, *(wide + slope * (x - start) for x in ends))


def _cheek(p: Pattern) -> Path:
    """Draw the right half of the face's plan, extended past the neck and the mid-plane."""
    d = p.scalars(HeadDims)
    s = d.params
    rear, front, nose = (w / 2 for w in (s.width, s.face_width_front, s.nose_width))
    at, end = s.face_width_front_at, s.face_length
    cx, cy, _ = d.nose_curve
    far = rear + 60.0
    pen = Pen((end, -far)).line_to(end, nose).arc_to((at, front), (cx, cy), left=True)
    return pen.line_to(0.0, rear).line_to(-80.0, rear).line_to(-80.0, -far).close()


def _bevel(p: Pattern) -> Path:
    """Draw the region behind the ridge and under the stick's top, far back and far down.

    Ahead it rises at the slope at which it falls back across the head, so that the nose keeps its
    height and only the face's plan decides its width.
    """
    ridge = outline.ridge(p)
    (x, z), (cx, cz) = ridge.end, ridge.start
    d = p.scalars(HeadDims)
    slope = math.tan(d.rise)
    pen = Pen((x, z)).line_to(x + 60.0, z + 60.0).line_to(x + 60.0, -80.0).line_to(-160.0, -80.0)
    pen.line_to(-160.0, cz - (cx + 160.0) * slope).line_to(cx, cz)
    for piece in ridge.segments:
        pen.bulge_to(piece.end, piece.bulge)
    return pen.close()


def _middle(p: Pattern) -> Path:
    """Draw the mid-plane section: the side, open at the mortise."""
    d = p.scalars(HeadDims)
    s = d.params
    rear, front, foot = s.mortise_from_rear, d.mortise_front, d.mortise_foot
    deep, flat, r = s.mortise_depth, d.flat, d.face_radius
    tilt = (foot - front) / deep
    # Where the undercut front wall leaves the face, which may have begun to rise.
    x = front
    for _ in range(60):
        x = front + tilt * (r - math.sqrt(r * r - max(0.0, x - flat) ** 2))
    mouth = (x, r - math.sqrt(r * r - max(0.0, x - flat) ** 2))
    pieces = list(outline.side(p).segments)
    pen = Pen((0.0, 0.0)).line_to(rear, 0.0).line_to(rear, deep).line_to(foot, deep)
    pen.line_to(*mouth)
    nose = (s.face_length, s.nose_rise)
    if x < flat:
        pen.line_to(flat, 0.0)
    pen.arc_to(nose, (flat, r), left=True)
    after = next(i for i, q in enumerate(pieces) if math.dist(q.start, nose) < 1e-9)
    for piece in pieces[after:]:
        pen.bulge_to(piece.end, piece.bulge)
    return pen.close()


def build(r: Recipe) -> solids.Built:
    """Build the solid, with the outline its section must show and the tools that cut its faces."""
    wide = max(v[1] for v in r.cheek.vertices) + 2.0
    block = solids.prism(r.block, -wide, wide, "y")
    cheeks = _cheeks(r, wide)
    shaped = block
    for cheek in cheeks:
        shaped = _cut_alike(shaped, cheek, "cheek")
    shaped = _cut_alike(shaped, _right_of_ridge(r, wide), "ridge")
    stick = solids.bent_prism(r.stick, r.centre, r.under)
    joined = solids.fused(shaped, stick, step="stick")
    mortise = solids.prism(r.mortise, -5.0, r.mortise_depth, "z")
    undercut = solids.prism(r.undercut, -wide, wide, "y")
    pocket = solids.intersection(undercut, mortise, step="mortise")
    head = solids.cut(joined, pocket, step="mortise")
    groups = _outside(r, wide) | _inside(mortise, undercut)
    groups["cheeks"] = [f for c in cheeks for f in _both(c.Faces())]
    groups["stick"] = stick.Faces()
    sections = (solids.Section("y", 0.0, (r.middle,)),)
    sharp = frozenset(("ridge", "top")) if r.ridge_half_width < SHARP else frozenset()
    return solids.Built(head, sections, groups, sharp=sharp)


def _cut_alike(shaped: Any, right: Any, step: str) -> Any:
    """Cut both sides of a symmetric shape with one tool made for the right side.

    The shape is mirrored between two cuts with the same tool: with a mirrored tool the kernel has
    been seen to cut nothing and report no error. It has cut nothing with the tool itself too, along
    a ridge of many arcs, unless close places count as one.

    Raises:
        KernelError: nothing was cut, or one side lost more than the other.
    """
    lost = (0.0, 0.0)
    for fuzzy in (None, FUZZY):
        once = solids.intersection(shaped, right, step=f"right {step}", fuzzy=fuzzy)
        mirrored = solids.mirrored(once, "y")
        twice = solids.intersection(mirrored, right, step=f"left {step}", fuzzy=fuzzy)
        whole, half, rest = (solids.volume(s) for s in (shaped, once, twice))
        lost = whole - half, half - rest
        if min(lost) > UNLIKE and math.isclose(*lost, rel_tol=1e-3, abs_tol=UNLIKE):
            return twice
    raise KernelError(f"{step}: {lost[0]:.2f} mm³ cut on one side, {lost[1]:.2f} on the other")


def _cheeks(r: Recipe, wide: float) -> tuple[Any, Any]:
    """Build the regions inside a cheek: beside the mortise, and above it."""
    # Within the width of the stick the cheeks stop leaning in: the stick continues into the head.
    upper = solids.fused(
        solids.oblique_prism(r.upper, -5.0, r.top, (0.0, -r.upper_lean)),
        solids.box((-80.0, -wide - 60.0, -5.0), (r.length, r.stick_half_width, r.top)),
        step="upper cheek",
    )
    return solids.oblique_prism(r.cheek, -5.0, r.top, (0.0, -r.lean)), upper


def _right_of_ridge(r: Recipe, wide: float) -> Any:
    ridge = solids.oblique_prism(r.bevel, r.ridge_half_width, wide + 5.0, (-r.facet, -r.facet), "y")
    over = solids.prism(r.bevel, -wide - 5.0, r.ridge_half_width, "y")
    return solids.fused(ridge, over, step="ridge")


def _both(faces: list[Any]) -> list[Any]:
    """List faces of the right side and their mirror images."""
    return [*faces, *(f.mirror("XZ") for f in faces)]


def _outside(r: Recipe, wide: float) -> dict[str, list[Any]]:
    """Group the outside faces of the block by name."""
    o, half, drift = r.outside, r.ridge_half_width, (-r.facet, -r.facet)
    drawn = {"ridge": o.ridge, "back": o.back, "nose": o.nose, "face": o.face}
    drawn |= {"flat": o.flat, "back rounding": o.back_rounding} | ({"top": o.top} if o.top else {})
    found = {name: walls.swept_faces(path, -wide, wide, "y") for name, path in drawn.items()}
    found["facets"] = _both(walls.swept_faces(o.ridge, half, wide + 5.0, "y", drift))
    return found


def _inside(mortise: Any, undercut: Any) -> dict[str, list[Any]]:
    """Group the faces of the mortise by name."""
    return {
        "mortise sides": walls.toward(mortise, "+y", "-y"),
        "mortise left": walls.toward(mortise, "+y"),
        "mortise right": walls.toward(mortise, "-y"),
        "mortise rear": walls.toward(undercut, "-x"),
        "mortise front": walls.toward(undercut, "+x"),
        "mortise roof": walls.toward(mortise, "+z"),
    }
