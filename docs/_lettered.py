"""Lettered drawings: a part's own outline with letters where a template has figures."""

from __future__ import annotations

import _characters
import _lettered_frog
import _lettered_head
import _lettered_screw
import _lettered_stick

from templates_gen import registry
from templates_gen.drawing.sheet import Layer
from templates_gen.drawing.view import (
    HorizontalDim,
    Leader,
    VerticalDim,
    View,
    all_strokes,
    centre_line,
    cut,
    hidden,
    line,
    scribe,
)
from templates_gen.geometry import Path, rectangle
from templates_gen.parameters import Pattern
from templates_gen.parts.ferrule import outline as ferrule_outline
from templates_gen.parts.ferrule.dims import FerruleDims
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
        "frog": ("Frog, lettered", [_lettered_frog.frog(p)]),
        "frog-inside": ("Frog, cut along, lettered", [_lettered_frog.frog_inside(p)]),
        "frog-across": ("Frog, cut across, lettered", [_lettered_frog.frog_across(p)]),
        "stick": ("Handle, lettered", [_lettered_frog.stick(p)]),
        "throat": ("Throat, constructed", [_lettered_frog.throat(p)]),
        "head": ("Head, lettered", [_lettered_head.side(p)]),
        "head-face": ("Face of the head, lettered", [_lettered_head.face(p)]),
        "button": ("Button, lettered", [_lettered_screw.button(p)]),
        "screw": ("Screw, lettered", [_lettered_screw.screw(p)]),
        "eyelet": ("Eyelet, lettered", _lettered_screw.eyelet(p)),
        "leather": ("Thumb leather, lettered", [_lettered_screw.leather(p)]),
        "graduation": ("Stick, lettered", [_lettered_stick.graduation(p)]),
        "camber": ("Camber, lettered", [_lettered_stick.bent(p)]),
        "form": ("Bending form, lettered", [_lettered_stick.form(p), _lettered_stick.over_bent(p)]),
        "characters": ("Three heads", [_characters.picture(p)]),
    }


def ferrule(p: Pattern) -> View:
    """The section: metal, hair, wedge and tongue from the plate up."""
    d = p.derive(FerruleDims)
    outside, opening = ferrule_outline.outside(p), ferrule_outline.opening(p)
    left, bottom, right, top = outside.box
    hair, half = float(d.hair.thickness), float(d.hair.ribbon_width) / 2
    step = float(d.rebate_step) - float(d.params.plate_thickness)
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
        HorizontalDim((-half, 0), (half, 0), -1, text="w_hf"),
        HorizontalDim((left, bottom), (right, bottom), -2, text="W_f"),
        VerticalDim((left, bottom), (0, top), -1, text="H_f"),
        VerticalDim((left, bottom), (left, 0), -2, text="t_p"),
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
    length, half = float(d.params.length), float(d.params.width_front) / 2
    heel = float(d.width_heel) / 2
    dims = (
        HorizontalDim((0, -half), (length, -half), -1, text="L_s"),
        VerticalDim((0, -half), (0, half), -1, text="w_s"),
        VerticalDim((length, -heel), (length, heel), 1, text="w_s - width_taper"),
    )
    strokes = views(p, "slide-outline")[0].strokes
    return View("the face one sees; ferrule end left", strokes, dims)


def slide_section(p: Pattern) -> View:
    """Across the ferrule end."""
    path = _cut(views(p, "slide-dovetail")[0])
    half = float(p.derive(SlideDims).params.width_front) / 2
    _, bottom, right, top = path.box
    dims = (
        HorizontalDim((-half, bottom), (half, bottom), -1, text="w_s"),
        VerticalDim((right, bottom), (right, top), 1, text="t_s"),
        Leader((half + 0.2, 1.2), (right + 14, top + 3), "flank leans β from the upright"),
    )
    return View("section at the ferrule end, face down", (cut(path),), dims)


def heel(p: Pattern) -> View:
    """The bent plate from the side."""
    s = p.derive(HeelDims).params
    path, r = _cut(views(p, "heel-plate")[-1]), float(s.bottom_radius)
    left, bottom, right, top = path.box
    dims = (
        HorizontalDim((0, bottom), (float(s.leg_length), bottom), -1, text="leg_length"),
        VerticalDim((left, bottom), (left, top), -1, text="rear_leg"),
        VerticalDim((right, bottom), (right, float(s.plate_thickness)), 1, text="t_hp"),
        Leader((r * 0.293, r * 0.293), (5, top + 1), "bottom_radius"),
    )
    return View("bent, from the side; heel left", (cut(path),), dims)


def underslide(p: Pattern) -> View:
    """The pressed lining across."""
    path = _cut(views(p, "underslide")[-1])
    left, bottom, right, _ = path.box
    half = max(x for x, y, _ in path.vertices if abs(y) < SAME_POINT)
    dims = (
        HorizontalDim((-half, bottom), (half, bottom), -1, text="land"),
        VerticalDim((left, bottom), (left, 0), -1, text="t_u"),
        Leader((half, 0.0), (right + 5, 2.0), "135° inside, bend_radius"),
    )
    return View("pressed, across", (cut(path),), dims)


def views(p: Pattern, name: str) -> list[View]:
    """The views of a template."""
    (template,) = (t for t in registry.templates() if t.name == name)
    return list(template.views(p))


def _cut(view: View) -> Path:
    """The outline a view cuts."""
    return next(s.path for s in view.strokes if s.layer is Layer.OUTLINE)
