"""How much there is of each part, as its solid measured it. Frame: the stick's."""

from __future__ import annotations

from collections.abc import Mapping

from templates_gen.bow.dims import frames
from templates_gen.bow.dims.frames import Frame
from templates_gen.bow.dims.volumes import VolumeAt
from templates_gen.parameters import Pattern
from templates_gen.parts.head import solid as head
from templates_gen.pipeline.witness import Witness

Vector = tuple[float, float, float]


def bulk(p: Pattern, seen: Mapping[str, Witness]) -> dict[str, VolumeAt]:
    """Each part's volume and the place of its middle along the stick; the stick's own is left out.

    Args:
        p: the pattern.
        seen: what its solids left behind.
    """
    heel, _ = frames.positions(p)["play"]
    places = {part: f.moved(heel, 0.0) for part, f in frames.in_frog(p).items()}
    places |= {part: f for part, f in frames.WITH_STICK.items() if part != "stick"}
    found = {
        part: VolumeAt(seen[part].volume, along(place, seen[part].centroid))
        for part, place in places.items()
        if part in seen
    }
    return found | {"head": _head(p, seen["head"])}


def along(frame: Frame, point: Vector) -> float:
    """Where a point of a part is along the stick (mm)."""
    (xx, xy, xz), (zx, zy, zz) = frame.x, frame.z
    y = zy * xz - zz * xy  # the first figure of z × x
    del xy, xz, zy, zz
    return frame.origin[0] + point[0] * xx + point[1] * y + point[2] * zx


def _head(p: Pattern, seen: Witness) -> VolumeAt:
    """The head without the length of bent stick its solid carries."""
    rod, (x, z) = head.carried(head.recipe(p))
    at = along(frames.head(p), (x, 0.0, z))
    whole = along(frames.head(p), seen.centroid)
    volume = seen.volume - rod
    return VolumeAt(volume, (seen.volume * whole - rod * at) / volume)
