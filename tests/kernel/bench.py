"""Solids shared by the tests, built once, and their files."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

from templates_gen import registry
from templates_gen.parameters import Pattern
from templates_gen.pipeline import rendering

PARAMS = Path(__file__).parents[2] / "params"
FILES = tuple(
    f.stem
    for f in sorted(PARAMS.glob("*.toml"))
    if "pattern" in tomllib.loads(f.read_text("utf-8"))
)
BUILDERS = {b.part: b for b in registry.builders()}


@cache
def pattern(stem: str) -> Pattern:
    return rendering.read(str(PARAMS / f"{stem}.toml"))


@cache
def recipe(stem: str, part: str) -> Any:
    return BUILDERS[part].recipe(pattern(stem))


@cache
def built(stem: str, part: str) -> Any:
    return BUILDERS[part].build(recipe(stem, part))


@cache
def even(stem: str) -> Pattern:
    """The pattern with a handle without taper and a vertical heel."""
    p = pattern(stem)
    handle = p.values["stick.across_flats_handle_end"]
    return p.with_many({"stick.across_flats_butt": handle, "heel.lean_deg": 0.0})


@cache
def built_even(stem: str, part: str) -> Any:
    return BUILDERS[part].build(BUILDERS[part].recipe(even(stem)))


def parts_of(stem: str) -> list[str]:
    """The parts of a file's bow that have solids."""
    return [part for part in BUILDERS if recipe(stem, part) is not None]


EVERY = [(stem, part) for stem in FILES for part in parts_of(stem)]


def having(part: str) -> list[str]:
    """The files whose bow has a part as a solid."""
    return [stem for stem, other in EVERY if other == part]
