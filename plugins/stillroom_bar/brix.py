"""Brix: the density behind it, reading it, how much sugar dissolves, and sugar by the cup."""

from __future__ import annotations

from stillroom import Calculator, Function, limit, var

from .physics import refractometer, sucrose

STRONGEST = 85.0
"""°Bx up to which a density is looked up: beyond it nobody pours a syrup."""

CUP = 236.5882365
"""Millilitres in a US cup."""

WATER = {"water_density": (0.998203, "gram / milliliter")}
"""Water at 20 °C (ICUMSA SPS-4), as a calculator's constants."""

DENSITY = Function("syrup_density", lambda brix: sucrose.density(brix / 100), ("percent_ww",),
                   "gram / milliliter", (0.0, STRONGEST), sucrose.SOURCE)
DENSITY_AT = Function("syrup_density_at", lambda t, brix: sucrose.density(brix / 100, t),
                      ("degree_Celsius", "percent_ww"), "gram / milliliter", (0.0, STRONGEST), sucrose.SOURCE)
SOLUBLE = Function("soluble_at", lambda t: 100 * sucrose.solubility(t), ("degree_Celsius",), "percent_ww",
                   (0.0, 100.0), sucrose.SOLUBILITY_SOURCE)
ACID = Function("acid_correction", refractometer.acid_correction, ("percent_ww",), "percent_ww", (0.0, 40.0),
                refractometer.ACID_SOURCE)
WARMTH = Function("warmth_correction", lambda t, reading: refractometer.temperature_correction(reading, t),
                  ("degree_Celsius", "brix"), "percent_ww", (0.0, 70.0), refractometer.WARMTH_SOURCE)

BY_THE_CUP = Calculator(
    "syrup_by_the_cup", "A syrup with its sugar measured by the cup",
    var("sugar_volume", "milliliter", "sugar, white sugar", state="dry"),
    var("water_volume", "milliliter", "water, hot water"),
    var("volume", "milliliter", "syrup", role="to"),
    var("brix", "brix", "brix", bounds=(0, STRONGEST)),
    var("mass", "gram", "syrup", role="to"),
    var("sugar", "gram", "sugar", hidden=True), var("water", "gram", "water", hidden=True),
    var("heap", "gram / milliliter", "heap", hidden=True, default=200 / CUP,
        note="a US cup of granulated sugar weighs 200 g (USDA household weight)"),
    equations=["sugar = heap * sugar_volume", "water = water_density * water_volume", "mass = sugar + water",
               "sugar = brix * mass", "mass = syrup_density(brix) * volume"],
    limits=[limit("brix <= 0.67", "caution", "Above 67 °Bx a syrup takes heat to make and may crystallise.")],
    functions=[DENSITY], constants=WATER,
    only="cup, cups, by volume, tablespoon, teaspoon, spoon, level",
    words="by volume, by the cup, volume measure",
    asked="brix, volume, mass",
    cautions=["A cup of sugar varies by a tenth with its grain and how it is filled: weigh it where it matters."],
    examples=[("two cups of sugar and one cup of water by volume, what brix is the syrup?", "62.9 percent")],
    source="USDA household weights; mass balance")

SOURED = Calculator(
    "refractometer_acid", "A refractometer reading of something sour, corrected for its acid",
    var("reading", "brix", "reading, refractometer, refractometer shows, measured, brix, it reads",
        bounds=(0, STRONGEST), role="from"),
    var("acid", "percent_ww", "acid, citric acid, acidity", bounds=(0, 40)),
    var("correction", "brix", "correction, difference", bounds=(0, 10)),
    var("brix", "brix", "true brix, corrected brix, corrected, real brix", bounds=(0, 100), role="to"),
    equations=["brix = reading + correction", "correction = acid_correction(acid)"],
    functions=[ACID],
    only="refractometer, true brix, acid correction",
    words="refractometer, correct, corrected, correction, acid correction, acid corrected, true brix, sour juice",
    asked="brix, correction",
    conventions=["acid is grams of anhydrous citric acid in 100 g; the reading is at 20 °C"],
    examples=[("a refractometer reads 40 brix on a cordial with 5 % acid, what is the corrected brix?",
               "40.97 percent")],
    source="21 CFR 146.132")

WARMED = Calculator(
    "refractometer_warmth", "A refractometer reading away from 20 °C, corrected",
    var("reading", "brix", "reading, refractometer, refractometer shows, measured, brix, it reads",
        bounds=(0, 70), role="from"),
    var("temperature", "degree_Celsius", "temperature, sample, syrup temperature", bounds=(10, 30)),
    var("correction", "brix", "correction, difference", bounds=(-2, 2)),
    var("brix", "brix", "true brix, corrected brix, corrected, real brix, actual brix", bounds=(0, 72),
        role="to"),
    equations=["brix = reading + correction", "correction = warmth_correction(temperature, reading)"],
    functions=[WARMTH],
    only="refractometer, true brix, real brix, actual brix, temperature correction, atc",
    words="refractometer, correct, corrected, temperature correction, warm sample, true brix, no atc",
    asked="brix, correction",
    conventions=["only for an instrument without automatic temperature compensation (ATC)"],
    examples=[("my refractometer without ATC reads 50 brix at 26 °C, what is the true brix?", "50.48 percent")],
    source="international temperature correction of refractometers for 20 °C")

SOLUBILITY = Calculator(
    "sugar_solubility", "How much sugar water can hold",
    var("temperature", "degree_Celsius", "temperature, water", bounds=(0, 100), default=20,
        note="room temperature"),
    var("strongest", "brix", "brix, strongest, saturation, saturated, solubility, limit", bounds=(0, 100)),
    var("water", "gram", "water"),
    var("water_volume", "milliliter", "water"),
    var("sugar", "gram", "sugar, sucrose", state="dry"),
    equations=["strongest = soluble_at(temperature)", "sugar = strongest * (sugar + water)",
               "water = water_density * water_volume"],
    functions=[SOLUBLE], constants=WATER,
    only=(
        "solubility, soluble, saturated, saturation, saturate, dissolve, dissolves, most sugar, "
        "crystallise, crystallize, hold, holds"
    ),
    words="dissolve, dissolves, solubility, soluble, saturated, saturation, most sugar, hold, crystallise, "
          "maximum sugar",
    asked="strongest, sugar",
    cautions=["Published figures differ by 0.4 °Bx, and a syrup at its limit crystallises as it cools."],
    examples=[("how much sugar dissolves in 1 kg of water at 20 °C?", "2005 gram")],
    source="mass balance")

CALCULATORS = (BY_THE_CUP, SOURED, WARMED, SOLUBILITY)
