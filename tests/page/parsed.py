"""Parse a page to a tree of elements with the standard library's parser only."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from html.parser import HTMLParser

#: Elements without an end tag. Source: HTML Living Standard, 13.1.2 "Void elements".
VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source"}
VOID |= {"track", "wbr"}


@dataclass
class Element:
    name: str
    attributes: dict[str, str]
    children: list[Element | str] = field(default_factory=list)

    def all(self, name: str | None = None, class_: str | None = None) -> Iterator[Element]:
        """Yield this element and all below it that match, in document order."""
        fits = name in (None, self.name)
        if fits and (class_ is None or class_ in self.attributes.get("class", "").split()):
            yield self
        for child in self.children:
            if isinstance(child, Element):
                yield from child.all(name, class_)

    @property
    def text(self) -> str:
        """Its text and that of all elements below it."""
        return "".join(c if isinstance(c, str) else c.text for c in self.children)

    @property
    def id(self) -> str:
        return self.attributes.get("id", "")


class _Tree(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.top = Element("", {})
        self.open = [self.top]

    def handle_starttag(self, tag, attrs):
        element = Element(tag, {k: v or "" for k, v in attrs})
        self.open[-1].children.append(element)
        if tag not in VOID:
            self.open.append(element)

    def handle_startendtag(self, tag, attrs):
        self.open[-1].children.append(Element(tag, {k: v or "" for k, v in attrs}))

    def handle_endtag(self, tag):
        assert self.open.pop().name == tag, f"</{tag}> does not match the open element"

    def handle_data(self, data):
        self.open[-1].children.append(data)


def parsed(page: bytes) -> Element:
    """Parse a page; every element must be closed, and in order."""
    tree = _Tree()
    tree.feed(page.decode("utf-8"))
    tree.close()
    assert tree.open == [tree.top], "an element is not closed"
    return tree.top
