"""Plane geometry of paths made of lines and circular arcs."""

from templates_gen.geometry.arrays import FloatOrArray, Floats
from templates_gen.geometry.build import Pen, circle, polygon, rectangle
from templates_gen.geometry.path import Path
from templates_gen.geometry.segment import Box, Point, Segment

__all__ = [
    "Box",
    "FloatOrArray",
    "Floats",
    "Path",
    "Pen",
    "Point",
    "Segment",
    "circle",
    "polygon",
    "rectangle",
]
