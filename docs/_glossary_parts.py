"""Letter the words of the trade on drawings of single parts."""

from __future__ import annotations

import _lettered
import _lettered_frog
import _lettered_head
import _lettered_screw
import _lettered_stick
from _letters import ABOVE, BELOW, LEFT, RIGHT, Lettered

from templates_gen.drawing.view import all_strokes, scribe
from templates_gen.geometry import circle
from templates_gen.parameters import Pattern
from templates_gen.parts.button.dims import ButtonDims
from templates_gen.parts.eyelet.dims import EyeletDims
from templates_gen.parts.ferrule.dims import FerruleDims
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.screw.dims import ScrewDims
from templates_gen.parts.stick.dims import StickDims


def frog(p: Pattern) -> Lettered:
    """Letter the frog from the side."""
    d = p.derive(FrogDims)
    s, t = d.params, d.throat
    end, clear, top, tip = (
        float(v) for v in (s.length_bottom, s.clear_height, s.overall_height, s.length_top)
    )
    (x, z), r = (float(v) for v in d.eye), float(s.eye_diameter) / 2
    high, shoulder = float(d.ferrule.params.height), float(d.shoulder)
    named = {
        "heel": ((0.0, clear / 2), LEFT),
        "top edge": ((tip * 0.35, top), ABOVE),
        "thumb projection": ((tip - 0.5, clear - 0.5), (11.0, 3.0)),
        "throat": ((float(t.deepest), float(t.low)), (16.0, 4.0)),
        "pearl eye": ((x, z - r), (-6.0, -14.0)),
        "flank": ((shoulder * 0.62, clear * 0.3), (4.0, -14.0)),
        "shoulder": ((shoulder, high * 0.85), (14.0, 5.0)),
        "tongue": ((end - 3.0, high / 2), (9.0, -2.0)),
    }
    strokes = all_strokes(_lettered_frog.frog(p).strokes, scribe(circle((x, z), r)))
    return Lettered("frog from the side; heel left", strokes, named)


def frog_inside(p: Pattern) -> Lettered:
    """Letter the frog cut along the middle."""
    d = p.derive(FrogDims)
    floor, rear = float(d.slide.params.thickness), float(d.params.hair_mortise_from_heel)
    front = float(d.mortise_front)
    named = {
        "hair mortise": ((rear, (floor + float(d.mortise_top)) / 2), LEFT),
        "lip": ((front + 0.3, floor + 0.5), (8.0, -9.0)),
        "slide channel": (((float(d.channel_rear) + rear) / 2, floor), (-4.0, -10.0)),
        "shank hole": ((_value(p, "eyelet.from_heel"), float(d.shank_end)), (9.0, -2.0)),
    }
    return Lettered("frog cut along the middle", _lettered_frog.frog_inside(p).strokes, named)


def frog_across(p: Pattern) -> Lettered:
    """Letter the frog cut across the hair mortise."""
    d = p.derive(FrogDims)
    floor = float(d.trench_floor(d.params.hair_mortise_from_heel))
    wing = float(d.seat.land) / 2 + 1.5
    named = {
        "seat": ((-wing, floor + 1.5), (-12.0, 8.0)),
        "land": ((0.0, floor), (4.0, 11.0)),
        "waist": ((float(d.flank.waist), float(d.flank.waist_height)), RIGHT),
    }
    return Lettered("frog cut across", _lettered_frog.frog_across(p).strokes, named)


def ferrule(p: Pattern) -> Lettered:
    """Letter the ferrule's section."""
    d, drawn = p.derive(FerruleDims), _lettered.ferrule(p)
    hair, step = float(d.hair.thickness), float(d.rebate_step) - float(d.params.plate_thickness)
    top, plate = float(d.params.height), float(d.params.plate_thickness)
    named = {
        "arch": ((0.0, top - plate - 0.3), (8.0, 8.0)),
        "plate": ((-2.0, -plate / 2), BELOW),
        "ribbon": ((float(d.hair.ribbon_width) / 2 - 1.0, hair / 2), (9.0, -7.0)),
        "spread wedge": ((float(d.wedge_width) / 2 - 1.5, (hair + step) / 2), (9.0, 3.0)),
    }
    return Lettered("ferrule across; plate below", drawn.strokes, named)


