"""The command: arguments in, words out. The only module that prints."""

from __future__ import annotations

import argparse
import gc
import os
import sys
from collections.abc import Sequence
from io import TextIOWrapper
from typing import Any, NoReturn

from templates_gen.errors import EnvironmentFault, InputError, TemplatesGenError
from templates_gen.version import VERSION

OK, FAILED, INPUT, OURS = 0, 1, 2, 3
#: What a shell expects of a command the maker has stopped.
STOPPED = 130
PAPERS = ("a4", "a3", "letter", "tabloid")
KEEP = ("stiffness", "mass", "between")
DXF = ("arcs", "flattened", "r12")


def run() -> NoReturn:
    """Run the command and end the process with its exit status."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            # A sign the screen does not know is no reason to stop.
            stream.reconfigure(errors="replace")
    # Matrices here are small: on busy cores threads only wait for each other, a second or two.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    # One call makes much and frees it at its end: looking for garbage meanwhile is time lost.
    gc.set_threshold(200_000, 50, 50)
    status = main(sys.argv[1:])
    sys.stderr.flush()
    if "cadquery" in sys.modules:
        # Taking the modeller apart at exit takes longer than a sheet; nothing is left to save.
        os._exit(status)
    sys.exit(status)


def main(argv: Sequence[str]) -> int:
    """One call of the command.

    Args:
        argv: the arguments after the command's name.
    """
    args = parser().parse_args(argv)
    from templates_gen.command.verbs import VERBS

    try:
        status = VERBS[args.verb](args)
        print(end="", flush=True)  # while what goes wrong with it can still be told
        return status
    except (InputError, EnvironmentFault) as e:
        print(_wrapped(str(e)), file=sys.stderr)
        return INPUT
    except BrokenPipeError:
        # Whoever read has seen enough; what Python still holds back must go nowhere.
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
        said = " ".join(str(e).split())
        print(
            f"templates-gen: our fault: {type(e).__name__}: {said}; please report this line "
            "with your parameter file (TEMPLATES_GEN_TRACEBACK=1 shows more)",
            file=sys.stderr,
        )
        return OURS


def _wrapped(messages: str) -> str:
    """Messages, one a line, on lines of at most 80 columns; what goes on stands farther in."""
    import textwrap

    wrap = textwrap.TextWrapper(
        80, subsequent_indent="    ", break_long_words=False, break_on_hyphens=False
    )
    return "\n".join(wrap.fill(message) for message in messages.splitlines())


def _number(text: str) -> float:
    """A number as it is written in a file, with a point."""
    try:
        return float(text)
    except ValueError:
        cure = f"; write {text.replace(',', '.', 1)}" if text.count(",") == 1 else ""
        raise argparse.ArgumentTypeError(f'"{text}" is not a number{cure}') from None


def _named(text: str) -> str:
    """A file's or folder's name: an empty one would be the folder one is in."""
    if not text.strip():
        raise argparse.ArgumentTypeError("it names nothing; name a file or a folder")
    return text


def _to(verb: argparse.ArgumentParser, letters: str, description: str) -> None:
    """Where a verb writes to."""
    verb.add_argument(
        "-o", "--output", required=True, type=_named, metavar=letters, help=description
    )


class _List(argparse.Action):
    """A list parted by commas; said again, it goes on."""

    def __call__(self, parser: Any, args: Any, values: Any, option: Any = None) -> None:
        begun = getattr(args, f"{self.dest}_begun", "")
        setattr(args, self.dest, f"{begun},{values}" if begun else values)
        setattr(args, f"{self.dest}_begun", getattr(args, self.dest))


class _Parser(argparse.ArgumentParser):
    """Says in one line where nothing but ``-o`` was forgotten; for the rest, how it is used.

    What it says is as wide as what is said of files.
    """

    def error(self, message: str) -> NoReturn:
        forgotten = next((a for a in self._actions if a.dest == "output"), None)
        if forgotten and message.endswith(f"required: {'/'.join(forgotten.option_strings)}"):
            add = f"`-o {forgotten.metavar}`"
            self.exit(INPUT, f"{self.prog}: where to write is not said; add {add}\n")
        self.print_usage(sys.stderr)
        self.exit(INPUT, _wrapped(f"{self.prog}: error: {message}") + "\n")


def parser() -> argparse.ArgumentParser:
    """The arguments of every verb; the reference page is made from them too."""
    top = _Parser(
        prog="templates-gen",
        description="Templates for a bow, at true size, checked before you cut.",
        epilog="exit 0: no error-check fails; 1: one does; 2: input at fault; 3: our fault",
    )
    top.add_argument("--version", action="version", version=f"templates-gen {VERSION}")
    verbs = top.add_subparsers(dest="verb", required=True, metavar="VERB")
    one, more = "a parameter file (TOML)", "parameter files (TOML)"

    new = verbs.add_parser("new", help="a commented starter file for a family")
    new.add_argument("family", help="violin, viola, cello, bass-french, bass-german; or shop")
    _to(new, "FILE", "the file to write")
    new.add_argument("--name", help="what the pattern is called; else as the file is")

    check = verbs.add_parser("check", help="every clearance: measured, limit, verdict, cure")
    check.add_argument("files", nargs="+", metavar="FILE", help=more)
    check.add_argument("--json", action="store_true", help="one document, numbers unrounded")
    check.add_argument("--solid", action="store_true", help="confirm on the solids too")
    check.add_argument("--brief", action="store_true", help="tell only what fails")
    check.add_argument("--shop", metavar="FILE", help="judge your tools with it, as in shop.toml")
    _paper(check, "routing templates are printed on")

    lister = verbs.add_parser("list", help="the templates a file gives, with sizes")
    lister.add_argument("file", metavar="FILE", help=one)
    lister.add_argument("--shop", metavar="FILE", help="those for your router too")
    lister.add_argument("--json", action="store_true", help="one document, numbers unrounded")

    draw = verbs.add_parser("draw", help="write the templates and a page to see them")
    draw.add_argument("files", nargs="+", metavar="FILE", help=more)
    _to(draw, "DIR", "where they go")
    for name, usual, description in (
        ("--format", "dxf,svg,pdf,csv", "dxf,svg,pdf,csv,step"),
        ("--only", "", "names as in list, or `frog`"),
    ):
        draw.add_argument(name, default=usual, action=_List, metavar="LIST", help=description)
    _paper(draw, "in the printer; PDF is tiled")
    draw.add_argument("--dxf", default="arcs", choices=DXF, help="for readers that drop arcs")
    draw.add_argument("--shop", metavar="FILE", help="your printer and tools, as in shop.toml")
    draw.add_argument("--kerf", action="store_true", help="make good what the shop's laser takes")
    draw.add_argument("--plane", action="store_true", help="without solids; stamped so")
    draw.add_argument("--force", action="store_true", help="draw though a check fails; stamped")
    draw.add_argument("--watch", action="store_true", help="draw anew whenever a file is saved")

    scale = verbs.add_parser("scale", help="a file for another family, or with a value moved")
    scale.add_argument("file", metavar="FILE", help=one)
    scale.add_argument("--to", metavar="FAMILY", help="the family to carry it to")
    scale.add_argument(
        "--set", action="append", default=[], metavar="KEY=VALUE", help="a value; more may be set"
    )
    _to(scale, "FILE", "the file to write")
    scale.add_argument("--name", help="what the new pattern is called")
    scale.add_argument("--json", action="store_true", help="one document, numbers unrounded")

    _weighing(verbs, one)

    calibrate = verbs.add_parser("calibrate", help="the printer's test page; stores its error")
    calibrate.add_argument("-o", "--output", type=_named, metavar="DIR", help="where the page goes")
    _paper(calibrate, "in the printer")
    for name, letters, description in (
        ("--measured", ("X", "Y"), "the page's rectangle as printed: of 150 and 200 mm"),
        ("--diagonals", ("D1", "D2"), "its diagonals as printed: of 250 mm each"),
    ):
        calibrate.add_argument(name, nargs=2, type=_number, metavar=letters, help=description)
    calibrate.add_argument("--shop", metavar="FILE", help="the shop file the factors go to")

    explain = verbs.add_parser("explain", help="what a parameter or a check is")
    explain.add_argument("key", nargs="?", metavar="KEY", help="SECTION, SECTION.KEY or a check")
    return top


def _paper(verb: argparse.ArgumentParser, description: str) -> None:
    verb.add_argument("--paper", default="a4", type=str.lower, choices=PAPERS, help=description)


def _weighing(verbs: Any, one: str) -> None:
    """The arguments of the verbs that weigh."""
    weigh = verbs.add_parser(
        "weigh",
        help="masses, balance, stiffness, what each change would do",
        epilog="exit 1: the target is not reached, or only by a bow of which an error-check fails",
    )
    weigh.add_argument("file", metavar="FILE", help=one)
    for name, letters, description in (
        ("--target-mass", "G", "the mass wanted, 20 to 250"),
        ("--target-balance", "MM", "the balance wanted, from the ferrule, 50 to 350"),
    ):
        weigh.add_argument(name, type=_number, metavar=letters, help=description)
    weigh.add_argument("--move", action=_List, metavar="KEY,…", help="what may change to reach it")
    weigh.add_argument("--json", action="store_true", help="one document, numbers unrounded")

    fit = verbs.add_parser("fit", help="a file for the wood in hand, and what to take off it")
    fit.add_argument("file", metavar="FILE", help=one)
    fit.add_argument(
        "--stick", required=True, metavar="FILE", help="what was measured on it (TOML)"
    )
    fit.add_argument("--keep", default="stiffness", choices=KEEP, help="what shall stay")
    _to(fit, "FILE", "the file to write")
    fit.add_argument("--json", action="store_true", help="one document, numbers unrounded")
