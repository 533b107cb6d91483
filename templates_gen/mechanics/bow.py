"""Mass, balance, moment of inertia and frequencies of an assembled bow."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from templates_gen.geometry import Floats
from templates_gen.mechanics.beam import Beam
from templates_gen.mechanics.vibration import Body, free_frequencies


@dataclass(frozen=True)
class BowProperties:
    """Mass properties and frequencies of a bow.

    Args:
        whole: mass (g), balance (mm along the stick), moment of inertia about it (g mm²).
        frequencies: bending frequencies, free at both ends (Hz).
    """

    whole: Body
    frequencies: Floats


def bow_properties(
    stick: Beam, bodies: Sequence[Body], ringing: Sequence[Body] | None = None
) -> BowProperties:
    """Calculate mass, balance, moment of inertia and frequencies of a bow.

    Args:
        stick: the stick, with what is spread along it, such as lapping.
        bodies: what is fixed to it at one position.
        ringing: the bodies that vibrate, where they differ: the hair turns with the bow as a rod
            but vibrates with it only at its ends. ``bodies`` if None.
    """
    mass, x = stick.total()
    whole = combine_bodies([Body(x, mass, stick.moment_of_inertia()), *bodies])
    ringing = bodies if ringing is None else ringing
    return BowProperties(whole, free_frequencies(stick, bodies=ringing))


def combine_bodies(bodies: Sequence[Body]) -> Body:
    """Combine bodies into one: total mass, balance Σ m x / Σ m, moment of inertia about it.

    Source: the parallel axis theorem (Steiner), any handbook of mechanics.
    """
    mass = sum(b.mass for b in bodies)
    x = sum(b.mass * b.x for b in bodies) / mass
    return Body(x, mass, sum(b.moment_of_inertia + b.mass * (b.x - x) ** 2 for b in bodies))
