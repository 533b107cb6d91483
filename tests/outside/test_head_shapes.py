"""Test stated heads: three styles by parameters alone, and a measured ridge.

The three styles are common practice, no source: a nearly straight ridge, one that swings out
and then hollows, one that is full all the way down.
"""

import math
from itertools import combinations, pairwise

import numpy as np
import pytest
from outside.maker import FAMILIES, drawn, on, stated
from shapely import LineString, Point

from templates_gen.bow import catalogue
from templates_gen.checks.judge import judge
from templates_gen.cli import main
from templates_gen.pipeline import rendering

#: Crown, slope at the nose, and ratio of the legs.
CHARACTERS = {
    "upright": (0.36, 62.0, 0.45),
    "swept": (0.26, 42.0, 0.80),
    "full": (0.40, 88.0, 1.0),
}
KEYS = ("head.crown_fraction", "head.ridge_deg", "head.ridge_ratio")


def head(family, name):
    return stated(family, dict(zip(KEYS, CHARACTERS[name], strict=True)))


def outline(p):
    """Return corners with bulges in the head's frame, placed by the mortise's rear wall."""
    drawing = drawn(p, "head-side")
    (line,) = on(drawing, "OUTLINE")
    (mortise,) = on(drawing, "HIDDEN")
    shift = mortise.corners[0][0] - p.values["head.mortise_from_rear"]
    return [(z - shift, bulge) for z, bulge in line.corners]


def ridge(p):
    """The ridge's pieces from the nose to the crown: (start, end, bulge)."""
    v, ring = p.values, outline(p)
    nose = complex(v["head.face_length"], v["head.nose_rise"] + v["head.nose_thickness"])
    first = next(i for i, (z, _) in enumerate(ring) if abs(z - nose) < 1e-5)
    pieces = []
    for (a, bulge), (b, _) in zip(ring[first:], ring[first + 1 :], strict=False):
        if bulge == 0.0:
            break
        pieces.append((a, b, bulge))
    return pieces


def headings(p, n=400):
    """Direction (degrees) by the part of its length travelled from the crown."""
    found, along = [], [0.0]
    for a, b, bulge in ridge(p)[::-1]:
        turn = -4 * math.atan(bulge)
        start = math.degrees(np.angle(a - b)) - math.degrees(turn) / 2
        t = np.linspace(0.0, 1.0, n)
        found.append(start + math.degrees(turn) * t)
        radius = abs(b - a) / 2 / abs(math.sin(turn / 2))
        along.append(along[-1] + radius * abs(turn))
    places = [np.linspace(s, e, n) / along[-1] for s, e in pairwise(along)]
    u = np.linspace(0.0, 1.0, n)
    return np.interp(u, np.concatenate(places), np.concatenate(found))


def stopping(p):
    return {rule.id for rule in catalogue.rules() if judge(rule, p).stops}


@pytest.mark.parametrize("name", CHARACTERS)
def test_each_head_style_passes_the_checks(name):
    assert stopping(head("viola", name)) == set()


@pytest.mark.parametrize(
    "family",
    ["violin", *(pytest.param(f, marks=pytest.mark.slow) for f in FAMILIES if "vi" not in f)],
)
def test_only_the_swept_ridge_needs_a_shorter_mortise_in_other_families(family):
    """A ridge that comes down early leaves less wood ahead of the mortise (geometry)."""
    ahead = {"head.mortise_to_ridge", "head.mortise_to_facets"}
    assert stopping(head(family, "upright")) == stopping(head(family, "full")) == set()
    assert stopping(head(family, "swept")) <= ahead
    deep = head(family, "swept").with_("head.ridge_deg", 28.0)
    assert stopping(deep) == ahead
    keys = "head.mortise_depth", "head.mortise_length"
    shorter = {key: deep.values[key] * 0.8 for key in keys}
    assert not stopping(deep.with_many(shorter)) & ahead


@pytest.mark.parametrize("family", ["violin", "bass-french"])
def test_head_styles_differ_by_more_than_10_degrees(family):
    turns = {name: headings(head(family, name)) for name in CHARACTERS}
    for name, (_, nose, _) in CHARACTERS.items():
        assert turns[name][-1] - turns[name][0] < -20
        # Coming down onto the nose as steeply as stated.
        assert turns[name][-1] == pytest.approx(-nose, abs=1e-3)
    for one, other in combinations(CHARACTERS, 2):
        assert np.abs(turns[one] - turns[other]).max() > 10


def test_swept_ridge_is_hollow_and_full_ridge_is_not():
    def ways(name):
        return [math.copysign(1.0, bulge) for _, _, bulge in ridge(head("violin", name))]

    assert len(set(ways("swept"))) == 2
    assert len(set(ways("full"))) == 1


