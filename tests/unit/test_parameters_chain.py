"""Test files based on files: only differences are stated, and no path leaves the folder."""

from pathlib import Path

import pytest
from toy_parameters import SCHEMA, WHOLE_FILE, changed, faults_of, in_folder, write

from templates_gen.parameters.read import read


@pytest.fixture(autouse=True)
def folder(monkeypatch, tmp_path):
    home = tmp_path / "home"
    home.mkdir()
    in_folder(monkeypatch, home)


def derived(base: str, more: str = "", name: str = "knot.toml") -> str:
    heading = '[pattern]\nname = "Knot"\n'
    return write(f'units = "mm"\nbased_on = {base}\n{heading}{more}', name)


def only_fault(name):
    (fault,) = faults_of(name)
    return fault


def test_based_on_a_family():
    pattern = read(derived('"bass-french"', "[ferrule]\nouter_width = 21\n"), SCHEMA)
    assert pattern.family.name == "bass-french"
    assert pattern.values["ferrule.outer_width"] == 21
    assert pattern.values["hair.count"] == 280
    assert pattern.places["ferrule.outer_width"] == ("knot.toml", 6)
    assert pattern.places["hair.count"] == ("knot.toml", 2)
    assert pattern.warnings == ()


def test_the_family_stated_wins_over_the_starters():
    pattern = read(derived('"violin"', 'family = "bass-french"\n'), SCHEMA)
    assert pattern.family.name == "bass-french"
    assert pattern.values["ferrule.outer_width"] == 13
    (warning,) = pattern.warnings
    assert warning.startswith("knot.toml:2: ferrule.outer_width: 13 mm is below the usual range")


def test_based_on_a_file():
    write(WHOLE_FILE.replace("[ferrule]", 'revision = "C"\n[ferrule]'))
    pattern = read(derived('"dunlin.toml"', "[ferrule]\nheight = 11\n[hair]\nwidth = 23"), SCHEMA)
    identity = pattern.identity
    assert (identity.name, identity.revision, identity.file) == ("Knot", "A", "knot.toml")
    assert identity.family.name == "bass-french"
    assert pattern.values["ferrule.height"] == 11
    assert pattern.tolerances["ferrule.height"] == 0.05
    assert pattern.notes["ferrule.height"] == "on the mandrel"
    assert pattern.places["ferrule.outer_width"] == ("dunlin.toml", 9)
    assert pattern.warnings[0].startswith("knot.toml:8: hair.width: 23 mm")


def test_a_tolerance_alone_may_differ():
    write(WHOLE_FILE)
    name = derived('"dunlin.toml"', '[ferrule]\nheight = { tol = 0.1, note = "again" }')
    pattern = read(name, SCHEMA)
    assert pattern.values["ferrule.height"] == 10.5
    assert pattern.tolerances["ferrule.height"] == 0.1
    assert pattern.notes["ferrule.height"] == "again"


def test_an_inherited_tolerance_too_wide_for_the_new_value():
    write(changed("tol = 0.05", "tol = 3"))
    fault = only_fault(derived('"dunlin.toml"', "[ferrule]\nheight = 5\n"))
    assert (fault.file, fault.line) == ("dunlin.toml", 9)
    assert "3 mm is too much for a value of 5 mm" in fault.problem


def test_a_base_need_not_be_whole():
    write('units = "mm"\n[hair]\ncount = 280\nlean_deg = 0\n', "shop.toml")
    start = WHOLE_FILE[WHOLE_FILE.index("[ferrule]") : WHOLE_FILE.index("count")]
    name = derived('"shop.toml"', f'family = "viola"\n{start}width = 20\n')
    assert read(name, SCHEMA).values["hair.count"] == 280


def test_in_a_folder_below_and_named_from_elsewhere():
    Path("old").mkdir()
    write(WHOLE_FILE, "old/dunlin.toml")
    derived('"old/dunlin.toml"')
    pattern = read("../home/knot.toml", SCHEMA)
    assert pattern.places["hair.count"] == ("../home/old/dunlin.toml", 13)


def test_the_faults_of_a_base_bear_its_own_name_after_the_files_own():
    write(changed("count = 280", "count = 2"))
    own, base = faults_of(derived('"dunlin.toml"', "[ferrule]\nheight = 99\n"))
    assert (own.file, own.line, own.key) == ("knot.toml", 6, "ferrule.height")
    assert (base.file, base.line, base.key) == ("dunlin.toml", 13, "hair.count")


