"""Two patterns with their files: one passes, one fails and has an awkward name."""

from pathlib import Path

from page.parsed import parsed

from templates_gen.pipeline import rendering

NAME = "Kn\"o't <b>&amp;</b> ../Ruff"
FAILING = """\
units = "mm"
based_on = "bass-french"
[pattern]
name = '''Kn"o't <b>&amp;</b> ../Ruff'''
revision = "</title><script>"
[ferrule]
outer_width = { value = 21, note = "measured <with> \\"calliper\\"" }
[frog]
hair_mortise_length = 27
hair_mortise_depth = 21
[leather]
from_butt = 80
"""
SOUND = 'units = "mm"\nbased_on = "violin"\n[pattern]\nname = "Dunlin"\n'


class Set:
    """A pattern with its files and its parsed page."""

    def __init__(self, file: Path, formats=("svg",)):
        self.file = file
        self.pattern = rendering.read(str(file))
        self.checked = rendering.check(self.pattern)
        self.files = rendering.render(self.pattern, self.checked, formats=formats, plane=True)
        self.page = self.files["index.html"]
        self.tree = parsed(self.page)
