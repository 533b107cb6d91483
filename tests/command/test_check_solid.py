"""Test ``check --solid`` on the shipped patterns: each part's solid, its walls, the whole bow."""

import json

import pytest
from command.calls import call
from kernel.bench import FILES, PARAMS, parts_of

pytestmark = pytest.mark.kernel


@pytest.mark.parametrize(
    "stem",
    [stem if stem == "violin" else pytest.param(stem, marks=pytest.mark.slow) for stem in FILES],
)
def test_shipped_patterns_pass_on_their_solids(capsys, stem):
    """At least fifty checks, none fails, and the solids are among them."""
    called = call(capsys, "check", str(PARAMS / f"{stem}.toml"), "--solid", "--json")
    assert called.status == 0
    checks = {c["id"]: c for c in json.loads(called.out)["checks"]}
    assert len(checks) >= 50
    assert not [c["id"] for c in checks.values() if c["verdict"] == "fail"]
    assert {f"{part}.solid_section" for part in parts_of(stem)} <= set(checks)
    ends = {f"bow.overlap_{where}" for where in ("frog", "stick", "rearmost", "foremost")}
    assert ends <= set(checks)
    measured = [c for c in checks.values() if c["id"].endswith("_solid")]
    assert {c["part"] for c in measured} == {*parts_of(stem), "bow"}
    for c in measured:
        way = {">=": 1.0, "<=": -1.0}[c["sense"]]
        assert way * (c["measured"] - c["limit"]) >= 0.0, c["id"]
        if c["part"] in ("frog", "head", "stick"):  # walls: of wood there is some
            assert c["measured"] > 0.0 and c["limit"] > 0.0, c["id"]
