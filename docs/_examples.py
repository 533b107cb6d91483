"""Generate the example outputs: the files ``draw`` writes for a few patterns, and an index page."""

from __future__ import annotations

import contextlib
import io
import tempfile
from pathlib import Path

from _text import NOTICE, table

from templates_gen import cli
from templates_gen.parameters import Pattern
from templates_gen.pipeline import rendering, selection

#: The patterns to draw: paths from the repository's root.
PATTERNS = ("params/whimbrel.toml", "params/avocet.toml")


def examples(root: Path) -> dict[str, bytes]:
    """Return every file of ``outputs_example`` by its path there."""
    made = {"README.md": page(root).encode()}
    for file in PATTERNS:
        made |= drawn(root / file)
    return made


def page(root: Path) -> str:
    """Return the page that shows every sheet."""
    lines = ["# Example output of `draw`", "", NOTICE, ""]
    lines += ["Each folder is the output of `templates-gen draw FILE -o FOLDER` for one file."]
    for file in PATTERNS:
        lines += ["", *_gallery(rendering.read(str(root / file)), file)]
    return "\n".join(lines) + "\n"


def drawn(file: Path) -> dict[str, bytes]:
    """Return what the command writes for one file, in a folder with the pattern's name."""
    stem = rendering.stem(rendering.read(str(file)))
    printed = io.StringIO()
    with tempfile.TemporaryDirectory() as out:
        with contextlib.redirect_stdout(printed), contextlib.redirect_stderr(printed):
            status = cli.main(["draw", str(file), "-o", out])
        if status != cli.OK:
            raise RuntimeError(f"{file.name} cannot be drawn: {printed.getvalue()}")
        return {f"{stem}/{f.name}": f.read_bytes() for f in sorted(Path(out).iterdir())}


def _gallery(p: Pattern, file: str) -> list[str]:
    stem, rows = rendering.stem(p), []
    for t in selection.templates(p):
        name = f"{stem}/{stem}--{t.name}"
        image = f'<img src="{name}.svg" width="180" alt="{t.title}">'
        rows.append([image, f"**{t.title}**. {t.purpose}", f"[SVG]({name}.svg) [DXF]({name}.dxf) "])
        rows[-1][-1] += f"[PDF]({name}.pdf)"
    description = (
        f"From [{file}](../{file}). Every check and its result: [manifest]({stem}/manifest.json)."
    )
    return [
        f"## {p.identity.name}, {p.family.instrument}",
        "",
        description,
        "",
        table(("Sheet", "Template", "Files"), rows),
    ]
