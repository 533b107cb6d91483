"""Router templates: their offset, the wood the cutter leaves, and what the sheets state.

Referee of what is cut: shapely (GEOS) sweeps the collar along the template and the cutter with it.
"""

import math
import re
from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest
from command.calls import SOUND, call, refused, write
from geometry_referee import sample
from outside.maker import FAMILIES, stated
from shapely.geometry import LineString, Point, Polygon
from shapely.ops import unary_union

from templates_gen.bench.routing import sheets as tooling_sheets
from templates_gen.bench.routing import templates
from templates_gen.bench.routing.guide import Guided, scribing_offset, top_of_dovetail
from templates_gen.bench.routing.jobs import KINDS
from templates_gen.drawing.lint import lint
from templates_gen.drawing.sheet import Layer
from templates_gen.drawing.view import Text
from templates_gen.errors import GeometryError
from templates_gen.geometry import circle, polygon, rectangle
from templates_gen.geometry.flatten import flatten
from templates_gen.geometry.offset import offset
from templates_gen.pipeline import output, rendering, selection
from templates_gen.pipeline.output import OutputOptions
from templates_gen.shop.params import Guide
from templates_gen.shop.read import example
from templates_gen.shop.starter import EXAMPLE

SHOP = example()
IN = 25.4


def shop(section, **changes):
    return replace(SHOP, **{section: replace(getattr(SHOP, section), **changes)})


def size(path):
    left, low, right, high = path.box
    return (right - left, high - low)


# --- worked values -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("outside", "cutter", "aside"),
    [(10, 6, 2.0), (0.75 * IN, 0.5 * IN, 3.175), (30, 12.7, 8.65), (6.35, 6.35, 0.0)],
)
def test_offset_is_half_of_collar_less_cutter(outside, cutter, aside):
    """Worked by hand: (collar - cutter)/2. Common practice, no source."""
    assert Guided(rectangle(0, 0, 1, 1), True, outside, cutter).aside == pytest.approx(
        aside, abs=1e-9
    )


def test_outside_template_is_smaller_and_opening_larger():
    """Worked by hand with 10 and 6: 22 × 44 is routed round 18 × 40, and within 26 × 48."""
    part = rectangle(0, 0, 22, 44)
    assert size(Guided(part, False, 10, 6).template) == pytest.approx((18, 40), abs=1e-9)
    assert size(Guided(part, True, 10, 6).template) == pytest.approx((26, 48), abs=1e-9)


def test_top_of_a_dovetail():
    """Worked by hand: 6.35 - 2 · 3 · tan 14° = 4.8540."""
    assert top_of_dovetail(6.35, 3.0, 14.0) == pytest.approx(4.8540, abs=5e-5)


@pytest.mark.parametrize(("thick", "off"), [(0.5, 0.13), (1.0, 0.27)])
def test_offset_of_a_scribed_line(thick, off):
    """Worked by hand: h tan 15° with a 30° point."""
    assert scribing_offset(thick) == pytest.approx(off, abs=0.005)


# --- what is cut ---------------------------------------------------------------------------------


def area_of(path):
    return Polygon(flatten(path, 1e-4))


def swept(g):
    """Return the area the cutter clears (inside) or leaves (outside) along the template."""
    collar, cutter = g.outside_diameter / 2, g.cutter / 2
    edge = area_of(g.template)
    if g.inside:
        return edge.buffer(-collar, quad_segs=256).buffer(cutter, quad_segs=256)
    return edge.buffer(collar, quad_segs=256).buffer(-cutter, quad_segs=256)


def differing(g):
    """Return what is wrongly cut and what is wrongly left, beyond 0.01 mm."""
    made, meant = swept(g), area_of(g.finished)
    return made.difference(meant.buffer(0.01)), meant.buffer(-0.01).difference(made)


def off_the_corners(g, shapes):
    """Return the parts of some shapes that are at none of the corners the sheet names."""
    reach = g.cutter + 2 * g.aside
    named = unary_union([Point(c.place).buffer(reach) for c in g.corners] or [Point()])
    return sum(s.difference(named).area for s in shapes)


def jobs():
    for family in FAMILIES:
        p = stated(family)
        for kind in KINDS:
            yield pytest.param(p, kind, id=f"{family}-{kind.name}")


JOBS = list(jobs())


