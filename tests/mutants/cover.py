"""Record which test runs which line: ``python -m mutants.cover MAP.json``.

Every test runs once under coverage.py in its own context. Caches of the package and the tests are
cleared before each test file; otherwise only the first test to call a cached function would be
recorded for its lines. The map also holds how long each test took.
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
#: The only folders whose tests read golden files.
LEFT_OUT = ("tests/docs", "tests/architecture", "tests/mutants")


class Contexts:
    """Give each test a coverage context and note how long it takes, as a pytest plugin."""

    def __init__(self, cov: Any) -> None:
        self.cov = cov
        self.seconds: dict[str, float] = {}
        self.kernel: dict[str, bool] = {}
        self.module = ""

    @pytest.hookimpl(wrapper=True)
    def pytest_runtest_protocol(self, item: pytest.Item) -> Any:
        module = item.nodeid.partition("::")[0]
        if module != self.module:  # finding the caches takes longer than most tests
            self.module = module
            clear(caches())
        self.kernel[item.nodeid] = item.get_closest_marker("kernel") is not None
        self.cov.switch_context(item.nodeid)
        start = time.process_time()
        try:
            return (yield)
        finally:
            self.seconds[item.nodeid] = time.process_time() - start
            self.cov.switch_context("")


def caches() -> list[Any]:
    """Find the functions and patterns that cache results."""
    return [
        found
        for found in gc.get_objects()
        if isinstance(found, functools._lru_cache_wrapper)
        or (type(found).__name__ in ("Pattern", "TrackingPattern") and hasattr(found, "_derived"))
    ]


def clear(found: Iterable[Any]) -> None:
    """Clear the caches."""
    for one in found:
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
