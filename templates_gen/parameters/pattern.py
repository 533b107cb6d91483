"""The pattern: all parameters of one bow, immutable, with its dimensions derived on demand."""

from __future__ import annotations

import copy
import hashlib
import json
from collections.abc import Callable, Hashable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, TypeVar, cast, overload

import numpy as np

from templates_gen.geometry import FloatOrArray
from templates_gen.parameters.declare import Points, Schema
from templates_gen.parameters.dims import Dims
from templates_gen.parameters.families import Family
from templates_gen.parameters.scalars import Scalars
from templates_gen.parameters.tracking import TrackingRecord, without_zero_division
from templates_gen.parameters.words import nearest

D = TypeVar("D", bound=Dims)
R = TypeVar("R")
T = TypeVar("T")
#: A file, as the maker named it, and the line in it where that is known.
Place = tuple[str, int | None]
#: Stands among the keys that a function reads where it reads more than was recorded.
UNTRACKED = "…"


@dataclass(frozen=True)
class Identity:
    """Name, revision and family of a pattern, and the file it came from ("" for none)."""

    name: str
    revision: str
    family: Family
    file: str = ""


class Pattern:
    """All parameters of one bow. It never changes; ``set`` returns another pattern.

    Args:
        schema: the records a parameter file may hold.
        identity: name, revision, family.
        values: every parameter by key (mm, degrees, counts, words, tables of points); numbers may
            be arrays.
        tolerances: the ± the file states, by key; the rest is as declared.
        notes: the file's note on a value, by key.
        warnings: a sentence for each value outside its family's usual range.
        places: file and line of each key, where a file states it.
        text: the parameter file's own text, whose comments ``to_toml`` keeps.

    Example:
        >>> import templates_gen as tg
        >>> p = tg.new("bass-french", "Dunlin")
        >>> p
        <Pattern "Dunlin", bass-french, 150 parameters>
        >>> wider = p.set("ferrule.outer_width", 23)
        >>> wider["ferrule.outer_width"] - p["ferrule.outer_width"]
        0.5
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
        text: str = "",
    ) -> None:
        self.schema = schema
        self.identity = identity
        self.values = dict(values)
        self.tolerances = dict(tolerances or {})
        self.notes = dict(notes or {})
        self.warnings = warnings
        self.places = dict(places or {})
        self.text = text
        self._records = {type(r): r for r in schema.build(self.values)}
        self._derived: dict[Any, Any] = {}
        self._watched: TrackingPattern | None = None
        self._drawn: Pattern | None = None

    @property
    def drawn(self) -> Pattern:
        """The pattern that is drawn: itself, or the one of whose tolerances this is a corner."""
        return self._drawn or self

    @property
    def family(self) -> Family:
        return self.identity.family

    @overload
    def __getitem__(self, key: str) -> Any: ...
    @overload
    def __getitem__(self, key: type[R]) -> R: ...
    def __getitem__(self, key: str | type[R]) -> Any:
        """Read one value by its key, or one record by its class.

        Args:
            key: ``ferrule.outer_width`` gives the value (mm, degrees, a count, a word or points);
                ``Ferrule`` gives the record.

        Raises:
            KeyError: no such parameter; the message has the nearest key.
        """
        if not isinstance(key, str):
            return self._records[key]
        if key not in self.values:
            like = nearest(key, self.values)
            near = f"; the nearest is {like}" if like else ""
            raise KeyError(f"{key} is not a parameter{near}")
        return self.values[key]

    def set(self, changes: str | Mapping[str, Any], value: Any = None) -> Pattern:
        """Return the pattern with some values changed, checked as in a parameter file.

        Args:
            changes: one key, or values by key (mm, degrees, counts, words, lists of points). A
                value may be a table as in a file: ``{"value": 23, "tol": 0.02, "note": "gauged"}``.
                Also ``pattern.name`` and ``pattern.revision``. Six decimals are kept.
            value: the value of the one key.

        Raises:
            InputError: an unknown key (with the nearest known name), a value outside its possible
                range, or not one of its words; all of them at once.

        Example:
            >>> import templates_gen as tg
            >>> p = tg.new("violin").set({"ferrule.outer_width": 12.5, "hair.count": 180})
            >>> p["ferrule.outer_width"], p["hair.count"]
            (12.5, 180.0)
            >>> p.set("ferrule.outer_widht", 13)
            Traceback (most recent call last):
            templates_gen.errors.InputError: set: ferrule.outer_widht: unknown key; the nearest...
        """
        from templates_gen.parameters.read import changed

        return changed(self, {changes: value} if isinstance(changes, str) else changes)

    def to_toml(self) -> str:
        """Return the text of a parameter file that reads back as this pattern.

        Comments, notes and order are those of the file the pattern came from; without one, those
        of its family's starter. A file that rests on another file rests on its family's usual
        values afterwards, so that the text can be saved in any folder.

        Raises:
            RewriteError: the text does not read back as the pattern.

        Example:
            >>> import templates_gen as tg
            >>> text = tg.new("cello", "Wigeon").set("slide.length", 27.5).to_toml()
            >>> [line.partition(" #")[0].rstrip() for line in text.splitlines() if "27.5" in line]
            ['length = 27.5']
        """
        from templates_gen.parameters.rewrite import file_text

        return file_text(self)

    def _repr_svg_(self) -> str | None:
        """Draw it, for notebooks."""
        return self.schema.picture(self) if self.schema.picture else None

    def __repr__(self) -> str:
        i = self.identity
        return f'<Pattern "{i.name}", {i.family.name}, {len(self.values)} parameters>'

    def derive(self, kind: type[D]) -> D:
        """Derive the dimensions of one part, once: ``derive(FerruleDims)``."""
        return self.once((Dims, kind), kind.of)

    def scalars(self, kind: type[D]) -> D:
        """Derive the dimensions of one part with every number a float, to draw or build from."""
        return self.once((Scalars, kind), lambda p: cast(D, Scalars(p.derive(kind))))

    def source(self, kind: type[Any]) -> Any:
        """Return what a field of derived dimensions reads, by the field's type."""
        if issubclass(kind, Dims):
            return self.derive(kind)
        given = {Family: self.family, Pattern: self.drawn}
        return given[kind] if kind in given else self[kind]

    def once(self, what: Hashable, work: Callable[[Pattern], T]) -> T:
        """Return what a function of the pattern gives, calling it the first time only."""
        if what not in self._derived:
            self._derived[what] = work(self)
        return cast(T, self._derived[what])

    def tolerance(self, key: str) -> float:
        """Return the ± a parameter is judged with, in its own unit."""
        return self.tolerances.get(key, self.schema.parameters[key].tol)

    def with_(self, key: str, value: FloatOrArray | str | Points) -> Pattern:
        """Return the pattern with one value changed, unchecked."""
        return self.with_many({key: value})

    def with_many(self, changes: Mapping[str, FloatOrArray | str | Points]) -> Pattern:
        """Return the pattern with some values changed, unchecked: for searches, which are many.

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
        """Return the bow as made with some numbers off by their ±; this one stays drawn."""
        made = self.with_many(changes)
        made._drawn = self
        return made

    def on_grid(self) -> Pattern:
        """The same bow, every number an array with two axes of length 1 added at the end.

        What is derived from it broadcasts against a grid of places along those axes.
        """

        def work(p: Pattern) -> Pattern:
            numbers = {k: p.values[k] for k, q in p.schema.parameters.items() if q.numeric}
            made = p.with_many({k: np.asarray(v)[..., None, None] for k, v in numbers.items()})
            made._drawn = p._drawn and p._drawn.on_grid()
            return made

        return self.once("on grid", work)

    def reads(self, look: Callable[[Pattern], object]) -> tuple[str, ...]:
        """List the keys a function of the pattern reads, in the order of the declarations."""
        seen = self.depends_on(look)
        return tuple(key for key in self.schema.parameters if key in seen)

    def depends_on(self, look: Callable[[Pattern], object]) -> frozenset[str]:
        """Find the keys a function of the pattern reads, with ``UNTRACKED`` where it reads more."""
        if self._watched is None:
            self._watched = TrackingPattern(self)
        seen: set[str] = set()
        look(self._watched.afresh(seen))
        return frozenset(seen)

    def unwatched(self) -> Pattern:
        """Return the same pattern without a record of what is read."""
        return self

    @property
    def digest(self) -> str:
        """Hash (hex) of everything stated; comments and order of the file do not matter."""
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
    """A pattern that records which parameters were read."""

    def __init__(self, of: Pattern) -> None:
        values = {key: without_zero_division(value) for key, value in of.values.items()}
        super().__init__(of.schema, of.identity, values, of.tolerances)
        self._plain = Pattern(of.schema, of.identity, values)
        self._seen: set[str] = set()

    def afresh(self, seen: set[str]) -> TrackingPattern:
        """Return the same pattern with nothing derived yet, which records into another set."""
        other = copy.copy(self)
        other._seen, other._derived = seen, {}
        other._records = {k: TrackingRecord(r, seen) for k, r in self._records.items()}
        return other

    def unwatched(self) -> Pattern:
        self._seen.add(UNTRACKED)
        return self._plain
