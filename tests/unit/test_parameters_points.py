"""Tables of measured points: accepted forms, messages for faults, text that describes them."""

import tomllib

import numpy as np
import pytest
from toy_parameters import (
    SCHEMA,
    WHOLE_FILE,
    Ferrule,
    Outline,
    faults_in,
    faults_of,
    in_folder,
    line_of,
    write,
)

from templates_gen.parameters.explain import explain
from templates_gen.parameters.families import _band
from templates_gen.parameters.read import read
from templates_gen.parameters.starter import starter
from templates_gen.parameters.words import format_value

KEY = "ferrule.sections"


@pytest.fixture(autouse=True)
def folder(monkeypatch, tmp_path):
    in_folder(monkeypatch, tmp_path)


def stating(value):
    return WHOLE_FILE.replace("[hair]", f"sections = {value}\n[hair]")


def pattern_of(text):
    return read(write(text), SCHEMA)


@pytest.mark.parametrize(
    "value",
    [
        "[[0, 12.0], [11, 14], [40, 32]]",
        "[\n  [0, 12.0],  # front\n  [11, 14],\n  [40, 32],\n]",
        "{ value = [[0, 12.0], [11, 14], [40, 32]] }",
        "[[-0.0, 12], [11e0, 14.0], [40.0, 32]]",
    ],
)
def test_ways_to_write_one_table(value):
    pattern = pattern_of(stating(value))
    table = ((0.0, 12.0), (11.0, 14.0), (40.0, 32.0))
    assert pattern.values[KEY] == pattern[Ferrule].sections == table
    assert {type(number) for row in table for number in row} == {float}
    assert pattern.places[KEY] == ("dunlin.toml", 12)
    assert pattern.warnings == ()
    assert pattern.digest == pattern_of(stating("[[0, 12], [11, 14], [40, 32]]")).digest


def test_omitted_table_is_empty_and_not_missing():
    pattern = pattern_of(WHOLE_FILE)
    assert (pattern[Ferrule].sections, pattern[Outline].end) == ((), ())
    assert KEY not in pattern.places
    assert pattern_of(stating("[]")).digest == pattern.digest
    assert pattern_of(stating("[[0, 12], [1, 12]]")).digest != pattern.digest


def test_note_may_accompany_points_or_stand_alone():
    value = '{ value = [[0, 12], [1, 13]], note = "callipers" }'
    assert pattern_of(stating(value)).notes[KEY] == "callipers"
    alone = pattern_of(stating('{ note = "callipers" }'))
    assert (alone.values[KEY], alone.notes[KEY]) == ((), "callipers")


def test_a_file_takes_the_points_of_its_base_or_clears_them():
    write(stating("[[0, 12], [1, 13]]"), "base.toml")
    text = 'units = "mm"\nbased_on = "base.toml"\n[pattern]\nname = "Knot"\n'
    assert read(write(text), SCHEMA).values[KEY] == ((0.0, 12.0), (1.0, 13.0))
    assert read(write(text + "[ferrule]\nsections = []\n"), SCHEMA).values[KEY] == ()
    on_family = text.replace("base.toml", "bass-french")
    assert read(write(on_family), SCHEMA).values[KEY] == ()


def test_omitted_section_counts_required_keys_only():
    start, end = WHOLE_FILE.index("[ferrule]"), WHOLE_FILE.index("[hair]")
    (fault,) = faults_in(WHOLE_FILE[:start] + WHOLE_FILE[end:])
    assert fault.key == "ferrule"
    assert "3 values" in fault.cure


X, Y = "x rising, from 0 to 40 mm", "y from 8 to 32 mm"
ALL = f"state a list of 2 to 500 points [x, y], {X}, {Y}, or nothing"
BAD_TABLES = [
    ("12", "12 is not a list of points", ALL),
    ("true", "true is not a list of points", ALL),
    ('"[[0, 12]]"', '"[[0, 12]]" is a text, not a list of points', ALL),
    ("{}", "its table is empty", ALL),
    ("[[0, 12]]", "it has 1 row, at least 2 are needed", ALL),
    ("[[0, 12], 7]", "row 2, 7 is not two numbers [x, y]", ALL),
    ("[[0, 12], [1]]", "row 2, [1] is not two numbers [x, y]", ALL),
    ("[[0, 12], [1, 12, 3]]", "row 2, [1, 12, 3] is not two numbers", ALL),
    ("[[0, 12], []]", "row 2, [] is not two numbers", ALL),
    ("[[0, 12], { x = 1 }]", "row 2, a table is not two numbers", ALL),
    ("[[0, 12], [1, true]]", "row 2, [1, true]: y: true is not a number", ALL),
    ('[["0", 12], [1, 12]]', 'row 1, ["0", 12]: x: "0" is a text, not a number', ALL),
    ("[[0, 12], [1, nan]]", "row 2, [1, nan]: y: nan is not a finite number", ALL),
    ("[[0, 12], [inf, 12]]", "row 2, [inf, 12]: x: inf is not a finite number", ALL),
    ("[[0, 12], [1, 1e999]]", "y: inf is not a finite number", ALL),
    (f"[[0, 12], [1, {10**400}]]", "is not a finite number", ALL),
    ("[[0, 12], [[1], 12]]", "row 2, [a list, 12]: x: a list is not a number", ALL),
    (
        "[[0, 12], [41, 12]]",
        "row 2, [41, 12]: x = 41 mm is outside the possible range of 0 to 40 mm",
        ALL,
    ),
    ("[[-1, 12], [4, 12]]", "x = -1 mm is outside the possible range of 0 to 40 mm", ALL),
    ("[[0, 7.9], [1, 12]]", "y = 7.9 mm is outside the possible range of 8 to 32 mm", ALL),
    ("[[0, 32.1], [1, 12]]", "y = 32.1 mm is outside the possible range of 8 to 32 mm", ALL),
    (
        "[[0, 12], [9, 13], [5, 14]]",
        "row 3, [5, 14] does not lie beyond row 2, [9, 13]",
        "put the rows in the order of x",
    ),
    ("[[0, 12], [9, 13], [9.0, 14]]", "rows 2 and 3 are both at x = 9 mm", "take one of them out"),
    ("[[0, 12], [9, 13], [0, 14]]", "rows 1 and 3 are both at x = 0 mm", "take one of them out"),
    ("{ value = [[0, 12], [1, 13]], tol = 0.1 }", "a table of points has none", "leave tol out"),
]


