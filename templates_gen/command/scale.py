"""``scale``: scale a pattern to another family, or change a value and what depends on it."""

from __future__ import annotations

import argparse
import sys

from templates_gen.command import arguments as declare
from templates_gen.command.inputs import rewritten
from templates_gen.command.progress import busy
from templates_gen.command.text import coloured, document, summary, table
from templates_gen.errors import Fault, InputError
from templates_gen.pipeline import judging

EXAMPLES = """\
  templates-gen scale bass.toml --to cello -o cello.toml
  templates-gen scale mine.toml --set ferrule.outer_width=23 -o wider.toml
"""


def arguments(verb: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    declare.file(verb)
    verb.add_argument("--to", metavar="FAMILY", help="the family to scale it to")
    verb.add_argument(
        "--set",
        action="append",
        default=[],
        metavar="KEY=VALUE",
        help="a value to set; repeat for more",
    )
    declare.output(verb, "FILE", "the file to write")
    verb.add_argument("--name", help="the new pattern's name")
    declare.json(verb)


def run(args: argparse.Namespace) -> int:
    """Print what changed, what did not, and why."""
    from templates_gen.bench.scale import file as scale_file
    from templates_gen.bench.scale import table as scale_table
    from templates_gen.bench.scale.scaling import scale as scaled_to
    from templates_gen.bench.scale.stated import parsed

    if args.to is None and not args.set:
        cure = "state --to FAMILY or --set KEY=VALUE"
        raise InputError([Fault("scale", None, "", "nothing to scale to", cure)])
    p = judging.read(args.file)
    with busy(f"scaling {p.identity.name}"):
        scaled = scaled_to(p, args.to, parsed(args.set), args.name)
    scale_file.write(scaled, args.output)
    made = judging.read(args.output)
    if args.json:
        print(document({"file": args.file, "output": args.output, **scale_table.as_data(scaled)}))
    else:
        notes = scale_table.unlisted_warnings(scaled, made.warnings)
        print(rewritten(args, made, scale_table.table(scaled), notes))
        checked, colour = judging.check(made), coloured(sys.stdout)
        lines = [*filter(None, [table(checked, brief=True, colour=colour)])]
        print("\n".join([*lines, *summary(checked, colour)]))
    return 1 if scaled.failing else 0
