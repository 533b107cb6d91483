"""Of several leaders the nearest counts; the button goes with the handle, its end with it."""

import pytest
from bench.test_scale import pattern

import templates_gen
from templates_gen.pipeline import rendering

HANDLE = "stick.across_flats_butt"


def fails(p):
    return {c.result.rule.id for c in rendering.check(p) if c.result.verdict == "fail"}


@pytest.mark.parametrize(
    ("family", "handle"),
    [
        ("bass-french", 13.2),
        ("bass-french", 11.4),
        ("bass-german", 13.0),
        ("violin", 9.4),
        ("violin", 8.3),
        ("viola", 9.4),
        ("cello", 10.4),
    ],
)
def test_the_button_follows_the_handle_and_its_sheet_gives_way(tmp_path, family, handle):
    scaled = templates_gen.scale(pattern(tmp_path, family), settings={HANDLE: handle})
    now = scaled.pattern.values
    assert now["button.across_flats"] == pytest.approx(handle, abs=0.0151)
    assert now["button.across_flats_end"] <= now["button.across_flats"]
    assert not {"button.flats", "button.ring_sheet"} & fails(scaled.pattern)
    # Sheet comes in steps of 0.05 mm: common practice, no source.
    steps = now["button.ring_sheet"] / 0.05
    assert steps == pytest.approx(round(steps))
    (sheet,) = (c for c in scaled.changes if c.key == "button.ring_sheet")
    assert not sheet.changed or sheet.why == "so that button.ring_sheet passes"


def test_where_the_button_must_give_way_its_end_goes_along(tmp_path):
    """The sheet is set, so that of a wider handle's flats the button cannot have all."""
    p = pattern(tmp_path, "bass-french", button__across_flats_end=12.0)
    scaled = templates_gen.scale(p, settings={HANDLE: 13.2, "button.ring_sheet": 0.7})
    now = scaled.pattern.values
    assert now["button.across_flats"] < 13.1
    assert now["button.across_flats_end"] <= now["button.across_flats"]
    (end,) = (c for c in scaled.changes if c.key == "button.across_flats_end")
    assert end.why.startswith("across flats × 0.9")


@pytest.mark.parametrize("handle", [12.44, 12.53, 11.61])
def test_an_end_as_wide_as_the_button_is_not_made_wider_by_rounding(tmp_path, handle):
    p = pattern(tmp_path, "bass-french", button__across_flats_end=12.0)
    now = templates_gen.scale(p, settings={HANDLE: handle}).pattern.values
    assert now["button.across_flats_end"] <= now["button.across_flats"]
    wider = p.with_("button.across_flats_end", 12.5)
    now = templates_gen.scale(wider, settings={HANDLE: handle}).pattern.values
    assert now["button.across_flats_end"] > now["button.across_flats"]


def test_a_narrower_button_takes_its_end_along(tmp_path):
    p = pattern(tmp_path, "bass-french")
    now = templates_gen.scale(p, settings={"button.across_flats": 11.4}).pattern.values
    assert now["button.across_flats_end"] == pytest.approx(11.52 * 0.95, abs=0.025)


def test_of_two_leaders_the_one_of_the_same_part_is_followed(tmp_path):
    """The frog's heights go with its clear height, the head's with the ferrule's."""
    p = pattern(tmp_path, "violin")
    settings = {"frog.clear_height": 18.4, "ferrule.height": 6.8}
    for stated in (settings, dict(reversed(settings.items()))):
        scaled = templates_gen.scale(p, settings=stated)
        why = {c.key: c.why for c in scaled.changes}
        assert why["frog.overall_height"].startswith("clear height × 1.022")
        assert why["head.face_length"].startswith("height × ")
        assert scaled.pattern.values["frog.clear_height"] == 18.4
        ratio = scaled.pattern.values["frog.overall_height"] / p.values["frog.overall_height"]
        assert ratio == pytest.approx(18.4 / 18.0, abs=0.003)


def test_the_hair_at_the_tip_goes_with_the_hair_at_the_frog(tmp_path):
    p = pattern(tmp_path, "bass-french")
    settings = {"ferrule.outer_width": 23.0, "hair.ribbon_width_frog": 19.6}
    scaled = templates_gen.scale(p, settings=settings)
    now = scaled.pattern.values
    assert now["hair.ribbon_width_tip"] == pytest.approx(p.values["hair.ribbon_width_tip"] - 0.4)
    assert now["frog.width_heel"] == pytest.approx(p.values["frog.width_heel"] + 0.5)


@pytest.mark.parametrize(("family", "width"), [("viola", 13.0), ("cello", 14.6)])
def test_two_warnings_by_a_hair_are_not_cured_for_each_other_without_end(tmp_path, family, width):
    p = pattern(tmp_path, family)
    scaled = templates_gen.scale(p, settings={"ferrule.outer_width": width})
    assert scaled.failing == ()
