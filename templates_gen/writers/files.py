"""Names and places of the files that come out."""

from __future__ import annotations

import os
import re
import unicodedata
from collections.abc import Mapping
from pathlib import Path

from templates_gen.errors import SurroundingsError

_LONGEST = 60
#: Names some systems keep for themselves.
_RESERVED = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)$")


def safe_stem(name: str) -> str:
    """A pattern's name made fit for a file's on any system: small letters, digits, hyphens."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    stem = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:_LONGEST].strip("-")
    if not stem or _RESERVED.match(stem):
        return f"pattern-{stem}".strip("-")
    return stem


def write_all(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write files whole or not at all: each to a draft beside its place, then all renamed.

    Raises:
        SurroundingsError: the folder cannot be made or written.
    """
    drafts: dict[Path, Path] = {}
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, content in files.items():
            draft = folder / f".{name}.{os.getpid()}.draft"
            drafts[draft] = folder / name
            draft.write_bytes(content)
        for draft, target in drafts.items():
            draft.replace(target)
    except OSError as e:
        for draft in drafts:
            draft.unlink(missing_ok=True)
        raise SurroundingsError(
            f"{folder}: cannot be written ({e.strerror}); name another folder with -o"
        ) from e
