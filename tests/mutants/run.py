"""Draw mutants from a seed and see which the tests catch: see DEVELOPERS.md, *Mutants*.

A mutant inside a function is made in a child of a process that has collected the tests: the
function gets the changed code. A mutant at the level of a module or class needs the module imported
again, so its child is forked before the package is imported. Each child runs the tests that run the
changed line, the quickest first, and stops at the first failure. Tests that read golden files
are never collected (``cover.LEFT_OUT``).

``equivalent.json`` lists the mutants that change nothing a user could see, with the reasons.
"""

from __future__ import annotations

import argparse
import ast
import contextlib
import gc
import importlib
import importlib.abc
import importlib.machinery
import json
import os
import shutil
import signal
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from dataclasses import asdict, dataclass
from functools import cache
from itertools import zip_longest
from pathlib import Path
from random import Random
from types import CodeType, FunctionType
from typing import Any, NoReturn

import pytest
from mutants.cover import LEFT_OUT
from mutants.operators import Mutant, mutants

ROOT = Path(__file__).parents[2]
HERE = Path(__file__).parent
PACKAGES = ("geometry", "shapes", "parts", "bow", "drawing", "bench", "mechanics")
#: Imported before this process forks its children; the package itself and CadQuery are not.
HEAVY = (
    "numpy.ma", "scipy.optimize", "scipy.interpolate", "scipy.linalg", "scipy.integrate",
    "scipy.special", "shapely", "ezdxf", "reportlab.pdfgen.canvas", "reportlab.pdfbase.ttfonts",
    "svgwrite", "svgpathtools", "pdfplumber", "hypothesis", "fontTools.ttLib", "tomlkit",
    "xml.etree.ElementTree",
)  # fmt: skip
#: Sources that import CadQuery, which no process imports before it forks its children.
WITH_KERNEL = ("/solid.py",)
#: A test that builds a solid may take this many times as long as one that does not.
KERNEL = 30.0
#: Time limit (s) for the tests of one mutant by the map, and for its child, which is then stuck.
BUDGET, PATIENCE = 60.0, 300.0
CAUGHT, SURVIVES, STUCK, ASIDE = "caught", "survives", "never ends", "set aside"


@dataclass(frozen=True)
class Map:
    """Record which test runs which line, and how long it takes (s)."""

    tests: list[str]
    seconds: list[float]
    kernel: list[bool]
    lines: dict[str, dict[str, list[int]]]

    @classmethod
    def read(cls, files: Sequence[Path]) -> Map:
        """Read several maps into one; the tests of later maps are added."""
        whole = cls([], [], [], {})
        for file in files:
            part = json.loads(file.read_text())
            first = len(whole.tests)
            whole.tests.extend(part["tests"])
            whole.seconds.extend(part["seconds"])
            whole.kernel.extend(part["kernel"])
            for source, lines in part["lines"].items():
                into = whole.lines.setdefault(source, {})
                for line, tests in lines.items():
                    into.setdefault(line, []).extend(first + test for test in tests)
        return whole

    def needs_kernel(self, mutant: Mutant, text: str) -> bool:
        """Report whether only tests that build solids run the changed line."""
        by_line = self.lines.get(mutant.file, {})
        own = {t for line in statement(text, mutant.line) for t in by_line.get(str(line), ())}
        return mutant.file.endswith(WITH_KERNEL) or (bool(own) and all(map(self._builds, own)))

    def _builds(self, test: int) -> bool:
        return self.kernel[test]

    def _of_no_line(self) -> set[int]:
        """Return the tests that run no line, which only read what a module defines."""
        running = {t for lines in self.lines.values() for tests in lines.values() for t in tests}
        return {*range(len(self.tests))} - running

    def chosen(self, mutant: Mutant, text: str, budget: float) -> list[str]:
        """Select the tests to run: the quickest first, as many as the budget allows at each stage.

        First come those that run the changed statement; for a statement that runs on import, those
        that run any line of the file, or no line at all. Then come the other tests of the same
        files, because a fixture or a cached result may have run the line for them.
        """
        by_line = self.lines.get(mutant.file, {})
        own = {t for line in statement(text, mutant.line) for t in by_line.get(str(line), ())}
        of_file = {test for tests in by_line.values() for test in tests} - own
        files = {self.tests[test].partition("::")[0] for test in own | of_file}
        rest = {i for i, t in enumerate(self.tests) if t.partition("::")[0] in files}
        stages = [own, rest - own] if own else [of_file, self._of_no_line(), rest - of_file]
        found = []
        for tests in stages:
            left = budget
            for test in sorted(tests, key=lambda t: (self.seconds[t], t)):
                left -= self.seconds[test] / (KERNEL if self.kernel[test] else 1)
                if left < 0:
                    break
                found.append(self.tests[test])
        return list(dict.fromkeys(found))


