"""Read SVG files by the standard.

Parsed by the standard library (XML) and svgpathtools (path data); a user unit is worth what
width, height and viewBox say, and a size without a unit is in px of 1/96 inch.
Source: SVG 1.1 chapters 7 (viewBox) and 8 (paths); CSS Values 3, 5.2 (96 px to the inch).
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from readers.outline import NODES, Item, Run, integrals, joined, piece, straight
from svgpathtools import Arc, Line, parse_path

_NS = "{http://www.w3.org/2000/svg}"
_UNITS = {"mm": 1.0, "cm": 10.0, "in": 25.4, "pt": 25.4 / 72, "px": 25.4 / 96, "": 25.4 / 96}


@dataclass(frozen=True)
class Size:
    """A size as the file states it: the number, and the unit, "" for none."""

    number: float
    unit: str

    @property
    def mm(self) -> float:
        return self.number * _UNITS[self.unit]


@dataclass(frozen=True)
class SvgPage:
    """The page's size, its view box, its groups, and what must not be there: elements outside
    the groups, anything but text turned, lengths in other units."""

    width: Size
    height: Size
    view: tuple[float, float, float, float]
    groups: list[ET.Element]
    stray: list[str]
    turned: list[str]
    foreign: list[str]
    commands: set[str]
    items: list[Item]

    @property
    def texts(self) -> list[ET.Element]:
        return [t for g in self.groups for t in g.iter(f"{_NS}text")]


def title_of(group: ET.Element) -> str:
    """Return the label of a group."""
    return group.findtext(f"{_NS}title", "")


@lru_cache(1000)
def read(data: bytes) -> SvgPage:
    """Read an SVG file."""
    root = ET.fromstring(data)
    width, height = _size(root.get("width", "")), _size(root.get("height", ""))
    view = tuple(float(v) for v in root.get("viewBox", "").split())
    assert len(view) == 4
    groups = root.findall(f"{_NS}g")
    known = {*groups, *(e for g in groups for e in g.iter())}
    plain = {f"{_NS}{n}" for n in ("svg", "title", "desc", "defs", "metadata", "style")}
    scale = (width.mm / view[2], height.mm / view[3])
    paths = [(g.get("id", ""), p) for g in groups for p in g.iter(f"{_NS}path")]
    return SvgPage(
        width,
        height,
        view,
        groups,
        [e.tag for e in root.iter() if e not in known and e.tag not in plain],
        [e.tag for e in root.iter() if e.get("transform") and e.tag != f"{_NS}text"],
        [v for e in root.iter() for v in e.attrib.values() if re.search(r"\d(px|pt|in|cm|em)", v)],
        {c for _, p in paths for c in re.findall("[A-Za-z]", p.get("d", ""))},
        [_item(layer, p.get("d", ""), scale) for layer, p in paths],
    )


def _size(stated: str) -> Size:
    match = re.fullmatch(r"([0-9.]+)([a-z]*)", stated)
    assert match, f"no size: {stated!r}"
    return Size(float(match[1]), match[2])


def _item(layer: str, d: str, scale: tuple[float, float]) -> Item:
    return joined(layer, d.rstrip()[-1] in "Zz", [_run(p, scale) for p in parse_path(d)])


def _run(part: Line | Arc, scale: tuple[float, float]) -> Run:
    assert isinstance(part, Line | Arc), f"{type(part).__name__} among the path data"

    def mm(z: complex) -> complex:
        return complex(z.real * scale[0], z.imag * scale[1])

    if isinstance(part, Line):
        return straight(mm(part.start), mm(part.end))
    z = np.array([mm(part.point(t)) for t in NODES])
    v = np.array([mm(part.derivative(t)) for t in NODES])
    length, area = integrals(z, v)
    left, right, top, bottom = part.bbox()
    box = (left * scale[0], top * scale[1], right * scale[0], bottom * scale[1])
    return Run(box, length, area, piece(mm(part.start), mm(part.point(0.5)), mm(part.end)))
