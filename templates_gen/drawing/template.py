"""Templates: what a part draws, with a name, a purpose and a function that returns its views."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from templates_gen.drawing.view import View
from templates_gen.parameters import Pattern

#: Draws the views of a pattern.
Views = Callable[[Pattern], Sequence[View]]


@dataclass(frozen=True)
class Template:
    """One sheet that a part offers.

    Args:
        name: as in ``list`` and in the file's name.
        title: what the sheet shows.
        part: the part it belongs to.
        purpose: what to do with it, one sentence in the imperative.
        up: which side is up; ``CHART`` or ``TABLE`` for sheets without a scale.
        views: draws a pattern, each view in the part's own frame.
        wanted: whether a pattern has this template.
        note: how its lines differ from the finished size; "" where they do not.
    """

    name: str
    title: str
    part: str
    purpose: str
    up: str
    views: Views
    wanted: Callable[[Pattern], bool] = lambda p: True
    note: str = ""


def template(
    name: str,
    title: str,
    purpose: str,
    up: str,
    *,
    wanted: Callable[[Pattern], bool] = lambda p: True,
) -> Callable[[Views], Template]:
    """Declare the decorated function as a template. The registry finds it in ``sheets*.py``.

    The function gets the pattern and returns a list of views. The part is the first word of the
    name: ``frog-side`` belongs to the frog. The arguments are those of ``Template``.
    """
    part = name.partition("-")[0]
    return lambda views: Template(name, title, part, purpose, up, views, wanted)