def statement(text: str, line: int) -> range:
    """Return the lines of the smallest statement that contains a line, without a block's body.

    A decorator runs with the function it decorates: the function's lines are returned for it.
    """
    best, size = range(line, line + 1), 10**6
    for node in ast.walk(ast.parse(text)):
        if not isinstance(node, ast.stmt):
            continue
        first, end = node.lineno, node.end_lineno or node.lineno
        decorators = getattr(node, "decorator_list", ())
        if decorators and decorators[0].lineno <= line < node.lineno:
            return range(node.lineno + 1, end + 1)
        body = getattr(node, "body", None)
        if body:
            end = max(first, body[0].lineno - 1)
        if first <= line <= end and end - first < size:
            best, size = range(first, end + 1), end - first
    return best


# --- mutants inside a function: the function gets the changed code -------------------------------


def changed_functions(
    before: str, after: str, origin: str
) -> list[tuple[CodeType, CodeType]] | None:
    """Return the code of each function that a change touches, before and after.

    Returns:
        None if the change also touches code that runs on import.
    """
    return _pairs(compile(before, origin, "exec"), compile(after, origin, "exec"))


def _pairs(old: CodeType, new: CodeType) -> list[tuple[CodeType, CodeType]] | None:
    if _own(old) != _own(new):
        return None
    found: list[tuple[CodeType, CodeType]] = []
    for a, b in zip(_inner(old), _inner(new), strict=True):
        if a.co_flags & 0x2:  # CO_NEWLOCALS: a function, not the body of a class
            found += [(a, b)] if _all(a) != _all(b) else []
        else:
            deeper = _pairs(a, b)
            if deeper is None:
                return None
            found += deeper
    return found


def _inner(code: CodeType) -> list[CodeType]:
    return [c for c in code.co_consts if isinstance(c, CodeType)]


def _own(code: CodeType) -> tuple[Any, ...]:
    plain = [repr(c) for c in code.co_consts if not isinstance(c, CodeType)]
    return code.co_code, plain, code.co_names, len(_inner(code))


def _all(code: CodeType) -> tuple[Any, ...]:
    return _own(code), [_all(c) for c in _inner(code)]


def place_of(code: CodeType) -> tuple[str, str, int]:
    """Return file, name and line of a function; code that has run never equals new code."""
    return code.co_filename, code.co_qualname, code.co_firstlineno


class Campaign:
    """Judge mutants by the collected tests, as a pytest plugin in place of the test run."""

    def __init__(self, work: Callable[[Campaign], None]) -> None:
        self.work = work
        self.items: dict[str, pytest.Item] = {}
        self.functions: dict[tuple[str, str, int], list[FunctionType]] = {}

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        assert not session.testsfailed, "the tests cannot be collected"
        self.items = {item.nodeid: item for item in session.items}
        self.work(self)
        return True

    def know(self, pairs: Sequence[tuple[CodeType, CodeType]]) -> None:
        """Find the functions to be changed.

        Raises:
            LookupError: one of them does not exist in memory.
        """
        wanted = {place_of(old) for old, _ in pairs}
        for file, *_ in wanted:
            importlib.import_module(module_of(Path(file).relative_to(ROOT).as_posix()))
        for function in gc.get_objects():
            if isinstance(function, FunctionType) and place_of(function.__code__) in wanted:
                self.functions.setdefault(place_of(function.__code__), []).append(function)
        if missing := wanted - {*self.functions}:
            raise LookupError(f"not in memory: {missing}")
        # Keep the children's garbage collectors from searching what exists before the fork.
        gc.freeze()

    def change(self, pairs: Sequence[tuple[CodeType, CodeType]]) -> None:
        """Put the changed code into every function that has the old code."""
        for old, new in pairs:
            for function in self.functions[place_of(old)]:
                function.__code__ = new

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        if report.failed:
            os._exit(1)

    def run(self, tests: Sequence[str]) -> None:
        """Run tests in this process, which ends at the first that fails."""
        items = [self.items[test] for test in tests if test in self.items]
        for item, following in zip_longest(items, items[1:]):
            item.config.hook.pytest_runtest_protocol(item=item, nextitem=following)


