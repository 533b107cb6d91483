"""The glossary: letters and words agree with its pictures, each word is defined once and used."""

import re

import _glossary
import _pictures
import make
import pytest

from templates_gen.geometry import Point

ROOT = make.ROOT
PAGE = ROOT / "docs" / "glossary.md"
_PICTURE = re.compile(r"pictures/glossary-(\w+)\.svg")
_ROW = re.compile(r"^\|(?: (\w) \|)? \*\*(.+?)\*\* \| (.+?) \| \[.+?\]\((.+?)\) \|$", re.MULTILINE)
_BOLD = re.compile(r"\*\*([a-z][a-z -]+)\*\*")


def sections():
    """The page's sections: the name of the picture, "" without one, and the rows."""
    for text in PAGE.read_text("utf-8").split("\n## ")[1:]:
        names = _PICTURE.findall(text)
        assert len(names) <= 1
        yield "".join(names), _ROW.findall(text), text


def rows():
    return [row for _, found, _ in sections() for row in found]


@pytest.fixture(scope="module")
def letters():
    return _glossary.letters(_pictures.patterns(ROOT)[0])


def test_letters_in_the_tables_are_those_of_the_pictures(letters):
    defined = {
        name: {word: letter for letter, word, _, _ in found}
        for name, found, _ in sections()
        if name
    }
    assert defined == letters


def test_every_letter_is_written_on_its_picture(letters):
    """The letters are read from the picture's text elements, which the SVG writer wrote."""
    for name, (title, views) in _glossary.drawings(_pictures.patterns(ROOT)[0]).items():
        svg = _pictures._cropped(views, title).decode()
        written = re.findall(r"<text[^>]*>([A-Z])</text>", svg)
        assert sorted(written) == sorted(letters[name].values()), name


def test_every_letter_points_at_the_part():
    """The tip of each leader is on a line of its drawing, or inside one of its outlines."""
    for drawings in _glossary.pictures(_pictures.patterns(ROOT)[0]).values():
        for drawing in drawings:
            for word, (tip, _) in drawing.named.items():
                assert points_at(drawing.strokes, tip), word


def points_at(strokes, tip: Point) -> bool:
    for path in (s.path for s in strokes):
        left, low, right, high = path.box
        inside = path.closed and left < tip[0] < right and low < tip[1] < high
        if inside or path.distance(tip) < 0.3:
            return True
    return False


def test_every_row_is_read():
    """A row that the pattern cannot read would not be checked at all."""
    lines = [line for line in PAGE.read_text("utf-8").splitlines() if "**" in line]
    assert len(lines) == len(rows()) > 70


def test_every_word_is_defined_once_in_one_sentence():
    words = [word for _, word, _, _ in rows()]
    assert len(words) == len({*words})
    for _, word, meaning, _ in rows():
        assert meaning.endswith(".") and ". " not in meaning, word
        assert meaning[0].isupper() and len(meaning.split()) <= 20, word


def test_every_word_is_used_on_the_page_it_links():
    for _, word, _, link in rows():
        text = " ".join((PAGE.parent / link).read_text("utf-8").lower().split())
        assert re.search(rf"\b{word}", text), (word, link)


def test_words_in_bold_on_the_pages_of_the_parts_are_defined():
    words = {word for _, word, _, _ in rows()}
    pages = {link for _, _, _, link in rows() if "/" not in link}
    assert len(pages) > 8
    for page in pages:
        intro = (PAGE.parent / page).read_text("utf-8").partition("\n## ")[0]
        for word in _BOLD.findall(intro):
            assert {word, word.removesuffix("s"), f"head {word}"} & words, (page, word)


def test_every_page_that_uses_the_words_links_the_glossary():
    pages = {link for _, _, _, link in rows() if "/" not in link}
    for page in (*pages, "index.md", "../README.md"):
        text = (PAGE.parent / page).read_text("utf-8")
        assert "glossary.md" in text, page
