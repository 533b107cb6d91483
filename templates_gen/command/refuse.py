"""Refuse what ``draw`` cannot do, before anything is drawn."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from contextlib import suppress
from pathlib import Path as FilePath

from templates_gen import registry
from templates_gen.drawing import Template
from templates_gen.errors import SHAPELESS, Fault, InputError
from templates_gen.parameters import Pattern
from templates_gen.pipeline import rendering, selection
from templates_gen.pipeline.draw import require_formats

STEP = rendering.STEP
CSV = "csv"


def unknown_formats(formats: Sequence[str], conflicting: str) -> None:
    """Refuse a format that is unknown, or STEP beside an option it cannot go with.

    Args:
        formats: as the maker named them.
        conflicting: the option, ``--plane`` or ``--watch``, or "".

    Raises:
        InputError: one is refused.
    """
    require_formats(formats)
    if STEP in formats and conflicting:
        why = "needs the solids" if conflicting == "--plane" else "is too slow to follow each save"
        raise InputError([Fault("--format", None, STEP, why, f"leave out {conflicting}")])


def one_name_twice(patterns: Sequence[Pattern]) -> None:
    """Refuse two patterns that would be drawn into one folder.

    Raises:
        InputError: naming the later one.
    """
    first: dict[str, Pattern] = {}
    for p in patterns:
        other = first.setdefault(rendering.stem(p), p)
        if other is not p:
            problem = f'"{p.identity.name}" would overwrite the pattern of {other.identity.file}'
            cure = "give each pattern a name of its own, or draw one at a time"
            raise InputError([Fault(p.identity.file, None, "pattern.name", problem, cure)])


def files_as_folders(targets: Iterable[FilePath]) -> None:
    """Refuse to write into a file, before any solid is built.

    Raises:
        InputError: naming it.
    """
    problem = "cannot be written: it is a file, not a folder"
    for target in targets:
        with suppress(OSError):  # a name no file can have is reported when it is written
            if target.is_file():
                raise InputError([Fault(str(target), None, "", problem, "name a folder with -o")])


def csv_without_table(
    p: Pattern, drawn: Sequence[Template], formats: Sequence[str], files: Iterable[str]
) -> None:
    """Refuse CSV alone where none of the sheets has a table.

    Raises:
        InputError: naming the templates that have one.
    """
    if {*formats} != {CSV} or any(name.endswith(f".{CSV}") for name in files):
        return
    have = [t.name for t in selection.templates(p) if _has_table(p, t)]
    what = drawn[0].name if len(drawn) == 1 else f"none of the {len(drawn)} templates"
    problem = f"{what} has {'no' if len(drawn) == 1 else 'a'} table"
    cure = f"add another format, or draw {', '.join(have)}"
    raise InputError([Fault("--format", None, CSV, problem, cure)])


def step_without_solid(drawn: Sequence[Template], formats: Sequence[str]) -> None:
    """Refuse STEP alone where none of the templates belongs to a part with a solid.

    Raises:
        InputError: naming the parts that have one.
    """
    solid = {b.part for b in registry.builders()}
    if {*formats} == {STEP} and solid.isdisjoint(t.part for t in drawn):
        what = drawn[0].name if len(drawn) == 1 else f"none of the {len(drawn)} templates"
        problem = f"{what} belongs to {'no' if len(drawn) == 1 else 'a'} part with a solid"
        cure = f"name one of {', '.join(sorted(solid))} with --only"
        raise InputError([Fault("--format", None, STEP, problem, cure)])


def _has_table(p: Pattern, t: Template) -> bool:
    try:
        return any(v.table for v in rendering.views(p, t))
    except SHAPELESS:
        return False
