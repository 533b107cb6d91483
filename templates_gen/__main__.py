"""``python -m templates_gen`` is the command."""

from templates_gen.cli import run

run()
