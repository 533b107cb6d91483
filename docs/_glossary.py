"""Draw the pictures of the glossary and read its page: words, letters, definitions."""

from __future__ import annotations

from string import ascii_uppercase

import _glossary_parts as parts
from _glossary_bow import bow
from _letters import Lettered

from templates_gen.drawing.view import View
from templates_gen.parameters import Pattern


def pictures(p: Pattern) -> dict[str, list[Lettered]]:
    """List the drawings of every picture, by the picture's name."""
    return {
        "bow": [bow(p)],
        "frog": [parts.frog(p), parts.frog_inside(p), parts.frog_across(p)],
        "ferrule": [parts.ferrule(p)],
        "slide": [parts.slide(p), parts.heel(p), parts.underslide(p)],
        "handle": [
            parts.handle(p),
            parts.butt(p),
            parts.screw(p),
            parts.eyelet(p),
            parts.button(p),
        ],
        "head": [parts.head(p), parts.head_rear(p)],
        "blank": [parts.blank(p), parts.graduation(p)],
        "form": [parts.form(p), parts.over_bend(p)],
    }


def letters(p: Pattern) -> dict[str, dict[str, str]]:
    """List the letter of every word, by picture."""
    return {
        name: dict(zip((w for v in views for w in v.named), ascii_uppercase, strict=False))
        for name, views in pictures(p).items()
    }


def drawings(p: Pattern) -> dict[str, tuple[str, list[View]]]:
    """Draw every picture: its title, and its views with letters."""
    of = letters(p)
    return {
        name: (f"{name.capitalize()}, with letters", [v.view(of[name]) for v in views])
        for name, views in pictures(p).items()
    }
