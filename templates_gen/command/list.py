"""``list``: list the templates a file gives."""

from __future__ import annotations

import argparse

from templates_gen.command import arguments as declare
from templates_gen.command.inputs import geometry_errors_as_input, more_templates, read_all
from templates_gen.command.text import document
from templates_gen.parameters import wrapped
from templates_gen.pipeline import selection

EXAMPLES = """\
  templates-gen list mine.toml
  templates-gen list mine.toml --shop shop.toml
"""


def arguments(verb: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    declare.file(verb)
    declare.shop(verb, "list the router templates too")
    declare.own_templates(verb)
    declare.json(verb)


def run(args: argparse.Namespace) -> int:
    """Print the size of what is cut, and the purpose of each."""
    from templates_gen.drawing.view import cut_size
    from templates_gen.pipeline.rendering import views

    (p,), shop = read_all([args.file], args.shop)
    rows = []
    for t in selection.chosen(p, (), more_templates(shop, args.own)):
        with geometry_errors_as_input(p):
            wide, high = cut_size(views(p, t))
        rows.append(
            {
                "name": t.name,
                "part": t.part,
                "width_mm": wide,
                "height_mm": high,
                "purpose": t.purpose,
            }
        )
    if args.json:
        print(document({"file": args.file, "templates": rows}))
        return 0
    for row in rows:
        print(f"{row['name']:<24} {row['width_mm']:6.1f} × {row['height_mm']:.1f} mm")
        print(wrapped("    ", str(row["purpose"]), 8))
    return 0
