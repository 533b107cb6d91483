"""Every link within the repository has a target."""

import re

import make
import pytest

ROOT = make.ROOT
_LINK = re.compile(r"\]\(([^)\s]+)\)|<img src=\"([^\"]+)\"")
PAGES = [
    *make.pages(),
    *(p.relative_to(ROOT).as_posix() for p in (ROOT / "docs" / "reference").glob("*.md")),
    "outputs_example/README.md",
]


def anchors(text):
    """Return the anchors of headings: lower case, hyphens for spaces, other characters dropped.

    Source: common practice of sites that show Markdown, no standard.
    """
    bare = re.sub(r"```.*?```", "", text, flags=re.DOTALL)
    titles = re.findall(r"^#+ (.*)$", bare, re.MULTILINE)
    return {re.sub(r"[^\w\- ]", "", t.lower()).replace(" ", "-") for t in titles}


def broken(text, folder):
    """Yield the links of a page that have no target."""
    for link in (a or b for a, b in _LINK.findall(text)):
        if re.match(r"[a-z]+:", link):
            continue
        name, _, anchor = link.partition("#")
        if name and not (folder / name).is_file():
            yield link
            continue
        there = (folder / name).read_text("utf-8") if anchor and name else text
        if anchor and anchor not in anchors(there):
            yield link


@pytest.mark.parametrize("page", PAGES)
def test_links_have_targets(page):
    file = ROOT / page
    assert list(broken(file.read_text("utf-8"), file.parent)) == []


def test_enough_links_are_read():
    assert len(PAGES) > 10
    assert sum(len(_LINK.findall((ROOT / p).read_text("utf-8"))) for p in PAGES) > 50


@pytest.mark.parametrize("link", ["no-such.md", "README.md#no-such-heading", "#nor-this"])
def test_finds_a_broken_link(link):
    assert list(broken(f"# One\n\n[see]({link})", ROOT)) == [link]


def test_every_page_can_be_reached_from_the_readme():
    seen, to_read = set(), ["README.md"]
    while to_read:
        page = to_read.pop()
        if page in seen or not page.endswith(".md"):
            continue
        seen.add(page)
        file = ROOT / page
        for link in (a or b for a, b in _LINK.findall(file.read_text("utf-8"))):
            name = link.partition("#")[0]
            if name and not re.match(r"[a-z]+:", name):
                to_read.append((file.parent / name).resolve().relative_to(ROOT).as_posix())
    assert set(PAGES) - seen == set()