@pytest.mark.parametrize(("p", "kind"), JOBS)
@pytest.mark.parametrize("guide", ["own", "collar"])
def test_sweep_leaves_the_outline_except_at_named_corners(p, kind, guide):
    cutter = kind.cutter(SHOP)
    if guide == "collar":
        # The thumb's tip, rounded at 0.8, is gone beyond an offset of 0.8.
        wide = float(cutter.cutter) + (0.8 if kind.jig else 1.7)
        cutter = replace(cutter, guide=Guide.COLLAR, outside=wide)
    g = kind.job(p, cutter).guided
    assert off_the_corners(g, differing(g)) == 0.0


@pytest.mark.parametrize(("p", "kind"), JOBS)
def test_sheet_states_the_wood_left_in_corners(p, kind):
    """Measured with shapely all along the edge; the sheet rounds up to 0.01 mm."""
    cutter = kind.cutter(SHOP)
    job = kind.job(p, cutter)
    (view,) = tooling_sheets.template(job, cutter, SHOP.plate)
    words = " ".join(w.text for w in view.dimensions if isinstance(w, Text))
    told = re.search(r"at most ([\d.]+) deep, left by the cutter", words)
    made, edge = swept(job.guided), area_of(job.guided.finished).exterior
    left = max(made.distance(Point(q)) for q in edge.segmentize(0.05).coords)
    most = float(told[1]) if told else 0.01
    assert left <= most + 5e-4
    assert most - left < 0.0105 or not told


@pytest.mark.parametrize("inside", [True, False])
def test_referee_detects_an_offset_to_the_wrong_side(inside):
    g = Guided(rectangle(0, 0, 22, 44), inside, 10, 6)

    class Wrong(Guided):
        @property
        def template(self):
            return offset(self.finished, -self.aside if self.inside else self.aside)

    assert off_the_corners(g, differing(g)) == 0.0
    wrong = Wrong(g.finished, inside, 10, 6)
    assert off_the_corners(wrong, differing(wrong)) > 10.0


def test_named_corners_of_a_rectangle():
    """Inside a rectangle wood is left r(√2 - 1) deep; outside the corners come out round."""
    box = rectangle(0, 0, 30, 20)
    inner, outer = Guided(box, True, 10, 6), Guided(box, False, 10, 6)
    for g, depth in ((inner, 3 * (2**0.5 - 1)), (outer, 2 * (2**0.5 - 1))):
        assert {c.place for c in g.corners} == {(0, 0), (30, 0), (30, 20), (0, 20)}
        assert [c.depth for c in g.corners] == pytest.approx([depth] * 4, abs=1e-6)
        assert all(c.left is g.inside for c in g.corners)
        _, short = differing(g)  # of the pocket, or of the part, something is missing
        assert len(getattr(short, "geoms", [short])) == 4
        far = max(Point(c.place).distance(swept(g)) for c in g.corners)
        assert far == pytest.approx(depth, abs=1e-3)


def test_named_corners_of_an_l_shape():
    """The cutter leaves wood in the one inner corner; the other five come out round."""
    ell = polygon([(0, 0), (40, 0), (40, 15), (20, 15), (20, 40), (0, 40)])
    g = Guided(ell, False, 9, 5)
    assert [c.place for c in g.corners if c.left] == [(20, 15)]
    assert len([c for c in g.corners if not c.left]) == 5
    assert off_the_corners(g, differing(g)) == 0.0


@pytest.mark.parametrize(("p", "kind"), JOBS[:10])
def test_template_is_offset_everywhere_and_offset_back_gives_the_outline(p, kind):
    job = kind.job(p, kind.cutter(SHOP))
    g = job.guided
    for q in sample(g.template, 200):
        assert g.finished.distance(q) == pytest.approx(g.aside, abs=1e-6)
    if g.aside:
        back = offset(g.template, -g.aside)
        assert all(g.finished.distance(q) <= 1e-6 for q in sample(back, 200))
        assert all(back.distance(q) <= 1e-6 for q in sample(g.finished, 200))


# --- each template -------------------------------------------------------------------------------


def sheets(p, of=SHOP, only=()):
    more = templates.templates(of)
    chosen = [t for t in more if not only or t.name in only]
    return {s.name: s for s in rendering.sheets(rendering.check(p), templates=chosen)}


