"""How a finished solid shows a clearance: what is measured on it, and between which faces.

Faces are named "part: group". A part's builder says what its groups are: the finished faces that
one of its cutting tools left, or a part of the blank's outside. Groups of two parts are measured
with the parts put together.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

Axis = Literal["x", "y", "z"]
#: Where the frog stands on the stick; frog and stick parts are measured together there.
Pose = Literal["play", "rearmost", "foremost"]


@dataclass(frozen=True)
class Measure:
    """What all measurements have in common.

    Args:
        between: groups of faces, each "part: group", or several joined by " + ".
        times: what the distance is multiplied by; a diameter's play is twice the gap.
        limit: the least the measured may be, where the rule compares two other figures.
        poses: where the frog stands; the worst counts.
    """

    between: tuple[str, ...]
    times: float = 1.0
    limit: float | None = None
    poses: tuple[Pose, ...] = ("play",)

    @property
    def groups(self) -> tuple[tuple[str, ...], ...]:
        """The names of the groups that stand together, by place."""
        return tuple(tuple(names.split(" + ")) for names in self.between)

    @property
    def parts(self) -> tuple[str, ...]:
        """The parts whose faces are measured, each once."""
        names = (name for names in self.groups for name in names)
        return tuple(dict.fromkeys(name.partition(":")[0] for name in names))


@dataclass(frozen=True)
class Gap(Measure):
    """The least distance between the first group of faces and all the others."""


@dataclass(frozen=True)
class Land(Measure):
    """The least width of the faces of the first group, between the edges of the other two."""


@dataclass(frozen=True)
class Along(Measure):
    """How far the second group begins beyond where the first begins, along an axis."""

    axis: Axis = "x"


@dataclass(frozen=True)
class Extent(Measure):
    """How long the faces of the group are, along an axis."""

    axis: Axis = "x"


@dataclass(frozen=True)
class Radius(Measure):
    """The least radius of the round faces of the groups."""


@dataclass(frozen=True)
class NotMeasured:
    """No solid shows it.

    Args:
        why: the reason, as the docs print it.
    """

    why: str


Shown = Measure | NotMeasured


def gap(
    *between: str,
    times: float = 1.0,
    limit: float | None = None,
    poses: Sequence[Pose] = ("play",),
) -> Gap:
    """The least distance between a group of faces and one or more others."""
    return Gap(between, times, limit, tuple(poses))
