"""The same pattern gives the same page, whatever the path of its file."""

from page.sets import FAILING, Set


def test_page_does_not_depend_on_the_path(failing, tmp_path):
    file = tmp_path / "elsewhere.toml"
    file.write_text(FAILING, "utf-8")
    again = Set(file)
    assert again.page == failing.page
    assert str(tmp_path).encode() not in again.page
    assert b"elsewhere" not in again.page
