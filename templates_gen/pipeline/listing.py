"""List what a script can ask for: parameters and templates."""

from __future__ import annotations

from templates_gen import registry
from templates_gen.bow import catalogue
from templates_gen.drawing import Template
from templates_gen.parameters import Parameter, Pattern
from templates_gen.pipeline import selection


def declarations() -> dict[str, Parameter]:
    """List every parameter of a parameter file, by its key.

    Returns:
        By key: ``meaning``, ``letter`` on the drawings, ``unit``, possible range (``low`` and
        ``high``), usual ``tol``, and ``scale``, what it follows when scaled.

    Example:
        >>> import templates_gen as tg
        >>> width = tg.declarations()["ferrule.outer_width"]
        >>> width.letter, width.unit, width.low, width.high
        ('W_f', 'mm', 8, 34)
    """
    return dict(registry.SCHEMA.parameters)


def templates(p: Pattern | None = None) -> list[Template]:
    """List the templates of a pattern, or every template there is.

    Args:
        p: the pattern; without one, all that some pattern has.

    Returns:
        The templates, each with ``name``, ``title``, ``part`` and ``purpose``.

    Example:
        >>> import templates_gen as tg
        >>> [t.name for t in tg.templates(tg.new("cello")) if t.part == "button"]
        ['button-turning', 'button-facets']
    """
    return list(catalogue.templates()) if p is None else selection.templates(p)
