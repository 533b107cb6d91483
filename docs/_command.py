"""The reference page of the command, from its own arguments."""

from __future__ import annotations

import argparse

from _text import code, sentence, table

from templates_gen import cli
from templates_gen.command.verbs import VERBS

EXITS = (
    (cli.OK, "No error-check fails, or the call had none to fail."),
    (
        cli.FAILED,
        "An error-check fails. `draw` has written nothing, unless told `--force`. Of `weigh`: "
        "the target is not reached, or only by a bow of which an error-check fails.",
    ),
    (cli.INPUT, "The input is at fault, or the machine: the message names the place and the cure."),
    (cli.OURS, "We are at fault. The message is one line, and says how to report it."),
    (cli.STOPPED, "You stopped it."),
)
SURROUNDINGS = (
    ("XDG_CACHE_HOME", "Where what the solids left behind is kept; else `~/.cache`."),
    ("TEMPLATES_GEN_TRACEBACK", "If set, a fault of ours shows all it knows."),
)
#: Of arguments that explain themselves on the screen.
_WORDS = {
    "file": "a parameter file",
    "files": "one or more parameter files",
    "json": "one document, numbers unrounded",
    "key": "a parameter, a section or a check; without it, all there are",
    "output": "where to write",
}


def page() -> str:
    """Every verb with its arguments, the exit statuses, the surroundings."""
    parser = cli.parser()
    lines = ["# The command", "", sentence(parser.description or "")]
    lines += ["", "    templates-gen VERB …", "", "`templates-gen --help` fits one screen."]
    for name, verb, description in _verbs(parser):
        lines += ["", f"## {name}", "", sentence(description)]
        first = (VERBS[name].__doc__ or "").strip().splitlines()[0]
        if description not in first:
            lines[-1] += f" {sentence(first)}"
        lines += ["", f"    templates-gen {name} {_usage(verb)}"]
        rows = [_row(a) for a in _arguments(verb)]
        lines += ["", table(("Argument", "What it is", "If you leave it out"), rows)]
    lines += ["", "## Exit", "", table(("Status", "Means"), ((str(n), s) for n, s in EXITS))]
    lines += ["", "On 2 and 3 nothing is printed on standard output. A failed warning never"]
    lines += ["changes the status.", "", "## Surroundings", ""]
    lines += [table(("Variable", "What it does"), ((code(n), s) for n, s in SURROUNDINGS))]
    return "\n".join(lines)


def _verbs(parser: argparse.ArgumentParser) -> list[tuple[str, argparse.ArgumentParser, str]]:
    # Read from the parser and not from its printed help, which other Pythons lay out otherwise.
    (group,) = (a for a in parser._actions if isinstance(a, argparse._SubParsersAction))
    said = {a.dest: a.help or "" for a in group._choices_actions}
    return [(name, verb, said[name]) for name, verb in group.choices.items()]


def _arguments(verb: argparse.ArgumentParser) -> list[argparse.Action]:
    return [a for a in verb._actions if not isinstance(a, argparse._HelpAction)]


def _value(a: argparse.Action) -> str:
    """What stands for the argument's value: a word, or nothing for a switch."""
    if a.nargs == 0:
        return ""
    word = a.metavar if isinstance(a.metavar, str) else a.dest.upper()
    return f"{word}…" if a.nargs == "+" else word


def _usage(verb: argparse.ArgumentParser) -> str:
    words = []
    for a in _arguments(verb):
        word = f"{a.option_strings[0]} {_value(a)}".strip() if a.option_strings else _value(a)
        needed = a.required if a.option_strings else a.nargs != "?"
        words.append(word if needed else f"[{word}]")
    return " ".join(words)


def _row(a: argparse.Action) -> list[str]:
    names = ", ".join(code(o) for o in a.option_strings) or code(_value(a))
    if a.option_strings and _value(a):
        names += f" {_value(a)}"
    description = a.help or _WORDS.get(a.dest, "")
    if a.choices:
        description += "; one of " + ", ".join(code(str(c)) for c in a.choices)
    needed = a.required if a.option_strings else a.nargs != "?"
    without = "must be there" if needed else "no" if a.nargs == 0 else code(str(a.default or ""))
    return [names, description, without]
