"""Reducing spirit with water, against tables and worked examples of the American excise.

They count strength and volume at 60 °F, so densities are taken at 15.56 °C here.
"""

import pytest
from stillroom_bar.physics import ethanol

SIXTY_F = 15.0 + 5 / 9
POUND = 453.59237
GALLON = 3785.411784
AIR = 0.0012


def volume_share(p: float) -> float:
    return p * ethanol.density(p, SIXTY_F) / ethanol.density(1.0, SIXTY_F)


def weight_share(q: float) -> float:
    low, high = 0.0, 1.0
    for _ in range(60):
        middle = (low + high) / 2
        low, high = (middle, high) if volume_share(middle) < q else (low, middle)
    return low


def rho(q: float) -> float:
    return ethanol.density(weight_share(q), SIXTY_F)


def in_air(density: float) -> float:
    """Weight of a millilitre as scales with brass weights read it in air."""
    return density - AIR * (1 - density / 8.4)


# TTB-derived reduction table at 60 °F (engineersedge.com, alcohol dilution reduction table 14019):
# volumes of water to 100 volumes of spirit.
REDUCTION = [
    (95, 90, 6.41), (95, 60, 63.0), (95, 50, 95.9), (95, 40, 144), (95, 30, 224), (95, 20, 382),
    (90, 50, 84.8), (80, 40, 104), (70, 40, 77.6), (60, 40, 51.4), (50, 40, 25.6), (45, 40, 12.7),
]  # fmt: skip


@pytest.mark.parametrize(("start", "target", "water"), REDUCTION)
def test_reduction_table_at_60_fahrenheit(start: int, target: int, water: float) -> None:
    final = 100 * start / target
    added = (final * rho(target / 100) - 100 * rho(start / 100)) / ethanol.density(0.0, SIXTY_F)
    assert added == pytest.approx(water, rel=0.004)
    assert added == pytest.approx(ethanol.water_to_reduce(100, start / 100, target / 100), rel=0.006)


# The same mass balance written out at 20 °C by hand, with densities of OIML R 22 to two decimals.
@pytest.mark.parametrize(
    ("start", "target", "rho_start", "rho_target"),
    [(96, 40, 807.42, 948.05), (60, 40, 909.11, 948.05), (40, 30, 948.05, 962.21), (50, 20, 930.14, 973.56)],
)
def test_reduction_at_20_celsius(start: int, target: int, rho_start: float, rho_target: float) -> None:
    by_hand = (100 * start / target * rho_target - 100 * rho_start) / 998.20
    assert ethanol.water_to_reduce(100, start / 100, target / 100) == pytest.approx(by_hand, abs=0.01)


# USP 29 alcoholometric table (from NBS Bulletin 9): per cent by volume at 15.56 °C and by weight.
USP = [
    (1, 0.80), (5, 4.00), (10, 8.05), (15, 12.14), (20, 16.27), (25, 20.44), (28, 22.97), (30, 24.67),
    (32, 26.38), (33, 27.24), (12.39, 10), (18.47, 15), (24.47, 20), (30.39, 25), (36.18, 30), (39.59, 33),
]  # fmt: skip


@pytest.mark.parametrize(("volume", "weight"), USP)
def test_usp_alcoholometric_table(volume: float, weight: float) -> None:
    assert 100 * volume_share(weight / 100) == pytest.approx(volume, abs=0.02)


# 27 CFR 30.64, worked examples: 190 proof weighs in at 0.14718 wine gallons to the pound.
def test_wine_gallons_of_a_weighed_tank() -> None:
    gallons = POUND / (in_air(rho(0.95)) * GALLON)
    assert gallons == pytest.approx(0.14718, abs=0.00003)
    assert 81_000 * gallons == pytest.approx(11_921.6, rel=3e-4)
    assert 81_000 * gallons * 1.9 == pytest.approx(22_650.8, rel=3e-4)


# 27 CFR 30.64: 1,000 lb of 200 proof brought to 190 proof takes 82.03 lb of water.
def test_pounds_of_water_to_190_proof() -> None:
    assert 1000 / weight_share(0.95) - 1000 == pytest.approx(82.03, abs=0.1)


# From memory of 27 CFR 30.66: 100 proof is 50 parts of alcohol with 53.73 parts of water.
def test_parts_of_water_in_100_proof() -> None:
    water = (100 * rho(0.5) - 50 * ethanol.density(1.0, SIXTY_F)) / ethanol.density(0.0, SIXTY_F)
    assert water == pytest.approx(53.73, abs=0.02)


# Textbook demonstration, from memory: 50 ml of ethanol and 50 ml of water make about 96 ml.
def test_equal_volumes_shrink() -> None:
    p = 50 * ethanol.DENSITY / (50 * ethanol.DENSITY + 50 * ethanol.density(0.0))
    total = (50 * ethanol.DENSITY + 50 * ethanol.density(0.0)) / ethanol.density(p)
    assert total == pytest.approx(96.4, abs=0.2)


@pytest.mark.parametrize(("q_from", "q_to"), [(0.38, 0.5), (0.4, 0.0), (1.2, 0.4)])
def test_water_never_raises_a_strength(q_from: float, q_to: float) -> None:
    with pytest.raises(ValueError, match="only lowers"):
        ethanol.water_to_reduce(100, q_from, q_to)
