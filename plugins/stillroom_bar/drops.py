"""Saline and bitters in the glass: drops and dashes for a drink, a bottle, a batch, and a counted dropper.

How much salt stands in so many drops is a solution like any other, with its volume in drops.
"""

from __future__ import annotations

from stillroom import Calculator, choice, limit, var

from .measures import DROPPED
from .solution import DENSITY, SOLUBILITY, SOLUTES, TOO_STRONG

SALT = [row for row in SOLUTES if row["id"] == "salt"]

A_DROP = limit(
    "dose >= smallest", "refuse", "That leaves {dose} for each: less than the smallest drop that falls."
)
SMALLEST = {"smallest": (0.01, "milliliter")}
MOST_DOSE = (0, 60)

DROPPER_BOTTLE = Calculator(
    "dropper_bottle",
    "Drinks that a dropper bottle or a dasher has in it",
    DROPPED,
    var(
        "bottle",
        "milliliter",
        "bottle, dropper bottle, dropper, dasher, vial, in total, total, altogether, in all, put in, in a batch",
        role="have",
        things="saline,bitters",
    ),
    var(
        "dose",
        "milliliter",
        "dose, per drink, each drink, drink, serve, cocktail, glass, sour, martini",
        role="each",
        show="drop",
        things="saline,bitters",
        bounds=MOST_DOSE,
    ),
    var(
        "drinks",
        "count",
        "drink, serve, cocktail, serving, glass, guest, martini, sour, old fashioned, manhattan, highball, daiquiri, "
        "portion, pour",
        whole="down",
    ),
    equations=["bottle = dose * drinks"],
    limits=[A_DROP],
    only="drop, drops, dropper, dash, dashes, dasher, barspoon, season, bitters, tincture, saline",
    words="dropper bottle, dropper, bottle, last, empty, set aside, refill, enough, for how many, season",
    asked="drinks, bottle, dose",
    constants=SMALLEST,
    method=["{dose} in each drink: {bottle} for {drinks} drinks."],
    examples=[
        ("a 50 ml dropper bottle of saline, 4 drops in each drink: how many drinks?", "250 count"),
        ("saline for 20 drinks at 3 drops each, in ml?", "3 milliliter"),
    ],
    source="arithmetic",
)

TO_FILL = Calculator(
    "dropper_bottles",
    "Dropper bottles to fill for so many drinks",
    DROPPED,
    var("drinks", "count", "drink, serve, cocktail, serving, glass, guest, martini, sour, portion", whole="down"),
    var("dose", "milliliter", "dose, per drink, each drink, drops each, each", role="each", show="drop",
        things="saline,bitters", bounds=MOST_DOSE),
    var("total", "milliliter", "in all, total, altogether"),
    var("bottle", "milliliter", "bottle, dropper bottle, dropper, dasher, size", role="per"),
    var("bottles", "count", "bottle, dropper bottle, dropper, dasher", whole="up"),
    equations=["total = drinks * dose", "total = bottles * bottle"],
    limits=[A_DROP],
    constants=SMALLEST,
    only="bottles, dropper bottles, dashers, droppers",
    also="how many bottles, dropper bottles, bottles do, bottles to fill, dashers do, droppers do",
    words="dropper bottles, bottles to fill, how many bottles, fill",
    asked="bottles, total",
    method=["{drinks} drinks at {dose} take {total}: {bottles} bottles of {bottle}."],
    examples=[("how many 50 ml dropper bottles do I fill with saline for 800 drinks at 3 drops each?", "3 count")],
    source="arithmetic",
)

DROPS_FOR_BATCH = Calculator(
    "drops_for_batch",
    "Drops or dashes for a whole batch",
    DROPPED,
    var("batch", "milliliter", "batch, jug, keg, bucket", things="any"),
    var("serve", "milliliter", "serve, glass, pour, portion", bounds=(5, 2000), role="each"),
    var("dose", "milliliter", "dose, per serve", role="each", show="drop", things="saline,bitters",
        bounds=MOST_DOSE),
    var(
        "total",
        "milliliter",
        "total, total saline, total bitters, in all, altogether, in the batch",
        things="saline,bitters",
    ),
    var("serves", "count", "serves in the batch, pours in the batch"),
    equations=["batch = serve * serves", "total = dose * serves"],
    limits=[A_DROP],
    only="drop, drops, dropper, dash, dashes, dasher, barspoon, season, bitters, tincture, saline",
    words="batch, season the batch, total saline, total bitters",
    asked="total, dose, serves",
    constants=SMALLEST,
    method=["{dose} for each {serve} of {batch}: {total}. Stir it in and taste."],
    examples=[("4.5 l batch, saline at 2 drops per 90 ml serve: total saline in ml?", "5 milliliter")],
    source="arithmetic",
)

