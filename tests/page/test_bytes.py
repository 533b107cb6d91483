"""The same pattern gives the same page, wherever its file lies."""

from page.sets import FAILING, Set


def test_the_same_bytes_twice_and_elsewhere(failing, tmp_path):
    file = tmp_path / "elsewhere.toml"
    file.write_text(FAILING, "utf-8")
    again = Set(file)
    assert again.page == failing.page
    assert str(tmp_path).encode() not in again.page
    assert b"elsewhere" not in again.page
