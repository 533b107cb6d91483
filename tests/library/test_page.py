"""The script on docs/python.md does what the page says, in at most twelve lines."""

import re
from pathlib import Path

import pytest
from readers import dxf_raw

import templates_gen as tg

PAGE = Path(__file__).parents[2] / "docs" / "python.md"
LISTINGS = re.findall(r"```python\n(.*?)```", PAGE.read_text("utf-8"), re.DOTALL)


def lines(listing):
    return [line for line in listing.splitlines() if line.strip()]


def test_script_is_short():
    assert len(lines(LISTINGS[1])) <= 12


@pytest.mark.kernel
def test_script_checks_cures_shows_and_writes(tmp_path, monkeypatch, capsys):
    monkeypatch.chdir(tmp_path)
    shown = {}
    names = {"show_object": lambda shape, name=None: shown.update({name: shape})}
    exec(LISTINGS[0], names)
    before = tg.read("dunlin.toml")
    exec(LISTINGS[1], names)
    p, printed = names["p"], capsys.readouterr().out
    # Two numbers are changed, and what fails is printed with its cure.
    assert p["ferrule.outer_width"] == 23 != before["ferrule.outer_width"]
    assert printed.count("FAIL") == printed.count("Cure: make") == 3
    assert "frog.eye_to_mortise" in printed
    # The cures are taken, so that the pattern can be drawn.
    assert tg.check(p).ok
    (frog,) = shown["frog"].solids().vals()
    assert frog.isValid() and frog.Volume() > 1000
    assert [f.name for f in tmp_path.glob("*.dxf")] == ["frog-side.dxf"]
    drawn = dxf_raw.read((tmp_path / "frog-side.dxf").read_bytes())
    (outline,) = [e for e in drawn.entities if e.layer == "OUTLINE"]
    assert outline.closed
    xs = [corner.real for corner, _ in outline.corners]
    assert max(xs) - min(xs) <= p["frog.length_bottom"]
