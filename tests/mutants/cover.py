"""Learn which test runs which line: ``python -m mutants.cover MAP.json``.

Every test runs once under coverage.py, each as a context of its own. What the package or the tests
keep from earlier calls is thrown away before each file of tests, else only the first to ask would
be seen to run a line. The map also holds how long each test took.
"""

from __future__ import annotations

import functools
import gc
import json
import sys
import time
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).parents[2]
#: Golden files are read here alone.
LEFT_OUT = ("tests/docs", "tests/architecture", "tests/mutants")


class Contexts:
    """A plugin that gives each test a context and notes how long it takes."""

    def __init__(self, cov: Any) -> None:
        self.cov = cov
        self.seconds: dict[str, float] = {}
        self.kernel: dict[str, bool] = {}
        self.module = ""

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Any:
        module = item.nodeid.partition("::")[0]
        if module != self.module:  # to look for them takes longer than most tests
            self.module = module
            forget(what_is_kept())
        self.kernel[item.nodeid] = item.get_closest_marker("kernel") is not None
        self.cov.switch_context(item.nodeid)
        start = time.process_time()
        try:
            return (yield)
        finally:
            self.seconds[item.nodeid] = time.process_time() - start
            self.cov.switch_context("")


def what_is_kept() -> list[Any]:
    """Functions and patterns that keep what they worked out."""
    return [
        kept
        for kept in gc.get_objects()
        if isinstance(kept, functools._lru_cache_wrapper)
        or (type(kept).__name__ in ("Pattern", "TrackingPattern") and hasattr(kept, "_derived"))
    ]


def forget(kept: Iterable[Any]) -> None:
    """Throw away what they keep."""
    for one in kept:
        if isinstance(one, functools._lru_cache_wrapper):
            one.cache_clear()
        else:
            one._derived, one._watched = {}, None


def main(target: Path, chosen: list[str]) -> int:
    """Run the tests and write the map."""
    import coverage

    cov = coverage.Coverage(data_file=None, source=[str(ROOT / "templates_gen")])
    plugin = Contexts(cov)
    arguments = [
        *(f"--ignore={folder}" for folder in LEFT_OUT),
        "-p",
        "no:cacheprovider",
        "-n",
        "0",
    ]
    cov.start()
    status = pytest.main([*arguments, *chosen], plugins=[plugin])
    cov.stop()
    data, lines = cov.get_data(), {}
    tests = sorted(plugin.seconds)
    number = {test: i for i, test in enumerate(tests)}
    for file in data.measured_files():
        by_line = data.contexts_by_lineno(file)
        name = Path(file).relative_to(ROOT).as_posix()
        lines[name] = {
            line: [number[c] for c in contexts if c in number] for line, contexts in by_line.items()
        }
    seconds = [round(plugin.seconds[test], 3) for test in tests]
    kernel = [plugin.kernel[test] for test in tests]
    target.write_text(
        json.dumps({"tests": tests, "seconds": seconds, "kernel": kernel, "lines": lines})
    )
    return int(status)


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1]), sys.argv[2:]))
