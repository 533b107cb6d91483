"""Build the solids, or read their witnesses from the cache, and check the pattern on them."""

from __future__ import annotations

from collections.abc import Collection, Iterator
from dataclasses import replace
from typing import Any

from templates_gen import registry, tolerances
from templates_gen.bow.dims import frames
from templates_gen.checks import Bound, Measure, Result, Rule, Severity, at_most, judge
from templates_gen.kernel import assembly, step
from templates_gen.kernel import solids as kernel
from templates_gen.mechanics import FROG, STICK
from templates_gen.parameters import Pattern
from templates_gen.pipeline import walls as measuring
from templates_gen.pipeline import witness
from templates_gen.pipeline.progress import tracked
from templates_gen.pipeline.witness import Witness

_BASIS = "measured on the solid"
#: The two ends of the frog's travel.
ENDS = ("rearmost", "foremost")


def witnesses(p: Pattern, *, together: bool, parts: Collection[str] = ()) -> dict[str, Witness]:
    """Return the witness of each part's solid, from the cache where it is known.

    Args:
        p: the pattern.
        together: also assemble the parts and measure the whole, under ``bow``; this takes longest.
        parts: the parts to measure; all if empty.

    Raises:
        EnvironmentFault: a solid is not known and the modeller does not start.
        GeometryError: an outline cannot be constructed.
        KernelError: a solid cannot be built.
    """
    recipes = _recipes(p, parts)
    names = {part: witness.key(part, recipe) for part, recipe in recipes.items()}
    if together:
        names["bow"] = _whole(p, names)
    known = {part: witness.recall(part, name) for part, name in names.items()}
    built: dict[str, Any] = {}
    found = {}
    for part, name in tracked(names.items(), "solid"):
        seen = known[part]
        if seen is None:
            seen = _together(p, recipes, built) if part == "bow" else _alone(part, recipes, built)
            witness.keep(seen, name)
        found[part] = seen
    return found


def _whole(p: Pattern, names: dict[str, str]) -> str:
    """Return the key of the whole's witness: its parts and where they stand."""
    places = (*(frames.of_group(p, group) for group in (FROG, STICK)), frames.positions(p))
    return witness.key("bow", (sorted(names.items()), places))


def solids(p: Pattern, parts: Collection[str] = ()) -> dict[str, Any]:
    """Build the solid of each part, or of some, in its own frame."""
    recipes = _recipes(p, parts)
    built: dict[str, Any] = {}
    return {part: _built(part, recipes, built).solid for part in recipes}


def step_files(p: Pattern, name: str, parts: Collection[str] = ()) -> dict[str, bytes]:
    """Write each part's solid as STEP, and the whole bow in play, by the end of the file's name.

    Args:
        p: the pattern.
        name: what the whole is called in the file.
        parts: write these only, without the whole bow; all if empty.
    """
    own = solids(p, parts)
    files = {part: step.step({part: solid}, f"{name}-{part}") for part, solid in own.items()}
    if not parts:
        files["assembly"] = step.step(assembled(p, own), name)
    return files


def assembled(p: Pattern, own: dict[str, Any], at: str = "play") -> dict[str, Any]:
    """Move every part's solid to its place on the bow, in the stick's frame.

    Args:
        p: the pattern.
        own: the solids, each in its own frame.
        at: the place of the frog's travel, ``play``, ``rearmost`` or ``foremost``.
    """
    return _group(p, STICK, own) | _on_stick(p, at, _group(p, FROG, own))


def _recipes(p: Pattern, parts: Collection[str] = ()) -> dict[str, Any]:
    """Return the recipes of some parts' solids, or of all."""
    builders = (b for b in registry.builders() if not parts or b.part in parts)
    made = ((b.part, b.recipe(p)) for b in builders)
    return {part: recipe for part, recipe in made if recipe is not None}


