"""New values in the maker's own file. Referee: ``tomllib``, which shares no code with tomlkit."""

import sys
import tomllib
from subprocess import run

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from toy_parameters import SCHEMA, WHOLE_FILE, Arch, use_toy_bands

from templates_gen.errors import RewriteError
from templates_gen.parameters.rewrite import set_values
from templates_gen.parameters.starter import starter

TEXT = """\
# Knot, for the narrow stick
units = "mm"  # always
based_on = "dunlin.toml"

[pattern]
name = "Knot" # a wader

# all of silver
[ferrule]
outer_width = 22.50   # filed down
height = { value = 10.5, tol = 0.05, note = "on the mandrel" }  # do not touch
[ferrule.gauge]
value = 0.6
tol = 0.02  # sheet


# Hair
[hair]
count = 280
"""


def test_comments_notes_and_tolerances_survive():
    changes = {"ferrule.outer_width": 9.25, "ferrule.height": 11, "ferrule.gauge": 0.55}
    text = set_values(TEXT, changes)
    expected = TEXT.replace("22.50   #", "9.25    #").replace("value = 10.5", "value = 11")
    assert text == expected.replace("value = 0.6", "value = 0.55")


def test_new_key_goes_under_its_section_and_new_section_to_the_end():
    text = set_values(
        TEXT, {"hair.width": 20, "ferrule.length": 18, "frog.width": 23, "pattern.family": "viola"}
    )
    for line in TEXT.splitlines():
        assert line in text.splitlines()
    assert '# a wader\nfamily = "viola"\n' in text
    assert "# do not touch\nlength = 18\n\n[ferrule.gauge]" in text
    assert "count = 280\nwidth = 20\n" in text
    assert text.rstrip().endswith("[frog]\nwidth = 23")


def test_new_key_leaves_a_gap_before_the_next_section():
    text = "[ferrule]\nouter_width = 3 # a\n                # b\n\n\n# Hair\n[hair]\ncount = 1\n"
    assert set_values(text, {"ferrule.height": 2}) == text.replace("# b\n", "# b\nheight = 2\n")


def test_without_based_on_it_is_added_at_the_top():
    text = set_values('units = "mm"\n\n# Hair\n[hair]\ncount = 1\n', {"based_on": "viola"})
    assert text == 'units = "mm"\nbased_on = "viola"\n\n# Hair\n[hair]\ncount = 1\n'


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("hair.count = 1 # c\n", "hair.count = 2 # c\n"),
        ("hair = { count = 1, width = 2 }\n", "hair = { count = 2, width = 2 }\n"),
        ("hair.count.value = 1\n", "hair.count.value = 2\n"),
        ("hair.count = { value = 1 }\n", "hair.count = { value = 2 }\n"),
        ('[hair]\n"count" = 1\n', '[hair]\n"count" = 2\n'),
        (
            "[hair.count]\nvalue = 1\n[x]\n[hair]\ny = 1\n",
            "[hair.count]\nvalue = 2\n[x]\n[hair]\ny = 1\n",
        ),
        ("[hair]\r\ncount = 1 # c\r\n", "[hair]\r\ncount = 2 # c\r\n"),
        ("[hair]\ncount = 1", "[hair]\ncount = 2"),
        ("[hair]\ncount = { tol = 1 }\n", "[hair]\ncount = { tol = 1 , value = 2}\n"),
    ],
)
def test_ways_a_value_may_be_written(text, expected):
    assert set_values(text, {"hair.count": 2}).replace(" ", "") == expected.replace(" ", "")


def test_an_empty_text():
    assert tomllib.loads(set_values("", {"units": "mm", "hair.count": 2})) == {
        "units": "mm",
        "hair": {"count": 2},
    }


@pytest.mark.parametrize(
    ("value", "written"),
    [
        (22.500000001, "22.5"),
        (22.4999999999, "22.5"),
        (0.1 + 0.2, "0.3"),
        (170.0, "170"),
        (-0.0, "0"),
        (1e-7, "0"),
        (1 / 3, "0.333333"),
        ("viola", '"viola"'),
        (Arch.SEGMENT, '"segment"'),
        ('q"<&\\', '"q\\"<&\\\\"'),
    ],
)
def test_how_a_value_is_written(value, written):
    assert f"count = {written}\n" in set_values("[hair]\ncount = 1\n", {"hair.count": value})


STATIONS = """\
[stick]
stations = [  # of the old bow
  [0, 12.0],    # butt
  # the lapping covers this one
  [110, 11.80],
  [350, 10.4]   # middle
]  # by lamplight
"""


