"""A laboratory's buffers: powder to weigh for a volume at a molarity, by the substance's molar mass."""

import csv
from importlib import resources

from stillroom import Calculator, choice, hookimpl, limit, var

POWDERS = list(csv.DictReader(resources.files(__package__).joinpath("powders.csv").read_text("utf-8").splitlines()))

buffer = Calculator(
    "buffer", "Powder for a buffer solution",
    choice("salt", POWDERS, fills={"molar_mass": "molar_mass"}, words="which buffer"),
    var("powder", "gram", "powder", things="buffer", state="dry", named_by="salt.words"),
    var("volume", "liter", "buffer, buffer solution, volume", role="into"),
    var("molarity", "millimolar", "molarity, concentration, strength", usual=(1, 1000)),
    var("molar_mass", "gram / mole", "molar mass", shy=True),
    equations=["powder = molar_mass * molarity * volume"],
    limits=[limit("molarity <= strong", "caution", "{molarity} is more than most buffers dissolve to: warm and wait.")],
    constants={"strong": (1000, "millimolar")},
    words="buffer, molar", only="buffer, millimolar, molarity", asked="powder, volume, molarity",
    method=["Dissolve {powder} in three quarters of the water, set the pH, then fill up to {volume}."],
    cautions=["Read the maker's safety sheet; nothing from a laboratory goes into a drink."],
    examples=[("how much tris for 500 ml of a 50 millimolar buffer?", "3.028 gram"),
              ("11.92 g of hepes in 1 l of buffer, what molarity?", "50.02 millimolar")],
    source="amount of substance = mass / molar mass (SI Brochure)")


@hookimpl
def stillroom_calculators():
    return [buffer]


@hookimpl
def stillroom_substances():
    return [{"id": row["id"], "words": row["words"], "state": "dry", "kind": "buffer", "source": row["source"]}
            for row in POWDERS]


@hookimpl
def stillroom_units():
    return [{"name": "millimolar", "definition": "mole / liter / 1000", "words": "millimolar;mmol/l;mM",
             "symbol": "mmol/l"}]
