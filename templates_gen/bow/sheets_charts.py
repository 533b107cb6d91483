"""Charts of the whole bow: weight, thickness, camber, and the effect of hair tension.

Part of ``sheets``.
"""

from __future__ import annotations

import numpy as np

from templates_gen.bow.dims.masses import Masses, Piece
from templates_gen.bow.dims.tension import LEAST_CAMBER, Tension, camber_left, least
from templates_gen.bow.dims.travel import Travel
from templates_gen.drawing import (
    CHART,
    Curve,
    Layer,
    Pattern,
    Point,
    Reach,
    View,
    chart,
    template,
)
from templates_gen.geometry import Floats
from templates_gen.parts.material.dims import MaterialDims
from templates_gen.parts.stick.dims import StickDims
from templates_gen.parts.stick.dims_sections import StickSections

#: Length (mm) of the slices in which the weight is shown.
SLICE = 20.0
#: The tension is shown up to this fraction of the load at which the stick buckles sideways.
_MOST, _PULLS = 0.8, 33
_ALONG = "mm from the butt"


def slices(p: Pattern, masses: tuple[Piece, ...]) -> tuple[list[float], list[float]]:
    """List where slices of the bow begin (mm from the butt), and the mass in each (g).

    Stick and hair are spread along their length; every other piece counts at its centre.
    """
    sections, d, m = p.scalars(StickSections), p.scalars(StickDims), p.scalars(MaterialDims)
    edges = np.arange(-2 * SLICE, d.params.length + 2 * SLICE, SLICE)
    wood = sections.spread(edges)
    wood[edges[:-1] == -SLICE] += sections.nipple  # it ends at the butt
    found = wood * m.stick_density * 1e-6
    hair = np.clip(edges, d.frog.front_at_play, d.face_rear)
    for q in (q for q in masses if q.name != "stick"):
        # Unusual dimensions, which a check rejects, can put a piece beyond the ends of the bow.
        there = np.clip((q.x - edges[0]) // SLICE, 0, len(found) - 1)
        share = np.diff(hair) if q.name == "hair" else np.arange(len(found)) == there
        found += share / max(1e-9, share.sum()) * q.mass
    return edges[:-1].tolist(), found.tolist()


def _weighs(p: Pattern) -> bool:
    """Tell whether the weight can be calculated; some rejected dimensions give none."""
    with np.errstate(all="ignore"):
        m = p.scalars(Masses)
        thick = p.scalars(StickDims).diameter(np.linspace(0.0, p.scalars(StickDims).face_rear, 9))
        return bool(np.isfinite([m.total, m.balance, *np.asarray(thick)]).all())


@template(
    "bow-chart-weight",
    "Weight and thickness along the bow",
    "Find where the weight is before you take any off.",
    CHART,
    wanted=_weighs,
)
def weight(p: Pattern) -> list[View]:
    """Draw the distribution of weight along the bow, and the thickness of the stick."""
    masses, d = p.scalars(Masses), p.scalars(StickDims)
    starts, found = slices(p, masses.pieces)
    steps: list[Point] = []
    for x, mass in zip(starts, found, strict=True):
        steps += [(x, mass), (x + SLICE, mass)]
    at, front = masses.balance, p.scalars(Travel).frog.params.front_at_play
    balance = Curve(
        [(at, 0.0), (at, max(found) * 0.8)],
        f"balance point, {at - front:.0f} from the ferrule",
        1.0,
        Layer.CENTRE,
    )
    heading = f"about {masses.total:.0f} g, in slices of {SLICE:g} mm"
    ends = Reach(starts[0], starts[-1] + SLICE)
    thick = [(x, d.diameter(x)) for x in np.linspace(0.0, d.face_rear, 150)]
    sawn = [(x, y + d.stages["octagon"]) for x, y in thick]
    return [
        chart(heading, [Curve(steps), balance], _ALONG, "g", ends),
        chart(
            "thickness of the finished stick; dashed: the octagon before it",
            [Curve(thick), Curve(sawn, layer=Layer.HIDDEN)],
            _ALONG,
            "mm",
            ends,
        ),
    ]


def _bends(p: Pattern) -> bool:
    """Tell whether the effect of hair tension on the stick can be calculated."""
    with np.errstate(all="ignore"):
        return bool(np.isfinite(p.scalars(Tension).in_play).all())


@template(
    "bow-chart-bend",
    "Camber and clearance",
    "Read off how much tension this stick can take, and how much camber is left.",
    CHART,
    wanted=_bends,
)
def bend(p: Pattern) -> list[View]:
    """Draw the camber with and without hair, and what is left of it as the tension rises."""
    t, pull = p.scalars(Tension), p.scalars(Tension).hair.tension_n
    slack, played = (_under(g) for g in (t.unstrung - t.thickness / 2, t.in_play))
    x = t.places.tolist()
    pulls = np.linspace(0.0, max(_MOST * t.buckling, pull), _PULLS).tolist()
    gaps = [np.asarray(t.gaps(n)) for n in pulls]
    clear = [(n, max(0.0, float(least(g)))) for n, g in zip(pulls, gaps, strict=True)]
    left = [(n, max(0.0, float(camber_left(g)))) for n, g in zip(pulls, gaps, strict=True)]
    tall = max(y for _, y in (*clear, *left))
    limits = ((t.least_clear, "least clearance"), (LEAST_CAMBER, "least camber"))
    return [
        chart(
            "depth under a straight edge from ferrule to head; dashed: in play",
            [
                Curve(list(zip(x, slack, strict=True)), "bent", 0.4),
                Curve(list(zip(x, played, strict=True)), "in play", 0.7, Layer.HIDDEN),
            ],
            _ALONG,
            "mm",
            Reach(),
        ),
        chart(
            "under hair tension; the vertical line is this pattern in play",
            [
                Curve(clear, "clearance under the stick", 0.8),
                Curve(left, "camber left", 0.15, Layer.HIDDEN),
                *(
                    Curve([(0.0, y), (pulls[-1], y)], description, 0.0, Layer.CENTRE)
                    for y, description in limits
                ),
                Curve([(pull, 0.0), (pull, tall)], f"{pull:g} N", 1.0, Layer.CENTRE),
            ],
            "N of tension",
            "mm",
            Reach(),
        ),
    ]


def _under(gaps: Floats) -> list[float]:
    """Return the depth (mm) of the underside below the straight edge between its ends."""
    u = np.linspace(0.0, 1.0, gaps.shape[-1])
    under: list[float] = (gaps[0] + (gaps[-1] - gaps[0]) * u - gaps).tolist()
    return under
