"""The head mortise: its scribing card and its plug. Part of ``sheets``."""

from __future__ import annotations

import math

from templates_gen.drawing import (
    Angle,
    HorizontalDim,
    Pattern,
    Radius,
    VerticalDim,
    View,
    all_strokes,
    bit_below,
    centre_line,
    cut,
    pocket_marks,
    polygon,
    template,
)
from templates_gen.parts.head import outline
from templates_gen.parts.head.dims import HeadDims
from templates_gen.shapes.trapezoid import trapezoid


@template(
    "head-mortise-card",
    "Head mortise, scribing card",
    "Lay it on the face, rear edge and sides flush; prick corners and centres, drill, chisel.",
    "hair side up",
)
def mortise_card(p: Pattern) -> list[View]:
    d = p.scalars(HeadDims)
    s, mortise = d.params, outline.mortise(p)
    rear, ahead = s.mortise_from_rear, d.mortise_front
    # Its sides are those of the head, as far as they are straight.
    half, end = s.width / 2, ahead + 6.0
    card = trapezoid(0.0, end, *(2 * d.half_width(x) for x in (0.0, end)))
    narrow_side = min(s.mortise_width, s.mortise_width_front)
    # Two holes side by side that do not overlap.
    bit = bit_below(min((ahead - rear - 1.2) / 2 - 0.4, narrow_side * 0.55))
    first, last = rear + bit / 2 + 0.4, ahead - bit / 2 - 0.4
    strokes = all_strokes(
        cut(card),
        pocket_marks(mortise, [(x, 0.0) for x in (first, last)], bit),
        centre_line((-3, 0), (end + 3, 0)),
    )
    wide, narrow = s.mortise_width / 2, s.mortise_width_front / 2
    dims = (
        HorizontalDim((0.0, -half), (rear, -wide), -1),
        HorizontalDim((rear, -wide), (ahead, -narrow), -2),
        VerticalDim((rear, -wide), (rear, wide), -1),
        VerticalDim((ahead, -narrow), (ahead, narrow), 1),
        Radius((last, 0.0), bit / 2, 60.0, diameter=True, reach=half),
    )
    title = f"rear edge left; {s.mortise_depth:g} deep from the plate's face, front undercut "
    title += f"{s.mortise_undercut_deg:g}°"
    return [View(title, strokes, dims)]


@template(
    "head-plug",
    "Head mortise plug",
    "Cut the plug from soft straight-grained wood; fit it by hand.",
    "hair side down",
)
def plug(p: Pattern) -> list[View]:
    d = p.scalars(HeadDims)
    s = d.params
    length, deep = d.plug_length, d.plug_room - d.hair.knot
    ahead = s.mortise_width_front / 2
    # The hair passes behind it, where the mortise is widest.
    grows = ((s.mortise_width - s.mortise_width_front) / s.mortise_length) / 2
    rear = ahead + grows * length
    plan_ = polygon([(0.0, -rear), (length, -ahead), (length, ahead), (0.0, rear)])
    tilt = deep * math.tan(math.radians(s.mortise_undercut_deg))
    side_ = polygon([(0.0, 0.0), (length, 0.0), (length + tilt, deep), (0.0, deep)])
    return [
        View(
            "from below; front right",
            all_strokes(cut(plan_)),
            (
                HorizontalDim((0, -rear), (length, -ahead), -1),
                VerticalDim((0, -rear), (0, rear), -1),
                VerticalDim((length, -ahead), (length, ahead), 1),
            ),
        ),
        View(
            "from the side, hair side down; the hair passes behind it, left",
            all_strokes(cut(side_)),
            (
                VerticalDim((0, 0), (0, deep), -1),
                Angle((length, 0.0), 90.0 - s.mortise_undercut_deg, 90.0, deep + 3.0),
            ),
        ),
    ]
