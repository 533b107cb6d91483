"""Model the stick in hand as a beam: mass, frequencies and deflection for any wood."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from templates_gen.bench.fit.measured import Form, Head, Held, Measured
from templates_gen.bench.fit.thickness import thickness_of
from templates_gen.geometry import Floats
from templates_gen.mechanics import VolumeAt
from templates_gen.mechanics.beam import Beam, beam
from templates_gen.mechanics.bending import supported_deflection
from templates_gen.mechanics.sections import Section, circle, octagon, rectangle
from templates_gen.mechanics.vibration import Body, clamped_frequencies, free_frequencies
from templates_gen.parameters import Pattern, Points
from templates_gen.parts.head.assembly import without_stick
from templates_gen.parts.stick.dims import StickDims
from templates_gen.parts.stick.dims_sections import StickSections
from templates_gen.shapes.graduation import GraduationKind

#: Wood of the model (kg/m³, GPa); results for other wood follow by scaling.
DENSITY, MODULUS = 1000.0, 20.0
#: Standard gravity (m/s²), 3rd General Conference on Weights and Measures, 1901.
GRAVITY = 9.80665
_ELEMENTS = 24


@dataclass(frozen=True)
class Blank:
    """The stick in hand, with a thickness at each place.

    Args:
        pattern: the pattern to make of it.
        measured: what was measured on it.
        places: places of known thickness (mm).
        thickness: thickness there (mm); linear between them.
        modes: independent variations of the thickness (mm), each by its standard deviation.
    """

    pattern: Pattern
    measured: Measured
    places: Floats
    thickness: Floats
    modes: Floats

    @classmethod
    def of(cls, p: Pattern, measured: Measured) -> Blank:
        """Return it with the thickness of its stations, or the pattern's own if not measured."""
        known = thickness_of(p, measured)
        return cls(p, measured, known.places, known.mean, known.modes)

    @property
    def length(self) -> float:
        """Return the length (mm)."""
        return float(self.measured.values["stick.length"])

    @cached_property
    def sections(self) -> Callable[[Floats], Section]:
        """Return the cross-section as a function of the place."""
        form = self.measured.values["stick.form"]
        if form is Form.FINISHED:
            return self._finished.at
        shape: Callable[[Floats], Section] = {
            Form.SQUARE: lambda d: rectangle(d, d),
            Form.OCTAGON: octagon,
            Form.ROUND: circle,
        }[form]
        return lambda x: shape(np.interp(x, self.places, self.thickness))

    @cached_property
    def _finished(self) -> StickSections:
        """Return the pattern's sections with the thickness measured."""
        handle = float(self.pattern.values["stick.handle_length"])
        butt, end = (float(np.interp(x, self.places, self.thickness)) for x in (0.0, handle))
        values: dict[str, float | str | Points] = {
            "stick.graduation": GraduationKind.STATIONS,
            "stick.stations": tuple(
                zip(self.places.tolist(), self.thickness.tolist(), strict=True)
            ),
            "stick.across_flats_butt": butt,
            "stick.across_flats_handle_end": end,
        }
        return self.pattern.with_many(values).derive(StickSections)

    @cached_property
    def head(self) -> VolumeAt | None:
        """Return the head; None if it is not on."""
        if self.measured.values["stick.head"] is Head.NO:
            return None
        head = without_stick(self.pattern)
        face = float(self.pattern.derive(StickDims).face_rear)
        return VolumeAt(float(head.volume), float(head.x) - face + self.length)

    def beam(self, start: float = 0.0, *stops: float) -> Beam:
        """Return the beam from a place (mm) to the front end, with nodes at the stops."""
        inner = [float(x) for x in (*self.places, *stops, *self._ends) if start < x < self.length]
        return beam(
            [start, *inner, self.length],
            lambda x: MODULUS * 1e3 * np.asarray(self.sections(x).inertia),
            lambda x: DENSITY * 1e-6 * np.asarray(self.sections(x).area),
            _ELEMENTS,
        )

    @property
    def _ends(self) -> list[float]:
        """Return where holes begin or end (mm)."""
        if self.measured.values["stick.form"] is not Form.FINISHED:
            return []
        return [float(x) for x in self._finished.breaks]

    @property
    def _bodies(self) -> list[Body]:
        return [] if self.head is None else [_body(self.head)]

    @cached_property
    def volume(self) -> float:
        """Return the volume (mm³)."""
        grams, _ = self.beam().total()
        return grams / (DENSITY * 1e-6) + (0.0 if self.head is None else float(self.head.volume))

    def frequency(self, which: int = 1) -> float:
        """Return a natural frequency (Hz), held as it was: 1 the lowest, 2 the next."""
        held = self.measured.values["tapped.held"]
        if held is Held.END_GRAIN:
            return self._lengthwise(which)
        if held is Held.FREE:
            return float(free_frequencies(self.beam(), which, self._bodies)[-1])
        start = self.length - float(self.measured.values["tapped.free_length"])
        return float(clamped_frequencies(self.beam(start), which, self._bodies)[-1])

    def deflection(self) -> float:
        """Return the deflection under the weight (mm)."""
        v = self.measured.values
        rear, front = float(v["loaded.rear"]), float(v["loaded.front"])
        middle = (rear + front) / 2
        b = self.beam(0.0, rear, middle, front)
        load = float(v["loaded.weight"]) * 1e-3 * GRAVITY
        return float(supported_deflection(b, {middle: load}, (rear, front))[b.node(middle)])

    def _lengthwise(self, which: int) -> float:
        """Return a longitudinal frequency (Hz): springs in a row with the mass at their ends.

        Source: the bar free at both ends; any handbook of mechanics.
        """
        x = np.linspace(0.0, self.length, 121)
        area = np.asarray(self.sections((x[1:] + x[:-1]) / 2).area)
        long = x[1] - x[0]
        spring = MODULUS * 1e3 * area / long
        mass = np.zeros(len(x))
        mass[:-1] += area * long * DENSITY * 1e-6 / 2
        mass[1:] += area * long * DENSITY * 1e-6 / 2
        if self.head is not None:
            mass[-1] += float(self.head.volume) * DENSITY * 1e-6
        stiff = np.diag(np.append(spring, 0.0) + np.insert(spring, 0, 0.0))
        stiff -= np.diag(spring, 1) + np.diag(spring, -1)
        root = np.sqrt(mass)
        squares = np.linalg.eigvalsh(stiff / root / root[:, None])
        return float(np.sqrt(squares[which] * 1e6) / (2 * np.pi))


def _body(head: VolumeAt) -> Body:
    mass = float(head.volume) * DENSITY * 1e-6
    return Body(float(head.x), mass)
