"""Loads well and fails when it is asked: a table that trips, and a caution that does."""

from stillroom import Calculator, Function, hookimpl, var


def shade(depth: float) -> float:
    raise KeyError("no row for that")


@hookimpl
def stillroom_calculators():
    return [Calculator(
        "mordant", "Alum for dyeing wool",
        var("alum", "gram", "alum, mordant"), var("wool", "gram", "wool, yarn"),
        equations=["alum = shade(wool)"], functions=[Function("shade", shade, ("gram",), "gram", (0, 1000))],
        words="alum, mordant, dye", only="alum, mordant", source="made up",
        example=("how much alum for 100 g of wool?", "15 gram"))]


@hookimpl
def stillroom_cautions(request, answer):
    raise RuntimeError("a caution that trips")