# --- mutants at the level of a module: the module is imported changed -----------------------------


class Changed(importlib.abc.MetaPathFinder):
    """Import one module of the package from a changed source."""

    def __init__(self, file: str, text: str) -> None:
        self.module = module_of(file)
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


def module_of(file: str) -> str:
    """Return the module name of a source file."""
    return file.removesuffix(".py").replace("/", ".").removesuffix(".__init__")


# --- both -----------------------------------------------------------------------------------------


def in_a_child(work: Callable[[], None]) -> str:
    """Run work in a child process; any error there counts as a mutant caught."""
    child = os.fork()
    if child == 0:
        _child(work)
    end = time.monotonic() + PATIENCE
    while time.monotonic() < end:
        done, status = os.waitpid(child, os.WNOHANG)
        if done:
            return SURVIVES if os.waitstatus_to_exitcode(status) == 0 else CAUGHT
        time.sleep(0.01)
    with contextlib.suppress(ProcessLookupError):
        os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return STUCK


def _child(work: Callable[[], None]) -> NoReturn:
    os.setpgrp()
    status = 1
    try:
        sink = os.open(os.devnull, os.O_RDWR)
        for stream in (0, 1, 2):
            os.dup2(sink, stream)
        with tempfile.TemporaryDirectory() as cache:
            # Cached solids save time; what a mutant writes there must not be kept.
            known = Path(os.environ.get("XDG_CACHE_HOME", Path.home() / ".cache"), "templates-gen")
            if known.is_dir():
                shutil.copytree(known, Path(cache, "templates-gen"))
            os.environ["XDG_CACHE_HOME"] = cache
            work()
            status = 0
    except BaseException:
        status = 1
    finally:
        os._exit(status)


def run_changed_module(file: str, text: str, tests: Sequence[str]) -> None:
    """Run tests with one module changed; this process must not have imported the package."""
    sys.meta_path.insert(0, Changed(file, text))
    arguments = ["-x", "-n", "0", "-p", "no:cacheprovider", "--tb=no", *tests]
    if pytest.main(arguments) != 0:
        os._exit(1)


@cache
def _all_mutants() -> tuple[Mutant, ...]:
    found: list[Mutant] = []
    for package in PACKAGES:
        for file in sorted((ROOT / "templates_gen" / package).rglob("*.py")):
            found += mutants(file.relative_to(ROOT).as_posix(), file.read_text("utf-8"))
    return tuple(found)


def drawn(seed: int, count: int) -> list[Mutant]:
    """Draw mutants from all files with equal chances; return them in the order drawn."""
    return Random(seed).sample(_all_mutants(), count)


@dataclass(frozen=True)
class Row:
    """The result of one mutant."""

    number: int
    verdict: str
    seconds: float
    file: str
    line: int
    operator: str
    before: str
    after: str
    reason: str = ""

    @classmethod
    def of(cls, number: int, m: Mutant, verdict: str, seconds: float, reason: str = "") -> Row:
        where = (m.file, m.line, m.operator, m.before, m.after)
        return cls(number, verdict, round(seconds, 1), *where, reason)


