"""What the maker states: declarations, families, files, and the pattern they make."""

from templates_gen.geometry.arrays import FloatOrArray
from templates_gen.parameters.declare import (
    Choice,
    Parameter,
    Points,
    Scale,
    Schema,
    choice,
    degrees,
    mm,
    points,
    quantity,
    ratio,
    section,
    whole,
)
from templates_gen.parameters.marks import Mark
from templates_gen.parameters.pattern import UNTRACKED, Dims, Identity, Pattern

__all__ = [
    "UNTRACKED",
    "Choice",
    "Dims",
    "FloatOrArray",
    "Identity",
    "Mark",
    "Parameter",
    "Pattern",
    "Points",
    "Scale",
    "Schema",
    "choice",
    "degrees",
    "mm",
    "points",
    "quantity",
    "ratio",
    "section",
    "whole",
]
