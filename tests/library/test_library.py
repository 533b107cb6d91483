"""What the library promises beside its examples."""

import json
import re
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from readers import dxf_raw

import templates_gen as tg
from templates_gen.parameters.families import FAMILIES

PARAMS = Path(__file__).parents[2] / "params"
FILES = sorted(f for f in PARAMS.glob("*.toml") if "[pattern]" in f.read_text("utf-8"))
#: Fails three error-checks: the mortise is far too deep.
TOO_DEEP = ("frog.hair_mortise_depth", 18)


@pytest.fixture(scope="module")
def dunlin():
    return tg.new("bass-french", "Dunlin")


@pytest.fixture(scope="module")
def failing(dunlin):
    return dunlin.set(*TOO_DEEP)


# --- the package ---------------------------------------------------------------------------------


def test_import_is_light():
    code = (
        "import sys, templates_gen as tg; dir(tg); "
        "print([m for m in ('numpy', 'cadquery', 'ezdxf') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


def test_every_name_in_dir_is_there():
    assert all(getattr(tg, name) is not None for name in dir(tg))
    named = {
        "read new Pattern declarations templates check outline solid assembly draw write_dxf",
        "write_svg scale weigh fit InputError ChecksFailed",
    }
    assert set(dir(tg)) == {name for line in named for name in line.split()}


def test_unknown_name_is_an_attribute_error():
    with pytest.raises(AttributeError, match="no attribute 'drwa'"):
        tg.drwa


# --- set -----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("changes", "words"),
    [
        ({"ferrule.outer_widht": 23}, "unknown key; the nearest known name is `outer_width`"),
        ({"ferule.outer_width": 23}, "unknown section; the nearest known name is `ferrule`"),
        ({"outer_width": 23}, "`outer_width` belongs in [ferrule]"),
        ({"ferrule.outer_width": 99}, "outside the possible range of 8 to 34 mm"),
        ({"ferrule.outer_width": "23"}, "is a text, not a number"),
        ({"ferrule.outer_width": True}, "not a number"),
        ({"ferrule.outer_width": float("nan")}, "ferrule.outer_width: "),
        ({"ferrule.outer_width": {"value": 23, "tol": -1}}, "tol = -1 is negative"),
        ({"ferrule.outer_width": {"value": 23, "tol": 12}}, "is too much for a value of 23"),
        ({"hair.count": 180.5}, "not a whole number"),
        ({"material.stick_wood": "pernambuko"}, 'the nearest is "pernambuco"'),
        ({"stick.stations": [[0, 8], [10, 8]]}, "at least 3 are needed"),
        ({"pattern.name": ""}, "the text is empty"),
        ({"pattern.family": "celo"}, 'the nearest is "cello"'),
        ({"based_on": "cello"}, "cannot be set"),
        ({"units": "inch"}, 'is not the unit "mm"'),
        ({"units.length": 1}, "is not the unit"),
    ],
)
def test_refuses_what_a_file_may_not_state(dunlin, changes, words):
    with pytest.raises(tg.InputError) as e:
        dunlin.set(changes)
    assert words in str(e.value)


def test_reports_every_fault_at_once(dunlin):
    with pytest.raises(tg.InputError) as e:
        dunlin.set({"ferrule.outer_width": 99, "frog.length_bottom": 999})
    assert {f.key for f in e.value.faults} == {"ferrule.outer_width", "frog.length_bottom"}


def test_refuses_values_that_conflict():
    """Each value is possible; together they are not, as in a file."""
    rows = [[0, 8.6], [100, 8.6], [120, 5.5]]
    with pytest.raises(tg.InputError) as e:
        tg.new("violin").set({"stick.graduation": "stations", "stick.stations": rows})
    # The handle ends at 110 mm, where these stations are thinner than the 8.6 stated for it.
    assert {f.key for f in e.value.faults} == {"stick.stations"}
    assert "at 110 mm" in str(e.value)


def test_set_changes_nothing_else(dunlin):
    made = dunlin.set("ferrule.outer_width", 23)
    assert {k for k, v in made if v != dunlin[k]} == {"ferrule.outer_width"}
    assert dunlin["ferrule.outer_width"] == 22.5
    assert made.identity == dunlin.identity


