"""Kerf compensation: half the kerf outward on parts, inward in holes, and a stamp."""

import io
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import ezdxf
import pytest
from command.calls import SOUND, call, refused, write
from geometry_referee import sample
from outside.maker import FAMILIES, stated
from shapely.geometry import Polygon

from templates_gen.bench.routing.templates import for_laser
from templates_gen.bench.routing.templates import templates as routing
from templates_gen.drawing.kerf import kerfed, stamp
from templates_gen.drawing.marks import box_of, label_corners, overlap
from templates_gen.drawing.sheet import CUTS, Layer
from templates_gen.drawing.view import HorizontalDim, View, all_strokes, cut, drill, pocket, scribe
from templates_gen.geometry import circle, polygon, rectangle
from templates_gen.geometry.flatten import flatten
from templates_gen.pipeline import output, rendering, selection
from templates_gen.pipeline.output import OutputOptions
from templates_gen.shop.read import usual
from templates_gen.shop.starter import STARTER

PLATE = View(
    "a plate",
    all_strokes(
        cut(rectangle(0, 0, 50, 50)),
        pocket(circle((25, 25), 5)),
        drill((10, 10), 3.0),
        scribe(rectangle(2, 2, 48, 48)),
    ),
    (HorizontalDim((0, 0), (50, 0), -1),),
)


def cuts(view):
    return [s for s in view.strokes if s.layer in CUTS]


def test_worked_values():
    """Worked by hand: kerf 0.2 makes 50 of a part 50.2 and a hole of 10 one of 9.8."""
    hole, part = cuts(kerfed([PLATE], 0.2)[0])
    left, low, right, high = part.path.box
    assert (right - left, high - low) == pytest.approx((50.2, 50.2), abs=1e-9)
    _, r = hole.path.as_circle()
    assert 2 * r == pytest.approx(9.8, abs=1e-9)
    assert hole.layer is Layer.POCKET and part.layer is Layer.OUTLINE


def test_moves_only_cuts_and_puts_inside_cuts_first():
    (view,) = kerfed([PLATE], 0.2)
    assert view.dimensions == PLATE.dimensions
    rest = [s for s in PLATE.strokes if s.layer not in CUTS]
    assert [s for s in view.strokes if s.layer not in CUTS] == rest
    assert [s.layer for s in view.strokes[:2]] == [Layer.POCKET, Layer.OUTLINE]


def test_nested_outlines_alternate_between_part_and_hole():
    nested = View("", all_strokes(*(cut(rectangle(i, i, 50 - i, 50 - i)) for i in (0, 10, 20))))
    hole, outer, island = cuts(kerfed([nested], 1.0)[0])
    assert hole.path.box == pytest.approx((10.5, 10.5, 39.5, 39.5))
    assert outer.path.box == pytest.approx((-0.5, -0.5, 50.5, 50.5))
    assert island.path.box == pytest.approx((19.5, 19.5, 30.5, 30.5))


@pytest.mark.parametrize("family", ["violin", "bass-french"])
def test_every_cut_is_offset_by_half_the_kerf(family):
    """Points of each offset cut against the finished one; holes recognized with shapely."""
    p, kerf = stated(family), 0.2
    for t in selection.templates(p):
        for before, after in zip(rendering.views(p, t), kerfed(t.views(p), kerf), strict=True):
            finished = cuts(before)
            assert len(cuts(after)) == len(finished)
            for stroke in cuts(after):
                (own,) = [s for s in finished if _beside(s.path, stroke.path, kerf / 2)]
                grown = (
                    Polygon(flatten(stroke.path, 1e-4)).area - Polygon(flatten(own.path, 1e-4)).area
                )
                hole = own.layer is Layer.POCKET or _within(own, finished)
                assert (grown < 0) == hole, t.name


def _beside(finished, moved, off):
    return all(abs(finished.distance(q) - off) <= 1e-6 for q in sample(moved, 40))


