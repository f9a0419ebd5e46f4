"""Loads well and never comes back when it is asked."""

from stillroom import Calculator, Function, var


def felted(wool: float) -> float:
    while True:
        wool += 0.0


felt = Calculator(
    "felt", "Wool for a sheet of felt",
    var("sheet", "centimeter", "sheet, felt"), var("wool", "gram", "wool, fleece"),
    equations=["sheet = felted(wool)"], functions=[Function("felted", felted, ("gram",), "centimeter", (0, 1000))],
    words="felt, sheet", only="felt", source="made up", example=("how much felt from 100 g of wool?", "30 centimeter"))
