"""The benchmark judges its ratios: worse by a third fails, by less it does not."""

from __future__ import annotations

import json
import math
import tomllib

import benchmark
import pytest

RECORDED = {"cold_wall": 3.0, "cold_cpu": 2.4, "known_wall": 0.9, "known_cpu": 0.9}


@pytest.mark.parametrize("name", RECORDED)
def test_a_ratio_worse_by_more_than_a_third_fails(name: str) -> None:
    now = {**RECORDED, name: 1.34 * RECORDED[name]}
    assert benchmark.worse(now, RECORDED) == [name]


def test_a_ratio_worse_by_less_than_a_third_passes() -> None:
    assert benchmark.worse({name: 1.32 * r for name, r in RECORDED.items()}, RECORDED) == []


def test_a_ratio_that_is_not_a_number_fails() -> None:
    assert benchmark.worse({"cold_cpu": math.nan}, RECORDED) == ["cold_cpu"]


def test_a_ratio_that_was_never_recorded_is_an_error() -> None:
    with pytest.raises(KeyError, match="cold_cpu"):
        benchmark.worse({"cold_cpu": 1.0}, {})


def test_ratios_are_medians_divided_by_the_plain_script() -> None:
    units = ("wall", "cpu")
    rounds = [
        {f"{run}_{unit}": seconds * slow for run, seconds in runs.items() for unit in units}
        for slow, runs in (
            (1.0, {"plain": 2.0, "cold": 6.0, "known": 1.0}),
            (1.0, {"plain": 2.0, "cold": 6.0, "known": 1.0}),
            (9.0, {"plain": 2.0, "cold": 6.0, "known": 1.0}),  # the machine was busy once
        )
    ]
    expected = {"cold_wall": 3.0, "cold_cpu": 3.0, "known_wall": 0.5, "known_cpu": 0.5}
    assert benchmark.ratios(rounds) == pytest.approx(expected)


def test_the_committed_file_records_every_ratio_that_is_judged() -> None:
    recorded = json.loads(benchmark.RECORD.read_text("utf-8"))["ratios"]
    assert recorded.keys() == RECORDED.keys()
    assert all(ratio > 0 for ratio in recorded.values())


def test_the_change_of_the_known_run_is_one_the_reader_accepts() -> None:
    text = benchmark.changed(benchmark.STARTER.read_text("utf-8"))
    assert tomllib.loads(text)["pattern"]["revision"] == "B"
    assert tomllib.loads(text)["material"]["frog_wood"] == "measured"
