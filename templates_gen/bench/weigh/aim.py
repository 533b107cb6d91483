"""What is wanted of a bow's weight, and the bow that comes nearest."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from templates_gen.bench.weigh.weighing import Weighed
from templates_gen.bench.worse import Worse

Floats = NDArray[np.float64]

#: Near enough: mass (g) and balance (mm).
MASS_NEAR, BALANCE_NEAR = 0.05, 0.3
#: A miss of one gram counts as much as one of so many millimetres.
_MM_PER_GRAM = 3.0


@dataclass(frozen=True)
class Target:
    """What is wanted; None where anything will do.

    Args:
        mass: g.
        balance: mm from the ferrule's front in play.
    """

    mass: float | None = None
    balance: float | None = None

    @property
    def asked(self) -> bool:
        """Whether anything is wanted."""
        return self.mass is not None or self.balance is not None

    def misses(self, w: Weighed) -> Floats:
        """How far a bow is from it, in grams and their like.

        The balance's is told by the moment about where it should be, which changes evenly with
        every piece's mass.
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
        """Whether a bow is near enough."""
        heavy = self.mass is not None and abs(w.total - self.mass) > MASS_NEAR
        off = self.balance is not None and abs(w.from_ferrule - self.balance) > BALANCE_NEAR
        return not (heavy or off)


@dataclass(frozen=True)
class Reached:
    """The bow that comes nearest.

    Args:
        changes: what to set.
        then: the bow with that.
        met: whether it is what was wanted.
        stuck: numbers that have come to the end of what is usual.
        worse: checks it would leave worse off, once it is judged.
        refused: whether no file may state it, once it is judged.
    """

    changes: Mapping[str, float | str]
    then: Weighed
    met: bool
    stuck: tuple[str, ...]
    worse: tuple[Worse, ...] = ()
    refused: bool = False

    @property
    def sound(self) -> bool:
        """Whether a file may state it, and no check forbids cutting that did not before."""
        return not self.refused and not any(each.stops for each in self.worse)
