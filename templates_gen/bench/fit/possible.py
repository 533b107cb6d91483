"""Whether there is wood so dense and so stiff: else something was measured amiss."""

from __future__ import annotations

from dataclasses import dataclass

from templates_gen.bench.fit.measured import Measured
from templates_gen.bench.fit.model import Blank
from templates_gen.bench.fit.wood import Wood
from templates_gen.errors import Fault, InputError
from templates_gen.parameters import Parameter, Pattern
from templates_gen.parameters.words import plain


@dataclass(frozen=True)
class _Row:
    """A number found, what it was measured by, and what to do where it cannot be."""

    what: str
    value: float
    q: Parameter
    sections: tuple[str, ...]
    cure: str


def possible(p: Pattern, measured: Measured, found: Wood) -> None:
    """Go on if there is wood so dense and so stiff.

    Raises:
        InputError: naming what was measured.
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
    if faults:
        raise InputError(faults)


def _fault(row: _Row, measured: Measured) -> Fault:
    stated = " and ".join(s for s in row.sections if measured.has(s))
    problem = (
        f"the {row.what} would be {plain(round(row.value, 3))} {row.q.unit}, and no wood for a "
        f"stick has less than {plain(row.q.low)} or more than {plain(row.q.high)}"
    )
    return Fault(measured.file, None, stated, problem, row.cure)


def _second_tone(p: Pattern, measured: Measured, found: Wood, q: Parameter) -> str | None:
    """The cure, where there is such wood had the second tone been taken for the lowest."""
    blank = Blank.of(p, measured)
    times = blank.frequency(2) / blank.frequency()
    if not q.low <= found.modulus / times**2 <= q.high:
        return None
    lowest = float(measured.values["tapped.frequency"]) / times
    return f"this may be its second tone: listen for the lowest, near {lowest:.0f} Hz"
