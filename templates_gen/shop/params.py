"""Declare the parameters of a shop file, one record per section; lengths in mm.

A guide is a collar round the cutter or a bearing on it; it runs along the template's edge.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from templates_gen.parameters import Choice, Parameter, Scale, choice, degrees, mm, section


def _length(meaning: str, low: float, high: float) -> Any:
    return mm(meaning, low=low, high=high, scale=Scale.NEVER, tol=0.0)


def _factor(meaning: str) -> Any:
    return field(metadata={"parameter": Parameter("", meaning, "", "1", 0.97, 1.03)})


class Guide(Choice):
    """The guide that runs along the template's edge."""

    COLLAR = "collar"
    BEARING = "bearing"


@section("paper", "Paper")
class Paper:
    """The paper templates are printed on."""

    margin: float = _length("Empty edge of the paper, all round", 5, 25)
    overlap: float = _length("Overlap of the pages of a large template", 12, 40)


@section("printer", "Printer")
class Printer:
    """Correction of the printer's error; `calibrate --measured` writes it here."""

    x_factor: float = _factor("Across a portrait page: nominal length divided by measured")
    y_factor: float = _factor("Up a portrait page: nominal length divided by measured")

    @property
    def factors(self) -> tuple[float, float]:
        """Factors across and up a portrait page, along the short and the long side of the sheet."""
        return (float(self.x_factor), float(self.y_factor))

    def factors_on(self, size: tuple[float, float]) -> tuple[float, float]:
        """Return the factors across and up a page.

        A landscape page is printed on the same sheet, turned by 90°: its width is along the long
        side of the sheet.

        Args:
            size: width and height of the page (mm).
        """
        x, y = self.factors
        return (y, x) if size[0] > size[1] else (x, y)

    @property
    def has_correction(self) -> bool:
        """Whether the printer needs a correction."""
        return self.factors != (1.0, 1.0)


@section("laser", "Laser or knife")
class Laser:
    """The width that a cut removes."""

    kerf: float = _length("Width of the cut; used only with --kerf", 0, 1)


@section("plate", "Router templates")
class Plate:
    """The plate router templates are made of, and the clamps that hold the work."""

    thickness: float = _length("Thickness of the template", 0.3, 25)
    collar_depth: float = _length("Height of the collar below the router's base", 1, 20)
    rim: float = _length("Width of the template round an opening, to support the router", 10, 120)
    blank_fit: float = _length("Clearance of the blank in the jig's pocket", 0.05, 0.15)
    clamp_screw: float = _length("Diameter of a clamp screw's hole", 2, 12)
    clamp_foot: float = _length("Width of a clamp's foot", 6, 40)


_GUIDE: Any = choice("What follows the template: a collar or a bearing", Guide)


@dataclass(frozen=True, kw_only=True)
class _Cutter:
    """A cutter with its guide."""

    guide: Guide = _GUIDE
    outside: float = _length("Outside diameter of the collar or bearing", 2, 60)
    cutter: float = _length("Diameter of the cutter", 0.5, 40)

    @property
    def aside(self) -> float:
        """Distance between the template's edge and the finished edge (mm)."""
        return (float(self.outside) - float(self.cutter)) / 2


@section("mortise_cutter", "Cutter for the mortises of frog and head")
class MortiseCutter(_Cutter):
    """The cutter for the mortises of frog and head."""


@section("fine_cutter", "Cutter for the stick mortise and the eyelet")
class FineCutter(_Cutter):
    """The cutter for the stick mortise and the eyelet."""


@section("dovetail_cutter", "Dovetail cutter for the slide's channel")
class DovetailCutter(_Cutter):
    """The dovetail cutter for the slide's channel."""

    cutter: float = _length("Largest diameter of the cutter, at its end", 1, 40)
    flank_deg: float = degrees(
        "Flank of the cutter from its axis", low=3, high=30, scale=Scale.NEVER, tol=0.0
    )


@section("profile_cutter", "Cutter for the frog's profile")
class ProfileCutter(_Cutter):
    """The cutter for the frog's profile."""


Cutter = MortiseCutter | FineCutter | DovetailCutter | ProfileCutter


@dataclass(frozen=True)
class Shop:
    """All records of a shop file; a tool that is not stated is None."""

    paper: Paper
    printer: Printer
    laser: Laser | None
    plate: Plate
    mortise_cutter: MortiseCutter | None
    fine_cutter: FineCutter | None
    dovetail_cutter: DovetailCutter | None
    profile_cutter: ProfileCutter | None
