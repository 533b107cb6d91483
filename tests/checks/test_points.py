"""Rules that read measured points: judged at the given points, and cured by a number."""

import numpy as np
import pytest
from toy_parameters import BANDS, SCHEMA, Ferrule

from templates_gen.checks.cure import cure
from templates_gen.checks.judge import judge
from templates_gen.checks.rule import at_most, rule
from templates_gen.parameters import Identity, Pattern
from templates_gen.parameters.families import FAMILIES
from templates_gen.writers.page import numbers


@rule("ferrule.widest", "nowhere is it wider than the ferrule", dims=Pattern, basis="a toy")
def widest(p):
    widths = [y for _, y in p[Ferrule].sections]
    return at_most(max(widths, default=8.0), p[Ferrule].outer_width)


def pattern(points):
    values = {key: band.usual for key, band in BANDS.items()} | {"ferrule.sections": points}
    return Pattern(SCHEMA, Identity("Dunlin", "A", FAMILIES["bass-french"]), values)


@pytest.mark.parametrize(
    ("points", "verdict"), [((), "pass"), (((0.0, 21.0), (9.0, 23.0)), "fail")]
)
def test_the_points_are_read_and_only_numbers_are_moved(points, verdict):
    p = pattern(points)
    assert p.reads(widest.bound) == ("ferrule.outer_width", "ferrule.sections")
    result = judge(widest, p)
    assert result.verdict == verdict
    assert result.reads == ("ferrule.outer_width",)
    assert p.tolerance("ferrule.sections") == 0.0


def test_the_cure_is_a_number():
    p = pattern(((0.0, 21.0), (9.0, 23.0)))
    failed = judge(widest, p)
    # 23 mm and the ferrule's own ± of 0.05 mm
    assert failed.margin == pytest.approx(22.5 - 0.05 - 23.0)
    found = cure(failed, p, [failed])
    assert found.key == "ferrule.outer_width"
    assert 23.05 <= found.value <= 23.15


def test_corners_are_judged_in_one_call_beside_the_points():
    p = pattern(((0.0, 21.0), (9.0, 23.0))).with_("ferrule.outer_width", np.array([22.0, 24.0]))
    assert np.allclose(widest.bound(p).margin, [-1.0, 1.0])


def test_the_page_lists_them_in_words(monkeypatch):
    monkeypatch.setattr(numbers, "bands", lambda _: BANDS)
    page = numbers.numbers(pattern(((0.0, 21.0), (9.0, 22.5))))
    assert "2 points: x 0 to 9 mm, y 21 to 22.5 mm" in page
    assert page.count("not stated") == 3  # what is usual of both, and one that is empty
    assert numbers.unusual(pattern(((0.0, 8.0), (9.0, 32.0)))) == []