def said(sheet):
    return "\n".join(n.text for n in sheet.labels)


@pytest.mark.parametrize("family", FAMILIES)
def test_every_template_passes_lint_and_names_its_cutter(family):
    made = sheets(stated(family))
    assert [*made] == [
        "route-hair-mortise",
        "route-slide-channel",
        "route-eyelet",
        "route-stick-mortise",
        "route-head-mortise",
        "route-frog-profile",
        "route-frog-profile-plate",
    ]
    for name, sheet in made.items():
        assert lint(sheet) == []
        if name.endswith("-plate"):
            continue
        kind = next(k for k in KINDS if name == f"route-{k.name}")
        c = kind.cutter(SHOP)
        assert f"utter {c.cutter:g}, {c.guide} {c.outside:g} outside" in said(sheet)
        assert "Feed clockwise, seen from above" in said(sheet)


def test_edges_and_widths_of_the_slide_channel():
    """Floor = face + 2 t tan β at both ends; both edges drawn, each turned by half the taper."""
    p = stated("violin", {"slide.thickness": 1.6, "slide.dovetail_deg": 15})
    words = said(sheets(p, only=("route-slide-channel",))["route-slide-channel"])
    floor = 2 * 1.6 * math.tan(math.radians(15))
    wide, taper, fit = (
        p.values[f"slide.{k}"] for k in ("width_front", "width_taper", "channel_fit")
    )
    for end, face in (("Ferrule end", wide + fit), ("Heel end", wide + fit - taper)):
        assert f"{end}: floor {face + floor:.2f}, face {face:.2f} wide" in words
    assert "For the cutter's bottom, 6.35; at the face it is 5.493" in words
    job = KINDS[1].job(p, SHOP.dovetail_cutter)
    lean = [
        math.degrees(math.atan2(abs(s.end[1] - s.start[1]), abs(s.end[0] - s.start[0])))
        for s in job.guided.finished.segments
        if abs(s.end[0] - s.start[0]) > 1 and s.is_line
    ]
    half = math.degrees(math.atan(taper / 2 / p.values["slide.length"]))
    assert lean == pytest.approx([half, half], abs=1e-9)


def test_reports_a_dovetail_cutter_of_another_angle():
    words = said(
        sheets(stated("violin"), shop("dovetail_cutter", flank_deg=14.0))["route-slide-channel"]
    )
    assert "CUTTER 14° BUT SLIDE 15°" in words


def arrow(view_strokes):
    """Return the start and the tip of a feed arrow; its barbs meet at the tip."""
    lines = [s.path for s in view_strokes if s.layer is Layer.DIMENSION]
    shaft = max(lines, key=lambda q: q.length)
    assert sum(math.dist(q.start, shaft.end) < 1e-9 for q in lines if q is not shaft) == 2
    return shaft.start, shaft.end


@pytest.mark.parametrize("inside", [True, False])
def test_feed_is_against_the_cutters_rotation(inside):
    """From above: clockwise in an opening, counter-clockwise round an outside. Common practice."""
    g = Guided(rectangle(-20, -10, 20, 10), inside, 10, 6)
    (x0, y0), (x1, y1) = arrow(tooling_sheets.feed(g))
    swept_angle = x0 * y1 - x1 * y0  # about the middle, positive counter-clockwise
    assert (swept_angle < 0) == inside


@pytest.mark.parametrize("family", FAMILIES)
def test_jig_holds_the_blank_and_its_clamps_are_clear(family):
    p = stated(family)
    kind = next(k for k in KINDS if k.jig)
    job = kind.job(p, SHOP.profile_cutter)
    pocket, blank = tooling_sheets.held(job, SHOP.plate), job.blank
    for held, of in zip(size(pocket), size(blank), strict=True):
        assert 0.05 <= held - of <= 0.15
    run = area_of(job.guided.template)
    for x, y in tooling_sheets.clamps(job, SHOP.plate):
        foot = Point(x, y).buffer(SHOP.plate.clamp_foot / 2, quad_segs=64)
        assert foot.distance(run) >= 3.0
        assert foot.distance(area_of(pocket)) >= 1.9
    plate = rectangle(*tooling_sheets.jig_box(job, SHOP.plate))
    for hole in tooling_sheets.screws(job, SHOP.plate):
        assert area_of(plate).contains(Point(hole).buffer(SHOP.plate.clamp_screw))
    frog = LineString(
        flatten(
            rendering.views(p, next(t for t in selection.templates(p) if t.name == "frog-side"))[0]
            .strokes[0]
            .path,
            1e-3,
        )
    )
    edge = job.guided.finished
    on = [q for q in sample(edge, 300) if frog.distance(Point(q)) < 2e-3]
    assert len(on) > 80  # it is the frog's own throat and thumb