def _within(stroke, finished):
    shape = Polygon(flatten(stroke.path, 1e-3))
    around = [Polygon(flatten(s.path, 1e-3)) for s in finished if s is not stroke]
    return sum(a.contains(shape) for a in around) % 2 == 1


@pytest.mark.parametrize(
    ("view", "text"),
    [
        (PLATE, "50 × 50 is drawn 50.2 × 50.2, holes smaller"),
        (View("", (cut(rectangle(0, 0, 8, 5)),)), "8 × 5 is drawn 8.2 × 5.2"),
        (View("", (pocket(rectangle(0, 0, 8, 5)),)), "8 × 5 is drawn 7.8 × 4.8"),
        # The beam rounds a sharp corner outside; inside, a sharp corner stays sharp.
        (View("", (cut(polygon([(0, 0), (4, -1), (4, 1)])),)), "4 × 2 is drawn 4.2 × 2.2"),
        (View("", (pocket(polygon([(0, 0), (4, -1), (4, 1)])),)), "4 × 2 is drawn 3.49 × 1.74"),
    ],
)
def test_stamp_states_finished_and_drawn_size(view, text):
    """Worked by hand; the sharp pocket is 0.1·(√17 + 1) shorter and keeps its shape."""
    (found,) = stamp([view], kerfed([view], 0.2), 0.2).split("KERF 0.2 INCLUDED: ")[1:]
    assert found == text


def test_view_without_cuts_has_no_stamp():
    chart = View("", (scribe(rectangle(0, 0, 8, 5)),))
    assert stamp([chart], kerfed([chart], 0.2), 0.2) == ""
    assert stamp([chart, PLATE], kerfed([chart, PLATE], 0.2), 0.2).endswith("holes smaller")


@pytest.mark.parametrize(
    "family", ["violin", *(pytest.param(f, marks=pytest.mark.slow) for f in FAMILIES[1:])]
)
def test_only_sheets_with_moved_cuts_have_the_stamp(family):
    """On the sheet and on each of its pages."""
    p, kerf = stated(family), 0.15
    chosen = [*selection.templates(p), *routing(usual())]
    plain = rendering.sheets(p, (), templates=chosen)
    made = rendering.sheets(p, (), templates=for_laser(p, chosen, kerf))
    silent = set()
    for before, after in zip(plain, made, strict=True):
        moved = {*before.content.strokes} != {*after.content.strokes}
        pages = output.pages(after, OutputOptions())
        for words in (after.labels, *(page.furniture.labels for page in pages)):
            told = [n.text for n in words if "KERF" in n.text]
            assert len(told) == moved, (after.name, told)
            assert all("…" not in text for text in told)
        assert ("KERF" in after.purpose) == moved  # on the index page and in the SVG's description
        if not moved:
            silent.add(after.name)
    assert {"bow-stock-list", "bow-chart-bend", "form-ordinates", "bow-hair-line"} <= silent
    assert "form-bending" not in silent


def test_text_of_a_sheet_with_kerf_and_stamps_fits():
    """No text is cut off or on the bar, at the least margin and the greatest."""
    p, kerf = stated("bass-french"), 0.155
    drawn = for_laser(p, selection.templates(p), kerf)
    stamps = ("FORCED: 12 checks fail; do not cut", "SOLIDS NOT CONFIRMED")
    for margin in (5.0, 25.0):
        options = OutputOptions(replace(usual(), paper=replace(usual().paper, margin=margin)))
        for sheet in rendering.sheets(p, (), options, templates=drawn, stamps=stamps):
            for page in output.pages(sheet, options):
                beside = (margin + 62, margin, page.size[0], margin + 65)
                words = [n for n in page.furniture.labels if overlap(_box(n), beside)]
                assert not any("…" in n.text for n in page.furniture.labels), (sheet.name, margin)
                assert not any(overlap(_box(a), _box(b)) for a, b in combinations(words, 2))
                low = [n for n in words if _box(n)[1] < margin + 7.4]
                assert all(n.text.isdigit() for n in low), (sheet.name, margin, low)


