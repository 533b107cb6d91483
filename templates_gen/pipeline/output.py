"""Write sheets to files: DXF and SVG in one piece, PDF tiled and corrected for the printer."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from templates_gen.drawing import Marks, PlacedSheet
from templates_gen.drawing.furniture import footnote
from templates_gen.drawing.tiling import Page, tiles
from templates_gen.pipeline.progress import tracked
from templates_gen.shop import Printer, Shop
from templates_gen.shop.read import usual
from templates_gen.writers import FORMATS, writer

PDF, DXF = "pdf", "dxf"
#: Kinds of DXF, as in ``writers.dxf``, which is imported only when needed.
ARCS, FLATTENED, R12 = "arcs", "flattened", "r12"
#: Note on every R12 sheet; the command prints it too.
UNITLESS = "R12 holds no unit: 1 unit is 1 mm"


@dataclass(frozen=True)
class OutputOptions:
    """Options for the files.

    Args:
        shop: margin, overlap, printer and tools of the workshop.
        paper: the paper in the printer.
        dxf: what the reader of the DXF can take: ``arcs``, ``flattened`` or ``r12``.
        kerf: kerf of the laser (mm), compensated in every format; 0 for none.
    """

    shop: Shop = field(default_factory=usual)
    paper: str = "a4"
    dxf: str = ARCS
    kerf: float = 0.0

    @property
    def margin(self) -> float:
        """Width of the empty edge of the paper (mm)."""
        return float(self.shop.paper.margin)


#: A4 and a printer without error.
DEFAULT_OPTIONS = OutputOptions()


def files(
    stem: str,
    title: str,
    sheets: Sequence[PlacedSheet],
    formats: Sequence[str],
    options: OutputOptions,
    *,
    together: bool = True,
) -> dict[str, bytes]:
    """Write every sheet in every format, and all sheets in one PDF; return the bytes by file name.

    Args:
        stem: the start of the file names.
        title: the title of the PDF of all sheets.
        sheets: the sheets.
        formats: some of ``writers.FORMATS``.
        options: paper, printer and kind of DXF.
        together: whether these are all sheets of the pattern; only then there is a common PDF.
    """
    made: dict[str, bytes] = {}
    bound: list[Page] = []
    for sheet in tracked(sheets, "files of sheet"):
        for form in formats:
            name = f"{stem}--{sheet.name}.{form}"
            if form == PDF:
                printed = pages(sheet, options)
                bound += printed
                made[name] = _bound(f"{sheet.pattern}: {sheet.title}", printed)
            elif form == DXF and options.dxf != ARCS:
                made[name] = _variant(sheet, options.dxf)
            else:
                made[name] = writer(form)(sheet)
    if together and PDF in formats and len(sheets) > 1:
        made[f"{stem}.{PDF}"] = _bound(title, bound)
    # A sheet without a table has no CSV.
    return {name: data for name, data in made.items() if data}


def earlier_files(folder: Path, stem: str, files: Iterable[str]) -> list[str]:
    """List the pattern's files from an earlier draw.

    The PDF of all sheets comes first: it is the most likely to be printed by mistake.

    Args:
        folder: the output folder.
        stem: the start of the file names.
        files: the names of the files drawn now.
    """
    return _whole_first({n for n in _there(folder) if _of(n) == stem} - {*files})


def other_patterns(folder: Path, stem: str) -> list[str]:
    """List the files of other patterns in a folder, recognized by their names.

    Args:
        folder: the output folder.
        stem: the start of this pattern's file names.
    """
    there = _there(folder)
    stems = {_of(n) for n in there if "--" in n} - {stem}
    return _whole_first({n for n in there if _of(n) in stems})


def _there(folder: Path) -> set[str]:
    """Return the names of the files in a folder that a draw may have written."""
    endings = {*(f".{form}" for form in FORMATS), ".step"}
    there = folder.iterdir() if folder.is_dir() else ()
    return {f.name for f in there if f.suffix in endings}


def _of(name: str) -> str:
    """Return the stem of a file name: the part that stands for the pattern."""
    return name.partition("--")[0] if "--" in name else name.rpartition(".")[0]


def _whole_first(names: Iterable[str]) -> list[str]:
    return sorted(names, key=lambda name: ("--" in name, name))


def pages(sheet: PlacedSheet, options: OutputOptions) -> list[Page]:
    """Divide a sheet into pages, each corrected for the printer, with a note."""
    laid = tiles(sheet, options.paper, float(options.shop.paper.overlap))
    return [correct_page(page, options.shop.printer, sheet.margin) for page in laid]


def correct_page(page: Page, printer: Printer, margin: float) -> Page:
    """Scale a page to correct the printer's error, and add a note; unchanged if there is none."""
    if not printer.has_correction:
        return page
    across, up = factors = printer.factors_on(page.size)
    note = footnote(f"Corrected: ↔ {across:.5f}, ↕ {up:.5f}", margin)
    return replace(page, furniture=page.furniture + Marks(labels=(note,)), factors=factors)


def _variant(sheet: PlacedSheet, kind: str) -> bytes:
    from templates_gen.writers.dxf import Variant, write

    if kind == R12:
        note = footnote(UNITLESS, sheet.margin)
        sheet = replace(sheet, labels=(*sheet.labels, note))
    return write(sheet, Variant(kind))


def _bound(title: str, printed: Sequence[Page]) -> bytes:
    from templates_gen.writers.pdf import write_pages

    return write_pages(title, printed)
