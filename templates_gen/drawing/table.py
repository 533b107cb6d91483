"""Draw a table as a view: ruled cells with text."""

from __future__ import annotations

import re
from collections.abc import Sequence

from templates_gen.drawing.text import text_width
from templates_gen.drawing.view import Text, View, all_strokes, line, scribe
from templates_gen.geometry import rectangle

_ROW, _CAP, _SIDE = 6.0, 2.5, 2.0
#: A negative number rounded to zero.
_MINUS_ZERO = re.compile(r"-0+(\.0*)?")


def table(title: str, rows: Sequence[Sequence[str]], least: float = 10.0) -> View:
    """Draw rows of text, the headings first; each column fits its longest text.

    Args:
        title: the table's title, written under it.
        rows: the text of the cells, as many in each row.
        least: least width of a column (mm), to leave room for handwriting.
    """
    cells = tuple(tuple(_without_minus_zero(cell) for cell in row) for row in rows)
    columns = list(zip(*cells, strict=True))
    widths = [
        max(least, *(text_width(cell, _CAP) + 2 * _SIDE for cell in column)) for column in columns
    ]
    total, tall = sum(widths), _ROW * len(cells)
    edges = [sum(widths[:i]) for i in range(1, len(widths))]
    strokes = all_strokes(
        scribe(rectangle(0.0, -tall, total, 0.0)),
        *(scribe(line((0.0, -_ROW * i), (total, -_ROW * i))) for i in range(1, len(cells))),
        *(scribe(line((x, -tall), (x, 0.0))) for x in edges),
    )
    words = tuple(
        Text((left + _SIDE, -_ROW * (i + 1) + 1.8), cell, "start")
        for i, row in enumerate(cells)
        for left, cell in zip([0.0, *edges], row, strict=True)
        if cell
    )
    return View(title, strokes, words, cells)


def _without_minus_zero(cell: str) -> str:
    return cell[1:] if _MINUS_ZERO.fullmatch(cell) else cell