#: A ridge measured on an invented head: x from the face's rear edge and height over the face.
MEASURED = [
    [9, 22.9], [11, 22.7], [13, 21.6], [14.6, 19.6], [16, 17], [17.6, 13.6], [19.4, 10.2],
    [21.4, 7.2], [23.4, 4.8], [25, 3.2],
]  # fmt: skip
HEAD = """units = "mm"
based_on = "violin"

[pattern]
name = "Turnstone"

[head]
mortise_length = 7.0
"""


def file_with(folder, table):
    file = folder / "turnstone.toml"
    file.write_text(f"{HEAD}ridge_points = {table}\n", "utf-8")
    return str(file)


def drawing_of(folder, table):
    call = ["--plane", "--format", "svg", "--only", "head-side", "-o", str(folder / "out")]
    return main(["draw", file_with(folder, table), *call])


def test_measured_ridge_passes_through_its_points(tmp_path, capsys):
    assert drawing_of(tmp_path, MEASURED) == 0, capsys.readouterr().err
    p = rendering.read(file_with(tmp_path, MEASURED))
    rows = []
    for a, b, bulge in ridge(p):
        turn, t = 4 * math.atan(bulge), np.linspace(0.0, 1.0, 60)
        middle = (a + b) / 2 + 1j * (b - a) / 2 / math.tan(turn / 2)
        rows.append(middle + (a - middle) * np.exp(1j * turn * t))
    drawn_ridge = LineString([(z.real, z.imag) for z in np.concatenate(rows)])
    for x, z in MEASURED[1:]:
        # The arcs stand within 0.005 of the curve.
        assert drawn_ridge.distance(Point(x, z)) < 0.006
    # The first tells only where the ridge leaves the stick's line.
    assert drawn_ridge.coords[-1][0] == pytest.approx(MEASURED[0][0], abs=1e-6)


def test_rejects_too_few_points(tmp_path, capsys):
    assert drawing_of(tmp_path, MEASURED[:7]) == 2
    err = " ".join(capsys.readouterr().err.split())
    assert "turnstone.toml:9: head.ridge_points" in err
    assert "7 rows, at least 8" in err


@pytest.mark.parametrize(
    "low", [[[19, 0.5]], [[18, 6.0], [20, 0.4], [22, 0.4]]], ids=["one point", "a dip"]
)
def test_rejects_a_ridge_that_crosses_the_face(tmp_path, capsys, low):
    """Heights under the face: the outline would cross itself."""
    first = [q for q in MEASURED if q[0] < low[0][0]]
    last = [q for q in MEASURED if q[0] > low[-1][0]]
    table = [*first, *low, *last]
    assert len(table) >= 8
    assert drawing_of(tmp_path, table) != 0
    out, err = capsys.readouterr()
    assert not (tmp_path / "out").exists()
    assert "ridge" in out + err
    assert "Traceback" not in out + err


def test_rejects_rows_that_run_backwards(tmp_path, capsys):
    """A ridge is measured from the crown forward: a row behind the last would cross it."""
    table = [*MEASURED[:5], [13.5, 18.0], *MEASURED[5:]]
    assert drawing_of(tmp_path, table) == 2
    assert "row 6, [13.5, 18.0] does not lie beyond" in capsys.readouterr().err


@pytest.mark.parametrize("family", FAMILIES)
def test_outline_and_face_have_the_stated_size(family):
    p = stated(family)
    v, ring = p.values, outline(p)
    assert max(z.real for z, _ in ring) == pytest.approx(v["head.face_length"], abs=1e-5)
    assert min(z.imag for z, _ in ring) == pytest.approx(0.0, abs=1e-5)
    over_edge = [z.imag for z, _ in ring if abs(z.real) < 1e-5]
    assert max(over_edge) == pytest.approx(v["head.height"], abs=1e-5)
    (face,) = on(drawn(p, "head-face"), "OUTLINE")
    xs, ys = zip(*((z.real, z.imag) for z, _ in face.corners), strict=True)
    assert max(xs) - min(xs) == pytest.approx(v["head.face_length"], abs=1e-5)
    assert max(ys) - min(ys) == pytest.approx(v["head.width"], abs=1e-5)


def test_bass_head_is_about_19_mm_wide_and_1_mm_less_than_the_ribbon():
    """Common practice, no source."""
    for family in ("bass-french", "bass-german"):
        v = stated(family).values
        assert v["head.width"] == pytest.approx(19.0, abs=0.6)
        assert v["hair.ribbon_width_frog"] - v["head.width"] == pytest.approx(1.0, abs=0.7)
