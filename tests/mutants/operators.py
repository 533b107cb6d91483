"""List every small change ("mutant") that can be made in a source file.

Each mutant replaces one piece of text: a comparison reversed, a sum made a difference, a
constant enlarged, a sine made a cosine, two arguments swapped, "left" written for "right".
"""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

#: A constant is multiplied by this factor; a whole number is increased by one.
FACTOR = 1.3
#: Smaller constants are numerical tolerances: a third more changes no drawn number.
TOLERANCE = 1e-5

COMPARED: dict[type[ast.cmpop], str] = {
    ast.Lt: ">", ast.LtE: ">=", ast.Gt: "<", ast.GtE: "<=", ast.Eq: "!=", ast.NotEq: "==",
    ast.Is: "is not", ast.IsNot: "is", ast.In: "not in", ast.NotIn: "in",
}  # fmt: skip
CALCULATED: dict[type[ast.operator], tuple[str, str]] = {
    ast.Add: ("+", "-"), ast.Sub: ("-", "+"), ast.Mult: ("*", "/"), ast.Div: ("/", "*"),
    ast.Pow: ("**", "*"), ast.FloorDiv: ("//", "*"), ast.Mod: ("%", "*"),
}  # fmt: skip
#: Names of functions and classes, each with the name that replaces it.
RENAMED = {
    "sin": "cos", "cos": "sin", "tan": "sin", "asin": "acos", "acos": "asin", "sinh": "cosh",
    "min": "max", "max": "min", "minimum": "maximum", "maximum": "minimum",
    "floor": "ceil", "ceil": "floor", "any": "all", "all": "any",
    "at_least": "at_most", "at_most": "at_least", "radians": "degrees", "degrees": "radians",
    "argmin": "argmax", "argmax": "argmin", "nanmin": "nanmax", "nanmax": "nanmin",
    "cut": "hidden", "pocket": "cut", "hidden": "cut", "scribe": "cut",
    "HorizontalDim": "VerticalDim", "VerticalDim": "HorizontalDim",
}  # fmt: skip
_PAIRS = (
    "left right", "up down", "top bottom", "upper lower", "front rear", "inner outer",
    "inside outside", "above below", "start end", "butt head", "heel shoulder", "wide narrow",
    "first last", "before after", "high low", "least most",
)  # fmt: skip
WORDS = {a: b for pair in _PAIRS for a, b in (pair.split(), pair.split()[::-1])}
_WORD = re.compile(rf"\b({'|'.join(WORDS)})\b")
#: Calls whose arguments change the speed only.
_QUICKER = {"dataclass", "lru_cache"}


@dataclass(frozen=True)
class Mutant:
    """One change in one file.

    Args:
        file: path of the source from the repository's root.
        line: first line of the piece that is replaced.
        operator: kind of change.
        before: the line before the change.
        after: the line after it.
        start: where in the text the replaced piece begins.
        end: where it ends.
        piece: the new text.
    """

    file: str
    line: int
    operator: str
    before: str
    after: str
    start: int
    end: int
    piece: str

    def applied(self, text: str) -> str:
        """Return the source with the change made."""
        return text[: self.start] + self.piece + text[self.end :]


class _Change(NamedTuple):
    operator: str
    start: int
    end: int
    piece: str


def mutants(file: str, text: str) -> list[Mutant]:
    """Return every mutant of a source, in the order of the text."""
    source = _Source(text)
    found = []
    for change in sorted({*source.changes(source.tree)}, key=lambda c: (c.start, c.end, c.piece)):
        line = text.count("\n", 0, change.start) + 1
        whole = text[: change.start] + change.piece + text[change.end :]
        before, after = (t.splitlines()[line - 1].strip() for t in (text, whole))
        if before != after or text[change.start : change.end].count("\n"):
            found.append(Mutant(file, line, change.operator, before, after, *change[1:]))
    return found


