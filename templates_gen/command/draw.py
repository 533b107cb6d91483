"""What ``draw`` does and says. Part of ``verbs``."""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Iterable, Sequence
from contextlib import closing, suppress
from pathlib import Path as FilePath

from templates_gen.command.common import (
    busy,
    geometry_errors_as_input,
    judged,
    read_all,
    shop_absent,
    shop_templates,
)
from templates_gen.command.text import table, wrapped
from templates_gen.drawing.template import Template
from templates_gen.errors import SHAPELESS, Fault, InputError
from templates_gen.parameters import Pattern
from templates_gen.pipeline import rendering, selection
from templates_gen.pipeline.output import R12, UNITLESS, OutputOptions, earlier, others
from templates_gen.pipeline.rendering import Checked
from templates_gen.shop import Shop
from templates_gen.shop.read import usual
from templates_gen.writers import FORMATS
from templates_gen.writers.page.facts import NAME

CSV = "csv"


def draw(args: argparse.Namespace) -> int:
    """Write the sheets of every file; nothing at all if an error-check fails."""
    from templates_gen.writers.files import write_all

    _known_formats(args)
    if hasattr(args, "only_begun") and not _words(args.only):
        fault = Fault("--only", None, "", "names nothing", "name templates as `list` does")
        raise InputError([fault])
    patterns, shop = read_all(args.files, args.shop)
    options = _options(args, shop or usual())
    for p in patterns:
        _chosen(args, options, p)
    _distinct(patterns)
    _no_files([FilePath(args.output), *_targets(args, patterns)])
    checked = [_checked(args, options, p) for p in patterns]
    if args.watch:
        return _watch(args, options, patterns, checked)
    failing = any(rendering.stops(c) for c in checked)
    if failing and not args.force:
        _tell_failing(args.files, patterns, checked)
        print("nothing drawn; cure it, or draw with --force", file=sys.stderr)
        return 1
    made, told = [], []
    for p, c in zip(patterns, checked, strict=True):
        not_drawn: dict[str, str] = {}
        with geometry_errors_as_input(p, c), busy(f"drawing {p.identity.name}"):
            made.append(_rendered(args, options, p, c, not_drawn=not_drawn))
        told += [wrapped("not drawn: ", f"{name}: {why}", 0) for name, why in not_drawn.items()]
    for p, c, target, files in zip(patterns, checked, _targets(args, patterns), made, strict=True):
        write_all(target, files)
        told.append(f"{p.identity.name}: {len(files)} files in {target}; {rendering.verdict(c)}")
        told += _warned(p, c) + _left(target, p, files)
    _tell_failing(args.files, patterns, checked)
    print("\n".join([*told, *_next(args, _targets(args, patterns), forced=failing)]))
    return 1 if failing else 0


def _options(args: argparse.Namespace, shop: Shop) -> OutputOptions:
    """The maker's shop, his paper and what reads his DXF; what that cannot hold is told."""
    if args.dxf == R12 and "dxf" in _words(args.format):
        print(f"note: {UNITLESS}; tell your reader so, then measure the square", file=sys.stderr)
    laser = shop.laser if args.kerf else None
    if args.kerf and (laser is None or not laser.kerf):
        cure = "name your shop file with --shop; it states laser.kerf as you measured it"
        if args.shop is not None:
            cure = f"cut a test square, measure it, state its kerf under [laser] in {args.shop}"
        problem = "laser.kerf is 0" if laser else "no kerf is stated"
        raise InputError([Fault("--kerf", None, "", problem, cure)])
    kerf = 0.0 if laser is None else float(laser.kerf)
    return OutputOptions(shop, args.paper, args.dxf, kerf)


def _chosen(args: argparse.Namespace, options: OutputOptions, p: Pattern) -> list[Template]:
    shop, only = _shop(args, options), _words(args.only)
    return selection.chosen(
        p, only, shop_templates(shop), shop_absent(shop, args.shop) if only else {}
    )


def _checked(args: argparse.Namespace, options: OutputOptions, p: Pattern) -> list[Checked]:
    return judged(p, _shop(args, options), options.paper)


def _shop(args: argparse.Namespace, options: OutputOptions) -> Shop | None:
    """The maker's own, where he has named it."""
    return None if args.shop is None else options.shop


def _next(args: argparse.Namespace, targets: Sequence[FilePath], *, forced: bool) -> list[str]:
    """What to do with what was drawn."""
    pages = " and ".join(str(t / NAME) for t in targets)
    if forced:
        return [wrapped("next: ", f"open {pages} to see what fails where; do not cut by this", 0)]
    opened, formats = wrapped("next: ", f"open {pages}", 0), _words(args.format)
    if "pdf" in formats or "svg" in formats:
        return [opened, "print at 100 %, measure the 50 mm square, then cut"]
    if "dxf" in formats:
        return [opened, "measure the 50 mm square in your program, then cut"]
    return [opened]


def _warned(p: Pattern, checked: Sequence[Checked]) -> list[str]:
    """The warnings that fail: they forbid nothing, but are not passed over."""
    failing = [c.result for c in checked if c.result.verdict == "fail" and not c.result.stops]
    names = ", ".join(r.rule.id for r in failing)
    description = f"{names}; `templates-gen check {p.identity.file}` says why and what cures it"
    return [wrapped("warning: ", description, 0)] if failing else []


