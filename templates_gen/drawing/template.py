"""A template a maker can ask for: its name, its purpose, and the views it shows."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from templates_gen.drawing.view import View
from templates_gen.parameters import Pattern

#: What a template shows of a pattern.
Views = Callable[[Pattern], Sequence[View]]


@dataclass(frozen=True)
class Template:
    """One sheet a part offers.

    Args:
        name: as in ``list`` and in the file's name.
        title: what it is.
        part: the part it belongs to.
        purpose: what to do with it, one sentence.
        up: which side is up; ``CHART`` or ``TABLE`` of what is at no scale.
        views: what it shows of a pattern, each in the part's own frame.
        wanted: whether a pattern has this template at all.
        note: in what its lines differ from the finished size; "" where they do not.
    """

    name: str
    title: str
    part: str
    purpose: str
    up: str
    views: Views
    wanted: Callable[[Pattern], bool] = lambda p: True
    note: str = ""


def named(part: str, name: str, title: str, purpose: str, up: str, views: Views) -> Template:
    """A template every pattern has, its name led by its part's."""
    return Template(f"{part}-{name}", title, part, purpose, up, views)
