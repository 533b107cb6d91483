"""Tolerance corners of a rule: select the worst ones and evaluate the clearance at them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from templates_gen.checks.rule import Bound, Rule
from templates_gen.geometry import Floats
from templates_gen.parameters import Parameter, Pattern

#: Up to so many toleranced parameters all corners are kept; up to so many all are evaluated.
_KEEP_ALL, _TRY_ALL = 6, 12
#: Beyond, so many random corners are evaluated; the worst are improved by coordinate descent.
_RANDOM, _KEPT, _ITERATIONS = 512, 16, 30


def corners(rule: Rule, p: Pattern, read: Sequence[Parameter]) -> Floats:
    """Select tolerance corners, the worst among them.

    Args:
        rule: the clearance.
        p: the pattern.
        read: the numeric parameters the rule reads.

    Returns:
        Signs: a row per corner, a column per toleranced parameter.
    """
    count = len(_toleranced(p, read))
    if count <= _TRY_ALL:
        bits = (np.arange(2**count)[:, None] >> np.arange(count)) & 1
        every: Floats = np.where(bits == 1, -1.0, 1.0)
        return every if count <= _KEEP_ALL else _worst(rule, p, read, every)
    bits = np.random.default_rng(0).integers(0, 2, (_RANDOM, count))
    random: Floats = np.where(bits == 1, -1.0, 1.0)
    return _descend(rule, p, read, _worst(rule, p, read, random))


def _worst(rule: Rule, p: Pattern, read: Sequence[Parameter], signs: Floats) -> Floats:
    return signs[np.argsort(round_margins(margins_at(rule, p, read, signs)), kind="stable")[:_KEPT]]


def _descend(rule: Rule, p: Pattern, read: Sequence[Parameter], signs: Floats) -> Floats:
    """Improve corners until changing any single sign no longer reduces the margin."""
    kept, count = signs.shape
    flips = 1.0 - 2.0 * np.eye(count)
    for _ in range(_ITERATIONS):
        tried = np.concatenate([signs[:, None, :], signs[:, None, :] * flips], axis=1)
        margins = margins_at(rule, p, read, tried.reshape(-1, count)).reshape(kept, count + 1)
        best = np.argmin(round_margins(margins), axis=1)
        if not best.any():
            break
        signs = tried[np.arange(kept), best]
    return signs


def round_margins(margins: Floats) -> Floats:
    """Round margins, so that every machine selects the same of equally bad corners."""
    return np.round(margins, 9)


def margins_at(rule: Rule, p: Pattern, read: Sequence[Parameter], signs: Floats) -> Floats:
    """Calculate the margin at each corner; NaN counts as minus infinity."""
    margins = np.asarray(bound_at(rule, p, read, signs).margin, float)
    return np.broadcast_to(np.where(np.isnan(margins), -np.inf, margins), signs.shape[:1])


def margins_along(
    rule: Rule, p: Pattern, read: Sequence[Parameter], signs: Floats, key: str, values: Floats
) -> Floats:
    """Calculate the worst margin at some corners for each of many values of a parameter."""
    size = len(values)
    tiled = np.tile(signs, (size, 1))
    repeated = {key: np.repeat(values, len(signs))}
    margins = np.asarray(bound_at(rule, p, read, tiled, repeated).margin, float)
    worst: Floats = np.broadcast_to(margins, (len(tiled),)).reshape(size, -1).min(axis=1)
    return worst


def bound_at(
    rule: Rule,
    p: Pattern,
    read: Sequence[Parameter],
    signs: Floats,
    centres: Mapping[str, Floats] | None = None,
) -> Bound:
    """Evaluate the clearance with every toleranced parameter at the limit given by its sign.

    All parameters are passed as arrays, so that a division by zero gives NaN, which fails, where a
    float would raise.

    Args:
        rule: the clearance.
        p: the pattern.
        read: the numeric parameters the rule reads.
        signs: a row per corner, a column per toleranced parameter.
        centres: values by key, one per row, that replace the pattern's.
    """
    nominal = p.with_many(centres) if centres else p
    count = len(signs)
    values: dict[str, Any] = {q.key: np.full(count, nominal.values[q.key], float) for q in read}
    for column, q in enumerate(_toleranced(p, read)):
        values[q.key] = values[q.key] + p.tolerance(q.key) * signs[:, column]
    with np.errstate(all="ignore"):
        return rule.bound(nominal.corner(values))


def _toleranced(p: Pattern, read: Sequence[Parameter]) -> list[Parameter]:
    return [q for q in read if p.tolerance(q.key) > 0]
