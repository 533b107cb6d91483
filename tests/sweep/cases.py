"""Numbers at both ends of their ranges, every word of every choice, and tables at their limits.

Each case is a family's starter with one change. ``Starter`` knows what depends on a change, so
that only those rules and sheets are run again.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from functools import cache, cached_property
from typing import Any

import numpy as np
from outside.maker import FAMILIES, stated

from templates_gen.bow import catalogue
from templates_gen.checks.corners import corners, margins_along
from templates_gen.checks.judge import Result, judge, numbers_read, rejudge
from templates_gen.drawing.template import Template
from templates_gen.parameters import Pattern
from templates_gen.pipeline import rendering, selection
from templates_gen.tolerances import BOUND

__all__ = ["FAMILIES", "Starter", "starter"]

Changes = Mapping[str, Any]
#: Places looked at between a number as it is and each end of its range.
LOOKS = 24


@cache
def starter(family: str) -> Starter:
    return Starter(family)


class Starter:
    """A family's starter, its results, and the parameters that each sheet depends on."""

    def __init__(self, family: str) -> None:
        self.family = family
        self.pattern = stated(family)
        self.results = [judge(rule, self.pattern) for rule in catalogue.rules()]

    def judged(self, p: Pattern) -> list[Result]:
        return rejudge(self.results, self.pattern, p)

    @cached_property
    def looks(self) -> dict[str, frozenset[str]]:
        p = self.pattern
        return {t.name: p.depends_on(t.views) for t in selection.templates(p)}

    def touched(self, p: Pattern, changes: Changes) -> list[Template]:
        """The templates that changes may alter; all of them where a choice or a table changes."""
        known = self.pattern.schema.parameters
        if any(not known[key].numeric for key in changes):
            return selection.templates(p)
        return [
            t for t in selection.templates(p) if not changes.keys().isdisjoint(self.looks[t.name])
        ]

    # --- the cases -------------------------------------------------------------------------------

    def ends(self) -> Iterator[Changes]:
        """Each number by itself at the two ends of its declared range."""
        for key, q in self.pattern.schema.parameters.items():
            if q.numeric:
                yield from ({key: float(end)} for end in (q.low, q.high))

    def words(self) -> Iterator[Changes]:
        """Each other word of each choice; "stations" with a table as it would be measured."""
        for key, q in self.pattern.schema.parameters.items():
            for word in q.choices or ():
                if word != self.pattern.values[key]:
                    yield {key: word, **self._measured(key, str(word))}

    def _measured(self, key: str, word: str) -> Changes:
        if word != "stations":
            return {}
        if key == "stick.camber":
            return {"stick.camber_points": self.camber_table()}
        return {"stick.stations": self.thickness_table()}

    def farthest(self) -> Iterator[Changes]:
        """Each number by itself, as far both ways as the error-checks pass."""
        p = self.pattern
        errors = [r for r in self.results if r.applies and r.rule.severity.value == "error"]
        read = {r.rule.id: numbers_read(r.rule, p) for r in errors}
        signs = {r.rule.id: corners(r.rule, p, read[r.rule.id]) for r in errors}
        for key, q in p.schema.parameters.items():
            if not q.numeric:
                continue
            for end in (q.low, q.high):
                places = p.values[key] + (end - p.values[key]) * np.linspace(0.0, 1.0, LOOKS) ** 2
                places = np.round(places) if q.whole else places
                holds = np.full(LOOKS, True)
                for r in errors:
                    if q in read[r.rule.id]:
                        it = r.rule.id
                        margins = margins_along(r.rule, p, read[it], signs[it], key, places)
                        holds &= margins >= -BOUND
                first = int(np.argmin(holds)) if not holds.all() else LOOKS
                if 1 < first < LOOKS:  # else it is the range's end, or does not move
                    yield {key: self._last(key, float(places[first - 1]), float(places[first]))}

    def _last(self, key: str, good: float, bad: float) -> float:
        """Find the last value that passes between one that does and one that does not."""
        if self.pattern.schema.parameters[key].whole:
            return good
        for _ in range(8):
            middle = (good + bad) / 2
            stops = any(r.stops for r in self.judged(self.pattern.with_(key, middle)))
            good, bad = (good, middle) if stops else (middle, bad)
        return good

    def tables(self) -> Iterator[tuple[str, Changes]]:
        """Tables of measured points that begin or end at their limits, with a name each."""
        ridge = self.ridge_table()
        length = float(self.pattern.values["head.face_length"])
        yield "ridge", {"head.ridge_points": ridge}
        yield "ridge from 0", {"head.ridge_points": ((0.0, ridge[0][1]), *ridge[1:])}
        yield "ridge to the nose", {"head.ridge_points": (*ridge[:-1], (length, ridge[-1][1]))}
        yield "ridge beyond the nose", {"head.ridge_points": (*ridge[:-1], (60.0, 0.0))}
        high = (length - 0.3, ridge[-3][1])
        yield "ridge with a steep last step", {"head.ridge_points": (*ridge[:-2], high)}
        near = tuple((length - 0.19 + 0.02 * i, ridge[-1][1]) for i in range(8))
        yield "ridge all at the nose", {"head.ridge_points": near}
        flat = tuple((x, 0.0) for x, _ in ridge)
        yield "ridge on the face", {"head.ridge_points": flat}
        top = tuple((x, 60.0) for x, _ in ridge)
        yield "ridge at the top of its range", {"head.ridge_points": top}
        yield "ridge of many points", {"head.ridge_points": self.ridge_table(60)}
        thick = self.thickness_table()
        graduated = {"stick.graduation": "stations"}
        yield "thickness", {**graduated, "stick.stations": thick}
        ends = ((0.0, thick[0][1]), *thick[1:-1], (850.0, thick[-1][1]))
        yield "thickness from 0 to 850", {**graduated, "stick.stations": ends}
        yield (
            "thickness of three points",
            {**graduated, "stick.stations": thick[:: len(thick) // 2]},
        )
        camber, bent = self.camber_table(), {"stick.camber": "stations"}
        yield "camber", {**bent, "stick.camber_points": camber}
        wide = ((0.0, 0.0), *camber, (800.0, 0.0))
        yield "camber from 0 to 800", {**bent, "stick.camber_points": wide}

    def ridge_table(self, count: int = 12) -> tuple[tuple[float, float], ...]:
        """The starter's own ridge, read off at some places to a tenth."""
        from templates_gen.parts.head import outline

        path = outline.ridge(self.pattern)
        steps = (path.length * i / (count - 1) for i in range(count))
        return tuple((round(x, 2), round(z, 2)) for x, z in map(path.point_at, steps))

    def thickness_table(self) -> tuple[tuple[float, float], ...]:
        """The starter's own thickness, read off at some places to a hundredth."""
        from templates_gen.parts.stick.dims import StickDims

        d = self.pattern.derive(StickDims)
        handle, face = float(d.params.handle_length), float(d.face_rear)
        places = [0.0, handle, *np.linspace(handle, face, 7)[1:]]
        return tuple((float(x), round(float(d.diameter(float(x))), 2)) for x in places)

    def camber_table(self) -> tuple[tuple[float, float], ...]:
        """The starter's own camber, read off at some places to a tenth."""
        from templates_gen.parts.stick.dims import StickDims

        d = self.pattern.derive(StickDims)
        shares = np.linspace(0.0, 1.0, 11)[1:-1]
        chord, camber = float(d.chord), d.camber
        return tuple((round(s * chord, 1), round(camber.at(s * chord)[0], 1)) for s in shares)


def named(changes: Changes) -> str:
    """A case in words."""
    return ", ".join(
        f"{k} = {v:g}" if isinstance(v, float) else f"{k} = {v}" for k, v in changes.items()
    )


def has_no_value(r: Result) -> bool:
    """Report whether a check that applies has no value."""
    return r.applies and not math.isfinite(r.margin)


def sheet_fault(p: Pattern, results: list[Result], t: Template) -> str | None:
    """Return why a sheet cannot be made, or None."""
    not_drawn: dict[str, str] = {}
    for r in results:
        p.once(r.rule, lambda _, known=r: known)  # not judged again for every sheet
    rendering.sheets(rendering.check(p), templates=[t], not_drawn=not_drawn)
    return not_drawn.get(t.name)