def test_a_key_the_whole_chain_lacks():
    write(changed("count = 280\n", ""))
    fault = only_fault(derived('"dunlin.toml"'))
    assert (fault.file, fault.line, fault.key) == ("dunlin.toml", 12, "hair.count")


@pytest.mark.parametrize(
    ("base", "problem"),
    [
        ('"../away.toml"', "`..`"),
        ('"sub/../../away.toml"', "`..`"),
        (r'"sub\\..\\..\\away.toml"', "`..`"),
        ('"/etc/away.toml"', "not a relative path"),
        (r'"C:\\away.toml"', "not a relative path"),
        (r'"\\away.toml"', "not a relative path"),
        ('"basis-french"', 'the nearest family is "bass-french"'),
        ('"dunlin.txt"', "neither a family nor a .toml file"),
        ('"dunlin"', "neither a family nor a .toml file"),
        ('"~"', "neither a family nor a .toml file"),
        ('"a\\u0000.toml"', "U+0000"),
        ('""', "empty"),
        ("7", "7 is not a text"),
        ('["dunlin.toml"]', "a list is not a text"),
    ],
)
def test_bases_that_are_refused(base, problem):
    write(WHOLE_FILE, "../away.toml")
    fault = only_fault(derived(base))
    assert (fault.file, fault.line, fault.key) == ("knot.toml", 2, "based_on")
    assert problem in fault.problem
    assert "bass-german" in fault.cure


@pytest.mark.parametrize("link", ["out.toml", "sub"])
def test_a_link_out_of_the_folder(link):
    write(WHOLE_FILE, "../away.toml")
    Path(link).symlink_to("../away.toml" if link.endswith("toml") else "..")
    fault = only_fault(derived(f'"{link}"' if link.endswith("toml") else '"sub/away.toml"'))
    assert (fault.line, fault.key) == (2, "based_on")
    assert "leads out of the folder" in fault.problem


def test_a_link_inside_the_folder_is_fine():
    write(WHOLE_FILE)
    Path("link.toml").symlink_to("dunlin.toml")
    assert read(derived('"link.toml"'), SCHEMA).values["hair.count"] == 280


def test_a_circle_of_links():
    Path("link.toml").symlink_to("link.toml")
    fault = only_fault(derived('"link.toml"'))
    assert fault.file == "link.toml"


def test_reports_the_whole_circle_of_bases():
    derived('"b.toml"', name="a.toml")
    derived('"c.toml"', name="b.toml")
    derived('"b.toml"', name="c.toml")
    fault = only_fault("a.toml")
    assert (fault.file, fault.line) == ("c.toml", 2)
    assert "b.toml → c.toml → b.toml" in fault.problem
    assert "a.toml" not in fault.problem


def test_a_file_based_on_itself_by_another_name():
    Path("link.toml").symlink_to("knot.toml")
    assert "circle" in only_fault(derived('"link.toml"')).problem


@pytest.mark.parametrize("files", [8, 9])
def test_no_more_than_eight_files(files):
    for i in range(files - 1):
        derived(f'"{i + 1}.toml"', name=f"{i}.toml")
    write(WHOLE_FILE, f"{files - 1}.toml")
    if files == 8:
        assert read("0.toml", SCHEMA).identity.name == "Knot"
    else:
        fault = only_fault("0.toml")
        assert (fault.file, fault.line) == ("7.toml", 2)
        assert "more than 8" in fault.problem


@pytest.mark.parametrize(
    ("prepare", "problem"),
    [
        (lambda: None, "no such file"),
        (lambda: Path("base.toml").mkdir(), "folder"),
        (lambda: write(b"\xff", "base.toml"), "UTF-8"),
        (lambda: write("a = ", "base.toml"), "there is no value after the `=`"),
    ],
)
def test_a_base_that_cannot_be_read_is_named_with_the_line_that_names_it(prepare, problem):
    prepare()
    fault = only_fault(derived('"base.toml"'))
    assert fault.file == "base.toml"
    assert problem in fault.problem
    assert "based_on in knot.toml:2" in fault.problem