class _Source:
    """A source with its syntax tree and the positions of its nodes."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.tree = ast.parse(text)
        lines = text.splitlines(keepends=True)
        self._starts = [sum(len(line) for line in lines[:i]) for i in range(len(lines) + 1)]
        self._lines = lines

    def _at(self, line: int, column: int) -> int:
        """Return the position in the text; the tree counts columns in bytes."""
        raw = self._lines[line - 1].encode()[:column]
        return self._starts[line - 1] + len(raw.decode())

    def span(self, node: ast.AST) -> tuple[int, int]:
        """Return where in the text a node begins and ends."""
        start = self._at(node.lineno, node.col_offset)  # type: ignore[attr-defined]
        return start, self._at(node.end_lineno, node.end_col_offset)  # type: ignore[attr-defined]

    def text_of(self, node: ast.AST) -> str:
        start, end = self.span(node)
        return self.text[start:end]

    def changes(self, node: ast.AST) -> Iterator[_Change]:
        """Yield every change in a node and below it."""
        if _is_left_alone(node):
            return
        yield from self._own(node)
        for child in _children(node):
            yield from self.changes(child)

    def _own(self, node: ast.AST) -> Iterator[_Change]:
        if isinstance(node, ast.Compare) and len(node.ops) == 1:
            new = COMPARED[type(node.ops[0])]
            yield self._between("comparison", node.left, node.comparators[0], new)
        elif isinstance(node, ast.BinOp) and type(node.op) in CALCULATED:
            if not _is_text(node):
                yield self._between("sum", node.left, node.right, CALCULATED[type(node.op)][1])
        elif isinstance(node, ast.AugAssign) and type(node.op) in (ast.Add, ast.Sub):
            new = "-=" if isinstance(node.op, ast.Add) else "+="
            if isinstance(node.value, ast.Constant | ast.BinOp | ast.Name):
                yield self._between("sum", node.target, node.value, new)
        elif isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub | ast.Not):
            yield _Change("sign", *self.span(node), f"({self.text_of(node.operand)})")
        elif isinstance(node, ast.BoolOp):
            new = "or" if isinstance(node.op, ast.And) else "and"
            yield self._between("condition", node.values[0], node.values[1], new)
        elif isinstance(node, ast.If | ast.IfExp | ast.While):
            yield _Change("condition", *self.span(node.test), f"not ({self.text_of(node.test)})")
        elif isinstance(node, ast.Constant):
            yield from self._constant(node)
        elif isinstance(node, ast.JoinedStr):
            yield from self._words(node)
        elif isinstance(node, ast.Call):
            yield from self._call(node)

    def _between(self, operator: str, left: ast.AST, right: ast.AST, new: str) -> _Change:
        """Replace the operator between two nodes; brackets beside it stay."""
        start, end = self.span(left)[1], self.span(right)[0]
        gap = self.text[start:end]
        sign = re.search(r"not\s+in|is\s+not|[^\s()#]+", gap)
        assert sign is not None
        return _Change(operator, start + sign.start(), start + sign.end(), new)

    def _constant(self, node: ast.Constant) -> Iterator[_Change]:
        value = node.value
        if isinstance(value, bool):
            yield _Change("constant", *self.span(node), str(not value))
        elif isinstance(value, int):
            yield _Change("constant", *self.span(node), str(value + 1))
        elif isinstance(value, float) and (value == 0 or abs(value) > TOLERANCE):
            more = value * FACTOR if value else 1.0
            yield _Change("constant", *self.span(node), repr(more))
        elif isinstance(value, str):
            yield from self._words(node)

    def _words(self, node: ast.Constant | ast.JoinedStr) -> Iterator[_Change]:
        start, end = self.span(node)
        literal = self.text[start:end]
        inside = literal.strip("rf\"'")
        # A key such as "frog.height" is a name, not words.
        if " " not in inside and inside not in WORDS:
            return
        plain = re.sub(r"\{[^}]*\}", lambda m: "\0" * len(m[0]), literal)
        if word := _WORD.search(plain):
            yield _Change("word", start + word.start(), start + word.end(), WORDS[word[0]])

    def _call(self, node: ast.Call) -> Iterator[_Change]:
        named = node.func
        name = named.attr if isinstance(named, ast.Attribute) else getattr(named, "id", "")
        if name in RENAMED:
            end = self.span(named)[1]
            yield _Change("function", end - len(name), end, RENAMED[name])
        two = node.args[:2]
        if len(two) == 2 and not any(isinstance(a, ast.Starred) for a in two):
            (a, b), (c, d) = self.span(two[0]), self.span(two[1])
            if self.text[a:b] != self.text[c:d]:
                swapped = self.text[c:d] + self.text[b:c] + self.text[a:b]
                yield _Change("arguments", a, d, swapped)


def _children(node: ast.AST) -> Iterator[ast.AST]:
    """Yield the nodes below a node that do something when they run."""
    body = getattr(node, "body", None)
    if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef):
        assert isinstance(body, list)
        yield from body[1:] if ast.get_docstring(node, clean=False) is not None else body
        yield from getattr(node, "decorator_list", ())
        if isinstance(node, ast.FunctionDef):
            yield from (d for d in [*node.args.defaults, *node.args.kw_defaults] if d)
    elif isinstance(node, ast.AnnAssign):
        yield from [node.value] if node.value else []
    elif isinstance(node, ast.Call):
        name = getattr(node.func, "attr", getattr(node.func, "id", ""))
        kept = () if name == "cast" else node.args
        yield from (node.func, *kept, *(k.value for k in node.keywords))
    else:
        yield from ast.iter_child_nodes(node)


def _is_left_alone(node: ast.AST) -> bool:
    """Report whether to skip a node: import, assertion, error message, cache setting, type."""
    if isinstance(node, ast.Import | ast.ImportFrom | ast.Assert | ast.Raise):
        return True
    if isinstance(node, ast.Call) and getattr(node.func, "id", "") in _QUICKER:
        return True
    if isinstance(node, ast.Subscript):
        of = getattr(node.value, "id", "")
        return of in {"Literal", "tuple", "dict", "list", "Callable", "Sequence", "Mapping"}
    if isinstance(node, ast.Assign):
        return any(getattr(t, "id", "") == "__all__" for t in node.targets)
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.BitOr):
        return all(
            isinstance(s, ast.Name | ast.Constant | ast.BinOp) for s in (node.left, node.right)
        )
    return False


def _is_text(node: ast.BinOp) -> bool:
    """Report whether a sum joins texts or lists, whose difference would fail at once."""
    joined = (ast.JoinedStr, ast.List, ast.Tuple, ast.ListComp)
    sides = (node.left, node.right)
    return any(
        isinstance(s, joined) or (isinstance(s, ast.Constant) and isinstance(s.value, str))
        for s in sides
    )
