"""Explain common mistakes in a TOML file, with their cure."""

from __future__ import annotations

import re

from templates_gen.errors import Fault, InputError
from templates_gen.parameters.lines import stated_before, unfinished

_PLACE = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")
_CURLY = re.compile(r"[“”„‟‘’‚‛«»]")
_ENDS_CURLY = re.compile(r"[“”„‟‘’‚‛«»]\s*(?:#.*)?$")
#: The parser's words where a quote runs to the end of the file.
_UNCLOSED = ("Unterminated string", "Expected \"'")
_OPEN_SECTION = re.compile(r"\s*\[+\s*([\w.-]+)\s*(?:#.*)?$")
_SLIPS = (
    (re.compile(r"=[^\"'#]*\d,\d"), "write decimals with a point, `22.5`"),
    (re.compile(r"=\s*[-+]?\d+\s*/\s*\d"), "write fractions as decimals, `0.25`"),
    (re.compile(r"=\s*[-+]?[\d.]+\s*[a-zA-Z°]+"), "write the number alone, without its unit"),
    (re.compile(r"=\s*[a-zA-Z]"), 'put words in quotes, `"…"`'),
)


def broken(message: str, text: str, file: str) -> InputError:
    """Turn the parser's complaint into a fault: the line it names and the likeliest cure.

    Args:
        message: the parser's complaint.
        text: the whole file.
        file: what messages call it.
    """
    lines = text.rstrip("\n").split("\n")
    place = _PLACE.search(message)
    line = (int(place[1]) if place[1] else unfinished(text)) if place else None
    column = int(place[2]) if place and place[2] else None
    what = _PLACE.sub("", message)
    guilty = lines[line - 1] if line and line <= len(lines) else ""
    if ("twice" in what or "overwrite" in what) and line:
        repeated = _repeated("\n".join(lines[:line]), file)
        if repeated is not None:
            return InputError([repeated])
    found = _slip(what, guilty, column)
    if found is None:
        where = f" at column {column}" if column else ""
        found = f"it is not valid TOML: {what[:1].lower()}{what[1:]}{where}", _cure(guilty)
    return InputError([Fault(file, line, "", *found)])


def _slip(what: str, guilty: str, column: int | None) -> tuple[str, str] | None:
    """Find a common mistake and its cure; None where the parser's own words must do.

    Args:
        what: the parser's words.
        guilty: the line they name.
        column: where on it, from 1.
    """
    before, there = (guilty[: column - 1], guilty[column - 1 :]) if column else (guilty, "")
    unclosed = what == r"Illegal character '\n'" or what.startswith(_UNCLOSED)
    if _CURLY.match(there) or (unclosed and _ENDS_CURLY.search(guilty)):
        return "the quotes are curly ones", 'write straight quotes, `name = "Dunlin"`'
    if unclosed:
        return "a quote is opened and not closed", 'close it on its line, `name = "Dunlin"`'
    nothing = before.rstrip().endswith("=") and there[:1] in ("", "#", ",", "}")
    if what == "Invalid value" and nothing:
        return "there is no value after the `=`", "write a value there, or take the line out"
    section = _OPEN_SECTION.match(guilty) if "table declaration" in what else None
    if section:
        return "the section's name has no closing bracket", f"write `[{section[1]}]`"
    return None


def _repeated(text: str, file: str) -> Fault | None:
    """Find the section or key that the last statement of a text states again."""
    found = stated_before(text)
    if found is None:
        return None
    path, first, line = found
    name = ".".join(path)
    # A section's line begins with a bracket; a key's never does.
    section = text.split("\n")[line - 1].lstrip().startswith("[")
    cure = "change it there" if section else "keep one of the two"
    called = f"[{name}]" if section else name
    return Fault(file, line, "", f"{called} is already stated in line {first}", cure)


def _cure(guilty: str) -> str:
    return next((cure for slip, cure in _SLIPS if slip.search(guilty)), "put that line right")
