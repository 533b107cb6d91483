"""Pictures of the whole bow: weight, thickness, camber, and what the hair's pull does to it.

Part of ``sheets``.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from templates_gen.bow.dims.masses import Masses, Piece
from templates_gen.bow.dims.tension import LEAST_CAMBER, Tension, camber_left, least
from templates_gen.bow.dims.travel import Travel
from templates_gen.drawing.chart import Curve, Reach, chart
from templates_gen.drawing.sheet import CHART, Layer
from templates_gen.drawing.template import Template
from templates_gen.drawing.view import View
from templates_gen.geometry import Point
from templates_gen.parameters import Pattern
from templates_gen.parts.material.dims import MaterialDims
from templates_gen.parts.stick.dims import StickDims
from templates_gen.parts.stick.dims_sections import StickSections

#: The bow is weighed in slices so long (mm).
SLICE = 20.0
#: The hair's pull is told up to this much of that at which the stick gives way sideways.
_MOST, _PULLS = 0.8, 33
_ALONG = "mm from the butt"


def slices(p: Pattern, masses: tuple[Piece, ...]) -> tuple[list[float], list[float]]:
    """Where slices of the bow begin (mm from the butt), and what is in each (g).

    Stick and hair are spread along their length; every other piece counts where its middle is.
    """
    sections, d, m = p.derive(StickSections), p.derive(StickDims), p.derive(MaterialDims)
    edges = np.arange(-2 * SLICE, float(d.params.length) + 2 * SLICE, SLICE)
    wood = sections.spread(edges)
    wood[edges[:-1] == -SLICE] += float(sections.nipple)  # it ends at the butt
    found = wood * float(m.stick_density) * 1e-6
    hair = np.clip(edges, float(d.frog.front_at_play), float(d.face_rear))
    for q in (q for q in masses if q.name != "stick"):
        # Odd numbers, which a check refuses, may put a piece beyond the bow's own ends.
        there = np.clip((float(q.x) - edges[0]) // SLICE, 0, len(found) - 1)
        share = np.diff(hair) if q.name == "hair" else np.arange(len(found)) == there
        found += share / max(1e-9, share.sum()) * float(q.mass)
    return [float(x) for x in edges[:-1]], [float(m) for m in found]


def weight(p: Pattern) -> list[View]:
    """What is where along the bow, and how thick the stick is."""
    masses, d = p.derive(Masses), p.derive(StickDims)
    starts, found = slices(p, masses.pieces)
    steps: list[Point] = []
    for x, mass in zip(starts, found, strict=True):
        steps += [(x, mass), (x + SLICE, mass)]
    at, front = float(masses.balance), float(p.derive(Travel).frog.params.front_at_play)
    balance = Curve(
        [(at, 0.0), (at, max(found) * 0.8)],
        f"balances here, {at - front:.0f} from the ferrule",
        1.0,
        Layer.CENTRE,
    )
    told = f"about {float(masses.total):.0f} g, in slices of {SLICE:g} mm"
    ends = Reach(starts[0], starts[-1] + SLICE)
    thick = [(x, float(d.diameter(x))) for x in np.linspace(0.0, float(d.face_rear), 150)]
    sawn = [(x, y + d.stages["octagon"]) for x, y in thick]
    return [
        chart(told, [Curve(steps), balance], _ALONG, "g", ends),
        chart(
            "thickness of the finished stick; dashed the octagon before it",
            [Curve(thick), Curve(sawn, layer=Layer.HIDDEN)],
            _ALONG,
            "mm",
            ends,
        ),
    ]


def bend(p: Pattern) -> list[View]:
    """The camber with and without hair, and what is left of it under more and more pull."""
    t, pull = p.derive(Tension), float(p.derive(Tension).hair.tension_n)
    slack, played = (_under(g) for g in (t.unstrung - t.thickness / 2, t.in_play))
    x = [float(v) for v in t.places]
    pulls = [float(n) for n in np.linspace(0.0, max(_MOST * float(t.buckling), pull), _PULLS)]
    gaps = [np.asarray(t.gaps(n)) for n in pulls]
    clear = [(n, max(0.0, float(least(g)))) for n, g in zip(pulls, gaps, strict=True)]
    left = [(n, max(0.0, float(camber_left(g)))) for n, g in zip(pulls, gaps, strict=True)]
    tall = max(y for _, y in (*clear, *left))
    limits = ((t.least_clear, "least clearance"), (LEAST_CAMBER, "least camber"))
    return [
        chart(
            "depth under a straight edge from ferrule to head; dashed in play",
            [
                Curve(list(zip(x, slack, strict=True)), "bent", 0.4),
                Curve(list(zip(x, played, strict=True)), "in play", 0.7, Layer.HIDDEN),
            ],
            _ALONG,
            "mm",
            Reach(),
        ),
        chart(
            "under the hair's pull; the upright line is this pattern in play",
            [
                Curve(clear, "clear under the stick", 0.8),
                Curve(left, "camber left", 0.15, Layer.HIDDEN),
                *(
                    Curve([(0.0, y), (pulls[-1], y)], description, 0.0, Layer.CENTRE)
                    for y, description in limits
                ),
                Curve([(pull, 0.0), (pull, tall)], f"{pull:g} N", 1.0, Layer.CENTRE),
            ],
            "N of pull",
            "mm",
            Reach(),
        ),
    ]


def _under(gaps: NDArray[np.float64]) -> list[float]:
    """Depth (mm) of the underside below the straight edge between its ends."""
    u = np.linspace(0.0, 1.0, gaps.shape[-1])
    return [float(v) for v in gaps[0] + (gaps[-1] - gaps[0]) * u - gaps]


def _weighs(p: Pattern) -> bool:
    """Whether the bow's weight can be worked out: of some numbers a check refuses it cannot."""
    with np.errstate(all="ignore"):
        m = p.derive(Masses)
        thick = p.derive(StickDims).diameter(np.linspace(0.0, p.derive(StickDims).face_rear, 9))
        return bool(np.isfinite([m.total, m.balance, *np.asarray(thick)]).all())


def _bends(p: Pattern) -> bool:
    """Whether what the hair's pull does to the stick can be worked out."""
    with np.errstate(all="ignore"):
        return bool(np.isfinite(p.derive(Tension).in_play).all())


TEMPLATES = (
    Template(
        "bow-chart-weight",
        "Weight and thickness along the bow",
        "bow",
        "See where the weight sits before you take any off.",
        CHART,
        weight,
        wanted=_weighs,
    ),
    Template(
        "bow-chart-bend",
        "Camber and clearance",
        "bow",
        "See how much pull this stick bears, and what is left of its bend.",
        CHART,
        bend,
        wanted=_bends,
    ),
)
