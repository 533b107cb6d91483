"""The example outputs: what ``draw`` makes of a few patterns, and a page to find them by."""

from __future__ import annotations

import contextlib
import io
import tempfile
from pathlib import Path

from _text import NOTICE, table

from templates_gen import cli
from templates_gen.parameters import Pattern
from templates_gen.pipeline import rendering, selection

#: The patterns drawn, from the repository's root.
PATTERNS = ("params/whimbrel.toml", "params/avocet.toml")


def examples(root: Path) -> dict[str, bytes]:
    """Every file under ``outputs_example`` by its name there."""
    made = {"README.md": page(root).encode()}
    for file in PATTERNS:
        made |= drawn(root / file)
    return made


def page(root: Path) -> str:
    """The page that shows every sheet."""
    lines = ["# What `draw` makes", "", NOTICE, ""]
    lines += ["Each folder is what `templates-gen draw FILE -o FOLDER` makes of one file."]
    for file in PATTERNS:
        lines += ["", *_gallery(rendering.read(str(root / file)), file)]
    return "\n".join(lines) + "\n"


def drawn(file: Path) -> dict[str, bytes]:
    """What the command writes for one file, in a folder called by the pattern's name."""
    stem = rendering.stem(rendering.read(str(file)))
    said = io.StringIO()
    with tempfile.TemporaryDirectory() as out:
        with contextlib.redirect_stdout(said), contextlib.redirect_stderr(said):
            status = cli.main(["draw", str(file), "-o", out])
        if status != cli.OK:
            raise RuntimeError(f"{file.name} cannot be drawn: {said.getvalue()}")
        return {f"{stem}/{f.name}": f.read_bytes() for f in sorted(Path(out).iterdir())}


def _gallery(p: Pattern, file: str) -> list[str]:
    stem, rows = rendering.stem(p), []
    for t in selection.templates(p):
        name = f"{stem}/{stem}--{t.name}"
        seen = f'<img src="{name}.svg" width="180" alt="{t.title}">'
        rows.append([seen, f"**{t.title}**. {t.purpose}", f"[SVG]({name}.svg) [DXF]({name}.dxf) "])
        rows[-1][-1] += f"[PDF]({name}.pdf)"
    description = (
        f"From [{file}](../{file}). All that was checked: [manifest]({stem}/manifest.json)."
    )
    return [
        f"## {p.identity.name}, {p.family.instrument}",
        "",
        description,
        "",
        table(("Sheet", "Template", "Files"), rows),
    ]
