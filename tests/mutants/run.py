"""Draw seeded mutants and see which the tests catch: see DEVELOPERS.md, *Mutants*.

For each mutant a child process imports the package with one changed module and runs first the
tests that run the changed line, the quickest first, then the rest of their files; it stops at the
first that fails. Tests that read golden files never run (``cover.LEFT_OUT``).

A mutant that changes nothing a user could see is set aside by ``equivalent.json``, with a reason.
"""

from __future__ import annotations

import argparse
import contextlib
import importlib
import importlib.abc
import importlib.machinery
import json
import os
import signal
import sys
import tempfile
import time
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from random import Random
from types import CodeType
from typing import Any

import pytest

from mutants.operators import Mutant, mutants

ROOT = Path(__file__).parents[2]
HERE = Path(__file__).parent
PACKAGES = ("geometry", "shapes", "parts", "bow", "drawing", "bench", "mechanics")
#: Imported before the children part from this process; the package itself and CadQuery are not.
HEAVY = (
    "numpy.ma", "scipy.optimize", "scipy.interpolate", "scipy.linalg", "scipy.integrate",
    "scipy.special", "shapely", "ezdxf", "reportlab.pdfgen.canvas", "reportlab.pdfbase.ttfonts",
    "svgwrite", "svgpathtools", "pdfplumber", "hypothesis", "fontTools.ttLib", "tomlkit",
    "xml.etree.ElementTree", "_pytest.pytester",
)  # fmt: skip
#: Tests that take longer in all (s) are left to the last stage; a child may take so much longer.
PATIENCE = 60.0
CAUGHT, SURVIVES, STUCK = "caught", "survives", "never ends"


@dataclass(frozen=True)
class Map:
    """Which test runs which line, and how long it takes (s)."""

    tests: list[str]
    seconds: list[float]
    lines: dict[str, dict[str, list[int]]]

    @classmethod
    def read(cls, file: Path) -> Map:
        return cls(**json.loads(file.read_text()))

    def of_line(self, mutant: Mutant, text: str) -> list[int]:
        """The tests that run the changed line, the quickest first.

        A statement over several lines is run as a whole: its lines are looked at too.
        """
        by_line = self.lines.get(mutant.file, {})
        found = {
            test for line in statement(text, mutant.line) for test in by_line.get(str(line), ())
        }
        return sorted(found, key=lambda test: self.seconds[test])

    def of_file(self, file: str) -> list[int]:
        """The tests that run any line of a file, the quickest first."""
        found = {test for tests in self.lines.get(file, {}).values() for test in tests}
        return sorted(found, key=lambda test: self.seconds[test])


def statement(text: str, line: int) -> range:
    """The lines of the smallest statement that holds a line."""
    import ast

    best = range(line, line + 1)
    size = 10**6
    for node in ast.walk(ast.parse(text)):
        if isinstance(node, ast.stmt) and node.lineno <= line <= (node.end_lineno or line):
            end = node.end_lineno or line
            if isinstance(
                node, ast.If | ast.For | ast.While | ast.With | ast.FunctionDef | ast.ClassDef
            ):
                end = max(node.lineno, node.body[0].lineno - 1)
            if node.lineno <= line <= end and end - node.lineno < size:
                best, size = range(node.lineno, end + 1), end - node.lineno
    return best


class Changed(importlib.abc.MetaPathFinder):
    """Gives one module of the package another source."""

    def __init__(self, file: str, text: str) -> None:
        self.module = file.removesuffix(".py").replace("/", ".").removesuffix(".__init__")
        self.text = text

    def find_spec(self, name: str, path: Any = None, target: Any = None) -> Any:
        if name != self.module:
            return None
        spec = importlib.machinery.PathFinder.find_spec(name, path)
        assert spec is not None and spec.loader is not None and spec.origin is not None
        code = compile(self.text, spec.origin, "exec")

        def changed(_: str) -> CodeType:
            return code

        spec.loader.get_code = changed  # type: ignore[attr-defined]
        return spec