# --- what is checked -----------------------------------------------------------------------------


def found(p, of):
    return {c.result.rule.id: c for c in templates.checks(p, of)}


@pytest.mark.parametrize("family", FAMILIES)
def test_example_shop_can_make_every_family(family):
    assert not rendering.stops(templates.checks(stated(family), SHOP))


def test_rejects_a_cutter_too_wide_for_its_slot():
    checked = found(stated("violin"), shop("fine_cutter", cutter=4.5, outside=10))
    slot = checked["route.stick_mortise_passes"]
    assert slot.result.stops and slot.result.measured == 4.0
    assert slot.cure is not None and slot.cure.key == "fine_cutter.cutter"
    cured = found(stated("violin"), shop("fine_cutter", cutter=slot.cure.value, outside=10))
    assert not cured["route.stick_mortise_passes"].result.stops


def test_rejects_a_cutter_too_large_for_the_throat_with_its_place():
    p = stated("violin")
    job = KINDS[-1].job(p, SHOP.profile_cutter)
    hollows = [s for s in job.guided.finished.segments if s.bulge > 0]
    r = min(s.radius for s in hollows if s.end[0] < p.values["frog.length_top"])  # not in the air
    tight = found(p, shop("profile_cutter", cutter=2 * r + 0.5, outside=2 * r + 0.5))
    result = tight["route.frog_profile_reaches"].result
    assert result.stops
    assert result.measured == pytest.approx(r) and result.limit == pytest.approx(r + 0.25)
    name, place = result.rule.place(p)
    assert name == "route-frog-profile"
    outline = KINDS[-1].job(p, SHOP.profile_cutter).guided.finished
    assert outline.distance(place) < 1e-9
    assert f"({place[0]:.1f}, {place[1]:.1f})" in result.rule.description


def test_rejects_a_template_consumed_by_its_offset():
    with pytest.raises(GeometryError):
        _ = Guided(rectangle(0, 0, 22, 44), False, 40, 6).template
    p = stated("violin")
    checked = found(p, shop("profile_cutter", cutter=6.35, outside=40, guide=Guide.COLLAR))
    result = checked["route.frog_profile_template"].result
    assert result.stops
    assert result.rule.place(p)[0] == "route-frog-profile"


def test_rejects_a_template_too_thin_for_a_collar():
    thin = shop("plate", thickness=1.0)
    checked = found(stated("violin"), thin)
    result = checked["route.hair_mortise_thickness"].result
    assert (result.verdict, result.stops) == ("fail", False)
    assert "make plate.thickness 6" in checked["route.hair_mortise_thickness"].cure.description
    made = sheets(stated("violin"), thin)
    words = said(made["route-hair-mortise"])
    assert "TOO THIN TO GUIDE A COLLAR: 1 mm, 6 are needed" in words
    assert "a 30° point's line stands 0.27 off" in words
    assert "TOO THIN" not in said(made["route-frog-profile"])  # a bearing needs no such thickness
    assert "TOO THIN" not in said(sheets(stated("violin"))["route-hair-mortise"])


def test_rejects_a_collar_as_deep_as_its_template():
    words = said(sheets(stated("violin"), shop("plate", collar_depth=6.0))["route-eyelet"])
    assert "COLLAR 6 DEEP TOUCHES THE WORK" in words


def test_rejects_clamps_in_the_cutters_way(monkeypatch):
    monkeypatch.setattr(tooling_sheets, "CLEAR", -20.0)
    result = found(stated("violin"), SHOP)["route.frog_profile_clamps"].result
    assert result.stops and result.measured < 3.0


