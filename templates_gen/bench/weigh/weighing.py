"""Weigh a bow before it is made: mass and place of every piece, balance, and its stick."""

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


@dataclass(frozen=True, repr=False)
class Weighed:
    """A weighed bow: ``total`` (g), ``from_butt`` and ``from_ferrule`` (mm), ``pieces``, ``stick``.

    It prints as the table of ``templates-gen weigh``.

    Args:
        pattern: the bow.
        bulk: volume and middle of each part, measured on its solid.
        pieces: everything that has weight.
    """

    pattern: Pattern
    bulk: Mapping[str, VolumeAt]
    pieces: tuple[Piece, ...]

    @property
    def total(self) -> float:
        """Return the mass (g)."""
        return float(total(self.pieces))

    @property
    def from_butt(self) -> float:
        """Return the balance from the butt's shoulder (mm)."""
        return float(balance(self.pieces))

    @property
    def from_ferrule(self) -> float:
        """Return the balance from the ferrule's front in play (mm)."""
        return self.from_butt - float(self.pattern.values["frog.front_at_play"])

    @property
    def stick(self) -> StickFigures:
        """Return the deflection, frequencies and window of pulls of the stick."""
        return figures(self.pattern, self.pieces)

    def __repr__(self) -> str:
        name, balance = self.pattern.identity.name, f"balance {self.from_ferrule:.1f} mm"
        return f'<Weighed "{name}", {self.total:.2f} g, {balance} ahead of the ferrule>'

    def __str__(self) -> str:
        from templates_gen.bench.weigh.levers import levers
        from templates_gen.bench.weigh.table import table

        return table(self, levers(self))

    def changed(self, changes: Mapping[str, float | str]) -> Weighed:
        """Return the bow with some values changed, without building its solids again.

        A changed part's volume follows from its dimensions, so a frog's or a head's new mass is
        approximate. The mass of a part that keeps its shape is exact.
        """
        p = self.pattern.with_many(changes)
        was, now = self.pattern.derive(Volumes).parts, p.derive(Volumes).parts
        moved = {part: _moved(self.bulk.get(part), was.get(part), now[part]) for part in now}
        return Weighed(p, moved, pieces(p, moved))


def weigh(p: Pattern, seen: Mapping[str, Witness] | None = None) -> Weighed:
    """Calculate a bow's mass and balance, and how its stick bends and rings.

    Args:
        p: the pattern; its checks may fail.
        seen: what was measured on its solids; if None it is taken from the cache, or measured.

    Returns:
        ``total`` (g), ``from_butt`` and ``from_ferrule``, the balance (mm), ``pieces`` and
        ``stick``; it prints as a table, with what each change would do.

    Raises:
        InputError: these dimensions give no valid shape.
        EnvironmentFault: a solid is not in the cache and the modeller does not start.

    Example:
        >>> import templates_gen as tg
        >>> w = tg.weigh(tg.new("violin", "Wren"))
        >>> w
        <Weighed "Wren", 6... g, balance 19... mm ahead of the ferrule>
        >>> heavy = max(w.pieces, key=lambda piece: piece.mass)
        >>> heavy.name, str(heavy.material)
        ('stick', 'bow-grade pernambuco')
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
    """Return a measured volume, changed in proportion to the one from dimensions."""
    if measured is None or was is None:
        return now
    return VolumeAt(measured.volume * now.volume / was.volume, measured.x + now.x - was.x)
