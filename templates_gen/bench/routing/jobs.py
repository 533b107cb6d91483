"""List what is routed: each finished edge in its part's frame, with its cutter."""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import dataclass
from itertools import pairwise

from templates_gen.bench.routing.guide import Corner, Guided, top_of_dovetail
from templates_gen.drawing import Stroke, centre_line, hidden, line, scribe
from templates_gen.geometry import Box, Path, Pen, Point, circle, polygon, rectangle
from templates_gen.parameters import Pattern
from templates_gen.parts.frog import outline
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.parts.head import outline as head_outline
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.stick.dims import StickDims
from templates_gen.shop.params import Cutter, DovetailCutter, Shop
from templates_gen.tolerances import SAME_POINT

#: Corners outside the work have a radius larger than the cutter's by this (mm).
_EASE = 0.05
#: Length by which an open end runs past the work and the collar (mm).
_BEYOND = 4.0
EVERYWHERE: Box = (-math.inf, -math.inf, math.inf, math.inf)


@dataclass(frozen=True)
class Job:
    """One cut to rout.

    Args:
        guided: the finished edge and its template.
        narrowest: narrowest place the cutter must pass (mm).
        around: lines of the work to which the template is laid.
        description: instructions and settings, line by line.
        wood: box of the work (mm); corners outside it do not count.
        blank: the squared block that a jig holds; None for a plain template.
        depth: depth of the cut (mm), if a check needs it.
    """

    guided: Guided
    narrowest: float
    around: tuple[Stroke, ...]
    description: tuple[str, ...]
    wood: Box = EVERYWHERE
    blank: Path | None = None
    depth: float = 0.0

    @property
    def corners(self) -> list[Corner]:
        """Return the corners of the work that are not left as drawn, the worst first."""
        return [c for c in self.guided.corners if self.in_work(c.place)]

    def in_work(self, p: Point) -> bool:
        """Report whether a place is within the work."""
        box = self.wood
        return box[0] - SAME_POINT <= p[0] <= box[2] + SAME_POINT and box[1] <= p[1] <= box[3]


@dataclass(frozen=True)
class Kind:
    """A kind of job.

    Args:
        name: the template's name without ``route-``.
        title: the template's title.
        section: the shop's section with its cutter.
        purpose: instructions for its use.
        up: which side is up.
        job: the job on a pattern.
        jig: whether a backing plate holds the work.
    """

    name: str
    title: str
    section: str
    purpose: str
    up: str
    job: Callable[[Pattern, Cutter], Job]
    jig: bool = False

    def cutter(self, shop: Shop) -> Cutter | None:
        """Return the shop's cutter for it; None if there is none."""
        found: Cutter | None = getattr(shop, self.section)
        return found


def _pocket(path: Path, cutter: Cutter) -> Guided:
    return Guided(path.oriented(), True, float(cutter.outside), float(cutter.cutter))


def hair_mortise(p: Pattern, cutter: Cutter) -> Job:
    """Return the hair mortise of the frog, from below, within the slide's channel."""
    d = p.derive(FrogDims)
    deep, floor = float(d.params.hair_mortise_depth), float(d.slide.params.thickness)
    path = outline.mortise_plan(p)
    box = path.box
    return Job(
        _pocket(path, cutter),
        min(box[2] - box[0], box[3] - box[1]),
        (hidden(outline.bottom(p)), _along(outline.bottom(p).box)),
        (f"Depth {deep + floor:.2f} below the bottom plane, {deep:.2f} below the channel's floor",),
    )


