"""Plane geometry of paths made of lines and circular arcs."""

from templates_gen.geometry.build import Pen, circle, polygon, rectangle
from templates_gen.geometry.path import Path
from templates_gen.geometry.segment import Point, Segment

__all__ = ["Path", "Pen", "Point", "Segment", "circle", "polygon", "rectangle"]
