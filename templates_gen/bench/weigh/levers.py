"""What each change within a maker's reach would do to mass and balance."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from templates_gen import registry
from templates_gen.bench.weigh.weighing import Weighed
from templates_gen.parameters import Pattern
from templates_gen.parameters.families import bands
from templates_gen.parameters.words import words_of
from templates_gen.parts.material.dims import MaterialDims
from templates_gen.parts.material.params import GAUGES, LappingKind

Changes = Mapping[str, float | str]

#: What moves along by the same amount with a number that is moved for weight's sake.
TOGETHER = {
    "frog.clear_height": ("frog.clear_height", "frog.overall_height", "frog.throat_centre_height"),
    "frog.width_waist": ("frog.width_waist", "frog.width_top"),
}
#: Numbers a maker moves for weight's sake, by how much to try it, and what to call it.
NUMBERS = {
    "lapping.length": (10.0, "lapping 10 mm longer"),
    "lapping.gauge": (0.05, "lapping 0.05 mm thicker"),
    "leather.length": (10.0, "leather 10 mm longer"),
    "button.length": (1.0, "button 1 mm longer"),
    "frog.clear_height": (1.0, "frog 1 mm higher"),
    "frog.width_waist": (0.5, "frog 0.5 mm wider in waist and top"),
    "ferrule.arch_thickness": (0.1, "ferrule's arch of sheet 0.1 mm thicker"),
    "ferrule.plate_thickness": (0.1, "ferrule's plate 0.1 mm thicker"),
    "heel.plate_thickness": (0.1, "heel plate 0.1 mm thicker"),
    "underslide.thickness": (0.1, "underslide 0.1 mm thicker"),
    "head.plate_thickness": (0.1, "tip plate 0.1 mm thicker"),
    "stick.across_flats_butt": (0.1, "stick 0.1 mm thicker at the butt"),
    "stick.across_flats_handle_end": (0.1, "stick 0.1 mm thicker at the handle's end"),
    "stick.diameter_head": (0.1, "stick 0.1 mm thicker behind the head"),
}
#: Choices a maker makes for weight's sake, and what they are called.
WORDS = {
    "lapping.kind": "lapping",
    "button.kind": "button",
    "material.frog_wood": "frog and button of",
    "material.mounts": "mounts of",
    "head.plate_kind": "tip plate of",
    "heel.kind": "heel plate",
}
#: With what word of a choice a number, or a whole section's, says nothing of the bow: it has no
#: such part, or a table of what was measured says it instead.
_IDLE = {
    "lapping": ("lapping.kind", "none"),
    "heel": ("heel.kind", "none"),
    "underslide": ("underslide.kind", "none"),
    "stick.across_flats_butt": ("stick.graduation", "stations"),
    "stick.across_flats_handle_end": ("stick.graduation", "stations"),
    "stick.diameter_head": ("stick.graduation", "stations"),
}
#: A change that does less (g and mm together) is no lever.
_FELT = 1e-3
#: So near its end (mm) a number is told to have come to it.
_AT_END = 0.015


@dataclass(frozen=True)
class Lever:
    """One change and what it does.

    Args:
        says: the change in words.
        changes: the values it sets.
        mass: what the bow gains (g).
        balance: how far its balance moves toward the head (mm).
    """

    description: str
    changes: Changes
    mass: float
    balance: float


def levers(w: Weighed) -> tuple[Lever, ...]:
    """Every change and what it would do; a number's change does the contrary the other way.

    A change that makes a bow no file may state is none.
    """
    found = []
    for description, changes in _tried(w.pattern):
        then = w.changed(changes)
        if registry.faults(then.pattern):
            continue
        found.append(
            Lever(description, changes, then.total - w.total, then.from_ferrule - w.from_ferrule)
        )
    return tuple(each for each in found if abs(each.mass) + abs(each.balance) > _FELT)


def _tried(p: Pattern) -> Iterator[tuple[str, Changes]]:
    for key, called in WORDS.items():
        for word in other_words(p, key):
            yield f"{called} {word}", chosen(p, key, word)
    for key, (step, description) in NUMBERS.items():
        if matters(p, key):
            yield description, moved(p, key, step)


def other_words(p: Pattern, key: str) -> list[str]:
    """The words a choice may change to; not to one that asks for a measurement."""
    words = words_of(p.schema.parameters[key])
    return [word for word in words if word not in (p.values[key], "measured")]


def chosen(p: Pattern, key: str, word: str) -> dict[str, float | str]:
    """What is set with a word: another lapping is wound of its own gauge."""
    words = p.schema.parameters[key].choices
    assert words is not None, "only a choice has words"
    changes: dict[str, float | str] = {key: words(word)}
    gauge = GAUGES.get(LappingKind(word)) if key == "lapping.kind" else None
    return changes if gauge is None else {**changes, "lapping.gauge": gauge.usual}


def moved(p: Pattern, key: str, by: float) -> Changes:
    """What is set when a number moves by so much, and what goes along with it."""
    return {k: round(float(p.values[k]) + by, 6) for k in TOGETHER.get(key, (key,))}


def usual(p: Pattern, key: str) -> tuple[float, float]:
    """What is usual of a number (mm), from … to: in the family, or for the kind of lapping."""
    gauge = p.derive(MaterialDims).usual_gauge if key == "lapping.gauge" else None
    if gauge is not None:
        return gauge.low, gauge.high
    band = bands(p.family.name)[key]
    assert band.low is not None and band.high is not None, "a number has a band"
    return band.low, band.high


def reach_of(p: Pattern, key: str) -> tuple[float, float]:
    """How far a number may go (mm), from … to, before it or what goes along is unusual.

    What is unusual already goes no farther out.
    """
    now = float(p.values[key])
    least, most = -math.inf, math.inf
    for k in TOGETHER.get(key, (key,)):
        value, (low, high) = float(p.values[k]), usual(p, k)
        least, most = max(least, min(low - value, 0.0)), min(most, max(high - value, 0.0))
    return round(now + least, 6), round(now + most, 6)


def at_end(p: Pattern, key: str) -> list[str]:
    """Of a number that has gone as far as it may, what is at its end: it, or what goes along."""
    along = TOGETHER.get(key, (key,))
    ended = [k for k in along if _from_end(float(p.values[k]), usual(p, k)) < _AT_END]
    return ended or [key]


def _from_end(value: float, band: tuple[float, float]) -> float:
    """How far within its band a number stands (mm); negative outside."""
    return min(value - band[0], band[1] - value)


def matters(p: Pattern, key: str) -> bool:
    """Whether the number says anything of the bow."""
    told = (_IDLE.get(name) for name in (key, key.partition(".")[0]))
    return all(idle is None or p.values[idle[0]] != idle[1] for idle in told)
