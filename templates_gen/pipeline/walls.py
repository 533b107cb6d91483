"""Measure on the finished solids the walls and clearances of the rules."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from typing import Any

from templates_gen.bow import catalogue
from templates_gen.bow.dims import frames
from templates_gen.checks import Measure, Pose, Rule
from templates_gen.kernel import assembly, walls
from templates_gen.mechanics import FROG, STICK, Frame
from templates_gen.parameters import Pattern


def measures() -> Iterator[tuple[Rule, Measure]]:
    """Yield every rule that is measured on the solids, and its measure."""
    for rule in catalogue.rules():
        if isinstance(rule.solid, Measure):
            yield rule, rule.solid


def alone(part: str, built: Any) -> dict[str, float]:
    """Measure walls within one part's solid (mm), by the rule's name.

    Args:
        part: the part.
        built: its solid as its builder gives it.
    """
    own = {rule.id: measure for rule, measure in measures() if measure.parts == (part,)}
    return _measured(own, {part: _Part(built)})


def together(p: Pattern, built: Mapping[str, Any]) -> dict[str, float]:
    """Measure clearances between the assembled parts (mm), by the rule's name.

    Args:
        p: the pattern.
        built: the parts' solids by name; a rule is left out if one of its parts is missing.
    """
    shared = {rule.id: measure for rule, measure in measures() if len(measure.parts) > 1}
    own = {part: _Part(b) for part, b in built.items()}
    found: dict[str, float] = {}
    for pose in ("play", "rearmost", "foremost"):
        posed = {name: m for name, m in shared.items() if pose in m.poses}
        if posed:
            _place(p, pose, own)
        for name, value in _measured(posed, own).items():
            found[name] = min(value, found.get(name, value))
    return found


class _Part:
    """A part's solid, its groups of faces, each found when first needed, and its position."""

    def __init__(self, built: Any) -> None:
        self._built = built
        self._finished = walls.FinishedSolid(built.solid)
        self._found: dict[str, list[Any]] = {}
        self.places: tuple[Frame, ...] = ()

    def has(self, group: str) -> bool:
        """Return whether this bow has such a group."""
        return bool(self._built.tools.get(group) or self._built.within.get(group))

    def faces(self, group: str) -> list[Any]:
        """Return the finished faces of a group at the part's position."""
        if group not in self._found:
            standing, tools = self._built.within.get(group), self._built.tools.get(group, ())
            if standing is not None:
                self._found[group] = list(standing)
            elif group in self._built.sharp:
                self._found[group] = self._finished.edges_on(tools)
            else:
                self._found[group] = self._finished.faces_on(tools)
            if group in self._built.over:
                self._found[group] = walls.parts_above(self._found[group], self._built.over[group])
        faces = self._found[group]
        for f in self.places:
            faces = [assembly.placed(face, f) for face in faces]
        return faces


def _place(p: Pattern, pose: Pose, own: Mapping[str, _Part]) -> None:
    """Place every part in the stick's frame, with the frog in one pose."""
    for group, on_stick in ((FROG, (frames.frog_at(p, pose),)), (STICK, ())):
        for part, f in frames.of_group(p, group).items():
            if part in own:
                own[part].places = (f, *on_stick)


def _measured(wanted: Mapping[str, Measure], own: Mapping[str, _Part]) -> dict[str, float]:
    found = {}
    for name, measure in wanted.items():
        there = [_there(names, own) for names in measure.groups]
        if all(there):
            groups = {g: own[part].faces(group) for place in there for g, part, group in place}
            found[name] = walls.measure_faces(measure, groups)
    return found


def _there(names: Collection[str], own: Mapping[str, _Part]) -> list[tuple[str, str, str]]:
    """List name, part and group of those groups that this bow has."""
    split = ((name, *name.split(": ")) for name in names)
    return [(n, part, group) for n, part, group in split if part in own and own[part].has(group)]
