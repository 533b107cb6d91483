"""Compare what the bench commands print and judge with calculations by hand.

Sources are named beside each test; a number that is only workshop custom is marked so.
"""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path as File
from types import SimpleNamespace

import pytest
from outside.maker import stated

from templates_gen import registry
from templates_gen.bench.fit import measured
from templates_gen.bench.routing import checks
from templates_gen.bench.routing.guide import Guided
from templates_gen.bench.routing.jobs import KINDS, Job
from templates_gen.bench.scale.comments import refreshed
from templates_gen.bench.scale.settle import _by_a_hair
from templates_gen.bench.weigh.solid_masses import bulk
from templates_gen.bench.weigh.table import reached
from templates_gen.bench.weigh.weighing import Weighed
from templates_gen.bow.dims.masses import Masses
from templates_gen.bow.dims.volumes import VolumeAt, Volumes
from templates_gen.checks.judge import Result
from templates_gen.checks.rule import Rule, Severity, at_least
from templates_gen.drawing.sheet import Layer
from templates_gen.errors import GeometryError, InputError
from templates_gen.geometry import rectangle
from templates_gen.parameters.starter import starter
from templates_gen.pipeline.witness import Witness
from templates_gen.shop.params import Guide
from templates_gen.shop.read import example

SHOP = example()

# --- weighing -------------------------------------------------------------------------------------


@pytest.mark.parametrize("family", ["violin", "bass-german"])
def test_measures_centre_of_each_solid_from_the_butt(family: str) -> None:
    """Source: the parts' frames. Ferrule and slide start at the shoulder, the button at the butt.

    The ferrule's z runs along the bow; the slide's and the button's x run away from the head.
    """
    p = stated(family)
    v = p.values
    heel = v["frog.front_at_play"] - v["frog.length_bottom"]
    shoulder = heel + v["frog.length_bottom"] - v["ferrule.length"]
    middle = (1.25, 0.5, 3.75)
    parts = ("ferrule", "slide", "heel", "frog", "eyelet", "screw", "button")
    seen = {part: Witness(part, 70.0, middle, 0.0) for part in parts}
    # Far too large for its stick: only the other parts are compared here.
    seen["head"] = Witness("head", 1e4, (5.0, 0.0, 5.0), 0.0)
    found = bulk(p, seen)
    meant = {
        "ferrule": shoulder + middle[2],
        "slide": shoulder - middle[0],
        "heel": heel + middle[0],
        "frog": heel + middle[0],
        "eyelet": heel + middle[0],
        "screw": middle[0],
        "button": -middle[0],
    }
    assert {part: found[part].x for part in meant} == pytest.approx(meant)
    assert {found[part].volume for part in meant} == {70.0}


def test_a_part_without_a_solid_is_weighed_by_its_dimensions_when_a_number_changes() -> None:
    """Its own solid may be unknown; its weight is then what the dimensions give."""
    p = stated("violin")
    known = p.derive(Volumes).parts
    without = {part: q for part, q in known.items() if part != "button"}
    w = Weighed(p, without, p.derive(Masses).pieces)
    longer = {"button.length": float(p.values["button.length"]) + 1.0}
    then = w.changed(longer)
    assert then.bulk["button"] == p.with_many(longer).derive(Volumes).parts["button"]
    # One with a solid changes in the same share as its dimensions.
    doubled = {part: VolumeAt(2 * q.volume, q.x) for part, q in known.items()}
    both = Weighed(p, doubled, w.pieces).changed(longer)
    assert float(both.bulk["button"].volume) == pytest.approx(2 * float(then.bulk["button"].volume))


@pytest.mark.parametrize("long", range(1, 30))
def test_lines_about_unreached_targets_fit_the_screen(long: int) -> None:
    """A screen of 80 columns: common practice, no source."""
    then = SimpleNamespace(total=60.0, from_ferrule=190.0)
    stuck = ["n" * long, "stick.diameter_head", "x" * 7, "lapping.length", "ferrule.length"] * 2
    found = SimpleNamespace(
        met=False, changes={"lapping.length": 61.5}, then=then, stuck=stuck, sound=True, worse=[]
    )
    said = reached(found, SimpleNamespace(mass=60.0, balance=190.0))  # type: ignore[arg-type]
    assert max(map(len, said.splitlines())) <= 80
    assert said.count("lapping.length") == 3


# --- what was measured ----------------------------------------------------------------------------

MEASURED = """units = "mm"

[stick]
length = 700
form = "octagon"
head = "no"
stations = [[10, 8.6], [150, 8.2], [300, 7.5], [450, 6.7], [600, 5.9], [690, 5.4]]

[weighed]
mass = 40

[loaded]
weight = 500
deflection = 1
rear = 60
front = {front}
"""


def test_reports_a_support_beyond_the_stick_with_its_line(tmp_path: File) -> None:
    file = tmp_path / "measured.toml"
    file.write_text(MEASURED.format(front=760), "utf-8")
    with pytest.raises(InputError) as e:
        measured.read(str(file))
    (fault,) = [f for f in e.value.faults if "more than its length" in f.problem]
    assert (fault.file, fault.line, fault.key) == (str(file), 16, "loaded.front")
    assert "760" in fault.problem
    assert "700" in fault.problem


