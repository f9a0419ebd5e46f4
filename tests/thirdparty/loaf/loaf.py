"""Baker's percentages: everything is counted on the flour."""

from stillroom import Calculator, limit, var

dough = Calculator(
    "dough", "Flour, water and salt for bread dough",
    var("flour", "gram", "flour", state="dry"),
    var("water", "gram", "water, dough water"),
    var("salt", "gram", "salt", state="dry"),
    var("dough", "gram", "dough, bread dough", role="into"),
    var("hydration", "percent", "hydration", bounds=(0, 200), usual=(50, 90), default=65,
        note="65 % of the flour: common practice, no source"),
    var("salting", "percent", "salting, of salt", bounds=(0, 10), usual=(1, 3), default=2,
        note="2 % of the flour: common practice, no source"),
    equations=["water = hydration * flour", "salt = salting * flour", "dough = flour + water + salt"],
    limits=[limit("salting <= 0.05", "caution", "At {salting} of salt the yeast hardly works.")],
    words="bread, dough, bake, loaf", only="bread, dough, loaf, flour, hydration",
    asked="flour, water, salt, dough",
    method=["Mix {flour} of flour with {water} of water, rest, then add {salt} of salt."],
    cautions=["Wheat, rye and barley hold gluten, an allergen: tell the guest. Raw flour is not for tasting."],
    conventions=["percentages are of the flour's weight"],
    examples=[("how much flour for 1670 g of bread dough?", "1000 gram"),
              ("500 g of flour at 70 % hydration, how much water for the dough?", "350 gram")],
    source="common practice, no source")
