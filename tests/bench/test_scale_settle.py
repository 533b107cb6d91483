"""Numbers that change so that checks pass that passed before."""

from pathlib import Path

import pytest
from bench.test_scale import pattern

import templates_gen
from templates_gen.bench.scale import scaling
from templates_gen.bow import catalogue
from templates_gen.checks.judge import judge
from templates_gen.parameters.families import FAMILIES, bands
from templates_gen.parts.material.params import LappingKind
from templates_gen.pipeline import rendering

HANDLE = "stick.across_flats_butt"
#: A light lapping, so that mass and balance are near the end of what is usual.
LIGHT = {"lapping.kind": LappingKind.SUBSTITUTE, "lapping.gauge": 0.5}
WHIMBREL = Path(__file__).parents[2] / "params" / "whimbrel.toml"


def fails(scaled):
    return {r.rule.id for r in scaled.after if r.verdict == "fail"}


def why(scaled):
    return {c.key: c.why for c in scaled.changes}


@pytest.mark.parametrize(
    ("family", "handle"), [("violin", 8.2), ("viola", 8.7), ("cello", 9.2), ("bass-german", 11.0)]
)
def test_the_nipple_goes_round_the_screw_whatever_the_handle(tmp_path, family, handle):
    """A hole through a nipple leaves the same wall in a thin stick: arithmetic."""
    p = pattern(tmp_path, family)
    scaled = templates_gen.scale(p, settings={HANDLE: handle})
    for key in ("stick.nipple_diameter", "button.counterbore_diameter"):
        assert scaled.pattern.values[key] == p.values[key]
    assert not {"stick.nipple_wall", "button.runs_free", "button.runs_true"} & fails(scaled)


@pytest.mark.parametrize(
    ("family", "handle"), [("bass-german", 11.1), ("bass-french", 11.2), ("cello", 8.8)]
)
def test_a_narrower_mortise_takes_the_eyelet_along(tmp_path, family, handle):
    p = pattern(tmp_path, family)
    scaled = templates_gen.scale(p, settings={HANDLE: handle})
    now = scaled.pattern.values
    assert scaled.failing == ()
    mortise, eyelet = "stick.mortise_width", "eyelet.width"
    assert now[mortise] < p.values[mortise]
    assert now[mortise] - now[eyelet] == pytest.approx(p.values[mortise] - p.values[eyelet])
    # Rings come in steps of 0.05 mm: common practice, no source.
    assert now[eyelet] / 0.05 == pytest.approx(round(now[eyelet] / 0.05))
    assert why(scaled)[eyelet].startswith("mortise width −")


def test_a_warning_that_held_is_cured_by_what_stays_within_the_usual(tmp_path):
    scaled = templates_gen.scale(pattern(tmp_path, "violin"), settings={"frog.length_bottom": 40})
    assert fails(scaled) == set()
    assert why(scaled)["leather.from_butt"] == "so that bow.leather passes"
    assert not bands("violin")["leather.from_butt"].excludes(
        scaled.pattern.values["leather.from_butt"]
    )
    viola = templates_gen.scale(rendering.read(str(WHIMBREL)).with_many(LIGHT), "viola")
    assert fails(viola) == set()
    assert why(viola)["lapping.length"] == "so that bow.balance passes"


def test_a_warning_that_failed_before_stays(tmp_path):
    """What the maker lives with is not mended unasked."""
    p = pattern(tmp_path, "violin", leather__from_butt=50.0)
    failing = {c.result.rule.id for c in rendering.check(p) if c.result.verdict == "fail"}
    assert "bow.leather" in failing
    scaled = templates_gen.scale(p, settings={"hair.count": 171})
    assert scaled.pattern.values["leather.from_butt"] == 50.0


def test_for_a_warning_nothing_leaves_the_usual_and_nothing_else_comes_to_fail(tmp_path):
    """The stick is so thin that no lapping within the usual brings the bow's mass back."""
    p = pattern(tmp_path, "viola").with_many(LIGHT)
    scaled = templates_gen.scale(p, settings={HANDLE: 8.7})
    assert fails(scaled) == {"bow.mass"}
    cured = {c.key for c in scaled.changes if c.why == "so that bow.camber_in_play passes"}
    assert cured
    assert not {c.key for c in scaled.changes if c.key in cured and c.beyond}


@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("share", [0.96, 1.04])
def test_settling_ends_and_begins_no_failure(tmp_path, monkeypatch, family, share):
    p = pattern(tmp_path, family)
    settings = {HANDLE: round(p.values[HANDLE] * share, 2)}
    settled = templates_gen.scale(p, settings=settings)

    def left(made, kept, was):
        return made, {}, [judge(rule, made) for rule in catalogue.rules()]

    monkeypatch.setattr(scaling, "settle", left)
    before = fails(templates_gen.scale(p, settings=settings))
    assert fails(settled) < before
