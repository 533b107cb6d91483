"""Which templates a maker means by the names he gives."""

from __future__ import annotations

import difflib
import textwrap
from collections.abc import Sequence

from templates_gen.drawing.template import Template
from templates_gen.errors import Fault, InputError

_WIDTH = 80
_MOST_NEAR = 6


def meant(words: Sequence[str], names: Sequence[str]) -> set[str]:
    """The names meant by some words: a word is a whole name, else the first part of several.

    Args:
        words: as the maker gave them; ``frog`` is every ``frog-…``.
        names: those there are.

    Raises:
        InputError: a word is neither; those near it are named.
    """
    found: set[str] = set()
    faults = []
    for word in words:
        same = [word] if word in names else [n for n in names if n.startswith(f"{word}-")]
        found.update(same)
        if not same:
            faults.append(_unknown(word, names))
    if faults:
        raise InputError(faults)
    return found


def _unknown(word: str, names: Sequence[str]) -> Fault:
    key, problem = f"--only: {word}", "no such template"
    firsts = dict.fromkeys(n.partition("-")[0] for n in names)
    near = [n for n in names if word.strip("-").lower() in n.split("-")]
    near += difflib.get_close_matches(word.lower(), [*firsts, *names], n=_MOST_NEAR)
    near = list(dict.fromkeys(near))[:_MOST_NEAR]
    said = f"near it: {', '.join(near)}" if near else "`templates-gen list FILE` names them"
    told = f"{key}: {problem}; "
    cure = textwrap.fill(
        f"{'x' * len(told)}{said}", _WIDTH, subsequent_indent="    ", break_on_hyphens=False
    )[len(told) :]
    return Fault("--only", None, word, problem, cure)


def parts(chosen: Sequence[Template], few: bool) -> set[str]:
    """The parts whose solids a few sheets ask for; none, for all of them, if they are not few."""
    return {t.part for t in chosen} if few else set()
