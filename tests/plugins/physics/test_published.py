"""Every physical function against figures printed elsewhere: ``checks.csv``, one figure a row.

``within`` is the largest difference allowed, in the figure's own unit: the rounding of the
printed figure, or by how much published tables of that property disagree.
"""

import csv
from importlib import import_module
from pathlib import Path

import pytest

with (Path(__file__).parent / "checks.csv").open(encoding="utf-8", newline="") as file:
    CHECKS = list(csv.DictReader(file))


def argument(cell: str) -> float | str:
    try:
        return float(cell)
    except ValueError:
        return cell


@pytest.mark.parametrize("check", CHECKS, ids=lambda c: f"{c['function']}({c['arguments']})")
def test_agrees_with_the_published_figure(check: dict[str, str]) -> None:
    module, name = check["function"].split(".")
    function = getattr(import_module(f"stillroom_bar.physics.{module}"), name)
    value = function(*map(argument, check["arguments"].split(";")))
    assert value == pytest.approx(float(check["expected"]), rel=0, abs=float(check["within"])), check[
        "source"
    ]


def test_every_check_names_its_source() -> None:
    assert all(check["source"] for check in CHECKS)
    assert len({(c["function"], c["arguments"], c["source"]) for c in CHECKS}) == len(CHECKS)


def test_no_check_is_so_loose_that_it_says_nothing() -> None:
    loose = [
        c
        for c in CHECKS
        if float(c["expected"])
        and float(c["within"]) > 0.05 * abs(float(c["expected"]))
        and "freezing" not in c["function"]
    ]
    assert {c["function"] for c in loose} <= {"refractometer.temperature_correction"}
