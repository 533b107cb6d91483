"""What the maker states: declarations, families, files, and the pattern they make."""

from templates_gen.parameters.declare import (
    Choice,
    Num,
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
from templates_gen.parameters.pattern import UNWATCHED, Dims, Identity, Pattern

__all__ = [
    "UNWATCHED",
    "Choice",
    "Dims",
    "Identity",
    "Mark",
    "Num",
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
