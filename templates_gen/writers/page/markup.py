"""Build HTML and SVG elements; all text that is not markup is escaped."""

from __future__ import annotations

from collections.abc import Iterable
from html import escape

from templates_gen.drawing import printable


class Html(str):
    """A string that is markup."""

    __slots__ = ()


def text(content: str) -> Html:
    """Escape a text for markup; control characters become spaces."""
    return content if isinstance(content, Html) else Html(escape(printable(content)))


def join(parts: Iterable[str]) -> Html:
    """Join pieces of text and markup."""
    return Html("".join(text(part) for part in parts))


def tag(name: str, /, *children: str, **attributes: str) -> Html:
    """Write an element with an end tag.

    Args:
        name: the element's name.
        children: its content.
        attributes: by name; ``_`` is written ``-``, and a trailing one is dropped (``class_``).
    """
    return Html(f"<{name}{_written(attributes)}>{join(children)}</{name}>")


def void(name: str, /, **attributes: str) -> Html:
    """Write an HTML element that has no content and no end tag."""
    return Html(f"<{name}{_written(attributes)}>")


def shape(name: str, /, **attributes: str) -> Html:
    """Write an SVG element without content."""
    return Html(f"<{name}{_written(attributes)}/>")


def _written(attributes: dict[str, str]) -> str:
    named = ((name.rstrip("_").replace("_", "-"), value) for name, value in attributes.items())
    return "".join(f' {name}="{text(value)}"' for name, value in named)
