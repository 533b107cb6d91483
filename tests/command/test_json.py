"""The documents of ``--json``: exactly the promised keys, numbers unrounded, cures that cure."""

import json
import math
from pathlib import Path

import pytest
from command.calls import FAILING, SOUND, call, write

from templates_gen.bow import catalogue
from templates_gen.parameters.rewrite import set_values

CHECK = {
    "id": str,
    "part": str,
    "says": str,
    "measured": float,
    "limit": float,
    "sense": str,
    "margin": float,
    "unit": str,
    "severity": str,
    "verdict": str,
    "basis": str,
    "cure": (dict, type(None)),
}
TEMPLATE = {"name": str, "part": str, "width_mm": float, "height_mm": float, "purpose": str}


@pytest.fixture(autouse=True)
def folder(monkeypatch, tmp_path):
    monkeypatch.chdir(tmp_path)
    write("dunlin.toml", SOUND)
    write("knot.toml", FAILING)


def document(capsys, *argv):
    return json.loads(call(capsys, *argv).out)


def shaped(found, shape):
    assert list(found) == list(shape)
    for key, kind in shape.items():
        assert isinstance(found[key], kind), (key, found[key])


@pytest.mark.parametrize("file", ["dunlin.toml", "knot.toml"])
def test_check(capsys, file):
    told = document(capsys, "check", "--json", file)
    assert list(told) == ["file", "ok", "checks"]
    assert told["file"] == file
    assert told["ok"] is (file == "dunlin.toml")
    assert [c["id"] for c in told["checks"]] == [r.id for r in catalogue.rules()]
    for check in told["checks"]:
        shaped(check, CHECK)
        assert check["sense"] in (">=", "<=")
        assert check["severity"] in ("error", "warning")
        assert check["verdict"] in ("pass", "close", "fail")
        spare = check["measured"] - check["limit"]
        spare = spare if check["sense"] == ">=" else -spare
        assert math.isclose(check["margin"], spare, abs_tol=1e-9)
        assert (check["margin"] < 0) == (check["verdict"] == "fail") or abs(spare) < 1e-6
        assert check["verdict"] == "fail" or check["cure"] is None


def test_the_numbers_are_not_rounded(capsys):
    write("dunlin.toml", SOUND.replace("12.7", "12.712345678901"))
    told = document(capsys, "check", "--json", "dunlin.toml")
    (fits,) = [c for c in told["checks"] if c["id"] == "ferrule.ribbon_fits"]
    # Outside width less two walls of 0.7, each at its worst: ±0.05 and twice ±0.02.
    assert fits["measured"] == pytest.approx(12.712345678901 - 1.4 - 0.05 - 0.04, abs=1e-12)


def test_cures_in_the_json_make_the_checks_pass(capsys):
    """What a script would do: write the first cure into the file, check again, until all pass."""
    for _ in range(10):
        told = document(capsys, "check", "--json", "knot.toml")
        if told["ok"]:
            break
        stopping = [c for c in told["checks"] if (c["verdict"], c["severity"]) == ("fail", "error")]
        cure = stopping[0]["cure"]
        assert list(cure) == ["says", "set"]
        (key,) = cure["set"]
        assert key in cure["says"]
        write("knot.toml", set_values(Path("knot.toml").read_text("utf-8"), cure["set"]))
    assert told["ok"] is True


def test_list(capsys):
    told = document(capsys, "list", "--json", "dunlin.toml")
    assert list(told) == ["file", "templates"]
    assert told["file"] == "dunlin.toml"
    for template in told["templates"]:
        shaped(template, TEMPLATE)
        assert 0 < template["width_mm"] < 2000 and 0 < template["height_mm"] < 2000
