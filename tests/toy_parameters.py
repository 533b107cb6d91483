"""A small schema with invented bands, for tests of the machinery that reads parameters."""

from __future__ import annotations

from pathlib import Path

import pytest

from templates_gen.errors import Fault, InputError
from templates_gen.parameters import (
    Choice,
    FloatOrArray,
    Mark,
    Points,
    Scale,
    Schema,
    choice,
    degrees,
    families,
    mm,
    points,
    section,
    whole,
)
from templates_gen.parameters.families import Band
from templates_gen.parameters.read import read


class Arch(Choice):
    HALF_ELLIPSE = "half-ellipse"
    SEGMENT = "segment"


@section("ferrule", "Ferrule")
class Ferrule:
    outer_width: FloatOrArray = mm("Width outside", "W_f", low=8, high=32, scale=Scale.HAIR_WIDTH)
    height: FloatOrArray = mm(
        "Height over the flat on which the ribbon lies, outside, at the middle of the arch, "
        "measured square to the hair",
        "H_f",
        low=4,
        high=16,
        scale=Scale.HEIGHT,
    )
    arch_kind: Arch = choice("The curve the arch follows", Arch)
    sections: Points = points(
        "Width y measured at places x behind the front edge",
        "W_x",
        least=2,
        x_low=0,
        x_high=40,
        y_low=8,
        y_high=32,
        marks=(Mark("ferrule.height"), Mark(y="ferrule.outer_width")),
    )


@section("hair", "Hair")
class Hair:
    count: FloatOrArray = whole("Number of hairs", "n_h", low=50, high=400, scale=Scale.KNOT)
    lean_deg: FloatOrArray = degrees("Lean of the ribbon", low=-10, high=20, scale=Scale.NEVER)
    width: FloatOrArray = mm(
        "Width of the ribbon", low=5, high=25, scale=Scale.HAIR_WIDTH, measured=True
    )


@section("outline", "Outline of the frog's end")
class Outline:
    end: Points = points(
        "The end's curve, x behind the heel, y above the slide",
        least=3,
        x_low=-5,
        x_high=10,
        y_low=0,
        y_high=30,
        rising=False,
    )


SCHEMA = Schema((Ferrule, Hair, Outline))

BANDS = {
    "ferrule.outer_width": Band(22.5, 20.0, 24.0, "B+M"),
    "ferrule.height": Band(10.5, 9.0, 12.0, "M"),
    "ferrule.arch_kind": Band("half-ellipse", None, None, "O"),
    "hair.count": Band(280.0, 240.0, 330.0, "A"),
    "hair.lean_deg": Band(0.0, -2.0, 2.0, "M"),
    "hair.width": Band(20.0, 16.5, 21.5, "M"),
    "ferrule.sections": Band((), None, None, "O"),
    "outline.end": Band((), None, None, "O"),
}
VIOLIN = BANDS | {"ferrule.outer_width": Band(13.0, 12.0, 14.0, "B+M")}

WHOLE_FILE = """\
units = "mm"

[pattern]
name = "Dunlin"
family = "bass-french"

[ferrule]
outer_width = 22.5
height = { value = 10.5, tol = 0.05, note = "on the mandrel" }
arch_kind = "half-ellipse"

[hair]
count = 280
lean_deg = 0
width = 20
"""


def use_toy_bands(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(families, "bands", lambda f: VIOLIN if f == "violin" else BANDS)


def in_folder(monkeypatch: pytest.MonkeyPatch, folder: Path) -> None:
    """Toy bands, and names relative to a folder of the test's own."""
    use_toy_bands(monkeypatch)
    monkeypatch.chdir(folder)


def write(text: str | bytes, name: str = "dunlin.toml") -> str:
    data = text.encode() if isinstance(text, str) else text
    Path(name).write_bytes(data)
    return name


def faults_of(name: str) -> list[Fault]:
    """The faults of a file that must have some."""
    with pytest.raises(InputError) as caught:
        read(name, SCHEMA)
    return list(caught.value.faults)


def faults_in(text: str | bytes) -> list[Fault]:
    return faults_of(write(text))


def changed(old: str, new: str) -> str:
    """The whole file with one passage changed, which must be in it."""
    assert WHOLE_FILE.count(old) == 1
    return WHOLE_FILE.replace(old, new)


def line_of(text: str, passage: str) -> int:
    """The line of a passage that occurs once, counted by eye's means."""
    assert text.count(passage) == 1
    return text[: text.index(passage)].count("\n") + 1
