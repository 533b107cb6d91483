"""Move parameters until a rule fails and back again, each time through a file on disk."""

from __future__ import annotations

import shutil
from collections.abc import Iterable, Iterator
from functools import cache
from pathlib import Path

import numpy as np

import templates_gen
from templates_gen import registry
from templates_gen.checks.corners import corners, margins_along
from templates_gen.checks.judge import Result, judge, numbers_read
from templates_gen.checks.rule import Rule
from templates_gen.errors import InputError
from templates_gen.parameters import Pattern
from templates_gen.parameters.rewrite import set_values
from templates_gen.pipeline import rendering
from templates_gen.tolerances import BOUND

SHIPPED = Path(templates_gen.__file__).parent.parent / "params"
LOOKS = 40
#: Numbers, words and tables by key.
Changes = dict[str, float | str | tuple[tuple[float, float], ...]]


@cache
def shipped() -> dict[str, Pattern]:
    """List every shipped parameter file that holds a pattern (the shop file does not)."""
    files = [f for f in sorted(SHIPPED.glob("*.toml")) if "[pattern]" in f.read_text("utf-8")]
    return {f.name: rendering.read(str(f)) for f in files}


@cache
def as_shipped(name: str) -> list[Result]:
    """Judge every rule of a shipped file."""
    return [judge(rule, shipped()[name]) for rule in registry.rules()]


def judged_again(before: list[Result], p: Pattern, keys: Iterable[str]) -> list[Result]:
    """Judge a pattern in which some keys differ; only rules that read them are judged again."""
    others = any(not p.schema.parameters[key].numeric for key in keys)
    return [judge(r.rule, p) if others or set(keys) & set(r.reads) else r for r in before]


class Desk:
    """A folder with copies of the shipped files, where changed files are written and read."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        shutil.copytree(SHIPPED, folder, dirs_exist_ok=True)

    def changed(self, name: str, changes: Changes) -> tuple[str, Pattern] | None:
        """Write a file with some values changed and read it; return its name and pattern.

        Returns None where the file is rejected: a maker cannot reach that place.
        """
        text = set_values((self.folder / name).read_text("utf-8"), changes)
        new = f"changed-{name.removeprefix('changed-')}"
        (self.folder / new).write_text(text, "utf-8")
        try:
            return new, rendering.read(str(self.folder / new))
        except InputError:
            return None


#: Measured lines for shipped files: some rules fail only for measured lines, never for constructed
#: ones. This ridge has a hollow over the lower edge of the nose (invented).
MEASURED: tuple[tuple[str, str, tuple[tuple[float, float], ...]], ...] = (
    (
        "violin.toml",
        "head.ridge_points",
        (
            (9.0, 22.9), (11.0, 22.7), (13.0, 21.6), (14.6, 19.2), (16.0, 15.8), (17.4, 12.0),
            (18.9, 8.4), (20.5, 5.4), (22.3, 3.4), (23.7, 2.95), (25.0, 3.2),
        ),
    ),
)  # fmt: skip


def starts(rule: Rule) -> Iterator[tuple[str, Changes]]:
    """Yield starting points: each shipped file, each with another choice, and with a measured line,
    where the rule reads them."""
    for name in shipped():
        yield name, {}
    for name, p in shipped().items():
        for key in p.reads(rule.bound):
            for word in p.schema.parameters[key].choices or ():
                if word != p.values[key]:
                    yield name, {key: str(word)}
    for name, key, table in MEASURED:
        if key in shipped()[name].reads(rule.bound):
            yield name, {key: table}


def falls(rule: Rule, p: Pattern) -> Iterator[tuple[str, float]]:
    """Move one parameter until the rule fails: for each number and direction, the nearest value."""
    read = numbers_read(rule, p)
    signs = corners(rule, p, read)
    for q in read:
        was = p.values[q.key]
        for end in (q.low, q.high):
            reach = (end - was) * np.linspace(0.0, 1.0, LOOKS) ** 2
            places = np.unique(np.clip(np.round(was + reach, 0 if q.whole else 4), q.low, q.high))
            fails = ~(margins_along(rule, p, read, signs, q.key, places) >= -BOUND)
            if fails.any():
                yield q.key, float(min(places[fails], key=lambda v, was=was: abs(v - was)))


def places(rule: Rule) -> Iterator[tuple[str, Changes]]:
    """Yield files and the changes with which the rule fails."""
    for name, words in starts(rule):
        p = shipped()[name].with_many(words)
        for key, value in falls(rule, p):
            yield name, {**words, key: value}


def some_patterns(seed: int, count: int, spread: float = 1.0) -> Iterator[Pattern]:
    """Yield patterns with random numbers and choices from their possible ranges.

    Args:
        seed: of the random numbers.
        count: how many.
        spread: 1 for each whole possible range, less for a part of it around the shipped value.
    """
    rng = np.random.default_rng(seed)
    known = list(shipped().values())
    for i in range(count):
        p = known[i % len(known)]
        changes = {}
        for key, q in p.schema.parameters.items():
            if q.choices is not None:
                words = list(q.choices)
                changes[key] = words[rng.integers(len(words))]
            if not q.numeric:
                continue
            drawn = rng.choice([q.low, q.high, *rng.uniform(q.low, q.high, 4)])
            value = p.values[key] + spread * (drawn - p.values[key])
            changes[key] = float(np.round(value)) if q.whole else float(value)
        yield p.with_many(changes)
