"""Follow ``based_on`` from file to file, never out of the folder of the file that names it."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path, PureWindowsPath

from templates_gen.errors import InputError
from templates_gen.parameters.families import FAMILIES
from templates_gen.parameters.faults import Ledger
from templates_gen.parameters.pattern import Place
from templates_gen.parameters.source import Source, load
from templates_gen.parameters.words import listed, nearest, shown, text_trouble

_MOST_FILES = 8


@dataclass(frozen=True)
class Chain:
    """A parameter file and the files it is based on.

    Args:
        files: the maker's own file first, then its base, and so on.
        starter: the family whose usual values lie under all of them, or "".
        starter_place: where the starter is named.
        broken: whether a base could not be read, so that its values are missing.
    """

    files: tuple[Source, ...]
    starter: str = ""
    starter_place: Place = ("", None)
    broken: bool = False


def first(path: str | os.PathLike[str]) -> Source:
    """Read the maker's own file.

    Raises:
        InputError: it cannot be read.
    """
    return load(path)


def follow(own: Source, ledger: Ledger) -> Chain:
    """Read every file that a parameter file is based on.

    Args:
        own: the maker's own file.
        ledger: takes the faults of the bases.
    """
    files = [own]
    while (base := files[-1].table.get("based_on")) is not None:
        here = files[-1]
        if isinstance(base, str) and base in FAMILIES:
            return Chain(tuple(files), base, here.place("based_on"))
        found = _base(base, files, ledger)
        if found is None:
            return Chain(tuple(files), broken=True)
        files.append(found)
    return Chain(tuple(files))


def _base(base: object, files: list[Source], ledger: Ledger) -> Source | None:
    here = files[-1]
    place = here.place("based_on")
    trouble = _unfit(base)
    if trouble is not None:
        ledger.add(place, "based_on", *trouble)
        return None
    path = _inside(here.path.parent, str(base))
    if path is None:
        problem = f"{shown(base)} is a link that leads out of the folder"
        ledger.add(place, "based_on", problem, "copy the file itself beside this one")
        return None
    file = str(Path(here.file).parent / str(base))
    earlier = [f.path.resolve() for f in files]
    if path in earlier:
        circle = " → ".join([f.file for f in files[earlier.index(path) :]] + [file])
        ledger.add(place, "based_on", f"goes round in a circle: {circle}", "leave one of them out")
        return None
    if len(files) >= _MOST_FILES:
        problem = f"more than {_MOST_FILES} files are based on one another"
        ledger.add(place, "based_on", problem, "base this file on a file nearer the first")
        return None
    return _loaded(path, file, place, ledger)


def _loaded(path: Path, file: str, place: Place, ledger: Ledger) -> Source | None:
    try:
        return load(path, file)
    except InputError as e:
        named = place[0] if place[1] is None else f"{place[0]}:{place[1]}"
        for fault in e.faults:
            problem = f"{fault.problem} (based_on in {named})"
            ledger.add((fault.file, fault.line), fault.key, problem, fault.cure)
        return None


def _unfit(base: object) -> tuple[str, str] | None:
    """Say what is wrong with a base's name, and the cure."""
    cure = f"name a family ({listed(FAMILIES)}) or a .toml file beside this one"
    trouble = text_trouble(base, longest=250)
    if trouble is not None:
        return trouble, cure
    # both kinds of slash are understood, so a file means the same on every machine
    path = PureWindowsPath(str(base))
    if path.drive or path.root:
        return f"{shown(base)} is not a relative path", cure
    if ".." in path.parts:
        return f"{shown(base)} leaves the folder by `..`", cure
    if path.suffix != ".toml":
        like = nearest(str(base), FAMILIES)
        guess = f'; the nearest family is "{like}"' if like else ""
        return f"{shown(base)} is neither a family nor a .toml file{guess}", cure
    return None


def _inside(folder: Path, base: str) -> Path | None:
    """Find where a base is after following links, or None where they lead out of the folder."""
    try:
        real, home = (folder / base).resolve(), folder.resolve()
    except (OSError, RuntimeError):
        return folder / base  # links in a circle: reading the file will report it
    return real if real.is_relative_to(home) else None
