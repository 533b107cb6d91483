"""Generate everything in the docs that is not written by hand: ``python docs/make.py``.

It generates the pictures, the reference, the example outputs, and in the hand-written pages the
tables between ``<!-- made: … -->`` and ``<!-- /made -->`` and the output in ``console`` listings.
The same sources give the same bytes.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import _blocks
import _examples
import _pictures
import _reference
import _sessions

ROOT = Path(__file__).resolve().parent.parent
#: Folders with generated files only; files that are no longer generated are removed.
MADE = ("docs/pictures", "docs/reference", "outputs_example")


def pages(root: Path = ROOT) -> list[str]:
    """List the hand-written pages by their paths in the repository."""
    found = [root / "README.md", root / "DEVELOPERS.md", *(root / "docs").rglob("*.md")]
    names = sorted(p.relative_to(root).as_posix() for p in found)
    return [n for n in names if not n.startswith(MADE)]


def refreshed(page: str, root: Path = ROOT) -> bytes:
    """Return a hand-written page with its generated tables and listings up to date."""
    text = (root / page).read_text("utf-8")
    return _sessions.refreshed(_blocks.refreshed(text, page)).encode()


def everything(root: Path = ROOT) -> Iterator[tuple[str, bytes]]:
    """Yield every generated or refreshed file with its path in the repository."""
    for name, picture in _pictures.pictures(root).items():
        yield f"docs/pictures/{name}.svg", picture
    for name, text in _reference.pages(root).items():
        yield f"docs/reference/{name}.md", text.encode()
    for name, content in _examples.examples(root).items():
        yield f"outputs_example/{name}", content
    for page in pages(root):
        yield page, refreshed(page, root)


def stale(made: set[str], root: Path = ROOT) -> list[str]:
    """List the files in the generated folders that are no longer generated."""
    there = (p for folder in MADE for p in (root / folder).rglob("*") if p.is_file())
    return sorted({p.relative_to(root).as_posix() for p in there} - made)


def main() -> None:
    """Write the files that changed, remove stale ones, and print both."""
    made = dict(everything())
    for name, content in made.items():
        file = ROOT / name
        if not file.is_file() or file.read_bytes() != content:
            file.parent.mkdir(parents=True, exist_ok=True)
            file.write_bytes(content)
            print(f"made {name}")
    for name in stale(set(made)):
        (ROOT / name).unlink()
        print(f"removed {name}")


if __name__ == "__main__":
    main()
