"""Check that the density and modulus found are possible for wood."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.bench.fit.measured import Measured
from templates_gen.bench.fit.model import Blank
from templates_gen.bench.fit.wood import Wood
from templates_gen.errors import Fault, raise_faults
from templates_gen.parameters import Parameter, Pattern, plain


@dataclass(frozen=True)
class _Row:
    """A value found, the measurements behind it, and the cure if it is impossible."""

    what: str
    value: float
    q: Parameter
    sections: tuple[str, ...]
    cure: str


def possible(p: Pattern, measured: Measured, found: Wood) -> None:
    """Check that the density and modulus found are possible for wood.

    Raises:
        InputError: one is not; the message names the measurement.
    """
    known = p.schema.parameters
    weigh = "weigh it again, and measure its thickness and length"
    tap = "tap or load it again, held as the file says"
    density = _Row("density", found.density, known["material.stick_density"], ("weighed",), weigh)
    modulus = known["material.stick_modulus"]
    if measured.has("tapped") and not measured.has("loaded"):
        tap = _second_tone(p, measured, found, modulus) or tap
    rows = (density, _Row("modulus", found.modulus, modulus, ("tapped", "loaded"), tap))
    faults = [_fault(row, measured) for row in rows if not row.q.low <= row.value <= row.q.high]
    raise_faults(faults)


def _fault(row: _Row, measured: Measured) -> Fault:
    stated = " and ".join(s for s in row.sections if measured.has(s))
    problem = (
        f"this gives a {row.what} of {plain(round(row.value, 3))} {row.q.unit}; "
        f"wood for a stick has {plain(row.q.low)} to {plain(row.q.high)}"
    )
    return Fault(measured.file, None, stated, problem, row.cure)


def _second_tone(p: Pattern, measured: Measured, found: Wood, q: Parameter) -> str | None:
    """Return the cure if the second frequency was taken for the lowest; else None."""
    blank = Blank.of(p, measured)
    times = blank.frequency(2) / blank.frequency()
    if not q.low <= found.modulus / times**2 <= q.high:
        return None
    lowest = float(measured.values["tapped.frequency"]) / times
    return f"this may be its second frequency: listen for the lowest, near {lowest:.0f} Hz"
