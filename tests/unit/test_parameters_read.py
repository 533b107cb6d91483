"""Accepted contents of a file, and the message for each fault: file, line, key, problem, cure."""

import pytest
from toy_parameters import (
    SCHEMA,
    WHOLE_FILE,
    Arch,
    Ferrule,
    changed,
    faults_in,
    in_folder,
    line_of,
    write,
)

from templates_gen.parameters.faults import fault_at
from templates_gen.parameters.read import read


@pytest.fixture(autouse=True)
def folder(monkeypatch, tmp_path):
    in_folder(monkeypatch, tmp_path)


def pattern_of(text):
    return read(write(text), SCHEMA)


def test_reads_a_complete_file():
    pattern = pattern_of(WHOLE_FILE)
    assert pattern.identity.name == "Dunlin"
    assert pattern.identity.revision == "A"
    assert pattern.identity.file == "dunlin.toml"
    assert pattern.family.name == "bass-french"
    assert pattern[Ferrule].outer_width == 22.5
    assert pattern[Ferrule].arch_kind is Arch.HALF_ELLIPSE
    assert isinstance(pattern.values["hair.count"], float)
    assert pattern.tolerances == {"ferrule.height": 0.05}
    assert pattern.notes == {"ferrule.height": "on the mandrel"}
    assert pattern.warnings == ()
    assert pattern.places["ferrule.height"] == ("dunlin.toml", 9)


@pytest.mark.parametrize(
    "new",
    [
        "outer_width = 22.5",
        '"outer_width" = 22.5',
        "outer_width.value = 22.5",
        "outer_width = { value = 22.5 }",
        "outer_width = 225e-1",
    ],
)
def test_ways_to_write_one_value(new):
    pattern = pattern_of(changed("outer_width = 22.5", new))
    assert pattern.values["ferrule.outer_width"] == 22.5
    assert pattern.places["ferrule.outer_width"] == ("dunlin.toml", 8)


def test_digest_depends_on_values_not_on_spelling():
    other = changed("width = 20", "width = 20.0 # measured").replace(
        "lean_deg = 0", "lean_deg = -0.0"
    )
    assert pattern_of(other).digest == pattern_of(WHOLE_FILE).digest


H = 'height = { value = 10.5, tol = 0.05, note = "on the mandrel" }'
BAD_VALUES = [
    ("outer_width = 22.5", "outer_width = true", "true is not a number", "8 to 32 mm"),
    ("outer_width = 22.5", 'outer_width = "22"', '"22" is a text', "usually 22.5 for a bass-f"),
    ("outer_width = 22.5", "outer_width = nan", "nan is not a finite number", "8 to 32 mm"),
    ("outer_width = 22.5", "outer_width = inf", "inf is not a finite number", "8 to 32 mm"),
    ("outer_width = 22.5", "outer_width = -inf", "-inf is not a finite", "8 to 32 mm"),
    ("outer_width = 22.5", "outer_width = 1e999", "inf is not a finite", "8 to 32 mm"),
    ("outer_width = 22.5", "outer_width = -22.5", "-22.5 mm is outside", "8 to 32 mm"),
    ("outer_width = 22.5", "outer_width = 225", "225 mm is outside", "8 to 32 mm"),
    ("outer_width = 22.5", "outer_width = 32.0001", "32.0001 mm is outside", "8 to 32 mm"),
    ("outer_width = 22.5", "outer_width = [22.5]", "a list is not a number", "8 to 32 mm"),
    ("outer_width = 22.5", "outer_width = {}", "empty", "8 to 32 mm"),
    ("outer_width = 22.5", "outer_width = 2024-05-01", "2024-05-01 is not a number", "8 to 32"),
    ("count = 280", "count = 280.5", "280.5 is not a whole number", "50 to 400"),
    ("count = 280", "count = false", "false is not a number", "a whole number from 50"),
    ("count = 280", "count = { value = 280, tol = 5 }", "a count has none", "leave tol out"),
    ("lean_deg = 0", "lean_deg = 21", "21° is outside", "-10 to 20°"),
    (H, "height = { value = 10.5, tol = -0.1 }", "tol = -0.1 is negative", "0 or more"),
    (H, "height = { value = 10.5, tol = nan }", "tol: nan", "0 or more"),
    (H, "height = { value = 10.5, tol = true }", "tol: true", "0 or more"),
    (H, "height = { value = 10.5, tol = '1' }", 'tol: "1" is a text', "0.05 mm"),
    (H, "height = { value = 10.5, tol = 5.25 }", "5.25 mm is too much", "half the value"),
    (H, "height = { value = 10.5, tolerance = 1 }", '"tolerance" is unknown', "value, tol, note"),
    (H, "height = { value = 10.5, noet = 'x' }", '"noet" is unknown', "`note`"),
    (H, "height = { value = 10.5, note = 5 }", "note: 5 is not a text", "200"),
    (H, 'height = { value = 10.5, note = "a\\nb" }', "note: the text holds a line br", "200"),
    ('"half-ellipse"', '"half-elipse"', "the nearest is", '"half-ellipse", "segment"'),
    ('"half-ellipse"', "777", "777 is not a word", '"half-ellipse", "segment"'),
    ('"half-ellipse"', '{ value = "segment", tol = 1 }', "choice of words", "leave tol out"),
]


