"""Each declared parameter is told in words, has a letter and a range that its families fit in."""

from __future__ import annotations

import re

import pytest
from outside.maker import FAMILIES, PARAMS

from templates_gen import pipeline, registry

DECLARED = registry.SCHEMA.parameters
EACH = pytest.mark.parametrize("key", DECLARED)


@EACH
def test_words_are_words_and_the_letter_is_a_letter(key: str) -> None:
    q = DECLARED[key]
    assert len(q.meaning.split()) >= 2 or len(q.meaning) > 5
    assert " " not in q.letter
    assert len(q.letter) <= 8
    assert q.meaning[0].isupper() or not q.meaning[0].isalpha()


@EACH
def test_the_starters_lie_well_inside_what_is_possible(key: str) -> None:
    """A range that a starter touches would refuse the next maker's bow."""
    q = DECLARED[key]
    for family in FAMILIES:
        value = pipeline.read(str(PARAMS / f"{family}.toml")).values[key]
        if isinstance(value, float) and q.low is not None and q.high is not None:
            assert q.low <= value <= q.high
            assert value == 0.0 or value != q.high, f"{family}: {value} is the most there is"


@EACH
def test_a_tolerance_is_small_beside_the_least_that_is_possible(key: str) -> None:
    """Common practice, no source: what is filed is held to some hundredths, what is sawn to 1."""
    q = DECLARED[key]
    if q.tol:
        assert 0.0 < q.tol <= 10.0
        if q.unit == "mm":
            assert q.tol <= 1.0
    assert not re.search(r"\s{2,}", q.meaning)
