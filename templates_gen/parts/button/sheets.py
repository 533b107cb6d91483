"""The button's templates."""

from __future__ import annotations

from templates_gen.drawing import (
    Dimension,
    HorizontalDim,
    Pattern,
    VerticalDim,
    View,
    all_strokes,
    centre_line,
    cut,
    hidden,
    line,
    pocket,
    polygon,
    scribe,
    template,
)
from templates_gen.parts.button import outline
from templates_gen.parts.button.dims import ButtonDims


@template(
    "button-turning",
    "Button, turning profile",
    "Turn the button to this profile, rings included, then file the flats.",
    "either way up",
)
def turning(p: Pattern) -> list[View]:
    d = p.scalars(ButtonDims)
    s, path = d.params, outline.turning(p)
    left, low, right, high = path.box
    ring, deep = s.ring_width, s.counterbore_depth
    wide = s.counterbore_diameter / 2
    shoulder = max(v[0] for v in path.vertices if v[0] < right - 1e-9)
    end = max(v[1] for v in path.vertices if v[0] == shoulder)
    rings = (ring, right - ring) if d.three_piece else ()
    strokes = all_strokes(
        cut(path),
        *(scribe(line((x, low * 0.9), (x, high * 0.9))) for x in rings),
        hidden(line((0.0, wide), (deep, wide))),
        hidden(line((0.0, -wide), (deep, -wide))),
        hidden(line((deep, -wide), (deep, wide))),
        centre_line((left - 3, 0), (right + 3, 0)),
    )
    dims: tuple[Dimension, ...] = (
        HorizontalDim((left, low), (right, low * 0.6), -1),
        HorizontalDim((0.0, wide), (deep, wide), 1, suffix=" counterbore"),
        VerticalDim((left, low), (left, high), -1, suffix=" over corners"),
        VerticalDim((shoulder, -end), (shoulder, end), 1),
        *(HorizontalDim((0.0, low * 0.9), (x, low * 0.9), -2 - i) for i, x in enumerate(rings)),
    )
    return [View("as turned, before the flats; butt end left", strokes, dims)]


@template(
    "button-facets",
    "Button, facets and counterbore",
    "File the flats to the octagon, in line with the handle's when the thread is seated; test the "
    "counterbore with the tongue.",
    "either way up",
)
def facets(p: Pattern) -> list[View]:
    """Draw a card with the octagon as a hole and a tongue that fills the counterbore."""
    d = p.scalars(ButtonDims)
    hole = outline.section(p, 0.0)
    a, rim = d.params.across_flats, 9.0
    half, end = a / 2 + rim, d.params.counterbore_depth
    wide = d.params.counterbore_diameter / 2
    corners = [(-half, half), (-half, -half), (half, -half), (half, -wide), (half + end, -wide)]
    card = polygon([*corners, (half + end, wide), (half, wide), (half, half)])
    strokes = all_strokes(cut(card), pocket(hole), centre_line((-half, 0), (-a, 0)))
    dims = (
        HorizontalDim((-a / 2, 0.0), (a / 2, 0.0), -1, suffix=" across flats"),
        HorizontalDim((half, wide), (half + end, wide), 1),
        VerticalDim((half + end, -wide), (half + end, wide), 1, suffix=" counterbore"),
    )
    title = (
        "slip the button's rear in; with the tongue in the counterbore the shoulders touch the face"
    )
    return [View(title, strokes, dims)]
