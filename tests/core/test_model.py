"""What registration refuses, by name and in a sentence: dimensions, kinds of percent, unknown names."""

from __future__ import annotations

from typing import Any

import pytest
from stillroom import Calculator, Function, Kernel, Lines, Row, choice, include, limit, var, whole
from stillroom.errors import DeclarationError, DimensionError, FormulaError, StillroomError

MASS, VOLUME, BRIX, ABV = (
    var("mass", "gram"),
    var("volume", "liter"),
    var("brix", "percent_ww"),
    var("abv", "percent_vv"),
)
F = Function("weigh", lambda x: x, ("percent_ww", "degree_Celsius"), "gram / liter", (0, 80), "made up")
WARM = var("warm", "degree_Celsius")


def errors(*parts: Any, equations: tuple[str, ...] = (), **more: Any) -> list[str]:
    return Kernel(discover=False).add("p", Calculator("c", "A title", *parts, equations=equations, **more)).errors


SENTENCES = {
    "two dimensions": (
        [MASS, VOLUME],
        ["mass = volume"],
        {},
        "p.c: in 'mass = volume' the left side measures mass, the right volume.",
    ),
    "a sum of two dimensions": (
        [MASS, VOLUME],
        ["mass = mass + volume"],
        {},
        "p.c: 'mass = mass + volume' adds mass and volume.",
    ),
    "a power of a measure": (
        [MASS, VOLUME],
        ["mass = mass ** volume"],
        {},
        "p.c: 'mass = mass ** volume' has a power that is not a plain number.",
    ),
    "percent by mass of a volume": (
        [VOLUME, BRIX],
        ["volume = brix * volume"],
        {},
        "p.c: 'volume = brix * volume' takes a percent by mass of a volume.",
    ),
    "percent by volume of a mass": (
        [MASS, ABV],
        ["mass = abv * mass"],
        {},
        "p.c: 'mass = abv * mass' takes a percent by volume of a mass.",
    ),
    "percent by mass as one by volume": (
        [BRIX, ABV],
        ["brix = abv"],
        {},
        "p.c: 'brix = abv' equates a percent by mass with one by volume.",
    ),
    "an unknown name": ([MASS], ["mass = weight"], {}, "p.c: 'mass = weight' names 'weight', which is not declared."),
    "an unknown function": (
        [MASS],
        ["mass = f(mass)"],
        {},
        "p.c: 'mass = f(mass)' calls 'f', which is not among its functions.",
    ),
    "too few arguments": (
        [MASS, BRIX],
        ["mass = weigh(brix)"],
        {"functions": [F]},
        "p.c: 'mass = weigh(brix)': weigh takes 2 arguments, not 1.",
    ),
    "an argument of another dimension": (
        [MASS, BRIX, VOLUME],
        ["mass = weigh(brix, mass) * volume"],
        {"functions": [F]},
        "p.c: 'mass = weigh(brix, mass) * volume': weigh takes degree_Celsius, not mass.",
    ),
    "an argument of another kind": (
        [MASS, ABV, VOLUME, WARM],
        ["mass = weigh(abv, warm) * volume"],
        {"functions": [F]},
        "p.c: 'mass = weigh(abv, warm) * volume': weigh takes percent_ww, not percent_vv.",
    ),
    "no argument": ([MASS], ["mass = min()"], {}, "p.c: 'mass = min()': min cannot take 0 arguments."),
    "too many arguments": (
        [MASS],
        ["mass = ceil(mass, mass)"],
        {},
        "p.c: 'mass = ceil(mass, mass)': ceil cannot take 2 arguments.",
    ),
    "the smaller of two dimensions": (
        [MASS, VOLUME],
        ["mass = min(mass, volume)"],
        {},
        "p.c: 'mass = min(mass, volume)' compares things that are measured differently.",
    ),
    "a choice that is none": (
        [MASS],
        ["mass = look(mass)"],
        {"functions": [Function("look", lambda r: 1.0, ("choice",), "gram")]},
        "p.c: 'mass = look(mass)': 'mass' is no choice.",
    ),
    "an unknown unit": ([var("mass", "gramm")], [], {}, "There is no unit 'gramm'. Did you mean gram"),
    "shown in another dimension": (
        [var("mass", "gram", show="liter")],
        [],
        {},
        "p.c: mass is in gram and cannot be shown in liter.",
    ),
    "a limit of two dimensions": (
        [MASS, VOLUME],
        [],
        {"limits": [limit("mass <= volume", "refuse", "no")]},
        "p.c: in 'mass <= volume' the left side measures mass, the right volume.",
    ),
    "a default of another dimension": (
        [var("mass", "gram", default="volume"), VOLUME],
        [],
        {},
        "p.c: in 'default mass = volume' the left side measures mass, the right volume.",
    ),
    "asked for what is not there": (
        [MASS],
        [],
        {"asked": "weight"},
        "p.c: asked names 'weight', which is no variable.",
    ),
    "a ratio of what is not there": (
        [MASS, var("r", "dimensionless", ratio="mass:water")],
        [],
        {},
        "p.c: the ratio r names 'water', which is no variable.",
    ),
    "named by no choice": (
        [var("mass", "gram", named_by="thing")],
        [],
        {},
        "p.c: mass is named by 'thing', which is no choice.",
    ),
    "a choice that fills nothing": (
        [MASS, choice("k", [{"id": "a", "source": "s"}], fills={"x": "y"})],
        [],
        {},
        "p.c: the choice k fills 'x', which is no variable.",
    ),
    "a temperature as a plain number": (
        [var("warm", "degree_Celsius"), var("n", "count")],
        ["warm = n"],
        {},
        "p.c: in 'warm = n' the left side measures temperature, the right a plain number.",
    ),
    "a step of another dimension": (
        [MASS, VOLUME],
        [],
        {"steps": ["mass := ceil(volume)"]},
        "p.c: in 'mass := ceil(volume)' the left side measures mass, the right volume.",
    ),
}


