"""Derived dimensions: dataclasses that a pattern fills, each field by its type."""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import fields
from functools import cache
from typing import TYPE_CHECKING, Any, Self, cast, get_type_hints

if TYPE_CHECKING:
    from templates_gen.parameters.pattern import Pattern


class Dims:
    """The derived dimensions of one part: a dataclass whose fields name what they depend on.

    A field is a record (``Ferrule``), other dimensions (``HairDims``), the ``Family``, or the
    ``Pattern`` that is drawn; what else a class depends on, it derives in an ``of`` of its own.
    """

    @classmethod
    def of(cls, p: Pattern) -> Self:
        """Derive them from a pattern: each field by its type."""
        make: Callable[..., Self] = cls
        return make(*(p.source(kind) for kind in _field_types(cast(Hashable, cls))))


@cache
def _field_types(kind: Any) -> tuple[type, ...]:
    """List the types of a dataclass's fields, looked up once."""
    types = get_type_hints(kind)
    return tuple(types[field.name] for field in fields(kind))
