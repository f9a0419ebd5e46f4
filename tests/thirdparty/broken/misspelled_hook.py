"""Means stillroom_calculators."""

from stillroom import Calculator, hookimpl, var


@hookimpl
def stillroom_calculator():
    return [Calculator("twine", "Twine", var("twine", "centimeter"))]
