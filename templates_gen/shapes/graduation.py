"""The stick's diameter by position, from the handle's end to the head."""

from __future__ import annotations

from enum import StrEnum

import numpy as np

from templates_gen.shapes.arch import Num

#: The rule's two ordinates, at the butt and at the head.
_BUTT, _HEAD = 110.0, 22.0


class GraduationKind(StrEnum):
    """How the diameter falls toward the head."""

    PUBLISHED = "published"
    LINEAR = "linear"
    STATIONS = "stations"


def published(along: Num, length: Num, handle: Num, thick: Num, thin: Num) -> Num:
    """Diameter (mm) by the published geometric rule in closed form.

    A straight line falls from an ordinate of 110 at the butt to 22 at the head; each step along the
    stick is as long as the ordinate at its start, and the diameter falls by equal parts at each.
    Source: F.-J. Fétis 1856, quoted in H. Saint-George, The Bow, ch. VI.

    Args:
        along: place from the butt (mm).
        length: from the butt to the face's rear edge (mm).
        handle: length of the handle, on which the rule does not act (mm).
        thick, thin: diameter at the handle's end and at the head (mm).
    """
    share = _HEAD / _BUTT
    start = length * share / (1 - share)
    from_head = length - along
    whole = np.log((start + length - handle) / start)
    return thin + (thick - thin) * np.log((start + from_head) / start) / whole


def linear(along: Num, length: Num, handle: Num, thick: Num, thin: Num) -> Num:
    """Diameter (mm) falling evenly from the handle's end to the head."""
    return thick + (thin - thick) * (along - handle) / (length - handle)


def steps(length: float) -> tuple[float, ...]:
    """The rule's own stations (mm from the butt), to the first at or beyond the length.

    Each step is as long as the falling ordinate at its start.
    """
    unit = length / 700.0
    places, at = [0.0], 0.0
    for _ in range(12):
        at += (_BUTT - (_BUTT - _HEAD) * at / length) * unit if length else 0.0
        places.append(at)
    return tuple(places)