def _built(part: str, recipes: dict[str, Any], built: dict[str, Any]) -> Any:
    """Build a part's solid once."""
    if part not in built:
        builder = next(b for b in registry.builders() if b.part == part)
        built[part] = builder.build(recipes[part])
    return built[part]


def _alone(part: str, recipes: dict[str, Any], built: dict[str, Any]) -> Witness:
    b = _built(part, recipes, built)
    walls = measuring.alone(part, b)
    return Witness(
        part, kernel.volume(b.solid), kernel.centroid(b.solid), kernel.section_error(b), walls
    )


def _together(p: Pattern, recipes: dict[str, Any], built: dict[str, Any]) -> Witness:
    """Assemble the parts and measure them in play and at both ends of the frog's travel."""
    parts = {part: _built(part, recipes, built) for part in recipes}
    own = {part: b.solid for part, b in parts.items()}
    frog, stick = (_group(p, group, own) for group in (FROG, STICK))
    shared = {f"frog: {k}": v for k, v in assembly.overlap_volumes(frog).items()}
    shared |= {f"stick: {k}": v for k, v in assembly.overlap_volumes(stick).items()}
    for end in ENDS:
        moved = _on_stick(p, end, frog)
        shared |= {
            f"{end}: {k}": v for k, v in assembly.overlap_volumes_between(moved, stick).items()
        }
    volume = sum(kernel.volume(s) for s in own.values())
    walls = measuring.together(p, parts)
    return Witness("bow", volume, (0.0, 0.0, 0.0), 0.0, walls, shared)


def _group(p: Pattern, group: str, own: dict[str, Any]) -> dict[str, Any]:
    """Place the solids of the parts that move as one in their group's frame."""
    places = frames.of_group(p, group)
    return {part: assembly.placed(own[part], f) for part, f in places.items() if part in own}


def _on_stick(p: Pattern, pose: str, frog: dict[str, Any]) -> dict[str, Any]:
    """Place what travels with the frog on the stick."""
    there = frames.frog_at(p, pose)
    return {part: assembly.placed(solid, there) for part, solid in frog.items()}


def confirm(p: Pattern, seen: dict[str, Witness]) -> list[Result]:
    """Judge the pattern on its solids: sections, walls and overlaps."""
    return [judge(rule, p) for rule in _rules(p, seen)]


def _rules(p: Pattern, seen: dict[str, Witness]) -> Iterator[Rule]:
    known = dict(measuring.measures())
    for part, w in seen.items():
        if part == "bow":
            yield from _overlap_rules(w)
        else:
            description = "the solid's sections are the outlines on the sheets"
            yield _rule(
                f"{part}.solid_section", description, at_most(w.section_error, tolerances.SECTION)
            )
    for rule, measure in known.items():
        for w in seen.values():
            if rule.id in w.walls:
                yield _shown(p, rule, measure, w.walls[rule.id])


def _shown(p: Pattern, rule: Rule, measure: Measure, value: float) -> Rule:
    """Make the rule that holds a measured clearance to the limit and severity of its check."""
    stated = rule.bound(p)
    limit, sense = (stated.limit, stated.sense) if measure.limit is None else (measure.limit, ">=")
    shown = _rule(f"{rule.id}_solid", rule.description, Bound(value, limit, sense))
    return replace(shown, severity=rule.severity)


def _overlap_rules(w: Witness) -> Iterator[Rule]:
    for where, description in (
        ("frog", "no part of the frog stands in another's place"),
        ("stick", "screw and button turn free, and no part on the stick touches another"),
        *((end, f"frog and stick clear each other with the frog {end}") for end in ENDS),
    ):
        worst = max(v for k, v in w.overlaps.items() if k.startswith(f"{where}: "))
        yield _rule(
            f"bow.overlap_{where}", description, at_most(worst, tolerances.OVERLAP), unit="mm³"
        )


def _rule(name: str, description: str, bound: Bound, unit: str = "mm") -> Rule:
    return Rule(name, description, lambda _: bound, Severity.ERROR, _BASIS, unit, spare=0.0)
