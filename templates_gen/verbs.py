"""What each verb of the command does and says. Part of ``cli``, which calls it."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path as FilePath

from templates_gen import pipeline, registry
from templates_gen.errors import (
    DrawingError,
    Fault,
    InputError,
    KernelError,
    SurroundingsError,
)
from templates_gen.parameters import Pattern
from templates_gen.pipeline import Checked
from templates_gen.printing import Press
from templates_gen.shop.read import read as read_shop
from templates_gen.shop.read import usual
from templates_gen.telling import table, wrapped
from templates_gen.writers import FORMATS


def new(args: argparse.Namespace) -> int:
    """Write a starter file; never over one that is there."""
    from templates_gen.parameters.starter import starter

    text = starter(args.family, registry.SCHEMA, args.name)
    target = FilePath(args.output)
    try:
        with target.open("x", encoding="utf-8") as out:
            out.write(text)
    except FileExistsError:
        fault = Fault(args.output, None, "", "already there", "name another file with -o")
        raise InputError([fault]) from None
    except OSError as e:
        raise SurroundingsError(f"{args.output}: cannot be written ({e.strerror})") from e
    print(f"wrote {args.output}; next: templates-gen check {args.output}")
    return 0


def check(args: argparse.Namespace) -> int:
    """Judge every file; nothing is told before all are judged."""
    if args.json and len(args.files) > 1:
        fault = Fault("--json", None, "", "takes one file", "call it once for each file")
        raise InputError([fault])
    patterns = _read(args.files)
    status, told = 0, []
    for file, p in zip(args.files, patterns, strict=True):
        checked = pipeline.check(p)
        if args.solid:
            with _constructing(p, checked):
                checked += pipeline.confirmed(p, pipeline.witnesses(p, together=True))
        ok = not pipeline.stops(checked)
        status = max(status, 0 if ok else 1)
        if args.json:
            checks = [pipeline.check_json(c) for c in checked]
            told.append(json.dumps({"file": file, "ok": ok, "checks": checks}, indent=1))
            continue
        told += [
            f"{file}: {p.identity.name}, {p.family.instrument}",
            table(checked, brief=args.brief),
        ]
        told += [wrapped("note: ", warning, 2) for warning in p.warnings]
        told.append(f"  {pipeline.verdict(checked)}")
    print("\n".join(told))
    return status


def _read(files: Sequence[str]) -> list[Pattern]:
    """The pattern of every file.

    Raises:
        InputError: everything wrong with any of them, at once.
    """
    patterns: list[Pattern] = []
    faults: list[Fault] = []
    for file in files:
        try:
            patterns.append(pipeline.read(file))
        except InputError as e:
            faults += e.faults
    if faults:
        raise InputError(faults)
    return patterns


@contextmanager
def _constructing(p: Pattern, checked: Sequence[Checked] | None = None) -> Iterator[None]:
    """Trouble on the way to a shape is the numbers' fault where a check fails, else ours.

    Args:
        p: the pattern the shape is of.
        checked: its checks, where they are known already.

    Raises:
        InputError: the numbers are at odds.
    """
    try:
        yield
    except (KernelError, DrawingError, ArithmeticError, ValueError) as e:
        if not pipeline.stops(pipeline.check(p) if checked is None else checked):
            raise
        file = p.identity.file
        problem = f"its numbers make no shape: {' '.join(str(e).split())}"
        cure = f"cure what fails in `templates-gen check {file}`"
        raise InputError([Fault(file, None, "", problem, cure)]) from e


def list_templates(args: argparse.Namespace) -> int:
    """Name the templates, with the size of what is cut."""
    p = pipeline.read(args.file)
    rows = []
    for t in pipeline.templates(p):
        with _constructing(p):
            boxes = [v.cut_box for v in pipeline.views(p, t)]
        rows.append(
            {
                "name": t.name,
                "part": t.part,
                "width_mm": max(b[2] - b[0] for b in boxes),
                "height_mm": max(b[3] - b[1] for b in boxes),
                "purpose": t.purpose,
            }
        )
    if args.json:
        print(json.dumps({"file": args.file, "templates": rows}, indent=1))
        return 0
    for row in rows:
        print(f"{row['name']:<24} {row['width_mm']:6.1f} × {row['height_mm']:.1f} mm")
        print(wrapped("", str(row["purpose"]), 4))
    return 0


def draw(args: argparse.Namespace) -> int:
    """Write the sheets of every file; nothing at all if an error-check fails."""
    from templates_gen.writers.files import write_all

    formats, only = _words(args.format), _words(args.only)
    known = (*FORMATS, pipeline.STEP)
    unknown = [f for f in formats if f not in known]
    if unknown or not formats:
        said = ", ".join(unknown) or "nothing"
        fault = Fault("--format", None, said, "no such format", f"choose from {', '.join(known)}")
        raise InputError([fault])
    if args.plane and pipeline.STEP in formats:
        fault = Fault("--format", None, "step", "needs the solids", "leave out --plane")
        raise InputError([fault])
    press = Press(read_shop(args.shop) if args.shop else usual(), args.paper)
    patterns = _read(args.files)
    for p in patterns:
        pipeline.chosen(p, only)
    _distinct(patterns)
    checked = [pipeline.check(p) for p in patterns]
    failing = [i for i, c in enumerate(checked) if pipeline.stops(c)]
    if failing and not args.force:
        _tell_failing(args.files, patterns, checked)
        print("nothing drawn; cure it, or draw with --force", file=sys.stderr)
        return 1
    made = []
    for p, c in zip(patterns, checked, strict=True):
        with _constructing(p, c):
            made.append(
                pipeline.render(p, c, formats=formats, only=only, press=press, plane=args.plane)
            )
    told = []
    for p, c, files in zip(patterns, checked, made, strict=True):
        out = FilePath(args.output)
        target = out if len(patterns) == 1 else out / pipeline.stem(p)
        write_all(target, files)
        told.append(f"{p.identity.name}: {len(files) - 1} files in {target}; {pipeline.verdict(c)}")
    _tell_failing(args.files, patterns, checked)
    print("\n".join([*told, "print at 100 %, measure the 50 mm square, then cut"]))
    return 1 if failing else 0


def _distinct(patterns: Sequence[Pattern]) -> None:
    """Go on if no two patterns would be drawn into one folder.

    Raises:
        InputError: naming the later one.
    """
    first: dict[str, Pattern] = {}
    for p in patterns:
        other = first.setdefault(pipeline.stem(p), p)
        if other is not p:
            problem = (
                f'"{p.identity.name}" would be drawn over the pattern of {other.identity.file}'
            )
            cure = "give each pattern a name of its own, or draw one at a time"
            raise InputError([Fault(p.identity.file, None, "pattern.name", problem, cure)])


def _tell_failing(
    files: Sequence[str], patterns: Sequence[Pattern], checked: Sequence[list[Checked]]
) -> None:
    """The failed error-checks, on the error stream."""
    for file, p, results in zip(files, patterns, checked, strict=True):
        if pipeline.stops(results):
            print(f"{file}: {p.identity.name}", file=sys.stderr)
            print(table([c for c in results if c.result.stops]), file=sys.stderr)


def scale(args: argparse.Namespace) -> int:
    """Write a pattern for another instrument, or with one value moved and all that follows it."""
    from templates_gen.bench import scale_file, scale_table
    from templates_gen.bench.scale import scale as scaled_to
    from templates_gen.bench.scale_stated import parsed

    if args.to is None and not args.set:
        fault = Fault(
            "scale", None, "", "nothing to scale to", "state --to FAMILY or --set KEY=VALUE"
        )
        raise InputError([fault])
    p = pipeline.read(args.file)
    scaled = scaled_to(p, args.to, parsed(args.set), args.name)
    scale_file.write(scaled, args.output)
    made = pipeline.read(args.output)
    if args.json:
        told = {"file": args.file, "output": args.output, **scale_table.as_data(scaled)}
        print(json.dumps(told, indent=1))
    else:
        print(f"{args.file} → {args.output}: {made.identity.name}, {made.family.instrument}")
        print(scale_table.table(scaled))
        for warning in made.warnings:
            print(wrapped("note: ", warning, 2))
        checked = pipeline.check(made)
        print(
            *filter(None, [table(checked, brief=True)]), f"  {pipeline.verdict(checked)}", sep="\n"
        )
    return 1 if scaled.failing else 0


def calibrate(args: argparse.Namespace) -> int:
    """Write the printer's test page, or store what was measured on it."""
    from templates_gen.bench.calibrate import call

    print(*call(args.output, args.paper, args.measured, args.diagonals, args.shop), sep="\n")
    return 0


def explain(args: argparse.Namespace) -> int:
    """Tell what a parameter or a check is."""
    from templates_gen.parameters.explain import explain as parameter

    for rule in registry.rules():
        if rule.id == args.key:
            print(wrapped(f"{rule.id} ({rule.severity.value}): ", f"{rule.says}.", 0))
            print(wrapped("Basis: ", f"{rule.basis}.", 0))
            return 0
    print(parameter(args.key, registry.SCHEMA))
    if args.key is None:
        print("\nChecks:")
        for rule in registry.rules():
            print(wrapped(f"{rule.id:<24} ", rule.says, 2))
    return 0


VERBS: dict[str, Callable[[argparse.Namespace], int]] = {
    "new": new,
    "check": check,
    "list": list_templates,
    "draw": draw,
    "scale": scale,
    "calibrate": calibrate,
    "explain": explain,
}


def _words(stated: str) -> tuple[str, ...]:
    return tuple(w.strip() for w in stated.split(",") if w.strip())
