"""The units a length may be stated in."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

from templates_gen.parameters.declare import Parameter

#: Millimetres in a unit.
Units = Mapping[str, float]
MM: Units = {"mm": 1.0}
#: Source: ISO 80000-3, an inch is 25.4 mm.
MM_OR_INCH: Units = {**MM, "in": 25.4}


def known_units(parameter: Parameter, units: Units) -> Units:
    """The units a value may be stated in: only a length has more than its own."""
    return units if parameter.unit == "mm" else {parameter.unit: 1.0}


def in_unit(parameter: Parameter, unit: object, units: Units) -> tuple[Parameter, float]:
    """Convert a declaration to the unit a value is stated in.

    Args:
        parameter: the declaration.
        unit: the unit; one that is not known changes nothing.
        units: the units a length may be stated in.

    Returns:
        the declaration with its range in that unit, rounded inwards, and the factor back.
    """
    known = known_units(parameter, units)
    if not isinstance(unit, str) or unit == parameter.unit or unit not in known:
        return parameter, 1.0
    low, high = (end / known[unit] * 1000 for end in (parameter.low, parameter.high))
    low, high = math.ceil(low) / 1000, math.floor(high) / 1000
    return replace(parameter, unit=unit, low=low, high=high), known[unit]


def unbounded(parameter: Parameter) -> Parameter:
    """Take the range off a declaration, for numbers whose unit is not known."""
    low, high, points = -math.inf, math.inf, parameter.points
    if points is not None:
        points = replace(points, x_low=low, x_high=high, y_low=low, y_high=high)
    return replace(parameter, points=points, low=low, high=high, whole=False)
