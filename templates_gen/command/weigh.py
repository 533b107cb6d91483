"""``weigh``: weigh a bow before it is made."""

from __future__ import annotations

import argparse

from templates_gen.command import arguments as declare
from templates_gen.command.inputs import geometry_errors_as_input
from templates_gen.command.progress import busy
from templates_gen.command.text import document
from templates_gen.pipeline import judging

EXAMPLES = """\
  templates-gen weigh mine.toml
  templates-gen weigh mine.toml --target-mass 62
  templates-gen weigh mine.toml --target-balance 190 --move lapping.length

exit 1: the target is not reached, or only by a bow that fails a check
"""


def arguments(verb: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    declare.file(verb)
    for name, letters, description in (
        ("--target-mass", "G", "the mass to reach, 20 to 250"),
        ("--target-balance", "MM", "the balance to reach, from the ferrule, 50 to 350"),
    ):
        verb.add_argument(name, type=declare.number, metavar=letters, help=description)
    verb.add_argument(
        "--move",
        action=declare.CommaList,
        metavar="KEY,…",
        help="the parameters that may change to reach it",
    )
    declare.json(verb)


def run(args: argparse.Namespace) -> int:
    """With a target, print how to reach it."""
    from templates_gen.bench.weigh import table as weigh_table
    from templates_gen.bench.weigh.levers import levers
    from templates_gen.bench.weigh.reach import reach_target
    from templates_gen.bench.weigh.target import parse_target
    from templates_gen.bench.weigh.weighing import weigh as weighed

    target, keys = parse_target(args.target_mass, args.target_balance, args.move)
    p = judging.read(args.file)
    with geometry_errors_as_input(p), busy(f"weighing {p.identity.name}"):
        w = weighed(p)
        found = reach_target(w, target, keys) if target.stated else None
    status = 0 if found is None or (found.met and found.sound) else 1
    if args.json:
        data = {"file": args.file, **weigh_table.as_data(w, levers(w))}
        if found is not None:
            data["target"] = weigh_table.reached_data(found, target)
        print(document(data))
        return status
    print(f"{args.file}: {p.identity.name}, {p.family.instrument}")
    if found is None:
        print(weigh_table.table(w, levers(w)))
    else:
        print(f"  {w.total:.2f} g, balance {w.from_ferrule:.1f} mm ahead of the ferrule in play")
        print(weigh_table.reached(found, target))
    return status
