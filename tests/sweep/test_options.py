"""Every paper, every kind of file, and every number of the shop at both ends of its range.

A file that can be read (exit 2 otherwise) and passes ``check --shop`` is drawn: its own sheets,
the routing templates, the kerf and the tiles.
"""

from __future__ import annotations

import pytest
from outside.maker import PARAMS
from sweep.cases import FAMILIES, starter

from templates_gen.bench.routing import templates as tooling
from templates_gen.command.arguments import PAPERS
from templates_gen.command.draw import DXF
from templates_gen.errors import InputError
from templates_gen.parameters.declare import parameters_of
from templates_gen.parameters.rewrite import set_values
from templates_gen.pipeline import judging, output, rendering, selection
from templates_gen.pipeline.output import OutputOptions
from templates_gen.shop import Shop
from templates_gen.shop import params as shop_params
from templates_gen.shop.read import read

pytestmark = pytest.mark.slow

STARTER = (PARAMS / "shop.toml").read_text("utf-8")
RECORDS = [v for v in vars(shop_params).values() if hasattr(v, "SECTION")]
ENDS = [
    (q.key, float(end)) for r in RECORDS for q in parameters_of(r) if q.numeric
    for end in (q.low, q.high)
]  # fmt: skip


def shop_with(folder, changes) -> Shop | None:
    """The starter's shop with some numbers changed; None where the file is refused."""
    file = folder / "shop.toml"
    file.write_text(set_values(STARTER, changes), "utf-8")
    try:
        return read(str(file))
    except InputError:
        return None


def drawn(family, options, templates):
    report = rendering.check(starter(family).pattern)
    return rendering.sheets(report, options, templates=templates)


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("family", FAMILIES)
def test_every_sheet_on_every_paper_in_every_kind_of_file(family, paper):
    p = starter(family).pattern
    made = drawn(family, OutputOptions(paper=paper), selection.templates(p))
    assert len(made) == len(selection.templates(p))
    for dxf in DXF if paper == "a4" else ():
        files = output.files("dunlin", "Dunlin", made, ("dxf",), OutputOptions(dxf=dxf))
        assert len(files) == len(made)


@pytest.mark.parametrize(("key", "value"), ENDS, ids=str)
def test_every_shop_parameter(tmp_path, key, value):
    shop = shop_with(tmp_path, {key: value})
    if shop is None:
        return
    family = "violin"
    p, options = starter(family).pattern, OutputOptions(shop)
    if judging.stops(tooling.checks(p, shop, "a4")):
        return
    routing = [t for t in tooling.templates(shop) if t.wanted(p)]
    templates = [*selection.templates(p), *routing] if key.startswith("paper.") else routing
    made = drawn(family, options, templates)
    assert len(made) == len(templates)
    for sheet in made:
        assert output.pages(sheet, options)


@pytest.mark.parametrize("kerf", [0.01, 0.15, 1.0])
@pytest.mark.parametrize("family", ["violin", "bass-french"])
def test_every_kerf_is_compensated_or_rejected_by_name(family, kerf):
    p = starter(family).pattern
    refused = []
    for t in selection.templates(p):
        try:
            drawn(family, OutputOptions(), tooling.for_laser(p, [t], kerf))
        except InputError as e:
            refused += [fault.problem for fault in e.faults]
    assert all("is wider than a slot of" in problem for problem in refused)
    assert not refused or kerf == 1.0
