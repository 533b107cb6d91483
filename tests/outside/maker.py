"""Work as a user does: state values in a file, have it read, read the drawn files.

Everything goes through the parameter file, so a test sees what a user gets.
"""

from __future__ import annotations

import tempfile
from collections.abc import Mapping
from pathlib import Path

from readers import dxf_raw, pdf_page
from readers.dxf_raw import Entity, RawDxf

from templates_gen.parameters import Pattern
from templates_gen.parameters.rewrite import set_values
from templates_gen.pipeline import rendering
from templates_gen.pipeline.output import OutputOptions

PARAMS = Path(__file__).parents[2] / "params"
FAMILIES = ("violin", "viola", "cello", "bass-french", "bass-german")


def stated(family: str, changes: Mapping[str, float | str] | None = None) -> Pattern:
    """Return a family's starter with some values changed, read from a file."""
    text = set_values((PARAMS / f"{family}.toml").read_text("utf-8"), dict(changes or {}))
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "sanderling.toml"
        file.write_text(text, "utf-8")
        return rendering.read(str(file))


def drawn(p: Pattern, name: str) -> RawDxf:
    """Draw one template and read its DXF file."""
    return dxf_raw.read(_file(p, name, "dxf"))


def printed(p: Pattern, name: str, paper: str = "a4") -> pdf_page.PdfPage:
    """Draw one template and read its PDF file."""
    return pdf_page.read(_file(p, name, "pdf", paper))


def _file(p: Pattern, name: str, form: str, paper: str = "a4") -> bytes:
    options = OutputOptions(paper=paper)
    files = rendering.render(
        rendering.check(p), formats=(form,), only=(name,), options=options, plane=True
    )
    (data,) = [data for file, data in files.items() if file.endswith(f".{form}")]
    return data


def on(drawing: RawDxf, layer: str) -> list[Entity]:
    """The lines on a layer."""
    return [e for e in drawing.lines if e.layer == layer]


def verdicts(p: Pattern) -> dict[str, str]:
    """Return the verdicts by the names of the checks."""
    return {c.result.rule.id: c.result.verdict for c in rendering.check(p)}
