"""Lettered drawings: a part's own outline with letters where a template has figures."""

from __future__ import annotations

from templates_gen import registry
from templates_gen.drawing.sheet import Layer
from templates_gen.drawing.view import (
    Leader,
    Level,
    Upright,
    View,
    Word,
    all_strokes,
    centre_line,
    cut,
    hidden,
    line,
    scribe,
)
from templates_gen.geometry import Path, Point, circle, rectangle
from templates_gen.parameters import Pattern
from templates_gen.parts.ferrule import outline as ferrule_outline
from templates_gen.parts.ferrule.dims import FerruleDims
from templates_gen.parts.frog import outline as frog_outline
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.parts.heel.dims import HeelDims
from templates_gen.parts.slide.dims import SlideDims
from templates_gen.tolerances import SAME_POINT


def drawings(p: Pattern) -> dict[str, tuple[str, list[View]]]:
    """Every lettered drawing by its name: what it shows, and its views."""
    return {
        "ferrule": ("Ferrule, lettered", [ferrule(p)]),
        "slide": ("Slide, lettered", [slide_plan(p), slide_section(p)]),
        "heel": ("Heel plate, lettered", [heel(p)]),
        "underslide": ("Underslide, lettered", [underslide(p)]),
        "frog": ("Frog, lettered", [frog(p)]),
        "frog-inside": ("Frog, inside, lettered", [frog_inside(p)]),
        "throat": ("Throat, constructed", [throat(p)]),
    }


def ferrule(p: Pattern) -> View:
    """The section: metal, hair, wedge and tongue from the plate up."""
    d = p.derive(FerruleDims)
    outside, opening = ferrule_outline.outside(p), ferrule_outline.opening(p)
    left, bottom, right, top = outside.box
    hair, half = float(d.hair.thickness), float(d.hair.ribbon_width) / 2
    step = float(d.rebate_step) - float(d.stated.plate_thickness)
    wedge = float(d.wedge_width) / 2
    strokes = all_strokes(
        cut(outside),
        cut(opening),
        scribe(rectangle(-half, 0.0, half, hair)),
        hidden(line((-wedge, step), (wedge, step))),
        centre_line((0, bottom - 3), (0, top + 3)),
    )
    inner_top = opening.box[3]
    dims = (
        Level((-half, 0), (half, 0), -1, text="w_hf"),
        Level((left, bottom), (right, bottom), -2, text="W_f"),
        Upright((left, bottom), (0, top), -1, text="H_f"),
        Upright((left, bottom), (left, 0), -2, text="t_p"),
        Leader((0, (inner_top + top) / 2), (right + 6, top + 6), "wall of the arch, t_a"),
        Leader((wedge - 2, (hair + step) / 2), (right + 6, 1), "spread wedge, t_w thick"),
        Leader(
            (0, (step + inner_top) / 2),
            (right + 6, top / 2 + 4),
            "room for the frog's tongue",
        ),
    )
    return View("section across, plate down", strokes, dims)


def slide_plan(p: Pattern) -> View:
    """The face one sees, with the floor's edges."""
    d = p.derive(SlideDims)
    length, half = float(d.stated.length), float(d.stated.width_front) / 2
    heel = float(d.width_heel) / 2
    dims = (
        Level((0, -half), (length, -half), -1, text="L_s"),
        Upright((0, -half), (0, half), -1, text="w_s"),
        Upright((length, -heel), (length, heel), 1, text="w_s - width_taper"),
    )
    strokes = _views(p, "slide-outline")[0].strokes
    return View("the face one sees; ferrule end left", strokes, dims)


def slide_section(p: Pattern) -> View:
    """Across the ferrule end."""
    path = _cut(_views(p, "slide-dovetail")[0])
    half = float(p.derive(SlideDims).stated.width_front) / 2
    _, bottom, right, top = path.box
    dims = (
        Level((-half, bottom), (half, bottom), -1, text="w_s"),
        Upright((right, bottom), (right, top), 1, text="t_s"),
        Leader((half + 0.2, 1.2), (right + 14, top + 3), "flank leans β from the upright"),
    )
    return View("section at the ferrule end, face down", (cut(path),), dims)


def heel(p: Pattern) -> View:
    """The bent plate from the side."""
    s = p.derive(HeelDims).stated
    path, r = _cut(_views(p, "heel-plate")[-1]), float(s.bottom_radius)
    left, bottom, right, top = path.box
    dims = (
        Level((0, bottom), (float(s.leg_length), bottom), -1, text="leg_length"),
        Upright((left, bottom), (left, top), -1, text="rear_leg"),
        Upright((right, bottom), (right, float(s.plate_thickness)), 1, text="t_hp"),
        Leader((r * 0.293, r * 0.293), (5, top + 1), "bottom_radius"),
    )
    return View("bent, from the side; heel left", (cut(path),), dims)


def underslide(p: Pattern) -> View:
    """The pressed lining across."""
    path = _cut(_views(p, "underslide")[-1])
    left, bottom, right, _ = path.box
    half = max(x for x, y, _ in path.vertices if abs(y) < SAME_POINT)
    dims = (
        Level((-half, bottom), (half, bottom), -1, text="land"),
        Upright((left, bottom), (left, 0), -1, text="t_u"),
        Leader((half, 0.0), (right + 5, 2.0), "135° inside, bend_radius"),
    )
    return View("pressed, across", (cut(path),), dims)


