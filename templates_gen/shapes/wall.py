"""A wall to be measured on a solid, told by places on the faces it stands between."""

from __future__ import annotations

from dataclasses import dataclass

#: A place in the part's own frame: x, y, z (mm).
Place = tuple[float, float, float]


@dataclass(frozen=True)
class Wall:
    """A wall by the check it answers to.

    Args:
        check: the check's name.
        inner: a place within one face, of a pocket or a bore.
        outer: a place within each face the wall stands to.
    """

    check: str
    inner: Place
    outer: tuple[Place, ...]
