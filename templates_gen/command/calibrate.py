"""``calibrate``: measure the printer's error, and store it."""

from __future__ import annotations

import argparse

from templates_gen.command import arguments as declare

EXAMPLES = """\
  templates-gen calibrate -o test
  templates-gen calibrate --measured 149.2 199.5 --shop shop.toml
"""


def arguments(verb: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    verb.add_argument(
        "-o", "--output", type=declare.path, metavar="DIR", help="the folder for the page"
    )
    declare.paper(verb, "the paper in the printer")
    for name, letters, description in (
        ("--measured", ("X", "Y"), "the printed rectangle, nominally 150 and 200 mm"),
        ("--diagonals", ("D1", "D2"), "its printed diagonals, nominally 250 mm each"),
    ):
        verb.add_argument(name, nargs=2, type=declare.number, metavar=letters, help=description)
    declare.shop(verb, "the shop file that stores the factors")


def run(args: argparse.Namespace) -> int:
    """Calculate the error from the lengths measured on the printed page."""
    from templates_gen.bench.calibrate.call import call

    print(*call(args.output, args.paper, args.measured, args.diagonals, args.shop), sep="\n")
    return 0
