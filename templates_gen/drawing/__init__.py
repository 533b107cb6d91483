"""Everything a part's ``sheets.py`` draws with: templates, views, strokes, dimensions, paths.

A sheet file imports from here and from its own part::

    from templates_gen.drawing import HorizontalDim, Pattern, View, all_strokes, cut, template
    from templates_gen.parts.slide import outline
"""

from templates_gen.drawing.chart import Curve, Reach, chart
from templates_gen.drawing.compose import PlacedSheet
from templates_gen.drawing.marks import Marks
from templates_gen.drawing.pricks import bit_below, pocket_marks, prick
from templates_gen.drawing.sheet import CHART, TABLE, Label, Layer, Sheet, Stroke
from templates_gen.drawing.table import table
from templates_gen.drawing.template import Template, template
from templates_gen.drawing.text import capitalized, figure, printable
from templates_gen.drawing.view import (
    Angle,
    Dimension,
    HorizontalDim,
    Leader,
    Radius,
    Text,
    VerticalDim,
    View,
    all_strokes,
    centre_line,
    cut,
    drill,
    hidden,
    line,
    pocket,
    scribe,
)
from templates_gen.geometry import Path, Pen, Point, circle, polygon, rectangle
from templates_gen.parameters import Pattern

__all__ = [
    "CHART",
    "TABLE",
    "Angle",
    "Curve",
    "Dimension",
    "HorizontalDim",
    "Label",
    "Layer",
    "Leader",
    "Marks",
    "Path",
    "Pattern",
    "Pen",
    "PlacedSheet",
    "Point",
    "Radius",
    "Reach",
    "Sheet",
    "Stroke",
    "Template",
    "Text",
    "VerticalDim",
    "View",
    "all_strokes",
    "bit_below",
    "capitalized",
    "centre_line",
    "chart",
    "circle",
    "cut",
    "drill",
    "figure",
    "hidden",
    "line",
    "pocket",
    "pocket_marks",
    "polygon",
    "prick",
    "printable",
    "rectangle",
    "scribe",
    "table",
    "template",
]
