"""What weighing proposes can be made: judged as `check` judges a file that states it."""

import json

import pytest
from command.calls import call, write
from outside.maker import PARAMS

from templates_gen import registry
from templates_gen.bench.scale.stated import parsed
from templates_gen.bench.weigh import table
from templates_gen.bench.weigh.levers import NUMBERS, TOGETHER, WORDS, levers, usual
from templates_gen.bench.weigh.reach import reach_target
from templates_gen.bench.weigh.target import Target
from templates_gen.bench.weigh.weighing import Weighed
from templates_gen.parameters.families import bands
from templates_gen.parameters.rewrite import set_values
from templates_gen.parts.ferrule.params import ArchKind
from templates_gen.parts.heel.params import HeelKind
from templates_gen.parts.material.params import LappingKind
from templates_gen.shapes.graduation import GraduationKind

VIOLIN = (PARAMS / "violin.toml").read_text("utf-8")
#: The wood above the stick's mortise goes with the thickness there, whatever else is moved.
HANDLE = ["stick.across_flats_handle_end"]
#: What fine silver wire is drawn to (mm). From memory: common practice, no source.
SILVER = (0.25, 0.3)


def checked(capsys, changes):
    """The checks of a file that states the changes, and what `check` ends with."""
    write("answer.toml", set_values(VIOLIN, dict(changes)))
    said = call(capsys, "check", "--json", "answer.toml")
    return said.status, {c["id"]: c for c in json.loads(said.out)["checks"]}


@pytest.fixture(autouse=True)
def folder(monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)


@pytest.mark.parametrize("target", [(55.0, None), (55.0, 198.0), (57.0, None)])
def test_prefers_an_answer_without_failing_checks(capsys, bow, target):
    """The least change for each of these breaks the mortise's roof or the frog's walls."""
    found = reach_target(bow, Target(*target), [])
    assert found.met and found.sound
    status, _ = checked(capsys, found.changes)
    assert status == 0


def test_reports_the_checks_that_the_only_answer_fails(capsys, bow):
    found = reach_target(bow, Target(57.0), HANDLE)
    assert found.met and not found.sound
    status, after = checked(capsys, found.changes)
    _, before = checked(capsys, {})
    assert status == 1
    order = ("pass", "close", "fail")
    worse = [
        i for i in after if order.index(after[i]["verdict"]) > order.index(before[i]["verdict"])
    ]
    told = table.reached_data(found, Target(57.0))
    assert told["sound"] is False
    assert [each["id"] for each in told["worse"]] == worse
    for each in told["worse"]:
        now, was = after[each["id"]], before[each["id"]]
        assert (each["was"], each["is"]) == (was["verdict"], now["verdict"])
        assert each["margin"] == pytest.approx(now["margin"], abs=1e-9)
        assert each["margin_was"] == pytest.approx(was["margin"], abs=1e-9)
        assert each["severity"] == now["severity"]
    said = table.reached(found, Target(57.0)).splitlines()
    assert all(len(line) <= 80 for line in said)
    roof = after["stick.mortise_roof"]
    assert any(
        "stick.mortise_roof: close → fail" in line and f"→ {roof['margin']:+.3f} mm" in line
        for line in said
    )
    assert len([line for line in said if "→" in line]) == len(worse)


def test_reports_a_sound_answer(bow):
    found = reach_target(bow, Target(59.5), ["lapping.gauge"])
    assert found.sound
    assert "no check is worse" in table.reached(found, Target(59.5))


def test_values_that_change_together_stay_usual(bow):
    """The frog's top goes with its waist, and is usually 8.3 to 9 mm: the families' table."""
    found = reach_target(bow, Target(70.0), ["frog.width_waist"])
    assert not found.met
    assert found.changes == {"frog.width_waist": 8.4, "frog.width_top": 9.0}
    assert found.stuck == ("frog.width_top",)
    assert "frog.width_top" in table.reached(found, Target(70.0))


@pytest.mark.parametrize("target", [(55.0, None), (64.0, 188.0), (68.0, 180.0), (80.0, 150.0)])
def test_every_number_set_is_usual(bow, target):
    found = reach_target(bow, Target(*target), [])
    rows = bands("violin")
    along = {k for key in NUMBERS for k in TOGETHER.get(key, (key,))}
    for key in along & set(found.changes):
        assert rows[key].low - 1e-9 <= found.changes[key] <= rows[key].high + 1e-9, key
    if found.then.pattern.values["lapping.kind"] == "silver wire":
        low, high = SILVER
        assert low <= found.then.pattern.values["lapping.gauge"] <= high


def test_silver_is_wound_no_thicker_than_it_is_drawn(bow):
    silver = bow.changed({"lapping.kind": LappingKind.SILVER, "lapping.gauge": 0.28})
    found = reach_target(silver, Target(80.0), ["lapping.gauge"])
    assert found.changes["lapping.gauge"] == SILVER[1]
    assert usual(silver.pattern, "lapping.gauge") == SILVER


