"""Solutions that exist already: too strong, too weak, or a stock to take from."""

from __future__ import annotations

from stillroom import Calculator, limit, var

from .solution import (
    CLEAR_TO,
    CRYSTALS,
    DENSITY,
    SOLUBILITY,
    SOLUTE,
    TOO_STRONG,
    WATER,
    WATER_VOLUME,
    WATER_WEIGHT,
)

WEAKENS = limit(
    "target <= strength", "refuse", "Water only weakens: {strength} cannot become {target} by adding it."
)

THIN = Calculator(
    "thin",
    "Water to bring a strong solution down",
    SOLUTE,
    var("mass", "gram", "solution, strong solution, batch", role="have", named_by="solute.solution"),
    var("volume", "milliliter", "volume of the solution", role="have", things="saline"),
    var("strength", "percent_ww", "strength", role="from", bounds=(0, 100)),
    var("water", "gram", "water", role="add"),
    WATER_VOLUME,
    var(
        "finished",
        "gram",
        "finished solution, ends up, end up with, afterwards, how much solution, solution have, total weight, "
        "stretch it to",
        role="need",
    ),
    var("target", "percent_ww", "target, strength", role="to", bounds=(0, 100)),
    SOLUBILITY,
    CLEAR_TO,
    equations=[
        "finished = mass + water",
        "mass * strength = finished * target",
        "mass = volume * density_of(solute, strength)",
        WATER_WEIGHT,
    ],
    limits=[TOO_STRONG, CRYSTALS, WEAKENS],
    functions=[DENSITY],
    constants=WATER,
    only="water, want, wanted, stretch, new, added, too salty, thin, weaken, let down, cut, strong, correct, "
    "bring down, water down, lower, dilute, came out, "
        "weaker, reduce, "
    "more water, add, added, new, now, topped up, plus",
    words="thin, thin down, weaken, let down, cut, too strong, came out, correct, bring down, water down, "
    "lower, dilute",
    asked="water, target, finished, mass, strength",
    method=["Stir {water} of water into {mass} of the solution: {finished} at {target}."],
    examples=[("1 kg of saline came out at 25 %, I want 20 %: how much water?", "250 gram")],
    source="mass balance",
)

STOCK = Calculator(
    "stock",
    "How much of a stock makes a weaker solution",
    SOLUTE,
    var("stock", "gram", "stock, stock solution, concentrate", role="have"),
    var("stock_volume", "milliliter", "stock volume, volume of stock", role="have"),
    var("strength", "percent_ww", "stock, stock solution, concentrate", role="from", bounds=(0, 100)),
    var("water", "gram", "water", role="add"),
    WATER_VOLUME,
    var(
        "mass",
        "gram",
        "finished solution, total, batch, working solution",
        role="need",
        named_by="solute.solution",
    ),
    var("volume", "milliliter", "finished volume, total volume", role="need", things="saline"),
    var("target", "percent_ww", "target, strength", role="to", bounds=(0, 100)),
    SOLUBILITY,
    CLEAR_TO,
    equations=[
        "mass = stock + water",
        "stock * strength = mass * target",
        "stock = stock_volume * density_of(solute, strength)",
        "mass = volume * density_of(solute, target)",
        WATER_WEIGHT,
    ],
    limits=[TOO_STRONG, CRYSTALS, WEAKENS],
    functions=[DENSITY],
    constants=WATER,
    only="stock, concentrate, concentrated, dilute, diluting, dilution",
    words="stock, stock solution, concentrate, dilute, diluting, working solution, from a stock",
    asked="stock, water, mass, target, strength",
    method=["Weigh {stock} of the stock.", "Add {water} of water and stir: {mass} at {target}."],
    examples=[("from a 24 % saline stock I need 500 g at 10 %, how much stock?", "208.3 gram")],
    source="mass balance",
)