SEASONING = Calculator(
    "seasoning",
    "What the drops carry into a glass",
    choice(
        "solute",
        SALT,
        fills={"solubility": "solubility"},
        default="salt",
        words="solute",
        note="saline: salt in water",
    ),
    var("dose", "milliliter", "drop, dose, per drink", show="drop", things="saline", role="each"),
    var("strength", "percent_ww", "strength of the saline, saline", bounds=(0, 100), things="saline"),
    var("carried", "gram", "salt, salt in the glass, salt carried", state="dry"),
    var("drink", "milliliter", "drink, glass, cocktail, martini, sour, finished drink", role="into"),
    var(
        "seasoned",
        "percent_wv",
        "salinity, salt level, in the glass, salt percent, salt content, of the drink",
    ),
    SOLUBILITY,
    equations=[
        "carried = dose * density_of(solute, strength) * strength",
        "carried = seasoned * (drink + dose)",
    ],
    limits=[
        TOO_STRONG,
        limit(
            "dose <= drink",
            "doubt",
            "{dose} of saline is more than the {drink} of drink that it is to season.",
        ),
    ],
    functions=[DENSITY],
    only="in the glass, in the drink, season, seasoning, seasoned, salinity, salty, salt percent, "
        "salt level, salt content",
    words="season, seasoning, in the glass, in the drink, salinity, how salty",
    asked="seasoned, dose, carried",
    method=["{dose} of {strength} {solute} solution carry {carried} into {drink} of drink: {seasoned}."],
    examples=[
        ("6 drops of 20 % saline in a 120 ml drink: what salt percent is the glass?", "0.0572 percent")
    ],
    source="mass balance",
)

SWAP = Calculator(
    "swap_saline",
    "One saline in another's place, with the same salt",
    choice("solute", SALT, fills={"solubility": "solubility"}, default="salt", words="solute",
           note="saline: salt in water"),
    var("called_volume", "milliliter", "saline, recipe, card, spec, calls for, called for, drink", role="from",
        things="saline", show="drop"),
    var("called_strength", "percent_ww", "saline, called for, recipe, spec, card, calls for", role="from",
        bounds=(0, 100), things="saline"),
    var("instead_volume", "milliliter", "instead, replacement, substitute, same salt, drop, dash, stronger, weaker",
        role="to", show="drop"),
    var("instead_strength", "percent_ww", "mine, ours, instead, bottle, stronger, weaker, only have, dropper",
        role="have", bounds=(0, 100)),
    var("salt", "gram", "grams of salt, weight of salt", state="dry"),
    SOLUBILITY,
    equations=[
        "salt = called_strength * density_of(solute, called_strength) * called_volume",
        "salt = instead_strength * density_of(solute, instead_strength) * instead_volume",
    ],
    limits=[
        limit("called_strength <= solubility", "refuse",
              "Water at 20 °C holds no more {solute} than {solubility} by mass (w/w): that strength cannot be made."),
        limit("instead_strength <= solubility", "refuse",
              "Water at 20 °C holds no more {solute} than {solubility} by mass (w/w): that strength cannot be made."),
    ],
    functions=[DENSITY],
    only="same salt, same amount of salt, as much salt, same saltiness, as salty, equally salty, same salinity, "
        "only have, only got, instead, swap, swapping, replace, replaces",
    also="saline, salt, brine",
    words="same salt, same amount of salt, as much salt, as salty, equally salty, same salinity, instead, swap, "
        "only have",
    asked="instead_volume, called_volume, salt",
    method=["{instead_volume} at {instead_strength} bring the salt of {called_volume} at {called_strength}: {salt}."],
    examples=[("spec calls for 3 ml of 10 % saline, mine is 20 %: how many ml for the same salt?", "1.4 ml")],
    source="mass balance",
)

DROPPER = Calculator(
    "dropper",
    "A dropper counted out: the size of its drop",
    var("drops", "count", "drop, drops counted, count, collected"),
    var("volume", "milliliter", "volume, millilitre, delivered, measured, cylinder, came to, it read, measuring tube"),
    var(
        "drop_size",
        "milliliter",
        "drop size, size of a drop, volume per drop, one drop, each drop, a single drop, mean drop volume, "
        "drop volume, volume of one, "
        "how big is one drop",
        role="each",
        show="microliter",
    ),
    var("drops_per_ml", "count", "drops per ml, drops to the millilitre, drops in a millilitre"),
    equations=["volume = drops * drop_size", "one_ml = drops_per_ml * drop_size"],
    constants={"one_ml": (1.0, "milliliter")},
    only="calibrate, calibration, calibrated, counted, count, collected, drop size, size of a drop, drop volume, "
    "a single drop, one drop",
    words="calibrate, calibration, calibrated, counted, collected, size of a drop, drop size, drop volume, "
        "a single drop, "
    "how big is one drop, delivered",
    asked="drop_size, drops_per_ml, volume, drops",
    method=[
        "Count {drops} drops into a small cylinder, or onto a scale (1 g of water is 1 ml).",
        "One drop is {drop_size}, {drops_per_ml} to the millilitre: set that for this dropper and this "
        "liquid.",
    ],
    cautions=[
        "Drops of spirit fall much smaller than drops of water: count each dropper with its own liquid."
    ],
    examples=[
        ("dropper calibration: 50 drops gave 1.6 ml, what drop size is that in microlitres?", "32 microliter")
    ],
    source="definition; USP <1101> for the official dropper of 20 drops of water to the millilitre",
)

CALCULATORS = (DROPPER_BOTTLE, TO_FILL, DROPS_FOR_BATCH, SEASONING, SWAP, DROPPER)