def slide(p: Pattern) -> Lettered:
    """Letter the slide's section."""
    drawn = _lettered.slide_section(p)
    left, bottom, right, top = drawn.box
    named = {
        "slide": ((left + 3.0, top), ABOVE),
        "dovetail": ((right - 0.3, (bottom + top) / 2), RIGHT),
    }
    return Lettered("slide across; face below", drawn.strokes, named)


def heel(p: Pattern) -> Lettered:
    """Letter the heel plate."""
    drawn = _lettered.heel(p)
    left, bottom, right, top = drawn.box
    named = {
        "rear leg": ((left, top * 0.8), LEFT),
        "heel plate": ((right * 0.8, bottom), BELOW),
    }
    return Lettered("heel plate, bent", drawn.strokes, named)


def underslide(p: Pattern) -> Lettered:
    """Letter the underslide's section."""
    drawn = _lettered.underslide(p)
    _, bottom, right, top = drawn.box
    named = {
        "underslide": ((0.0, bottom), BELOW),
        "wing": ((right - 1.0, top - 0.7), (6.0, 5.0)),
    }
    return Lettered("underslide across, pressed", drawn.strokes, named)


def handle(p: Pattern) -> Lettered:
    """Letter the handle, cut open."""
    rear, deep = _value(p, "stick.mortise_from_butt"), _value(p, "stick.mortise_depth")
    front = rear + _value(p, "stick.mortise_length")
    butt, bearing = _value(p, "stick.across_flats_butt") / 2, _value(p, "screw.bearing_depth")
    middle, above = (rear + front) / 2, _value(p, "eyelet.height_above_axis")
    named = {
        "nipple": (
            (-_value(p, "stick.nipple_length") / 2, _value(p, "stick.nipple_diameter") / 2),
            (-9.0, 8.0),
        ),
        "rear bore": ((rear / 2, _value(p, "stick.rear_bore") / 2), (0.0, 12.0)),
        "eyelet": ((middle, above), (-3.0, 12.0)),
        "stick mortise": ((front - 1.0, deep - butt), (6.0, 12.0)),
        "front bore": ((front + bearing * 0.7, _value(p, "stick.front_bore") / 2), (7.0, 9.0)),
    }
    return Lettered(
        "handle, cut open; butt left, hair below", _lettered_frog.stick(p).strokes, named
    )


def screw(p: Pattern) -> Lettered:
    """Letter the screw."""
    d = p.derive(ScrewDims)
    r, long = float(d.params.diameter) / 2, float(d.params.length)
    thread = (float(d.params.thread_start) + float(d.params.thread_end)) / 2
    named = {
        "screw": ((float(d.params.thread_start) * 0.4, r), ABOVE),
        "thread": ((thread, r), ABOVE),
        "tip": ((long - 1.0, float(d.tip_diameter) / 2), ABOVE),
    }
    return Lettered("screw; button end left", _lettered_screw.screw(p).strokes, named)


def eyelet(p: Pattern) -> Lettered:
    """Letter the eyelet."""
    d = p.derive(EyeletDims)
    at, half, shank = (
        float(v) for v in (d.params.from_heel, d.params.length / 2, d.params.shank_diameter / 2)
    )
    named = {
        "body": ((at + half, float(d.body_top) - 1.0), RIGHT),
        "shank": ((at + shank, float(d.shank_end) + 2.0), (9.0, -2.0)),
    }
    return Lettered("eyelet from the side", _lettered_screw.eyelet(p)[0].strokes, named)


def button(p: Pattern) -> Lettered:
    """Letter the button."""
    s = p.derive(ButtonDims).params
    butt, bore, deep = (
        float(v) for v in (s.across_flats / 2, s.counterbore_diameter / 2, s.counterbore_depth)
    )
    named = {
        "counterbore": ((deep / 2, bore), (-9.0, 9.0)),
        "ring": ((float(s.ring_width) * 0.7, -butt), BELOW),
    }
    return Lettered("button, cut open; butt end left", _lettered_screw.button(p).strokes, named)


