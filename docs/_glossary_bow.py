"""Draw the whole bow from the side, with a letter for each of its parts."""

from __future__ import annotations

import math

from _letters import ABOVE, BELOW, Lettered

from templates_gen.drawing.view import all_strokes, cut, hidden, line, scribe
from templates_gen.geometry import Path, Point, polygon, rectangle
from templates_gen.parameters import Pattern
from templates_gen.parts.button.dims import ButtonDims
from templates_gen.parts.form import dims_curves as curves
from templates_gen.parts.frog import outline as frog_outline
from templates_gen.parts.frog.dims import FrogDims
from templates_gen.parts.head import outline as head_outline
from templates_gen.parts.stick.dims import StickDims


def bow(p: Pattern) -> Lettered:
    """Lay the outlines of all parts together: the bow from the side."""
    d, f, b = p.derive(StickDims), p.derive(FrogDims), p.derive(ButtonDims).params
    under, top = curves.underside(p), curves.top(p).path
    rear, thick, clear = (
        float(f.params.front_at_play),
        float(d.diameter(0.0)),
        float(f.params.clear_height),
    )
    lean = math.atan2(*(float(v[1] - v[0]) for v in (under.z, under.x)))
    long, half = float(b.length), float(b.across_flats) / 2
    ring, high = float(f.ferrule.params.length), float(f.ferrule.params.height)
    deepest, deep = float(d.camber.deepest) * float(d.chord), -float(d.params.camber_depth)

    def laid(path: Path) -> Path:
        """Turn what is straight with the handle; x is 0 at the ferrule's front."""
        return path.rotated(lean, (0.0, 0.0))

    def at(x: float, z: float) -> Point:
        return laid(line((0.0, 0.0), (x, z))).end

    def over(band: Path) -> Point:
        """Return the place on the stick's top over the middle of a band."""
        x = (band.box[0] + band.box[2]) / 2
        return (x, curves.top(p).height(x))

    head, end = _head_on_stick(p, top), under.path.end
    stick = [
        q.part(0.0, q.length - math.dist(q.end, e))
        for q, e in ((top, head.end), (under.path, head.start))
    ]
    hair = line(at(0.0, -clear), min(((x, z) for x, z, _ in head.vertices), key=lambda q: q[1]))
    bands = [_band(p, name, rear) for name in ("leather", "lapping")]
    handle = polygon([(-rear, 0.0), (0.0, 0.0), (0.0, thick), (-rear, thick)])
    strokes = all_strokes(
        *(cut(path) for path in (*stick, head, laid(handle))),
        cut(laid(frog_outline.side(p).moved(-float(f.params.length_bottom), -clear))),
        cut(laid(rectangle(-ring, -clear, 0.0, high - clear))),
        cut(laid(rectangle(-rear - long, thick / 2 - half, -rear, thick / 2 + half))),
        *(scribe(band) for band in bands),
        scribe(hair),
        hidden(line((0.0, 0.0), end)),
        scribe(line((deepest, 0.0), (deepest, deep))),
    )
    named = {
        "button": (at(-rear - long / 2, thick / 2 + half), ABOVE),
        "butt": (at(-rear, 0.0), (-4.0, -12.0)),
        "handle": (at(-rear * 0.75, thick), ABOVE),
        "thumb leather": (over(bands[0]), ABOVE),
        "lapping": (over(bands[1]), ABOVE),
        "stick": (top.point_at(top.length * 0.35), ABOVE),
        "camber": ((deepest, deep / 2), (10.0, -4.0)),
        "head": (head.point_at(head.length * 0.68), ABOVE),
        "frog": (at(-float(f.params.length_bottom) * 0.6, -clear), BELOW),
        "ferrule": (at(-ring / 2, -clear), BELOW),
        "hair": (hair.point_at(hair.length * 0.3), BELOW),
    }
    return Lettered("the bow from the side, without tension; hair below", strokes, named)


def _head_on_stick(p: Pattern, top: Path) -> Path:
    """Place the head's outline at the end of the stick's top line, open where the stick begins."""
    whole = head_outline.side(p)
    left = min(range(len(whole.segments)), key=lambda i: whole.segments[i].point(0.5)[0])
    corner, (u, v) = whole.segments[left].start, whole.segments[left - 1].tangent(1.0)
    (x, z), along = _join(p, top)
    pieces = (*whole.segments[left + 1 :], *whole.segments[:left])
    turned = along - math.atan2(-v, -u)
    outline = Path.from_segments(pieces, closed=False).moved(-corner[0], -corner[1])
    return outline.rotated(turned, (0.0, 0.0)).moved(x, z)


def _join(p: Pattern, top: Path) -> tuple[Point, float]:
    """Return the place on the stick's top where the head's outline begins, and the angle there."""
    s = top.length + float(head_outline.side(p).box[0])
    u, v = top.tangent_at(s)
    return top.point_at(s), math.atan2(v, u)


def _band(p: Pattern, section: str, rear: float) -> Path:
    """Outline what is wound round the stick, from the leather's rear edge on."""
    start = float(p.values["leather.from_butt"]) - rear
    if section == "lapping":
        start += float(p.values["leather.length"])
    end = start + float(p.values[f"{section}.length"])
    under, top = curves.underside(p), curves.top(p)
    corners = ((start, under), (end, under), (end, top), (start, top))
    return polygon([(x, curve.height(x)) for x, curve in corners])
