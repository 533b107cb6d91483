"""Test bad parameter files: exit 2, one message with place and cure, nothing else.

Each is passed to every verb that takes a file. Valid TOML: TOML v1.0.0, toml.io.
"""

import os
from pathlib import Path

import pytest
from command.calls import SOUND, WAYS, call, refused, tree, way, write

#: One way for each verb that reads a file, and one that would draw in spite of anything.
FEW = ("check-json", "list", "draw-force")
N = "outer_width = 12.7"
NUMBER = "ferrule.outer_width"
ONE = "state a number from 8 to 34 mm, usually 12.6 for a violin"

#: Name: the text of the valid file, the text that replaces it, the line and the key reported, and
#: words of the problem and of the cure.
TEXTS = {
    "unknown key": (N, "outer_widht = 12.7", 8, "ferrule.outer_widht", "unknown", "`outer_width`"),
    "unknown section": ("[ferrule]", "[ferule]", 7, "ferule", "unknown section", "`ferrule`"),
    "unknown top key": ("[pattern]", "unit = 1\n[pattern]", 4, "unit", "unknown", "`units`"),
    "key of another section": (N, f"{N}\ncount = 170", 9, "ferrule.count", "unknown", "[hair]"),
    "true": (N, "outer_width = true", 8, NUMBER, "true is not a number", ONE),
    "text": (N, 'outer_width = "22"', 8, NUMBER, '"22" is a text, not a number', ONE),
    "list": (N, "outer_width = [12.7]", 8, NUMBER, "a list is not a number", ONE),
    "date": (N, "outer_width = 2024-05-01", 8, NUMBER, "is not a number", ONE),
    "nan": (N, "outer_width = nan", 8, NUMBER, "nan is not a finite number", ONE),
    "inf": (N, "outer_width = inf", 8, NUMBER, "inf is not a finite number", ONE),
    "-inf": (N, "outer_width = -inf", 8, NUMBER, "-inf is not a finite number", ONE),
    "1e999": (N, "outer_width = 1e999", 8, NUMBER, "not a finite number", ONE),
    "negative": (
        N,
        "outer_width = -12.7",
        8,
        NUMBER,
        "outside the possible range of 8 to 34 mm",
        ONE,
    ),
    "too large": (
        N,
        "outer_width = 127",
        8,
        NUMBER,
        "outside the possible range of 8 to 34 mm",
        ONE,
    ),
    "just too large": (N, "outer_width = 34.001", 8, NUMBER, "outside the possible range", ONE),
    "nan as ±": (N, "outer_width = {value=12.7, tol=nan}", 8, NUMBER, "tol", "± of 0 or more"),
    "negative ±": (N, "outer_width = {value=12.7, tol=-1}", 8, NUMBER, "tol", "± of 0 or more"),
    "half a hair": (N, f"{N}\n[hair]\ncount = 170.5", 10, "hair.count", "not a whole", "whole"),
    "no such word": (N, 'arch_kind = "segmnet"', 8, "ferrule.arch_kind", "segmnet", '"segment"'),
    "inch": ('units = "mm"', 'units = "inch"', 1, "units", "inch", 'units = "mm"'),
    "no unit": ('units = "mm"\n', "", None, "units", "not stated", 'units = "mm"'),
    "no name": ('name = "Dunlin"\n', "", 4, "pattern.name", "no name", "add `name"),
    "number as name": ('"Dunlin"', "7", 5, "pattern.name", "7", "text in quotes"),
    "no base": ('based_on = "violin"', "", 1, "based_on", "sections are", "add `based_on"),
    "comma": (N, "outer_width = 12,7", 8, "", "not valid TOML", "point, `22.5`"),
    "mm behind": (N, "outer_width = 12.7 mm", 8, "", "not valid TOML", "without its unit"),
    "no value": (N, "outer_width =", 8, "", "no value after", "write a value"),
    "open bracket": ("[ferrule]", "[ferrule", 7, "", "no closing bracket", "`[ferrule]`"),
    "open quote": ('"Dunlin"', '"Dunlin', 5, "", "not closed", "close it"),
    "curly quotes": ('"Dunlin"', "“Dunlin”", 5, "", "curly", "straight quotes"),
    "twice": (N, f"{N}\n{N}", 9, "", f"{NUMBER} is already stated in line 8", "one of"),
    "section twice": (
        N,
        f'{N}\n[pattern]\nname = "Knot"',
        9,
        "",
        "[pattern] is already stated in line 4",
        "change it there",
    ),
    "deep lists": (N, f"outer_width = {'[' * 400}{']' * 400}", None, "", "too deep", "[section]"),
    "deep tables": (N, f"a{'.a' * 400} = 1", None, "", "too deep", "[section]"),
    "long line": (N, f"# {'x' * 2000}", 8, "", "2002 characters", "shorten"),
    "no family": (
        'based_on = "violin"',
        'based_on = "violni"',
        2,
        "based_on",
        "violni",
        '"violin"',
    ),
    "itself": ('"violin"', '"dunlin.toml"', 2, "based_on", "circle", "leave one"),
    "a circle": ('"violin"', '"round.toml"', 2, "based_on", "circle", "leave one"),
    "escape": ('"violin"', '"../other.toml"', 2, "based_on", "leaves the folder", ".toml file"),
    "root": ('"violin"', '"/etc/x.toml"', 2, "based_on", "not a relative path", ".toml file"),
    "link out": ('"violin"', '"link.toml"', 2, "based_on", "link", "copy the file"),
    "base gone": ('"violin"', '"gone.toml"', None, "", "no such file", "check its name"),
}

