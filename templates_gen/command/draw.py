"""``draw``: write the templates."""

from __future__ import annotations

import argparse
import sys
import time
from collections.abc import Iterable, Sequence
from contextlib import closing, suppress
from pathlib import Path as FilePath

from templates_gen.command import arguments as declare
from templates_gen.command import refuse
from templates_gen.command.inputs import (
    geometry_errors_as_input,
    judged,
    more_templates,
    read_all,
    shop_absent,
)
from templates_gen.command.progress import busy
from templates_gen.command.text import coloured, table
from templates_gen.drawing import Template
from templates_gen.errors import Fault, InputError
from templates_gen.parameters import Pattern, wrapped
from templates_gen.pipeline import rendering, selection
from templates_gen.pipeline.judging import Checked, Report
from templates_gen.pipeline.output import (
    R12,
    UNITLESS,
    OutputOptions,
    earlier_files,
    other_patterns,
)
from templates_gen.shop import Shop
from templates_gen.shop.read import usual
from templates_gen.writers.page.facts import NAME

EXAMPLES = """\
  templates-gen draw mine.toml -o out
  templates-gen draw mine.toml -o out --only frog,head-plate --format pdf
  templates-gen draw mine.toml -o out --only frog --format step
  templates-gen draw mine.toml -o out --watch
"""
DXF = ("arcs", "flattened", "r12")