def _holds_the_clamps(p, of):
    """Measure with shapely the least rim of the feet and of the holes (mm)."""
    job = next(k for k in KINDS if k.jig).job(p, of.profile_cutter)
    plate = shapely_box(tooling_sheets.jig_box(job, of.plate))
    foot, hole = float(of.plate.clamp_foot) / 2, float(of.plate.clamp_screw) / 2
    feet = [Point(at) for at in tooling_sheets.clamps(job, of.plate)]
    inside = [(1 if plate.contains(at) else -1) * plate.exterior.distance(at) - foot for at in feet]
    cut = [area_of(job.guided.template), area_of(tooling_sheets.held(job, of.plate))]
    holes = [Point(at) for at in tooling_sheets.screws(job, of.plate)]
    wood = [(1 if plate.contains(at) else -1) * plate.exterior.distance(at) - hole for at in holes]
    wood += [area.distance(at) - hole for at in holes for area in cut]
    wood += [a.distance(b) - 2 * hole for a, b in combinations(holes, 2)]
    return min(inside), min(wood)


def shapely_box(box):
    return Polygon([(box[0], box[1]), (box[2], box[1]), (box[2], box[3]), (box[0], box[3])])


PLATES = [
    {},
    {"rim": 10.0},
    {"rim": 20.0, "clamp_foot": 40.0},
    {"rim": 12.0, "clamp_screw": 12.0, "clamp_foot": 12.0},
    {"rim": 120.0, "clamp_foot": 40.0, "clamp_screw": 12.0},
]


@pytest.mark.parametrize("family", FAMILIES)
@pytest.mark.parametrize("changes", PLATES)
def test_feet_and_screws_of_a_jig_are_on_its_plate(family, changes):
    """A foot or screw beyond the edge is reported with the least rim that cures it."""
    p, of = stated(family), shop("plate", **changes)
    inside, wood = _holds_the_clamps(p, of)
    checked = found(p, of)
    for name, least, limit in (("feet", inside, 0.0), ("screws", wood, 2.0)):
        c = checked[f"route.frog_profile_{name}"]
        assert c.result.measured == pytest.approx(least, abs=1e-3)
        assert c.result.limit == limit
        assert c.result.stops == (least < limit - 1e-6)
        if c.result.stops:
            assert c.cure.key == "plate.rim"
            mended = replace(of, plate=replace(of.plate, rim=c.cure.value))
            assert found(p, mended)[f"route.frog_profile_{name}"].result.verdict != "fail"
            short = replace(of, plate=replace(of.plate, rim=c.cure.value - 1.0))
            assert found(p, short)[f"route.frog_profile_{name}"].result.stops


def test_eyelet_bore_has_no_corners():
    g = Guided(circle((3, 4), 1.3), True, 8, 2)
    assert g.corners == []
    centre, r = g.template.as_circle()
    assert centre == pytest.approx((3, 4)) and r == pytest.approx(4.3)


# --- the command ---------------------------------------------------------------------------------


