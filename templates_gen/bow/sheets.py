"""The frog on its stick: a drawing to set up by, nothing on it is cut."""

from __future__ import annotations

from templates_gen.bow import sheets_bench, sheets_blank, sheets_charts, sheets_hair
from templates_gen.bow.dims.frames import positions
from templates_gen.bow.dims.travel import Travel
from templates_gen.drawing.template import Template
from templates_gen.drawing.view import (
    HorizontalDim,
    VerticalDim,
    View,
    all_strokes,
    centre_line,
    hidden,
    line,
    scribe,
)
from templates_gen.geometry import Path, rectangle
from templates_gen.parameters import Pattern
from templates_gen.parts.frog import outline


def on_stick(p: Pattern) -> list[View]:
    t = p.derive(Travel)
    x, z = positions(p)["play"]
    frog = outline.side(p).moved(x, z)
    seat, end = t.frog.seat, float(t.stick.mortise_front) + 25.0
    butt, far = (float(t.stick.across_flats(v)) / 2 for v in (0.0, end))
    start, front = float(t.stick.params.mortise_from_butt), float(t.stick.mortise_front)
    at = x + float(seat.eyelet.from_heel)
    heels = [positions(p)[end_][0] for end_ in ("rearmost", "foremost")]
    low = z - 4.0
    strokes = all_strokes(
        scribe(frog),
        scribe(line((0.0, butt), (end, far))),
        scribe(line((0.0, -butt), (x, -float(t.stick.across_flats(x)) / 2))),
        scribe(line((0.0, -butt), (0.0, butt))),
        hidden(_slot(t, start, front)),
        hidden(rectangle(x + float(t.frog.shoulder) + 0.01, z, x + _long(t), z + _high(t))),
        *(hidden(line((h, z - 2.0), (h, z + 6.0))) for h in heels if abs(h - x) > 0.05),
        centre_line((-6.0, 0.0), (end + 3.0, 0.0)),
        centre_line((at, low), (at, butt + 3.0)),
    )
    dims = (
        HorizontalDim((0.0, -butt), (x + _long(t), z), -1, suffix=" ferrule in play"),
        HorizontalDim((heels[0], z), (heels[1], z), -2, suffix=" travel"),
        HorizontalDim((0.0, butt), (start, butt), 1),
        HorizontalDim((start, butt), (front, butt), 2, suffix=" mortise"),
        HorizontalDim((0.0, butt), (at, butt), 3, suffix=" eyelet in play"),
        VerticalDim((x, z), (0.0, 0.0), -1, suffix=" to the axis"),
    )
    return [View("in play; dashed heels: slackest and tightest", strokes, dims)]


def _long(t: Travel) -> float:
    return float(t.frog.params.length_bottom)


def _high(t: Travel) -> float:
    return float(t.frog.ferrule.params.height)


def _slot(t: Travel, start: float, front: float) -> Path:
    low, high = (-float(t.stick.across_flats(v)) / 2 for v in (start, front))
    deep = float(t.stick.params.mortise_depth)
    return Path(
        (
            (start, low, 0.0),
            (start, low + deep, 0.0),
            (front, high + deep, 0.0),
            (front, high, 0.0),
        ),
        closed=False,
    )


TEMPLATES = (
    Template(
        "bow-frog-on-stick",
        "Frog on its stick",
        "bow",
        "See where frog, slot and screw stand in play, and how far the frog goes either way.",
        "hair side down",
        on_stick,
    ),
    *sheets_hair.TEMPLATES,
    *sheets_bench.TEMPLATES,
    *sheets_blank.TEMPLATES,
    *sheets_charts.TEMPLATES,
)