@pytest.mark.parametrize(("value", "problem", "cure"), BAD_TABLES)
def test_rejects_bad_tables(value, problem, cure):
    text = stating(value)
    if len(text) > 1_000:
        text = stating(value.replace(", ", ",\n"))
    (fault,) = faults_in(text)
    assert (fault.file, fault.line, fault.key) == ("dunlin.toml", line_of(text, "sections"), KEY)
    assert problem in fault.problem
    assert cure == fault.cure


def test_reports_all_faults_of_a_table_in_row_order():
    value = '[[9, 7], [5, 12], [5, "x"], 3, [6, nan], [6, 40], [7, 13]]'
    assert [(f.problem.split(":")[0].split(" is not")[0]) for f in faults_in(stating(value))] == [
        "row 1, [9, 7]",
        "row 2, [5, 12] does not lie beyond row 1, [9, 7]",
        'row 3, [5, "x"]',
        "rows 2 and 3 are both at x = 5 mm",
        "row 4, 3",
        "row 5, [6, nan]",
        "row 6, [6, 40]",
        "rows 5 and 6 are both at x = 6 mm",
    ]


@pytest.mark.parametrize(("count", "most"), [(500, None), (501, "501 rows, at most 500")])
def test_accepts_at_most_500_rows(count, most):
    rows = ",\n".join(f"[{i * 0.05:.2f}, 12]" for i in range(count))
    text = stating(f"[\n{rows}\n]") + "zzz = 1\n"
    *told_so, unknown = faults_in(text)
    assert unknown.line == line_of(text, "zzz")
    assert [most in f.problem for f in told_so] == ([] if most is None else [True])
    assert [f.line for f in told_so] == ([] if most is None else [12])


def test_report_of_a_wrong_table_is_short():
    faults = faults_in(stating("[" + ",\n".join(['"x"'] * 400) + "]"))
    assert len(faults) == 21
    assert faults[-1].problem == "380 more faults in its rows"


def test_free_outline_may_turn_back():
    outline = "[outline]\nend = [[0, 0], [4, 12], [-2, 20], [-2, 25]]\n"
    assert pattern_of(WHOLE_FILE + outline)[Outline].end[2] == (-2.0, 20.0)
    (fault,) = faults_in(WHOLE_FILE + outline.replace("-2, 25", "-2, 31"))
    assert "y = 31 mm is outside the possible range of 0 to 30 mm" in fault.problem
    assert "points [x, y], x from -5 to 10 mm" in fault.cure


def test_example_in_a_starter_is_valid():
    text = starter("bass-french", SCHEMA)
    assert "sections" not in tomllib.loads(text)["ferrule"]
    assert "W_x; usually not stated [O], else a list of 2" in " ".join(text.split())
    for name in ("sections", "end"):
        assert text.count(f"\n# {name} = [[") == 1
        text = text.replace(f"\n# {name} = ", f"\n{name} = ")
    pattern = pattern_of(text)
    assert len(pattern[Ferrule].sections) == 2
    assert len(pattern[Outline].end) == 3
    assert max(map(len, text.splitlines())) <= 100


def test_explains_a_table():
    text = " ".join(explain(KEY, SCHEMA).split())
    for words in (
        "ferrule.sections (W_x)",
        f"a list of 2 to 500 points [x, y], {X}, {Y}, or nothing",
        "x along with ferrule.height; y along with ferrule.outer_width",
        "violin usually not stated",
        "basis O",
    ):
        assert words in text
    assert "tolerance" not in text


@pytest.mark.parametrize(
    ("value", "words"),
    [
        ((), "not stated"),
        (((0.0, 8.0),), "1 point: x 0 to 0 mm, y 8 to 8 mm"),
        (((0.0, 12.5), (9.0, 8.0), (4.0, 9.0)), "3 points: x 0 to 9 mm, y 8 to 12.5 mm"),
    ],
)
def test_a_table_in_words(value, words):
    assert format_value(value) == words


def test_finds_what_depends_on_the_points():
    points = ((0.0, 12.0), (0.0, 13.0), (1.0, 0.0))
    pattern = pattern_of(WHOLE_FILE).with_("outline.end", points)
    assert pattern[Outline].end == points

    def slopes(p):
        (x0, y0), (x1, y1), _ = p[Outline].end
        return (y1 - y0) / (x1 - x0), p[Ferrule].height

    with np.errstate(divide="ignore"):
        assert pattern.reads(slopes) == ("ferrule.height", "outline.end")


def test_empty_row_of_the_families_table_means_not_stated():
    row = {f"viola_{which}": "" for which in ("low", "usual", "high")} | {"basis": "O"}
    band = _band(row, "viola")
    assert (band.usual, band.low, band.high, band.basis) == ((), None, None, "O")
    with pytest.raises(AssertionError):
        _ = band.figure


def test_reports_points_and_other_faults_together():
    text = stating("[[0, 12]]").replace("count = 280", "count = 9")
    assert [f.key for f in faults_of(write(text))] == [KEY, "hair.count"]
