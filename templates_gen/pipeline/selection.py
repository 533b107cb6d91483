"""Select templates by the names a maker gives."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from types import MappingProxyType

from templates_gen.bow import catalogue
from templates_gen.drawing import Template
from templates_gen.errors import Fault, raise_faults
from templates_gen.parameters import Pattern, near

_MOST_NEAR = 6


#: Why a template is not there, and the cure, by its name.
Absent = Mapping[str, tuple[str, str]]


def templates(p: Pattern) -> list[Template]:
    """List the templates a pattern has."""
    return [t for t in catalogue.templates() if t.wanted(p)]


def chosen(
    p: Pattern,
    only: Sequence[str],
    more: Sequence[Template] = (),
    absent: Absent = MappingProxyType({}),
) -> list[Template]:
    """Select the templates named, or all the pattern has, and more beside them.

    Args:
        p: the pattern.
        only: names, or the first parts of several.
        more: templates beside the pattern's own.
        absent: templates that might stand beside them.

    Raises:
        InputError: no such template.
    """
    there = [*templates(p), *(t for t in more if t.wanted(p))]
    lacks = ("this pattern has none", f"`templates-gen list {p.identity.file}` names those it has")
    own = {t.name: lacks for t in catalogue.templates()}
    own |= {t.name: ("it cannot be made", "`check` with --shop says why") for t in more}
    named = meant(only, [t.name for t in there], own | dict(absent))
    return [t for t in there if not only or t.name in named]


def meant(words: Sequence[str], names: Sequence[str], absent: Absent) -> set[str]:
    """Find the names meant by some words: a word is a whole name, else the first part of several.

    Args:
        words: as the maker gave them; ``frog`` is every ``frog-…``.
        names: those there are.
        absent: those there might be, and why they are missing.

    Raises:
        InputError: a word is neither; the message lists names near it.
    """
    found: set[str] = set()
    faults = []
    for word in words:
        same = [word] if word in names else [n for n in names if n.startswith(f"{word}-")]
        found.update(same)
        if not same:
            like = (n for n in absent if n == word or n.startswith(f"{word}-"))
            lacks = next((absent[n] for n in like), None)
            unknown = _unknown(word, names)
            faults.append(Fault("--only", None, word, *lacks) if lacks else unknown)
    raise_faults(faults)
    return found


def _unknown(word: str, names: Sequence[str]) -> Fault:
    """Report a word that means no template, with names that contain it or are like it."""
    firsts = dict.fromkeys(n.partition("-")[0] for n in names)
    like = [n for n in names if word.strip("-").lower() in n.split("-")]
    like += near(word, [*firsts, *names], _MOST_NEAR)
    like = list(dict.fromkeys(like))[:_MOST_NEAR]
    cure = f"did you mean {' or '.join(like)}?" if like else "`templates-gen list FILE` names them"
    return Fault("--only", None, word, "no such template", cure)


def parts(chosen: Sequence[Template], few: bool) -> set[str]:
    """List the parts whose solids a few sheets need; empty, for all parts, if they are not few."""
    return {t.part for t in chosen} if few else set()