def head(p: Pattern) -> Lettered:
    """Letter the head from the side."""
    d = p.derive(HeadDims)
    s, high = d.params, float(d.params.height)
    crown, joint = ((float(q[0]), float(q[1])) for q in (d.crown, d.two_arcs.joint))
    plate, liner = float(s.plate_thickness), float(s.liner_thickness)
    nose = (float(s.face_length), float(s.nose_rise))
    flat = float(d.flat)
    named = {
        "crown": (crown, ABOVE),
        "ridge": (joint, (9.0, 6.0)),
        "nose": ((nose[0], nose[1] + 0.5), RIGHT),
        "tip plate": ((flat * 0.9, plate / 2), (6.0, -9.0)),
        "liner": ((1.5, plate + liner / 2), (-14.0, -4.0)),
        "face": ((flat * 0.4, 0.0), (2.0, -9.0)),
        "head mortise": ((float(s.mortise_from_rear), float(s.mortise_depth) * 0.6), (-22.0, -4.0)),
        "back": ((-0.5, high * 0.25), (-14.0, 2.0)),
    }
    return Lettered("head from the side; hair below", _lettered_head.side(p).strokes, named)


def head_rear(p: Pattern) -> Lettered:
    """Letter the head from the frog."""
    (drawn,) = _lettered.views(p, "head-rear")
    _, _, right, _ = drawn.box
    d = p.derive(HeadDims)
    edge = right - float(d.params.chamfer_width)
    named = {
        "cheek": ((right - 0.2, 5.0), RIGHT),
        "chamfer": ((-(right + edge) / 2, 1.5), LEFT),
    }
    return Lettered("head from the frog", drawn.strokes, named)


def blank(p: Pattern) -> Lettered:
    """Letter the sawn blank."""
    drawn = _lettered.views(p, "stick-blank")[0]
    _, bottom, right, top = drawn.box
    named = {
        "blank": ((right * 0.4, top), ABOVE),
        "head block": ((right - 10.0, bottom), BELOW),
    }
    return Lettered("sawn blank; butt left", drawn.strokes, named)


def graduation(p: Pattern) -> Lettered:
    """Letter the straight stick, its thickness enlarged."""
    d, drawn = p.derive(StickDims), _lettered_stick.graduation(p)
    station = _lettered_stick.places(d)[3]
    named = {
        "graduation": (
            (float(d.params.length) * 0.6, float(d.diameter(float(d.params.length) * 0.6)) * 1.5),
            ABOVE,
        ),
        "station": ((float(station), -float(d.diameter(float(station))) * 1.5), BELOW),
    }
    return Lettered("finished stick, thickness × 3", drawn.strokes, named)


def butt(p: Pattern) -> Lettered:
    """Letter the octagon of the butt."""
    (drawn,) = _lettered.views(p, "stick-butt")
    flats = _value(p, "stick.across_flats_butt")
    named = {
        "octagon": ((flats * 0.36, flats * 0.36), (9.0, 5.0)),
        "facet": ((0.5, -flats / 2), (8.0, -8.0)),
    }
    return Lettered("butt from the rear", drawn.strokes, named)


def form(p: Pattern) -> Lettered:
    """Letter the bending form."""
    drawn = _lettered_stick.form(p)
    left, _, right, top = drawn.box
    named = {
        "bending form": (((left + right) / 2, top * 0.2), (6.0, -14.0)),
        "clamping edge": ((right * 0.6, top), ABOVE),
    }
    return Lettered("bending form; ferrule left", drawn.strokes, named)


def over_bend(p: Pattern) -> Lettered:
    """Letter the over-bend, heights enlarged."""
    drawn = _lettered_stick.over_bent(p)
    edge = drawn.strokes[0].path
    named = {"over-bend": (edge.point_at(edge.length / 2), (-8.0, -9.0))}
    return Lettered(
        "edge of the form and, dashed, the finished stick; heights × 5", drawn.strokes, named
    )


def _value(p: Pattern, key: str) -> float:
    return float(p.values[key])