def tried(file: str, text: str, tests: Sequence[str], seconds: float) -> str:
    """Run tests in a child whose package has one changed source."""
    child = os.fork()
    if child == 0:
        _child(file, text, tests)
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        done, status = os.waitpid(child, os.WNOHANG)
        if done:
            return SURVIVES if os.waitstatus_to_exitcode(status) == 0 else CAUGHT
        time.sleep(0.02)
    with contextlib.suppress(ProcessLookupError):
        os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return STUCK


def _child(file: str, text: str, tests: Sequence[str]) -> None:
    """Run the tests and end; whatever goes wrong counts as a test that fails."""
    os.setpgrp()
    status = 1
    try:
        sink = os.open(os.devnull, os.O_WRONLY)
        os.dup2(sink, 1)
        os.dup2(sink, 2)
        sys.meta_path.insert(0, Changed(file, text))
        with tempfile.TemporaryDirectory() as cache:
            os.environ["XDG_CACHE_HOME"] = cache
            arguments = ["-x", "-n", "0", "-p", "no:cacheprovider", "--tb=no", *tests]
            status = int(pytest.main(arguments))
    except BaseException:
        status = 1
    finally:
        os._exit(status)


def judged(mutant: Mutant, text: str, known: Map) -> str:
    """What becomes of a mutant: first its own tests, then all of the files those stand in."""
    changed = mutant.applied(text)
    first = known.of_line(mutant, text)
    done: set[int] = set()
    for stage in (first[:40], first, _same_files(first, known) or known.of_file(mutant.file)):
        new = [test for test in stage if test not in done]
        done.update(new)
        if new:
            time_needed = sum(known.seconds[test] for test in new)
            names = [known.tests[test] for test in new]
            verdict = tried(mutant.file, changed, names, PATIENCE + 5 * time_needed)
            if verdict != SURVIVES:
                return verdict
    return SURVIVES


def _same_files(tests: Sequence[int], known: Map) -> list[int]:
    files = {known.tests[test].partition("::")[0] for test in tests}
    same = [i for i, test in enumerate(known.tests) if test.partition("::")[0] in files]
    return sorted(same, key=lambda test: known.seconds[test])


def drawn(seed: int, count: int) -> list[Mutant]:
    """Mutants drawn from all files alike, in the order drawn."""
    found = []
    for package in PACKAGES:
        for file in sorted((ROOT / "templates_gen" / package).rglob("*.py")):
            found += mutants(file.relative_to(ROOT).as_posix(), file.read_text("utf-8"))
    return Random(seed).sample(found, count)


def reason(mutant: Mutant, known: Sequence[dict[str, str]]) -> str:
    """Why a mutant is set aside; "" if it is not."""
    for row in known:
        if (row["file"], row["before"], row["after"]) == (mutant.file, mutant.before, mutant.after):
            return row["reason"]
    return ""


def main(argv: Sequence[str]) -> int:
    """Judge some mutants and write what became of each."""
    parser = argparse.ArgumentParser(description="see which mutants the tests catch")
    parser.add_argument("--map", type=Path, required=True, help="written by mutants.cover")
    parser.add_argument("--seed", type=int, required=True)
    parser.add_argument("--count", type=int, default=300)
    parser.add_argument("--from", type=int, default=0, dest="start", help="pass over so many")
    parser.add_argument("-o", "--output", type=Path, required=True, help="one line a mutant")
    args = parser.parse_args(argv)
    known = Map.read(args.map)
    for name in HEAVY:
        importlib.import_module(name)
    aside = json.loads((HERE / "equivalent.json").read_text("utf-8"))
    with args.output.open("a", encoding="utf-8") as out:
        for number, mutant in enumerate(drawn(args.seed, args.count)):
            if number < args.start:
                continue
            text = (ROOT / mutant.file).read_text("utf-8")
            start = time.monotonic()
            why = reason(mutant, aside)
            verdict = "set aside" if why else judged(mutant, text, known)
            row = {
                "number": number,
                "verdict": verdict,
                "seconds": round(time.monotonic() - start, 1),
                "file": mutant.file,
                "line": mutant.line,
                "operator": mutant.operator,
                "before": mutant.before,
                "after": mutant.after,
            }
            print(json.dumps(row | ({"reason": why} if why else {})), file=out, flush=True)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