BYTES = {
    "not UTF-8": (SOUND.replace("Dunlin", "Dünlin").encode("latin-1"), 5, "0xfc is not UTF-8"),
    "UTF-16": (SOUND.encode("utf-16"), None, ""),
    "NUL": (SOUND.encode() + b"# \0\n", 9, "NUL bytes"),
    "empty": (b"", None, ""),
    "a picture": (bytes(range(256)) * 50, None, ""),
}


@pytest.fixture(autouse=True)
def folder(monkeypatch, tmp_path):
    home = tmp_path / "home"
    home.mkdir()
    monkeypatch.chdir(home)
    write("../other.toml", SOUND)
    Path("link.toml").symlink_to("../other.toml")


@pytest.mark.parametrize("name", FEW)
@pytest.mark.parametrize("case", TEXTS)
def test_rejects_bad_text(capsys, name, case):
    old, new, line, key, problem, cure = TEXTS[case]
    assert SOUND.count(old) == 1
    write("dunlin.toml", SOUND.replace(old, new))
    write("round.toml", SOUND.replace('"violin"', '"dunlin.toml"'))
    before = tree()
    said = call(capsys, *way(name, "dunlin.toml"))
    (message,) = refused(said)
    assert key in message
    file = {"a circle": "round.toml", "base gone": "gone.toml"}.get(case, "dunlin.toml")
    assert message.startswith(f"{file}:{line}: " if line else f"{file}: ")
    assert problem in message
    assert cure in message
    assert tree() == before


@pytest.mark.parametrize("name", FEW)
@pytest.mark.parametrize("case", BYTES)
def test_rejects_bad_bytes(capsys, name, case):
    data, line, problem = BYTES[case]
    write("dunlin.toml", data)
    before = tree()
    said = call(capsys, *way(name, "dunlin.toml"))
    lines = refused(said, messages=None)
    assert lines[0].startswith(f"dunlin.toml:{line}: " if line else "dunlin.toml:")
    assert problem in lines[0]
    assert tree() == before


def _folder():
    Path("dunlin.toml").mkdir()
    return "folder"


def _missing():
    return "no such file"


