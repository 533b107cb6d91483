"""Name output files and write them together or not at all."""

from __future__ import annotations

import errno
import os
import re
import unicodedata
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path

from templates_gen.errors import EnvironmentFault

_LONGEST = 60
#: File names that some systems reserve.
_RESERVED = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)$")


def safe_stem(name: str) -> str:
    """Make a file name of a pattern's name, valid on any system: a to z, digits, hyphens."""
    letters = unicodedata.normalize("NFKD", name).casefold()
    plain = "".join(c for c in letters if not unicodedata.combining(c))
    stem = re.sub(r"[^a-z0-9]+", "-", plain).strip("-")[:_LONGEST].strip("-")
    if not stem or _RESERVED.match(stem):
        return f"pattern-{stem}".strip("-")
    return stem


def write_all(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write all files or none: first as drafts in the same folder, then rename them all.

    Raises:
        EnvironmentFault: the folder cannot be created or written.
    """
    drafts: dict[Path, Path] = {}
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, content in files.items():
            draft, target = folder / f".{name}.{os.getpid()}.draft", folder / name
            # Tested before the first rename, so that nothing is half written.
            if target.is_dir():
                raise IsADirectoryError(errno.EISDIR, f"{name} is a folder")
            drafts[draft] = target
            draft.write_bytes(content)
        for draft, target in drafts.items():
            draft.replace(target)
    except OSError as e:
        raise EnvironmentFault(
            f"{folder}: cannot be written ({e.strerror}); name another folder with -o"
        ) from e
    finally:
        # Also after an interrupt; a renamed draft no longer exists.
        for draft in drafts:
            with suppress(OSError):
                draft.unlink(missing_ok=True)
