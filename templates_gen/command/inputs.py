"""Read the files a call names, and judge them; what several verbs do alike."""

from __future__ import annotations

import argparse
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager

from templates_gen.drawing import Template
from templates_gen.errors import SHAPELESS, Fault, InputError, in_one_line, raise_faults
from templates_gen.parameters import Pattern, wrapped
from templates_gen.pipeline import judging
from templates_gen.pipeline.judging import Checked, Report
from templates_gen.pipeline.selection import Absent
from templates_gen.shop import Shop


def read_all(
    files: Sequence[str], shop_file: str | None = None
) -> tuple[list[Pattern], Shop | None]:
    """Read every parameter file, and the shop file if there is one.

    Raises:
        InputError: everything wrong with any of them, at once.
    """
    patterns: list[Pattern] = []
    faults: list[Fault] = []
    for file in files:
        try:
            patterns.append(judging.read(file))
        except InputError as e:
            faults += e.faults
    shop = None
    if shop_file is not None:
        from templates_gen.shop.read import read

        try:
            shop = read(shop_file)
        except InputError as e:
            faults += e.faults
    raise_faults(faults)
    return patterns, shop


def more_templates(shop: Shop | None, own: str | None) -> list[Template]:
    """List the templates beside the pattern's: of a folder of one's own, and for the router.

    Args:
        shop: the maker's shop, or None.
        own: the folder, or None.

    Raises:
        InputError: the folder has no templates, or faulty ones.
    """
    more: list[Template] = []
    if own is not None:
        from templates_gen.pipeline.own_templates import load

        more += load(own)
    if shop is not None:
        from templates_gen.bench.routing.templates import templates

        more += templates(shop)
    return more


def shop_absent(shop: Shop | None, file: str | None) -> Absent:
    """Say of each router template that is not drawn why not, and the cure."""
    from templates_gen.bench.routing.templates import absent

    return absent(shop, file)


def judged(p: Pattern, shop: Shop | None, paper: str) -> Report:
    """Judge the pattern, and the router templates if there is a shop."""
    if shop is None:
        return judging.check(p)
    from templates_gen.bench.routing.templates import checks

    return judging.check(p, checks(p, shop, paper))


@contextmanager
def geometry_errors_as_input(
    p: Pattern, checked: Sequence[Checked] | None = None
) -> Iterator[None]:
    """Report a failed construction as a fault of the file where a check fails; else it is a bug.

    Args:
        p: the pattern.
        checked: its checks, if they are known already.

    Raises:
        InputError: the dimensions conflict.
    """
    try:
        yield
    except SHAPELESS as e:
        if not judging.stops(judging.check(p) if checked is None else checked):
            raise
        file = p.identity.file
        problem = f"these dimensions give no valid shape: {in_one_line(e)}"
        cure = f"cure what fails in `templates-gen check {file}`"
        raise InputError([Fault(file, None, "", problem, cure)]) from e


def rewritten(args: argparse.Namespace, made: Pattern, table: str, notes: Iterable[str]) -> str:
    """Say which file was made from which, what changed in it, and what else to note."""
    what = f"{made.identity.name}, {made.family.instrument}"
    lines = [wrapped("", f"{args.file} → {args.output}: {what}"), table]
    return "\n".join([*lines, *(wrapped("  note: ", note, 6) for note in notes)])
