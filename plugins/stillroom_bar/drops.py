"""Saline and bitters in the glass: drops and dashes for a drink, a bottle, a batch, and a counted dropper.

How much salt stands in so many drops is a solution like any other, with its volume in drops.
"""

from __future__ import annotations

from stillroom import Calculator, choice, var

from .solution import CLEAR_TO, CRYSTALS, DENSITY, SOLUBILITY, SOLUTES, TOO_STRONG

DROPPER_BOTTLE = Calculator(
    "dropper_bottle",
    "Drops or dashes for each drink, and the drinks that a bottle or a batch has of them",
    var(
        "bottle",
        "milliliter",
        "bottle, dropper bottle, dropper, dasher, saline, bitters, tincture, total, vial, in total, altogether",
        role="have",
    ),
    var("dose", "milliliter", "dose, drop, dash, per drink, in each", role="each", show="drop"),
    var(
        "drinks",
        "count",
        "drink, serve, cocktail, serving, glass, guest, martini, sour, portion, pour",
        whole="down",
    ),
    var("batch", "milliliter", "batch, jug, keg", things="any"),
    var("serve", "milliliter", "serve, glass, drink, portion, pour", role="each"),
    equations=["bottle = dose * drinks", "batch = serve * drinks"],
    words="dropper, dropper bottle, drop, dash, season, seasoning, saline, bitters, tincture, last, empty, set aside, "
    "fill, refill, enough",
    asked="drinks, bottle, dose",
    method=["{dose} in each drink.", "{bottle} for {drinks} drinks; stir a batch after adding it, and taste."],
    examples=[
        ("a 50 ml dropper bottle of saline, 4 drops in each drink: how many drinks?", "250 count"),
        ("saline for 20 drinks at 3 drops each, in ml?", "3 milliliter"),
    ],
    source="arithmetic",
)

SEASONING = Calculator(
    "seasoning",
    "What the drops carry into a glass",
    choice(
        "solute", SOLUTES, fills={"solubility": "solubility", "clear_to": "clear_to"}, default="salt", words="solute",
        note="saline: salt in water",
    ),
    var("dose", "milliliter", "drop, saline, dose", show="drop", named_by="solute.solution"),
    var("strength", "percent_ww", "strength, saline", bounds=(0, 100), named_by="solute.solution"),
    var("carried", "gram", "salt in the drink, salt per drink", named_by="solute.powder", state="dry"),
    var("drink", "milliliter", "drink, glass, cocktail, serve, martini, sour"),
    var("seasoned", "percent_wv", "salinity, salt level, drink, glass, salt percent, salt content", role="to"),
    SOLUBILITY,
    CLEAR_TO,
    equations=[
        "carried = dose * density_of(solute, strength) * strength",
        "carried = seasoned * (drink + dose)",
    ],
    limits=[TOO_STRONG, CRYSTALS],
    functions=[DENSITY],
    words="season, seasoning, saline, in the glass, in the drink, salinity, salty",
    asked="seasoned, dose, carried",
    method=["{dose} of {strength} {solute} solution carry {carried} into {drink} of drink: {seasoned}."],
    examples=[("6 drops of 20 % saline in a 120 ml drink: what salt percent is the glass?", "0.0572 percent")],
    source="mass balance",
)

DROPPER = Calculator(
    "dropper",
    "A dropper counted out: the size of its drop",
    var("drops", "count", "drop, drops counted, count"),
    var("volume", "milliliter", "volume, millilitre, delivered, measured, cylinder"),
    var("drop_size", "milliliter", "drop size, size of a drop, volume per drop, one drop, each drop", role="each",
        show="microliter"),
    var("drops_per_ml", "count", "drops per ml, drops to the millilitre, drops in a millilitre"),
    equations=["volume = drops * drop_size", "one_ml = drops_per_ml * drop_size"],
    constants={"one_ml": (1.0, "milliliter")},
    words="calibrate, calibration, calibrated, dropper, pipette, count, counted, size of a drop, drop size, delivered",
    asked="drop_size, drops_per_ml, volume, drops",
    method=[
        "Count {drops} drops into a small cylinder, or onto a scale (1 g of water is 1 ml).",
        "One drop is {drop_size}, {drops_per_ml} to the millilitre: set that for this dropper and this liquid.",
    ],
    cautions=["Drops of spirit and tincture fall much smaller than drops of water: count each dropper with its liquid."],
    examples=[("dropper calibration: 50 drops gave 1.6 ml, what volume is one drop?", "32 microliter")],
    source="definition; USP <1101> for the official dropper of 20 drops of water to the millilitre",
)

CALCULATORS = (DROPPER_BOTTLE, SEASONING, DROPPER)
