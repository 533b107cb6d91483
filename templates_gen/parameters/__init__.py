"""Parameters: declarations, families, files and the pattern."""

from templates_gen.geometry import FloatOrArray
from templates_gen.parameters.declare import (
    FINE_STEP,
    Choice,
    Parameter,
    Points,
    Scale,
    Schema,
    choice,
    degrees,
    mm,
    parameters_of,
    points,
    quantity,
    ratio,
    records_in,
    section,
    title_of,
    whole,
)
from templates_gen.parameters.dims import Dims
from templates_gen.parameters.families import FAMILIES, Band, Family, bands
from templates_gen.parameters.faults import Ledger, fault_at
from templates_gen.parameters.marks import Mark
from templates_gen.parameters.pattern import UNTRACKED, Identity, Pattern
from templates_gen.parameters.source import Source
from templates_gen.parameters.stated import FileKind, value_in
from templates_gen.parameters.stock import DRILL, SHEET, THREAD, WIRE
from templates_gen.parameters.value import too_wide, troubles
from templates_gen.parameters.words import (
    clipped,
    format_value,
    near,
    nearest,
    plain,
    span,
    with_unit,
    wrapped,
    written,
)

__all__ = [
    "DRILL",
    "FAMILIES",
    "FINE_STEP",
    "SHEET",
    "THREAD",
    "UNTRACKED",
    "WIRE",
    "Band",
    "Choice",
    "Dims",
    "Family",
    "FileKind",
    "FloatOrArray",
    "Identity",
    "Ledger",
    "Mark",
    "Parameter",
    "Pattern",
    "Points",
    "Scale",
    "Schema",
    "Source",
    "bands",
    "choice",
    "clipped",
    "degrees",
    "fault_at",
    "format_value",
    "mm",
    "near",
    "nearest",
    "parameters_of",
    "plain",
    "points",
    "quantity",
    "ratio",
    "records_in",
    "section",
    "span",
    "title_of",
    "too_wide",
    "troubles",
    "value_in",
    "whole",
    "with_unit",
    "wrapped",
    "written",
]
