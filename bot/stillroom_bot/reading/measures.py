"""What a unit measures, and whether that is one of the things asked for."""

from __future__ import annotations

from stillroom.units import NONE, PERCENTS, Unit


def measure(unit: Unit) -> tuple[str, tuple[float, ...]]:
    """What a unit measures: a percent of any kind, else its kind and dimension."""
    return "%" if unit.kind in PERCENTS else unit.kind, unit.dimension


def among(asked: set[tuple[str, tuple[float, ...]]], unit: Unit) -> bool:
    """Does a unit measure one of the things asked for (a percent of a volume: what is weight to volume)?"""
    for kind, dimension in asked:
        if kind == "%":
            if unit.kind in PERCENTS if dimension == NONE else unit.dimension == dimension:
                return True
        elif dimension == unit.dimension and (dimension != NONE or kind == unit.kind):
            return True
    return False
