"""Scale one value: from its family's usual to another's, or after the value it follows."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from templates_gen.parameters import FINE_STEP, Band, Parameter, Pattern, Scale, plain

#: Reason of a value that nothing changed.
AS_IT_WAS = "as it was"

#: A value is rounded to the coarsest of these steps (mm) that its ± allows.
_STEPS = (1.0, 0.5, 0.1, 0.05, 0.01)

#: By kind, the values that others follow; the first that is stated leads.
#: The ferrule comes first: it sets the hair's width and, by its height, the frog's and the head's.
LEADERS = {
    Scale.HAIR_WIDTH: ("ferrule.outer_width", "hair.ribbon_width_frog"),
    Scale.HEIGHT: ("ferrule.height", "frog.clear_height"),
    Scale.STICK: ("stick.across_flats_butt", "stick.across_flats_handle_end"),
    Scale.LENGTH: ("hair.length",),
    Scale.FROG: ("frog.length_bottom",),
}

_SAYS = {
    Scale.HAIR_WIDTH: "with the hair",
    Scale.HEIGHT: "with the height",
    Scale.STICK: "with the stick",
    Scale.LENGTH: "with the length",
    Scale.FROG: "with the frog",
    Scale.HAND: "for the hand",
    Scale.KNOT: "with the knot",
}


@dataclass(frozen=True)
class Moved:
    """A scaled value, the reason, and whether it keeps the maker's difference or ratio."""

    value: Any
    why: str
    own: bool = False


def to_family(q: Parameter, value: Any, tol: float, old: Band, new: Band) -> Moved:
    """Return a value scaled from one family to another.

    A usual value becomes the other family's usual value. The maker's own value keeps its
    difference (widths that follow the hair, stock sizes) or its ratio (all else) to the usual.

    Args:
        q: the parameter.
        value: the value stated.
        tol: its ±, in its unit.
        old, new: usual bands of the two families.
    """
    if q.choices is not None:
        return Moved(value, "the maker's choice stays")
    was, usual = old.figure, new.figure
    own = not math.isclose(value, was, abs_tol=1e-9)
    if was == usual:
        return Moved(value, "never scales" if q.scale is Scale.NEVER else "the same in both")
    if q.scale is Scale.CHARACTER:
        return Moved(value, "the maker's own stays") if own else Moved(usual, "usual there")
    if q.scale is Scale.NEVER:
        size = sized(q, value + usual - was) if own else bounded(q, usual)
        kind = f"{q.stock.name} size" if q.stock else "usual there,"
        return Moved(size, f"{kind} {_signed(size - value)}", own)
    moved = figure(q, moved_by(q, value, was, usual), tol) if own else usual
    return Moved(moved, f"{_SAYS[q.scale]} {by(q, was, usual)}", own)


def moved_by(q: Parameter, value: float, was: float, now: float) -> float:
    """Return a value changed as its leader, or its family's usual, from ``was`` to ``now``."""
    if q.scale is Scale.HAIR_WIDTH and not q.whole:
        return value + now - was
    return value * now / was if was else value + now - was


def after(q: Parameter, value: float, tol: float, leader: str, was: float, now: float) -> Moved:
    """Return a value that follows its leader within one family."""
    name = leader.rpartition(".")[2].replace("_", " ")
    if q.scale is Scale.NEVER:
        return Moved(sized(q, value + now - was), f"{name} {_signed(now - was)}")
    return Moved(figure(q, moved_by(q, value, was, now), tol), f"{name} {by(q, was, now)}")


def sized(q: Parameter, value: float) -> float:
    """Return the nearest size sold, or the nearest even step of a value without a series."""
    if q.stock is not None:
        return bounded(q, q.stock.nearest(value))
    return bounded(q, round(round(value / FINE_STEP) * FINE_STEP, 6))


def figure(q: Parameter, value: float, tol: float) -> float:
    """Return a value rounded as a maker sets it: counts to integers, lengths to a step."""
    if q.whole:
        return bounded(q, round(value))
    step = next((s for s in _STEPS if s <= tol + 1e-12), _STEPS[-1])
    return bounded(q, round(round(value / step) * step, 6))


def bounded(q: Parameter, value: float) -> float:
    """Return a value limited to its possible range."""
    return min(max(float(value), q.low), q.high)


def leader_of(
    q: Parameter, stated: Mapping[str, Any], known: Mapping[str, Parameter]
) -> str | None:
    """Return the stated value that a parameter follows: the nearest leader; None if none.

    Args:
        q: the parameter.
        stated: values by key.
        known: every parameter by key.
    """
    return next((key for key in _chain(q, known) if key in stated), None)


def _chain(q: Parameter, known: Mapping[str, Parameter]) -> Iterator[str]:
    """Yield a parameter's leaders, the nearest first: as declared, of its part, of its kind."""
    if q.after is not None:
        yield q.after
        yield from _chain(known[q.after], known)
    leading = LEADERS.get(q.scale, ())
    yield from (key for key in leading if key.startswith(f"{q.section}."))
    yield from leading


def in_order(p: Pattern, moved: Mapping[str, Moved]) -> dict[str, Moved]:
    """Return values that rounding made greater than their leader though they were not, corrected.

    A value that comes in stock sizes stays: a bore is not part of the screw.

    Args:
        p: the pattern before scaling.
        moved: every value after.
    """
    found = {}
    for key, q in p.schema.parameters.items():
        if q.after is None or q.stock or p.values[key] > p.values[q.after]:
            continue
        most = moved[q.after].value
        if moved[key].value > most:
            found[key] = replace(moved[key], value=most)
    return found


def by(q: Parameter, was: float, now: float) -> str:
    """Return a leader's change as text: a factor, or a difference for widths across the hair."""
    if not was or (q.scale is Scale.HAIR_WIDTH and not q.whole):
        return _signed(now - was)
    return f"× {now / was:.3f}"


def _signed(number: float) -> str:
    return f"{'+' if number > 0 else '−'}{plain(abs(number))}"
