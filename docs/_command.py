"""The reference page of the command, from its own arguments."""

from __future__ import annotations

import argparse

from _text import code, sentence, table

from templates_gen import cli, command

EXITS = (
    (cli.OK, "No check fails, warnings aside, or the call had none to judge."),
    (
        cli.FAILED,
        "A check fails. `draw` has written nothing, unless called with `--force`. For "
        "`weigh`: the target is not reached, or only by a bow that fails a check.",
    ),
    (cli.INPUT, "The input is wrong, or the machine: the message names the place and the cure."),
    (cli.BUG, "A bug in templates-gen. The message is one line, and says how to report it."),
    (cli.STOPPED, "You stopped it."),
)
ENVIRONMENT = (
    ("NO_COLOR", "If set and not empty, nothing is printed in colour."),
    ("XDG_CACHE_HOME", "The folder for what was measured on the solids; else `~/.cache`."),
    ("TEMPLATES_GEN_TRACEBACK", "If set, a bug shows where in the code it happened."),
)
#: For arguments whose help would say nothing on the screen.
_WORDS = {
    "family": "a family",
}


def page() -> str:
    """Write the page: every verb with its arguments, the exit statuses, the environment."""
    parser = cli.parser(*command.VERBS)
    lines = ["# The command", "", sentence(parser.description or "")]
    lines += ["", "    templates-gen VERB …", "", "`templates-gen --help` fits one screen; "]
    lines[-1] += "`templates-gen VERB --help` shows a verb's arguments, with examples."
    for name, verb, description in _verbs(parser):
        lines += ["", f"## {name}", ""]
        module = command.module(name)
        first = (module.run.__doc__ or "").strip().splitlines()[0]
        lines.append(f"{sentence(description)} {sentence(first)}")
        lines += ["", f"    templates-gen {name} {_usage(verb)}"]
        rows = [_row(a) for a in _arguments(verb)]
        lines += ["", table(("Argument", "What it is", "If you leave it out"), rows)]
        calls = [line for line in module.EXAMPLES.splitlines() if line.startswith("  ")]
        lines += ["", "Examples:", "", *(f"  {line}" for line in calls)]
    lines += ["", "## Exit", "", table(("Status", "Means"), ((str(n), s) for n, s in EXITS))]
    lines += ["", "On 2 and 3 nothing is printed on standard output. A failed warning never"]
    lines += ["changes the status.", "", "## Environment", ""]
    lines += [table(("Variable", "What it does"), ((code(n), s) for n, s in ENVIRONMENT))]
    return "\n".join(lines)


def _verbs(parser: argparse.ArgumentParser) -> list[tuple[str, argparse.ArgumentParser, str]]:
    # Read from the parser and not from its printed help, which other Pythons lay out otherwise.
    (group,) = (a for a in parser._actions if isinstance(a, argparse._SubParsersAction))
    said = {a.dest: a.help or "" for a in group._choices_actions}
    return [(name, verb, said[name]) for name, verb in group.choices.items()]


def _arguments(verb: argparse.ArgumentParser) -> list[argparse.Action]:
    return [a for a in verb._actions if not isinstance(a, argparse._HelpAction)]


def _value(a: argparse.Action) -> str:
    """The word for the argument's value; empty for a switch."""
    if a.nargs == 0:
        return ""
    word = a.metavar if isinstance(a.metavar, str) else a.dest.upper()
    return f"{word}…" if a.nargs in ("+", "*") else word


def _usage(verb: argparse.ArgumentParser) -> str:
    words = []
    for a in _arguments(verb):
        word = f"{a.option_strings[0]} {_value(a)}".strip() if a.option_strings else _value(a)
        needed = a.required if a.option_strings else a.nargs not in ("?", "*")
        words.append(word if needed else f"[{word}]")
    return " ".join(words)


def _row(a: argparse.Action) -> list[str]:
    names = ", ".join(code(o) for o in a.option_strings) or code(_value(a))
    if a.option_strings and _value(a):
        names += f" {_value(a)}"
    description = a.help or _WORDS.get(a.dest, "")
    if a.choices:
        description += "; one of " + ", ".join(code(str(c)) for c in a.choices)
    needed = a.required if a.option_strings else a.nargs not in ("?", "*")
    without = "required" if needed else "no" if a.nargs == 0 else code(str(a.default or ""))
    return [names, description, without]