def arguments(verb: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    declare.file(verb, many=True)
    declare.output(verb, "DIR", "the folder to write to")
    for name, usual_value, description in (
        ("--format", "dxf,svg,pdf,csv", "any of dxf,svg,pdf,csv,step"),
        ("--only", "", "template names, as `list` prints them; `frog` means every frog-…"),
    ):
        verb.add_argument(
            name, default=usual_value, action=declare.CommaList, metavar="LIST", help=description
        )
    declare.paper(verb, "the paper in the printer; large sheets are tiled")
    verb.add_argument(
        "--dxf", default="arcs", choices=DXF, help="flattened or r12 for programs that drop arcs"
    )
    declare.shop(verb, "your printer and tools, as stated in shop.toml")
    declare.own_templates(verb)
    verb.add_argument("--kerf", action="store_true", help="compensate for the kerf of your laser")
    verb.add_argument(
        "--plane", action="store_true", help="build no solids; the sheets are stamped"
    )
    verb.add_argument(
        "--force", action="store_true", help="draw even if a check fails; the sheets are stamped"
    )
    verb.add_argument("--watch", action="store_true", help="redraw whenever a file is saved")


def run(args: argparse.Namespace) -> int:
    """Write nothing if a check of any file fails; a warning does not count."""
    from templates_gen.writers.files import write_all

    conflicting = [f"--{name}" for name in ("plane", "watch") if getattr(args, name)]
    refuse.unknown_formats(declare.words(args.format), next(iter(conflicting), ""))
    if hasattr(args, "only_begun") and not declare.words(args.only):
        cure = "name templates as `list` does"
        raise InputError([Fault("--only", None, "", "names nothing", cure)])
    patterns, shop = read_all(args.files, args.shop)
    options = _options(args, shop or usual())
    for p in patterns:
        refuse.step_without_solid(_chosen(args, options, p), declare.words(args.format))
    refuse.one_name_twice(patterns)
    targets = _targets(args, patterns)
    refuse.files_as_folders([FilePath(args.output), *targets])
    with busy("checking"):
        checked = [_checked(args, options, p) for p in patterns]
    if args.watch:
        return _watch(args, options, patterns, checked)
    failing = not all(report.ok for report in checked)
    if failing and not args.force:
        _print_failing(args.files, patterns, checked)
        print("nothing drawn: cure the failures, or add --force to draw it anyway", file=sys.stderr)
        return 1
    made: list[dict[str, bytes]] = []
    lines: list[str] = []
    for p, c in zip(patterns, checked, strict=True):
        not_drawn: dict[str, str] = {}
        with geometry_errors_as_input(p, c), busy(f"drawing {p.identity.name}"):
            made.append(_rendered(args, options, c, not_drawn=not_drawn))
        lines += [wrapped("not drawn: ", f"{name}: {why}") for name, why in not_drawn.items()]
    for p, c, target, files in zip(patterns, checked, targets, made, strict=True):
        write_all(target, files)
        lines.append(f"{p.identity.name}: {len(files)} files in {target}; {c.summary}")
        lines += _warnings(p, c) + _left_over(target, p, files)
    _print_failing(args.files, patterns, checked)
    written = [target / name for target, files in zip(targets, made, strict=True) for name in files]
    print("\n".join([*lines, *_next(args, targets, written, forced=failing)]))
    return 1 if failing else 0


def _options(args: argparse.Namespace, shop: Shop) -> OutputOptions:
    """Gather the shop, the paper and the kind of DXF; note what that DXF cannot carry."""
    if args.dxf == R12 and "dxf" in declare.words(args.format):
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
    shop, only = _shop(args, options), declare.words(args.only)
    return selection.chosen(
        p, only, more_templates(shop, args.own), shop_absent(shop, args.shop) if only else {}
    )


def _checked(args: argparse.Namespace, options: OutputOptions, p: Pattern) -> Report:
    return judged(p, _shop(args, options), options.paper)


def _shop(args: argparse.Namespace, options: OutputOptions) -> Shop | None:
    """The maker's own shop, if its file is named."""
    return None if args.shop is None else options.shop


def _next(
    args: argparse.Namespace,
    targets: Sequence[FilePath],
    written: Sequence[FilePath],
    *,
    forced: bool,
) -> list[str]:
    """Say what to do with what was drawn."""
    pages = " and ".join(str(t / NAME) for t in targets)
    if forced:
        return [
            wrapped(
                "next: ", f"open {pages} to see what fails and where; do not cut from these sheets"
            )
        ]
    formats = {*declare.words(args.format)}
    solids = [str(f) for f in written if f.suffix == f".{refuse.STEP}"]
    if solids:
        more = f" and {len(solids) - 1} more" if len(solids) > 1 else ""
        solids = [wrapped("next: ", f"open {solids[0]}{more} in your CAD program; the unit is mm")]
        if formats == {refuse.STEP}:
            return solids
    opened = [*solids, wrapped("next: ", f"open {pages}")]
    if formats & {"pdf", "svg"}:
        return [*opened, "print at 100 %, measure the 50 mm square, then cut"]
    if "dxf" in formats:
        return [*opened, "measure the 50 mm square in your program, then cut"]
    return opened


def _warnings(p: Pattern, checked: Sequence[Checked]) -> list[str]:
    """Name the warnings that fail; they stop nothing, but are not passed over."""
    failing = [c.result for c in checked if c.result.verdict == "fail" and not c.result.stops]
    names = ", ".join(r.rule.id for r in failing)
    description = f"{names}; `templates-gen check {p.identity.file}` says why and what cures it"
    return [wrapped("warning: ", description)] if failing else []


def _left_over(target: FilePath, p: Pattern, files: Iterable[str]) -> list[str]:
    """Name the files in the folder from other draws; none is removed."""
    stem = rendering.stem(p)
    kinds = (
        (
            earlier_files(target, stem, files),
            f"from an earlier draw; print only what {NAME} links to",
        ),
        (other_patterns(target, stem), f"of another pattern; {NAME} now shows {p.identity.name}"),
    )
    notes = []
    for left, description in kinds:
        if left:
            more = f" and {len(left) - 1} more" if len(left) > 1 else ""
            notes.append(wrapped("note: ", f"{left[0]}{more} in {target}: {description}"))
    return notes


def _targets(args: argparse.Namespace, patterns: Sequence[Pattern]) -> list[FilePath]:
    """The folder of each pattern."""
    out = FilePath(args.output)
    return [out] if len(patterns) == 1 else [out / rendering.stem(p) for p in patterns]


def _rendered(
    args: argparse.Namespace,
    options: OutputOptions,
    report: Report,
    *,
    page_only: bool = False,
    not_drawn: dict[str, str] | None = None,
) -> dict[str, bytes]:
    """Make the files of a set.

    Args:
        args, options: the call.
        report: the pattern and its checks.
        page_only: make only the page, without solids.
        not_drawn: where a check fails, takes the names of what cannot be made, and why.
    """
    p = report.pattern
    drawn: Sequence[Template] = _chosen(args, options, p)
    if options.kerf:
        from templates_gen.bench.routing.templates import for_laser

        drawn = for_laser(p, drawn, options.kerf)
    formats, plane = ((), True) if page_only else (declare.words(args.format), args.plane)
    files = rendering.render(
        report,
        formats=formats,
        options=options,
        plane=plane,
        templates=drawn,
        not_drawn=not_drawn,
    )
    refuse.csv_without_table(p, drawn, formats, files)
    return files


def _watch(
    args: argparse.Namespace,
    options: OutputOptions,
    patterns: Sequence[Pattern],
    checked: Sequence[Report],
) -> int:
    """Draw, and redraw whenever a file is saved, until the maker stops it."""
    from templates_gen.command.watch import Watched, follow

    def judge(p: Pattern) -> Report:
        return _checked(args, options, p)

    def render(report: Report, page_only: bool) -> dict[str, bytes]:
        with busy(f"drawing {report.pattern.identity.name}"):
            return _rendered(args, options, report, page_only=page_only)

    rows = zip(args.files, _targets(args, patterns), checked, strict=True)
    watched = [Watched(file, target, judge, render, args.force, c) for file, target, c in rows]
    with suppress(KeyboardInterrupt), closing(follow(watched, time.sleep)) as lines:
        for line in lines:
            print(line, flush=True)
    return 0


def _print_failing(
    files: Sequence[str], patterns: Sequence[Pattern], checked: Sequence[Report]
) -> None:
    """Print the failed error-checks on the error stream."""
    for file, p, report in zip(files, patterns, checked, strict=True):
        if not report.ok:
            print(f"{file}: {p.identity.name}", file=sys.stderr)
            print(table(report.failing, colour=coloured(sys.stderr)), file=sys.stderr)
