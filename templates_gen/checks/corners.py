"""The corners of a rule's tolerances: which are worth a look, and the clearance at them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from templates_gen.checks.rule import Bound, Rule
from templates_gen.geometry.arrays import Floats
from templates_gen.parameters import Parameter, Pattern

#: Up to so many toleranced numbers every corner is kept; up to so many every one is tried.
_KEEP_ALL, _TRY_ALL = 6, 12
#: Beyond, so many corners are drawn, and the worst go downhill, one number after another.
_DRAWN, _KEPT, _ROUNDS = 512, 16, 30


def corners(rule: Rule, p: Pattern, read: Sequence[Parameter]) -> Floats:
    """The corners worth a look, the worst among them: a row of signs each.

    Args:
        rule: the clearance.
        p: the pattern.
        read: the numeric parameters the rule looks at; signs are of the toleranced ones.
    """
    count = len(_toleranced(p, read))
    if count <= _TRY_ALL:
        bits = (np.arange(2**count)[:, None] >> np.arange(count)) & 1
        every: Floats = np.where(bits == 1, -1.0, 1.0)
        return every if count <= _KEEP_ALL else _worst(rule, p, read, every)
    bits = np.random.default_rng(0).integers(0, 2, (_DRAWN, count))
    drawn: Floats = np.where(bits == 1, -1.0, 1.0)
    return _downhill(rule, p, read, _worst(rule, p, read, drawn))


def _worst(rule: Rule, p: Pattern, read: Sequence[Parameter], signs: Floats) -> Floats:
    return signs[np.argsort(plain(margins_at(rule, p, read, signs)), kind="stable")[:_KEPT]]


def _downhill(rule: Rule, p: Pattern, read: Sequence[Parameter], signs: Floats) -> Floats:
    """Corners from which no single number's move to its other end makes the margin less."""
    kept, count = signs.shape
    flips = 1.0 - 2.0 * np.eye(count)
    for _ in range(_ROUNDS):
        tried = np.concatenate([signs[:, None, :], signs[:, None, :] * flips], axis=1)
        margins = margins_at(rule, p, read, tried.reshape(-1, count)).reshape(kept, count + 1)
        best = np.argmin(plain(margins), axis=1)
        if not best.any():
            break
        signs = tried[np.arange(kept), best]
    return signs


def plain(margins: Floats) -> Floats:
    """Margins without the last figures, in which one machine differs from the next.

    So of corners that are equally bad every machine takes the same.
    """
    return np.round(margins, 9)


def margins_at(rule: Rule, p: Pattern, read: Sequence[Parameter], signs: Floats) -> Floats:
    """The margin at each corner; what is no number counts as endlessly bad."""
    margins = np.asarray(bound_at(rule, p, read, signs).margin, float)
    return np.broadcast_to(np.where(np.isnan(margins), -np.inf, margins), signs.shape[:1])


def margins_along(
    rule: Rule, p: Pattern, read: Sequence[Parameter], signs: Floats, key: str, values: Floats
) -> Floats:
    """The worst margin at some corners for each of many values of one parameter, in one call."""
    size = len(values)
    tiled = np.tile(signs, (size, 1))
    laid = {key: np.repeat(values, len(signs))}
    margins = np.asarray(bound_at(rule, p, read, tiled, laid).margin, float)
    worst: Floats = np.broadcast_to(margins, (len(tiled),)).reshape(size, -1).min(axis=1)
    return worst


def bound_at(
    rule: Rule,
    p: Pattern,
    read: Sequence[Parameter],
    signs: Floats,
    centres: Mapping[str, Floats] | None = None,
) -> Bound:
    """The clearance with every toleranced parameter moved the way of its sign.

    All that is read goes in as an array, so that a division by nothing gives a margin that is
    no number, and fails, where one float would end the call.

    Args:
        rule: the clearance.
        p: the pattern.
        read: the numeric parameters the rule looks at.
        signs: a row for each corner, a column for each toleranced parameter.
        centres: values, one for each row, in place of the pattern's own.
    """
    drawn = p.with_many(centres) if centres else p
    count = len(signs)
    laid: dict[str, Any] = {q.key: np.full(count, drawn.values[q.key], float) for q in read}
    for column, q in enumerate(_toleranced(p, read)):
        laid[q.key] = laid[q.key] + p.tolerance(q.key) * signs[:, column]
    with np.errstate(all="ignore"):
        return rule.bound(drawn.corner(laid))


def _toleranced(p: Pattern, read: Sequence[Parameter]) -> list[Parameter]:
    return [q for q in read if p.tolerance(q.key) > 0]
