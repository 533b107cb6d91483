"""What each verb of the command does and says. Part of ``cli``, which calls it."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable
from pathlib import Path as FilePath

from templates_gen import pipeline, registry, tolerances
from templates_gen.errors import Fault, InputError, SurroundingsError
from templates_gen.pipeline import Checked

_MARK = {"holds": "holds", "tight": "TIGHT", "fails": "FAILS"}


def new(args: argparse.Namespace) -> int:
    """Write a starter file; never over one that is there."""
    from templates_gen.parameters.starter import starter

    text = starter(args.family, registry.SCHEMA)
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
    """Judge every file; all are read before any is told."""
    if args.json and len(args.files) > 1:
        fault = Fault("--json", None, "", "takes one file", "call it once for each file")
        raise InputError([fault])
    patterns = [pipeline.read(f) for f in args.files]
    status = 0
    for file, p in zip(args.files, patterns, strict=True):
        checked = pipeline.check(p)
        solids = pipeline.witnesses(p) if args.solid else {}
        off = [w for w in solids.values() if not w.section_error <= tolerances.SECTION]
        ok = not pipeline.stops(checked) and not off
        status = max(status, 0 if ok else 1)
        if args.json:
            checks = [pipeline.check_json(c) for c in checked]
            print(json.dumps({"file": file, "ok": ok, "checks": checks}, indent=1))
            continue
        print(f"{file}: {p.identity.name}, {p.family.instrument}")
        print(table(checked))
        for w in solids.values():
            print(f"  solid {w.part}: {w.volume:.3f} mm³, sections off {w.section_error:.1e} mm")
        for warning in p.warnings:
            print(f"  note: {warning}")
        print(f"  {pipeline.verdict(checked)}")
    return status


def table(checked: list[Checked]) -> str:
    """The checks as lines of at most 80 columns, cures under what fails."""
    lines = []
    for c in checked:
        r = c.result
        lines.append(
            f"  {_MARK[r.verdict]}  {r.rule.id:<24} {r.measured:8.3f} {r.sense} "
            f"{r.limit:7.3f} {r.rule.unit:<3} spare {r.margin:+7.3f}"
        )
        if r.verdict == "fails":
            lines.append(f"         should be so that {r.rule.says}")
            cure = c.cure.says if c.cure else "no single number cures this"
            lines.append(f"         cure: {cure}")
    return "\n".join(lines)


def list_templates(args: argparse.Namespace) -> int:
    """Name the templates, with the size of what is cut."""
    p = pipeline.read(args.file)
    rows = []
    for t in registry.templates():
        boxes = [v.box for v in t.views(p)]
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
        print(f"    {row['purpose']}")
    return 0


def draw(args: argparse.Namespace) -> int:
    """Write the sheets of every file; nothing at all if an error-check fails."""
    formats, only = _words(args.format), _words(args.only)
    unknown = [f for f in formats if f not in ("dxf", "svg", "pdf")]
    if unknown or not formats:
        said = ", ".join(unknown) or "nothing"
        fault = Fault("--format", None, said, "no such format", "choose from dxf, svg, pdf")
        raise InputError([fault])
    pipeline.chosen(only)
    patterns = [pipeline.read(f) for f in args.files]
    checked = [pipeline.check(p) for p in patterns]
    failing = [i for i, c in enumerate(checked) if pipeline.stops(c)]
    for i in failing:
        print(f"{args.files[i]}: {patterns[i].identity.name}", file=sys.stderr)
        print(table([c for c in checked[i] if c.result.stops]), file=sys.stderr)
    if failing and not args.force:
        print("nothing drawn; cure it, or draw with --force", file=sys.stderr)
        return 1
    for p, c in zip(patterns, checked, strict=True):
        out = FilePath(args.output)
        target = out if len(patterns) == 1 else out / pipeline.stem(p)
        written = pipeline.draw(
            p, c, target, formats=formats, only=only, paper=args.paper, plane=args.plane
        )
        print(f"{p.identity.name}: {len(written) - 1} files in {target}; {pipeline.verdict(c)}")
    print("print at 100 %, measure the 50 mm square, then cut")
    return 1 if failing else 0


def explain(args: argparse.Namespace) -> int:
    """Tell what a parameter or a check is."""
    from templates_gen.parameters.explain import explain as parameter

    for rule in registry.rules():
        if rule.id == args.key:
            print(f"{rule.id} ({rule.severity.value}): {rule.says}.\nBasis: {rule.basis}.")
            return 0
    print(parameter(args.key, registry.SCHEMA))
    if args.key is None:
        print("\nChecks:")
        for rule in registry.rules():
            print(f"  {rule.id:<24} {rule.says}")
    return 0


VERBS: dict[str, Callable[[argparse.Namespace], int]] = {
    "new": new,
    "check": check,
    "list": list_templates,
    "draw": draw,
    "explain": explain,
}


def _words(stated: str) -> tuple[str, ...]:
    return tuple(w.strip() for w in stated.split(",") if w.strip())
