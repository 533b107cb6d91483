"""The example outputs: what ``draw`` makes of a few patterns, and a page to find them by."""

from __future__ import annotations

import contextlib
import io
import tempfile
from pathlib import Path

from _text import NOTICE, table

from templates_gen import cli, pipeline
from templates_gen.parameters import Pattern

#: The patterns drawn, from the repository's root.
PATTERNS = ("params/bass-french.toml", "params/violin.toml")


def examples(root: Path) -> dict[str, bytes]:
    """Every file under ``outputs_example`` by its name there."""
    made: dict[str, bytes] = {}
    page = ["# What `draw` makes", "", NOTICE, ""]
    page += ["Each folder is what `templates-gen draw FILE -o FOLDER` makes of one file."]
    for file in PATTERNS:
        p = pipeline.read(str(root / file))
        made |= {f"{pipeline.stem(p)}/{name}": data for name, data in drawn(root / file).items()}
        page += ["", *_gallery(p, file)]
    made["README.md"] = ("\n".join(page) + "\n").encode()
    return made


def drawn(file: Path) -> dict[str, bytes]:
    """What the command writes for one file."""
    said = io.StringIO()
    with tempfile.TemporaryDirectory() as out:
        with contextlib.redirect_stdout(said), contextlib.redirect_stderr(said):
            status = cli.main(["draw", str(file), "-o", out])
        if status != cli.OK:
            raise RuntimeError(f"{file.name} cannot be drawn: {said.getvalue()}")
        return {f.name: f.read_bytes() for f in sorted(Path(out).iterdir())}


def _gallery(p: Pattern, file: str) -> list[str]:
    stem, rows = pipeline.stem(p), []
    for t in pipeline.templates(p):
        name = f"{stem}/{stem}--{t.name}"
        seen = f'<img src="{name}.svg" width="180" alt="{t.title}">'
        rows.append([seen, f"**{t.title}**. {t.purpose}", f"[SVG]({name}.svg) [DXF]({name}.dxf) "])
        rows[-1][-1] += f"[PDF]({name}.pdf)"
    says = f"From [{file}](../{file}). All that was checked: [manifest]({stem}/manifest.json)."
    return [
        f"## {p.identity.name}, {p.family.instrument}",
        "",
        says,
        "",
        table(("Sheet", "Template", "Files"), rows),
    ]