def slide_channel(p: Pattern, cutter: Cutter) -> Job:
    """Return the slide's channel, from below: the edge of the cutter's end on its floor."""
    assert isinstance(cutter, DovetailCutter)
    d = p.derive(FrogDims)
    deep, flank = float(d.slide.params.thickness), float(d.slide.params.dovetail_deg)
    bottom, rear, end = float(cutter.cutter), float(d.channel_rear), float(d.shoulder)
    run = end + float(cutter.outside) / 2 + _BEYOND
    faces = {x: float(d.channel_width(x)) for x in (rear, end, run)}
    floors = {x: float(d.slide.floor(w)) for x, w in faces.items()}
    face, top = outline.channel_plan(p), top_of_dovetail(bottom, deep, float(cutter.flank_deg))
    description = [
        f"For the cutter's bottom, {bottom:g}; at the face it is {top:.3f}; depth {deep:.2f}",
        f"Heel end: floor {floors[rear]:.2f}, face {faces[rear]:.2f} wide",
        f"Ferrule end: floor {floors[end]:.2f}, face {faces[end]:.2f} wide; "
        f"runs {run - end:.2f} past it",
        f"Chisel the heel end upright: the flank leaves {(bottom - top) / 2:.2f} at the face",
    ]
    if abs(flank - float(cutter.flank_deg)) > 0.05:
        description.append(
            f"CUTTER {cutter.flank_deg:g}° BUT SLIDE {flank:g}°: file the slide to the channel"
        )
    return Job(
        _pocket(_open_trench(rear, run, floors[rear], floors[run], cutter), cutter),
        floors[rear],
        (hidden(outline.bottom(p)), *_sides(face), _along(outline.bottom(p).box)),
        ("Go in and out at the ferrule end; never lift the cutter in the channel", *description),
        wood=(-math.inf, -math.inf, end, math.inf),
        depth=deep,
    )


def _open_trench(rear: float, run: float, narrow: float, wide: float, cutter: Cutter) -> Path:
    """Return a trench closed at its rear; past the work its end has the cutter's radius."""
    r = _eased(cutter, wide)
    pen = Pen((rear, -narrow / 2)).line_to(run, -wide / 2).fillet(r).line_to(run, wide / 2)
    return pen.fillet(r).line_to(rear, narrow / 2).close()


def _eased(cutter: Cutter, room: float) -> float:
    """Return the radius of a corner outside the work, large enough for the cutter (mm)."""
    return min(float(cutter.cutter) / 2 + _EASE, 0.49 * room)


def _sides(channel: Path) -> list[Stroke]:
    """Return the channel's two long edges at the face."""
    return [
        scribe(line(s.start, s.end)) for s in channel.segments if abs(s.end[0] - s.start[0]) > 1
    ]


def eyelet(p: Pattern, cutter: Cutter) -> Job:
    """Return the bore of the eyelet's shank, from the stick's side."""
    d = p.derive(FrogDims)
    e, at = d.seat.eyelet, float(d.seat.eyelet.from_heel)
    start, end, half = float(d.heel_lean), float(d.params.length_top), float(d.params.width_top) / 2
    top = polygon([(start, -half), (end, -half), (end, half), (start, half)])
    return Job(
        _pocket(circle((at, 0.0), float(e.shank_diameter) / 2), cutter),
        float(e.shank_diameter),
        (hidden(top), _along(top.box), centre_line((at, -half - 8), (at, half + 8))),
        (f"Depth {float(e.shank_length):.2f} below the trench's floor; plunge, then once round",),
    )


def stick_mortise(p: Pattern, cutter: Cutter) -> Job:
    """Return the stick's mortise on the handle's bottom facet; x from the butt's shoulder."""
    d = p.derive(StickDims)
    start, front = float(d.params.mortise_from_butt), float(d.mortise_front)
    half, end = float(d.params.mortise_width) / 2, float(d.mortise_front) + 12.0
    a, b = (float(d.across_flats(x)) / 2 for x in (0.0, end))
    handle = polygon([(0.0, -a), (end, -b), (end, b), (0.0, a)])
    slot = polygon([(start, -half), (front, -half), (front, half), (start, half)])
    return Job(
        _pocket(slot, cutter),
        2 * half,
        (hidden(handle), _along(handle.box)),
        (
            f"Depth {float(d.params.mortise_depth):.2f} below the bottom facet; "
            f"butt's shoulder {start:.2f} behind the slot",
        ),
    )