@pytest.mark.parametrize(("parts", "equations", "more", "sentence"), SENTENCES.values(), ids=SENTENCES.keys())
def test_what_cannot_work_is_said_in_a_sentence(
    parts: list[Any], equations: list[str], more: dict[str, Any], sentence: str
) -> None:
    (error,) = errors(*parts, equations=tuple(equations), **more)
    assert error == sentence or (sentence.startswith("There is no unit") and error.startswith(sentence))


@pytest.mark.parametrize(
    ("parts", "equations"),
    [
        ([MASS, BRIX, var("sugar", "gram")], "sugar = brix * mass"),
        ([VOLUME, ABV, var("ethanol", "liter")], "ethanol = abv * volume"),
        ([MASS, VOLUME, var("content", "percent_wv")], "mass = content * volume"),
        ([MASS, VOLUME, var("d", "gram / milliliter"), BRIX, var("s", "gram")], "s = brix * (d * volume)"),
        ([MASS, var("side", "centimeter"), var("d", "gram / milliliter")], "mass = d * side ** 3"),
        ([MASS, var("side", "centimeter"), var("d", "gram / milliliter")], "d = mass * side ** -3"),
        ([MASS, var("n", "count")], "mass = mass * 2 ** n"),
        ([MASS], "mass - mass = 0"),
    ],
    ids=lambda x: x if isinstance(x, str) else "",
)
def test_what_is_consistent_is_taken(parts: list[Any], equations: str) -> None:
    assert errors(*parts, equations=(equations,)) == []


@pytest.mark.parametrize(
    "make",
    [
        lambda: var("Mass", "gram"),
        lambda: var("mass!", "gram"),
        lambda: var("class", "gram"),
        lambda: var("", "gram"),
        lambda: var("m" * 41, "gram"),
        lambda: var("__import__", "gram"),
        lambda: var("mass", "gram", role="boss"),
        lambda: choice("k", [{"id": "a"}]),
        lambda: choice("k", [{"source": "s"}]),
        lambda: choice("k", [{"id": "a", "source": "s"}], default="b"),
        lambda: limit("mass <= 1", "forbid", "no"),
        lambda: whole("mass = 1"),
        lambda: Calculator("A b", "t"),
        lambda: Calculator("c", "t", MASS, MASS),
        lambda: Calculator("c", "t", MASS, constants={"mass": (1, "gram")}),
        lambda: include(Calculator("c", "t", MASS), weight="w"),
    ],
)
def test_a_bad_part_is_refused_where_it_is_written(make: Any) -> None:
    with pytest.raises(DeclarationError):
        make()


def test_a_limit_is_read_where_it_is_written() -> None:
    with pytest.raises(FormulaError, match="is not a comparison"):
        limit("mass", "refuse", "no")


def test_including_renames_everywhere() -> None:
    inner = Calculator(
        "inner",
        "t",
        var("salt", "gram"),
        var("water", "gram", default="salt * 3"),
        equations=["salt = 2 * water"],
        limits=[limit("salt <= water", "caution", "much {salt}")],
        source="inner source",
    )
    outer = Calculator("outer", "t", include(inner, sugar="salt"), var("more", "gram"), equations=["more = sugar"])
    assert list(outer.variables) == ["sugar", "water", "more"]
    assert outer.equations == ("sugar = 2 * water", "more = sugar")
    assert outer.variables["water"].default == "sugar * 3" and outer.limits[0].test == "sugar <= water"
    assert outer.sources == ("inner source",)


def test_the_fingerprint_follows_what_a_plan_stands_on() -> None:
    def print_of(*, unit: str = "gram", high: float = 5, version: str = "1", title: str = "t") -> str:
        f = Function("f", lambda x: x, (unit,), unit, (0, 9), version=version)
        kernel = Kernel(discover=False)
        kernel.add(
            "p",
            Calculator(
                "c", title, var("a", unit, bounds=(0, high)), var("b", unit), equations=["a = f(b)"], functions=[f]
            ),
        )
        return kernel.model("p.c").fingerprint

    assert print_of() == print_of(title="worded otherwise")
    assert len({print_of(), print_of(unit="kilogram"), print_of(high=6), print_of(version="2")}) == 4


def test_errors_are_one_tree() -> None:
    assert issubclass(DimensionError, DeclarationError) and issubclass(DeclarationError, StillroomError)


def test_rows_and_lines_are_plain_declarations() -> None:
    assert Row("a", ("a",)).refuse == "" and Lines().minimum == 1


@pytest.mark.parametrize("words", ["black tea, assam", " black tea ;; assam;", ("Black tea", "assam")])
def test_words_are_parted_by_commas_or_as_in_a_cell(words: Any) -> None:
    row = {"id": "assam", "words": words, "source": "made up"}
    assert choice("tea", [row]).rows["assam"].words == ("black tea", "assam")
    assert var("tea", "gram", words).words[:2] == ("black tea", "assam")
