"""The command: read the arguments, run a verb, end with its exit status."""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Sequence
from io import TextIOWrapper
from typing import Any, NoReturn

from templates_gen import command
from templates_gen.command.arguments import Formatter, Parser
from templates_gen.errors import EnvironmentFault, InputError, TemplatesGenError
from templates_gen.version import VERSION

OK, FAILED, INPUT, BUG = 0, 1, 2, 3
#: What a shell expects of a command that was interrupted.
STOPPED = 130
SHELLS = ("bash", "zsh", "tcsh")
_EXAMPLES = """\
examples: templates-gen new violin -o mine.toml
          templates-gen draw mine.toml -o out
"""
_EXITS = "exit 0: no check fails, warnings aside; 1: one fails; 2: wrong input; 3: a bug"


def run() -> NoReturn:
    """Run the command and end the process with its exit status."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            # A character the terminal lacks is no reason to stop.
            stream.reconfigure(errors="replace")
    # Matrices here are small: on busy cores threads only wait for each other, a second or two.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    # A call builds much and frees it at its end: collecting garbage meanwhile wastes time.
    gc.set_threshold(200_000, 50, 50)
    status = main(sys.argv[1:])
    sys.stderr.flush()
    if "cadquery" in sys.modules:
        # Taking the modeller apart at exit takes longer than a sheet; nothing is left to save.
        os._exit(status)
    sys.exit(status)


def main(argv: Sequence[str]) -> int:
    """Run one call of the command.

    Args:
        argv: the arguments behind the command's name.

    Returns:
        the exit status.
    """
    _silence_libraries()
    try:
        args = _arguments(argv)
        status: int = command.module(args.verb).run(args)
        print(end="", flush=True)  # while a failure to write can still be reported
        return status
    except (InputError, EnvironmentFault) as e:
        from templates_gen.command.text import coloured, messages

        print(messages(str(e), coloured(sys.stderr)), file=sys.stderr)
        return INPUT
    except BrokenPipeError:
        # The reader has seen enough; what Python still buffers must go nowhere.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return OK
    except OSError as e:
        print(f"templates-gen: {e.filename or 'standard output'}: {e.strerror}", file=sys.stderr)
        return INPUT
    except KeyboardInterrupt:
        print("templates-gen: stopped", file=sys.stderr)
        return STOPPED
    except (TemplatesGenError, Exception) as e:
        if os.environ.get("TEMPLATES_GEN_TRACEBACK"):
            raise
        message = " ".join(str(e).split())
        print(
            f"templates-gen: bug in templates-gen: {type(e).__name__}: {message}; please report "
            "this line with your parameter file (TEMPLATES_GEN_TRACEBACK=1 shows more)",
            file=sys.stderr,
        )
        return BUG


def parser(*verbs: str) -> argparse.ArgumentParser:
    """Build the parser of the command.

    Args:
        verbs: those whose arguments are declared too; of the others only the line of help.
    """
    top = Parser(
        prog="templates-gen",
        usage="templates-gen VERB …",
        description="Templates for a bow, at true size, checked before you cut.",
        epilog=_EXAMPLES + _EXITS,
        formatter_class=Formatter,
        add_help=False,
    )
    top.add_argument("-h", "--help", action="help", help=argparse.SUPPRESS)
    top.add_argument("--version", action="version", version=f"templates-gen {VERSION}")
    top.add_argument(
        "--print-completion",
        action=_Completion,
        choices=SHELLS,
        metavar="SHELL",
        help=f"print completion for {', '.join(SHELLS)}",
    )
    group = top.add_subparsers(dest="verb", required=True, title="verbs", metavar="VERB")
    for name, description in command.VERBS.items():
        module = command.module(name) if name in verbs else None
        verb = group.add_parser(
            name,
            help=description,
            description=f"{description[0].upper()}{description[1:]}.",
            epilog=f"examples:\n{module.EXAMPLES}" if module else None,
            formatter_class=Formatter,
            prog=f"templates-gen {name}",
        )
        if module:
            module.arguments(verb)
    return top


def _arguments(argv: Sequence[str]) -> argparse.Namespace:
    """Parse a call; only the verb it names is imported."""
    verb = next(iter(argv), "")
    if verb and not verb.startswith("-") and verb not in command.VERBS:
        from templates_gen.parameters.words import nearest, wrapped

        like = nearest(verb, command.VERBS)
        cure = f"did you mean {like}?" if like else f"the verbs are {', '.join(command.VERBS)}"
        print(wrapped("", f'templates-gen: no verb "{ascii(verb)[1:-1]}"; {cure}'), file=sys.stderr)
        sys.exit(INPUT)
    return parser(verb).parse_args(argv)


class _Completion(argparse.Action):
    """Print what a shell needs to complete the command, and end."""

    def __call__(self, parser_: Any, args: Any, values: Any, option: Any = None) -> NoReturn:
        import shtab

        whole = parser(*command.VERBS)
        (group,) = (a for a in whole._actions if isinstance(a, argparse._SubParsersAction))
        for verb in group.choices.values():
            for action in verb._actions:
                kind = {"FILE": shtab.FILE, "DIR": shtab.DIRECTORY}.get(str(action.metavar))
                if kind:
                    action.complete = kind
        print(shtab.complete(whole, values))
        whole.exit(OK)


def _silence_libraries() -> None:
    """Keep the log lines of libraries off the screen."""
    import logging

    log = logging.getLogger()
    if not log.handlers:
        log.addHandler(logging.NullHandler())
