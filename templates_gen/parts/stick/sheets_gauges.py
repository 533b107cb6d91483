"""The stick's gauges: graduation by notches, the handle's octagon. Part of ``sheets``."""

from __future__ import annotations

from collections.abc import Callable

from templates_gen.drawing import (
    Dimension,
    HorizontalDim,
    Pattern,
    Pen,
    Text,
    VerticalDim,
    View,
    all_strokes,
    cut,
    figure,
    template,
)
from templates_gen.parts.stick.dims import HANDLE_DONE, StickDims
from templates_gen.shapes import octagon

#: Stations along the stick ahead of the handle, and the stages that have a gauge.
STATIONS = 12
GAUGED = ("finished", "+0.2", "+0.4", "octagon", "bent")


def places(d: StickDims) -> list[float]:
    """List the stations (mm from the butt) from the handle's end to the face's rear edge."""
    start, end = d.params.handle_length, d.face_rear
    return [start + (end - start) * i / (STATIONS - 1) for i in range(STATIONS)]


def _comb(stage: str) -> Callable[[Pattern], list[View]]:
    """Draw a card with a notch for each station, as wide as the stick is there at a stage."""

    def views(p: Pattern) -> list[View]:
        d = p.scalars(StickDims)
        oversize = d.stages[stage]
        widths = [d.at_stage(stage, x) for x in places(d)]
        deep, between, tall = 12.0, 7.0, 34.0
        pen, x, words = Pen((0.0, 0.0)), between, []
        for place, wide in zip(places(d), widths, strict=True):
            pen.line_to(x, 0.0).line_to(x, deep).line_to(x + wide, deep).line_to(x + wide, 0.0)
            words.append(Text((x + wide / 2, deep + 2.0), figure(wide)))
            words.append(Text((x + wide / 2, deep + 8.0), f"{place:.0f}"))
            x += wide + between
        path = pen.line_to(x, 0.0).line_to(x, tall).line_to(0.0, tall).close()
        words.append(
            Text((x / 2, tall - 5.0), "distance from the butt's shoulder; below it the notch width")
        )
        final = " (the first, the end of the handle, is final)" if stage in HANDLE_DONE[:2] else ""
        return [View(_heading(oversize) + final, all_strokes(cut(path)), tuple(words))]

    return views


def _heading(oversize: float) -> str:
    over = f"{figure(oversize)} over finished size" if oversize else "finished size"
    return f"stations ahead of the handle, {over}"


GRADUATION = tuple(
    template(
        f"stick-graduation-{stage.replace('+', 'plus-')}",
        f"Graduation gauge, {stage}",
        "Plane the stick until each notch just slips over it at its station.",
        "either way up",
    )(_comb(stage))
    for stage in GAUGED
)


@template(
    "stick-octagon-gauge",
    "Handle, octagon gauge",
    "Check the octagon of the handle at the butt and at its front end.",
    "either way up",
)
def handle(p: Pattern) -> list[View]:
    """Draw a card with two half octagons, for the butt and for the end of the handle."""
    d = p.scalars(StickDims)
    sizes = [d.params.across_flats_butt, d.params.across_flats_handle_end]
    rim = 8.0
    pen, x = Pen((0.0, 0.0)), rim
    dims: list[Dimension] = []
    for a, name in zip(sizes, ("butt", "handle's end"), strict=True):
        half, corner = a / 2, octagon.GAUGE * a
        pen.line_to(x, 0.0).line_to(x, half).line_to(x + corner, half + corner)
        pen.line_to(x + a - corner, half + corner).line_to(x + a, half).line_to(x + a, 0.0)
        dims.append(HorizontalDim((x, 0.0), (x + a, 0.0), -1, suffix=f" {name}"))
        x += a + 3 * rim
    x -= 2 * rim
    tall = max(sizes) + rim
    path = pen.line_to(x, 0.0).line_to(x, tall).line_to(0.0, tall).close()
    dims.append(VerticalDim((x, 0.0), (x, tall), 1))
    title = "slip the handle in: flats and lower facets must touch all round"
    return [View(title, all_strokes(cut(path)), tuple(dims))]
