"""What keeps a guest awake: the caffeine of a spec."""

from stillroom import Calculator, Lines, hookimpl, var

FDC = "from memory of USDA FoodData Central"
DRINKS = [("ristretto", "ristretto", 2.1, FDC), ("mate", "yerba mate", 0.33, "from memory of a food table"),
          ("cola", "cola", 0.1, FDC), ("oat_drink", "oat drink;oat milk", 0.0, "by definition")]

caffeine = Calculator(
    "caffeine", "Caffeine in a drink of several ingredients",
    var("caffeine", "gram", "caffeine", show="milligram"),
    var("drink", "milliliter", "drink, cup, glass", hidden=True),
    var("content", "gram / liter", "caffeine content, per litre", shy=True),
    equations=["caffeine = content * drink"],
    lines=Lines(sums={"caffeine": "volume * caffeine", "drink": "volume"}, columns={"caffeine": "gram / liter"},
                fills={"caffeine": "caffeine"}, holds={"caffeine": "stimulant, coffee, tea"},
                needs=("caffeine",), minimum=2),
    words="caffeine, awake", only="caffeine", asked="caffeine, content",
    cautions=["A label or a measurement goes before these figures; caffeine is no advice for anybody's health.",
              "Oats count among the cereals with gluten, an allergen: tell the guest."],
    examples=[("how much caffeine in 40 ml ristretto and 160 ml oat drink?", "84 milligram")],
    source=FDC)


@hookimpl
def stillroom_calculators():
    return [caffeine]


@hookimpl
def stillroom_substances():
    return [{"id": f"wakeful_{name}", "words": words, "state": "liquid", "source": source, "caffeine": content,
             "allergens": "gluten" if name == "oat_drink" else "",
             "kind": "drink;stimulant" if content else "drink"} for name, words, content, source in DRINKS]