def _left(target: FilePath, p: Pattern, files: Iterable[str]) -> list[str]:
    """What lies in the folder from other draws: nothing of it is removed, so it is told."""
    stem = rendering.stem(p)
    kinds = (
        (earlier(target, stem, files), f"from an earlier draw; print only what {NAME} links"),
        (others(target, stem), f"of another pattern; {NAME} is {p.identity.name}'s now"),
    )
    told = []
    for left, description in kinds:
        if left:
            more = f" and {len(left) - 1} more" if len(left) > 1 else ""
            told.append(wrapped("note: ", f"{left[0]}{more} in {target}: {description}", 0))
    return told


def _targets(args: argparse.Namespace, patterns: Sequence[Pattern]) -> list[FilePath]:
    """The folder of each pattern."""
    out = FilePath(args.output)
    return [out] if len(patterns) == 1 else [out / rendering.stem(p) for p in patterns]


def _rendered(
    args: argparse.Namespace,
    options: OutputOptions,
    p: Pattern,
    c: Sequence[Checked],
    *,
    glance: bool = False,
    not_drawn: dict[str, str] | None = None,
) -> dict[str, bytes]:
    """The files of a set; at a ``glance`` only the page, without solids.

    Where a check fails, ``unmade`` takes the names of what cannot be made, and why.
    """
    drawn: Sequence[Template] = _chosen(args, options, p)
    if options.kerf:
        from templates_gen.bench.routing.templates import for_laser

        drawn = for_laser(p, drawn, options.kerf)
    formats, plane = ((), True) if glance else (_words(args.format), args.plane)
    files = rendering.render(
        p, c, formats=formats, options=options, plane=plane, templates=drawn, not_drawn=not_drawn
    )
    if {*formats} == {CSV} and not any(name.endswith(f".{CSV}") for name in files):
        raise InputError([_no_table(p, drawn)])
    return files


def _no_table(p: Pattern, drawn: Sequence[Template]) -> Fault:
    """Only CSV was asked for, and none of the sheets has a table."""
    have = [t.name for t in selection.templates(p) if _has_table(p, t)]
    what = drawn[0].name if len(drawn) == 1 else f"none of the {len(drawn)} templates"
    problem = f"{what} has {'no' if len(drawn) == 1 else 'a'} table"
    return Fault("--format", None, CSV, problem, f"add another format, or draw {', '.join(have)}")


def _has_table(p: Pattern, t: Template) -> bool:
    try:
        return any(v.table for v in rendering.views(p, t))
    except SHAPELESS:
        return False


def _watch(
    args: argparse.Namespace,
    options: OutputOptions,
    patterns: Sequence[Pattern],
    checked: Sequence[Sequence[Checked]],
) -> int:
    """Draw, and draw anew whenever a file is saved, until the maker stops it."""
    from templates_gen.command.watch import Watched, follow

    def judge(p: Pattern) -> list[Checked]:
        return _checked(args, options, p)

    def render(p: Pattern, c: Sequence[Checked], glance: bool) -> dict[str, bytes]:
        with busy(f"drawing {p.identity.name}"):
            return _rendered(args, options, p, c, glance=glance)

    rows = zip(args.files, _targets(args, patterns), patterns, checked, strict=True)
    watched = [
        Watched(file, target, judge, render, args.force, p, c) for file, target, p, c in rows
    ]
    with suppress(KeyboardInterrupt), closing(follow(watched, time.sleep)) as said:
        for line in said:
            print(line, flush=True)
    return 0


def _known_formats(args: argparse.Namespace) -> None:
    """Go on if every format is known and goes with the rest.

    Raises:
        InputError: naming what does not.
    """
    formats, known = _words(args.format), (*FORMATS, rendering.STEP)
    unknown = [f for f in formats if f not in known]
    if unknown or not formats:
        said = ", ".join(unknown) or "nothing"
        fault = Fault("--format", None, said, "no such format", f"choose from {', '.join(known)}")
        raise InputError([fault])
    if rendering.STEP in formats and (args.plane or args.watch):
        which = "--plane" if args.plane else "--watch"
        problem = "needs the solids" if args.plane else "takes too long to follow every change"
        raise InputError([Fault("--format", None, "step", problem, f"leave out {which}")])


def _distinct(patterns: Sequence[Pattern]) -> None:
    """Go on if no two patterns would be drawn into one folder.

    Raises:
        InputError: naming the later one.
    """
    first: dict[str, Pattern] = {}
    for p in patterns:
        other = first.setdefault(rendering.stem(p), p)
        if other is not p:
            problem = (
                f'"{p.identity.name}" would be drawn over the pattern of {other.identity.file}'
            )
            cure = "give each pattern a name of its own, or draw one at a time"
            raise InputError([Fault(p.identity.file, None, "pattern.name", problem, cure)])


def _no_files(targets: Sequence[FilePath]) -> None:
    """Go on if none of the folders to be is a file, which is known before any solid is built.

    Raises:
        InputError: naming it.
    """
    problem = "cannot be written: it is a file, not a folder"
    for target in targets:
        with suppress(OSError):  # a name no file can have is told when it is written
            if target.is_file():
                raise InputError([Fault(str(target), None, "", problem, "name a folder with -o")])


def _tell_failing(
    files: Sequence[str], patterns: Sequence[Pattern], checked: Sequence[list[Checked]]
) -> None:
    """The failed error-checks, on the error stream."""
    for file, p, results in zip(files, patterns, checked, strict=True):
        if rendering.stops(results):
            print(f"{file}: {p.identity.name}", file=sys.stderr)
            print(table([c for c in results if c.result.stops]), file=sys.stderr)


def _words(stated: str) -> tuple[str, ...]:
    return tuple(w.strip() for w in stated.split(",") if w.strip())