def head_mortise(p: Pattern, cutter: Cutter) -> Job:
    """Return the mortise on the head's face; its front wall is undercut afterwards."""
    d = p.derive(HeadDims)
    s, path = d.params, head_outline.mortise(p)
    under = float(s.plate_thickness + s.liner_thickness)
    description = [
        f"Depth {float(s.mortise_depth):.2f} below the tip plate's face, "
        f"{float(s.mortise_depth) - under:.2f} below the bare wood, plate and liner off",
        f"The face is flat as far as {float(d.flat):.1f} from its rear edge; pack it level beyond",
    ]
    if s.mortise_undercut_deg:
        description.append(f"Undercut the front wall {s.mortise_undercut_deg:g}° by chisel")
    return Job(
        _pocket(path, cutter),
        min(path.box[2] - path.box[0], float(min(s.mortise_width, s.mortise_width_front))),
        (hidden(head_outline.plan(p)), _along(head_outline.plan(p).box)),
        tuple(description),
    )


def profile(p: Pattern, cutter: Cutter) -> Job:
    """Return the frog's front from the side, between tongue, throat and thumb projection."""
    d = p.derive(FrogDims)
    front, low, tip = float(d.tongue_front), float(d.tongue_top), float(d.params.length_top)
    v = outline.side(p).vertices
    first = next(i for i, q in enumerate(v) if _same(q[:2], (front, low)))
    last = next(i for i in range(first + 1, len(v)) if v[i][0] >= tip - SAME_POINT)
    blank = rectangle(0.0, 0.0, max(front, tip), float(d.params.overall_height))
    # Past the tip and the blank's upper edge, so that the collar clears the tip.
    out = float(cutter.outside) / 2 + _BEYOND
    run, up = blank.box[2] + out, blank.box[3] + out
    pen, r = Pen((front, low)), _eased(cutter, out)
    for (_, _, bulge), (x, z, _) in pairwise(v[first : last + 1]):
        pen.bulge_to((x, z), bulge)
    for corner in ((tip, up), (run, up), (run, low)):
        pen.line_to(*corner).fillet(r)
    path = pen.close()
    return Job(
        _pocket(path, cutter),
        float(d.throat.tip_height) - low,
        (),
        ("Rout before the flanks are hollowed; heel, bottom and top are sawn and planed",),
        wood=blank.box,
        blank=blank,
    )


def _same(a: tuple[float, ...], b: tuple[float, float]) -> bool:
    return abs(a[0] - b[0]) < SAME_POINT and abs(a[1] - b[1]) < SAME_POINT


def _along(box: tuple[float, float, float, float]) -> Stroke:
    return centre_line((box[0] - 8, 0.0), (box[2] + 8, 0.0))


KINDS = (
    Kind(
        "hair-mortise",
        "Hair mortise, routing template",
        "mortise_cutter",
        "Lay its lines to the frog's bottom, fix it, rout the mortise in steps.",
        "hair side up, ferrule right",
        hair_mortise,
    ),
    Kind(
        "slide-channel",
        "Slide channel, routing template",
        "dovetail_cutter",
        "Clear the waste with a straight cutter first, then run the dovetail along both edges.",
        "hair side up, ferrule right",
        slide_channel,
    ),
    Kind(
        "eyelet",
        "Eyelet's shank, routing template",
        "fine_cutter",
        "Lay its lines to the frog's top, fix it, bore for the shank.",
        "stick side up, ferrule right",
        eyelet,
    ),
    Kind(
        "stick-mortise",
        "Stick mortise, routing template",
        "fine_cutter",
        "Lay it on the bottom facet, butt's shoulder to its line, rout the mortise in steps.",
        "hair side up, butt left",
        stick_mortise,
    ),
    Kind(
        "head-mortise",
        "Head mortise, routing template",
        "mortise_cutter",
        "Lay its lines to the head's face, fix head and template, rout the mortise in steps.",
        "hair side up, nose right",
        head_mortise,
    ),
    Kind(
        "frog-profile",
        "Frog's throat and thumb, jig",
        "profile_cutter",
        "Set the squared blank into the pocket, clamp it behind the throat, rout the front away.",
        "stick side up, heel left",
        profile,
        jig=True,
    ),
)
