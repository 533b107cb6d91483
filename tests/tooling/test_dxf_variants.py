"""DXF without bulges and DXF R12, read back by ezdxf and by GDAL (pyogrio)."""

import dataclasses
import io
import logging
import math
import subprocess
import sys

import ezdxf
import pyogrio
import pytest
import shapely
from command.calls import SOUND, call, write
from ezdxf import recover
from geometry_referee import sample
from outside.maker import stated
from readers import corpus, dxf_others, dxf_raw
from shapely.geometry import LineString

from templates_gen.drawing.sheet import Label, Layer
from templates_gen.pipeline import output, rendering
from templates_gen.pipeline.output import OutputOptions
from templates_gen.writers import dxf

SHEETS = [("violin", "frog-side"), ("violin", "ferrule-mandrel"), ("violin", "heel-plate")]


def made(stem, name, kind):
    sheet = corpus.sheet(stem, name)
    (data,) = output.files("a", "A", [sheet], ("dxf",), OutputOptions(dxf=kind)).values()
    return sheet, data


def text(data):
    """Decode the file as a reader does: up to R2004 by its code page, later as UTF-8.

    Source: DXF reference, $DWGCODEPAGE and $ACVER (from memory).
    """
    return data.decode("cp1252" if b"AC1009" in data else "utf-8")


def entities(data):
    return list(ezdxf.read(io.StringIO(text(data))).modelspace())


@pytest.mark.parametrize(("stem", "name"), SHEETS)
def test_flattened_has_no_bulges_and_keeps_the_chord_tolerance(stem, name):
    """Dense points of every arc against the written polyline, with shapely."""
    sheet, data = made(stem, name, "flattened")
    lines = [e for e in entities(data) if e.dxftype() == "LWPOLYLINE"]
    assert all(b == 0 for e in lines for _, _, b in e.get_points("xyb"))
    ox, oy = sheet.datum
    drawn = [s.path.moved(-ox, -oy) for s in sheet.strokes if s.path.as_circle() is None]
    assert len([e for e in entities(data) if e.dxftype() == "CIRCLE"]) == len(sheet.strokes) - len(
        drawn
    )
    for path, line in zip(drawn, lines, strict=False):
        assert bool(line.closed) == path.closed
        points = [p[:2] for p in line.get_points("xy")]
        chain = LineString([*points, points[0]] if path.closed else points)
        off = [
            chain.distance(shapely.Point(p)) for p in sample(path, max(2, round(path.length * 5)))
        ]
        assert max(off) <= 0.01 + 1e-6
    assert any(len(p.segments) < len(one) for p, one in zip(drawn, lines, strict=False))


def test_flattened_has_the_fewest_chords():
    """n = ceil(π / acos(1 - e/r)) a full turn. Source: the sagitta of a chord."""
    sheet, data = made("violin", "frog-side", "flattened")
    lines = [e for e in entities(data) if e.dxftype() == "LWPOLYLINE"]
    outline = next(s.path for s in sheet.strokes if s.layer is Layer.OUTLINE)
    (line,) = [e for e in lines if e.dxf.layer == "OUTLINE"][:1]
    meant = sum(
        1
        if p.is_line
        else math.ceil(abs(p.turn) / (2 * math.acos(1 - dxf.CHORD / p.radius)) - 1e-9)
        for p in outline.segments
    )
    assert len(line) == meant


@pytest.mark.parametrize("kind", ["flattened", "r12"])
@pytest.mark.parametrize(("stem", "name"), SHEETS)
def test_gdal_reads_the_same_lines(stem, name, kind):
    """Compare layers, areas, lengths and boxes; GDAL flattens arcs."""
    pyogrio.set_gdal_config_options({"OGR_ARC_STEPSIZE": "0.02"})
    _, arcs = made(stem, name, "arcs")
    _, other = made(stem, name, kind)
    one, two = (dxf_others.by_gdal(d) for d in (arcs, other))
    assert len(one) == len(two) > 10
    off = 0.02 if kind == "flattened" else 1e-4
    for a, b in zip(one, two, strict=True):
        assert (a.layer, a.closed) == (b.layer, b.closed)
        assert b.box == pytest.approx(a.box, abs=off)
        assert b.area == pytest.approx(a.area, abs=off * max(1.0, a.length))


@pytest.mark.parametrize(("stem", "name"), SHEETS)
def test_r12_has_old_polylines_with_their_bulges(stem, name):
    sheet, data = made(stem, name, "r12")
    kinds = {e.dxftype() for e in entities(data)}
    assert kinds <= {"POLYLINE", "CIRCLE", "TEXT"}
    assert b"AC1009" in data
    ox, oy = sheet.datum
    lines = [e for e in entities(data) if e.dxftype() == "POLYLINE"]
    drawn = [s.path.moved(-ox, -oy) for s in sheet.strokes if s.path.as_circle() is None]
    for path, line in zip(drawn, lines, strict=False):
        assert bool(line.is_closed) == path.closed
        found = [(v.dxf.location.x, v.dxf.location.y, v.dxf.bulge) for v in line.vertices]
        for a, b in zip(found, path.vertices, strict=True):
            assert a == pytest.approx(b, abs=1e-6)