STRENGTHEN = Calculator(
    "strengthen",
    "Powder to bring a weak solution up",
    SOLUTE,
    var("weak", "gram", "solution, weak solution, batch", role="have", named_by="solute.solution"),
    var(
        "weak_volume",
        "milliliter",
        "volume of the solution, weak volume",
        role="have",
        things="saline,acid,syrup",
    ),
    var("weak_strength", "percent_ww", "strength", role="from", bounds=(0, 100)),
    var("solute_added", "gram", "solute, powder", role="add", named_by="solute.powder", state="dry"),
    var("mass", "gram", "finished solution, total", role="to", named_by="solute.solution", shy=True),
    var("strength", "percent_ww", "target, strength", role="to", bounds=(0, 100)),
    SOLUBILITY,
    CLEAR_TO,
    equations=[
        "mass = weak + solute_added",
        "weak * weak_strength + solute_added = mass * strength",
        "weak = weak_volume * density_of(solute, weak_strength)",
    ],
    limits=[
        TOO_STRONG,
        CRYSTALS,
        limit(
            "weak_strength <= strength",
            "refuse",
            "More {solute} only strengthens: {weak_strength} cannot become {strength} by adding it. Add "
            "water instead.",
        ),
    ],
    functions=[DENSITY],
    only="strengthen, correct, fix, adjust, lift, addition, wanted, weak, raise, bring up, stronger, top up, "
        "fortify, correct, came out, "
    "dissolve, add, adding, "
    "extra, lift, boost, more salt, more sugar",
    words="strengthen, too weak, came out too weak, bring up, raise, correct, add more, top up, fortify, "
    "stronger",
    asked="solute_added, strength, mass, weak, weak_strength",
    method=[
        "Stir {solute_added} of {solute} into {weak} of the solution until it is clear: {mass} at {strength}."
    ],
    examples=[("I have 1 kg of saline at 10 % and want it at 20 %: how much salt do I add?", "125 gram")],
    source="mass balance",
)

STOCK_BY_VOLUME = Calculator(
    "stock_by_volume",
    "Stock of a strength in grams per litre, made up to a volume",
    var("stock", "milliliter", "stock, strong solution, concentrate", role="have"),
    var("content", "gram / liter", "stock, strength", role="from"),
    var("water", "milliliter", "water", role="add"),
    var("volume", "milliliter", "finished solution, total, batch, working solution", role="need"),
    var("target", "gram / liter", "target, strength, finished, weaker, working solution"),
    equations=["stock * content = volume * target", "volume = stock + water"],
    limits=[
        limit(
            "target <= content",
            "refuse",
            "Water only weakens: {content} cannot become {target} by adding it.",
        )
    ],
    only="stock, concentrate, dilute, thin, weaken",
    words="dilute, diluting, stock, thin, weaken, w/v, grams per litre",
    asked="stock, water, volume, target, content",
    method=["Measure {stock} of the stock and fill up with water to {volume}."],
    conventions=["water fills up to the volume: it is that volume less the stock's, contraction not counted"],
    examples=[("how much of a 200 g/l stock do I need for 500 ml at 20 g/l?", "50 milliliter")],
    source="mass balance of the solute",
)

MIXED = Calculator(
    "mix_solutions",
    "Two solutions of one powder into one",
    SOLUTE,
    var("first_mass", "gram", "first, first solution", role="from", named_by="solute.solution"),
    var("first_strength", "percent_ww", "first strength, first", role="from", bounds=(0, 100)),
    var("second_mass", "gram", "second, second solution, other", role="add", named_by="solute.solution"),
    var("second_strength", "percent_ww", "second strength, second, other", role="add", bounds=(0, 100)),
    var("mass", "gram", "mixture, lot, in all, finished mixture", role="to"),
    var("strength", "percent_ww", "strength, mixture, blend, mix, end up, end up with, comes out", role="to",
        bounds=(0, 100)),
    SOLUBILITY,
    CLEAR_TO,
    equations=[
        "mass = first_mass + second_mass",
        "mass * strength = first_mass * first_strength + second_mass * second_strength",
    ],
    limits=[
        TOO_STRONG,
        CRYSTALS,
        limit("strength <= max(first_strength, second_strength)", "refuse",
              "A mixture is no stronger than the stronger of its parts."),
        limit("strength >= min(first_strength, second_strength)", "refuse",
              "A mixture is no weaker than the weaker of its parts."),
    ],
    only="mixed, mix, together, blend, combine, combined, tip, pour together, put together, poured together, mixture",
    words="mix, mixed, mixed together, together, put together, pour together, blend, combine, two solutions, tip",
    asked="strength, mass",
    method=["{first_mass} at {first_strength} and {second_mass} at {second_strength} make {mass} at {strength}."],
    examples=[("250 g of 8 % saline and 250 g of 16 % saline mixed together, what strength?", "12 percent")],
    source="mass balance",
)

CALCULATORS = (THIN, STRENGTHEN, MIXED, STOCK, STOCK_BY_VOLUME)
