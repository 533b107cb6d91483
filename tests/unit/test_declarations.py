"""Each parameter has a description, a letter, and a range that contains all families."""

from __future__ import annotations

import re
from functools import cache

import pytest
from outside.maker import FAMILIES, PARAMS

from templates_gen import registry
from templates_gen.bow import catalogue
from templates_gen.parameters import Pattern
from templates_gen.pipeline import rendering

DECLARED = registry.SCHEMA.parameters
EACH = pytest.mark.parametrize("key", DECLARED)


@cache
def starter(family: str) -> Pattern:
    return rendering.read(str(PARAMS / f"{family}.toml"))


@EACH
def test_descriptions_are_text_and_symbols_are_letters(key: str) -> None:
    q = DECLARED[key]
    assert len(q.meaning.split()) >= 2 or len(q.meaning) > 5
    assert " " not in q.letter
    assert len(q.letter) <= 8
    assert q.meaning[0].isupper() or not q.meaning[0].isalpha()


@EACH
def test_starters_lie_well_inside_the_possible_range(key: str) -> None:
    """If a starter were at a bound, a slightly different bow would be rejected."""
    q = DECLARED[key]
    for family in FAMILIES:
        value = starter(family).values[key]
        if isinstance(value, float) and q.low is not None and q.high is not None:
            assert q.low <= value <= q.high
            assert value == 0.0 or value != q.high, f"{family}: {value} is the most there is"


@EACH
def test_tolerance_is_small_against_the_lower_bound(key: str) -> None:
    """Common practice, no source: what is filed is held to some hundredths, what is sawn to 1."""
    q = DECLARED[key]
    if q.tol:
        assert 0.0 < q.tol <= 10.0
        if q.unit == "mm":
            assert q.tol <= 1.0
    assert not re.search(r"\s{2,}", q.meaning)


#: What a range's end is that is not round, and why.
NOT_ROUND = {
    "frog.overall_height": 11.0,  # a tenth more than the clear height's least
    "button.counterbore_diameter": 12.5,  # half a millimetre more than the widest nipple
}


@EACH
def test_ends_of_a_range_are_round_numbers(key: str) -> None:
    """They are our own choice, not measured, and round numbers show that.

    Below 1 in twentieths, below 2 in fifths or halves, below 10 in halves, above that even or in
    fives, above 70 in fives.
    """
    q = DECLARED[key]
    for end in (q.low, q.high):
        if end is None or NOT_ROUND.get(key) == end:
            continue
        size = abs(end)
        steps: tuple[float, ...] = (5.0,)
        for below, taken in ((70, (2.0, 5.0)), (10, (0.5,)), (2, (0.2, 0.5)), (1, (0.05,))):
            steps = taken if size < below else steps
        assert any(abs(size / step - round(size / step)) < 1e-9 for step in steps), end


@EACH
def test_tolerances_have_one_significant_digit(key: str) -> None:
    """1, 2, 3 or 5 tenths, hundredths or whole: what a caliper or a rule can be read to."""
    tol = DECLARED[key].tol
    assert tol == 0.0 or f"{tol:.0e}"[0] in "1235"
    assert tol == pytest.approx(float(f"{tol:.0e}"), abs=0)


@pytest.mark.parametrize(
    "keys",
    [
        ("frog.length_bottom", "frog.length_top"),
        ("stick.across_flats_butt", "stick.across_flats_handle_end"),
        ("head.mortise_width", "head.mortise_width_front"),
        ("frog.eye_forward", "frog.eye_up"),
    ],
)
def test_measures_of_one_kind_share_a_range(keys: tuple[str, str]) -> None:
    """Either may be the larger, so both have the same possible range."""
    one, other = (DECLARED[key] for key in keys)
    assert (one.low, one.high) == (other.low, other.high)


def test_ridge_comes_down_onto_the_nose() -> None:
    """The head is drawn hair side down: so the ridge's start is above the nose that it ends on."""
    assert "comes down onto the nose" in DECLARED["head.ridge_deg"].meaning
    p = starter("violin")
    (side,) = [t for t in catalogue.templates() if t.name == "head-side"]
    assert side.up == "hair side down"
    (path,) = [s.path for s in side.views(p)[0].strokes if s.layer.value == "OUTLINE"]
    nose = max(path.vertices, key=lambda v: v[0])
    crown = max(path.vertices, key=lambda v: v[1] if v[0] > 0 else 0.0)
    assert nose[1] < crown[1]