@pytest.mark.parametrize(("old", "new", "problem", "cure"), BAD_VALUES)
def test_rejects_bad_values(old, new, problem, cure):
    text = changed(old, new)
    (fault,) = faults_in(text)
    assert (fault.file, fault.line) == ("dunlin.toml", line_of(text, new))
    assert fault.key in SCHEMA.parameters
    assert problem in fault.problem
    assert cure in fault.cure


@pytest.mark.parametrize(
    "new", ["lean_deg = { value = 0, tol = 0.5 }", "lean_deg = 20", "lean_deg = -10"]
)
def test_accepts_bounds_and_a_zero_tolerance(new):
    pattern_of(changed("lean_deg = 0", new))


BAD_PLACES = [
    ("outer_width = 22.5", "outer_widht = 22.5", "ferrule.outer_widht", "`outer_width`"),
    ("count = 280", "count = 280\nheight = 3", "hair.height", "belongs in [ferrule]"),
    ("[ferrule]", "[ferule]", "ferule", "`ferrule`"),
    ("[pattern]", "height = 3\n[pattern]", "height", "belongs in [ferrule]"),
    ("[pattern]", "[zzz]\n[pattern]", "zzz", "take it out"),
    ('name = "Dunlin"', 'naem = "Dunlin"', "pattern.naem", "`name`"),
    ('units = "mm"\n\n[pattern]', '[pattern]\nunits = "mm"', "pattern.units", "above the first"),
    ('units = "mm"\n', 'units = "mm"\nname = "Dunlin"\n', "name", "[pattern]"),
    ("count = 280", '"a\\nb" = 1\ncount = 280', "hair.a�b", "take it out"),
]


@pytest.mark.parametrize(("old", "new", "key", "cure"), BAD_PLACES)
def test_unknown_key_is_one_fault_with_the_nearest_name(old, new, key, cure):
    (fault,) = faults_in(changed(old, new))
    assert fault.key == key
    assert fault.line is not None
    assert "unknown" in fault.problem
    assert cure in fault.cure


@pytest.mark.parametrize(
    ("new", "line"), [("", None), ('units = "inch"', 1), ('units = "cm"', 1), ("units = 1", 1)]
)
def test_the_unit_must_be_stated_and_be_mm(new, line):
    (fault,) = faults_in(changed('units = "mm"', new))
    assert (fault.key, fault.line) == ("units", line)
    assert 'units = "mm"' in fault.cure


def test_missing_section_is_one_fault_with_the_starter_values():
    text = WHOLE_FILE[: WHOLE_FILE.index("[hair]")]
    (fault,) = faults_in(text)
    assert (fault.key, fault.line) == ("hair", None)
    assert "3 values" in fault.cure and 'based_on = "bass-french"' in fault.cure
    (fault,) = faults_in(text + "[hair]\n")
    assert (fault.key, fault.line) == ("hair", 12)


def test_missing_keys_are_one_fault_each_with_the_usual_value():
    text = changed("outer_width = 22.5\n", "").replace('arch_kind = "half-ellipse"\n', "")
    width, arch = faults_in(text)
    assert (width.key, width.line) == ("ferrule.outer_width", 7)
    assert "add `outer_width = 22.5`, usual for a bass-french" in width.cure
    assert 'add `arch_kind = "half-ellipse"`' in arch.cure