def test_takes_numpys_numbers_and_words_of_a_choice(dunlin):
    p = dunlin.set({"ferrule.outer_width": np.float64(23.0), "hair.count": np.int64(200)})
    assert (p["ferrule.outer_width"], p["hair.count"]) == (23.0, 200.0)
    assert dunlin.set("material.stick_wood", "ipe")["material.stick_wood"] == "ipe"


def test_warns_of_what_is_unusual(dunlin):
    p = dunlin.set("ferrule.outer_width", 30)
    assert any("ferrule.outer_width: 30 mm is above the usual range" in w for w in p.warnings)
    assert dunlin.warnings == ()


def test_reading_an_unknown_key_names_the_nearest(dunlin):
    with pytest.raises(KeyError, match=r"near it: frog\.eye_to_mortise"):
        tg.check(dunlin)["frog.eye_to_mortis"]
    with pytest.raises(KeyError, match=r"nearest is ferrule\.outer_width"):
        dunlin["ferrule.outer_widht"]


# --- files ---------------------------------------------------------------------------------------


@pytest.mark.parametrize("file", FILES, ids=lambda f: f.stem)
def test_unchanged_pattern_gives_its_own_file_back(file):
    p = tg.read(file)
    if 'based_on = "' not in file.read_text("utf-8"):
        assert p.to_toml() == file.read_text("utf-8")


@pytest.mark.parametrize("file", FILES, ids=lambda f: f.stem)
def test_changed_pattern_reads_back_the_same(file, tmp_path):
    p = tg.read(file)
    width = {"value": p["ferrule.outer_width"] + 0.1, "tol": 0.03, "note": "as filed"}
    p = p.set({"ferrule.outer_width": width, "pattern.name": "Wren", "slide.length": 30})
    (tmp_path / "wren.toml").write_text(p.to_toml(), "utf-8")
    again = tg.read(tmp_path / "wren.toml")
    assert again.digest == p.digest
    assert again.notes == p.notes


@settings(max_examples=20, deadline=None)
@given(st.data())
def test_any_possible_numbers_read_back_the_same(data):
    """For numbers in their ranges, drawn at random: the hash on the sheets is the file's."""
    p = tg.new(data.draw(st.sampled_from(sorted(FAMILIES))))
    numbers = [q for q in tg.declarations().values() if q.numeric and not q.whole]
    chosen = data.draw(st.lists(st.sampled_from(numbers), max_size=4, unique_by=lambda q: q.key))
    changes = {q.key: data.draw(st.floats(q.low, q.high)) for q in chosen}
    try:
        p = p.set(changes)
    except tg.InputError:
        return
    from templates_gen import registry
    from templates_gen.parameters.read import read_text

    assert read_text(p.to_toml(), registry.SCHEMA).digest == p.digest


def test_comments_stay(dunlin, tmp_path):
    text = dunlin.to_toml().replace("[ferrule]", "[ferrule]  # the old one from the drawer")
    (tmp_path / "a.toml").write_text(text, "utf-8")
    assert (
        "# the old one from the drawer"
        in tg.read(tmp_path / "a.toml").set("ferrule.outer_width", 23).to_toml()
    )


def test_scaled_pattern_has_a_file_too(dunlin, tmp_path):
    cello = tg.scale(dunlin, "cello").pattern
    (tmp_path / "cello.toml").write_text(cello.to_toml(), "utf-8")
    assert tg.read(tmp_path / "cello.toml").digest == cello.digest


# --- checks --------------------------------------------------------------------------------------


def test_report_counts_and_finds(failing):
    report = tg.check(failing)
    assert not report.ok
    assert [c.id for c in report.failing] == [
        c.id for c in report if c.verdict == "fail" and c.result.stops
    ]
    assert len(report) == len(list(report)) == len(report.checks)
    one = report["frog.eye_to_mortise"]
    assert one.margin == pytest.approx(one.measured - one.limit)
    assert report[0] is report.checks[0]
    assert f"{len(report.failing)} fail" in repr(report)
    with pytest.raises(KeyError, match="not a check of this pattern"):
        report["frog.nothing"]


def test_report_prints_as_the_command_does(failing, tmp_path, monkeypatch, capsys):
    from templates_gen.cli import main

    monkeypatch.chdir(tmp_path)
    Path("dunlin.toml").write_text(failing.to_toml(), "utf-8")
    main(["check", "dunlin.toml"])
    printed = capsys.readouterr().out
    for line in str(tg.check(failing)).splitlines():
        assert line in printed


