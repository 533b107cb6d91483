"""The errors this package raises, as one tree.

Only ``cli`` turns them into messages and an exit status.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass


class TemplatesGenError(Exception):
    """Anything this package raises on purpose."""


@dataclass(frozen=True)
class Fault:
    """One thing wrong with the input, and how to put it right.

    Args:
        file: the file as the maker named it.
        line: 1-based line, or None where the fault is in no one line.
        key: the parameter (``ferrule.outer_width``), or "" for the file itself.
        problem: what is wrong, with the value found.
        cure: what to do about it.
    """

    file: str
    line: int | None
    key: str
    problem: str
    cure: str

    def __str__(self) -> str:
        place = self.file if self.line is None else f"{self.file}:{self.line}"
        subject = f"{self.key}: " if self.key else ""
        return f"{place}: {subject}{self.problem}; {self.cure}"


class InputError(TemplatesGenError):
    """The parameter file or an argument is wrong; ``faults`` lists every fault (exit status 2).

    Example:
        >>> import templates_gen as tg
        >>> try:
        ...     tg.new("violin").set("ferrule.outer_width", 40)
        ... except tg.InputError as e:
        ...     print(e.faults[0].problem)
        40 mm is outside the possible range of 8 to 34 mm
    """

    def __init__(self, faults: list[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("\n".join(str(f) for f in faults))


def raise_faults(faults: Iterable[Fault]) -> None:
    """Raise all faults as one error, if there are any.

    Raises:
        InputError: holding every fault.
    """
    if found := list(faults):
        raise InputError(found)


class EnvironmentFault(TemplatesGenError):
    """The machine lacks something the command needs, and the message says what (exit status 2)."""


class RewriteError(TemplatesGenError):
    """A rewritten parameter file would not state what it should; nothing has been written."""


class GeometryError(TemplatesGenError):
    """An outline cannot be constructed; the message names the place and the cause."""

    def __init__(self, message: str, place: tuple[float, float] | None = None) -> None:
        self.place = place
        where = "" if place is None else f" at ({place[0]:.3f}, {place[1]:.3f})"
        super().__init__(message + where)


class KernelError(TemplatesGenError):
    """The solid modeller failed; the message names part, step and parameters."""


class DrawingError(TemplatesGenError):
    """A sheet broke its own rules (an open cut, text on a cut, too large for its paper)."""


#: Errors raised where dimensions give no valid shape.
SHAPELESS = (GeometryError, KernelError, DrawingError, ArithmeticError, LookupError, ValueError)


def in_one_line(e: BaseException) -> str:
    """Return the message of an error, in one line."""
    return " ".join(str(e).split()) or type(e).__name__
