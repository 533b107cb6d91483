"""Every rule can fail, and its proposed cure cures it."""

import pytest
from checks.drive import Desk, as_shipped, judged_again, places

from templates_gen import registry
from templates_gen.checks.cure import cure
from templates_gen.parameters.rewrite import set_values

#: Rules that no single number can fail, each with the reason.
CANNOT: dict[str, str] = {}
#: Number of failing places tried before a rule counts as having no cure.
MOST = 60


@pytest.fixture(scope="module")
def desk(tmp_path_factory):
    return Desk(tmp_path_factory.mktemp("desk"))


@pytest.mark.parametrize("rule", registry.rules(), ids=lambda r: r.id)
def test_a_rule_fails_and_is_cured(desk, rule):
    if rule.id in CANNOT:
        pytest.skip(CANNOT[rule.id])
    failed = 0
    for name, changes in places(rule):
        if failed == MOST or (found := desk.changed(name, changes)) is None:
            continue
        failed += 1
        file, p = found
        results = judged_again(as_shipped(name), p, changes)
        (broken,) = [r for r in results if r.rule is rule]
        assert broken.verdict == "fail", changes
        proposed = cure(broken, p, results, registry.faults)
        if proposed is not None:
            _is_cured(desk, file, rule, results, proposed)
            return
    assert failed, f"{rule.id} fails nowhere, moving one number of any shipped file"
    pytest.fail(f"{rule.id} has no cure in any of {failed} places")


def _is_cured(desk, file, rule, before, proposed):
    """Write the cure into the file: the rule passes, and no other error-check starts to fail."""
    found = desk.changed(file, {proposed.key: proposed.value})
    assert found is not None, f"{proposed.description}: the file is rejected"
    after = {r.rule.id: r for r in judged_again(before, found[1], [proposed.key])}
    assert after[rule.id].verdict != "fail", proposed.description
    newly = [r.rule.id for r in before if after[r.rule.id].stops and not r.stops]
    assert newly == [], proposed.description


def test_every_exception_is_still_a_rule():
    assert set(CANNOT) <= {r.id for r in registry.rules()}


def test_rule_ids_are_unique():
    names = [r.id for r in registry.rules()]
    assert len(set(names)) == len(names)
    for r in registry.rules():
        assert r.id.count(".") == 1 and r.description and r.basis and r.unit, r.id


def test_a_rewrite_changes_nothing_else(desk):
    """Writing and reading a file does not itself change a pattern."""
    for name in ("violin.toml", "bass-german.toml"):
        text = (desk.folder / name).read_text("utf-8")
        assert set_values(text, {}) == text
