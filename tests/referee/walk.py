"""A seeded walk through the patterns of a family, every step of which passes every error check.

A chunk of the walk pushes its share of the numbers, one after another, to both ends of what is
feasible: towards the declared bound as far as no error check fails. Every choice gets each of its
options. Each step starts from the pattern that the step before left, so that extremes combine.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

import numpy as np

from templates_gen import registry
from templates_gen.checks.cure import cure
from templates_gen.checks.judge import Result, rejudge
from templates_gen.errors import GeometryError
from templates_gen.parameters import Pattern
from templates_gen.parts.head import outline as head_outline
from templates_gen.parts.head.dims import HeadDims
from templates_gen.parts.stick.dims import StickDims
from templates_gen.pipeline import judging

PARAMS = Path(__file__).parents[2] / "params"
FAMILIES = ("violin", "viola", "cello", "bass-french", "bass-german")
CHUNKS, PATTERNS = 6, 10
#: A chunk begins again from the starter after so many patterns.
RESTART = 5
#: How often the way to a bound is halved: to a thousandth of it.
HALVINGS = 10

#: Where another choice fails a check, so many of the cures proposed are taken one after another.
CURES = 6

#: What is pushed: a number's key and the way, or a choice's key and its word.
Target = tuple[str, str]


@dataclass
class Step:
    """One pattern of the walk, and the changes that led to it.

    Args:
        reached: each target of this step.
        refused: targets that no error check stopped but that cannot be drawn, with the reason.
    """

    pattern: Pattern
    reached: list[Target] = field(default_factory=list)
    refused: dict[Target, str] = field(default_factory=dict)


@cache
def starter(family: str) -> Pattern:
    return judging.read(str(PARAMS / f"{family}.toml"))


def targets(family: str) -> list[Target]:
    """Both ends of every number and every option of every choice."""
    found: list[Target] = []
    for key, q in starter(family).schema.parameters.items():
        if q.numeric:
            found += [(key, "low"), (key, "high")]
        elif q.choices is not None:
            found += [(key, str(word)) for word in q.choices]
        else:
            found.append((key, "a table"))
    return found


def share(family: str, chunk: int) -> list[Target]:
    """The targets of one chunk: choices first of all, so that each meets many numbers' ends."""
    mixed = targets(family)
    random.Random(f"{family} targets").shuffle(mixed)
    return mixed[chunk::CHUNKS]


def walk(family: str, chunk: int, patterns: int = PATTERNS) -> Iterator[Step]:
    """The patterns of one chunk."""
    left = share(family, chunk)
    rng = random.Random(f"{family} {chunk}")
    for i in range(patterns):
        if i % RESTART == 0:
            walker = _Walker(starter(family))
        take = -(-len(left) // (patterns - i))
        mine, left = left[:take], left[take:]
        rng.shuffle(mine)
        step = Step(walker.pattern)
        for target in sorted(mine, key=lambda t: t[1] in ("low", "high")):
            walker.push(target, step)
        step.pattern = walker.pattern
        yield step


class _Walker:
    """Walk from one passing pattern to other passing patterns."""

    def __init__(self, pattern: Pattern) -> None:
        self.pattern = pattern
        self._judged = judging.results(pattern)

    def push(self, target: Target, step: Step) -> None:
        """Push one number as far as it may go, or set a choice; come back if it cannot be drawn."""
        before = self.pattern, self._judged
        if self._pushed(*target):
            reason = undrawable(self.pattern)
            if reason is None:
                step.reached.append(target)
            else:
                step.refused[target] = reason
                self.pattern, self._judged = before

    def _pushed(self, key: str, way: str) -> bool:
        parameter = self.pattern.schema.parameters[key]
        if not parameter.numeric:
            chosen = _chosen(self.pattern, key, way)
            return self._steps_to(chosen) or self._steps_to(_cured(chosen))
        good = float(self.pattern.values[key])
        bad = parameter.low if way == "low" else parameter.high
        if self._steps_to(self.pattern.with_(key, bad)):
            return True
        for _ in range(HALVINGS):
            middle = (good + bad) / 2
            if parameter.whole:
                middle = float(round(middle))
                if middle in (good, bad):
                    break
            if self._steps_to(self.pattern.with_(key, middle)):
                good = middle
            else:
                bad = middle
        return True

    def _steps_to(self, now: Pattern | None) -> bool:
        judged = None if now is None else self._passing(now)
        if now is None or judged is None:
            return False
        self.pattern, self._judged = now, judged
        return True

    def _passing(self, now: Pattern) -> list[Result] | None:
        try:
            if registry.faults(now):
                return None
        except (ArithmeticError, ValueError):
            return None
        judged = rejudge(self._judged, self.pattern, now)
        return None if any(r.stops for r in judged) else judged


def undrawable(p: Pattern) -> str | None:
    """Return why an outline of a solid cannot be drawn although every check passes."""
    try:
        for builder in registry.builders():
            builder.recipe(p)
    except (GeometryError, AssertionError, ValueError) as e:
        return f"{type(e).__name__}: {e}"
    return None


def _chosen(p: Pattern, key: str, word: str) -> Pattern:
    """The pattern with another word, and the table it needs as this bow would measure."""
    choices = p.schema.parameters[key].choices
    if choices is None:
        return p.with_(key, _table(p, key))
    changed = p.with_(key, choices(word))
    if word == "half-circle":
        high = p.values["ferrule.plate_thickness"] + p.values["ferrule.outer_width"] / 2
        changed = changed.with_("ferrule.height", round(high + 0.05, 2))
    table = {"stick.graduation": "stick.stations", "stick.camber": "stick.camber_points"}.get(key)
    if table is not None and word == "stations":
        changed = changed.with_(table, _table(p, table))
    return changed


def _cured(p: Pattern) -> Pattern | None:
    """The pattern with what its checks propose, one cure after another, until all pass."""
    for _ in range(CURES):
        if registry.faults(p):
            return None
        judged = judging.results(p)
        failed = next((r for r in judged if r.stops), None)
        if failed is None:
            return p
        lever = cure(failed, p, judged, registry.faults)
        if lever is None:
            return None
        p = p.with_(lever.key, lever.value)
    return None


def _table(p: Pattern, key: str) -> tuple[tuple[float, float], ...]:
    """Return the table that would be measured on this bow."""
    d = p.derive(StickDims)
    if key == "stick.stations":
        places = np.linspace(float(d.params.handle_length), float(d.face_rear), 8)
        return tuple((round(x, 3), round(float(d.diameter(x)), 4)) for x in places)
    if key == "stick.camber_points":
        places = np.linspace(0.0, float(d.chord), 9)[1:-1]
        shares = np.linspace(0.0, 1.0, np.asarray(d.camber.depths_every(1)).shape[-1])
        depths = np.interp(places / float(d.chord), shares, np.asarray(d.camber.depths_every(1)))
        return tuple((round(float(x), 2), round(float(y), 3)) for x, y in zip(places, depths))
    s = p.derive(HeadDims).params
    ridge = head_outline.ridge(p)
    long = ridge.length
    places = [ridge.point_at(long * i / 9) for i in range(10)]
    return tuple((round(float(x), 3), round(float(z), 3)) for x, z in places if x <= s.face_length)
