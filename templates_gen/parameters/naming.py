"""Read the identity of a pattern: its name, its revision and its family."""

from __future__ import annotations

from templates_gen.parameters.chain import Chain
from templates_gen.parameters.families import FAMILIES
from templates_gen.parameters.faults import Ledger
from templates_gen.parameters.pattern import Identity
from templates_gen.parameters.source import Source
from templates_gen.parameters.words import listed, nearest, shown, text_trouble

#: How many characters fit the title block.
LONGEST = {"name": 60, "revision": 20}


def family_of(chain: Chain, ledger: Ledger) -> str:
    """Find the family of a pattern: the first one stated, else the starter's, else ""."""
    found = ""
    for source in chain.files:
        family = _heading(source, "family")
        if family is None:
            continue
        if isinstance(family, str) and family in FAMILIES:
            found = found or family
            continue
        like = nearest(family, FAMILIES) if isinstance(family, str) else None
        guess = f'; the nearest is "{like}"' if like else ""
        place, cure = source.place("pattern", "family"), f"state one of {listed(FAMILIES)}{guess}"
        ledger.add(place, "pattern.family", f"{shown(family)} is not a family", cure)
    return found or chain.starter


def identity_of(chain: Chain, family: str, ledger: Ledger) -> Identity | None:
    """Read name, revision and family, or None where the ledger says what is wrong with them.

    Name and revision are the file's own, because two patterns of one name would overwrite
    each other's templates; a family may come from the base.
    """
    texts: dict[str, str] = {}
    for source in chain.files:
        sound = _texts(source, ledger)
        if source is chain.files[0]:
            texts = sound
    own = chain.files[0]
    if _heading(own, "name") is None and "pattern.name" not in ledger.reported:
        cure = 'add `name = "…"` under [pattern]; sheets and files are called by it'
        ledger.add(own.place("pattern"), "pattern.name", "the pattern has no name", cure)
    if not family and not chain.broken and "pattern.family" not in ledger.reported:
        cure = f"add `family = …` under [pattern], one of {listed(FAMILIES)}"
        ledger.add(own.place("pattern"), "pattern.family", "the family is not stated", cure)
    if not family or "name" not in texts:
        return None
    return Identity(texts["name"], texts.get("revision", "A"), FAMILIES[family], own.file)


def name_trouble(name: str) -> tuple[str, str] | None:
    """Say what is wrong with a pattern's name, and the cure."""
    trouble = text_trouble(name, LONGEST["name"])
    return (trouble, _cure("name")) if trouble else None


def _texts(source: Source, ledger: Ledger) -> dict[str, str]:
    sound = {}
    for name, longest in LONGEST.items():
        text = _heading(source, name)
        if text is None:
            continue
        trouble = text_trouble(text, longest)
        if trouble is None:
            sound[name] = str(text)
        else:
            ledger.add(source.place("pattern", name), f"pattern.{name}", trouble, _cure(name))
    return sound


def _cure(name: str) -> str:
    return f"state a text in quotes on one line, at most {LONGEST[name]} characters"


def _heading(source: Source, name: str) -> object:
    table = source.table.get("pattern")
    return table.get(name) if isinstance(table, dict) else None
