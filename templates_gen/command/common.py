"""What several verbs do alike: read files, tell whose fault it is, say what takes its time."""

from __future__ import annotations

import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager

from templates_gen.drawing.template import Template
from templates_gen.errors import SHAPELESS, Fault, InputError, in_one_line
from templates_gen.parameters import Pattern
from templates_gen.pipeline import judging
from templates_gen.pipeline.judging import Checked, Report
from templates_gen.pipeline.selection import Absent
from templates_gen.shop import Shop


def read_all(
    files: Sequence[str], shop_file: str | None = None
) -> tuple[list[Pattern], Shop | None]:
    """The pattern of every file, and the maker's shop, where he has named its file.

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
    if faults:
        raise InputError(faults)
    return patterns, shop


def shop_templates(shop: Shop | None) -> list[Template]:
    """The templates for the maker's router, where he has named his shop."""
    if shop is None:
        return []
    from templates_gen.bench.routing.templates import templates

    return templates(shop)


def shop_absent(shop: Shop | None, file: str | None) -> Absent:
    """Of those, the ones that are not drawn: by name why not, and the cure."""
    from templates_gen.bench.routing.templates import absent

    return absent(shop, file)


def judged(p: Pattern, shop: Shop | None, paper: str) -> Report:
    """The pattern's checks, and those of the templates for the maker's router."""
    if shop is None:
        return judging.check(p)
    from templates_gen.bench.routing.templates import checks

    return judging.check(p, checks(p, shop, paper))


@contextmanager
def geometry_errors_as_input(
    p: Pattern, checked: Sequence[Checked] | None = None
) -> Iterator[None]:
    """Trouble on the way to a shape is the numbers' fault where a check fails, else ours.

    Args:
        p: the pattern the shape is of.
        checked: its checks, where they are known already.

    Raises:
        InputError: the numbers are at odds.
    """
    try:
        yield
    except SHAPELESS as e:
        if not judging.stops(judging.check(p) if checked is None else checked):
            raise
        file = p.identity.file
        problem = f"its numbers make no shape: {in_one_line(e)}"
        cure = f"cure what fails in `templates-gen check {file}`"
        raise InputError([Fault(file, None, "", problem, cure)]) from e


@contextmanager
def busy(description: str) -> Iterator[None]:
    """Say on a screen what takes its time, and wipe it off again; a file or pipe never sees it.

    Args:
        says: what is done, in a few words.
    """
    if not sys.stderr.isatty():
        yield
        return
    line = f"{description} …"
    sys.stderr.write(f"\r{line}")
    sys.stderr.flush()
    try:
        yield
    finally:
        sys.stderr.write(f"\r{' ' * len(line)}\r")
        sys.stderr.flush()
