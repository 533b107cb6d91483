"""Make everything in the docs that can be made: ``python docs/make.py``.

Pictures, the reference, the example outputs, and in the hand-written pages the tables between
``<!-- made: … -->`` and ``<!-- /made -->`` and what the command prints in ``console`` listings.
The same sources give the same bytes.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import _blocks
import _examples
import _pictures
import _reference
import _scripts
import _sessions

ROOT = Path(__file__).resolve().parent.parent
#: Folders in which everything is made; what is not made any more is removed.
MADE = ("docs/pictures", "docs/reference", "outputs_example")
#: Pages whose Python listings are run.
SCRIPTED = ("docs/python.md",)


def pages(root: Path = ROOT) -> list[str]:
    """The hand-written pages, by their place in the repository."""
    found = [root / "README.md", root / "DEVELOPERS.md", *(root / "docs").rglob("*.md")]
    names = sorted(p.relative_to(root).as_posix() for p in found)
    return [n for n in names if not n.startswith(MADE)]


def refreshed(page: str, root: Path = ROOT) -> bytes:
    """A hand-written page with its made tables and its listings up to date."""
    text = (root / page).read_text("utf-8")
    text = _sessions.refreshed(_blocks.refreshed(text, page))
    return (_scripts.refreshed(text) if page in SCRIPTED else text).encode()


def everything(root: Path = ROOT) -> Iterator[tuple[str, bytes]]:
    """Every file that is made or refreshed, by its place in the repository."""
    for name, picture in _pictures.pictures(root).items():
        yield f"docs/pictures/{name}.svg", picture
    for name, text in _reference.pages(root).items():
        yield f"docs/reference/{name}.md", text.encode()
    for name, content in _examples.examples(root).items():
        yield f"outputs_example/{name}", content
    for page in pages(root):
        yield page, refreshed(page, root)


def stale(made: set[str], root: Path = ROOT) -> list[str]:
    """Files in the made folders that nothing makes any more."""
    there = (p for folder in MADE for p in (root / folder).rglob("*") if p.is_file())
    return sorted({p.relative_to(root).as_posix() for p in there} - made)


def main() -> None:
    """Write what has changed, remove what is stale, tell both."""
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