@pytest.mark.parametrize("kind", ["arcs", "flattened", "r12"])
def test_words_are_read_as_they_were_written(kind, tmp_path):
    """Signs beyond ASCII, in a file, by readers that find its encoding themselves.

    GDAL takes every file for Latin 1 (seen here), which R12 in code page 1252 agrees with.
    """
    latin, beyond = "× Ø ± é", "… − ≥ α"
    sheet = corpus.card(0)
    odd = [Label(words, (20.0, 250.0 + 9 * i)) for i, words in enumerate((latin, beyond))]
    sheet = dataclasses.replace(sheet, labels=(*sheet.labels, *odd))
    file = tmp_path / "a.dxf"
    file.write_bytes(dxf.write(sheet, dxf.Variant(kind)))
    doc, auditor = recover.readfile(file)
    assert auditor.errors == []
    assert {latin, beyond} <= {e.dxf.text for e in doc.modelspace() if e.dxftype() == "TEXT"}
    plain = ezdxf.readfile(file).modelspace()
    assert latin in {e.dxf.text for e in plain if e.dxftype() == "TEXT"}
    if kind == "r12":
        _, _, _, (words,) = pyogrio.raw.read(file, columns=["Text"])
        assert latin in {*words}


def test_r12_sheet_notes_that_it_has_no_unit():
    _, data = made("violin", "frog-side", "r12")
    assert b"INSUNITS" not in data
    said = [e.dxf.text for e in entities(data) if e.dxftype() == "TEXT"]
    assert said.count("R12 holds no unit: 1 unit is 1 mm") == 1
    for kind in ("arcs", "flattened"):
        header = dxf_raw.read(made("violin", "frog-side", kind)[1]).header
        assert header["$INSUNITS"][70].strip() == "4"
        assert header["$MEASUREMENT"][70].strip() == "1"


@pytest.mark.parametrize("kind", ["arcs", "flattened", "r12"])
def test_extents_are_right_and_bytes_repeat(kind):
    _, data = made("violin", "frog-side", kind)
    doc = ezdxf.read(io.StringIO(text(data)))
    assert doc.audit().errors == []
    boxes = [i.box for i in dxf_others.by_gdal(data)]
    low, high = doc.header["$EXTMIN"], doc.header["$EXTMAX"]
    assert low[0] <= min(b[0] for b in boxes) + 1e-6
    assert high[0] >= max(b[2] for b in boxes) - 1e-6
    assert made("violin", "frog-side", kind)[1] == data


def test_command_prints_the_note(capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    write("dunlin.toml", SOUND)
    argv = ("draw", "--plane", "-o", "out", "--only", "frog-side", "dunlin.toml", "--dxf", "r12")
    said = call(capsys, *argv)
    assert said.status == 0
    assert (
        said.err
        == "note: R12 holds no unit: 1 unit is 1 mm; tell your reader so, then measure the square\n"
    )
    assert "R12" not in call(capsys, *argv[:-1], "flattened").err
    assert "R12" not in call(capsys, *argv, "--format", "svg").err


def test_separate_process_prints_the_note_once(tmp_path):
    """A library's log goes to the error stream unless logging is set up."""
    (tmp_path / "dunlin.toml").write_text(SOUND)
    argv = ("draw", "--plane", "-o", "out", "--only", "frog", "dunlin.toml", "--dxf", "r12")
    command = [sys.executable, "-m", "templates_gen", *argv]
    said = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, check=True)
    assert len(list(tmp_path.glob("out/*.dxf"))) > 5
    assert said.stderr.splitlines() == [
        "note: R12 holds no unit: 1 unit is 1 mm; tell your reader so, then measure the square"
    ]


@pytest.mark.parametrize("kind", ["arcs", "flattened", "r12"])
def test_writing_logs_nothing_and_restores_logging(kind, caplog):
    before = logging.getLogger("ezdxf").level
    made("violin", "frog-side", kind)
    assert caplog.records == []
    assert logging.getLogger("ezdxf").level == before


def test_kind_of_dxf_does_not_change_svg_and_pdf():
    p = stated("violin")
    made = [
        rendering.render(
            rendering.check(p),
            formats=("svg", "pdf"),
            only=("frog-side",),
            plane=True,
            options=OutputOptions(dxf=kind),
        )
        for kind in ("arcs", "r12")
    ]
    for name in (n for n in made[0] if n.endswith((".svg", ".pdf"))):
        assert made[0][name] == made[1][name]
