"""List the changes a maker can make for weight's sake, and what each does to mass and balance."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

import numpy as np

from templates_gen import registry
from templates_gen.bench.weigh.weighing import Weighed
from templates_gen.geometry import Floats
from templates_gen.parameters import Pattern, bands
from templates_gen.parameters.words import words_of
from templates_gen.parts.material.dims import MaterialDims
from templates_gen.parts.material.params import GAUGES, LappingKind

Changes = Mapping[str, float | str]

#: Numbers that change by the same amount as a lever.
TOGETHER = {
    "frog.clear_height": ("frog.clear_height", "frog.overall_height", "frog.throat_centre_height"),
    "frog.width_waist": ("frog.width_waist", "frog.width_top"),
}
#: Numbers a maker changes for weight's sake: the change listed (mm), and its description.
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
#: Choices a maker changes for weight's sake, and how their description begins.
WORDS = {
    "lapping.kind": "lapping",
    "button.kind": "button",
    "material.frog_wood": "frog and button of",
    "material.mounts": "mounts of",
    "head.plate_kind": "tip plate of",
    "heel.kind": "heel plate",
}
#: By a number's section, the choice on which the weight of its change depends most.
PARTNERS = {
    "lapping": "lapping.kind",
    "button": "button.kind",
    "frog": "material.frog_wood",
    "ferrule": "material.mounts",
    "heel": "material.mounts",
    "underslide": "material.mounts",
    "head": "head.plate_kind",
}
#: A change that does less than this (g and mm together) is not listed.
_FELT = 1e-3
#: Lengths are marked to a tenth of a millimetre, thicknesses measured to a hundredth (mm).
_LENGTH_STEP, _THICKNESS_STEP = 0.1, 0.01
#: A number this near an end of its band has reached it (mm).
_AT_END = 0.015


@dataclass(frozen=True)
class Lever:
    """One change and its effect.

    Args:
        description: the change in words.
        changes: the values it sets.
        mass: gain of the bow (g).
        balance: move of the balance toward the head (mm).
    """

    description: str
    changes: Changes
    mass: float
    balance: float


def levers(w: Weighed) -> tuple[Lever, ...]:
    """Return every change with its effect; the opposite change has the opposite effect.

    Changes to a bow that no file may state are left out.
    """
    found = []
    for description, changes in _possible(w.pattern):
        then = w.changed(changes)
        if registry.faults(then.pattern):
            continue
        found.append(
            Lever(description, changes, then.total - w.total, then.from_ferrule - w.from_ferrule)
        )
    return tuple(each for each in found if abs(each.mass) + abs(each.balance) > _FELT)


def _possible(p: Pattern) -> Iterator[tuple[str, Changes]]:
    for key, called in WORDS.items():
        for word in other_words(p, key):
            yield f"{called} {word}", changes_of(p, {key: word})
    for key, (step, description) in NUMBERS.items():
        if applies(p, key):
            yield description, changes_of(p, {key: float(p.values[key]) + step})


def applies(p: Pattern, key: str) -> bool:
    """Report whether a number is a lever: a stick drawn from measured stations has none."""
    return not (key.startswith("stick.") and p.values["stick.graduation"] == "stations")


def changes_of(p: Pattern, settings: Changes) -> dict[str, float | str]:
    """Return the values a file states when levers are set, with all that changes together.

    Another kind of lapping comes with its own usual gauge.

    Args:
        p: the pattern before.
        settings: words and numbers (mm) by lever.
    """
    changes: dict[str, float | str] = {}
    for key, word in words_in(settings).items():
        words = p.schema.parameters[key].choices
        assert words is not None, "only a choice has words"
        changes[key] = words(word)
        gauge = GAUGES.get(LappingKind(word)) if key == "lapping.kind" else None
        changes |= {} if gauge is None else {"lapping.gauge": gauge.usual}
    start = {**p.values, **changes}
    for key in settings:
        if key in NUMBERS:
            by = float(settings[key]) - float(start[key])
            changes |= {k: round(float(start[k]) + by, 6) for k in TOGETHER.get(key, (key,))}
    return changes


def words_in(settings: Changes) -> dict[str, str]:
    """Return the words among settings."""
    return {key: str(value) for key, value in settings.items() if key in WORDS}


def other_words(p: Pattern, key: str) -> list[str]:
    """Return the words a choice may change to; not to one that needs a measurement."""
    words = words_of(p.schema.parameters[key])
    return [word for word in words if word not in (p.values[key], "measured")]


def usual(p: Pattern, key: str) -> tuple[float, float]:
    """Return the ends of a number's usual band (mm): the family's, or the lapping's kind's."""
    gauge = p.derive(MaterialDims).usual_gauge if key == "lapping.gauge" else None
    if gauge is not None:
        return gauge.low, gauge.high
    band = bands(p.family.name)[key]
    assert band.low is not None and band.high is not None, "a number has a band"
    return band.low, band.high


def reach_of(p: Pattern, key: str) -> tuple[float, float]:
    """Return how far a number may go (mm), it and all that changes with it staying usual.

    What is outside its band already goes no farther out.
    """
    now = float(p.values[key])
    least, most = -math.inf, math.inf
    for k in TOGETHER.get(key, (key,)):
        value, (low, high) = float(p.values[k]), usual(p, k)
        least, most = max(least, min(low - value, 0.0)), min(most, max(high - value, 0.0))
    return round(now + least, 6), round(now + most, 6)


def possible_values(p: Pattern, key: str) -> Floats:
    """Return the values (mm) a number may be set to: its own, and sizes sold or whole steps."""
    low, high = reach_of(p, key)
    stock = p.schema.parameters[key].stock
    step = _LENGTH_STEP if NUMBERS[key][0] >= 1 else _THICKNESS_STEP
    values = stock.sizes if stock else step * np.arange(math.ceil(low / step), high / step + 1)
    found = np.array([float(p.values[key]), *values]).round(6)
    return np.unique(found[(found >= low) & (found <= high)])


def at_end(p: Pattern, key: str) -> list[str]:
    """Return which of a number and all that changes with it are at an end of their band."""
    found = []
    for k in TOGETHER.get(key, (key,)):
        value, (low, high) = float(p.values[k]), usual(p, k)
        if min(value - low, high - value) < _AT_END:
            found.append(k)
    return found