class Judge:
    """Judge mutants one by one and write the result of each."""

    def __init__(self, args: argparse.Namespace) -> None:
        self.known = Map.read(args.map)
        self.budget: float = args.budget
        self.output: Path = args.output
        aside = json.loads((HERE / "equivalent.json").read_text("utf-8"))
        self.aside = {(r["file"], r["before"], r["after"]): r["reason"] for r in aside}
        written = args.output.read_text("utf-8").splitlines() if args.output.is_file() else []
        done = {json.loads(line)["number"] for line in written}
        numbered = list(enumerate(drawn(args.seed, args.count)))
        wanted = set(args.only) if args.only else {n for n, _ in numbered} - done
        self.mutants = [(n, m) for n, m in numbered if n in wanted]

    def all(self) -> None:
        """Judge the mutants set aside, then those inside functions, then those of modules."""
        inside, outside = [], []
        for number, mutant in self.mutants:
            if why := self.aside.get((mutant.file, mutant.before, mutant.after)):
                self.note(Row.of(number, mutant, ASIDE, 0.0, why))
                continue
            text = (ROOT / mutant.file).read_text("utf-8")
            origin = str(ROOT / mutant.file)
            pairs = changed_functions(text, mutant.applied(text), origin)
            tests = self.known.chosen(mutant, text, self.budget)
            if self.known.needs_kernel(mutant, text):
                pairs = None
            (outside if pairs is None else inside).append((number, mutant, text, pairs, tests))

        def within(campaign: Campaign) -> None:
            campaign.know([pair for _, _, _, pairs, _ in inside for pair in pairs or ()])
            unchanged = in_a_child(lambda: campaign.run(self.known.tests[::40]))
            assert unchanged == SURVIVES, "the tests fail without any change"
            for number, mutant, _, pairs, tests in inside:

                def work(pairs: Any = pairs, tests: Any = tests) -> None:
                    campaign.change(pairs)
                    campaign.run(tests)

                self.judge(number, mutant, work)

        for name in HEAVY:
            importlib.import_module(name)
        if inside and (forked := os.fork()) == 0:
            left_out = [f"--ignore={folder}" for folder in (*LEFT_OUT, "tests/kernel")]
            arguments = [*left_out, "-p", "no:cacheprovider", "-n", "0", "-q", "--tb=no"]
            chosen = ["-m", "not kernel and not slow"]
            os._exit(int(pytest.main([*arguments, *chosen], plugins=[Campaign(within)])))
        if outside:
            number, mutant, text, _, tests = outside[0]
            unchanged = in_a_child(lambda: run_changed_module(mutant.file, text, tests[:40]))
            assert unchanged == SURVIVES, "the tests fail without any change"
        for number, mutant, text, _, tests in outside:

            def work(m: Mutant = mutant, text: str = text, tests: Any = tests) -> None:
                run_changed_module(m.file, m.applied(text), tests)

            self.judge(number, mutant, work)
        if inside:
            _, status = os.waitpid(forked, 0)
            assert status == 0, "the tests cannot be collected, or fail without any change"

    def judge(self, number: int, mutant: Mutant, work: Callable[[], None]) -> None:
        start = time.monotonic()
        verdict = in_a_child(work)
        self.note(Row.of(number, mutant, verdict, time.monotonic() - start))

    def note(self, row: Row) -> None:
        with self.output.open("a", encoding="utf-8") as out:
            print(json.dumps(asdict(row)), file=out)


def main(argv: Sequence[str]) -> int:
    """Judge mutants and write the result of each, one line per mutant."""
    parser = argparse.ArgumentParser(description="report which mutants the tests catch")
    parser.add_argument(
        "--map", type=Path, nargs="+", required=True, help="maps written by mutants.cover"
    )
    parser.add_argument("--seed", type=int, required=True)
    parser.add_argument("--count", type=int, default=300)
    parser.add_argument("--only", type=int, nargs="*", help="numbers of the mutants to judge")
    parser.add_argument("--budget", type=float, default=BUDGET, help="seconds of tests per mutant")
    parser.add_argument(
        "-o", "--output", type=Path, required=True, help="file to append results to"
    )
    Judge(parser.parse_args(argv)).all()
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
