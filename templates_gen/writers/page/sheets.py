"""The templates on the index page: a picture of each that can be made large, and its files."""

from __future__ import annotations

from collections.abc import Sequence

from templates_gen.checks.rule import Place
from templates_gen.drawing.furniture import scale
from templates_gen.drawing.sheet import UNSCALED
from templates_gen.drawing.text import figure, first_up
from templates_gen.geometry import Point
from templates_gen.writers.page.facts import Drawn, NotDrawn, PageFacts
from templates_gen.writers.page.markup import Html, shape, tag
from templates_gen.writers.page.picture import Spot, picture

#: A drawing wider than this (mm) is laid out wider than a screen when it is made large.
_LONG = 250.0
#: What each format is for, in the order the links stand.
_FORMATS = {"pdf": "to print", "svg": "to see", "dxf": "to rout", "csv": "to reckon"}


def sheets(facts: PageFacts) -> Html:
    """The section with every sheet, part by part."""
    cards: dict[str, list[Html]] = {}
    for d in facts.drawn:
        cards.setdefault(d.part, []).append(_card(facts, d))
    for u in facts.not_drawn:
        cards.setdefault(u.part, []).append(_missing(u))
    parts = [
        tag("div", tag("h3", part.capitalize()), tag("div", *group, class_="cards"))
        for part, group in cards.items()
    ]
    description = (
        "The pictures are not at true size. Print from the PDF, and measure before you cut."
    )
    if facts.drawn and not any(d.files for d in facts.drawn):
        description = (
            "The files of these sheets are not written yet. Wait for them before you print."
        )
    head = tag("h2", "Templates", id="templates")
    lead = (tag("p", description), *_list("All sheets in one file", facts.together))
    solids = _list("Solids, for a program that reads STEP", facts.solids)
    return tag("section", head, *lead, *parts, *solids, aria_labelledby="templates")


def _card(facts: PageFacts, d: Drawn) -> Html:
    s = d.sheet
    wide, high = s.cut_size
    size = f"{figure(wide, 1)} × {figure(high, 1)} mm"
    told = [f"{first_up(s.info.up)}; ", tag("span", size, class_="whole")]
    return tag(
        "article",
        tag("h4", s.title, id=f"title-{s.name}"),
        _zoom(facts, d),
        tag("p", s.purpose),
        tag("p", *([scale(s.info.up)] if s.info.up in UNSCALED else told), class_="soft"),
        tag("ul", *(_file(s.title, f) for f in sorted(d.files, key=_order)), class_="files"),
        id=f"sheet-{s.name}",
        aria_labelledby=f"title-{s.name}",
    )


def _missing(u: NotDrawn) -> Html:
    return tag(
        "article",
        tag("h4", u.title, id=f"title-{u.name.replace(' ', '-')}"),
        tag("p", tag("strong", "Not drawn"), f": {u.why}."),
        tag("p", "Cure the checks that fail, then draw again.", class_="soft"),
        aria_labelledby=f"title-{u.name.replace(' ', '-')}",
    )


def _zoom(facts: PageFacts, d: Drawn) -> Html:
    """A small picture; chosen, it opens a large one, which may be wider than the screen."""
    name, seen = d.sheet.name, picture(d.sheet, spots(facts, d))
    small = tag(
        "svg",
        tag("g", seen.content, id=f"picture-{name}", class_="lines"),
        viewBox=seen.view_box,
        role="img",
        aria_label=seen.description,
        class_="drawing",
    )
    large = tag(
        "svg",
        shape("use", href=f"#picture-{name}"),
        viewBox=seen.view_box,
        role="img",
        aria_label=f"{seen.description}; large",
        class_="drawing long" if float(seen.view_box.split()[2]) > _LONG else "drawing",
    )
    words = (tag("span", "Enlarge", class_="shut"), tag("span", "Make small", class_="open"))
    frame = tag(
        "div",
        large,
        class_="large",
        tabindex="0",
        role="region",
        aria_label=f"{d.sheet.title}, large",
    )
    hint = tag("span", *words, class_="hint", id=f"hint-{name}")
    return tag("details", tag("summary", small, hint), frame, id=f"zoom-{name}")


def spots(facts: PageFacts, d: Drawn) -> list[Spot]:
    """What failed on this sheet, and where on its page."""
    return [
        Spot(_on_page(d, c.place), facts.number(c), c.result.rule.description)
        for c in facts.failed
        if c.place is not None and c.place[0] == d.sheet.name
    ]


def _on_page(d: Drawn, place: Place) -> Point:
    (x, y), (dx, dy) = place[1], d.sheet.datum
    return (x + dx, y + dy)


def _order(file: str) -> int:
    return [*_FORMATS].index(_form(file)) if _form(file) in _FORMATS else len(_FORMATS)


def _form(file: str) -> str:
    return file.rpartition(".")[2]


def _file(title: str, file: str) -> Html:
    form = _form(file)
    told = f"{form.upper()} {_FORMATS[form]}" if form in _FORMATS else form.upper()
    unseen = tag("span", f": {title}", class_="unseen")
    return tag("li", tag("a", told, unseen, href=file))


def _list(description: str, names: Sequence[str]) -> list[Html]:
    if not names:
        return []
    items = [tag("li", tag("a", name, href=name)) for name in names]
    return [tag("p", description, ":"), tag("ul", *items, class_="files")]