def test_new_points_keep_comments_on_their_rows():
    text = set_values(STATIONS, {"stick.stations": ((0.0, 12.0), (111.0, 11.8), (350.0, 10.5))})
    assert text == STATIONS.replace("[110,", "[111,").replace("10.4]", "10.5]")
    longer = set_values(STATIONS, {"stick.stations": ((0, 12), (110, 11.8), (350, 10.4), (600, 8))})
    assert "[110, 11.80],\n  [350, 10.4],   # middle\n  [600, 8]" in longer
    shorter = set_values(STATIONS, {"stick.stations": ((0, 12),)})
    assert "[0, 12.0],    # butt" in shorter
    for made in (text, longer, shorter):
        assert "# of the old bow" in made and "]  # by lamplight" in made


MANY = tuple((float(i), 10.5) for i in range(500))


@pytest.mark.parametrize(
    ("text", "rest"),
    [
        ("[stick]\nstations = [[0, 1]]   # old\nx = 1\n", "# old"),
        ("[stick]\nstations = []  # old\nx = 1\n", "# old"),
        ('[stick]\nstations = { value = [[0, 1]], note = "n" }  # old\nx = 1\n', 'note = "n"'),
        ('[stick]\nstations = { note = "n" }\nx = 1\n', 'note = "n"'),
        ("# head\n[stick]\nx = 1\n", "# head"),
    ],
)
@pytest.mark.parametrize("points", [(), ((0.0, 1 / 3), (2.0, 5.0)), MANY])
def test_replaces_points_in_any_layout(text, rest, points):
    changed = set_values(text, {"stick.stations": points})
    table = tomllib.loads(changed)["stick"]
    stated = table["stations"]
    value = stated["value"] if isinstance(stated, dict) else stated
    assert value == [[x, round(y, 6)] for x, y in points]
    assert rest in changed
    assert table["x"] == 1
    assert max(map(len, changed.splitlines())) < 100  # a line of over 1000 would not be read


def test_points_with_a_note():
    made = set_values("[stick]\n", {"stick.stations": {"value": ((0, 1.5),), "note": "n"}})
    assert made == '[stick]\nstations = {value = [[0, 1.5]], note = "n"}\n'


@pytest.mark.parametrize("text", ["hair = 3\n", "hair = [1]\n", "[hair\n", "[[hair]]\n"])
def test_rejects_a_text_that_cannot_take_the_change(text):
    with pytest.raises(RewriteError):
        set_values(text, {"hair.count": 2})


def test_rejects_a_result_that_reads_back_differently(monkeypatch):
    import tomlkit

    monkeypatch.setattr(tomlkit, "dumps", lambda _: "[hair]\ncount = 3\n")
    with pytest.raises(RewriteError):
        set_values("[hair]\ncount = 1\n", {"hair.count": 2})


numbers = st.floats(-1e6, 1e6).map(lambda x: round(x, 6))
tables = st.lists(st.tuples(numbers, numbers), max_size=9).map(tuple)


@settings(max_examples=40, deadline=None, derandomize=True)
@given(
    st.dictionaries(st.sampled_from([*SCHEMA.parameters, "frog.width", "new"]), numbers | tables)
)
def test_any_changes_leave_everything_else(changes):
    with pytest.MonkeyPatch.context() as patch:
        use_toy_bands(patch)
        text = starter("bass-french", SCHEMA)
    for before in (text, WHOLE_FILE):
        after = set_values(before, changes)
        old, new = tomllib.loads(before), tomllib.loads(after)
        for key, value in changes.items():
            section, _, name = key.rpartition(".")
            stated = (new[section] if section else new).pop(name)
            bare = stated["value"] if isinstance(stated, dict) else stated
            assert bare == ([list(row) for row in value] if isinstance(value, tuple) else value)
            (old.get(section, {}) if section else old).pop(name, None)
        assert {name: table for name, table in new.items() if table or name in old} == old
        comments = [line.partition("#")[2] for line in before.splitlines() if "#" in line]
        assert [line.partition("#")[2] for line in after.splitlines() if "#" in line] == comments


def test_reading_imports_no_tomlkit_and_no_heavy_library():
    code = (
        "import sys, templates_gen.parameters.read, templates_gen.parameters.rewrite\n"
        "import templates_gen.parameters.starter, templates_gen.parameters.explain\n"
        "heavy = {'tomlkit', 'cadquery', 'ezdxf', 'reportlab', 'shapely', 'svgwrite'}\n"
        "print(sorted(heavy & set(sys.modules)))"
    )
    assert (
        run([sys.executable, "-c", code], check=True, capture_output=True, text=True).stdout
        == "[]\n"
    )