@pytest.mark.parametrize(
    ("kind", "gauge", "verdict"),
    [
        ("silver wire", 0.25, "pass"),
        ("silver wire", 0.3, "pass"),
        ("silver wire", 0.33, "fail"),
        ("silver wire", 0.7, "fail"),
        ("whalebone substitute", 0.7, "pass"),
        ("whalebone substitute", 0.28, "fail"),
        ("thread", 0.28, "pass"),
        ("thread", 0.7, "fail"),
    ],
)
def test_what_gauge_is_usual_goes_by_the_kind(capsys, kind, gauge, verdict):
    status, found = checked(capsys, {"lapping.kind": kind, "lapping.gauge": gauge})
    assert found["lapping.gauge_usual"]["verdict"] == verdict
    assert found["lapping.gauge_usual"]["severity"] == "warning"
    assert status == 0


def test_no_gauge_check_without_a_lapping(capsys):
    _, found = checked(capsys, {"lapping.kind": "none", "lapping.gauge": 0.7})
    assert "lapping.gauge_usual" not in found


def test_an_answer_can_be_pasted(bow):
    """Each line is as TOML has it, and the bow a file with them makes is the one promised."""
    import tomllib

    found = reach_target(bow, Target(64.0), ["lapping.kind"])
    target = Target(64.0)
    lines = [x for x in table.reached(found, target).splitlines() if " = " in x]
    assert '    lapping.kind = "silver wire"' in lines
    assert parsed(lines) == dict(found.changes)
    stated = tomllib.loads("\n".join(lines))["lapping"]
    assert stated == {"kind": "silver wire", "gauge": 0.28}


def test_answer_says_to_edit_the_file(bow):
    """`scale --set` carries the rest of the bow along, so it would miss the target."""
    (told,) = (x for x in _lines(reach_target(bow, Target(64.0), []), 64.0) if "scale --set" in x)
    assert "edit these in the file" in told and len(told) <= 80
    nothing = reach_target(bow, Target(bow.total), [])
    assert not any("scale --set" in x for x in _lines(nothing, bow.total))


def _lines(found, mass):
    return table.reached(found, Target(mass)).splitlines()


#: A stick measured at four places, as the violin's starter has it at its handle's end and head.
STATIONS = ((0.0, 8.6), (110.0, 8.6), (400.0, 7.2), (704.0, 5.3))
#: Bows of which a number a little moved is refused: a bend of 0.55 mm takes sheet no thicker, a
#: half circle 13 mm wide must rise 6.5, a flat top has corners of 0.1 within its sheet.
REFUSING = {
    "heel": {"heel.bottom_radius": 0.55, "heel.kind": HeelKind.ONE_PIECE},
    "half-circle": {
        "ferrule.arch_kind": ArchKind.HALF_CIRCLE,
        "ferrule.height": 7.9,
        "ferrule.outer_width": 13.0,
        "ferrule.plate_thickness": 1.3,
    },
    "flat-top": {"ferrule.arch_kind": ArchKind.FLAT_TOP, "ferrule.arch_corner_radius": 0.85},
    "two-piece": {"heel.bottom_radius": 0.5, "heel.kind": HeelKind.TWO_PIECE},
}


def with_values(bow, values):
    changed = bow.changed(values)
    assert registry.faults(changed.pattern) == []
    return Weighed(changed.pattern, changed.bulk, changed.pieces)


@pytest.fixture
def measured(bow):
    return with_values(
        bow, {"stick.graduation": GraduationKind.STATIONS, "stick.stations": STATIONS}
    )


def test_thicknesses_of_a_measured_stick_are_not_levers(bow, measured):
    def sticks(w):
        return {key for lever in levers(w) for key in lever.changes if key.startswith("stick.")}

    assert len(sticks(bow)) == 3
    assert sticks(measured) == set()


@pytest.mark.parametrize("target", [(56.0, None), (54.0, 200.0), (66.0, None)])
def test_a_measured_stick_is_not_planed(measured, target):
    found = reach_target(measured, Target(*target), [])
    assert not any(key.startswith("stick.") for key in found.changes)
    assert registry.faults(found.then.pattern) == []


@pytest.mark.parametrize("kind", REFUSING)
def test_no_lever_makes_an_invalid_bow(bow, kind):
    w = with_values(bow, REFUSING[kind])
    for lever in levers(w):
        assert registry.faults(w.pattern.with_many(lever.changes)) == [], lever.description


@pytest.mark.parametrize("kind", REFUSING)
@pytest.mark.parametrize("mass", [57.0, 59.5, 62.0, 90.0])
@pytest.mark.parametrize("part", ["heel", "ferrule"])
def test_no_answer_is_an_invalid_bow(bow, kind, mass, part):
    """By that part's own levers, within reach or out of it."""
    w = with_values(bow, REFUSING[kind])
    move = [key for key in (*WORDS, *NUMBERS) if key.startswith(f"{part}.")]
    found = reach_target(w, Target(mass), move)
    assert registry.faults(w.pattern.with_many(found.changes)) == []
    assert found.refused is False


def test_sheet_goes_as_thick_as_its_bend_allows(bow):
    """Sheet 0.5 mm thick, usually to 0.8: round a bend of 0.55 it may be 0.55."""
    w = with_values(bow, REFUSING["heel"])
    found = reach_target(w, Target(90.0), ["heel.plate_thickness"])
    assert found.changes == {"heel.plate_thickness": pytest.approx(0.55, abs=0.011)}
    assert found.changes["heel.plate_thickness"] <= 0.55


def test_the_lapping_is_called_by_one_name(bow):
    (kind,) = {q.material for q in bow.pieces if q.name == "lapping"}
    assert kind == bow.pattern.values["lapping.kind"] == "whalebone substitute"
