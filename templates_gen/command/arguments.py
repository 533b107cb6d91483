"""Declare arguments: what several verbs share, and how mistakes in a call are reported."""

from __future__ import annotations

import argparse
import sys
from typing import Any, NoReturn

PAPERS = ("a4", "a3", "letter", "tabloid")


class Formatter(argparse.RawDescriptionHelpFormatter):
    """Lay help out with room for long options, and each verb on a line of its own."""

    def __init__(self, prog: str) -> None:
        super().__init__(prog, max_help_position=28)

    def _format_action(self, action: argparse.Action) -> str:
        if not isinstance(action, argparse._SubParsersAction):
            return super()._format_action(action)
        return "".join(f"  {a.dest:<10} {a.help}\n" for a in action._choices_actions)


class Parser(argparse.ArgumentParser):
    """Report a mistake in a call on lines of at most 80 columns; a missing ``-o`` in one line."""

    def error(self, message: str) -> NoReturn:
        missing = next((a for a in self._actions if a.dest == "output"), None)
        if missing and message.endswith(f"required: {'/'.join(missing.option_strings)}"):
            self.exit(2, f"{self.prog}: no place to write to; add `-o {missing.metavar}`\n")
        from templates_gen.parameters.words import wrapped

        self.print_usage(sys.stderr)
        self.exit(2, wrapped(f"{self.prog}: error: ", message) + "\n")


class CommaList(argparse.Action):
    """Collect a list separated by commas; an option that is repeated adds to it."""

    def __call__(self, parser: Any, args: Any, values: Any, option: Any = None) -> None:
        begun = getattr(args, f"{self.dest}_begun", "")
        setattr(args, self.dest, f"{begun},{values}" if begun else values)
        setattr(args, f"{self.dest}_begun", getattr(args, self.dest))


def words(listed: str) -> tuple[str, ...]:
    """Split a list separated by commas."""
    return tuple(w.strip() for w in listed.split(",") if w.strip())


def number(text: str) -> float:
    """Read a number as a file states it, with a decimal point."""
    try:
        return float(text)
    except ValueError:
        cure = f"; write {text.replace(',', '.', 1)}" if text.count(",") == 1 else ""
        raise argparse.ArgumentTypeError(f'"{text}" is not a number{cure}') from None


def path(text: str) -> str:
    """Read the name of a file or folder; an empty one would mean the present folder."""
    if not text.strip():
        raise argparse.ArgumentTypeError("the name is empty; name a file or a folder")
    return text


def file(verb: argparse.ArgumentParser, *, many: bool = False) -> None:
    """Declare the parameter file, or several."""
    if many:
        verb.add_argument("files", nargs="+", metavar="FILE", help="parameter files (TOML)")
    else:
        verb.add_argument("file", metavar="FILE", help="a parameter file (TOML)")


def output(verb: argparse.ArgumentParser, metavar: str, description: str) -> None:
    """Declare ``-o``, where a verb writes to."""
    verb.add_argument("-o", "--output", required=True, type=path, metavar=metavar, help=description)


def json(verb: argparse.ArgumentParser) -> None:
    """Declare ``--json``."""
    verb.add_argument("--json", action="store_true", help="one JSON document, numbers unrounded")


def paper(verb: argparse.ArgumentParser, description: str) -> None:
    """Declare ``--paper``."""
    verb.add_argument("--paper", default="a4", type=str.lower, choices=PAPERS, help=description)


def shop(verb: argparse.ArgumentParser, description: str) -> None:
    """Declare ``--shop``."""
    verb.add_argument("--shop", metavar="FILE", help=description)


def own_templates(verb: argparse.ArgumentParser) -> None:
    """Declare ``--with``."""
    description = "add the templates of a folder of your own (Python files)"
    verb.add_argument("--with", dest="own", type=path, metavar="FOLDER", help=description)
