"""Compare starters and checks with published dimensions of bows."""

from bisect import bisect_left

import pytest
from outside.maker import PARAMS, stated, verdicts

from templates_gen.cli import main
from templates_gen.pipeline import rendering, selection

#: H. Saint-George, The Bow, 3rd ed. 1922, fig. 37: a gauge measured, violin : viola : cello.
GAUGE = {
    "frog.length_bottom": (1.0, 1.07, 1.19),
    "frog.overall_height": (1.0, 1.15, 1.20),
    "ferrule.outer_width": (1.0, 1.04, 1.20),
}
#: The figure was measured to ± 4 %; makers differ by as much again.
OFF = 0.06


@pytest.mark.parametrize("key", GAUGE)
def test_frog_ratios_match_the_published_gauge(key):
    violin, *others = (stated(f).values[key] for f in ("violin", "viola", "cello"))
    assert [o / violin for o in others] == pytest.approx(list(GAUGE[key][1:]), rel=OFF)


def test_viola_and_cello_are_not_a_scaled_violin():
    """Source: the same gauge: heights and widths grow by different factors."""
    grown = {
        family: {k: stated(family).values[k] / stated("violin").values[k] for k in GAUGE}
        for family in ("viola", "cello")
    }
    assert grown["viola"]["frog.overall_height"] > grown["viola"]["ferrule.outer_width"]
    assert len({round(v, 2) for v in grown["cello"].values()}) > 1


#: A published German-language workshop series: sheets of a violin's frog.
PUBLISHED = {
    "ferrule.arch_thickness": 0.7,
    "ferrule.plate_thickness": 1.0,
    "underslide.thickness": 0.3,
}


def test_published_sheets_are_usual_for_a_violin():
    p = stated("violin", PUBLISHED)
    assert p.warnings == ()
    assert "fail" not in verdicts(p).values()


@pytest.mark.parametrize(
    ("key", "odd"), [("ferrule.arch_thickness", 0.4), ("ferrule.plate_thickness", 0.6)]
)
def test_warns_of_sheets_far_from_the_published_ones(key, odd):
    assert any(key in warning for warning in stated("violin", {key: odd}).warnings)


def widest_ribbon(family, outer_width):
    """Return the widest ribbon of hair that passes the checks, in steps of 0.1 mm."""

    def too_wide(tenths):
        ribbon = {"ferrule.outer_width": outer_width, "hair.ribbon_width_frog": tenths / 10}
        told = verdicts(stated(family, ribbon))
        return "fail" in (told["ferrule.ribbon_fits"], told["ferrule.wedge_spreads"])

    widths = range(150, 240)
    return (widths[bisect_left(widths, True, key=too_wide)] - 1) / 10


def test_bass_ferrule_leaves_a_ribbon_of_about_20_mm():
    # Common practice, no source: a bass ferrule about 22.5 wide outside holds a ribbon of about 20.
    assert widest_ribbon("bass-french", 22.5) == pytest.approx(20.0, abs=0.5)


def without_plate():
    return stated("violin", {"heel.kind": "none"})


def test_accepts_a_frog_without_heel_plate():
    # Common practice, no source: plain frogs have bare heels.
    p = without_plate()
    assert not rendering.stops(rendering.check(p))
    names = [t.name for t in selection.templates(p)]
    assert "heel-plate" not in names
    assert "frog-side" in names
    files = rendering.render(rendering.check(p), formats=("svg",), plane=True)
    assert not any("heel-plate" in name for name in files)
    assert "heel-plate" in [t.name for t in selection.templates(stated("violin"))]


def test_stock_list_omits_an_absent_heel_plate(tmp_path, capsys):
    text = (PARAMS / "violin.toml").read_text("utf-8")
    file = tmp_path / "turnstone.toml"
    assert text.count('"one-piece"  #') == 1
    file.write_text(text.replace('"one-piece"  #', '"none"  #'), "utf-8")
    assert main(["list", str(file)]) == 0
    told = capsys.readouterr().out
    assert "frog-side" in told
    assert "heel-plate" not in told


def lapped(room, by):
    """A leg longer than the room left for it, and the hair mortise as far ahead as it then must."""
    leg = room + by
    return stated("violin", {"heel.leg_length": leg, "frog.hair_mortise_from_heel": leg + 3.3})


def test_slide_may_overlap_the_heel_plate_a_little():
    # Common practice, no source: the plate's leg may lap the slide's end by about a millimetre.
    v = stated("violin").values
    room = v["frog.length_bottom"] - v["ferrule.length"] - v["slide.length"]
    lapping = lapped(room, 1.0)
    assert not rendering.stops(rendering.check(lapping))
    assert verdicts(lapping)["heel.overlaps_slide"] != "fail"
    # By three it is remarked on, which stops nothing.
    far = lapped(room, 3.0)
    assert verdicts(far)["heel.overlaps_slide"] == "fail"
    assert not rendering.stops(rendering.check(far))
