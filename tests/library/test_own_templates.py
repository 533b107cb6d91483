"""A folder of one's own adds templates, without a change of the package."""

import json
import re
import shutil
from pathlib import Path

import pytest
from command.calls import call
from readers import dxf_raw

import templates_gen as tg

DEVELOPERS = (Path(__file__).parents[2] / "DEVELOPERS.md").read_text("utf-8")
#: The example in DEVELOPERS.md.
GAUGE = re.search(r"`mine/block.py`:\n\n```python\n(.*?)```", DEVELOPERS, re.DOTALL)[1]


@pytest.fixture(autouse=True)
def bench(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    (tmp_path / "mine").mkdir()
    (tmp_path / "mine" / "block.py").write_text(GAUGE, "utf-8")
    (tmp_path / "dunlin.toml").write_text(tg.new("bass-french", "Dunlin").to_toml(), "utf-8")
    return tmp_path


def test_listed_with_its_size(capsys):
    done = call(capsys, "list", "dunlin.toml", "--with", "mine", "--json")
    rows = {t["name"]: t for t in json.loads(done.out)["templates"]}
    length = tg.read("dunlin.toml")["frog.length_bottom"]
    assert rows["frog-block"]["width_mm"] == pytest.approx(length, abs=1e-9)
    assert rows["frog-block"]["height_mm"] == pytest.approx(20.0, abs=1e-9)
    assert len(rows) == len(tg.templates(tg.read("dunlin.toml"))) + 1


def test_drawn_and_on_the_page(capsys, bench):
    done = call(
        capsys,
        "draw",
        "dunlin.toml",
        "-o",
        "out",
        "--with",
        "mine",
        "--only",
        "frog-block",
        "--plane",
    )
    assert done.status == 0, done.err
    drawn = dxf_raw.read((bench / "out" / "dunlin--frog-block.dxf").read_bytes())
    (outline,) = [e for e in drawn.entities if e.layer == "OUTLINE"]
    xs = [corner.real for corner, _ in outline.corners]
    assert max(xs) - min(xs) == pytest.approx(tg.read("dunlin.toml")["frog.length_bottom"])
    assert "frog, clamping block" in (bench / "out" / "index.html").read_text("utf-8")


def test_drawn_beside_the_patterns_own(capsys, bench):
    done = call(
        capsys, "draw", "dunlin.toml", "-o", "out", "--with", "mine", "--plane", "--format", "svg"
    )
    assert done.status == 0, done.err
    names = {p.name for p in (bench / "out").glob("*.svg")}
    assert {"dunlin--frog-block.svg", "dunlin--frog-side.svg"} <= names


@pytest.mark.parametrize(
    ("source", "words"),
    [
        ("x = 1\n", "declares no template"),
        ("def f(:\n", "mine/block.py:1: cannot be run: SyntaxError"),
        ("a = 1\nb = 1 / 0\n", "mine/block.py:2: cannot be run: ZeroDivisionError"),
        (GAUGE.replace("frog-block", "frog-side"), "frog-side: there is a template of that name"),
        (GAUGE + GAUGE.replace("def block", "def other"), "frog-block: there is a template of"),
        (
            GAUGE.replace("frog.length_bottom", "frog.lenght_bottom"),
            "mine/block.py:7: frog-block: cannot be drawn: KeyError: 'frog.lenght_bottom is not",
        ),
    ],
)
def test_faulty_folder_is_refused_with_file_and_line(capsys, bench, source, words):
    (bench / "mine" / "block.py").write_text(source, "utf-8")
    done = call(capsys, "list", "dunlin.toml", "--with", "mine")
    assert done.status == 2
    assert done.out == ""
    assert words in " ".join(done.err.split())


def test_missing_folder_is_refused(capsys, bench):
    shutil.rmtree(bench / "mine")
    done = call(capsys, "draw", "dunlin.toml", "-o", "out", "--with", "mine", "--plane")
    assert done.status == 2
    assert "mine: there is no such folder" in done.err
    assert not (bench / "out").exists()