@pytest.mark.parametrize("new", ["ferrule = 3", 'ferrule = "x"', "[[ferrule]]"])
def test_rejects_a_section_that_is_not_a_table(new):
    start, end = WHOLE_FILE.index("[ferrule]"), WHOLE_FILE.index("[hair]")
    text = WHOLE_FILE[:start] + WHOLE_FILE[end:]
    text = text.replace("[pattern]", f"{new}\n[pattern]", 1) if "=" in new else f"{text}{new}\n"
    (fault,) = faults_in(text)
    assert fault.key == "ferrule"
    assert fault.line == line_of(text, new)
    assert "[ferrule]" in fault.cure


@pytest.mark.parametrize(
    "name", ["Knot", 'a "q" & <b> \\ %s {0}', "Große Möwe № 2", "x" * 60, "../up"]
)
def test_accepts_names(name):
    escaped = name.replace("\\", "\\\\").replace('"', '\\"')
    assert pattern_of(changed("Dunlin", escaped)).identity.name == name


@pytest.mark.parametrize(
    ("name", "problem"),
    [
        ('"a\\nb"', "line break (U+000A)"),
        ('"a\\u0000b"', "does not print (U+0000)"),
        ('"a\\u202eb"', "does not print (U+202E)"),
        ('""', "empty"),
        ('"  "', "empty"),
        (f'"{"x" * 61}"', "61 characters"),
        ("7", "7 is not a text"),
        ("true", "true is not a text"),
    ],
)
def test_rejects_names(name, problem):
    (fault,) = faults_in(changed('"Dunlin"', name))
    assert (fault.key, fault.line) == ("pattern.name", 4)
    assert problem in fault.problem


def test_the_revision():
    assert pattern_of(changed("[ferrule]", 'revision = "B2"\n[ferrule]')).identity.revision == "B2"
    (fault,) = faults_in(changed("[ferrule]", "revision = 2\n[ferrule]"))
    assert fault.key == "pattern.revision"
    assert "in quotes" in fault.cure


def test_name_and_family_are_required():
    name, family = faults_in(changed('name = "Dunlin"\nfamily = "bass-french"\n', ""))
    assert (name.key, name.line) == ("pattern.name", 3)
    assert (family.key, family.line) == ("pattern.family", 3)
    assert "bass-german" in family.cure


@pytest.mark.parametrize("family", ['"bass-frensh"', "1", "[]"])
def test_rejects_an_unknown_family(family):
    (fault,) = faults_in(changed('"bass-french"', family))
    assert (fault.key, fault.line) == ("pattern.family", 5)
    assert "violin" in fault.cure
    assert ("the nearest" in fault.cure) == family.startswith('"')


def test_reports_all_faults_in_file_order():
    text = changed('units = "mm"', 'units = "inch"')
    text = text.replace("outer_width = 22.5", 'outer_width = "22"').replace(
        "tol = 0.05", "tol = -1"
    )
    text = text.replace("count = 280", "cuont = 280").replace("width = 20\n", "width = nan\n")
    text = text.replace("lean_deg = 0\n", "")
    faults = faults_in(text)
    assert [(f.line, f.key) for f in faults] == [
        (1, "units"),
        (8, "ferrule.outer_width"),
        (9, "ferrule.height"),
        (12, "hair.lean_deg"),
        (13, "hair.cuont"),
        (14, "hair.width"),
    ]


def test_fault_gives_its_place_on_one_line():
    (fault,) = faults_in(changed("outer_width = 22.5", "outer_width = 225"))
    assert str(fault) == (
        "dunlin.toml:8: ferrule.outer_width: 225 mm is outside the possible range of 8 to 32 mm; "
        "state a number from 8 to 32 mm, usually 22.5 for a bass-french"
    )


def test_value_outside_the_usual_band_is_a_warning():
    text = changed("outer_width = 22.5", "outer_width = 25").replace("count = 280", "count = 200")
    wide, few = pattern_of(text).warnings
    assert wide == (
        "dunlin.toml:8: ferrule.outer_width: 25 mm is above the usual range for a bass-french, "
        "20 to 24 mm"
    )
    assert few.startswith("dunlin.toml:13: hair.count: 200 is below the usual range")


def test_a_fault_found_later_points_at_its_line():
    pattern = pattern_of(WHOLE_FILE).with_("hair.width", 19)
    fault = fault_at(pattern, "hair.width", "too wide", "narrow it")
    assert (fault.file, fault.line, fault.key) == ("dunlin.toml", 15, "hair.width")
    assert fault_at(pattern, "", "odd", "even").line is None
    assert fault_at("x.toml", "hair.width", "odd", "even").file == "x.toml"
