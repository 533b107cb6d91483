"""The hair in the whole bow: what it weighs, from knot to knot."""

from __future__ import annotations

import math

from templates_gen.mechanics import STICK, Portion, VolumeAt
from templates_gen.parameters import Pattern
from templates_gen.parts.frog.params import Frog
from templates_gen.parts.hair.dims import HAIR_DIAMETER
from templates_gen.parts.hair.params import Hair
from templates_gen.parts.head.params import Head
from templates_gen.parts.stick.params import Stick

MOVES_WITH = STICK


def volume(p: Pattern) -> VolumeAt:
    """Return the volume of all hairs, from the knot in the frog to the knot in the head."""
    frog, head = p[Frog], p[Head]
    rear = frog.front_at_play - frog.length_bottom + frog.hair_mortise_from_heel
    rear = rear + frog.hair_mortise_length / 2
    front = p[Stick].length - head.face_length + head.mortise_from_rear + head.mortise_length / 2
    long = front - rear + frog.hair_mortise_depth + head.mortise_depth
    hairs = p[Hair].count * math.pi / 4 * HAIR_DIAMETER**2 * long
    return VolumeAt(hairs, (rear + front) / 2)


def portions(p: Pattern, volume: VolumeAt) -> tuple[Portion, ...]:
    """List the hair."""
    return (Portion("hair", volume, "horse hair"),)
