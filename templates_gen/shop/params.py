"""What a shop file may state, one record a section; lengths in mm.

A guide is a collar round the cutter or a bearing on it; the template's edge is what it follows.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from templates_gen.parameters.declare import Choice, Parameter, Scale, choice, degrees, mm, section


def _length(meaning: str, low: float, high: float) -> Any:
    return mm(meaning, low=low, high=high, scale=Scale.NEVER, tol=0.0)


def _factor(meaning: str) -> Any:
    told = Parameter("", meaning, "", "1", 0.97, 1.03)
    return field(metadata={"parameter": told})


class Guide(Choice):
    """What runs along the template's edge."""

    COLLAR = "collar"
    BEARING = "bearing"


@section("paper", "Paper")
class Paper:
    """The paper templates are printed on."""

    margin: float = _length("Kept free at the paper's edge, all round", 5, 25)
    overlap: float = _length("How far the pages of a large template lie over one another", 12, 40)


@section("printer", "Printer")
class Printer:
    """What makes the printer's error good; `calibrate --measured` writes it here."""

    x_factor: float = _factor("Across a portrait page: nominal length divided by measured")
    y_factor: float = _factor("Up a portrait page: nominal length divided by measured")

    @property
    def factors(self) -> tuple[float, float]:
        """Across and up a portrait page: along the short and the long side of the sheet."""
        return (float(self.x_factor), float(self.y_factor))

    def factors_on(self, size: tuple[float, float]) -> tuple[float, float]:
        """Factors across and up a page.

        A page that is wider than high is printed on the same sheet, turned by 90°: its width runs
        along the long side of the sheet.

        Args:
            size: width and height of the page (mm).
        """
        x, y = self.factors
        return (y, x) if size[0] > size[1] else (x, y)

    @property
    def corrected(self) -> bool:
        """Whether there is an error to make good."""
        return self.factors != (1.0, 1.0)


@section("laser", "Laser or knife")
class Laser:
    """How much the cut takes."""

    kerf: float = _length("Width of the cut; used only with --kerf", 0, 1)


@section("plate", "Router templates")
class Plate:
    """The stock router templates are made of, and how they hold the work."""

    thickness: float = _length("Thickness of the template", 0.3, 25)
    collar_depth: float = _length("How far the collar stands below the router's base", 1, 20)
    rim: float = _length("Width of the template round an opening, under the router", 10, 120)
    blank_fit: float = _length("How much larger the jig's pocket is than the blank", 0.05, 0.15)
    clamp_screw: float = _length("Hole for a clamp's screw", 2, 12)
    clamp_foot: float = _length("Across the foot of a clamp", 6, 40)


class _Cutter:
    """A cutter with its guide."""

    guide: Guide
    outside: float
    cutter: float

    @property
    def aside(self) -> float:
        """How far the template's edge stands from the finished one (mm)."""
        return (float(self.outside) - float(self.cutter)) / 2


def _guide() -> Any:
    return choice("What follows the template: a collar or a bearing", Guide)


def _outside() -> Any:
    return _length("Outside diameter of the collar or bearing", 2, 60)


def _diameter() -> Any:
    return _length("Diameter of the cutter", 0.5, 40)


@section("mortise_cutter", "Cutter for the mortises of frog and head")
class MortiseCutter(_Cutter):
    guide: Guide = _guide()
    outside: float = _outside()
    cutter: float = _diameter()


@section("fine_cutter", "Cutter for the stick mortise and the eyelet")
class FineCutter(_Cutter):
    guide: Guide = _guide()
    outside: float = _outside()
    cutter: float = _diameter()


@section("dovetail_cutter", "Dovetail cutter for the slide's channel")
class DovetailCutter(_Cutter):
    guide: Guide = _guide()
    outside: float = _outside()
    cutter: float = _length("Largest diameter of the cutter, at its end", 1, 40)
    flank_deg: float = degrees(
        "Flank of the cutter from its axis", low=3, high=30, scale=Scale.NEVER, tol=0.0
    )


@section("profile_cutter", "Cutter for the frog's profile")
class ProfileCutter(_Cutter):
    guide: Guide = _guide()
    outside: float = _outside()
    cutter: float = _diameter()


Cutter = MortiseCutter | FineCutter | DovetailCutter | ProfileCutter


@dataclass(frozen=True)
class Shop:
    """Everything a shop file states; a tool it does not state is not there."""

    paper: Paper
    printer: Printer
    laser: Laser | None
    plate: Plate
    mortise_cutter: MortiseCutter | None
    fine_cutter: FineCutter | None
    dovetail_cutter: DovetailCutter | None
    profile_cutter: ProfileCutter | None
