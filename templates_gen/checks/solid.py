"""Measurements on finished solids: what to measure for a rule, and between which faces.

Faces are named "part: group". A part's ``solid.py`` names its groups: the finished faces that one
cutting tool left, or a part of the blank's outside. Groups of two parts are measured with the parts
assembled.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

Axis = Literal["x", "y", "z"]
#: Position of the frog on the stick; frog and stick are measured together there.
Pose = Literal["play", "rearmost", "foremost"]


@dataclass(frozen=True)
class Measure:
    """What all measurements have in common.

    Args:
        between: groups of faces, each "part: group", or several joined by " + ".
        times: factor on the distance; a diameter's play is twice the gap.
        limit: the least value, where the rule compares two other figures.
        poses: positions of the frog; the worst counts.
    """

    between: tuple[str, ...]
    times: float = 1.0
    limit: float | None = None
    poses: tuple[Pose, ...] = ("play",)

    @property
    def groups(self) -> tuple[tuple[str, ...], ...]:
        """Return the group names, joined groups split."""
        return tuple(tuple(names.split(" + ")) for names in self.between)

    @property
    def parts(self) -> tuple[str, ...]:
        """Return the parts whose faces are measured, each once."""
        names = (name for names in self.groups for name in names)
        return tuple(dict.fromkeys(name.partition(":")[0] for name in names))


@dataclass(frozen=True)
class Gap(Measure):
    """Measure the least distance between the first group of faces and all the others."""


@dataclass(frozen=True)
class Land(Measure):
    """Measure the least width of the first group's faces, between the edges of the other two."""


@dataclass(frozen=True)
class Along(Measure):
    """Measure how far the second group begins beyond the start of the first, along an axis."""

    axis: Axis = "x"


@dataclass(frozen=True)
class Extent(Measure):
    """Measure the length of the group's faces along an axis."""

    axis: Axis = "x"


@dataclass(frozen=True)
class Radius(Measure):
    """Measure the least radius of the groups' round faces."""


@dataclass(frozen=True)
class NotMeasured:
    """State that no solid shows what a rule measures.

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
    """Measure the least distance between a group of faces and one or more others."""
    return Gap(between, times, limit, tuple(poses))
