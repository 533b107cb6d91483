"""Volume and centre of each part, measured on its solid if it has one. Frame: the stick's."""

from __future__ import annotations

from collections.abc import Mapping

from templates_gen import registry
from templates_gen.bow.dims import frames
from templates_gen.bow.dims.volumes import Volumes
from templates_gen.mechanics import VolumeAt
from templates_gen.parameters import Pattern
from templates_gen.pipeline.witness import Witness


def bulk(p: Pattern, seen: Mapping[str, Witness]) -> dict[str, VolumeAt]:
    """Return the volume of each part on the bow, the frog in play.

    Args:
        p: the pattern.
        seen: the solids' witnesses, by part.
    """
    found = dict(p.derive(Volumes).parts)
    for m in registry.members():
        if m.part in seen:
            w = seen[m.part]
            at = m.frame(p).along(w.centroid) + frames.group_in_play(p, m.moves_with)
            found[m.part] = VolumeAt(w.volume, float(at))
    return found
