"""Small calculators that the tests of the kernel share.  They are about ink and tea, not about a bar."""

from __future__ import annotations

from stillroom import Calculator, Function, Kernel, choice, limit, var
from stillroom.messages import Answer

TEA = Calculator(
    "tea",
    "Leaf for tea",
    var("leaf", "gram"),
    var("water", "liter"),
    var("dose", "gram / liter", default=8, usual=(4, 15), note="as it is usually made"),
    equations=["leaf = dose * water"],
    asked="leaf, water, dose",
    source="common practice",
    example=("how much tea for 1.5 l?", "12 gram"),
)
BRINE = Calculator(
    "brine",
    "Salt water by mass",
    var("salt", "gram"),
    var("water", "gram"),
    var("brine", "gram"),
    var("strength", "percent_ww", bounds=(0, 100)),
    equations=["brine = salt + water", "salt = strength * brine"],
    source="by definition",
    limits=[limit("strength <= 0.26", "refuse", "No more than 26 % of salt dissolves; this would be {strength}.")],
)
ROOM = Calculator(
    "room",
    "Two sides of a sheet from its area and the half of its edge",
    var("long", "centimeter", usual=(20, 100)),
    var("short", "centimeter", usual=(1, 20)),
    var("edge", "centimeter"),
    var("area", "centimeter", hidden=True),
    var("surface", "milliliter"),
    var("depth", "centimeter", default=1),
    equations=["edge = long + short", "surface = long * short * depth"],
    source="geometry",
)
INKS = [
    {
        "id": "iron",
        "words": "iron, gall",
        "density": 1.2,
        "caution": "Iron gall ink stains.",
        "source": "a table of ours",
    },
    {"id": "soot", "density": 1.05, "source": "a table of ours"},
    {"id": "lead", "density": 2, "source": "a table of ours", "refuse": "Lead is a poison."},
]
INK = Calculator(
    "ink",
    "Ink by weight and by volume",
    choice("kind", INKS, fills={"density": "density"}),
    var("mass", "gram"),
    var("volume", "milliliter"),
    var("density", "gram / milliliter"),
    equations=["mass = density * volume"],
    source="by definition",
)


def arc(t: float) -> float:
    """A curve with a hill: the same height on both sides of 50."""
    if not 0 <= t <= 100:
        raise ValueError("The curve is known from 0 to 100 only.")
    return t * (100 - t) / 25


def slope(t: float) -> float:
    """A curve that only rises."""
    return t + t**3 / 1e4


HILL = Calculator(
    "hill",
    "Height along a hill",
    var("place", "percent", bounds=(0, 100)),
    var("height", "percent", bounds=(0, 100)),
    equations=["height = arc(place)"],
    source="a made-up curve",
    functions=[Function("arc", arc, ("percent",), "percent", (0, 100), "a made-up curve")],
)
CLIMB = Calculator(
    "climb",
    "Height along a slope",
    var("place", "percent", bounds=(0, 100)),
    var("height", "percent", bounds=(0, 300)),
    var("people", "count"),
    var("steps", "count"),
    equations=["height = slope(place)", "steps = people * height"],
    source="a made-up curve",
    functions=[Function("slope", slope, ("percent",), "percent", (0, 100), "a made-up curve")],
)
BOXES = Calculator(
    "boxes",
    "Boxes of pens",
    var("pens", "count"),
    var("each", "count", default=12),
    var("boxes", "count", whole="up"),
    var("crates", "count"),
    equations=["pens = each * boxes"],
    steps=["crates := ceil(boxes / 4)"],
    source="counting",
)


def kernel_of(*calculators: Calculator, **more: object) -> Kernel:
    """A kernel with these calculators, each a plugin of its own name."""
    kernel = Kernel(discover=False, **more)  # type: ignore[arg-type]
    for c in calculators:
        errors = kernel.add(c.name, c).errors
        assert errors == [], errors
    return kernel


def ask(kernel: Kernel, calculator: str, given: dict[str, tuple[float, str]], *wanted: str, **more: object) -> Answer:
    """The answer of ``calculator.calculator``."""
    return kernel.answer(kernel.request(f"{calculator}.{calculator}", given, wanted, **more))


def number(answer: Answer) -> float:
    """The first number of an answer that has one."""
    assert answer.status == "answered", answer.reason
    return answer.answer[0].base
