"""Calculate a stick's deflection and frequencies, and its camber under the hair's pull."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from templates_gen.bow.dims.masses import Piece
from templates_gen.bow.dims.tension import (
    LEAST_CAMBER,
    MOST_OF_BUCKLING,
    Tension,
    camber_left,
    least,
)
from templates_gen.geometry import Floats
from templates_gen.mechanics.beam import Beam, beam
from templates_gen.mechanics.bending import supported_deflection
from templates_gen.mechanics.bow import bow_properties
from templates_gen.mechanics.vibration import Body, free_frequencies
from templates_gen.parameters import Pattern
from templates_gen.parts.material.dims import MaterialDims, found_out
from templates_gen.parts.stick.dims_sections import StickSections

#: Load midway between ferrule and head (N), the stick supported under these two.
LOAD = 5.0
#: Number of frequencies reported.
TONES = 3
#: Pieces on the stick when it is tapped bare.
BARE = ("head", "tip plate", "liner")
#: Number of pulls compared for the window.
_LOOKS = 400


@dataclass(frozen=True)
class StickFigures:
    """Deflection, frequencies, buckling load and window of pulls of a stick.

    Args:
        modulus: of its wood (GPa).
        density: of its wood (kg/m³).
        density_measured, modulus_measured: whether each was measured on the wood in hand.
        stick_tones: lowest frequencies of the bare stick with its head, hanging free (Hz).
        bow_tones: lowest frequencies of the bow (Hz).
        moment_of_inertia: of the bow about its balance (g mm²).
        deflection: under ``LOAD`` midway between ferrule and head (mm).
        buckling: pull at which the stick buckles (N).
        pulls: pulls (N), each with the clear height and the camber left (mm).
        window: least and greatest pull (N) in play; None where there is none.
        straight_at: pull (N) that makes a stick bent by the tension law straight; None for others.
        strain: greatest strain of the wood in play, more than it has without hair.
        face_to_frog: slope of the head's face against the frog's bottom in play (degrees).
    """

    modulus: float
    density: float
    density_measured: bool
    modulus_measured: bool
    stick_tones: tuple[float, ...]
    bow_tones: tuple[float, ...]
    moment_of_inertia: float
    deflection: float
    buckling: float
    pulls: tuple[tuple[float, float, float], ...]
    window: tuple[float, float] | None
    straight_at: float | None
    strain: float
    face_to_frog: float

    @property
    def measured(self) -> bool:
        """Report whether density and modulus both were measured on the wood in hand."""
        return self.density_measured and self.modulus_measured


def stick_beam(p: Pattern, elements: int = 60, *, more: Sequence[float] = ()) -> Beam:
    """Return the stick from butt to head, with mortise and bores, as a beam.

    Args:
        p: the pattern.
        elements: least number of elements.
        more: places (mm) at which an element must end.
    """
    sections, m = p.derive(StickSections), p.derive(MaterialDims)
    return beam(
        [*map(float, sections.breaks), *more],
        lambda x: float(m.modulus) * 1e3 * np.asarray(sections.at(x).inertia),
        lambda x: float(m.stick_density) * 1e-6 * np.asarray(sections.at(x).area),
        elements,
    )


def figures(p: Pattern, pieces: Sequence[Piece]) -> StickFigures:
    """Return the deflection, frequencies and window of pulls of the stick.

    Args:
        p: the pattern.
        pieces: every piece of the bow.
    """
    m, t = p.derive(MaterialDims), p.derive(Tension)
    ferrule, face = float(t.places[0]), float(t.places[-1])
    middle = (ferrule + face) / 2
    b = stick_beam(p, more=(ferrule, middle))
    bodies = {q.name: _body(p, q) for q in pieces if q.name != "stick"}
    hair = bodies.pop("hair")
    fixed = [*bodies.values()]
    whole = bow_properties(b, [*fixed, hair], [*fixed, *hair_ends(t, hair.mass)])
    bare = free_frequencies(b, TONES, [bodies[name] for name in BARE])
    deflection = supported_deflection(b, {middle: LOAD}, (ferrule, face))[b.node(middle)]
    return StickFigures(
        float(m.modulus),
        float(m.stick_density),
        *found_out(p),
        tuple(map(float, bare)),
        tuple(map(float, whole.frequencies[:TONES])),
        whole.whole.moment_of_inertia,
        float(deflection),
        float(t.buckling),
        _pulls(t),
        window(t),
        float(t.straight_at) if t.by_tension else None,
        float((t.thickness / 2 * t.hair.tension_n * _heights(t) / t.stiffness).max()),
        float(t.face_to_frog(t.hair.tension_n)),
    )


def _body(p: Pattern, piece: Piece) -> Body:
    """Return a piece as a body; a long one with its own moment of inertia."""
    v = p.values
    long = {
        "hair": v["hair.length"],
        "head": v["head.face_length"],
        "frog": v["frog.length_bottom"],
        "leather": v["leather.length"],
        "lapping": v["lapping.length"],
    }.get(piece.name, 0.0)
    mass = float(piece.mass)
    return Body(float(piece.x), mass, mass * float(long) ** 2 / 12)


def hair_ends(t: Tension, mass: float) -> tuple[Body, Body]:
    """Return the hair as two point masses at the ferrule's front and the face's rear edge.

    Hair does not resist bending, so it moves with the stick only at its ends.

    Args:
        t: the stick and its hair.
        mass: mass of the hair (g).
    """
    rear, front = (Body(float(t.places[end]), mass / 2) for end in (0, -1))
    return rear, front


def _heights(t: Tension) -> Floats:
    return t.in_play + t.thickness / 2


def _pulls(t: Tension) -> tuple[tuple[float, float, float], ...]:
    """Return clear height and camber, slack and at steps around the pull in play."""
    pulls = float(t.hair.tension_n) * np.array([0.0, 0.5, 0.75, 1.0, 1.25])
    pulls = pulls[pulls < 0.95 * float(t.buckling)]
    gaps = t.gaps(pulls)
    rows = zip(pulls, least(gaps), camber_left(gaps), strict=True)  # type: ignore[arg-type]
    return tuple((float(n), float(clear), float(left)) for n, clear, left in rows)


def window(t: Tension) -> tuple[float, float] | None:
    """Return the least and greatest pull (N) with clear hair and enough camber; None if none."""
    pulls = np.linspace(0.0, MOST_OF_BUCKLING * float(t.buckling), _LOOKS)
    gaps = t.gaps(pulls)
    good = (least(gaps) >= t.least_clear) & (camber_left(gaps) >= LEAST_CAMBER)
    if not np.any(good):
        return None
    found = pulls[good]
    return float(found[0]), float(found[-1])