def _large():
    with Path("dunlin.toml").open("wb") as f:
        f.truncate(50_000_000)
    return "50.0 MB"


def _unreadable():
    Path(write("dunlin.toml", SOUND)).chmod(0)
    if os.access("dunlin.toml", os.R_OK):
        pytest.skip("this user may read everything")
    return "permission denied"


def _pipe():
    os.mkfifo("dunlin.toml")
    return "not an ordinary file"


def _loop():
    Path("dunlin.toml").symlink_to("dunlin.toml")
    return "cannot be read"


@pytest.mark.parametrize("name", WAYS)
@pytest.mark.parametrize("make", [_folder, _missing, _large, _unreadable, _pipe, _loop])
def test_rejects_a_file_that_cannot_be_read(capsys, name, make):
    problem = make()
    (line,) = refused(call(capsys, *way(name, "dunlin.toml")))
    assert line.startswith("dunlin.toml: ")
    assert problem in line and "; " in line
    assert not Path("out").exists()


def test_reports_every_fault_of_every_file_at_once(capsys):
    write("a.toml", SOUND.replace(N, "outer_width = true\nheight = nan"))
    write("b.toml", SOUND.replace(N, "outer_widht = 1"))
    for verb in (["check"], ["draw", "--plane", "-o", "out"]):
        lines = refused(call(capsys, *verb, "a.toml", "b.toml"), messages=3)
        assert [line.split(": ")[0] for line in lines] == ["a.toml:8", "a.toml:9", "b.toml:8"]
    assert not Path("out").exists()


def test_reports_faults_of_shop_and_files_together(capsys):
    write("a.toml", SOUND.replace(N, "outer_width = true"))
    write("shop.toml", 'units = "mm"\n[paper]\nmargin = 1\n')
    for verb in (["check"], ["list"], ["draw", "--plane", "-o", "out"]):
        lines = refused(call(capsys, *verb, "a.toml", "--shop", "shop.toml"), messages=2)
        assert [line.split(": ")[0] for line in lines] == ["a.toml:8", "shop.toml:3"]
    assert not Path("out").exists()


def test_reports_a_bow_given_as_the_shop_in_one_line(capsys):
    write("a.toml", SOUND)
    (line,) = refused(call(capsys, "check", "a.toml", "--shop", "a.toml"))
    assert line.startswith("a.toml: it states a bow, not a shop; ")


@pytest.mark.parametrize(
    ("argv", "description"),
    [
        (["draw", "a.toml", "-o", ""], "the name is empty"),
        (["new", "viola", "-o", " "], "the name is empty"),
        (["weigh", "a.toml", "--target-mass", "130,5"], "write 130.5"),
        (["calibrate", "--measured", "149,2", "230"], "write 149.2"),
    ],
)
def test_rejects_an_empty_name_or_a_comma_in_a_number(capsys, argv, description):
    write("a.toml", SOUND)
    before = {*Path().iterdir()}
    said = call(capsys, *argv)
    assert said.status == 2
    assert description in said.err
    assert {*Path().iterdir()} == before


@pytest.mark.parametrize(
    ("argv", "description"),
    [
        (["fit", "a.toml"], "are required: --stick, -o/--output"),
        (["fit", "a.toml", "--stick", "a.toml", "--keep", "stifness", "-o", "b.toml"], "between"),
        (["weigh", "a.toml", "--target-mass", "60,5"], "write 60.5"),
        (["draw", "a.toml", "-o", "out", "--paper", "a9"], "tabloid"),
    ],
)
def test_messages_about_a_call_fit_80_columns(capsys, monkeypatch, argv, description):
    monkeypatch.setenv("COLUMNS", "80")
    said = call(capsys, *argv)
    assert said.status == 2 and said.out == ""
    lines = said.err.splitlines()
    assert [line for line in lines if len(line) > 80] == []
    told = " ".join(said.err.partition(" error: ")[2].split())
    assert description in told and lines[0].startswith("usage: templates-gen")
