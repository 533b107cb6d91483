"""Scale a pattern to another family, or change one value and all that depends on it."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Any

from templates_gen import registry
from templates_gen.bench.scale.law import AS_IT_WAS, Moved, after, in_order, leader_of, to_family
from templates_gen.bench.scale.points import along
from templates_gen.bench.scale.settle import settle
from templates_gen.bench.scale.stated import settings_in
from templates_gen.checks import Result
from templates_gen.errors import Fault, InputError, raise_faults
from templates_gen.parameters import (
    FAMILIES,
    Band,
    Identity,
    Pattern,
    Scale,
    bands,
    format_value,
    too_wide,
)
from templates_gen.parameters.naming import LONGEST, name_trouble
from templates_gen.parameters.starter import require_family
from templates_gen.parts.hair.dims import HairDims

#: Reason of a value that the maker stated.
STATED = "as you set it"


@dataclass(frozen=True)
class Change:
    """One value before and after scaling.

    Args:
        key: the parameter.
        old, new: its value before and after.
        why: the reason.
        own: whether it keeps the maker's difference or ratio to the usual.
        beyond: the family's usual band if the new value is outside it.
    """

    key: str
    old: Any
    new: Any
    why: str
    own: bool
    beyond: Band | None = None

    @property
    def changed(self) -> bool:
        """Report whether the new value differs from the old."""
        return bool(self.old != self.new)

    @property
    def description(self) -> str:
        """Return the reason, and the usual band of an unusual value."""
        if self.beyond is None:
            return self.why
        return f"{self.why}; outside what is usual, {self.beyond.span}"


@dataclass(frozen=True, repr=False)
class Scaled:
    """A scaled pattern. It prints as the table of ``templates-gen scale``.

    Args:
        source: the pattern it was scaled from.
        pattern: the scaled pattern.
        changes: every value before and after, with the reason; unchanged values too.
        after: every check judged on it.
    """

    source: Pattern
    pattern: Pattern
    changes: tuple[Change, ...]
    after: Sequence[Result]

    def __repr__(self) -> str:
        moved = sum(c.changed for c in self.changes)
        name = self.pattern.identity.name
        return f'<Scaled "{name}", {moved} values changed, {len(self.failing)} checks fail>'

    def __str__(self) -> str:
        from templates_gen.bench.scale.table import table

        return table(self)

    @property
    def failing(self) -> tuple[Result, ...]:
        """Return the error-checks that still fail."""
        return tuple(r for r in self.after if r.stops)


def scale(
    p: Pattern,
    to: str | None = None,
    settings: Mapping[str, float | str] | None = None,
    name: str | None = None,
) -> Scaled:
    """Scale a pattern to another family, or set values and change all that depends on them.

    A value that is set stays as set. Where a check would then fail, another number changes.

    Args:
        p: the pattern.
        to: the family, ``violin`` … ``bass-german``; None keeps its own.
        settings: values by key (``ferrule.outer_width``), mm, degrees, counts or words.
        name: the new pattern's name; None adds the new family to the old name.

    Returns:
        ``pattern``, the new pattern, and ``changes``, one for each parameter, with ``old``,
        ``new``, ``changed`` and the reason ``why``; it prints as a table.

    Raises:
        InputError: no such family or parameter, an impossible value, or values that conflict.

    Example:
        >>> import templates_gen as tg
        >>> scaled = tg.scale(tg.new("bass-french", "Dunlin"), "cello")
        >>> scaled.pattern
        <Pattern "Dunlin for cello", cello, 150 parameters>
        >>> [(c.new, c.why) for c in scaled.changes if c.key == "stick.length"]
        [(707.0, 'with the length × 1.034')]
    """
    identity = _identity(p, to or p.family.name, name)
    stated = settings_in(p.schema, settings or {})
    moved = {key: Moved(value, AS_IT_WAS) for key, value in p}
    if to is not None:
        moved = _carried(p, to)
    base = _with(p, identity, moved)
    moved |= _following(base, stated)
    moved |= in_order(p, moved | {key: Moved(value, "") for key, value in stated.items()})
    moved |= {key: Moved(value, STATED) for key, value in stated.items()}
    moved |= along(p, {key: m.value for key, m in moved.items()})
    made = _with(p, identity, moved)
    _validate(made)
    made, cures, after = settle(made, stated, p)
    moved |= {key: Moved(made.values[key], why) for key, why in cures.items()}
    return Scaled(p, made, tuple(_changes(p, made, moved)), after)


def _changes(p: Pattern, made: Pattern, moved: Mapping[str, Moved]) -> Iterator[Change]:
    """Yield every value before and after."""
    usual = bands(made.family.name)
    for key, q in p.schema.parameters.items():
        m = moved[key]
        beyond = q.numeric and m.value != p.values[key] and usual[key].excludes(m.value)
        yield Change(key, p.values[key], m.value, m.why, m.own, usual[key] if beyond else None)


def _carried(p: Pattern, to: str) -> dict[str, Moved]:
    """Return every value scaled to another family, except tables of points."""
    old, new = bands(p.family.name), bands(to)
    return {
        key: Moved(p.values[key], AS_IT_WAS)
        if q.points is not None
        else to_family(q, p.values[key], p.tolerance(key), old[key], new[key])
        for key, q in p.schema.parameters.items()
    }


def _following(p: Pattern, stated: Mapping[str, Any]) -> dict[str, Moved]:
    """Return the values that follow stated ones."""
    found: dict[str, Moved] = {}
    known = p.schema.parameters
    for key, q in known.items():
        leader = leader_of(q, stated, known)
        if leader is None or key in stated or q.choices is not None or q.points is not None:
            continue
        was, now = p.values[leader], stated[leader]
        if q.whole:  # hairs lie side by side, so their number follows the ribbon's width
            ribbon = p.values["hair.ribbon_width_frog"]
            was, now = ribbon, stated.get("hair.ribbon_width_frog", ribbon + now - was)
        found[key] = after(q, p.values[key], p.tolerance(key), leader, was, now)
    now = {key: m.value for key, m in found.items()} | dict(stated)
    return found | _after_the_knot(p, p.with_many(now), now)


def _after_the_knot(p: Pattern, now: Pattern, known: Mapping[str, Any]) -> dict[str, Moved]:
    """Return the hair mortises' depth and length: they follow the knot and so the hair count."""
    if now.values["hair.count"] == p.values["hair.count"]:
        return {}
    knots = [float(each.derive(HairDims).knot) for each in (p, now)]
    return {
        key: after(q, p.values[key], p.tolerance(key), "hair.knot", *knots)
        for key, q in p.schema.parameters.items()
        if q.scale is Scale.KNOT and q.numeric and key not in known
    }


