"""Time on ice: how far stirring or shaking has come after so many seconds.

A drink on ice nears its end as anything does that is cooled by what it touches: quickly at first, then ever
more slowly.  The end is that of the curves of dilution by strength (``dilution``), which hold for the usual
time of each way; the constants below are the trade's, and a guess: ice, its size, its wetness and the hand
shift them.  Whoever needs to know measures volumes before and after.
"""

from __future__ import annotations

from math import exp

from stillroom import Calculator, Function, choice, limit, var

from .dilution import FIT, METHODS, OF_BEFORE
from .strength import ADD

USUAL = {"stirred": (30.0, 30.0), "shaken": (12.0, 4.0)}
"""Seconds: the usual time of each way, and the time in which what is left to come falls to 37 %; common practice,
no source."""
GUESS = "How fast ice dilutes is a guess of the trade: your ice, your tin and your hand decide. Measure it once."


def _gone(method: str, seconds: float) -> float:
    usual, constant = USUAL[method]
    return (1 - exp(-seconds / constant)) / (1 - exp(-usual / constant))


GONE = Function("gone", _gone, ("choice", "second"), "dimensionless", (0.0, 600.0),
                "the usual dilution by 30 s of stirring or 12 s of shaking, nearing its end exponentially; common "
                "practice, no source")

ICE_TIME = Calculator(
    "ice_time", "Dilution and strength by the time on ice",
    choice("method", METHODS, words="stirred, shaken, method"),
    var("volume", "milliliter", "drink, cocktail, build, batch, before ice, undiluted", role="from", things="spirit"),
    var("abv", "abv", "starting strength, undiluted, before ice, strength", role="from", bounds=(0, 100),
        things="spirit"),
    var("time", "second", "time on ice, ice time, seconds, stirring time, shaking time", bounds=(0, 600)),
    var("water", "milliliter", "water, water picked up, melt", role="add"),
    var("final_volume", "milliliter", "final volume, in the glass, strained", role="to"),
    var("final_abv", "abv", "final strength, in the glass, afterwards, diluted, strength after", role="to",
        bounds=(0, 100)),
    var("dilution", "percent", "dilution", bounds=(0, None)),
    equations=["dilution = fit(method, abv) * gone(method, time)", "water = dilution * volume",
               "final_volume = volume + water", "abv * volume = final_abv * final_volume"],
    limits=[limit("final_abv <= abv", "refuse", "Ice cannot raise the strength from {abv} to {final_abv}."),
            limit("abv >= 0.15", "caution",
                  "The curves fit 15 to 35 % ABV: at {abv} take the figure as a guess, and measure."),
            limit("abv <= 0.35", "caution",
                  "The curves fit 15 to 35 % ABV: at {abv} take the figure as a guess, and measure.")],
    functions=[FIT, GONE],
    only="time on ice, ice time",
    words="time on ice, ice time, seconds on ice",
    asked="final_abv, dilution, water, time",
    conventions=[OF_BEFORE, ADD], cautions=[GUESS],
    examples=[("ice time: 90 ml at 30 % ABV stirred, 60 seconds on ice, dilution?", "56.07 percent")],
    source="dilution curves by strength; common practice, no source")

CALCULATORS = (ICE_TIME,)
"""One calculator: it is asked for by its name, so that a time said beside another question stays noise."""
