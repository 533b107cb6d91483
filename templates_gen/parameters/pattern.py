"""The pattern: everything the maker stated, immutable, with all that follows derived on demand."""

from __future__ import annotations

import copy
import dataclasses
import hashlib
import json
from collections.abc import Callable, Hashable, Iterator, Mapping
from dataclasses import dataclass
from functools import cache
from typing import Any, Protocol, Self, TypeVar, cast

import numpy as np

from templates_gen.geometry.arrays import FloatOrArray
from templates_gen.parameters.declare import Points, Schema, section_of
from templates_gen.parameters.families import Family
from templates_gen.parameters.scalars import Scalars

R = TypeVar("R")
T = TypeVar("T")
#: A file, as the maker named it, and the line in it where that is known.
Place = tuple[str, int | None]
#: Among the keys a function looks at: it looks at more than was watched.
UNTRACKED = "…"


class Dims(Protocol):
    """The derived dimensions of one part."""

    @classmethod
    def of(cls, p: Pattern) -> Self:
        """Derive them from a pattern."""
        ...


D = TypeVar("D", bound=Dims)


@dataclass(frozen=True)
class Identity:
    """Whose pattern it is: name, revision, family, and the file it came from ("" for none)."""

    name: str
    revision: str
    family: Family
    file: str = ""


class Pattern:
    """An immutable set of records; ``with_`` gives another, nothing is ever changed in place.

    Args:
        schema: the records there can be.
        identity: name, revision, family.
        values: every parameter by key (mm, degrees, counts, words, tables of points); numbers may
            be arrays.
        tolerances: the ± the file states, by key; the rest is as declared.
        notes: what the file remarks on a value, by key.
        warnings: values out of their family's usual band, told in words.
        places: the file and line on which each key is stated, where a file states it.
    """

    def __init__(
        self,
        schema: Schema,
        identity: Identity,
        values: Mapping[str, Any],
        tolerances: Mapping[str, float] | None = None,
        notes: Mapping[str, str] | None = None,
        warnings: tuple[str, ...] = (),
        places: Mapping[str, Place] | None = None,
    ) -> None:
        self.schema = schema
        self.identity = identity
        self.values = dict(values)
        self.tolerances = dict(tolerances or {})
        self.notes = dict(notes or {})
        self.warnings = warnings
        self.places = dict(places or {})
        self._records = {type(r): r for r in schema.build(self.values)}
        self._derived: dict[Any, Any] = {}
        self._watched: TrackingPattern | None = None
        self._drawn: Pattern | None = None

    @property
    def drawn(self) -> Pattern:
        """The pattern whose numbers are drawn: of a corner of the tolerances what it belongs to."""
        return self._drawn or self

    @property
    def family(self) -> Family:
        return self.identity.family

    def __getitem__(self, kind: type[R]) -> R:
        """What the maker stated of one part: ``pattern[Ferrule].outer_width``."""
        return cast(R, self._records[kind])

    def derive(self, kind: type[D]) -> D:
        """Everything that follows for one part, worked out once: ``derive(FerruleDims)``."""
        return self.once(kind, kind.of)

    def scalars(self, kind: type[D]) -> D:
        """Derive the dimensions of one part with every number a float, to draw or build from."""
        return self.once((Scalars, kind), lambda p: cast(D, Scalars(p.derive(kind))))

    def once(self, what: Hashable, work: Callable[[Pattern], T]) -> T:
        """What follows from the pattern, worked out the first time it is asked for."""
        if what not in self._derived:
            self._derived[what] = work(self)
        return cast(T, self._derived[what])

    def tolerance(self, key: str) -> float:
        """The ± a parameter is judged with, in its own unit."""
        return self.tolerances.get(key, self.schema.parameters[key].tol)

    def with_(self, key: str, value: FloatOrArray | str | Points) -> Pattern:
        """The same pattern but for one value."""
        return self.with_many({key: value})

    def with_many(self, changes: Mapping[str, FloatOrArray | str | Points]) -> Pattern:
        """The same pattern but for some values.

        Raises:
            KeyError: no such parameter.
        """
        for key in changes:
            if key not in self.values:
                raise KeyError(key)
        changed = copy.copy(self)
        changed.values = {**self.values, **changes}
        # Records never change, so those of the other sections serve both.
        touched = {key.partition(".")[0] for key in changes}
        new = {type(r): r for r in self.schema.build(changed.values, touched)}
        changed._records = {**self._records, **new}
        changed._derived = {}
        changed._watched = changed._drawn = None
        return changed

    def corner(self, changes: Mapping[str, FloatOrArray]) -> Pattern:
        """The same bow made with some numbers off by their tolerances; this one stays drawn."""
        made = self.with_many(changes)
        made._drawn = self
        return made

    def reads(self, look: Callable[[Pattern], object]) -> tuple[str, ...]:
        """The keys a function of the pattern looks at, in the order of the declarations."""
        seen = self.depends_on(look)
        return tuple(key for key in self.schema.parameters if key in seen)

    def depends_on(self, look: Callable[[Pattern], object]) -> frozenset[str]:
        """The keys a function of the pattern looks at, and ``UNTRACKED`` where at more."""
        if self._watched is None:
            self._watched = TrackingPattern(self)
        seen: set[str] = set()
        look(self._watched.afresh(seen))
        return frozenset(seen)

    def unwatched(self) -> Pattern:
        """The same pattern, with nobody watching what is looked at."""
        return self

    @property
    def digest(self) -> str:
        """Hash (hex) of everything stated; comments and the order of the file do not enter it."""
        i = self.identity
        given = {k: v for k, v in self.values.items() if not (isinstance(v, tuple) and not v)}
        stated = {
            "identity": [i.name, i.revision, i.family.name],
            "values": given,
            "tolerances": self.tolerances,
        }
        text = json.dumps(stated, sort_keys=True, default=str)
        return hashlib.sha256(text.encode()).hexdigest()

    def __iter__(self) -> Iterator[tuple[str, Any]]:
        return iter(self.values.items())


class TrackingPattern(Pattern):
    """A pattern that remembers which parameters were looked at."""

    def __init__(self, of: Pattern) -> None:
        values = {key: _forgiving(value) for key, value in of.values.items()}
        super().__init__(of.schema, of.identity, values, of.tolerances)
        self._plain = Pattern(of.schema, of.identity, values)
        self._seen: set[str] = set()

    def afresh(self, seen: set[str]) -> TrackingPattern:
        """The same, with nothing derived yet and another memory."""
        other = copy.copy(self)
        other._seen, other._derived = seen, {}
        other._records = {k: TrackingRecord(r, seen) for k, r in self._records.items()}
        return other

    def unwatched(self) -> Pattern:
        self._seen.add(UNTRACKED)
        return self._plain


def _forgiving(value: Any) -> Any:
    """A value by which a division by nothing does not end the looking: numpy lets it pass."""
    if isinstance(value, tuple):
        return tuple((np.float64(x), np.float64(y)) for x, y in value)
    return np.float64(value) if isinstance(value, float) else value


class TrackingRecord:
    def __init__(self, record: Any, seen: set[str]) -> None:
        self._record = record
        self._seen = seen
        self._keys = _keys(cast(Hashable, type(record)))

    def __getattr__(self, name: str) -> Any:
        if name in self._keys:
            self._seen.add(self._keys[name])
        return getattr(self._record, name)


@cache
def _keys(kind: Any) -> Mapping[str, str]:
    """The key of each field of a record."""
    prefix = section_of(kind)
    return {f.name: f"{prefix}.{f.name}" for f in dataclasses.fields(kind)}
