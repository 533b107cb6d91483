"""Volume and centre of each part from its dimensions, without building a solid.

Frame: the stick's, with the frog in play. Lengths may be arrays.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from templates_gen import registry
from templates_gen.bow.dims import frames
from templates_gen.mechanics import VolumeAt
from templates_gen.parameters import Dims, Pattern

__all__ = ["VolumeAt", "Volumes"]


@dataclass(frozen=True)
class Volumes(Dims):
    """The volume of every part this bow has, by the part's name."""

    parts: Mapping[str, VolumeAt]

    @classmethod
    def of(cls, p: Pattern) -> Volumes:
        found = {m: m.volume(p) for m in registry.members()}
        return cls(
            {
                m.part: v.moved(frames.group_in_play(p, m.moves_with))
                for m, v in found.items()
                if v is not None
            }
        )
