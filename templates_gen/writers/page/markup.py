"""Markup from plain values: what is not markup already is escaped, so nothing can be forgotten."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from templates_gen.drawing.text import printable


class Html(str):
    """Text that is markup already."""

    __slots__ = ()


def text(content: str) -> Html:
    """Words as markup; a sign that is no character on paper becomes a space."""
    return content if isinstance(content, Html) else Html(escape(printable(content)))


def join(parts: Iterable[str]) -> Html:
    """Several pieces one after another."""
    return Html("".join(text(part) for part in parts))


def tag(name: str, /, *children: str, **attributes: str) -> Html:
    """An element with its end tag.

    Args:
        name: the element.
        children: what it holds.
        attributes: by name; ``_`` stands for ``-``, and one at the end falls away (``class_``).
    """
    return Html(f"<{name}{_stated(attributes)}>{join(children)}</{name}>")


def void(name: str, /, **attributes: str) -> Html:
    """An element that holds nothing and has no end tag."""
    return Html(f"<{name}{_stated(attributes)}>")


def shape(name: str, /, **attributes: str) -> Html:
    """An element of a picture that holds nothing."""
    return Html(f"<{name}{_stated(attributes)}/>")


def _stated(attributes: dict[str, str]) -> str:
    named = ((name.rstrip("_").replace("_", "-"), value) for name, value in attributes.items())
    return "".join(f' {name}="{text(value)}"' for name, value in named)
