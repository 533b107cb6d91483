"""Mark the slow tests. DEVELOPERS.md says how to run the tiers quick, slow and kernel."""

from pathlib import Path

import pytest

#: Sweeps over many patterns and files; quick tests check the same on a few.
SLOW = (
    "checks/test_drawable.py",
    "checks/test_moves.py",
    "checks/test_moves_head.py",
    "command/test_draw.py",
    "command/test_exits.py",
    "architecture/test_light.py",
    "architecture/test_new_part.py",
    "bench/test_scale_sweep.py",
    "page/test_bytes.py",
    "page/test_watch.py",
    "docs/test_fresh.py",
    "kernel/test_frog_cuts.py",
    "kernel/test_frog_together.py",
    "kernel/test_frog_unusual.py",
    "docs/test_listings.py",
    "outside/test_mechanics_libraries.py",
    "properties",
    "roundtrip/test_bad_twins.py",
    "roundtrip/test_files_read_back.py",
    "roundtrip/test_nasty_names.py",
    "roundtrip/test_same_bytes.py",
    "roundtrip/test_true_size.py",
    "unit/test_drawing_settle.py",
    "unit/test_parts_frog.py",
    "unit/test_parts_outlines.py",
    "unit/test_drawing_compose.py",
    "unit/test_drawing_dimension.py",
)
HERE = Path(__file__).parent


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        place = item.path.relative_to(HERE).as_posix()
        if place.startswith(SLOW):
            item.add_marker(pytest.mark.slow)
