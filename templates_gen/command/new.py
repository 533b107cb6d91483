"""``new``: write a starter file."""

from __future__ import annotations

import argparse
from pathlib import Path as FilePath

from templates_gen import registry
from templates_gen.command import arguments as declare
from templates_gen.errors import EnvironmentFault, Fault, InputError
from templates_gen.parameters import wrapped

EXAMPLES = """\
  templates-gen new bass-french -o mine.toml
  templates-gen new violin -o dunlin.toml --name Dunlin
  templates-gen new shop -o shop.toml
"""


def arguments(verb: argparse.ArgumentParser) -> None:
    """Declare the arguments."""
    verb.add_argument("family", help="violin, viola, cello, bass-french, bass-german; or shop")
    declare.output(verb, "FILE", "the file to write")
    verb.add_argument("--name", help="the pattern's name; if left out, the file's name")


def run(args: argparse.Namespace) -> int:
    """Refuse to overwrite an existing file."""
    from templates_gen.parameters.starter import name_from_stem, starter
    from templates_gen.shop.starter import STARTER

    shop = args.family == "shop"
    target = FilePath(args.output)
    name = args.name or name_from_stem(target.stem)
    text = STARTER if shop else starter(args.family, registry.SCHEMA, name)
    try:
        with target.open("x", encoding="utf-8") as out:
            out.write(text)
    except FileExistsError:
        fault = Fault(args.output, None, "", "already there", "name another file with -o")
        raise InputError([fault]) from None
    except FileNotFoundError:
        problem = f"cannot be written: there is no folder {target.parent}"
        fault = Fault(args.output, None, "", problem, "make the folder first, or name another")
        raise InputError([fault]) from None
    except OSError as e:
        raise EnvironmentFault(f"{args.output}: cannot be written ({e.strerror})") from e
    then = f"templates-gen check {args.output}"
    if shop:
        then = "state your own kerf and cutters in it, then templates-gen draw FILE -o DIR"
        then += f" --shop {args.output}"
    print(wrapped(f"wrote {args.output}; next: ", then))
    return 0
