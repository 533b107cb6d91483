"""Draw three heads side by side, each given by three numbers."""

from __future__ import annotations

from templates_gen.drawing.view import Text, View, all_strokes, cut
from templates_gen.geometry import Path
from templates_gen.geometry.clip import below
from templates_gen.parameters import Pattern
from templates_gen.parts.head import outline

#: Name: crown_fraction, ridge_deg, ridge_ratio.
CHARACTERS = {
    "upright": (0.36, 62.0, 0.45),
    "swept": (0.26, 42.0, 0.80),
    "full": (0.40, 88.0, 1.00),
}
_KEYS = ("head.crown_fraction", "head.ridge_deg", "head.ridge_ratio")
#: Distance from one head's face to the next, and length of stick shown with each (mm).
_APART, _STICK = 35.0, 24.0


def picture(p: Pattern) -> View:
    """Draw the heads in one row, each with its name and its numbers."""
    words, rows, at = [], [], 0.0
    for name, numbers in CHARACTERS.items():
        of = p.with_many(dict(zip(_KEYS, numbers, strict=True)))
        head = _short(outline.side(of))
        rows.append(cut(head.moved(at, 0.0)))
        middle = at + float(p.values["head.face_length"]) / 2
        words.append(Text((middle, -6.0), name))
        words.append(Text((middle, -11.0), " / ".join(f"{n:g}" for n in numbers)))
        at += float(p.values["head.face_length"]) + _APART
    return View("crown_fraction / ridge_deg / ridge_ratio", all_strokes(rows), tuple(words))


def _short(head: Path) -> Path:
    """Cut a head outline off, so that it shows only a little of its stick."""
    turned = head.mapped(lambda q: (q[1], -q[0]))
    return below(turned, _STICK).mapped(lambda q: (-q[1], q[0]))
