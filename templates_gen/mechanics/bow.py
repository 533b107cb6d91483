"""A bow put together: weight, balance, how hard it is to turn, and its tones."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from templates_gen.geometry.arrays import Floats
from templates_gen.mechanics.beam import Beam
from templates_gen.mechanics.vibration import Body, free_tones


@dataclass(frozen=True)
class Weighed:
    """What the bow amounts to.

    Args:
        whole: mass (g), balance (mm along the stick), moment of inertia about it (g mm²).
        stick_tones: of the bare stick, hanging free (Hz).
        bow_tones: with all that is fixed to it (Hz).
    """

    whole: Body
    stick_tones: Floats
    bow_tones: Floats


def weighed(stick: Beam, bodies: Sequence[Body], ringing: Sequence[Body] | None = None) -> Weighed:
    """Weigh, balance and tap a bow.

    Args:
        stick: with what is spread along it, as lapping is.
        bodies: what is fixed to it at one place.
        ringing: the same bow as it vibrates, where that differs: hair turns with the bow as a rod
            and vibrates with it only at its ends. The bodies themselves if None.
    """
    mass, x = stick.total()
    whole = together([Body(x, mass, stick.moment_of_inertia()), *bodies])
    ringing = bodies if ringing is None else ringing
    return Weighed(whole, free_tones(stick), free_tones(stick, bodies=ringing))


def together(bodies: Sequence[Body]) -> Body:
    """Many bodies as one: total, balance Σ m x / Σ m, moment of inertia about that.

    Source: the parallel axis theorem (Steiner), any handbook of mechanics.
    """
    mass = sum(b.mass for b in bodies)
    x = sum(b.mass * b.x for b in bodies) / mass
    return Body(x, mass, sum(b.moment_of_inertia + b.mass * (b.x - x) ** 2 for b in bodies))
