"""Make the index page reload itself while ``draw --watch`` runs."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping
from importlib.resources import files as packaged

from templates_gen.writers.manifest import manifest
from templates_gen.writers.page.facts import NAME

#: A page opened from disk may load a script in its folder, but may not read other files.
NEWS = "watch.js"
_MANIFEST = "manifest.json"


def followed(files: Mapping[str, bytes]) -> dict[str, bytes]:
    """Add the reload script to a set of files.

    Args:
        files: the set as ``draw`` writes it.
    """
    stamp = hashlib.sha256(files[_MANIFEST]).hexdigest()[:16]
    script = packaged("templates_gen.writers.page").joinpath("reload.js").read_text("utf-8")
    end = f"<script>\n{script.replace('STAMP', stamp)}</script>\n</body>"
    page = files[NAME].replace(b"</body>", end.encode())
    listed = json.loads(files[_MANIFEST])
    listed["files"][NAME] = hashlib.sha256(page).hexdigest()
    news = f'window.drawnLast = "{stamp}";\n'.encode()
    return {**files, NAME: page, _MANIFEST: manifest(listed), NEWS: news}
