"""Weigh a bow before it is made: its pieces, its balance, and how its stick bends and rings."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from templates_gen.bench.weigh.solid_masses import bulk
from templates_gen.bench.weigh.stick import StickFigures, figures
from templates_gen.bow.dims.masses import Piece, balance, pieces, total
from templates_gen.bow.dims.volumes import VolumeAt, Volumes
from templates_gen.errors import Fault, GeometryError, InputError
from templates_gen.parameters import Pattern
from templates_gen.pipeline import solids
from templates_gen.pipeline.witness import Witness


@dataclass(frozen=True)
class Weighed:
    """What a bow amounts to.

    Args:
        pattern: the bow.
        bulk: how much there is of each part, as its solid has it.
        pieces: everything that has weight.
    """

    pattern: Pattern
    bulk: Mapping[str, VolumeAt]
    pieces: tuple[Piece, ...]

    @property
    def total(self) -> float:
        """Mass (g)."""
        return float(total(self.pieces))

    @property
    def from_butt(self) -> float:
        """Balance from the butt's shoulder (mm)."""
        return float(balance(self.pieces))

    @property
    def from_ferrule(self) -> float:
        """Balance from the ferrule's front in play (mm)."""
        return self.from_butt - float(self.pattern.values["frog.front_at_play"])

    @property
    def stick(self) -> StickFigures:
        """How the stick bends and rings."""
        return figures(self.pattern, self.pieces)

    def changed(self, changes: Mapping[str, float | str]) -> Weighed:
        """The bow with some values changed; its solids are not built anew.

        What a part gains or loses is reckoned from its dimensions, so a frog's or a head's new
        mass is near, not exact. All that keeps its shape is exact.
        """
        p = self.pattern.with_many(changes)
        was, now = self.pattern.derive(Volumes).parts, p.derive(Volumes).parts
        moved = {part: _moved(self.bulk.get(part), was.get(part), now[part]) for part in now}
        return Weighed(p, moved, pieces(p, moved))


def weigh(p: Pattern, seen: Mapping[str, Witness] | None = None) -> Weighed:
    """What a bow weighs, where it balances, and how its stick bends and rings.

    Args:
        p: the pattern.
        seen: what its solids left behind; if None they are recalled, or built.

    Raises:
        InputError: an outline cannot be constructed.
        EnvironmentFault: a solid is not known and the modeller does not start.
    """
    found = bulk(p, _witnesses(p) if seen is None else seen)
    return Weighed(p, found, pieces(p, found))


def _witnesses(p: Pattern) -> Mapping[str, Witness]:
    try:
        return solids.witnesses(p, together=False)
    except GeometryError as e:
        file = p.identity.file
        cure = f"`templates-gen check {file}` names what to change"
        fault = Fault(file, None, "", f"it cannot be weighed: {e}", cure)
        raise InputError([fault]) from e


def _moved(measured: VolumeAt | None, was: VolumeAt | None, now: VolumeAt) -> VolumeAt:
    """What was measured, changed as its reckoning changes."""
    if measured is None or was is None:
        return now
    return VolumeAt(measured.volume * now.volume / was.volume, measured.x + now.x - was.x)
