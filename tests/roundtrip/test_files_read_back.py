"""Every file, read back by readers that share no code with its writer, shows the sheet.

Referees: our own reader of group codes, ezdxf, GDAL with shapely; the standard library's XML with
svgpathtools; pdfplumber. The tolerances are in ``readers.outline``.
"""

import pytest
from readers import corpus
from readers.verify import (
    verify_dxf_ezdxf,
    verify_dxf_gdal,
    verify_dxf_raw,
    verify_pdf,
    verify_svg,
)

from templates_gen.writers import writer

full_sheets = pytest.mark.parametrize(("stem", "name"), corpus.FULL_SHEETS)

READERS = {
    "group codes": ("dxf", verify_dxf_raw),
    "ezdxf": ("dxf", verify_dxf_ezdxf),
    "GDAL": ("dxf", verify_dxf_gdal),
    "svgpathtools": ("svg", verify_svg),
    "pdfplumber": ("pdf", verify_pdf),
}


def test_corpus_is_not_empty():
    assert {stem for stem, _ in corpus.FULL_SHEETS} == set(corpus.FULL)
    assert len(set(corpus.ALL_SHEETS)) == len(corpus.ALL_SHEETS) >= 5 * len(corpus.FILES)


@full_sheets
def test_dxf_by_group_codes(stem, name):
    assert verify_dxf_raw(corpus.made(stem, name, "dxf"), corpus.sheet(stem, name)) == []


@full_sheets
def test_dxf_by_ezdxf(stem, name):
    assert verify_dxf_ezdxf(corpus.made(stem, name, "dxf"), corpus.sheet(stem, name)) == []


@full_sheets
def test_dxf_by_gdal(stem, name):
    assert verify_dxf_gdal(corpus.made(stem, name, "dxf"), corpus.sheet(stem, name)) == []


@full_sheets
def test_svg(stem, name):
    assert verify_svg(corpus.made(stem, name, "svg"), corpus.sheet(stem, name)) == []


@full_sheets
def test_pdf(stem, name):
    assert verify_pdf(corpus.made(stem, name, "pdf"), corpus.sheet(stem, name)) == []


@pytest.mark.parametrize("reader", READERS)
@pytest.mark.parametrize("seed", corpus.CARDS)
def test_half_circles_holes_and_fractional_places(seed, reader):
    form, verify = READERS[reader]
    sheet = corpus.card(seed)
    assert verify(writer(form)(sheet), sheet) == []
