"""Declare and read the shop file: the printer, paper, laser and router of the workshop."""

from templates_gen.shop.params import (
    DovetailCutter,
    FineCutter,
    Guide,
    Laser,
    MortiseCutter,
    Paper,
    Plate,
    Printer,
    ProfileCutter,
    Shop,
)

__all__ = [
    "DovetailCutter",
    "FineCutter",
    "Guide",
    "Laser",
    "MortiseCutter",
    "Paper",
    "Plate",
    "Printer",
    "ProfileCutter",
    "Shop",
]
