"""Find the cheapest moves of numbers that make up for a miss: one linear programme."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import product

import numpy as np

from templates_gen.geometry import Floats

#: A move across the whole band costs 1. A thinner stick is weaker, so weight is tuned with frog,
#: button and lapping (common practice, no source): a tenth of its band costs as much as a word.
STICK_COST = 60.0
#: A gram missed costs more than all levers together.
MISS_COST = 1e4
#: Least width of a band (mm), so that a band of one value can be divided by.
_NARROWEST = 0.01


@dataclass(frozen=True)
class Number:
    """A number that may move, and the effect of its move.

    Args:
        key: the parameter.
        start: its value before (mm).
        low, high: ends of its reach (mm).
        slope: change of each miss per mm (g).
    """

    key: str
    start: float
    low: float
    high: float
    slope: Floats

    @property
    def band(self) -> float:
        """Return the width of its reach (mm)."""
        return max(self.high - self.low, _NARROWEST)

    @property
    def cost(self) -> float:
        """Return the cost of a move across the band."""
        return STICK_COST if self.key.startswith("stick.") else 1.0


@dataclass(frozen=True)
class Cut:
    """A limit that excludes a broken bow: the shares of words and moves add up to ``most``.

    Args:
        shares: share of a word when it is chosen, by choice and word; share of a number's move
            per mm, by key and None.
        most: limit of the sum.
    """

    shares: Mapping[tuple[str, str | None], float]
    most: float

    def room(self, words: Mapping[str, str], moved: Mapping[str, float]) -> float:
        """Return how much of the limit words and moves (mm) leave; negative if exceeded."""
        left = self.most - sum(self.shares.get(each, 0.0) for each in words.items())
        return left - sum(self.shares.get((key, None), 0.0) * by for key, by in moved.items())


def least_moves(
    numbers: Sequence[Number],
    miss: Floats,
    near: Floats,
    prices: Sequence[float],
    limits: Sequence[tuple[Sequence[float], float]],
) -> tuple[Floats, float]:
    """Return the cheapest moves (mm) that bring a miss within its tolerance or nearest to it.

    Args:
        numbers: all that may move.
        miss: miss before the moves (g).
        near: tolerance of each miss (g).
        prices: cost of each number per mm.
        limits: shares of the numbers per mm, and the limit of their sum.

    Returns:
        The moves, and their cost with that of the miss left.
    """
    from scipy.optimize import linprog

    slopes = np.array([n.slope for n in numbers]).reshape(len(numbers), len(miss)).T
    excess = np.eye(len(miss))
    rows = [np.hstack([way * slopes, -way * slopes, -excess]) for way in (1, -1)]
    rows += [np.array([[*s, *(-each for each in s), *(0 * miss)]]) for s, _ in limits]
    up, down = [n.high - n.start for n in numbers], [n.start - n.low for n in numbers]
    answer = linprog(
        [*prices, *prices, *(MISS_COST + 0 * miss)],
        A_ub=np.vstack(rows),
        b_ub=[*(near - miss), *(near + miss), *(most for _, most in limits)],
        bounds=[*((0, room) for room in (*up, *down)), *((0, None) for _ in miss)],
    )
    moves = answer.x[: len(numbers)] - answer.x[len(numbers) : 2 * len(numbers)]
    return moves, float(answer.fun)


def lower_bound(
    numbers: Sequence[Number], miss: Floats, near: Floats, prices: Sequence[float]
) -> float:
    """Return a cost below that of the cheapest moves, without a linear programme.

    For each sum or difference of the misses the numbers that cost least per gram go first, as in
    the fractional knapsack problem; the greatest of these costs is the bound.
    """
    slopes = np.array([n.slope for n in numbers]).reshape(len(numbers), len(miss))
    ends = np.array([(n.low - n.start, n.high - n.start) for n in numbers]).reshape(-1, 2)
    bound = 0.0
    for way in product((-1, 0, 1), repeat=len(miss)):
        need = float(-miss @ way - near @ np.abs(way))
        if need > 0:
            slope = slopes @ way
            gain = (slope[:, None] * ends).max(axis=1, initial=0.0)
            rate = np.array(prices) / np.maximum(abs(slope), 1e-12)
            order = np.argsort(rate)
            gained = np.cumsum([0.0, *gain[order]])
            cost = np.interp(need, gained, np.cumsum([0.0, *(gain * rate)[order]]))
            bound = max(bound, float(cost) + MISS_COST * max(need - gained[-1], 0.0))
    return bound
