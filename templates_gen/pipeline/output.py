"""Sheets into files: DXF and SVG in one piece, PDF on the maker's paper and for his printer."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from pathlib import Path

from templates_gen.drawing.compose import PlacedSheet
from templates_gen.drawing.furniture import footnote
from templates_gen.drawing.marks import Marks
from templates_gen.drawing.tiling import Page, tiles
from templates_gen.pipeline.progress import tracked
from templates_gen.shop import Printer, Shop
from templates_gen.shop.read import usual

PDF, DXF = "pdf", "dxf"
#: Kinds of DXF, as in ``writers.dxf``, which is not imported before it is needed.
ARCS, FLATTENED, R12 = "arcs", "flattened", "r12"
#: Said on every R12 sheet, and by the command.
UNITLESS = "R12 holds no unit: 1 unit is 1 mm"


@dataclass(frozen=True)
class OutputOptions:
    """How sheets become files.

    Args:
        shop: the maker's paper, printer and tools.
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
        """What the printer leaves free all round (mm)."""
        return float(self.shop.paper.margin)


#: A4, and a printer without error.
USUAL_OPTIONS = OutputOptions()


def files(
    stem: str,
    title: str,
    sheets: Sequence[PlacedSheet],
    formats: Sequence[str],
    options: OutputOptions,
    *,
    together: bool = True,
) -> dict[str, bytes]:
    """Every sheet in every format, and all of them in one PDF, by the files' names.

    Args:
        stem: what the files' names begin with.
        title: what a viewer calls the PDF of all sheets.
        sheets: the sheets.
        formats: of ``writers``.
        options: the paper and the printer.
        together: whether these are all the pattern has, so that one PDF may bear its name.
    """
    from templates_gen.writers import writer

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
            if not made[name]:
                del made[name]  # a sheet without a table has nothing to say in CSV
    if together and PDF in formats and len(sheets) > 1:
        made[f"{stem}.{PDF}"] = _bound(title, bound)
    return made


def earlier(folder: Path, stem: str, files: Iterable[str]) -> list[str]:
    """The pattern's files in a folder that are not of this draw, but of one before.

    The one that holds all sheets stands first: it is the likeliest to be printed unawares.

    Args:
        folder: where the files lie.
        stem: what the files' names begin with.
        files: the names of what is drawn now.
    """
    return _whole_first({n for n in _there(folder) if _of(n) == stem} - {*files})


def others(folder: Path, stem: str) -> list[str]:
    """Files in a folder that are of other patterns, by the way they are named.

    Args:
        folder: where the files lie.
        stem: what this pattern's files begin with.
    """
    there = _there(folder)
    stems = {_of(n) for n in there if "--" in n} - {stem}
    return _whole_first({n for n in there if _of(n) in stems})


def _there(folder: Path) -> set[str]:
    """Names of the sheets in a folder, by their endings."""
    from templates_gen.writers import FORMATS

    endings = {*(f".{form}" for form in FORMATS), ".step"}
    there = folder.iterdir() if folder.is_dir() else ()
    return {f.name for f in there if f.suffix in endings}


def _of(name: str) -> str:
    """What the names of a pattern's files begin with."""
    return name.partition("--")[0] if "--" in name else name.rpartition(".")[0]


def _whole_first(names: Iterable[str]) -> list[str]:
    return sorted(names, key=lambda name: ("--" in name, name))


def pages(sheet: PlacedSheet, options: OutputOptions) -> list[Page]:
    """What a sheet is printed on, each page corrected for the printer and saying so."""
    laid = tiles(sheet, options.paper, float(options.shop.paper.overlap))
    return [corrected(page, options.shop.printer, sheet.margin) for page in laid]


def corrected(page: Page, printer: Printer, margin: float) -> Page:
    """The page stretched to undo the printer's error, if it has any, and a note that says so."""
    if not printer.corrected:
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