def test_verdict_cannot_be_handed_in(dunlin, failing):
    """A report is made of a pattern alone; it cannot be changed, and more checks only add."""
    passing = tg.check(dunlin)
    with pytest.raises((AttributeError, TypeError)):
        tg.check(failing).pattern = dunlin
    with pytest.raises(TypeError):
        type(passing)(failing, (), passing.results)
    more = type(passing)(failing, passing.checks)
    assert not more.ok and len(more.failing) == len(tg.check(failing).failing)


# --- drawing -------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "write",
    [
        lambda p: tg.draw(p, "out", plane=True),
        lambda p: tg.write_dxf(p, "frog-side", "out.dxf", plane=True),
        lambda p: tg.write_svg(p, "frog-side", "out.svg", plane=True),
    ],
    ids=["draw", "write_dxf", "write_svg"],
)
def test_failing_pattern_is_not_drawn(write, failing, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(tg.ChecksFailed) as e:
        write(failing)
    assert [c.id for c in e.value.report.failing] == [c.id for c in tg.check(failing).failing]
    assert "frog.eye_to_mortise" in str(e.value) and "Cure: make" in str(e.value)
    assert not list(tmp_path.iterdir())


def test_forced_drawing_says_so_on_every_sheet(failing, tmp_path):
    files = tg.draw(failing, tmp_path, formats=["svg", "dxf"], plane=True, force=True)
    sheets = [f for f in files if f.suffix in (".svg", ".dxf")]
    assert len(sheets) > 100
    for file in sheets:
        text = file.read_text("utf-8")
        assert "FORCED: 3 checks fail; do not cut" in text, file.name
        assert "3 fail" in text, file.name
    told = json.loads((tmp_path / "manifest.json").read_text("utf-8"))
    assert sum(c["verdict"] == "fail" for c in told["checks"]) >= 3


def test_one_template_to_one_file(dunlin, tmp_path):
    file = tg.write_dxf(dunlin, "ferrule-mandrel", tmp_path / "a" / "mandrel.dxf", plane=True)
    drawn = dxf_raw.read(file.read_bytes())
    (outline,) = [e for e in drawn.entities if e.layer == "OUTLINE"]
    xs = [corner.real for corner, _ in outline.corners]
    path = tg.outline(dunlin, "ferrule", "mandrel")
    assert max(xs) - min(xs) == pytest.approx(path.box[2] - path.box[0], abs=1e-6)
    assert [f.name for f in file.parent.iterdir()] == ["mandrel.dxf"]


@pytest.mark.parametrize(
    ("call", "words"),
    [
        (lambda p: tg.draw(p, "out", formats="dwg"), "no such format; choose from dxf"),
        (lambda p: tg.draw(p, "out", formats=[]), "no such format"),
        (lambda p: tg.draw(p, "out", only="frogg"), "no such template"),
        (lambda p: tg.write_dxf(p, "frog", "out.dxf", plane=True), "name one template"),
        (lambda p: tg.outline(p, "frog", "sid"), "the nearest is frog-side"),
        (lambda p: tg.outline(p, "form", "ordinates"), "cuts nothing"),
        (lambda p: tg.solid(p, "frgo"), "the nearest is frog"),
        (lambda p: tg.assembly(p, at="middle"), "choose from play, rearmost, foremost"),
        (lambda p: tg.new("bass"), "is not a family"),
    ],
)
def test_wrong_names_are_refused(call, words, dunlin, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    with pytest.raises(tg.InputError) as e:
        call(dunlin)
    assert words in str(e.value)
    assert not list(tmp_path.iterdir())


# --- outlines, solids, pictures ------------------------------------------------------------------


def test_outline_is_what_the_file_has(dunlin, tmp_path):
    """Area by the shoelace formula with arcs as fine polygons, from the DXF's own numbers."""
    file = tg.write_dxf(dunlin, "frog-side", tmp_path / "frog.dxf", plane=True)
    (outline,) = [e for e in dxf_raw.read(file.read_bytes()).entities if e.layer == "OUTLINE"]
    ring = []
    corners = outline.corners
    for (a, bulge), (b, _) in zip(corners, corners[1:] + corners[:1], strict=True):
        # A bulge is the tangent of a quarter of the arc's angle. Source: DXF reference, LWPOLYLINE.
        turn = 4 * np.arctan(bulge)
        if turn:
            centre = (a + b) / 2 + 1j * (b - a) / 2 / np.tan(turn / 2)
            ring += list(centre + (a - centre) * np.exp(1j * np.linspace(0, turn, 2000)[:-1]))
        else:
            ring.append(a)
    z = np.array(ring)
    area = float(np.sum(np.conj(z) * np.roll(z, -1)).imag / 2)
    side = tg.outline(dunlin, "frog", "side")
    assert side.closed
    assert side.area == pytest.approx(abs(area), rel=1e-6)


@pytest.mark.kernel
def test_wire_is_the_outline(dunlin):
    """CadQuery's own length and area of the wire, in each plane."""
    import cadquery as cq

    side = tg.outline(dunlin, "frog", "side")
    for plane, normal in (("XY", "z"), ("XZ", "y"), ("YZ", "x")):
        wire = side.to_wire(plane, 5.0)
        face = cq.Face.makeFromWires(wire)
        assert wire.Length() == pytest.approx(side.length, rel=1e-9)
        assert face.Area() == pytest.approx(side.area, rel=1e-9)
        assert getattr(face.Center(), normal) == pytest.approx(5.0, abs=1e-9)


@pytest.mark.kernel
def test_assembly_moves_the_frog_and_leaves_the_head(dunlin):
    """The frog's travel is the eyelet's in its mortise; the head does not move."""
    there = {at: tg.assembly(dunlin, at=at) for at in ("rearmost", "foremost")}

    def left(assembly, part):
        return assembly.objects[part].obj.BoundingBox().xmin

    rear, front = there["rearmost"], there["foremost"]
    assert left(front, "frog") - left(rear, "frog") > 1.0
    assert left(front, "ferrule") - left(rear, "ferrule") == pytest.approx(
        left(front, "frog") - left(rear, "frog"), abs=1e-6
    )
    assert left(front, "head") == pytest.approx(left(rear, "head"), abs=1e-9)


def test_notebook_picture_is_the_frog_at_true_size(dunlin):
    svg = dunlin._repr_svg_()
    wide = float(re.search(r'<svg[^>]* width="([\d.]+)mm"', svg)[1])
    box = tg.outline(dunlin, "frog", "side").box
    assert wide >= box[2] - box[0]
    assert 'id="OUTLINE"' in svg and "Dunlin" in svg


def test_results_print(dunlin):
    scaled = tg.scale(dunlin, settings={"ferrule.outer_width": 23})
    assert "ferrule.outer_width" in str(scaled) and "22.5 → 23" in str(scaled)
    assert len(repr(scaled)) < 100
    assert "0x" not in repr(tg.templates(dunlin)[:3]) + repr(tg.check(dunlin).checks[:3])
    assert repr(dunlin) == '<Pattern "Dunlin", bass-french, 150 parameters>'


BLANK = """units = "mm"
[stick]
form = "octagon"
head = "no"
length = 712
stations = [[0, 9.6], [100, 9.55], [250, 9.15], [400, 8.6], [550, 7.75], [705, 6.6]]
[weighed]
mass = 42.0
[tapped]
held = "free"
frequency = 81.4
"""


def test_fitted_pattern_prints_and_reads_back(tmp_path):
    (tmp_path / "blank.toml").write_text(BLANK, "utf-8")
    fitted = tg.fit(tg.new("violin", "Sanderling"), tmp_path / "blank.toml", keep="mass")
    assert f"diameters × {fitted.factor:.4f}" in str(fitted)
    assert len(repr(fitted)) < 100
    (tmp_path / "soft.toml").write_text(fitted.pattern.to_toml(), "utf-8")
    assert tg.read(tmp_path / "soft.toml").digest == fitted.pattern.digest


@pytest.mark.kernel
def test_weighed_bow_prints_as_a_table(dunlin):
    w = tg.weigh(dunlin)
    assert f"{w.total:.2f}" in str(w) and f"{w.total:.2f} g" in repr(w)
    assert all(piece.name in str(w) for piece in w.pieces)
    assert sum(float(piece.mass) for piece in w.pieces) == pytest.approx(w.total, abs=1e-9)
