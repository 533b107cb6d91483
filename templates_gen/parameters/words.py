"""Write values, ranges and names in words, on lines a terminal can show."""

from __future__ import annotations

import difflib
import json
import textwrap
from collections.abc import Iterable

from templates_gen.parameters.declare import MOST_POINTS, Parameter, PointLimits, Points
from templates_gen.parameters.families import Band

#: Columns of the terminal everything is laid out for.
WIDTH = 80
_LONGEST_SHOWN = 60
#: Text beside a long label keeps this many columns, even if the line grows longer.
_LEAST_ROOM = 20
_UNITS = {"1": "", "": "", "deg": "°"}


def plain(value: float) -> str:
    """Write a number as a maker does: ``22.5``, ``170``, never ``22.500000001``."""
    text = f"{round(float(value), 6) + 0.0:.6f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def wrapped(label: str, text: str, hang: int = 4) -> str:
    """Lay text out on lines of at most 80 columns.

    Args:
        label: what the first line begins with, its indent included.
        text: the words behind it.
        hang: the indent of the lines below.
    """
    filled = textwrap.fill(
        text,
        max(WIDTH, hang + _LEAST_ROOM),
        initial_indent=label,
        subsequent_indent=" " * hang,
        break_long_words=False,
        break_on_hyphens=False,
    )
    return filled or label.rstrip()


def clipped(text: str, longest: int = _LONGEST_SHOWN) -> str:
    """Make text fit for one line of a message, whatever it holds."""
    seen = "".join(c if c.isprintable() else "\N{REPLACEMENT CHARACTER}" for c in text)
    return seen if len(seen) <= longest else seen[: longest - 1] + "…"


def shown(value: object) -> str:
    """Write a value found in a file as a message repeats it."""
    if isinstance(value, str):
        return clipped(json.dumps(value, ensure_ascii=False))
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, dict):
        return "a table"
    if isinstance(value, list):
        return "a list"
    return clipped(str(value))


def written(value: float | str | Points) -> str:
    """Write a value as a file does."""
    if isinstance(value, tuple):
        return "[" + ", ".join(f"[{plain(x)}, {plain(y)}]" for x, y in value) + "]"
    return json.dumps(value, ensure_ascii=False) if isinstance(value, str) else plain(value)


def format_value(value: float | str | Points, unit: str = "") -> str:
    """Write a value in words: a number with its unit, a word as it is, a table by its range."""
    if isinstance(value, str):
        return str(value)
    if not isinstance(value, tuple):
        return with_unit(plain(value), unit)
    if not value:
        return "not stated"
    xs, ys = zip(*value, strict=True)
    x, y = (span(min(each), max(each), "mm") for each in (xs, ys))
    return f"{point_count(value)}: x {x}, y {y}"


def point_count(value: Points) -> str:
    """Count the points of a table, in words."""
    return "1 point" if len(value) == 1 else f"{len(value)} points"


def with_unit(text: str, unit: str) -> str:
    """Put the unit behind a number."""
    return text + _UNITS.get(unit, f" {unit}")


def span(low: float, high: float, unit: str) -> str:
    """Write a range with its unit: ``20 to 24 mm``."""
    return with_unit(f"{plain(low)} to {plain(high)}", unit)


def words_of(parameter: Parameter) -> list[str]:
    """List the words a choice allows, in the order they are declared."""
    return [str(word) for word in parameter.choices] if parameter.choices else []


def listed(words: Iterable[str]) -> str:
    """Write words in quotes, separated by commas."""
    return ", ".join(f'"{word}"' for word in words)


def allowed(parameter: Parameter) -> str:
    """Say what may be stated: a range, or the words of a choice."""
    if parameter.choices is not None:
        return f"one of {listed(words_of(parameter))}"
    if parameter.points is not None:
        return f"{points_allowed(parameter.points)}, or nothing"
    kind = "a whole number" if parameter.whole else "a number"
    return f"{kind} from {span(parameter.low, parameter.high, parameter.unit)}"


def points_allowed(limits: PointLimits) -> str:
    """Say what a table of points may hold."""
    x, y = span(limits.x_low, limits.x_high, "mm"), span(limits.y_low, limits.y_high, "mm")
    along = "x rising, from" if limits.rising else "x from"
    return f"a list of {limits.least} to {MOST_POINTS} points [x, y], {along} {x}, y from {y}"


def when_scaled(parameter: Parameter) -> str:
    """Say how a parameter follows when a pattern is scaled; the words come after "it"."""
    if parameter.points is None:
        way = f", by way of {parameter.after}" if parameter.after else ""
        size = f"; steps to the nearest {parameter.stock.name} size" if parameter.stock else ""
        return f"{parameter.scale}{way}{size}"
    if not parameter.points.marks:
        return "stays as it is, point by point"
    x = ", ".join(mark.x for mark in parameter.points.marks if mark.x not in ("", "0"))
    y = ", ".join(dict.fromkeys(mark.y for mark in parameter.points.marks if mark.y))
    return f"carries its points: x along with {x}; y along with {y}"


def advice(parameter: Parameter, band: Band | None, family: str) -> str:
    """Write the cure for a wrong value.

    Args:
        parameter: what is stated.
        band: what is usual in the family, if the family is known.
        family: the family's name, or "".
    """
    known = band is not None and band.usual != ()
    usual = f", usually {written(band.usual)} for a {family}" if band and known else ""
    return f"state {allowed(parameter)}{usual}"


def nearest(name: str, names: Iterable[str]) -> str | None:
    """Find the known name most like a mistaken one, or None where none is near."""
    return next(iter(near(name, names)), None) if len(name) <= _LONGEST_SHOWN else None


def near(name: str, names: Iterable[str], most: int = 1, alike: float = 0.6) -> list[str]:
    """Find the known names like a mistaken one, the most alike first.

    Args:
        name: as it was written.
        names: those there are.
        most: how many at most.
        alike: how alike they must be, from 0 to 1 (``difflib``'s ratio).
    """
    return difflib.get_close_matches(name.lower()[:_LONGEST_SHOWN], list(names), most, alike)


def text_trouble(value: object, longest: int) -> str | None:
    """Say what is wrong with a short text that must fit a title block, or None.

    Args:
        value: what the file states.
        longest: the most characters it may have.
    """
    if not isinstance(value, str):
        return f"{shown(value)} is not a text in quotes"
    if not value.strip():
        return "the text is empty"
    if len(value) > longest:
        return f"the text has {len(value)} characters, {longest} at most fit"
    odd = next((c for c in value if not c.isprintable()), None)
    if odd is not None:
        what = "a line break" if odd in "\r\n" else "a character that does not print"
        return f"the text holds {what} (U+{ord(odd):04X})"
    return None


def basis_letters(basis: str) -> list[str]:
    """Split the letters of the ``basis`` column, ``B+C+M``."""
    return [letter for letter in basis.split("+") if letter]