@pytest.fixture
def folder(monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    write("dunlin.toml", SOUND)


DRAW = ("draw", "--plane", "--format", "svg", "dunlin.toml", "-o", "out")


def test_routing_templates_come_with_a_shop_file(capsys, folder):
    first, *_ = refused(call(capsys, *DRAW, "--only", "route-hair-mortise"))
    assert "name your shop file with --shop" in first
    write(
        "shop.toml", 'units = "mm"\n[mortise_cutter]\nguide = "collar"\noutside = 10\ncutter = 3\n'
    )
    got = call(capsys, *DRAW, "--shop", "shop.toml", "--only", "route-hair-mortise")
    assert got.status == 0, got
    (line,) = refused(call(capsys, *DRAW, "--shop", "shop.toml", "--only", "route-eyelet"))
    assert "no cutter for it is stated; state one under [fine_cutter] in shop.toml" in line
    assert "no such template" in call(capsys, *DRAW, "--only", "rout-eyelet").err


def test_draw_stops_for_a_tool_that_does_not_fit(capsys, folder):
    write(
        "shop.toml",
        'units = "mm"\n[mortise_cutter]\nguide = "collar"\noutside = 16\n'
        'cutter = { value = 0.5, unit = "in" }\n',
    )
    got = call(capsys, *DRAW, "--shop", "shop.toml")
    assert (got.status, got.out) == (1, "")
    assert "route.hair_mortise_passes" in got.err
    assert "make mortise_cutter.cutter" in got.err


def test_reports_a_fault_in_the_shop_file(capsys, folder):
    write("shop.toml", 'units = "mm"\n[laser]\nkerf = "0.2"\n')
    (line,) = refused(call(capsys, *DRAW, "--shop", "shop.toml"))
    assert line.startswith("shop.toml:3: laser.kerf: ")
    (line,) = refused(call(capsys, *DRAW, "--shop", "none.toml"))
    assert line.startswith("none.toml: ")


def test_check_and_list_use_the_shop_and_report_large_templates(capsys, folder):
    write("shop.toml", EXAMPLE)
    got = call(capsys, "check", "dunlin.toml", "--shop", "shop.toml")
    assert got.status == 0 and "route.head_mortise_passes" in got.out
    assert "route" not in call(capsys, "check", "dunlin.toml").out
    assert "route-head-mortise" in call(capsys, "list", "dunlin.toml", "--shop", "shop.toml").out
    found = {c.result.rule.id: c.result for c in templates.checks(stated("violin"), SHOP)}
    assert found["route.head_mortise_one_page"].verdict == "pass"
    wide = replace(SHOP, paper=replace(SHOP.paper, margin=85.0))
    narrow = {c.result.rule.id: c.result for c in templates.checks(stated("violin"), wide)}
    told = narrow["route.frog_profile_one_page"]
    assert told.verdict == "fail" and not told.stops


def test_rejects_a_dovetail_cutter_too_short_for_its_flank():
    """Width of the neck = width at the end less twice depth · tan of the flank (trigonometry)."""
    p = stated("violin")
    deep = p.values["slide.thickness"]
    bad = found(p, shop("dovetail_cutter", cutter=1.1, flank_deg=30.0))["route.slide_channel_neck"]
    assert bad.result.stops
    assert bad.result.measured == pytest.approx(1.1 - 2 * deep * math.tan(math.radians(30)))
    mended = shop("dovetail_cutter", cutter=bad.cure.value, flank_deg=30.0)
    assert found(p, mended)["route.slide_channel_neck"].result.verdict != "fail"


def test_deeper_collar_needs_a_thicker_template():
    checked = found(stated("violin"), shop("plate", thickness=8.0, collar_depth=12.0))
    told = checked["route.hair_mortise_thickness"]
    assert (told.result.verdict, told.cure.value) == ("fail", 13.0)


@pytest.mark.parametrize("rim", [60.0, 70.0, 77.0])
def test_one_page_check_agrees_with_the_printed_pages(rim):
    """Compare with the pages of the PDF."""
    p, wide = stated("bass-french"), shop("plate", rim=rim)
    checked = found(p, wide)
    for sheet in rendering.sheets(rendering.check(p), templates=templates.templates(wide)):
        check = checked.get(f"route.{sheet.name[6:].replace('-', '_')}_one_page")
        if check is not None:
            pages = len(output.pages(sheet, OutputOptions(wide)))
            assert (pages == 1) == (check.result.verdict != "fail"), sheet.name
            if check.cure is not None:
                assert check.cure.key == "plate.rim" and check.cure.value < rim


def test_checks_lengths_in_inches_and_rejects_unknown_units(capsys, folder):
    write(
        "shop.toml",
        'units = "mm"\n[plate]\nrim = { value = 10, unit = "in" }\nthickness = "1/4 in"\n'
        'collar_depth = { value = 1, unit = ["in"] }\n',
    )
    said = refused(call(capsys, *DRAW, "--shop", "shop.toml"), messages=3)
    assert "10 in is outside the possible range of 0.394 to 4.724 in" in said[0]
    assert '{ value = 0.25, unit = "in" }' in said[1]
    assert "is not its unit" in said[2]


def test_calibrate_stores_nothing_while_the_shop_file_has_a_fault(capsys, folder):
    argv = ("calibrate", "--measured", "149.2", "198.7", "--shop", "c.toml")
    refused(call(capsys, *argv, "--diagonals", "250", "2"))
    assert not Path("c.toml").exists()
    assert call(capsys, *argv, "--diagonals", "250", "250").status == 0
    assert Path("c.toml").exists()
    (first, second) = refused(
        call(capsys, "calibrate", "--measured", "154.21", "205.62", "--shop", "d.toml"), messages=2
    )
    assert "made to fill letter paper" in first and "made to fill letter paper" in second
