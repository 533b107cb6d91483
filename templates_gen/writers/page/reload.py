"""The index page while it is watched: it looks for news beside it, on the disc, and loads anew."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from importlib.resources import files as packaged

from templates_gen.writers.manifest import manifest
from templates_gen.writers.page.facts import NAME

#: A page opened from the disc may load a script beside it, but may not read any other file.
NEWS = "watch.js"
_MANIFEST = "manifest.json"


def followed(files: Mapping[str, bytes]) -> dict[str, bytes]:
    """A set of files as it lies there while it is watched.

    Args:
        files: the set as ``draw`` writes it.
    """
    stamp = hashlib.sha256(files[_MANIFEST]).hexdigest()[:16]
    script = packaged("templates_gen.writers.page").joinpath("reload.js").read_text("utf-8")
    asks = f"<script>\n{script.replace('STAMP', stamp)}</script>\n</body>"
    page = files[NAME].replace(b"</body>", asks.encode())
    told = json.loads(files[_MANIFEST])
    told["files"][NAME] = hashlib.sha256(page).hexdigest()
    news = f'window.drawnLast = "{stamp}";\n'.encode()
    return {**files, NAME: page, _MANIFEST: manifest(told), NEWS: news}
