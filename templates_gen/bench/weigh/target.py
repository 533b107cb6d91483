"""The mass and the balance wanted of a bow, and the solution that comes nearest."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from templates_gen.bench.weigh.levers import NUMBERS, WORDS
from templates_gen.bench.weigh.weighing import Weighed
from templates_gen.bench.worse import Worse
from templates_gen.errors import Fault, raise_faults
from templates_gen.geometry import Floats
from templates_gen.parameters import clipped, near, plain

#: Tolerance of mass (g) and balance (mm): scale and knife edge in a workshop show no more.
MASS_NEAR, BALANCE_NEAR = 0.05, 0.3
#: A miss of one gram counts as much as one of this many millimetres.
_MM_PER_GRAM = 3.0
#: Lightest and heaviest bow of any family, a child's or a double bass's (g), and the nearest and
#: farthest balance from the ferrule (mm). From memory: common practice, no source.
MASS, BALANCE = (20.0, 250.0), (50.0, 350.0)
#: Characters of a mistaken name that are repeated: the message fits on a line.
_REPEATED = 16


@dataclass(frozen=True)
class Target:
    """The mass and the balance wanted; None where any will do.

    Args:
        mass: g.
        balance: mm from the ferrule's front in play.
    """

    mass: float | None = None
    balance: float | None = None

    @property
    def stated(self) -> bool:
        """Report whether anything is wanted."""
        return self.mass is not None or self.balance is not None

    @property
    def near(self) -> Floats:
        """Return the tolerance of each miss, in the order of ``misses`` (g)."""
        mass = [] if self.mass is None else [MASS_NEAR]
        return np.array([*mass, *([] if self.balance is None else [BALANCE_NEAR / _MM_PER_GRAM])])

    def misses(self, w: Weighed) -> Floats:
        """Return how far a bow is from the target, each in grams.

        The balance counts as the moment about the place wanted, which is linear in the mass of
        every piece.
        """
        found = []
        total = w.total
        if self.mass is not None:
            found.append(total - self.mass)
        if self.balance is not None:
            usual = self.mass or total
            found.append((w.from_ferrule - self.balance) * total / usual / _MM_PER_GRAM)
        return np.array(found)

    def met(self, w: Weighed) -> bool:
        """Report whether a bow is within the tolerances."""
        heavy = self.mass is not None and abs(w.total - self.mass) > MASS_NEAR
        off = self.balance is not None and abs(w.from_ferrule - self.balance) > BALANCE_NEAR
        return not (heavy or off)


@dataclass(frozen=True)
class TargetSolution:
    """The bow that comes nearest to a target.

    Args:
        changes: values to set.
        then: the bow with these values.
        met: whether it is within the tolerances.
        stuck: numbers at the end of their usual band.
        worse: checks whose verdict is worse than before.
        refused: whether no file may state it.
    """

    changes: Mapping[str, float | str]
    then: Weighed
    met: bool
    stuck: tuple[str, ...]
    worse: tuple[Worse, ...] = ()
    refused: bool = False

    @property
    def failing(self) -> int:
        """Count the error-checks that fail and did not before."""
        return sum(each.stops for each in self.worse)

    @property
    def sound(self) -> bool:
        """Report whether a file may state it and no further error-check fails."""
        return not self.refused and not self.failing


def parse_target(
    mass: float | None, balance: float | None, move: str | None
) -> tuple[Target, list[str]]:
    """Return the target and the levers that the command line names.

    Args:
        mass: g.
        balance: mm from the ferrule's front in play.
        move: keys separated by commas; None if the option is absent.

    Raises:
        InputError: every implausible value and unknown key.
    """
    target = Target(mass, balance)
    faults = _implausible("--target-mass", mass, MASS, "g")
    faults += _implausible("--target-balance", balance, BALANCE, "mm")
    keys = [key for key in (word.strip() for word in (move or "").split(",")) if key]
    if move is not None and not keys:
        cure = "name the levers, or leave --move out"
        faults.append(Fault("--move", None, "", "names nothing that may change", cure))
    elif move is not None and not target.stated:
        cure = "add --target-mass or --target-balance"
        faults.append(Fault("--move", None, "", "needs a target", cure))
    faults += _unknown(keys)
    raise_faults(faults)
    return target, list(dict.fromkeys(keys))


def known_levers(move: Sequence[str]) -> list[str]:
    """Return the levers named, each once.

    Raises:
        InputError: a key that is not a lever.
    """
    faults = _unknown(move)
    raise_faults(faults)
    return list(dict.fromkeys(move))


def _implausible(
    option: str, value: float | None, span: tuple[float, float], unit: str
) -> list[Fault]:
    low, high = span
    if value is None or low <= value <= high:
        return []
    cure = f"state {plain(low)} to {plain(high)} {unit}"
    return [Fault(option, None, "", f"{value:g} {unit} is impossible for a bow", cure)]


def _unknown(keys: Sequence[str]) -> list[Fault]:
    levers = (*WORDS, *NUMBERS)
    return [_not_a_lever(key, levers) for key in dict.fromkeys(keys) if key not in levers]


def _not_a_lever(key: str, levers: Sequence[str]) -> Fault:
    (like,) = near(key, levers, alike=0.0)
    return Fault("--move", None, clipped(key, _REPEATED), "not a lever", f"nearest is {like}")
