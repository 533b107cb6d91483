"""``check``: judge every clearance."""

from __future__ import annotations

import argparse
import sys

from templates_gen.command import arguments as declare
from templates_gen.command.inputs import geometry_errors_as_input, judged, read_all
from templates_gen.command.progress import busy
from templates_gen.command.text import coloured, document, summary, table
from templates_gen.errors import Fault, InputError
from templates_gen.parameters import wrapped
from templates_gen.pipeline import judging
from templates_gen.pipeline.judging import Checked

EXAMPLES = """\
  templates-gen check mine.toml
  templates-gen check mine.toml yours.toml --brief
  templates-gen check mine.toml --solid --shop shop.toml
"""
MOVING = "`templates-gen scale FILE --set …` changes a number and what depends on it"


def arguments(verb: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    declare.file(verb, many=True)
    declare.json(verb)
    verb.add_argument("--solid", action="store_true", help="build the solids and measure them too")
    verb.add_argument("--brief", action="store_true", help="list only the checks that fail")
    declare.shop(verb, "judge your tools too, as stated in shop.toml")
    declare.paper(verb, "the paper router templates are printed on")


def run(args: argparse.Namespace) -> int:
    """Judge all files before printing any result."""
    if args.json and len(args.files) > 1:
        fault = Fault("--json", None, "", "takes one file", "call it once for each file")
        raise InputError([fault])
    patterns, shop = read_all(args.files, args.shop)
    status, colour = 0, coloured(sys.stdout)
    lines: list[str] = []
    for file, p in zip(args.files, patterns, strict=True):
        with busy(f"checking {p.identity.name}"):
            checked: list[Checked] = [*judged(p, shop, args.paper)]
        if args.solid:
            from templates_gen.pipeline import rendering

            with geometry_errors_as_input(p, checked), busy(f"putting {p.identity.name} together"):
                checked += rendering.confirmed(p, rendering.witnesses(p, together=True))
        ok = not judging.stops(checked)
        status = max(status, 0 if ok else 1)
        if args.json:
            checks = [judging.check_json(c) for c in checked]
            lines.append(document({"file": file, "ok": ok, "checks": checks}))
            continue
        lines.append(f"{file}: {p.identity.name}, {p.family.instrument}")
        lines += filter(None, [table(checked, brief=args.brief, colour=colour)])
        if any(c.result.verdict == "fail" for c in checked):
            lines.append(f"  {MOVING}")
        lines += [wrapped("  note: ", warning, 6) for warning in p.warnings]
        lines += summary(checked, colour)
    print("\n".join(lines))
    return status