def frog(p: Pattern) -> View:
    """The side outline."""
    d = p.derive(FrogDims)
    s, t = d.stated, d.throat
    shoulder, end, high = (float(v) for v in (d.shoulder, s.length_bottom, d.ferrule.stated.height))
    clear, top, tip = (float(v) for v in (s.clear_height, s.overall_height, s.length_top))
    at, back, low = float(d.stick.eyelet.from_heel), float(t.deepest), float(t.low)
    join, under = (float(t.joins_thumb[0]), float(t.joins_thumb[1])), float(t.tip_height)
    strokes = all_strokes(
        cut(frog_outline.side(p)),
        hidden(line((shoulder, 0), (end, 0))),
        hidden(line((end, 0), (end, high))),
        hidden(line((end, high), (shoulder, high))),
        hidden(line((0, clear), (tip, clear))),
        centre_line((at, -3), (at, top + 4)),
    )
    dims = (
        Level((0, top), (at, top), 1, text="d_r"),
        Level((0, top), (tip, top), 2, text="L_ft"),
        Level((shoulder, 0), (end, 0), -1, text="L_f"),
        Level((0, 0), (end, 0), -2, text="L_fb"),
        Level((back, low), (shoulder, high), -3, text="d_th"),
        Upright((0, 0), (0, clear), -1, text="h_f"),
        Upright((0, 0), (0, top), -2, text="h_fo"),
        Upright((end, 0), (end, high), 1, text="H_f"),
        Upright((end, 0), (back, float(s.throat_centre_height)), 2, text="z_d"),
        Leader((tip, (under + clear) / 2), (end + 14, clear), "t_tt thick"),
        Leader(_between(join, (tip, under)), (end + 14, under - 4), "slope θ"),
        Leader((tip - 6, clear), (tip + 6, top + 3), "the stick's lower facet"),
    )
    return View("from the side; heel left, ferrule right", strokes, dims)


def frog_inside(p: Pattern) -> View:
    """What is hidden behind the flank: mortise and slide."""
    d = p.derive(FrogDims)
    s, floor = d.stated, float(d.slide.stated.thickness)
    shoulder, leg = float(d.shoulder), float(d.heel.stated.leg_length)
    rear, front, deep = (
        float(v) for v in (s.hair_mortise_from_heel, d.mortise_front, d.mortise_top)
    )
    strokes = all_strokes(
        cut(frog_outline.side(p)),
        scribe(rectangle(rear, floor, front, deep)),
        hidden(line((leg, floor), (shoulder, floor))),
    )
    dims = (
        Level((0, 0), (rear, floor), -1, text="x_hm"),
        Level((rear, floor), (front, floor), -2, text="l_hm"),
        Level((leg, 0), (shoulder, 0), -3, text="L_s"),
        Upright((rear, floor), (rear, deep), -1, text="d_hm"),
        Upright((0, 0), (leg, floor), -2, text="t_s"),
        Word(((rear + front) / 2, deep - 4), "hair"),
        Word(((rear + front) / 2, deep - 8), "mortise"),
    )
    return View("the hair mortise, from the side; heel left", strokes, dims)


def throat(p: Pattern) -> View:
    """How the two arcs are found."""
    d = p.derive(FrogDims)
    t, high = d.throat, float(d.ferrule.stated.height)
    back, low, up = float(t.deepest), float(t.low), float(t.high)
    r2, r1 = float(t.lower_radius), float(t.upper_radius)
    join = (float(t.joins_thumb[0]), float(t.joins_thumb[1]))
    shoulder = (float(d.shoulder), high)
    lower, upper = (back + r2, low), (back + r1, up)
    marks = [hidden(circle(c, 0.4)) for c in (lower, upper)]
    marks += [scribe(circle(q, 0.4)) for q in (shoulder, join, (back, low))]
    strokes = all_strokes(
        cut(frog_outline.side(p)), marks, centre_line((back - 4, low), (back + r2 + 4, low))
    )
    right, top = float(d.stated.length_bottom) + 6, float(d.stated.clear_height)
    words = (
        Leader(shoulder, (right, high + 1), "S: the shoulder, as high as the ferrule"),
        Leader(lower, (right, low), "centre of the lower arc"),
        Leader(upper, (right, low + 5), "centre of the upper arc"),
        Leader(join, (right, top + 6), "T: the arc touches the thumb's line"),
        Leader((back, low), (back - 4, low + 3), "D: deepest"),
    )
    return View("the throat's two arcs", strokes, words)


def _views(p: Pattern, name: str) -> list[View]:
    """The views of a template."""
    (template,) = (t for t in registry.templates() if t.name == name)
    return list(template.views(p))


def _cut(view: View) -> Path:
    """The outline a view cuts."""
    return next(s.path for s in view.strokes if s.layer is Layer.OUTLINE)


def _between(a: Point, b: Point) -> Point:
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2)
