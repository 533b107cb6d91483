"""What the maker's own shop has: printer, paper, laser, router, as its file states them."""

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
