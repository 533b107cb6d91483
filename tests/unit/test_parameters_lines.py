"""Find the line of a key. Referee: files written line by line, so that the lines are known.

The ways to write a key: TOML v1.0.0, toml.io, "Keys", "Table", "Inline Table".
"""

import tomllib

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from templates_gen.parameters.lines import lines_of

TEXT = '''\
# ferrule.height = 1
units = "mm"  # [hair]
ferrule.outer_width = 3
hair = { count = 170, width = { value = 1, "tol" = 2 } }

[stick]  # length = 2
note = """
length = 3
[hair]
"""
length = 4
"quoted.key" = 5
 'bare' = 6
list = [
  1, # length = 9
  2,
]
[frog]
length = { value = 5,
tol = 1 }
[frog . "deep"]
a.b = 7
[[many]]
x = 1
[[many]]
x = 2
last = 8'''


@pytest.mark.parametrize(
    ("path", "line"),
    [
        (("units",), 2),
        (("ferrule",), 3),
        (("ferrule", "outer_width"), 3),
        (("ferrule", "height"), None),
        (("hair",), 4),
        (("hair", "count"), 4),
        (("hair", "width", "tol"), 4),
        (("stick",), 6),
        (("stick", "note"), 7),
        (("stick", "length"), 11),
        (("stick", "quoted.key"), 12),
        (("stick", "quoted"), None),
        (("stick", "bare"), 13),
        (("stick", "list"), 14),
        (("frog",), 18),
        (("frog", "deep"), 21),
        (("frog", "deep", "a", "b"), 22),
        (("many",), 23),
        (("many", "x"), 24),
        (("many", "last"), 27),
    ],
)
@pytest.mark.parametrize("ends", ["\n", "\r\n"])
def test_the_line_of_a_key(path, line, ends):
    text = TEXT.replace("length = { value = 5,\ntol = 1 }", "length = 5\n# tol")
    tomllib.loads(text)
    assert lines_of(text.replace("\n", ends)).get(path) == line


@pytest.mark.parametrize(("length", "places"), [(100, 3), (20_000, 1)])
def test_gives_no_place_after_an_unterminated_value(length, places):
    text = "a = 1\nb = [[1]" + "\n,[1]" * length + "]\nc = 3\n"
    assert len(lines_of(text)) == places


@pytest.mark.parametrize("row", ["", "[0, 12.0],", "[0, 12.0], # ] front", "# so", '"]", # "'])
def test_finds_places_after_a_list_of_many_lines(row):
    text = "a = 1\nb = [\n" + f"  {row}\n" * 5_000 + "]  # b\nc = 3\n"
    tomllib.loads(text)
    assert lines_of(text) == {("a",): 1, ("b",): 2, ("c",): 5_004}


names = st.text(alphabet="abc_-. #[]='", min_size=1, max_size=5)
values = st.sampled_from(
    [
        "[\n1\n] # ]",
        "[[1,\n2] # a\n, [3]\n]",
        "{ a = [\n] }",
        '''"""\n]\n"""" # "''',
        "1",
        "[\n1,\n2]",
        '"""x\n[a]\n"""',
        "'''\n\n'''",
        '"a#"',
        "{ b = 1 }",
        "2.5 # [c] = 1",
    ]
)


@settings(max_examples=60, deadline=None, derandomize=True)
@given(st.dictionaries(names, st.dictionaries(names, values, max_size=4), max_size=4))
def test_finds_every_key_of_a_file_by_line(sections):
    text, expected = "", {}
    for section, keys in sections.items():
        expected[(section,)] = text.count("\n") + 1
        text += f'["{section}"]\n\n'
        for key, value in keys.items():
            expected[(section, key)] = text.count("\n") + 1
            text += f'"{key}" = {value}\n# "{key}" = 0\n'
    found = lines_of(text)
    assert {path: found.get(path) for path in expected} == expected
