"""Parameters: declarations, families, files and the pattern."""

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
from templates_gen.parameters.dims import Dims
from templates_gen.parameters.families import Family
from templates_gen.parameters.marks import Mark
from templates_gen.parameters.pattern import UNTRACKED, Identity, Pattern

__all__ = [
    "UNTRACKED",
    "Choice",
    "Dims",
    "Family",
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
