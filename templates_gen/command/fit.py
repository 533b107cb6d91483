"""``fit``: fit a pattern to the stick in hand."""

from __future__ import annotations

import argparse

from templates_gen.command import arguments as declare
from templates_gen.command.inputs import rewritten
from templates_gen.command.progress import busy
from templates_gen.command.text import document
from templates_gen.pipeline import judging

EXAMPLES = """\
  templates-gen fit mine.toml --stick measured.toml -o fitted.toml
  templates-gen fit mine.toml --stick measured.toml --keep mass -o fitted.toml
"""
KEEP = ("stiffness", "mass", "between")


def arguments(verb: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    declare.file(verb)
    verb.add_argument(
        "--stick", required=True, metavar="FILE", help="what you measured on the stick (TOML)"
    )
    verb.add_argument(
        "--keep", default="stiffness", choices=KEEP, help="what to keep as the file has it"
    )
    declare.output(verb, "FILE", "the file to write")
    declare.json(verb)


def run(args: argparse.Namespace) -> int:
    """Print how much to take off at each station."""
    from templates_gen.bench.fit import adapt as fitting
    from templates_gen.bench.fit import table as fit_table
    from templates_gen.bench.scale import table as scale_table

    p = judging.read(args.file)
    with busy(f"fitting {p.identity.name}"):
        fitted = fitting.fit(p, args.stick, fitting.Keep(args.keep))
    fitting.write(fitted, args.output)
    made = judging.read(args.output)
    if args.json:
        print(document({"file": args.file, "output": args.output, **fit_table.as_data(fitted)}))
    else:
        notes = scale_table.unlisted_warnings(fitted.scaled, made.warnings)
        print(rewritten(args, made, fit_table.table(fitted), notes))
    return 0 if fitted.sound else 1
