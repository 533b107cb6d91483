"""The mutation tool makes the changes it reports, and notices when a test catches one."""

from __future__ import annotations

import ast
from pathlib import Path
from types import FunctionType

import pytest
from mutants import run
from mutants.operators import mutants

SOURCE = '''"""Left is no word of the program."""
LIMIT: float = 0.9


def area(a: float, b: float) -> float:
    """A docstring with 3 numbers stays as it is."""
    if a < b:
        raise ValueError("left at 7")
    return min(a, b) * LIMIT + 2


SIDE = "hair side down"
'''


def afters() -> set[str]:
    return {m.after for m in mutants("area.py", SOURCE)}


@pytest.mark.parametrize(
    "after",
    [
        "LIMIT: float = 1.1700000000000002",
        "if a > b:",
        "if not (a < b):",
        "return max(a, b) * LIMIT + 2",
        "return min(b, a) * LIMIT + 2",
        "return min(a, b) / LIMIT + 2",
        "return min(a, b) * LIMIT - 2",
        "return min(a, b) * LIMIT + 3",
        'SIDE = "hair side up"',
    ],
)
def test_each_kind_of_change_is_made(after: str) -> None:
    assert after in afters()


def test_docstrings_and_messages_of_errors_are_left_alone() -> None:
    assert len(afters()) == 9


def test_every_mutant_of_the_package_compiles() -> None:
    for mutant in run.drawn(seed=1, count=200):
        text = (run.ROOT / mutant.file).read_text("utf-8")
        ast.parse(mutant.applied(text))
        assert mutant.applied(text) != text


def test_the_same_seed_draws_the_same_mutants() -> None:
    assert run.drawn(seed=5, count=20) == run.drawn(seed=5, count=20)
    assert run.drawn(seed=5, count=20) != run.drawn(seed=6, count=20)


def test_a_function_gets_the_changed_code(tmp_path: Path) -> None:
    file = str(tmp_path / "area.py")
    space: dict[str, object] = {}
    exec(compile(SOURCE, file, "exec"), space)
    area = space["area"]
    assert isinstance(area, FunctionType)
    assert area(3.0, 2.0) == pytest.approx(3.8)
    pairs = run.changed_functions(SOURCE, SOURCE.replace("min(", "max("), file)
    assert pairs is not None
    campaign = run.Campaign(lambda _: None)
    campaign.functions = {run.place_of(area.__code__): [area]}
    campaign.change(pairs)
    assert area(3.0, 2.0) == pytest.approx(4.7)


def test_change_of_module_data_is_not_a_change_of_a_function() -> None:
    assert run.changed_functions(SOURCE, SOURCE.replace("0.9", "0.7"), "area.py") is None


def test_any_failure_in_a_child_counts_as_caught() -> None:
    def fails() -> None:
        raise AssertionError("a test fails")

    assert run.in_a_child(fails) == run.CAUGHT
    assert run.in_a_child(lambda: None) == run.SURVIVES
