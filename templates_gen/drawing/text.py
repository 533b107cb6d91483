"""Measure text with the packaged font; shorten and wrap it to a width; format numbers."""

from __future__ import annotations

import json
import unicodedata
from functools import cache, lru_cache

from templates_gen.drawing.font import CAP_UNITS, widths_path

ELLIPSIS = "…"


@cache
def _widths() -> tuple[dict[int, int], int]:
    """Read the width of each character in font units, and that of the unknown-character glyph."""
    table = json.loads(widths_path().read_text(encoding="utf-8"))
    widths = {
        first + i: int(width)
        for width, runs in table["widths"].items()
        for first, length in runs
        for i in range(length)
    }
    return widths, int(table["unknown"])


def printable(text: str) -> str:
    """Replace control characters and other unprintable ones by spaces."""
    if text.isprintable():  # a shortcut: most text is
        return text
    return "".join(" " if unicodedata.category(c)[0] in "CZ" else c for c in text)


def text_width(text: str, cap_height: float) -> float:
    """Measure the width of a line of text.

    Args:
        text: one line.
        cap_height: height of its capitals (mm).

    Returns:
        The width (mm), without kerning; writers must not kern either.
    """
    return _units(text) * cap_height / CAP_UNITS


@lru_cache(maxsize=4096)
def _units(text: str) -> int:
    """Measure the width in font units. Cached: the same text is measured many times."""
    widths, unknown = _widths()
    return sum(widths.get(ord(c), unknown) for c in text)


def fit_text(text: str, max_width: float, cap_height: float) -> str:
    """Shorten a text with ``…`` to at most ``max_width`` (mm)."""
    whole = printable(text).strip()
    if text_width(whole, cap_height) <= max_width:
        return whole
    room = max_width - text_width(ELLIPSIS, cap_height)
    kept = 0
    while text_width(whole[kept], cap_height) <= room:
        room -= text_width(whole[kept], cap_height)
        kept += 1
    return whole[:kept].rstrip() + ELLIPSIS


def wrap_text(text: str, max_width: float, cap_height: float, max_lines: int = 99) -> list[str]:
    """Wrap a text between words into lines of at most ``max_width`` (mm).

    What does not fit on ``max_lines`` lines is cut off with ``…``.
    """
    lines: list[str] = []
    words = printable(text).split()
    while words and len(lines) < max_lines - 1:
        count = 1
        while count < len(words) and _fits(words[: count + 1], max_width, cap_height):
            count += 1
        lines.append(fit_text(" ".join(words[:count]), max_width, cap_height))
        words = words[count:]
    if words:
        lines.append(fit_text(" ".join(words), max_width, cap_height))
    return lines


def _fits(words: list[str], max_width: float, cap_height: float) -> bool:
    return text_width(" ".join(words), cap_height) <= max_width


def first_up(text: str) -> str:
    """Capitalize the first letter and leave the rest."""
    return text[:1].upper() + text[1:]


def figure(value: float, decimals: int = 2) -> str:
    """Format a number: a decimal point, no trailing zeros, no ``-0``."""
    text = f"{value:.{decimals}f}"
    text = text.rstrip("0").rstrip(".") if "." in text else text
    return "0" if text in ("-0", "") else text