def _with(p: Pattern, identity: Identity, moved: Mapping[str, Moved]) -> Pattern:
    """Return the pattern with other values, in its new family."""
    values = {key: _as_written(m.value) for key, m in moved.items()}
    text = p.text if identity.family == p.family else ""
    return Pattern(p.schema, identity, values, p.tolerances, _notes(p, values), text=text)


def _as_written(value: Any) -> Any:
    """Round a value to the six decimals a file shows, so that its file reads back the same."""
    if isinstance(value, tuple):
        return tuple((round(x, 6), round(y, 6)) for x, y in value)
    return round(value, 6) if isinstance(value, float) else value


def _identity(p: Pattern, family: str, name: str | None) -> Identity:
    """Return name and family of the new pattern; drawings of one name would overwrite each other.

    Raises:
        InputError: unknown family, or a name that does not fit a title block.
    """
    require_family(family)
    trouble = name_trouble(name) if name is not None else None
    if trouble is not None:
        raise InputError([Fault("--name", None, "", *trouble)])
    if name is None:
        name = p.identity.name
        if family != p.family.name:
            name = name.removesuffix(f" for {p.family.name}")
            name = f"{name[: LONGEST['name'] - len(f' for {family}')].rstrip()} for {family}"
    return Identity(name, p.identity.revision, FAMILIES[family], p.identity.file)


#: Beginning of a note made on a former value; where several were added, the last stands first.
_BEFORE = re.compile(
    r"(?:of .+? before scaling: )*of (?P<was>.+?) before scaling: (?P<note>.*)", re.S
)


def _notes(p: Pattern, values: Mapping[str, Any]) -> dict[str, str]:
    """Return the notes; one on a value that changed names the value it was made on."""
    return {
        key: note if values[key] == p.values[key] else _remark(note, p.values[key], values[key])
        for key, note in p.notes.items()
    }


def _remark(note: str, was: Any, now: Any) -> str:
    """Return a note with the value it was made on, unless the value is that again."""
    longest = 200
    before, plain = format_value(was), note
    if found := _BEFORE.fullmatch(note):
        before, plain = found["was"], found["note"]
    return (
        plain if format_value(now) == before else f"of {before} before scaling: {plain}"[:longest]
    )


def _validate(p: Pattern) -> None:
    """Check that a file stating this pattern would be read.

    Raises:
        InputError: it would be rejected.
    """
    file = p.identity.file or "scale"
    faults = [
        Fault(file, None, key, f"once scaled, {trouble.problem}", trouble.cure)
        for key, tol in p.tolerances.items()
        if (trouble := too_wide(p.schema.parameters[key], p.values[key], tol)) is not None
    ]
    faults += [
        replace(f, file=file, line=None, problem=f"once scaled, {f.problem}")
        for f in registry.faults(p)
    ]
    raise_faults(faults)
