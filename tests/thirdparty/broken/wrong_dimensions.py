"""Equates grams with millilitres, and a percent by mass with one by volume."""

from stillroom import Calculator, var

wax = Calculator("wax", "Wax for candles", var("wax", "gram"), var("mould", "milliliter"),
                 equations=["wax = 0.9 * mould"], source="made up", example=("wax for a 100 ml mould?", "90 gram"))
dye = Calculator("dye", "Dye for wax", var("mass", "percent_ww"), var("volume", "percent_vv"),
                 equations=["mass = volume"], source="made up", example=("dye?", "1 percent"))