def test_default_mass_tolerance_is_a_tenth_of_a_gram(tmp_path: File) -> None:
    """A letter scale shows tenths of a gram; common practice, no source."""
    file = tmp_path / "measured.toml"
    file.write_text(MEASURED.format(front=640), "utf-8")
    assert measured.read(str(file)).tolerance("weighed.mass") == 0.1
    own = MEASURED.format(front=640).replace("mass = 40", "mass = {value = 40, tol = 0.5}")
    file.write_text(own, "utf-8")
    assert measured.read(str(file)).tolerance("weighed.mass") == 0.5


# --- scaling --------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("old", "new"), [("violin", "bass-german"), ("bass-german", "violin"), ("viola", "cello")]
)
def test_a_scaled_starter_is_no_wider_than_a_starter(old: str, new: str) -> None:
    schema = registry.SCHEMA
    text = refreshed(starter(old, schema), old, new, schema)
    widest = max(map(len, starter(new, schema).splitlines()))
    assert max(map(len, text.splitlines())) <= widest


@pytest.mark.parametrize(
    ("margin", "hair"), [(-0.009, True), (-0.011, False), (-0.5, False), (0.05, False)]
)
def test_marginal_failure_is_within_a_tenth_of_the_close_band(margin: float, hair: bool) -> None:
    """With a limit of 1, margins below 0.1 are close; a failure below 0.01 is marginal."""
    bound = at_least(1.0 + margin, 1.0)
    rule = Rule(
        "toy.wall", "says", lambda p: bound, Severity.WARNING, "", "mm", 0.1, lambda p: None
    )
    result = Result(rule, 1.0 + margin, 1.0, margin, ">=", ())
    assert _by_a_hair(result) == hair


# --- routing templates ----------------------------------------------------------------------------


@pytest.mark.parametrize(("guide", "outside"), [(Guide.BEARING, 6.5), (Guide.COLLAR, None)])
def test_collar_is_wider_than_its_cutter_and_bearing_may_be_equal(
    guide: Guide, outside: float | None
) -> None:
    """A collar needs half a millimetre of wall round the cutter. Common practice, no source.

    A tongue 0.7 wide vanishes at an offset of 0.35.
    """
    job = Job(Guided(rectangle(0, 0, 20, 0.7), False, 10.0, 6.0), 9.0, (), ())
    assert SHOP.profile_cutter is not None
    cutter = replace(SHOP.profile_cutter, cutter=6.0, outside=10.0, guide=guide)
    cure = checks._narrower(KINDS[0], job, cutter)
    assert (cure.value if cure else None) == outside


def test_reports_an_empty_offset_with_both_coordinates() -> None:
    description = checks._consumed(GeometryError("nothing is left", (12.5, -3.0)))
    assert description.startswith("the offset leaves a template at (12.5, -3.0), where")


def test_the_slide_channels_long_sides_are_scribed_on_its_template() -> None:
    """From heel to ferrule end, as far apart as the channel is wide at each."""
    p = stated("violin", {"slide.width_taper": 0.3})
    v = p.values
    job = KINDS[1].job(p, SHOP.dovetail_cutter)
    sides = [s.path for s in job.around if s.layer is Layer.SCRIBE]
    assert len(sides) == 2
    shoulder = v["frog.length_bottom"] - v["ferrule.length"]
    wide = (v["slide.width_front"] + v["slide.channel_fit"]) / 2
    for path in sides:
        left, low, right, high = path.box
        assert right - left == pytest.approx(v["slide.length"], abs=0.5)
        assert right == pytest.approx(shoulder, abs=1e-6)
        assert max(abs(low), abs(high)) == pytest.approx(wide, abs=1e-6)
        assert high - low == pytest.approx(v["slide.width_taper"] / 2, abs=0.01)
    assert sides[0].box[1] * sides[1].box[1] < 0


@pytest.mark.parametrize(("rim", "cure"), [(62.0, None), (63.0, 62.0), (70.0, 62.0)])
def test_the_cure_for_a_template_too_wide_for_a_page_is_the_widest_rim_that_fits(
    monkeypatch: pytest.MonkeyPatch, rim: float, cure: float | None
) -> None:
    """On a paper that has room for a rim of 62 mm and no more."""
    monkeypatch.setattr(checks, "template", lambda job, cutter, plate: plate)
    monkeypatch.setattr(checks, "free_space", lambda plate, *_: 62.0 - plate.rim)
    job = Job(Guided(rectangle(0, 0, 20, 9), False, 6.0, 6.0), 9.0, (), ())
    of = replace(SHOP, plate=replace(SHOP.plate, rim=rim))
    assert SHOP.profile_cutter is not None
    told = checks._one_page(KINDS[0], job, SHOP.profile_cutter, of, "a4")
    assert (told.cure.value if told.cure else None) == cure
    assert (told.result.verdict == "fail") == (rim > 62.0)
