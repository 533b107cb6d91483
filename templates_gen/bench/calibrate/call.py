"""Run ``calibrate``: write the test page, store the factors, report the skew."""

from __future__ import annotations

from pathlib import Path as FilePath

from templates_gen.bench.calibrate.factors import ACROSS, UP, Skew, factors, skew
from templates_gen.bench.calibrate.page import page
from templates_gen.errors import Fault, InputError, raise_faults
from templates_gen.parameters.rewrite import set_values
from templates_gen.parameters.source import load
from templates_gen.shop.read import read, usual
from templates_gen.shop.starter import STARTER
from templates_gen.writers.files import write_all

#: Least skew that a rule read to a quarter millimetre shows (degrees).
TELLS_DEG = 0.1


def stored(file: str, x: float, y: float) -> str:
    """Return the text of a shop file with these factors; a missing file starts from the default.

    Raises:
        InputError: the file is not a valid shop file.
    """
    text = STARTER
    if FilePath(file).exists():
        read(file)
        text = load(FilePath(file), file).text
    return set_values(text, {"printer.x_factor": x, "printer.y_factor": y})


def call(
    output: str | None,
    paper: str,
    measured: tuple[float, float] | None,
    diagonals: tuple[float, float] | None,
    shop: str | None,
) -> list[str]:
    """Write the test page, store the factors and report the skew, as the options state.

    Args:
        output: folder of the test page.
        paper: the paper in the printer.
        measured: the rectangle on the plain page, across and up (mm).
        diagonals: its diagonals (mm).
        shop: the shop file.

    Returns:
        Lines to print.

    Raises:
        InputError: an impossible measurement or option.
    """
    if output is None and measured is None and diagonals is None:
        cure = "state -o DIR for the page to print, then --measured X Y --shop FILE"
        raise InputError([Fault("calibrate", None, "", "nothing to do", cure)])
    if measured is not None and shop is None:
        cure = "name your shop file with --shop; it is created if missing"
        raise InputError([Fault("--measured", None, "", "nowhere to store the factors", cure)])
    faults: list[Fault] = []
    lines, text = [], ""
    try:
        if measured is not None and shop is not None:
            x, y = factors(*measured)
            text = stored(shop, x, y)
            lines += _factors_text(shop, x, y)
    except InputError as e:
        faults += e.faults
    try:
        if diagonals is not None:
            sound = measured if measured and not faults else (ACROSS, UP)
            lines.append(_skew_text(skew(*diagonals, *sound)))
    except InputError as e:
        faults += e.faults
    if output is not None and FilePath(output).is_file():
        cure = "name a folder with -o"
        faults.append(Fault(output, None, "", "cannot be written: it is a file", cure))
    raise_faults(faults)
    if text and shop is not None:
        target = FilePath(shop).resolve()  # what a link points to, not the link
        write_all(target.parent, {target.name: text.encode("utf-8")})
    if output is not None:
        lines += _write(FilePath(output), paper, shop)
    return lines


def _factors_text(shop: str, x: float, y: float) -> list[str]:
    if x == y == 1.0:
        return [f"{shop}: x_factor 1, y_factor 1; the printer is exact, nothing is corrected"]
    return [
        f"{shop}: x_factor {x:.6f}, y_factor {y:.6f}; they correct the PDFs only",
        f"next: templates-gen calibrate -o DIR --shop {shop}; print and measure the proof",
    ]


def _skew_text(found: Skew) -> str:
    size = f"{abs(found.degrees):.2f}°, {abs(found.over):.2f} mm over {UP:g}"
    if abs(found.degrees) < TELLS_DEG:
        return f"skew {size}: too small to measure with a rule"
    way = "right" if found.degrees > 0 else "left"
    return f"skew {size}, to the {way} going up: feed the paper straight; factors cannot correct it"


def _write(folder: FilePath, paper: str, shop: str | None) -> list[str]:
    from templates_gen.writers.pdf import write_pages

    own = usual() if shop is None else read(shop)
    printer, margin = own.printer, float(own.paper.margin)
    kind = "proof" if printer.has_correction else "test page"
    name = f"calibrate-{kind.replace(' ', '-')}-{paper}.pdf"
    made = write_pages(f"Printer {kind}", [page(paper, printer, margin)])
    write_all(folder, {name: made})
    return [f"{folder / name}: print it at 100 %, measure it"]