def _box(label):
    return box_of(label_corners(label))


def test_sheet_states_kerf_and_drawn_size():
    p = stated("violin")
    chosen = selection.chosen(p, ("frog-side",))
    (sheet,) = rendering.sheets(p, (), templates=for_laser(p, chosen, 0.15))
    said = " ".join(n.text for n in sheet.labels)
    assert "KERF 0.15 INCLUDED: " in said and "is drawn" in said
    (plain,) = rendering.sheets(p, (), only=("frog-side",))
    assert "KERF" not in " ".join(n.text for n in plain.labels)
    assert sheet.cut_size == pytest.approx([side + 0.15 for side in plain.cut_size])


def outline(file):
    doc = ezdxf.read(io.StringIO(Path(file).read_text("utf-8")))
    lines = [e for e in doc.modelspace() if e.dxftype() == "LWPOLYLINE"]
    return [e for e in lines if e.dxf.layer in ("OUTLINE", "POCKET")]


def test_command_compensates_only_with_kerf_option(capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    write("dunlin.toml", SOUND)
    write("shop.toml", 'units = "mm"\n[laser]\nkerf = 0.3\n')
    argv = ("draw", "--plane", "--only", "frog-channel-card", "--format", "dxf", "dunlin.toml")
    widths = []
    for i, more in enumerate(([], ["--shop", "shop.toml"], ["--shop", "shop.toml", "--kerf"])):
        assert call(capsys, *argv, "-o", f"out{i}", *more).status == 0
        drawn = outline(f"out{i}/dunlin--frog-channel-card.dxf")
        card = next(e for e in drawn if e.dxf.layer == "OUTLINE")
        points = [q[0] for q in card.get_points("xy")]
        widths.append(max(points) - min(points))
    assert widths[0] == widths[1]
    assert widths[2] - widths[0] == pytest.approx(0.3, abs=1e-6)
    assert [e.dxf.layer for e in outline("out2/dunlin--frog-channel-card.dxf")] == [
        "POCKET",
        "OUTLINE",
    ]


def test_default_options_have_no_kerf():
    assert OutputOptions().kerf == 0
    assert replace(OutputOptions(), kerf=0.2).kerf == 0.2


@pytest.mark.parametrize("kerf", [0.05, 0.3])
@pytest.mark.parametrize(
    "family", ["violin", *(pytest.param(f, marks=pytest.mark.slow) for f in FAMILIES[1:])]
)
def test_text_keeps_clear_of_the_offset_cuts(family, kerf):
    """``sheets`` rejects a sheet with text on a cut."""
    p = stated(family)
    drawn = for_laser(p, selection.templates(p), kerf)
    assert len(rendering.sheets(p, (), templates=drawn)) == len(drawn)


def test_rejects_a_kerf_wider_than_a_slot_or_not_stated(capsys, tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    write("dunlin.toml", SOUND)
    write("shop.toml", 'units = "mm"\n[laser]\nkerf = 1.0\n')
    argv = ("draw", "--plane", "dunlin.toml", "-o", "out", "--kerf", "--only", "bow-hair-slot")
    (line,) = refused(call(capsys, *argv, "--shop", "shop.toml"))
    assert "laser.kerf: 1 mm is wider than a slot of bow-hair-slot" in line
    (line,) = refused(call(capsys, *argv))
    assert "name your shop file with --shop" in line
    write("starter.toml", STARTER)
    (line,) = refused(call(capsys, *argv, "--shop", "starter.toml"))
    assert "no kerf is stated" in line and "under [laser] in starter.toml" in line
    write("none.toml", 'units = "mm"\n[laser]\nkerf = 0\n')
    (line,) = refused(call(capsys, *argv, "--shop", "none.toml"))
    assert "laser.kerf is 0" in line
