"""The stick's sections, with mortise and bores. Frame: the stick's, x = 0 at the butt's shoulder.

Lengths may be arrays, one for each of many sticks; places along the stick are the last axis.
"""

from __future__ import annotations

import dataclasses
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from templates_gen.geometry import Floats
from templates_gen.mechanics import VolumeAt, breaks, gauss
from templates_gen.mechanics.sections import Section, circle, rectangle
from templates_gen.parameters import Dims, FloatOrArray, Pattern
from templates_gen.parts.screw.params import Screw
from templates_gen.parts.stick.dims import WITH_HEAD, StickDims
from templates_gen.parts.stick.params import Stick
from templates_gen.shapes.stick_section import blend_section

#: The long piece ahead of the blend is integrated in this many parts.
_PARTS = 3


@dataclass(frozen=True)
class StickSections(Dims):
    """What the stick is across, anywhere from butt to head."""

    dims: StickDims
    bearing_depth: FloatOrArray

    @classmethod
    def of(cls, p: Pattern) -> StickSections:
        d = p.derive(StickDims)
        along = StickDims(
            *(columned(r) for r in (d.params, d.eyelet, d.frog, d.head, d.ferrule, d.hair))
        )
        return cls(along, _column(p[Screw].bearing_depth))

    @property
    def params(self) -> Stick:
        return self.dims.params

    def wood(self, x: FloatOrArray) -> Section:
        """The section without holes at a place (mm); its datum is the axis."""
        s = self.params
        run_out = np.clip((x - s.handle_length) / s.blend_length, 0.0, 1.0)
        return blend_section(s.section, self.dims.diameter(x), run_out)

    def at(self, x: FloatOrArray) -> Section:
        """The section as it is, mortise and bores taken out."""
        s, front = self.params, self.dims.mortise_front
        slot = rectangle(s.mortise_width, s.mortise_depth)
        slot = slot.lifted(-self.dims.across_flats(x) / 2)
        section = self.wood(x)
        for hole, start, end in (
            (circle(s.rear_bore), -s.nipple_length, s.mortise_from_butt),
            (slot, s.mortise_from_butt, front),
            (circle(s.front_bore), front, front + self.bearing_depth),
        ):
            there = np.where((x >= start) & (x < end), 1.0, 0.0)
            section = section - Section(hole.area * there, hole.inertia * there, hole.centroid)
        return section

    @cached_property
    def breaks(self) -> Floats:
        """Butt, head, and every place (mm) between them where a hole or a shape ends, rising."""
        s, front, far = self.params, self.dims.mortise_front, self.dims.face_rear
        blended = s.handle_length + s.blend_length
        ends = [s.mortise_from_butt, front, front + self.bearing_depth, s.handle_length]
        ends += [blended + (far - blended) * i / _PARTS for i in range(_PARTS)]
        return breaks(0.0 * far, far, *ends)

    @cached_property
    def bulk(self) -> tuple[FloatOrArray, FloatOrArray]:
        """Volume (mm³) from butt to head, and the place (mm) of its middle."""
        whole = self._volume(self.breaks)
        return whole.volume, whole.x

    @cached_property
    def solid(self) -> VolumeAt:
        """What the stick's solid holds: the nipple, and the stick up to what the head's carries."""
        far = self.dims.face_rear - WITH_HEAD
        return self._volume(np.minimum(self.breaks, far)) + self.nipple_at

    @property
    def nipple_at(self) -> VolumeAt:
        """The nipple round its bore."""
        return VolumeAt(self.nipple, -_flat(self.params.nipple_length) / 2)

    def spread(self, edges: Floats) -> Floats:
        """Volume (mm³) of one stick between each two of these places (mm, rising)."""
        x, slices = self._slices(np.union1d(self.breaks, np.clip(edges, 0.0, self.dims.face_rear)))
        return np.histogram(x, bins=edges, weights=slices)[0]

    def _slices(self, ends: Floats) -> tuple[Floats, Floats]:
        """Places (mm) between these ends, and the volume (mm³) each stands for."""
        x, each = gauss(ends)
        return x, self.at(x).area * each

    def _volume(self, ends: Floats) -> VolumeAt:
        """Volume between the first and the last of these places (mm)."""
        x, slices = self._slices(ends)
        volume = slices.sum(axis=-1)
        return VolumeAt(volume, (slices * x).sum(axis=-1) / volume)

    @property
    def nipple(self) -> FloatOrArray:
        """Volume (mm³) of the nipple round its bore."""
        s = self.params
        volume = (circle(s.nipple_diameter).area - circle(s.rear_bore).area) * s.nipple_length
        return _flat(volume)


def columned(record: Any) -> Any:
    """A record whose arrays stand in a column, so that places may run along the last axis."""
    own = vars(record).items()
    arrays = {k: v[..., None] for k, v in own if isinstance(v, np.ndarray) and v.ndim}
    return dataclasses.replace(record, **arrays) if arrays else record


def _column(value: FloatOrArray) -> FloatOrArray:
    return np.asarray(value)[..., None] if np.ndim(value) else value


def _flat(value: FloatOrArray) -> FloatOrArray:
    return value[..., 0] if isinstance(value, np.ndarray) and value.ndim else value
